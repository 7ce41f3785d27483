import type { Stretch, ThingId } from '../model/layout.ts';
import type { Length } from '../units/length.ts';

/** Edits of planned work that do more than place an anchor. `apply-work-edit.ts` makes them in memory. */
export type WorkEdit =
  | { readonly kind: 'set-right-angle-drill'; readonly anchor: ThingId }
  /** From the inner edge of the sill to the middle of a bolt. */
  | { readonly kind: 'set-offset'; readonly anchor: ThingId; readonly offset: Length }
  /** `with washer-3`: one more piece of hardware. */
  | { readonly kind: 'add-hardware'; readonly anchor: ThingId; readonly hardware: string }
  | { readonly kind: 'drop-hardware'; readonly anchor: ThingId; readonly hardware: string }
  /** A line of its own: the trade that it belongs to moves a thing that was found. */
  | { readonly kind: 'relocate'; readonly wall: ThingId; readonly thing: ThingId; readonly name: string }
  | { readonly kind: 'set-panel-stretch'; readonly panel: ThingId; readonly stretch: Stretch }
  /** Another panel like one that is there, below it. */
  | {
      readonly kind: 'insert-panel';
      readonly wall: ThingId;
      readonly like: ThingId;
      readonly mark: string;
      readonly stretch: Stretch;
    }
  | { readonly kind: 'add-flat-block'; readonly panel: ThingId };
