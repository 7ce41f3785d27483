import type { AnchorFacts } from '../../support/houses/facts.ts';
import type { Injected, LegalHouse, Place } from './defect.ts';
import { firstOf, lengthIn, shuffled, stationIn } from './defect.ts';
import type { Edit } from './house-text.ts';
import { addLine, anchorLine, changeLine, dropLine, edited, workOn } from './house-text.ts';
import type { PlacedAnchorFacts } from './spots.ts';
import { anchorsIn, boltOffset, isBolt } from './spots.ts';

/** Another wording of the line of one anchor. */
export const rewrite = (
  wall: { readonly name: string },
  { mark }: AnchorFacts,
  change: (line: string) => string,
): Edit => changeLine(workOn(wall), anchorLine(mark), change);

/** Marks are taken out of the record too: nobody installs what was never drawn. */
export function without(house: LegalHouse, wall: { readonly name: string }, anchors: readonly AnchorFacts[]): Edit {
  return (text) => {
    const marks = anchors.map(({ mark }) => mark);
    if (marks.some((mark) => spokenOf(house.text, mark))) return undefined;
    return edited(text, ...marks.map((mark) => dropLine(workOn(wall), anchorLine(mark))));
  };
}

/** Whether the record or an issue speaks of a mark. */
export function spokenOf(text: string, mark: string): boolean {
  const lines = text.split('\n').filter((line) => /^ {2}(installed|tested|changed|omitted) /.test(line));
  return lines.some((line) => line.split(/[ ,]+/).includes(mark));
}

/** One more of the same kind. */
export function copyAt(
  house: LegalHouse,
  { wall, anchor }: { readonly wall: { readonly name: string }; readonly anchor: AnchorFacts },
  station: number,
  mark = `${wall.name}-99`,
): Edit {
  const offset = isBolt(anchor) ? ` offset ${lengthIn(house, boltOffset(house.facts))}` : '';
  return addLine(workOn(wall), `anchor ${mark} ${anchor.connector} at ${stationIn(house, station)}${offset}`);
}

export function result(house: LegalHouse, expected: readonly Place[], ...edits: readonly Edit[]): Injected | undefined {
  const text = edited(house.text, ...edits);
  return text === undefined ? undefined : { text, expected };
}

/** Any anchor that was not built yet: of one that is in the wall some checks say nothing. */
export function onAnchors(
  house: LegalHouse,
  answer: (place: PlacedAnchorFacts) => Injected | undefined,
): Injected | undefined {
  const planned = anchorsIn(house.facts).filter(({ anchor }) => !spokenOf(house.text, anchor.mark));
  return firstOf(shuffled(house.random, planned), answer);
}
