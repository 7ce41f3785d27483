import { type AcrossCorner, type AnchorNearCorner, holesAtRightCorner } from '../fit/corner-holes.ts';
import { cornersOf } from '../fit/corners.ts';
import type { Side } from '../fit/piece-requirements.ts';
import { withEdits } from '../fixes/apply-in-memory.ts';
import { tapeStep } from '../fixes/tape-step.ts';
import type { Layout, ThingId, Wall } from '../model/layout.ts';
import type { PlacementObstruction } from '../placement/problem.ts';
import { leastLength } from '../rulesets/compare.ts';
import { limitFor } from '../rulesets/limit-for.ts';
import { inches, type Length, minus, nanometres, plus } from '../units/length.ts';
import type { InTheWay } from './board-case.ts';
import { useOfPlanned } from './board-case.ts';

/** Two anchors of different walls whose holes come too near to each other in the concrete of a corner. */
export interface CornerClash {
  /** Names the two anchors. */
  readonly key: string;
  /** What keeps them far enough apart, each way by itself, the first choice first. Empty: both stand for good. */
  readonly ways: readonly (readonly KeepOff[])[];
}
/** Something that a board has to keep off. */
export interface KeepOff {
  readonly piece: ThingId;
  readonly obstruction: PlacementObstruction;
  readonly facts: InTheWay;
}

/**
 * Clashes in a house with proposals on it, with what a new placement has to keep off.
 * @param isNew the anchor was placed just now, and may be placed elsewhere
 */
export function cornerClashes(layout: Layout, isNew: (anchor: ThingId) => boolean): readonly CornerClash[] {
  return layout.walls.flatMap((wall) =>
    holesAtRightCorner(layout, wall).pairs.flatMap((pair): CornerClash[] => {
      const least = leastApart(layout, pair);
      if (least === undefined || pair.apart >= least) return [];
      const { own, other } = pair;
      const movable = [
        ...(isNew(other.anchor.id) ? (['other'] as const) : []),
        ...(isNew(own.anchor.id) ? (['own'] as const) : []),
      ];
      // One of them moves; where that is not enough, both do, equally far.
      const choices = [...movable.map((which) => [which]), ...(movable.length === 2 ? [movable] : [])];
      const ways = choices.map((moving) => wayOf(layout, wall, pair, moving, least));
      return [{ key: `${own.anchor.id} ${other.anchor.id}`, ways }];
    }),
  );
}

function leastApart(layout: Layout, { own, other }: AcrossCorner): Length | undefined {
  const plates = own.mounted === 'on-the-face' && other.mounted === 'on-the-face';
  const answer = limitFor(layout.rules, 'corner-holes-apart', plates ? { 'side-plates': { kind: 'holds' } } : {});
  return answer.kind === 'limit' ? leastLength(answer.limit)?.reach : undefined;
}

/** Beyond this from a corner no hole comes near one of the wall round it. */
const FURTHEST = inches(30);

type Which = 'own' | 'other';

/** Those that move go away from the corner, by the least number of tape marks that is enough. */
function wayOf(
  layout: Layout,
  wall: Wall,
  pair: AcrossCorner,
  moving: readonly Which[],
  least: Length,
): readonly KeepOff[] {
  const step = tapeStep(layout.title.units);
  const endOf = (which: Which): Side => (which === 'own' ? 'right' : (cornersOf(layout, wall).right?.end ?? 'left'));
  const stationAt = (which: Which, marks: number): Length =>
    nanometres(pair[which].anchor.station + (endOf(which) === 'left' ? marks : -marks) * step);
  const isEnough = (marks: number): boolean => {
    const moved = withEdits(
      layout,
      moving.map((which) => ({
        kind: 'set-station',
        anchor: pair[which].anchor.id,
        station: stationAt(which, marks),
      })),
    );
    const ownWall = moved.walls.find(({ id }) => id === wall.id);
    const again =
      ownWall &&
      holesAtRightCorner(moved, ownWall).pairs.find(
        ({ own, other }) => own.anchor.id === pair.own.anchor.id && other.anchor.id === pair.other.anchor.id,
      );
    return again === undefined || again.apart >= least;
  };
  let short = 0;
  let enough = Math.ceil(FURTHEST / step);
  while (enough - short > 1) {
    const middle = Math.floor((short + enough) / 2);
    if (isEnough(middle)) enough = middle;
    else short = middle;
  }
  return moving.flatMap((which) => {
    const standing = pair[which === 'own' ? 'other' : 'own'];
    return keepOff(pair[which], endOf(which), stationAt(which, enough), standing);
  });
}

function keepOff(
  { anchor, piece }: AnchorNearCorner,
  end: Side,
  station: Length,
  { anchor: standing }: AnchorNearCorner,
): readonly KeepOff[] {
  const connector = anchor.planned?.connector;
  if (!anchor.planned || !connector) return [];
  const beyond = nanometres(1);
  const stretch =
    end === 'left' ? { from: minus(piece.from, beyond), to: station } : { from: station, to: plus(piece.to, beyond) };
  return [
    {
      piece: piece.id,
      facts: {
        words: `the holes of ${standing.words} round the corner`,
        reason: 'neighbour',
        obstruction: undefined,
        defect: undefined,
        wants: undefined,
      },
      obstruction: {
        id: `corner ${standing.id}`,
        physical: false,
        liftable: false,
        liftCost: undefined,
        blocks: [{ kind: useOfPlanned(anchor.planned, connector).id, ...stretch }],
      },
    },
  ];
}
