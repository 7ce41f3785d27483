import type { PieceFacts, RunFacts, WallFacts } from '../../support/houses/facts.ts';
import type { Injected, LegalHouse } from './defect.ts';
import { firstOf, shuffled } from './defect.ts';
import type { Edit } from './house-text.ts';
import { blockOf, inBlock, surveyOf } from './house-text.ts';

export function onRuns(
  house: LegalHouse,
  answer: (wall: WallFacts, run: RunFacts) => Injected | undefined,
): Injected | undefined {
  const runs = house.facts.walls.flatMap((wall) => wall.runs.map((run) => ({ wall, run })));
  return firstOf(shuffled(house.random, runs), ({ wall, run }) => answer(wall, run));
}

export const anchorsOn = (wall: WallFacts, run: RunFacts): WallFacts['anchors'] =>
  wall.anchors.filter(({ station }) => run.from <= station && station <= run.to);

/** The nth line of the foundation of a wall, or of its sill. */
export function onFoundation(wall: WallFacts, run: RunFacts, change: (line: string) => string): Edit {
  return onNth(wall, /^ {2}foundation /, wall.runs.indexOf(run), change);
}

export function onSill(wall: WallFacts, piece: PieceFacts, change: (line: string) => string): Edit {
  return onNth(wall, /^ {2}sill /, wall.pieces.indexOf(piece), change);
}

/** The nth of the lines of a wall that read so; `undefined` takes it out. */
export function onNth(wall: WallFacts, line: RegExp, nth: number, change: (line: string) => string | undefined): Edit {
  return inBlock(surveyOf(wall), (lines) => {
    const index = lines.flatMap((each, at) => (line.test(each) ? [at] : []))[nth];
    const found = index === undefined ? undefined : lines[index];
    if (index === undefined || found === undefined) return undefined;
    const changed = change(found);
    if (changed === found) return undefined;
    return lines.toSpliced(index, 1, ...(changed === undefined ? [] : [changed]));
  });
}

/** Readings along a board, beside those of its ends. */
export const hasMoreReadings = (text: string, wall: WallFacts): boolean =>
  /\n {2}(?:set-back|headroom) /.test(blockOf(text, surveyOf(wall)));
