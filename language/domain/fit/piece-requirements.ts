import type { Connector } from '../hardware/connector.ts';
import { anchorDiameter } from '../hardware/connector.ts';
import type { Layout, SillPiece, Stretch, Wall } from '../model/layout.ts';
import { leastCount, leastLength, mostLength } from '../rulesets/compare.ts';
import type { ConditionFact, LimitQuery } from '../rulesets/limit-for.ts';
import { limitFor } from '../rulesets/limit-for.ts';
import type { Limit } from '../rulesets/rule-set.ts';
import type { Length } from '../units/length.ts';
import { minus } from '../units/length.ts';
import type { AnchorDiameter, CountedAnchor } from './piece-anchors.ts';
import { anchorsOf } from './piece-anchors.ts';
import { storeysOver } from './storeys.ts';

/** What the rules in force ask, or why that cannot be told. */
export type Asked<Value> =
  /** `query`: the case that the limit was asked for; of several cases, the one with the strictest limit. */
  | { readonly kind: 'asked'; readonly value: Value; readonly limit: Limit; readonly query: LimitQuery }
  /** No limit covers the case. */
  | {
      readonly kind: 'none';
      readonly subject: string;
      readonly query: LimitQuery;
      readonly extreme: Extreme | undefined;
    }
  | { readonly kind: 'conflict'; readonly subject: string; readonly limits: readonly Limit[] }
  | { readonly kind: 'depends'; readonly wants: string };
type Extreme = 'least' | 'most';
export type Side = 'left' | 'right';

export const lengthOfPiece = (piece: Stretch): Length => minus(piece.to, piece.from);

/** The largest gap allowed between two neighbouring anchors: of different sizes, the stricter spacing governs. */
export function spacingAsked(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  gap: Stretch,
  diameters: readonly AnchorDiameter[],
): Asked<Length> {
  return strictest(
    layout,
    'anchor-spacing',
    queriesFor(layout, wall, piece, gap, diameters),
    'most',
    (limit) => mostLength(limit)?.reach,
  );
}

/** The subjects of limits on how far from the end of a board its first and last anchor stand. */
export const endDistanceSubjects = {
  'end-distance': 'length',
  'corner-distance': 'length',
  'break-distance': 'length',
} as const;

/**
 * How near to the end of a board, and how far from it, its first and last anchor may stand. A rule set may ask otherwise at a
 * corner of the house than at a break within the wall; what it says of neither holds for both.
 */
export function endDistanceAsked(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  side: Side,
  extreme: Extreme,
  diameters: readonly AnchorDiameter[],
): Asked<Length> {
  const queries = queriesFor(layout, wall, piece, piece, diameters);
  const askedBy = (subject: keyof typeof endDistanceSubjects): Asked<Length> =>
    strictest(layout, subject, queries, extreme, (limit) =>
      extreme === 'least' ? leastLength(limit)?.reach : mostLength(limit)?.reach,
    );
  const ofThisEnd = askedBy(isAtCorner(wall, piece, side) ? 'corner-distance' : 'break-distance');
  return ofThisEnd.kind === 'none' ? askedBy('end-distance') : ofThisEnd;
}

/** A board ends at a corner of the house, or at a break within the wall: a joint, a step, a chimney. */
export function isAtCorner(wall: Wall, piece: SillPiece, side: Side): boolean {
  if (side === 'left') return piece.from <= 0;
  return piece.joint === 'corner' || (wall.length !== undefined && piece.to >= wall.length);
}

/** How far two anchors must at least stand apart. */
export function apartAsked(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  diameters: readonly AnchorDiameter[],
): Asked<Length> {
  return strictest(
    layout,
    'anchor-apart',
    queriesFor(layout, wall, piece, piece, diameters),
    'least',
    (limit) => leastLength(limit)?.reach,
  );
}

/** How many anchors a short board must have; none where boards of its length go by spacing. */
export function countAsked(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  diameters: readonly AnchorDiameter[],
): Asked<number> {
  return strictest(layout, 'piece-count', queriesFor(layout, wall, piece, piece, diameters), 'least', leastCount);
}

/** How far the only anchor of a short board keeps from its ends, where the rules say it. */
export function loneAnchorEnd(layout: Layout, wall: Wall, piece: SillPiece, diameter: AnchorDiameter): Asked<Length> {
  return strictest(
    layout,
    'lone-anchor-end',
    queriesFor(layout, wall, piece, piece, [diameter]),
    'least',
    (limit) => leastLength(limit)?.reach,
  );
}

/**
 * A board so short that it takes one anchor, near its middle, has no end windows: where the table asks for one, or where the
 * least distances from its two ends leave no place.
 */
