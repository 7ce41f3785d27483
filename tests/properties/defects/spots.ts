import type { AnchorFacts, HouseFacts, PieceFacts, WallFacts } from '../../support/houses/facts.ts';
import { INCH } from '../../support/houses/facts.ts';

/** Table A304.3.1 of the rule set existing-building, for anchors of 1/2 in. */
export const spacingLimit = ({ storeys }: HouseFacts): number => (storeys === 1 ? 72 : 48) * INCH;

/** A board that goes by spacing, not by number. */
export const isLong = ({ from, to }: PieceFacts): boolean => to - from >= 144 * INCH;

export const isBolt = ({ connector }: { readonly connector: string }): boolean => connector === 'bolt-half';

export interface Board {
  readonly wall: WallFacts;
  readonly piece: PieceFacts;
  /** In order of station. */
  readonly anchors: readonly AnchorFacts[];
}

export function boardsOf({ walls }: Pick<HouseFacts, 'walls'>): readonly Board[] {
  return walls.flatMap((wall) =>
    wall.pieces.map((piece, index) => ({
      wall,
      piece,
      anchors: wall.anchors.filter((anchor) => anchor.piece === index).toSorted((a, b) => a.station - b.station),
    })),
  );
}

export interface PlacedAnchorFacts extends Board {
  readonly anchor: AnchorFacts;
  /** Next ones on the same board. */
  readonly before: AnchorFacts | undefined;
  readonly after: AnchorFacts | undefined;
}

export function anchorsIn(facts: Pick<HouseFacts, 'walls'>): readonly PlacedAnchorFacts[] {
  return boardsOf(facts).flatMap((board) =>
    board.anchors.map((anchor, index) => ({
      ...board,
      anchor,
      before: board.anchors[index - 1],
      after: board.anchors[index + 1],
    })),
  );
}

/** Centres of studs under whose feet no bolt goes; none where the joists lie on the sill. */
export function studsNear(wall: WallFacts): readonly number[] {
  const { first, spaced } = wall.studs;
  const count = Math.floor((wall.length - first) / spaced) + 1;
  const studs = Array.from({ length: count }, (_, index) => first + index * spaced);
  return studs.filter((at) => wall.runs.some(({ from, to, cripple }) => cripple && from <= at && at <= to));
}

/** Inches that each kind of thing keeps from the middle of an anchor. */
const KEEPS: Readonly<Record<string, number>> = {
  'gas-pipe': 13,
  conduit: 19,
  flue: 14,
  'electrical-panel': 26,
  meter: 22,
};

/** Nothing keeps the connector from standing there but its neighbours on the board and the board's ends. */
export function isOpen(facts: HouseFacts, wall: WallFacts, connector: string, at: number): boolean {
  const clear = isBolt({ connector }) ? facts.stud.thick / 2 + 1.5 * INCH : 0;
  if (clear > 0 && studsNear(wall).some((stud) => Math.abs(stud - at) < clear)) return false;
  const keeps = wall.obstructions.every(({ kind, from, to }) => {
    const by = (KEEPS[kind] ?? 10) * INCH;
    return at <= from - by || at >= to + by;
  });
  return keeps && wall.defects.every(({ from, to }) => at <= from - 13 * INCH || at >= to + 13 * INCH);
}

/** Nothing stands within so much of a place: no panel, no thing, no defect. */
export function isBare(wall: WallFacts, from: number, to: number, by = 12 * INCH): boolean {
  return [...wall.panels, ...wall.obstructions, ...wall.defects].every(
    (each) => each.to + by <= from || to + by <= each.from,
  );
}

/** How far the nearest other anchor of the wall stands. */
export function nearestAnchor(wall: WallFacts, at: number, but?: AnchorFacts): number {
  return Math.min(...wall.anchors.filter((each) => each !== but).map(({ station }) => Math.abs(station - at)));
}

/** On the tape of the house. */
export function onTape({ units }: HouseFacts, length: number): number {
  const step = units === 'metric' ? 1_000_000 : INCH / 4;
  return Math.round(length / step) * step;
}

/** Of each bolt as the houses have it: between the back of a panel on the studs and the outer edge of the sill. */
export const boltOffset = ({ units }: HouseFacts): number => (units === 'metric' ? 93_000_000 : 3.625 * INCH);
