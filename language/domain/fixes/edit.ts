import type { ThingId } from '../model/layout.ts';
import type { Length } from '../units/length.ts';

/** A change in terms of things, not of text; `language/syntax/write-edit.ts` turns it into text. */
export type ThingEdit =
  | {
      readonly kind: 'insert-anchor';
      readonly wall: ThingId;
      readonly mark: string;
      readonly connector: string;
      readonly station: Length;
      /** The anchor line that it goes below; without one, the end of the wall's last `work on` block. */
      readonly after: ThingId | undefined;
      readonly rightAngleDrill?: boolean;
      readonly shim?: Length;
    }
  /** A comment behind it stays. */
  | { readonly kind: 'remove-anchor'; readonly anchor: ThingId }
  | {
      readonly kind: 'insert-angles';
      readonly wall: ThingId;
      readonly mark: string;
      readonly connector: string;
      readonly stations: readonly Length[];
    }
  | { readonly kind: 'insert-blocking'; readonly wall: ThingId; readonly bays: readonly number[] }
  | import('./work-edit.ts').WorkEdit
  | { readonly kind: 'set-station'; readonly anchor: ThingId; readonly station: Length }
  | { readonly kind: 'set-connector'; readonly anchor: ThingId; readonly connector: string }
  /** What an old anchor counts for; every anchor of its line goes with it. */
  | { readonly kind: 'set-credit'; readonly anchor: ThingId; readonly credit: 'none' }
  /** A line of its own at the end of what was found on a wall. */
  | { readonly kind: 'insert-survey-line'; readonly wall: ThingId; readonly text: string }
  /** A board that `break` cuts, as one `sill` line for each of its parts. */
  | { readonly kind: 'spell-out-breaks'; readonly wall: ThingId }
  /** More words at the end of what a line says, before its comment. */
  | { readonly kind: 'add-words'; readonly span: import('../model/source.ts').SourceSpan; readonly text: string }
  /** Another shim or embedment of a planned anchor. */
  | {
      readonly kind: 'set-value';
      readonly anchor: ThingId;
      readonly key: 'shim' | 'embed';
      readonly value: Length;
    }
  /** New treated wood in place of a stretch of a board. */
  | {
      readonly kind: 'replace-sill';
      readonly wall: ThingId;
      readonly piece: ThingId;
      readonly from: Length;
      readonly to: Length;
    }
  /** What the closing of the outline makes of a wall's length, beside the taped one. */
  | { readonly kind: 'set-adjusted'; readonly wall: ThingId; readonly length: Length }
  /** Replaces a stretch of text as it stands: for findings about spelling. */
  | { readonly kind: 'replace-text'; readonly span: import('../model/source.ts').SourceSpan; readonly text: string };

/** Whether the edit has to be written into the text, and that read again, before anybody can tell what comes of it. */
export function showsInTextOnly(edit: ThingEdit): boolean {
  return (
    edit.kind === 'replace-text' ||
    edit.kind === 'set-adjusted' ||
    edit.kind === 'insert-survey-line' ||
    edit.kind === 'spell-out-breaks' ||
    edit.kind === 'add-words'
  );
}
