import { namesBay } from '../model/joists.ts';
import type { Rim, Stretch, Wall } from '../model/layout.ts';

/** A bay between two joists, counted from the left end of the wall. */
export interface NumberedBay extends Stretch {
  readonly number: number;
}

export interface ClosedBays {
  has(bay: NumberedBay): boolean;
  readonly unknown: readonly string[];
}

/** Which bays have a rim joist or a block; `silent` where nobody says, `none` where somebody says that there is nothing. */
export function closedBays(wall: Wall): ClosedBays | 'silent' | 'none' {
  const rims = wall.rims.filter((rim) => rimIsThere(rim) !== undefined);
  if (rims.length === 0 && wall.blocking.length === 0)
    return wall.absent.has('rim') || wall.absent.has('blocking') ? 'none' : 'silent';
  const closing = rims.filter((rim) => rimIsThere(rim) === 'yes');
  const unseen = rims.filter((rim) => rimIsThere(rim) === 'unknown');
  const blocks = wall.blocking.map((each) => namesBay(each.bays));
  const unknownBlocks = wall.blocking.some((each) => each.bays.kind === 'unknown');
  return {
    has: (bay) =>
      closing.some((rim) => rim.from <= bay.from && bay.to <= rim.to) || blocks.some((names) => names(bay.number)),
    unknown: [
      ...(unseen.length > 0 ? [`rim joist of wall ${wall.name}`] : []),
      ...(unknownBlocks ? [`blocking of wall ${wall.name}`] : []),
    ],
  };
}

/** `undefined`: the line says nothing of it. Nails that somebody saw are in a rim joist that is there. */
export function rimIsThere(rim: Rim): 'yes' | 'no' | 'unknown' | undefined {
  if (rim.seen === 'absent') return 'no';
  if (rim.seen === 'seen' || rim.size || (rim.nails && typeof rim.nails === 'object')) return 'yes';
  if (rim.seen === 'unseen' || rim.nails === 'unknown' || rim.nails === 'unseen') return 'unknown';
  return undefined;
}
