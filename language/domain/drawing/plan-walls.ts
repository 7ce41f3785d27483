import { pieceAt } from '../fit/piece-anchors.ts';
import { isOpening } from '../fit/studs.ts';
import { extentOf } from '../fit/thing-words.ts';
import type { Panel, Tie } from '../model/design.ts';
import type {
  AngleRun,
  Defect,
  FoundAnchor,
  IrregularStud,
  NewAnchor,
  Obstruction,
  SillPiece,
} from '../model/layout.ts';
import { knownValue, profileAt } from '../model/reading.ts';
import { inches, inMillimetres, type Length, larger, midpoint, smaller, zero } from '../units/length.ts';
import { type BoardTakenOut, boardsTakenOut } from './boards-taken-out.ts';
import { type ServiceZone, serviceColour, serviceZones, WIDE_CRACK } from './elevation-found.ts';
import { type PlacedAnchor, placedAnchor } from './placed-mark.ts';
import type { PlanAxis, TrueXY } from './plan-axis.ts';
import { cornerOf, type Faces, facesAt, type PlanFrame, type PlanWall } from './plan-frame.ts';
import { circle, group, line, polygon, type SceneNode, type Stroke, strokes, type XY } from './scene.ts';
import { cross, hatch } from './strokes.ts';
import {
  anglesPlan,
  boltPlan,
  flueLine,
  foundAnchorPlan,
  gasLine,
  ghostPlan,
  holdDownPlan,
  panelPlan,
  platePlan,
  relocatedPlan,
  removedPlan,
  unknownPlan,
} from './symbols.ts';
import {
  addedStudPlan,
  type Corners,
  coldJointPlan,
  crackPlan,
  flatBlockPlan,
  newWasherPlan,
  powerBoxPlan,
  removedBoardPlan,
  softWoodPlan,
  splitPlan,
  strapPlan,
  thingPlan,
  warningZonePlan,
} from './symbols-in-plan.ts';
import { remediedDefect } from './symbols-of-new-work.ts';
import {
  foundState,
  type Speaker,
  spokenAnchor,
  spokenAngles,
  spokenFoundAnchor,
  spokenFoundation,
  spokenPanel,
  spokenPiece,
  spokenThing,
} from './thing-names.ts';
import type { ColourToken } from './tokens.ts';
import { type Stem, sillWidth, stemAt, stepsOf } from './wall-shape.ts';

/** One perimeter wall seen from above: concrete, sill, openings, things in the way, anchors. */
export function planWallNodes(frame: PlanFrame, place: PlanWall, speaker: Speaker): readonly SceneNode[] {
  const { wall } = place;
  return [
    ...place.shape.stems.map((stem, index) => stemNode(frame, place, stem, index, speaker)),
    ...boardsTakenOut(wall).flatMap((taken) => takenOutNode(frame, place, taken)),
    ...wall.pieces.map((piece) => sillNode(frame, place, piece, speaker)),
    ...place.shape.stems.slice(1).flatMap((stem) => thicknessChange(frame, place, stem)),
    ...stepsOf(place.shape).map(({ station, before, after }) => stepNode(frame, place, station, after < before)),
    ...wall.studs.flatMap((stud) => addedStudNode(frame, place, stud)),
    ...serviceZones({ wall, layout: frame.layout, shape: place.shape }).map((zone) => zoneNode(frame, place, zone)),
    ...wall.obstructions.flatMap((thing) => obstructionNode(frame, place, thing, speaker)),
    ...wall.defects.flatMap((defect) => defectNode(frame, place, defect, speaker)),
  ];
}

export function planAnchorNodes(frame: PlanFrame, place: PlanWall, speaker: Speaker): readonly SceneNode[] {
  return [
    ...place.wall.foundAnchors.flatMap((anchor) => foundNode(frame, place, anchor, speaker)),
    ...place.wall.panels.flatMap((panel) => panelNode(frame, place, panel, speaker)),
    ...place.wall.angles.flatMap((run) => angleNode(frame, place, run, speaker)),
    ...[...place.wall.anchors, ...place.wall.ties].flatMap((anchor) => newNode(frame, place, anchor, speaker)),
  ];
}

