import type { Layout, SillPiece, Wall } from '../model/layout.ts';
import type { Profile } from '../model/reading.ts';
import { knownValue, profileAt } from '../model/reading.ts';
import type { Length } from '../units/length.ts';
import { half, inches, minus, nanometres, plus, zero } from '../units/length.ts';
import type { Corner } from './corners.ts';
import { cornersOf } from './corners.ts';
import { howSet } from './fit-case.ts';
import { footprintOf } from './footprint.ts';
import type { HeightRange } from './height-zone.ts';
import { heightBetween, sillTop } from './height-zone.ts';
import type { CountedAnchor } from './piece-anchors.ts';
import { anchorsOf } from './piece-anchors.ts';

/** Two anchors round a corner of the house, and how far their holes in the concrete keep apart at the nearest. */
export interface AcrossCorner {
  readonly own: AnchorNearCorner;
  readonly other: AnchorNearCorner;
  readonly apart: Length;
}
export interface AnchorNearCorner {
  readonly wall: Wall;
  readonly piece: SillPiece;
  readonly anchor: CountedAnchor;
  readonly mounted: 'on-the-face' | 'through-the-sill';
}
export interface CornerHoles {
  readonly pairs: readonly AcrossCorner[];
  readonly lacking: readonly { readonly wants: string; readonly thing: string }[];
}

/** Further from a corner than this, no hole comes near one of the wall round it. */
const NEAR_CORNER = inches(30);
/** More anchors than these do not fit there. */
const MOST_NEAR = 8;

/**
 * The anchors on either side of the right-hand corner of a wall, with the distance between their holes in plan and in height.
 * Holes of side plates run from the inner face into the wall, those of bolts from the top of the concrete down.
 */
export function holesAtRightCorner(layout: Layout, wall: Wall): CornerHoles {
  const { right } = cornersOf(layout, wall);
  const lacking: CornerHoles['lacking'][number][] = [];
  if (!right || wall.length === undefined) return { pairs: [], lacking };
  const ownNear = nearCorner(wall, 'right');
  const otherNear = nearCorner(right.neighbour, right.end);
  // Without anchors on both sides nothing is asked of the corner.
  if (ownNear.length === 0 || otherNear.length === 0) return { pairs: [], lacking };
  const own = drilled(layout, wall, 'right', ownNear, lacking);
  const other = drilled(layout, right.neighbour, right.end, otherNear, lacking);
  const toPlan = planOfCorner(wall, right);
  const pairs = own.flatMap((a) =>
    other.map((b) => {
      const apart = Math.min(
        ...a.holes.flatMap((x) =>
          b.holes.map((y) => Math.hypot(between(toPlan.own(x), toPlan.other(y)), heightBetween(x.heights, y.heights))),
        ),
      );
      return { own: a, other: b, apart: nanometres(Math.round(Math.min(apart, Number.MAX_SAFE_INTEGER))) };
    }),
  );
  return { pairs, lacking };
}

interface Drilled extends AnchorNearCorner {
  readonly holes: readonly DrilledHole[];
}
interface DrilledHole {
  /** From the corner of the taped faces, along the wall. */
  readonly along: number;
  /** From the outer face inwards. */
  readonly depth: { readonly from: number; readonly to: number };
  /** Above the datum. */
  readonly heights: HeightRange;
}

interface NearCorner {
  readonly piece: SillPiece;
  readonly anchor: CountedAnchor;
}

const fromCorner = (wall: Wall, side: 'left' | 'right', station: Length): Length =>
  side === 'left' ? station : minus(wall.length ?? station, station);

function nearCorner(wall: Wall, side: 'left' | 'right'): readonly NearCorner[] {
  if (wall.length === undefined) return [];
  return wall.pieces
    .flatMap((piece) => anchorsOf(wall, piece).map((anchor) => ({ piece, anchor })))
    .filter(({ anchor }) => fromCorner(wall, side, anchor.station) <= NEAR_CORNER)
    .sort((a, b) => fromCorner(wall, side, a.anchor.station) - fromCorner(wall, side, b.anchor.station))
    .slice(0, MOST_NEAR);
}

