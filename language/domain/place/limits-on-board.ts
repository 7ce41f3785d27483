import type { AnchorDiameter } from '../fit/piece-anchors.ts';
import {
  type Asked,
  apartAsked,
  countAsked,
  endDistanceAsked,
  lengthOfPiece,
  loneAnchorEnd,
  type Side,
  spacingAsked,
  takesOneAnchor,
} from '../fit/piece-requirements.ts';
import type { Layout, SillPiece, Wall } from '../model/layout.ts';
import { type AnchorLimits, type EndLimits, oneAnchorLimits } from '../placement/problem.ts';
import type { Length } from '../units/length.ts';

export type LimitsAnswer =
  | {
      readonly kind: 'limits';
      readonly limits: AnchorLimits;
      /** The board takes one anchor, and has no end windows. */
      readonly lone: boolean;
    }
  /** What the rules in force ask cannot be told, in words; nothing is guessed. */
  | { readonly kind: 'open'; readonly why: string };

/**
 * What the rules in force ask of anchors of one size on a board. Where the storeys above it vary, the strictest. The
 * limits come from the functions that the checks ask.
 */
export function limitsOnBoard(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  diameter: AnchorDiameter,
  step: Length,
): LimitsAnswer {
  const sizes = [diameter];
  const spacing = spacingAsked(layout, wall, piece, piece, sizes);
  const count = countAsked(layout, wall, piece, sizes);
  const apart = apartAsked(layout, wall, piece, sizes);
  const end = (side: Side, extreme: 'least' | 'most') => endDistanceAsked(layout, wall, piece, side, extreme, sizes);
  const ends = {
    left: [end('left', 'least'), end('left', 'most')],
    right: [end('right', 'least'), end('right', 'most')],
  };
  const all = [spacing, count, apart, ...ends.left, ...ends.right];
  for (const asked of all) {
    if (asked.kind === 'depends') return { kind: 'open', why: `it turns on ${asked.wants}` };
    if (asked.kind === 'conflict') return { kind: 'open', why: `two limits on ${asked.subject} disagree` };
  }
  if (spacing.kind !== 'asked' && count.kind !== 'asked') {
    return { kind: 'open', why: 'the rules in force give neither a spacing nor a number for it' };
  }
  const minGap = Math.max(1, askedValue(apart) ?? 1);
  if (takesOneAnchor(layout, wall, piece, sizes)) {
    const lone = loneAnchorEnd(layout, wall, piece, diameter);
    if (lone.kind === 'depends') return { kind: 'open', why: `it turns on ${lone.wants}` };
    const limits = oneAnchorLimits(piece, { end: askedValue(lone) ?? 0, minGap }, step);
    return { kind: 'limits', limits, lone: true };
  }
  if (![...ends.left, ...ends.right].some((asked) => asked.kind === 'asked')) {
    return { kind: 'open', why: 'the rules in force give no end distance for it' };
  }
  const limitsOf = ([least, most]: readonly Asked<Length>[]): EndLimits => ({
    least: least === undefined ? 0 : (askedValue(least) ?? 0),
    most: most === undefined ? undefined : askedValue(most),
  });
  const limits: AnchorLimits = {
    left: limitsOf(ends.left),
    right: limitsOf(ends.right),
    minGap,
    maxGap: askedValue(spacing),
    count: Math.max(1, askedValue(count) ?? 1),
  };
  return { kind: 'limits', limits, lone: false };
}

/**
 * As many as the board takes where nothing is in the way. An obstruction that fills an end window moves the end anchor
 * inward; it must not save one.
 */
export function countWithNothingInTheWay(piece: SillPiece, { left, right, maxGap, count }: AnchorLimits): number {
  if (maxGap === undefined) return count;
  const between = lengthOfPiece(piece) - (left.most ?? 0) - (right.most ?? 0);
  return Math.max(count, Math.ceil(Math.max(0, between) / maxGap) + 1);
}

/** The stricter of two sets of limits, both to be kept. */
export function bothLimits(a: AnchorLimits, b: AnchorLimits): AnchorLimits {
  const most = (one: number | undefined, other: number | undefined) =>
    one === undefined ? other : other === undefined ? one : Math.min(one, other);
  const ends = (one: EndLimits, other: EndLimits): EndLimits => ({
    least: Math.max(one.least, other.least),
    most: most(one.most, other.most),
  });
  return {
    left: ends(a.left, b.left),
    right: ends(a.right, b.right),
    minGap: Math.max(a.minGap, b.minGap),
    maxGap: most(a.maxGap, b.maxGap),
    count: Math.max(a.count, b.count),
  };
}

function askedValue<Value extends number>(asked: Asked<Value>): Value | undefined {
  return asked.kind === 'asked' ? asked.value : undefined;
}