/** A place on the sheet: along the wall by station, in from its line by true mm. */
export function spot(frame: PlanFrame, axis: PlanAxis, station: Length, inside: number): XY {
  return frame.at(axis.at(station, inside));
}

function stemNode(frame: PlanFrame, place: PlanWall, stem: Stem, index: number, speaker: Speaker): SceneNode {
  const { wall, axis, shape } = place;
  const isFirst = index === 0;
  const isLast = index === shape.stems.length - 1;
  const [start, end] = [facesAt(wall, stem, stem.from), facesAt(wall, stem, stem.to)];
  const point = (face: 'inner' | 'outer', at: 'start' | 'end'): XY => {
    const faces = at === 'start' ? start : end;
    const corner =
      at === 'start'
        ? isFirst
          ? cornerAtStart(place, faces, face)
          : undefined
        : isLast
          ? cornerAtEnd(place, faces, face)
          : undefined;
    return corner ? frame.at(corner) : spot(frame, axis, at === 'start' ? stem.from : stem.to, faces[face]);
  };
  const [innerStart, innerEnd] = [point('inner', 'start'), point('inner', 'end')];
  const [outerStart, outerEnd] = [point('outer', 'start'), point('outer', 'end')];
  const { foundation } = stem;
  const known = start.known && end.known && foundation !== undefined;
  const unknownLine = (from: XY, to: XY): SceneNode =>
    group([line(from, to, { colour: 'ink', pen: 'P2', line: 'not-recorded' })], { symbol: 'not-recorded' });
  const innerIsMeasured = known || wall.face === 'inside';
  const outerIsMeasured = known || wall.face === 'outside';
  return group(
    [
      group(
        [
          polygon([outerStart, outerEnd, innerEnd, innerStart], { fill: 'conc' }),
          outerIsMeasured
            ? line(outerStart, outerEnd, { colour: 'ink', pen: 'P1', ends: 'round' })
            : unknownLine(outerStart, outerEnd),
          innerIsMeasured
            ? line(innerStart, innerEnd, { colour: 'ink', pen: 'P3' })
            : unknownLine(innerStart, innerEnd),
          // A free end of the concrete, where no neighbour meets it.
          ...(isFirst && !place.before ? [line(outerStart, innerStart, { colour: 'ink', pen: 'P3' })] : []),
          ...(isLast && !place.after ? [line(outerEnd, innerEnd, { colour: 'ink', pen: 'P3' })] : []),
        ],
        { symbol: 'stem-wall' },
      ),
    ],
    foundation
      ? {
          thing: foundation.id,
          role: 'thing',
          name: spokenFoundation(
            foundation,
            foundation.thick && profileAt(foundation.thick, midpoint(stem.from, stem.to)),
            speaker,
          ),
        }
      : { role: 'thing', name: 'foundation not recorded here' },
  );
}

function cornerAtStart(place: PlanWall, faces: Faces, face: 'inner' | 'outer'): TrueXY | undefined {
  const { before, axis } = place;
  if (!before) return undefined;
  const other = facesAt(before.wall, lastStem(before.wall), before.wall.length ?? zero);
  return cornerOf(axis, faces[face], before.axis, other[face]);
}

function cornerAtEnd(place: PlanWall, faces: Faces, face: 'inner' | 'outer'): TrueXY | undefined {
  const { after, axis } = place;
  if (!after) return undefined;
  const other = facesAt(after.wall, firstStem(after.wall), zero);
  return cornerOf(axis, faces[face], after.axis, other[face]);
}

type WithFoundation = PlanWall['wall'];
function firstStem(wall: WithFoundation): Stem | undefined {
  const first = wall.foundation.reduce<WithFoundation['foundation'][number] | undefined>(
    (best, each) => (!best || each.from < best.from ? each : best),
    undefined,
  );
  return first && bare(first);
}
function lastStem(wall: WithFoundation): Stem | undefined {
  const last = wall.foundation.reduce<WithFoundation['foundation'][number] | undefined>(
    (best, each) => (!best || each.to > best.to ? each : best),
    undefined,
  );
  return last && bare(last);
}

/** Only its thickness is asked of it. */
function bare(foundation: WithFoundation['foundation'][number]): Stem {
  return {
    from: foundation.from,
    to: foundation.to,
    top: [],
    ground: [],
    soil: [],
    joistUnderside: [],
    topKnown: false,
    groundKnown: false,
    undersideKnown: false,
    foundation,
  };
}