export function takesOneAnchor(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  diameters: readonly AnchorDiameter[],
): boolean {
  const count = countAsked(layout, wall, piece, diameters);
  if (count.kind === 'asked' && count.value <= 1) {
    // "At least one" for every board says nothing of short ones.
    if (count.limit.conditions.some((condition) => condition.key.toLowerCase() === 'piece')) return true;
  }
  const left = endDistanceAsked(layout, wall, piece, 'left', 'least', diameters);
  const right = endDistanceAsked(layout, wall, piece, 'right', 'least', diameters);
  return left.kind === 'asked' && right.kind === 'asked' && lengthOfPiece(piece) < left.value + right.value;
}

/** Whether an anchor may stand beyond the end window where physical things fill all of it. */
export function pastObstructionAllowed(layout: Layout): Limit | undefined {
  const answer = limitFor(layout.rules, 'end-window-past-obstruction', {});
  return answer.kind === 'limit' && answer.limit.verdict === 'allowed' ? answer.limit : undefined;
}

/** The sizes of a board's anchors, each once. */
export function diametersOf(anchors: readonly CountedAnchor[]): readonly AnchorDiameter[] {
  return uniqueDiameters(anchors.map((anchor) => anchor.diameter));
}

export const diametersOn = (wall: Wall, piece: SillPiece): readonly AnchorDiameter[] =>
  diametersOf(anchorsOf(wall, piece));

export function diameterOfConnector(connector: Connector): AnchorDiameter {
  const diameter = anchorDiameter(connector);
  return diameter === undefined
    ? { kind: 'unknown', wants: `size of the anchor of connector ${connector.name}` }
    : { kind: 'known', diameter, plate: connector.kind !== 'through-bolt' };
}

export function uniqueDiameters(diameters: readonly AnchorDiameter[]): readonly AnchorDiameter[] {
  const unique: AnchorDiameter[] = [];
  for (const each of diameters) if (!unique.some((other) => sameDiameter(each, other))) unique.push(each);
  return unique;
}

function sameDiameter(a: AnchorDiameter, b: AnchorDiameter): boolean {
  if (a.kind === 'known' && b.kind === 'known') return a.diameter === b.diameter && a.plate === b.plate;
  return a.kind === 'unknown' && b.kind === 'unknown' && a.wants === b.wants;
}

/** One query for each number of storeys above and each size of anchor: all of them must be kept. */
function queriesFor(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  over: Stretch,
  diameters: readonly AnchorDiameter[],
): readonly LimitQuery[] {
  const storeys = storeysOver(layout, wall, over).map(
    (reading): ConditionFact =>
      reading?.kind === 'known'
        ? { kind: 'number', number: reading.value }
        : { kind: 'unknown', wants: `storeys above wall ${wall.name}` },
  );
  const bolts = diameters.map((each) => boltFact(layout, each));
  const length: ConditionFact = { kind: 'length', length: lengthOfPiece(piece) };
  return storeys.flatMap((storey) =>
    (bolts.length > 0 ? bolts : [undefined]).map((bolt) => ({ storeys: storey, piece: length, bolt })),
  );
}

/** A side plate counts as a bolt of the size that the rule set names; where it names none, by the size of its own anchors. */
function boltFact(layout: Layout, each: AnchorDiameter): ConditionFact {
  if (each.kind === 'unknown') return each;
  const own: ConditionFact = { kind: 'length', length: each.diameter };
  if (!each.plate) return own;
  const answer = limitFor(layout.rules, 'side-plate-as-bolt', {});
  const stated = answer.kind === 'limit' ? leastLength(answer.limit)?.reach : undefined;
  return stated === undefined ? own : { kind: 'length', length: stated };
}

function strictest<Value extends number>(
  layout: Layout,
  subject: string,
  queries: readonly LimitQuery[],
  extreme: Extreme,
  readOff: (limit: Limit) => Value | undefined,
): Asked<Value> {
  let best: Extract<Asked<Value>, { kind: 'asked' }> | undefined;
  for (const query of queries) {
    const answer = limitFor(layout.rules, subject, query);
    switch (answer.kind) {
      case 'none':
        return { kind: 'none', subject, query, extreme: undefined };
      case 'conflict':
        return { kind: 'conflict', subject, limits: answer.limits };
      case 'depends':
        return answer;
      case 'limit': {
        const value = readOff(answer.limit);
        if (value === undefined) return { kind: 'none', subject, query, extreme };
        const stricter = !best || (extreme === 'least' ? value > best.value : value < best.value);
        if (stricter) best = { kind: 'asked', value, limit: answer.limit, query };
      }
    }
  }
  return best ?? { kind: 'none', subject, query: {}, extreme: undefined };
}
