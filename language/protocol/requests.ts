import type { PaneUnits } from './pane-choices.ts';

/** What the extension asks of the server beyond the language server protocol. Method names and shapes, nothing else. */

/** What the server says of itself when it starts, as `experimental` among its capabilities. */
export interface ServerExtras {
  /** Rules that a page under `docs/rules` explains. */
  readonly rulesWithPage: readonly string[];
}

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
  /** Those in which the pane labels; absent: as before, at first as written. */
  readonly units?: PaneUnits;
  /** The wall or girder to look at until the cursor moves; with `openPreview`: where the cursor is on none. */
  readonly look?: string;
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

/** Request: where a connector may be moved on its wall, of the text as it is now; answered with `MovesAnswer`. */
export const movesRequest = 'sillwright/moves';
export interface MovesParams extends PlaceParams {
  /** Of the labels; absent: as written. */
  readonly units?: PaneUnits;
}
/** Request: moves a connector, as one edit of the text; answered with `EditAnswer`. */
export const moveRequest = 'sillwright/move';
export interface MoveParams extends PlaceParams {
  /** In whole nanometres from the wall's left end. */
  readonly station: number;
  /** Of the texts that the person saw: anything else is refused. */
  readonly revision: number;
}
/** Request: what would mend some findings, by the titles of the lightbulb; answered with `FixesAnswer`, `null` on other texts. */
export const fixesRequest = 'sillwright/fixes';
export interface FixesParams {
  readonly uri: string;
  readonly revision: number;
  readonly findings: readonly number[];
}
/** Request: mends a finding by one of its fixes, as one edit of the text; answered with `EditAnswer`. */
export const mendRequest = 'sillwright/mend';
export interface MendParams {
  readonly uri: string;
  readonly revision: number;
  /** As counted in its `FindingLine`. */
  readonly finding: number;
  readonly fix: number;
}

/** Request: all drawings of a layout as SVG, of the text as it is now; or one of them. */
export const drawingsRequest = 'sillwright/drawings';
export interface LayoutParams {
  readonly uri: string;
}
export interface DrawingsParams extends LayoutParams {
  /** One drawing, by what it shows: `plan`, `wall:F`, `girder:GD`. Absent: all. */
  readonly only?: string;
  /** Absent: as written. */
  readonly units?: PaneUnits;
  /** The printed set, framed and with title blocks, on this paper. Absent: each drawing alone, as large as it is. */
  readonly sheet?: SheetPaper;
}
/** `usual`: 24 x 18 in, for a metric layout A2. */
export type SheetPaper = 'usual' | '24x18' | '36x24' | '17x11' | 'A1' | 'A2' | 'A3';
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

/**
 * Request: the rule sets that a layout may be checked under: those that ship, those in the file and in the files that it uses, and
 * those in other files.
 */
export const ruleSetsRequest = 'sillwright/ruleSets';
export interface RuleSetsParams extends LayoutParams {
  readonly others?: readonly OtherFile[];
}
/** A file of the workspace that the layout does not use, with its text as it is now: a server in a browser reads no disk. */
export interface OtherFile {
  readonly uri: string;
  readonly text: string;
}
export type RuleSetsAnswer =
  | {
      readonly kind: 'rule-sets';
      /** By name; none twice. `from`: the other file that has it. */
      readonly inSight: readonly {
        readonly name: string;
        readonly title: string | undefined;
        readonly from?: string;
      }[];
      /** Those that the title block names, in order; the later one overrides. */
      readonly chosen: readonly string[];
    }
  | { readonly kind: 'refused'; readonly reason: string };

/** Request: one layout under each of several choices of rule sets, side by side, of the text as it is now. */
export const compareRuleSetsRequest = 'sillwright/compareRuleSets';
export interface CompareRuleSetsParams {
  readonly uri: string;
  /** Two or more; each names rule sets in order, the later one overrides. */
  readonly choices: readonly (readonly string[])[];
  /** Where to look for a rule set that is not in sight of the layout. */
  readonly others?: readonly OtherFile[];
}
export type CompareRuleSetsAnswer =
  | { readonly kind: 'comparison'; readonly text: string }
  | { readonly kind: 'refused'; readonly reason: string };

/** Notification from the server: what stands in the status bar for a layout that is open. */
export const layoutState = 'sillwright/layoutState';
export interface LayoutState extends LayoutCounts {
  /** The rule sets in force, in words. */
  readonly rules: string;
  readonly label: string;
}