/** True distances from the wall's line to the two edges of a sill board at a station. */
function sillEdges(
  place: PlanWall,
  piece: SillPiece,
  station: Length,
): { readonly inner: number; readonly outer: number; readonly known: boolean } {
  const side = station === piece.to ? 'left' : 'right';
  const faces = facesAt(place.wall, stemAt(place.shape, station, side), station);
  const setBack = piece.setBack && knownValue(profileAt(piece.setBack, station));
  const { wide, known } = sillWidth(piece);
  const inner = faces.inner - inMillimetres(setBack ?? zero);
  return { inner, outer: inner - inMillimetres(wide), known: known && setBack !== undefined && faces.known };
}

function sillNode(frame: PlanFrame, place: PlanWall, piece: SillPiece, speaker: Speaker): SceneNode {
  const from = larger(piece.from, zero);
  const to = smaller(piece.to, place.shape.length);
  if (to <= from) return group([]);
  const middle =
    piece.setBack?.points.map((point) => point.station).filter((station) => station > from && station < to) ?? [];
  const stations = [from, ...middle, to];
  const edges = stations.map((station) => ({ station, ...sillEdges(place, piece, station) }));
  const inner = edges.map((edge) => spot(frame, place.axis, edge.station, edge.inner));
  const outer = edges.map((edge) => spot(frame, place.axis, edge.station, edge.outer));
  const isNew = piece.layer === 'design';
  const known = edges.every((edge) => edge.known);
  const stroke: Stroke = isNew
    ? { colour: 'new', pen: 'P3' }
    : { colour: 'woodln', pen: known ? 'P5' : 'P4', ...(known ? {} : { line: 'not-recorded' as const }) };
  const board = polygon([...inner, ...[...outer].reverse()], { fill: 'wood', stroke });
  const [firstInner, firstOuter, lastInner, lastOuter] = [
    inner[0],
    outer[0],
    inner[inner.length - 1],
    outer[outer.length - 1],
  ];
  const nodes: SceneNode[] = [known ? board : group([board], { symbol: 'not-recorded' })];
  if (isNew && firstInner && lastOuter)
    nodes.push(
      group(
        [
          inQuad(frame, place.axis, from, to, edges[0]?.inner ?? 0, edges[0]?.outer ?? 0, 2.4, {
            colour: 'new',
            pen: 'P4',
          }),
        ],
        { symbol: 'new-sill' },
      ),
    );
  for (const board of piece.sistered ?? []) {
    const [start, end] = [larger(board.from, from), smaller(board.to, to)];
    if (end <= start) continue;
    const { inner: near, outer: far } = sillEdges(place, piece, start);
    const hatched = inQuad(frame, place.axis, start, end, near, far, 1.2, { colour: 'new', pen: 'P5' });
    nodes.push(group([hatched], { symbol: 'sister-board' }));
  }
  // True ends of the board.
  if (firstInner && firstOuter && lastInner && lastOuter) {
    nodes.push(
      strokes(
        [
          [firstInner, firstOuter],
          [lastInner, lastOuter],
        ],
        { colour: isNew ? 'new' : 'woodln', pen: 'P2' },
      ),
    );
  }
  return group(nodes, { thing: piece.id, role: 'thing', name: spokenPiece(piece, speaker) });
}

/** Hatch of a stretch of wall, turned with the wall. */
function inQuad(
  frame: PlanFrame,
  axis: PlanAxis,
  from: Length,
  to: Length,
  inside: number,
  outside: number,
  spacing: number,
  stroke: Stroke,
  phase = 0,
): SceneNode {
  const scale = frame.paper;
  const [start, end] = [inMillimetres(from) * scale, inMillimetres(to) * scale];
  const [low, high] = [Math.min(inside, outside) * scale, Math.max(inside, outside) * scale];
  const back = (x: number, y: number): XY => frame.at(localPoint(axis, x / scale, y / scale));
  return strokes(
    hatch({ x: start, y: low, width: end - start, height: high - low }, spacing, phase).map(
      ([a, b]): readonly [XY, XY] => [back(...a), back(...b)],
    ),
    stroke,
  );
}

