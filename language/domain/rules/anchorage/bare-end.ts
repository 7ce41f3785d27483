import { clearIntervals } from '../../fit/clear-intervals.ts';
import { blockersOf, endWindow, fromEnd, spotPastObstruction } from '../../fit/end-window.ts';
import { howSet } from '../../fit/fit-case.ts';
import type { CountedAnchor } from '../../fit/piece-anchors.ts';
import type { Side } from '../../fit/piece-requirements.ts';
import { endDistanceAsked, pastObstructionAllowed } from '../../fit/piece-requirements.ts';
import type { Layout, SillPiece, Wall } from '../../model/layout.ts';
import type { Limit } from '../../rulesets/rule-set.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import type { Length } from '../../units/length.ts';
import { zero } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import type { AskedLimit } from '../limit-words.ts';

/** An end of a board whose first anchor stands farther from it than the rule set allows. */
export interface BareEnd {
  readonly side: Side;
  readonly anchor: CountedAnchor;
  readonly distance: Length;
  readonly asked: AskedLimit;
  /** Names what stands in the window, where something does. */
  readonly blockers: readonly string[];
  /** Legal all the same: why. */
  readonly past: { readonly exception: Limit; readonly things: readonly string[] } | undefined;
}

/** `undefined` where the anchor stands near enough, or no limit can be asked. */
export function lookAtEnd(
  wall: Wall,
  piece: SillPiece,
  side: Side,
  anchor: CountedAnchor,
  { layout, leftOpen }: Pick<RuleContext, 'layout' | 'leftOpen'>,
): BareEnd | undefined {
  const most = endDistanceAsked(layout, wall, piece, side, 'most', [anchor.diameter]);
  if (most.kind !== 'asked') {
    leftOpen(most, anchor.span);
    return undefined;
  }
  const distance = fromEnd(piece, side, anchor.station);
  const tolerance = toleranceOf(layout.rules);
  if (distance <= most.value + tolerance) return undefined;
  const least = endDistanceAsked(layout, wall, piece, side, 'least', [anchor.diameter]);
  const window = endWindow(piece, side, least.kind === 'asked' ? least.value : zero, most.value);
  const fits = fitsOf(layout, wall, piece, anchor);
  const past = fits && spotPastObstruction(layout, piece, side, window, fits);
  const exception = pastObstructionAllowed(layout);
  const nearest = past && fromEnd(piece, side, past.nearest);
  const atNearest = nearest !== undefined && distance <= nearest + tolerance;
  return {
    side,
    anchor,
    distance,
    asked: most,
    blockers: fits ? namesOf(blockersOf(window, fits)) : [],
    past: past && exception && atNearest ? { exception, things: namesOf(past.things) } : undefined,
  };
}

function fitsOf(layout: Layout, wall: Wall, piece: SillPiece, { planned }: CountedAnchor) {
  const connector = planned?.connector;
  if (!planned || !connector) return undefined;
  return clearIntervals({
    layout,
    wall,
    piece,
    connector,
    ...howSet(planned),
  });
}

const namesOf = (blocked: readonly { readonly words: string }[]): readonly string[] => [
  ...new Set(blocked.map((each) => each.words)),
];
