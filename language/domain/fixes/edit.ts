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
    }
  | { readonly kind: 'set-station'; readonly anchor: ThingId; readonly station: Length }
  | { readonly kind: 'set-connector'; readonly anchor: ThingId; readonly connector: string }
  /** Replaces a stretch of text as it stands: for findings about spelling. */
  | { readonly kind: 'replace-text'; readonly span: import('../model/source.ts').SourceSpan; readonly text: string };