function localPoint(axis: PlanAxis, along: number, inside: number): TrueXY {
  return axis.at(Math.round(along * 1e6) as Length, inside);
}

function quad(frame: PlanFrame, axis: PlanAxis, from: Length, to: Length, inside: number, outside: number): Corners {
  return [
    spot(frame, axis, from, outside),
    spot(frame, axis, to, outside),
    spot(frame, axis, to, inside),
    spot(frame, axis, from, inside),
  ];
}

function thicknessChange(frame: PlanFrame, place: PlanWall, stem: Stem): readonly SceneNode[] {
  const left = facesAt(place.wall, stemAt(place.shape, stem.from, 'left'), stem.from);
  const right = facesAt(place.wall, stem, stem.from);
  if (left.inner === right.inner && left.outer === right.outer) return [];
  const inner = Math.max(left.inner, right.inner);
  const outer = Math.min(left.outer, right.outer);
  const [a, b] = [spot(frame, place.axis, stem.from, outer), spot(frame, place.axis, stem.from, inner)];
  return [
    group([line(a, b, { colour: 'ink2', pen: 'P5', line: 'thickness-change' })], {
      symbol: 'thickness-change',
      hidden: true,
    }),
  ];
}

/** A bar past both faces, and a triangle outside that points down the step. */
function stepNode(frame: PlanFrame, place: PlanWall, station: Length, downToTheRight: boolean): SceneNode {
  const faces = facesAt(place.wall, stemAt(place.shape, station), station);
  const past = 2.2 / frame.paper;
  const side = downToTheRight ? 1 : -1;
  const { axis } = place;
  const at = (along: number, inside: number): XY =>
    frame.at(offset(axis.at(station, inside), axis.along, along / frame.paper));
  const outside = faces.outer - 2.4 / frame.paper;
  return group(
    [
      line(spot(frame, axis, station, faces.outer - past), spot(frame, axis, station, faces.inner + past), {
        colour: 'ink',
        pen: 'P1',
      }),
      polygon(
        [
          at(side * 3.4, outside),
          at(side * 0.5, outside - 1.5 / frame.paper),
          at(side * 0.5, outside + 1.5 / frame.paper),
        ],
        { fill: 'ink' },
      ),
    ],
    { symbol: 'step', hidden: true },
  );
}

const offset = (point: TrueXY, direction: TrueXY, by: number): TrueXY => [
  point[0] + direction[0] * by,
  point[1] + direction[1] * by,
];

interface Across {
  readonly from: Length;
  readonly to: Length;
  readonly middle: Length;
  readonly faces: Faces;
}

function across(
  place: PlanWall,
  stretch: { readonly from: Length; readonly to: Length } | undefined,
): Across | undefined {
  if (!stretch || stretch.from > place.shape.length || stretch.to < zero) return undefined;
  const from = larger(stretch.from, zero);
  const to = smaller(stretch.to, place.shape.length);
  const middle = midpoint(from, to);
  return { from, to, middle, faces: facesAt(place.wall, stemAt(place.shape, middle), middle) };
}

/** True stand-off along the wall, and as far in front of it. */
function zoneNode(frame: PlanFrame, place: PlanWall, { thing, reason, from, to, clear }: ServiceZone): SceneNode {
  const faces = facesAt(place.wall, stemAt(place.shape, midpoint(from, to)), midpoint(from, to));
  const inner = faces.inner + inMillimetres(knownValue(thing.off) ?? zero) + inMillimetres(clear ?? zero);
  const colour = serviceColour(reason);
  const hatched = inQuad(frame, place.axis, from, to, inner, faces.outer, 3.2, { colour, pen: 'P5' });
  const sign = warningZonePlan(
    quad(frame, place.axis, from, to, inner, faces.outer),
    hatched,
    colour,
    reason === 'unknown',
  );
  return group([sign], { thing: thing.id, hidden: true });
}

function obstructionNode(
  frame: PlanFrame,
  place: PlanWall,
  thing: Obstruction,
  speaker: Speaker,
): readonly SceneNode[] {
  const span = across(place, extentOf(thing));
  if (!span) return [];
  return [
    group([obstructionSign(frame, place, thing, span), ...remedyPlan(frame, place, thing, span)], {
      thing: thing.id,
      role: 'thing',
      name: spokenThing(thing, speaker),
    }),
  ];
}

