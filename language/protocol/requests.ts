/** What the extension asks of the server beyond the language server protocol. Method names and shapes, nothing else. */

export const scheduleRequest = 'sillwright/schedule';
export type ScheduleFormat = 'text' | 'csv' | 'json';
export const scheduleFormats: readonly ScheduleFormat[] = ['text', 'csv', 'json'];
export interface ScheduleParams {
  readonly uri: string;
  readonly format: ScheduleFormat;
  /** `connectors`, `panels`, … or `all`; absent: all of them, in CSV the connectors. */
  readonly of?: readonly string[];
}
/** The schedule of the text as it is now, saved or not. */
export type ScheduleAnswer =
  | { readonly kind: 'schedule'; readonly text: string; readonly version: number }
  | { readonly kind: 'refused'; readonly reason: string };

/** Notification: a pane for this file is in sight; send updates. Sent again, it asks for everything anew. */
export const openPreview = 'sillwright/preview/open';
/** Notification: the pane is closed or out of sight. */
export const closePreview = 'sillwright/preview/close';
/** Notification: the cursor moved. */
export const cursorMoved = 'sillwright/preview/cursor';
/** Notification from the server: `PreviewUpdate`. */
export const previewUpdate = 'sillwright/preview/update';

export interface PreviewParams {
  /** The file whose house the pane shows. */
  readonly uri: string;
  readonly cursor: CursorPlace | undefined;
}
/** Where the cursor is: in the file itself or in one that it uses. Line and character count from 0 (UTF-16). */
export interface CursorPlace {
  readonly uri: string;
  readonly line: number;
  readonly character: number;
}

/** Request: where a thing stands in the text. */
export const placeOfThing = 'sillwright/placeOfThing';
export interface PlaceParams {
  readonly uri: string;
  readonly thing: string;
}
export interface Place {
  readonly uri: string;
  /** Of the text that the place is in; `undefined` where it is not open. */
  readonly version: number | undefined;
  readonly start: { readonly line: number; readonly character: number };
  readonly end: { readonly line: number; readonly character: number };
}

/** Request: all sheets of a layout as SVG, of the text as it is now. */
export const drawingsRequest = 'sillwright/drawings';
export interface LayoutParams {
  readonly uri: string;
}
export type DrawingsAnswer =
  | { readonly kind: 'drawings'; readonly sheets: readonly { readonly name: string; readonly svg: string }[] }
  | { readonly kind: 'refused'; readonly reason: string };

/** Request: what the checks find in each of several layouts, open or on disk. */
export const checkAllRequest = 'sillwright/checkAll';
export interface CheckAllParams {
  readonly uris: readonly string[];
}
export interface LayoutCounts {
  readonly uri: string;
  /** Absent where the file has no wall: hardware, rule sets, prices. */
  readonly counts?: CountsOfLayout;
  /** Why there are none. */
  readonly reason?: string;
}
export interface CountsOfLayout {
  readonly stops: number;
  readonly errors: number;
  readonly warnings: number;
  readonly infos: number;
  readonly notChecked: number;
  readonly assumed: number;
}

/** Notification from the server: what stands in the status bar for a layout that is open. */
export const layoutState = 'sillwright/layoutState';
export interface LayoutState extends LayoutCounts {
  /** The rule sets in force, in words. */
  readonly rules: string;
  readonly label: string;
}