function drilled(
  layout: Layout,
  wall: Wall,
  side: 'left' | 'right',
  near: readonly NearCorner[],
  lacking: CornerHoles['lacking'][number][],
): readonly Drilled[] {
  return near.flatMap(({ piece, anchor }): readonly Drilled[] => {
    const lack = (wants: string, thing: string): readonly Drilled[] => {
      lacking.push({ wants, thing });
      return [];
    };
    const stretch = wall.foundation.find((each) => each.from <= anchor.station && anchor.station <= each.to);
    const at = (profile: Profile | undefined): Length | undefined =>
      profile && knownValue(profileAt(profile, anchor.station));
    const thick = at(stretch?.thick);
    if (thick === undefined) return lack(`thickness of the foundation under ${anchor.words}`, stretch?.id ?? wall.id);
    const top = at(stretch?.top) ?? zero;
    const raised = ({ low, high }: HeightRange): HeightRange => ({ low: low + top, high: high + top });
    const { planned } = anchor;
    const connector = planned?.connector;
    const footprint =
      planned && connector ? footprintOf({ layout, wall, piece, connector, ...howSet(planned) }) : undefined;
    if (footprint?.mounted === 'on-the-face') {
      const into = connector?.fasteners.find((each) => each.member === 'concrete');
      const deep = into?.holeDepth ?? into?.embed;
      if (deep === undefined)
        return lack(`depth of the holes of connector ${connector?.name}`, `connector:${connector?.name}`);
      const holes = footprint.holes.map((hole) => ({
        along: fromCorner(wall, side, plus(anchor.station, hole.x)),
        depth: { from: thick - deep, to: thick },
        heights: raised(hole.heights ?? everywhere),
      }));
      return holes.length === 0 ? [] : [{ wall, piece, anchor, mounted: 'on-the-face', holes }];
    }
    const wide = knownValue(piece.size?.wide);
    const offset = planned ? planned.offset : wall.foundAnchors.find((each) => each.id === anchor.id)?.offset;
    const fromInnerEdge = knownValue(offset) ?? (wide === undefined ? undefined : half(wide));
    if (fromInnerEdge === undefined) return lack(`width of sill ${piece.name}`, piece.id);
    const setBack = at(piece.setBack);
    if (setBack === undefined) return lack(`set-back of sill ${piece.name}`, piece.id);
    const depth = thick - setBack - fromInnerEdge;
    const heights = raised(
      footprint?.holes[0]?.heights ?? { low: Number.NEGATIVE_INFINITY, high: sillTop(piece) ?? 0 },
    );
    const hole = { along: fromCorner(wall, side, anchor.station), depth: { from: depth, to: depth }, heights };
    return [{ wall, piece, anchor, mounted: 'through-the-sill', holes: [hole] }];
  });
}

const everywhere: HeightRange = { low: Number.NEGATIVE_INFINITY, high: Number.POSITIVE_INFINITY };

interface PlanPoint {
  readonly x: number;
  readonly y: number;
}
type Run = readonly [PlanPoint, PlanPoint];

/** Plan with the corner of the outer faces at 0: the wall comes from the left along x, its concrete lies below. */
function planOfCorner(
  wall: Wall,
  { neighbour, turn, end }: Corner,
): { own(hole: DrilledHole): Run; other(hole: DrilledHole): Run } {
  const angle = (turn / 1_000_000) * (Math.PI / 180);
  // Square corners are exact.
  const cos = Math.round(Math.cos(angle) * 1e15) / 1e15;
  const sin = Math.round(Math.sin(angle) * 1e15) / 1e15;
  const ownShift = wall.face === 'inside' ? thicknessAt(neighbour, end) : 0;
  const otherShift = neighbour.face === 'inside' ? thicknessAt(wall, 'right') : 0;
  const run = (hole: DrilledHole, place: (depth: number) => PlanPoint): Run => [
    place(hole.depth.from),
    place(hole.depth.to),
  ];
  return {
    own: (hole) => run(hole, (depth) => ({ x: -(hole.along + ownShift), y: -depth })),
    other: (hole) =>
      run(hole, (depth) => {
        const along = hole.along + otherShift;
        return { x: along * cos - depth * sin, y: -along * sin - depth * cos };
      }),
  };
}

function thicknessAt(wall: Wall, end: 'left' | 'right'): number {
  const ordered = wall.foundation.toSorted((a, b) => a.from - b.from);
  const points = (end === 'left' ? ordered[0] : ordered[ordered.length - 1])?.thick?.points ?? [];
  return knownValue(points[end === 'left' ? 0 : points.length - 1]?.value) ?? 0;
}

/** Between two straight runs in plan. */
function between([a, b]: Run, [c, d]: Run): number {
  if (cross(a, b, c) * cross(a, b, d) < 0 && cross(c, d, a) * cross(c, d, b) < 0) return 0;
  return Math.min(toRun(a, [c, d]), toRun(b, [c, d]), toRun(c, [a, b]), toRun(d, [a, b]));
}

const cross = (a: PlanPoint, b: PlanPoint, p: PlanPoint): number =>
  (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);

function toRun(p: PlanPoint, [a, b]: Run): number {
  const dx = b.x - a.x;
  const dy = b.y - a.y;
  const long = dx * dx + dy * dy;
  const share = long === 0 ? 0 : Math.max(0, Math.min(1, ((p.x - a.x) * dx + (p.y - a.y) * dy) / long));
  return Math.hypot(p.x - (a.x + share * dx), p.y - (a.y + share * dy));
}