/** What the design does to a found thing, on its sign. */
function remedyPlan(
  frame: PlanFrame,
  place: PlanWall,
  thing: Obstruction,
  { middle, faces }: Across,
): readonly SceneNode[] {
  const off = inMillimetres(knownValue(thing.off) ?? zero);
  const deep = inMillimetres(knownValue(thing.deep) ?? inches(4));
  const at = spot(
    frame,
    place.axis,
    middle,
    isOpening(thing) ? (faces.inner + faces.outer) / 2 : faces.inner + off + deep / 2,
  );
  if (thing.remedied === 'removed') return [removedPlan(at)];
  return thing.remedied === 'relocated' ? [relocatedPlan(at)] : [];
}

function obstructionSign(frame: PlanFrame, place: PlanWall, thing: Obstruction, span: Across): SceneNode {
  const { axis } = place;
  const { from, to, faces } = span;
  const gap = quad(frame, axis, from, to, faces.inner, faces.outer);
  const [outerFrom, outerTo, innerTo, innerFrom] = gap;
  const along = (inside: number): readonly [XY, XY] => [spot(frame, axis, from, inside), spot(frame, axis, to, inside)];
  const ground = polygon(gap, { fill: 'paper' });
  const jambs = strokes(
    [
      [outerFrom, innerFrom],
      [outerTo, innerTo],
    ],
    { colour: 'ink', pen: 'P2' },
  );
  switch (thing.kind) {
    case 'vent': {
      const slats = [0.18, 0.34, 0.5, 0.66, 0.82].map((share): readonly [XY, XY] => [
        between(outerFrom, outerTo, share - 0.05),
        between(innerFrom, innerTo, share + 0.05),
      ]);
      return group(
        [ground, strokes([...slats, along(faces.inner), along(faces.outer)], { colour: 'ink2', pen: 'P4' }), jambs],
        { symbol: 'vent' },
      );
    }
    case 'window': {
      const third = (faces.inner - faces.outer) / 3;
      return group(
        [
          ground,
          strokes(
            [along(faces.inner), along(faces.outer), along(faces.outer + third), along(faces.outer + third * 2)],
            { colour: 'ink2', pen: 'P4' },
          ),
          jambs,
        ],
        { symbol: 'window' },
      );
    }
    case 'door':
    case 'hatch': {
      // The leaf stands open at 60 degrees, into the house.
      const width = inMillimetres((to - from) as Length);
      const hinge = axis.at(from, faces.inner);
      const leaf: TrueXY = offset(
        offset(hinge, axis.along, width * Math.cos(Math.PI / 3)),
        axis.inward,
        width * Math.sin(Math.PI / 3),
      );
      return group([ground, jambs, line(frame.at(hinge), frame.at(leaf), { colour: 'ink', pen: 'P2' })], {
        symbol: 'door',
      });
    }
    case 'chimney': {
      const deep = knownValue(thing.deep);
      const inner = faces.inner + inMillimetres(deep ?? zero);
      const stroke: Stroke = { colour: 'ink2', pen: 'P5' };
      return group(
        [
          polygon(quad(frame, axis, from, to, inner, faces.outer), { fill: 'paper' }),
          inQuad(frame, axis, from, to, inner, faces.outer, 2.6, stroke),
          inQuad(frame, axis, from, to, inner, faces.outer, 2.6, stroke, 0.3),
          polygon(quad(frame, axis, from, to, inner, faces.outer), { stroke: { colour: 'ink', pen: 'P2' } }),
        ],
        { symbol: 'chimney' },
      );
    }
    default:
      return thingBefore(frame, place, thing, span);
  }
}

/** Something in front of the wall, at its stand-off. */
function thingBefore(
  frame: PlanFrame,
  place: PlanWall,
  thing: Obstruction,
  { from, to, middle, faces }: Across,
): SceneNode {
  const { axis } = place;
  const off = inMillimetres(knownValue(thing.off) ?? zero);
  const diameter = knownValue(thing.diameter);
  const deep = knownValue(thing.deep);
  const isUpright = thing.words.has('riser') || thing.kind === 'stack' || (to - from) * frame.paper < 6e6;
  const near = faces.inner + off;
  switch (thing.kind) {
    case 'gas-pipe':
      if (isUpright)
        return group(
          [gasRing(spot(frame, axis, middle, near + inMillimetres(diameter ?? (inches(1) as Length)) / 2))],
          { symbol: 'gas-pipe' },
        );
      return gasLine(spot(frame, axis, from, near + 40), spot(frame, axis, to, near + 40));
    case 'flue':
      return flueLine(spot(frame, axis, from, near + 60), spot(frame, axis, to, near + 60));
    case 'pipe':
    case 'stack':
    case 'conduit':
    case 'duct': {
      const colour: ColourToken = thing.kind === 'conduit' ? 'power' : 'water';
      if (!isUpright) {
        const wide = inMillimetres(diameter ?? (inches(2) as Length));
        return group(
          [polygon(quad(frame, axis, from, to, near + wide, near), { fill: 'paper', stroke: { colour, pen: 'P3' } })],
          { symbol: 'pipe' },
        );
      }
      const radius = Math.max(0.9, (inMillimetres(diameter ?? ((to - from) as Length)) * frame.paper) / 2);
      const centre = spot(frame, axis, middle, near + radius / frame.paper);
      return group(
        [
          circle(centre, radius, { fill: 'paper', stroke: { colour, pen: 'P3' } }),
          strokes(cross(centre, radius * 0.7), { colour, pen: 'P5' }),
        ],
        {
          symbol: 'pipe',
        },
      );
    }
    case 'electrical-panel':
    case 'meter': {
      return powerBoxPlan(quad(frame, axis, from, to, near + inMillimetres(deep ?? (inches(4) as Length)), near));
    }
    default: {
      const box = quad(frame, axis, from, to, near + inMillimetres(deep ?? (inches(6) as Length)), near);
      return thingPlan(box, deep !== undefined, thing.words.has('movable'));
    }
  }
}

function gasRing(centre: XY): SceneNode {
  return group([
    circle(centre, 1.5, { fill: 'paper', stroke: { colour: 'gas', pen: 'P2' } }),
    circle(centre, 0.5, { fill: 'gas' }),
  ]);
}

const between = (a: XY, b: XY, share: number): XY => [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];

function defectNode(frame: PlanFrame, place: PlanWall, defect: Defect, speaker: Speaker): readonly SceneNode[] {
  const span = across(place, defect.stretch);
  if (!span) return [];
  const { faces, middle } = span;
  // What the design sees to carries its sign in front of the wall, clear of plates and panels.
  const seenTo = defect.remedied
    ? [remediedDefect(spot(frame, place.axis, middle, faces.inner + SEEN_TO_INSIDE / frame.paper))]
    : [];
  return [
    group([defectSign(frame, place, defect, span), ...seenTo], {
      thing: defect.id,
      role: 'thing',
      name: spokenThing(defect, speaker),
    }),
  ];
}

/** mm on paper. */
const SEEN_TO_INSIDE = 5.4;

function defectSign(frame: PlanFrame, place: PlanWall, defect: Defect, { from, to, middle, faces }: Across): SceneNode {
  const { axis } = place;
  const through = [faces.outer, faces.inner].map((inside) => spot(frame, axis, middle, inside)) as [XY, XY];
  switch (defect.kind) {
    case 'crack':
    case 'spall': {
      const width = knownValue(defect.width);
      return crackPlan(...through, width !== undefined && inMillimetres(width) > WIDE_CRACK);
    }
    case 'cold-joint':
      return coldJointPlan(...through);
    default: {
      const piece = pieceAt(place.wall, middle);
      const { inner, outer } = piece ? sillEdges(place, piece, middle) : faces;
      // A defect at one station shows as far as a sign needs.
      const least = (2.2 / frame.paper) * 1e6;
      const [start, end] = to - from >= least ? [from, to] : [middle - least / 2, middle + least / 2];
      const board = quad(frame, axis, start as Length, end as Length, inner, outer);
      return defect.kind === 'split' ? splitPlan(board) : softWoodPlan(board);
    }
  }
}

/** New wood that stands on the sill. */
function addedStudNode(frame: PlanFrame, place: PlanWall, stud: IrregularStud): readonly SceneNode[] {
  const { station } = stud;
  if (stud.layer !== 'design' || station < zero || station > place.shape.length) return [];
  const [thick, wide] = [knownValue(stud.size?.thick) ?? inches(1.5), knownValue(stud.size?.wide) ?? inches(3.5)];
  const piece = pieceAt(place.wall, station);
  const faces = facesAt(place.wall, stemAt(place.shape, station), station);
  // Flush with the inner edge of the sill, where panels are nailed.
  const inner = piece ? sillEdges(place, piece, station).inner : faces.inner;
  const least = 1.2 / frame.paper;
  const half = (Math.max(inMillimetres(thick), least) / 2) * 1e6;
  const stick = quad(
    frame,
    place.axis,
    (station - half) as Length,
    (station + half) as Length,
    inner,
    inner - inMillimetres(wide),
  );
  return [group([addedStudPlan(stick, stud.proposed === true)], { thing: stud.id, hidden: true })];
}

function takenOutNode(frame: PlanFrame, place: PlanWall, { board, ...taken }: BoardTakenOut): readonly SceneNode[] {
  const [from, to] = [larger(taken.from, zero), smaller(taken.to, place.shape.length)];
  if (to <= from) return [];
  const { inner, outer } = sillEdges(place, board, from);
  return [
    group([removedBoardPlan(quad(frame, place.axis, from, to, inner, outer))], { thing: board.id, hidden: true }),
  ];
}

/** Where an anchor stands across the wall: true mm from the wall's line. */
function depthOf(place: PlanWall, station: Length, offsetFromEdge: Length | undefined): number {
  const piece = pieceAt(place.wall, station);
  if (!piece) {
    const faces = facesAt(place.wall, stemAt(place.shape, station), station);
    return (faces.inner + faces.outer) / 2;
  }
  const { inner, outer } = sillEdges(place, piece, station);
  return offsetFromEdge === undefined ? (inner + outer) / 2 : inner - inMillimetres(offsetFromEdge);
}

function foundNode(frame: PlanFrame, place: PlanWall, anchor: FoundAnchor, speaker: Speaker): readonly SceneNode[] {
  const { station } = anchor;
  if (station === undefined || station < zero || station > place.shape.length) return [];
  const at = spot(frame, place.axis, station, depthOf(place, station, knownValue(anchor.offset)));
  return [
    group([...(anchor.newWasher ? [newWasherPlan(at)] : []), foundAnchorPlan(at, foundState(anchor))], {
      thing: anchor.id,
      role: 'thing',
      name: spokenFoundAnchor(anchor, speaker),
    }),
  ];
}

function newNode(frame: PlanFrame, place: PlanWall, anchor: NewAnchor | Tie, speaker: Speaker): readonly SceneNode[] {
  const placed = placedAnchor(anchor, frame.layout);
  if (!placed || placed.station < zero || placed.station > place.shape.length) return [];
  const { planned } = placed;
  return [
    group(
      [
        ...(planned === undefined || planned < zero || planned > place.shape.length
          ? []
          : [ghostPlan(planCorners(frame, place, placed, planned))]),
        newSign(frame, place, placed),
      ],
      { thing: anchor.id, role: 'thing', name: spokenAnchor(placed, place.wall, speaker) },
    ),
  ];
}

const INCH = 25.4;

/** The face of a plate from above: its true length, an inch to each side of the face of the concrete. */
function planCorners(frame: PlanFrame, place: PlanWall, { connector, anchor }: PlacedAnchor, station: Length): Corners {
  const isRod = connector?.kind === 'through-bolt' || connector?.kind === 'hold-down';
  const isStrap = connector?.kind === 'strap';
  const wide = isRod ? inches(4) : (connector?.body?.wide ?? inches(8));
  // A strap lies on the plates, over the middle of the sill.
  const middle =
    isRod || isStrap
      ? depthOf(place, station, knownValue(anchor.offset))
      : facesAt(place.wall, stemAt(place.shape, station), station).inner;
  const reach = isRod ? 2 * INCH : isStrap ? 0.9 * INCH : INCH;
  return quad(
    frame,
    place.axis,
    (station - wide / 2) as Length,
    (station + wide / 2) as Length,
    middle + reach,
    middle - reach,
  );
}

function newSign(frame: PlanFrame, place: PlanWall, placed: PlacedAnchor): SceneNode {
  const { connector, station, anchor } = placed;
  const centre = spot(frame, place.axis, station, depthOf(place, station, knownValue(anchor.offset)));
  if (!connector) return unknownPlan(centre);
  if (connector.kind === 'through-bolt') return boltPlan(centre, placed);
  if (connector.kind === 'hold-down') return holdDownPlan(centre, placed);
  if (connector.kind === 'strap') return strapPlan(planCorners(frame, place, placed, station), placed);
  return platePlan(planCorners(frame, place, placed, station), placed);
}

/** Panels from above, just inside the face. */
function panelNode(frame: PlanFrame, place: PlanWall, panel: Panel, speaker: Speaker): readonly SceneNode[] {
  const span = across(place, panel.stretch);
  if (!span) return [];
  const inside = span.faces.inner + PANEL_INSIDE * INCH;
  const { from, to } = betweenNeighbours(frame, place, inside, span);
  return [
    group(
      [panelPlan(from, to, { proposed: panel.proposed, state: panel.state }), ...flatBlocks(frame, place, panel, span)],
      {
        thing: panel.id,
        role: 'thing',
        name: spokenPanel(panel, speaker),
      },
    ),
  ];
}

/** Between the bar and the studs that the block backs. */
function flatBlocks(
  frame: PlanFrame,
  place: PlanWall,
  panel: Panel,
  { from, to, faces }: Across,
): readonly SceneNode[] {
  if (panel.state === 'omitted' || (!panel.flatBlock && !panel.flatBlocked)) return [];
  const inside = faces.inner + FLAT_BLOCK_INSIDE * INCH;
  return [flatBlockPlan(spot(frame, place.axis, from, inside), spot(frame, place.axis, to, inside))];
}

/** At an inner corner the panels of two walls stop short of each other; their lengths are in their names. */
function betweenNeighbours(
  frame: PlanFrame,
  place: PlanWall,
  inside: number,
  span: Across,
): { readonly from: XY; readonly to: XY } {
  const { axis, before, after } = place;
  const along = (point: TrueXY): number =>
    (point[0] - axis.from[0]) * axis.along[0] + (point[1] - axis.from[1]) * axis.along[1];
  const reach = (neighbour: PlanWall['before'], stem: Stem | undefined): number | undefined => {
    const faces = neighbour && facesAt(neighbour.wall, stem, stem?.from ?? zero);
    const corner = neighbour && faces && cornerOf(axis, inside, neighbour.axis, faces.inner + 2 * PANEL_INSIDE * INCH);
    return corner && along(corner);
  };
  const [start, end] = [along(axis.at(span.from, inside)), along(axis.at(span.to, inside))];
  const first = Math.max(start, reach(before, before && lastStem(before.wall)) ?? start);
  const last = Math.min(end, reach(after, after && firstStem(after.wall)) ?? end);
  const point = (distance: number): XY =>
    frame.at([
      axis.from[0] + axis.along[0] * distance + axis.inward[0] * inside,
      axis.from[1] + axis.along[1] * distance + axis.inward[1] * inside,
    ]);
  return first < last ? { from: point(first), to: point(last) } : { from: point(start), to: point(end) };
}

/** In inches: clear of plates, sill and concrete, so that it reads as a line of its own. */
const PANEL_INSIDE = 3.4;
const FLAT_BLOCK_INSIDE = 1.6;

function angleNode(frame: PlanFrame, place: PlanWall, run: AngleRun, speaker: Speaker): readonly SceneNode[] {
  const places = run.stations.filter((station) => station >= zero && station <= place.shape.length);
  if (places.length === 0) return [];
  const ticks = places.map((station): readonly [XY, XY] => {
    const { inner } = facesAt(place.wall, stemAt(place.shape, station), station);
    return [spot(frame, place.axis, station, inner), spot(frame, place.axis, station, inner - 1.6 * INCH)];
  });
  return [group([anglesPlan(ticks)], { thing: run.id, role: 'thing', name: spokenAngles(run, speaker) })];
}
