import { serviceOf } from '../fit/blocked-by-things.ts';
import { closedBays } from '../fit/closed-bays.ts';
import { asked } from '../fit/footprint.ts';
import { studsOf } from '../fit/studs.ts';
import { extentOf } from '../fit/thing-words.ts';
import type { Remedy } from '../model/design.ts';
import { namesBay } from '../model/joists.ts';
import type {
  CrippleStretch,
  Defect,
  FoundAnchor,
  JoistRun,
  Obstruction,
  SillPiece,
  Stretch,
} from '../model/layout.ts';
import { knownValue, profileAt } from '../model/reading.ts';
import type { Finding } from '../rules/finding.ts';
import {
  half,
  inches,
  inMillimetres,
  type Length,
  larger,
  midpoint,
  minus,
  NANOMETRES_PER_INCH,
  plus,
  scale,
  smaller,
  zero,
} from '../units/length.ts';
import { boardsTakenOut } from './boards-taken-out.ts';
import { drawnThing, type ElevationFrame, onPaper, plateUnderside, sillTopAt } from './elevation-frame.ts';
import { baysOf, type JoistEnd, onWall } from './framing.ts';
import {
  type Box,
  boxBetween,
  group,
  line,
  type PathStep,
  polygon,
  polyline,
  rect,
  type SceneNode,
  type Stroke,
  strokes,
  type XY,
} from './scene.ts';
import { diagonals, dots, hatch, seededRandom } from './strokes.ts';
import {
  chimney,
  coldJoint,
  crackLine,
  doorway,
  flueLine,
  foundAnchor,
  foundBlock,
  gasLine,
  glazing,
  missingBlock,
  pipe,
  powerBox,
  softWood,
  splitWood,
  thingInTheWay,
  unknownServiceZone,
  vent,
  warningZone,
} from './symbols.ts';
import {
  newWasher,
  newWood,
  relocatedThing,
  remediedDefect,
  removedThing,
  removedWood,
} from './symbols-of-new-work.ts';
import { foundState, spokenFoundAnchor, spokenFoundation, spokenPiece, spokenThing } from './thing-names.ts';
import type { ColourToken } from './tokens.ts';
import { type LevelAt, levelAt, type Stem, sillThickness, standInJoist, stemAt, stepsOf } from './wall-shape.ts';

// ---- concrete

export function concrete(frame: ElevationFrame): readonly SceneNode[] {
  return frame.shape.stems.map((stem) => {
    const top = stem.top.map(toPaper(frame));
    const ground = stem.ground.map(toPaper(frame));
    const first = top[0] ?? [0, 0];
    const nodes: SceneNode[] = [
      polygon([...top, ...[...ground].reverse()], { fill: 'conc' }),
      texture(frame, stem),
      edge(top, stem.topKnown, { colour: 'ink', pen: 'P2' }),
      edge(ground, stem.groundKnown, { colour: 'earth', pen: 'P1' }),
      ...groundStrokes(ground),
      ...(stem.soil.length > 0
        ? [
            group(
              [polyline(stem.soil.map(toPaper(frame)), { stroke: { colour: 'earth', pen: 'P4', line: 'hidden' } })],
              { symbol: 'outside-soil' },
            ),
          ]
        : []),
      ...(stem.from > zero ? [thicknessChange(frame, stem, first)] : []),
    ];
    const foundation = stem.foundation;
    return group(nodes, {
      role: 'thing',
      ...(foundation
        ? {
            thing: foundation.id,
            name: spokenFoundation(
              foundation,
              foundation.thick && profileAt(foundation.thick, midpoint(stem.from, stem.to)),
              frame.speaker,
            ),
          }
        : { name: 'foundation not recorded here' }),
    });
  });
}

/** The two ends of the wall's concrete, and the vertical faces of its steps and of those of the ground before it. */
export function concreteEnds(frame: ElevationFrame): readonly SceneNode[] {
  const { shape } = frame;
  const nodes: SceneNode[] = [];
  for (const station of [zero, shape.length]) {
    const side = station === zero ? 'right' : 'left';
    const top = levelAt(shape, 'top', station, side);
    const ground = levelAt(shape, 'ground', station, side);
    if (top !== undefined && ground !== undefined) {
      nodes.push(
        line([frame.x(station), frame.y(top)], [frame.x(station), frame.y(ground)], { colour: 'ink', pen: 'P2' }),
      );
    }
  }
  for (const { station, before, after } of stepsOf(shape)) {
    const x = frame.x(station);
    const stroke: Stroke = { colour: 'ink', pen: 'P1' };
    nodes.push(group([line([x, frame.y(before)], [x, frame.y(after)], stroke)], { symbol: 'step' }));
  }
  for (const { from } of shape.stems.slice(1)) {
    const [left, right] = [levelAt(shape, 'ground', from, 'left'), levelAt(shape, 'ground', from, 'right')];
    if (left === undefined || right === undefined || left === right) continue;
    const x = frame.x(from);
    nodes.push(line([x, frame.y(left)], [x, frame.y(right)], { colour: 'earth', pen: 'P1' }));
  }
  return nodes;
}

const toPaper =
  (frame: ElevationFrame) =>
  ({ station, level }: LevelAt): XY => [frame.x(station), frame.y(level)];

function edge(points: readonly XY[], known: boolean, stroke: Stroke): SceneNode {
  return known
    ? polyline(points, { stroke })
    : group([polyline(points, { stroke: { colour: stroke.colour, pen: 'P2', line: 'not-recorded' } })], {
        symbol: 'not-recorded',
      });
}

/** About one dot in 16 square millimetres, every ninth a small open triangle; the same for the same wall. */
function texture(frame: ElevationFrame, stem: Stem): SceneNode {
  const random = seededRandom(`${frame.wall.id} ${stem.from}`);
  const cell = 4;
  const from = frame.x(stem.from);
  const to = frame.x(stem.to);
  const highest = frame.y(stem.top.reduce((most, { level }) => larger(most, level), stem.top[0]?.level ?? zero));
  const lowest = frame.y(
    stem.ground.reduce((least, { level }) => smaller(least, level), stem.ground[0]?.level ?? zero),
  );
  const points: XY[] = [];
  const stones: PathStep[] = [];
  let count = 0;
  for (let x = from; x < to; x += cell) {
    const column = stationAt(frame, x + cell / 2);
    const top = frame.y(levelAt(frame.shape, 'top', column) ?? zero) + 0.8;
    const bottom = frame.y(levelAt(frame.shape, 'ground', column) ?? zero) - 0.8;
    for (let y = highest; y < lowest; y += cell) {
      const at: XY = [x + random() * cell, y + random() * cell];
      if (at[0] > to - 0.8 || at[1] < top || at[1] > bottom) continue;
      count++;
      if (count % 9 === 0 && at[1] < bottom - 1.4) {
        const turn = random() * 1.2;
        stones.push(
          { to: 'move', at },
          { to: 'line', at: [at[0] + 1.3 - turn * 0.4, at[1] + turn * 0.7] },
          { to: 'line', at: [at[0] + 0.3 + turn * 0.3, at[1] + 1.2] },
          { to: 'close' },
        );
      } else points.push(at);
    }
  }
  return group(
    [
      { kind: 'path', steps: dots(points), stroke: { colour: 'ink3', pen: 'dot', ends: 'round' } },
      { kind: 'path', steps: stones, stroke: { colour: 'ink3', pen: 'hair' } },
    ],
    { role: 'texture', hidden: true },
  );
}

function stationAt(frame: ElevationFrame, x: number): Length {
  const { shape } = frame;
  const share = (x - frame.left) / Math.max(frame.right - frame.left, 1e-9);
  return scale(shape.length, Math.round(Math.min(Math.max(share, 0), 1) * 1e6), 1e6);
}

/** Under the ground line, groups of three short strokes. */
function groundStrokes(ground: readonly XY[]): readonly SceneNode[] {
  const [from, to] = [ground[0], ground[ground.length - 1]];
  if (!from || !to) return [];
  const segments: (readonly [XY, XY])[] = [];
  for (let x = from[0] + 3; x < to[0] - 3.4; x += 15) {
    const y = heightOn(ground, x);
    for (const offset of [0, 1.1, 2.2]) {
      segments.push([
        [x + offset + 1.1, y + 0.5],
        [x + offset, y + 2],
      ]);
    }
  }
  return [group([strokes(segments, { colour: 'earth', pen: 'P5' })], { role: 'texture', hidden: true })];
}

function heightOn(points: readonly XY[], x: number): number {
  let left = points[0] ?? [0, 0];
  for (const point of points) {
    if (point[0] >= x) {
      if (point[0] === left[0]) return point[1];
      return left[1] + ((point[1] - left[1]) * (x - left[0])) / (point[0] - left[0]);
    }
    left = point;
  }
  return left[1];
}

function thicknessChange(frame: ElevationFrame, stem: Stem, at: XY): SceneNode {
  const before = stemAt(frame.shape, stem.from, 'left');
  const thickness = (side: Stem | undefined, station: Length) =>
    side?.foundation?.thick ? knownValue(profileAt(side.foundation.thick, station)) : undefined;
  const same =
    thickness(before, stem.from) === thickness(stem, stem.from) &&
    before?.foundation?.material === stem.foundation?.material;
  const lower = levelAt(frame.shape, 'ground', stem.from);
  if (same || lower === undefined) return group([]);
  return group([line(at, [at[0], frame.y(lower)], { colour: 'ink2', pen: 'P5', line: 'thickness-change' })], {
    symbol: 'thickness-change',
  });
}

// ---- warning zones

export interface ServiceZone {
  readonly thing: Obstruction;
  readonly reason: 'gas' | 'power' | 'unknown';
  readonly from: Length;
  readonly to: Length;
  /** `undefined`: no rule set in force says how far holes keep away. */
  readonly clear: Length | undefined;
}

/** Where no hole may go for the sake of gas and power; a meter may be of either. */
export function serviceZones(frame: Pick<ElevationFrame, 'wall' | 'layout' | 'shape'>): readonly ServiceZone[] {
  return frame.wall.obstructions.flatMap((thing): ServiceZone[] => {
    const service = serviceOf(thing);
    const stretch = extentOf(thing);
    if (!service || !stretch) return [];
    const distances = service.reasons.flatMap(
      (reason) => asked(frame.layout.rules, reason === 'gas' ? 'gas-clear' : 'power-clear') ?? [],
    );
    const clear = distances.length > 0 ? distances.reduce(larger) : undefined;
    const reach = clear ?? zero;
    const from = larger(zero, minus(stretch.from, reach));
    const to = smaller(frame.shape.length, plus(stretch.to, reach));
    if (to <= from) return [];
    return [
      { thing, reason: service.reasons.length > 1 ? 'unknown' : (service.reasons[0] ?? 'unknown'), from, to, clear },
    ];
  });
}

export const serviceColour = (reason: ServiceZone['reason']): ColourToken => (reason === 'gas' ? 'gas' : 'power');

export function warningZones(frame: ElevationFrame): readonly SceneNode[] {
  return serviceZones(frame).flatMap((zone) => {
    const drawn = drawnThing(frame, zone.thing);
    if (!drawn) return [];
    const reach = onPaper(frame, zone.clear ?? zero);
    const middle = midpoint(zone.from, zone.to);
    const ground = frame.y(levelAt(frame.shape, 'ground', middle) ?? frame.lowest);
    const box = boxBetween(
      frame.x(zone.from),
      Math.max(frame.y(frame.highest), drawn.box.y - reach),
      frame.x(zone.to),
      Math.min(ground, drawn.box.y + drawn.box.height + reach),
    );
    const colour = serviceColour(zone.reason);
    const drawnZone = zone.reason === 'unknown' ? unknownServiceZone(box, colour) : warningZone(box, colour);
    return [group([drawnZone], { thing: zone.thing.id, hidden: true })];
  });
}

// ---- floor

/** @param unblocked stretches where a finding misses rim or blocks. */
export function floor(
  frame: ElevationFrame,
  joists: readonly JoistEnd[],
  unblocked: readonly Stretch[],
): readonly SceneNode[] {
  const { wall, shape } = frame;
  const nodes: SceneNode[] = [];
  for (const rim of wall.rims) {
    if (rim.seen === 'absent') continue;
    const run = runBox(frame, rim.from, rim.to, knownValue(rim.size?.wide) ?? joistDepth(wall.joists));
    const seen = rim.seen !== 'unseen';
    const board = seen
      ? rect(run, { stroke: { colour: 'woodln', pen: 'P3' } })
      : group([rect(run, { stroke: { colour: 'woodln', pen: 'P3', line: 'not-recorded' } })], {
          symbol: 'not-recorded',
        });
    nodes.push(group([board], { thing: rim.id, role: 'thing', name: `rim joist, ${rim.seen ?? 'not recorded'}` }));
  }
  for (const run of wall.joists) if (run.run !== 'into') nodes.push(parallelJoist(frame, run));
  nodes.push(...blocks(frame, joists), ...missingBlocks(frame, joists, unblocked));
  const replaced = replacedAt(frame.wall.remedies, 'joist');
  for (const joist of joists) {
    const { from, to } = onWall(joist, shape.length);
    if (to <= from) continue;
    const box = runBox(frame, from, to, joist.depth);
    if (replaced.has(joist.station)) {
      nodes.push(newWood(box, false, 'replaced-wood'));
      continue;
    }
    const outline: Stroke = { colour: 'ink2', pen: 'P3', ...(joist.sizeKnown ? {} : { line: 'not-recorded' }) };
    nodes.push(rect(box, { fill: 'paper', stroke: outline }), strokes(diagonals(box), { colour: 'ink2', pen: 'P5' }));
  }
  if (wall.joists.length === 0) {
    for (const stem of shape.stems) {
      const levels = stem.joistUnderside.map(toPaper(frame));
      nodes.push(
        group([polyline(levels, { stroke: { colour: 'woodln', pen: 'P2', line: 'not-recorded' } })], {
          symbol: 'not-recorded',
        }),
      );
    }
  } else if (joists.length > 0) {
    const floorLine = runBox(frame, zero, shape.length, joistDepth(wall.joists));
    nodes.push(
      line([floorLine.x, floorLine.y], [floorLine.x + floorLine.width, floorLine.y], { colour: 'woodln', pen: 'P4' }),
    );
  } else if (wall.joists.some((run) => run.run === 'into')) {
    const band = runBox(frame, zero, shape.length, joistDepth(wall.joists));
    nodes.push(
      group([rect(band, { stroke: { colour: 'woodln', pen: 'P2', line: 'not-recorded' } })], {
        symbol: 'not-recorded',
      }),
    );
  }
  return nodes;
}

/** Where the design puts new wood in the place of old, one stick at a time. */
function replacedAt(remedies: readonly Remedy[], what: 'joist' | 'stud'): ReadonlySet<Length> {
  return new Set(
    remedies.flatMap((remedy) =>
      remedy.verb === 'replace' && remedy.what === what && remedy.stretch ? [remedy.stretch.from] : [],
    ),
  );
}

export function joistDepth(runs: readonly JoistRun[]): Length {
  for (const run of runs) {
    const depth = knownValue(run.size?.wide);
    if (depth !== undefined) return depth;
  }
  return standInJoist.depth;
}

/** A board standing on the joists' underside over a stretch. */
function runBox(frame: ElevationFrame, from: Length, to: Length, depth: Length): Box {
  const underside = levelAt(frame.shape, 'joistUnderside', midpoint(from, to)) ?? zero;
  return boxBetween(
    frame.x(larger(from, zero)),
    frame.y(plus(underside, depth)),
    frame.x(smaller(to, frame.shape.length)),
    frame.y(underside),
  );
}

function parallelJoist(frame: ElevationFrame, run: JoistRun): SceneNode {
  const depth = knownValue(run.size?.wide);
  const box = runBox(frame, run.from, run.to, depth ?? standInJoist.depth);
  const known = run.run === 'parallel' && depth !== undefined;
  const stroke: Stroke = {
    colour: 'woodln',
    pen: known ? 'P3' : 'P2',
    ...(known ? {} : { line: 'not-recorded' as const }),
  };
  const grain = [0.33, 0.68].map((share, index): readonly [XY, XY] => [
    [box.x + box.width * (0.03 + index * 0.11), box.y + box.height * share],
    [box.x + box.width * (0.93 - index * 0.07), box.y + box.height * share],
  ]);
  const board = [rect(box, { fill: 'wood', stroke }), strokes(grain, { colour: 'woodln', pen: 'P5' })];
  return group(known ? board : [group(board, { symbol: 'not-recorded' })], {
    thing: run.id,
    role: 'thing',
    name: run.run === 'parallel' ? 'joist along the wall' : 'joists, direction not recorded',
  });
}

function blocks(frame: ElevationFrame, joists: readonly JoistEnd[]): readonly SceneNode[] {
  const bays = baysOf(joists);
  const depth = joistDepth(frame.wall.joists);
  return frame.wall.blocking.map((blocking) => {
    const isBlocked = namesBay(blocking.bays);
    const nodes = bays.flatMap((bay) => {
      if (!isBlocked(bay.number) || bay.to <= bay.from) return [];
      const box = runBox(frame, bay.from, bay.to, depth);
      return [
        blocking.layer === 'survey'
          ? foundBlock(box)
          : newWood(box, blocking.proposed === true, blocking.proposed ? 'block-proposed' : 'block-new'),
      ];
    });
    return group(nodes, {
      thing: blocking.id,
      role: 'thing',
      name: `${nodes.length} ${blocking.layer === 'design' ? 'new' : 'found'} blocks between joists`,
    });
  });
}

/** Where findings that nobody accepted miss a rim or blocks. */
export function unblockedStretches(findings: readonly Finding[]): readonly Stretch[] {
  return findings.flatMap(({ rule, accepted, station, stationTo }) =>
    rule === 'floor/bay-unblocked' && accepted === undefined && station !== undefined
      ? [{ from: station, to: stationTo ?? station }]
      : [],
  );
}

/** Empty bays that a finding speaks of. */
function missingBlocks(
  frame: ElevationFrame,
  joists: readonly JoistEnd[],
  unblocked: readonly Stretch[],
): readonly SceneNode[] {
  if (unblocked.length === 0) return [];
  const closed = closedBays(frame.wall);
  const depth = joistDepth(frame.wall.joists);
  const nodes = baysOf(joists).flatMap((bay) => {
    const middle = midpoint(bay.from, bay.to);
    const isOpen = !(typeof closed === 'object' && closed.has(bay));
    if (!isOpen || bay.to <= bay.from || !unblocked.some(({ from, to }) => from <= middle && middle <= to)) return [];
    return [missingBlock(runBox(frame, bay.from, bay.to, depth))];
  });
  return nodes.length === 0 ? [] : [group(nodes, { hidden: true })];
}

// ---- cripple walls

export function crippleWalls(frame: ElevationFrame): readonly SceneNode[] {
  const { wall } = frame;
  const studs = studsOf(wall).studs;
  const addedStuds = new Map(wall.studs.flatMap((stud) => (stud.layer === 'design' ? [[stud.id, stud] as const] : [])));
  const replaced = replacedAt(wall.remedies, 'stud');
  let next = 0;
  const nodes = [...wall.cripples]
    .sort((a, b) => a.from - b.from)
    .map((cripple) => {
      const members: SceneNode[] = [];
      while (next < studs.length && (studs[next]?.centre ?? zero) < cripple.from) next++;
      for (; next < studs.length && (studs[next]?.centre ?? zero) <= cripple.to; next++) {
        const stud = studs[next];
        if (!stud) continue;
        const from = larger(minus(stud.centre, stud.halfWidth), zero);
        const to = smaller(plus(stud.centre, stud.halfWidth), frame.shape.length);
        if (to <= from) continue;
        const box = boxBetween(
          frame.x(from),
          frame.y(plateUnderside(frame, cripple, stud.centre)),
          frame.x(to),
          frame.y(sillTopAt(frame, stud.centre)),
        );
        const added = stud.role === 'added' ? addedStuds.get(stud.thing) : undefined;
        members.push(
          added
            ? group([newWood(box, added.proposed === true, added.proposed ? 'added-stud-proposed' : 'added-stud')], {
                thing: added.id,
              })
            : replaced.has(stud.centre)
              ? newWood(box, false, 'replaced-wood')
              : rect(box, { fill: 'wood', stroke: { colour: 'woodln', pen: 'P4' } }),
        );
      }
      // A stud on the line between two cripple walls stands in both.
      while (next > 0 && (studs[next - 1]?.centre ?? zero) >= cripple.to) next--;
      members.push(...plates(frame, cripple));
      return group(members, { thing: cripple.id, role: 'thing', name: 'cripple wall, studs and plates' });
    });
  return nodes;
}

function plates(frame: ElevationFrame, cripple: CrippleStretch): readonly SceneNode[] {
  const from = larger(cripple.from, zero);
  const to = smaller(cripple.to, frame.shape.length);
  if (to <= from) return [];
  const recorded = cripple.plates !== undefined && cripple.studHeight !== undefined;
  const nodes: SceneNode[] = [];
  for (const stem of frame.shape.stems) {
    const left = larger(from, stem.from);
    const right = smaller(to, stem.to);
    if (right <= left) continue;
    const middle = midpoint(left, right);
    const box = boxBetween(
      frame.x(left),
      frame.y(levelAt(frame.shape, 'joistUnderside', middle) ?? zero),
      frame.x(right),
      frame.y(plateUnderside(frame, cripple, middle)),
    );
    const stroke: Stroke = {
      colour: 'woodln',
      pen: recorded ? 'P4' : 'P2',
      ...(recorded ? {} : { line: 'not-recorded' as const }),
    };
    const board = rect(box, { fill: 'wood', stroke });
    nodes.push(recorded ? board : group([board], { symbol: 'not-recorded' }));
    if (cripple.plates === 'double') {
      const y = box.y + box.height / 2;
      nodes.push(line([box.x, y], [box.x + box.width, y], { colour: 'woodln', pen: 'P4' }));
    }
  }
  return nodes;
}

// ---- sill

type End =
  | { readonly shape: 'square' }
  | { readonly shape: 'lap' | 'scarf'; readonly from: Length; readonly to: Length };

/** Sill pieces left to right with the joints between them. */
export function sills(frame: ElevationFrame): readonly SceneNode[] {
  const pieces = [...frame.wall.pieces].sort((a, b) => a.from - b.from || a.to - b.to);
  const joints = pieces.slice(1).map((right, index) => jointBetween(pieces[index] ?? right, right));
  return [
    ...removedBoards(frame),
    ...pieces.map((piece, index) =>
      sillPiece(frame, piece, joints[index - 1]?.end ?? square, joints[index]?.end ?? square),
    ),
    ...joints.flatMap((joint) => jointSign(frame, joint)),
  ];
}
const square: End = { shape: 'square' };

function removedBoards(frame: ElevationFrame): readonly SceneNode[] {
  return boardsTakenOut(frame.wall).flatMap(({ board, ...taken }) => {
    const [from, to] = [larger(taken.from, zero), smaller(taken.to, frame.shape.length)];
    if (to <= from) return [];
    const top = levelAt(frame.shape, 'top', midpoint(from, to)) ?? zero;
    const { thick } = sillThickness(board);
    return [
      group([removedWood(boxBetween(frame.x(from), frame.y(plus(top, thick)), frame.x(to), frame.y(top)))], {
        thing: board.id,
        name: `sill piece ${board.name}, comes out`,
      }),
    ];
  });
}

interface JointBetween {
  readonly left: SillPiece;
  readonly right: SillPiece;
  readonly end: End;
  readonly gap: Length | undefined;
}

function jointBetween(left: SillPiece, right: SillPiece): JointBetween {
  const overlap = minus(left.to, right.from);
  const stated = knownValue(left.jointLength);
  const isLap = left.joint === 'half-lap' || left.joint === 'scarf';
  const shape = left.joint === 'scarf' ? 'scarf' : 'lap';
  if (overlap > 0) return { left, right, gap: undefined, end: { shape, from: right.from, to: left.to } };
  if (isLap && overlap === 0 && stated !== undefined && stated > 0) {
    return {
      left,
      right,
      gap: undefined,
      end: { shape, from: minus(left.to, half(stated)), to: plus(left.to, half(stated)) },
    };
  }
  // Boards that meet, or nearly: a joint. A wider hole is a chimney or a door, and says so by itself.
  return { left, right, gap: overlap === 0 ? (knownValue(left.gap) ?? zero) : undefined, end: square };
}

function sillPiece(frame: ElevationFrame, piece: SillPiece, leftEnd: End, rightEnd: End): SceneNode {
  const { thick, known } = sillThickness(piece);
  const isNew = piece.layer === 'design';
  const from = larger(piece.from, zero);
  const to = smaller(piece.to, frame.shape.length);
  if (to <= from) return group([], { thing: piece.id });
  const bottom = topOutline(frame, from, to);
  const top = bottom.map(({ station, level }): LevelAt => ({ station, level: plus(level, thick) }));
  const at = (station: Length, share: number, side: 'left' | 'right'): XY => {
    const level = levelAt(frame.shape, 'top', station, side) ?? zero;
    return [frame.x(station), frame.y(plus(level, scale(thick, share, 2)))];
  };
  // Half-lap: the left board keeps the lower half, the right one the upper; scarf: one slanting line for both.
  const left: readonly XY[] =
    leftEnd.shape === 'lap'
      ? [
          at(leftEnd.from, 2, 'right'),
          at(leftEnd.from, 1, 'right'),
          at(leftEnd.to, 1, 'right'),
          at(leftEnd.to, 0, 'right'),
        ]
      : leftEnd.shape === 'scarf'
        ? [at(leftEnd.from, 2, 'right'), at(leftEnd.to, 0, 'right')]
        : [];
  const right: readonly XY[] =
    rightEnd.shape === 'lap'
      ? [
          at(rightEnd.to, 0, 'left'),
          at(rightEnd.to, 1, 'left'),
          at(rightEnd.from, 1, 'left'),
          at(rightEnd.from, 2, 'left'),
        ]
      : rightEnd.shape === 'scarf'
        ? [at(rightEnd.to, 0, 'left'), at(rightEnd.from, 2, 'left')]
        : [];
  const lower = bottom.map(toPaper(frame));
  const upper = top.map(toPaper(frame)).reverse();
  const body = (points: readonly XY[], cutLeft: number, cutRight: number): readonly XY[] =>
    points.filter(([x]) => x > cutLeft + 1e-9 && x < cutRight - 1e-9);
  const outline: readonly XY[] = [
    ...(left.length > 0 ? left : [[frame.x(from), upper[upper.length - 1]?.[1] ?? 0] as XY, lower[0] ?? [0, 0]]),
    ...body(
      lower,
      left.length > 0 ? Math.max(...left.map(([x]) => x)) : frame.x(from),
      right.length > 0 ? Math.max(...right.map(([x]) => x)) : frame.x(to),
    ),
    ...(right.length > 0 ? right : [lower[lower.length - 1] ?? [0, 0], upper[0] ?? [0, 0]]),
    ...body(
      upper,
      left.length > 0 ? Math.min(...left.map(([x]) => x)) : frame.x(from),
      right.length > 0 ? Math.min(...right.map(([x]) => x)) : frame.x(to),
    ),
  ];
  const stroke: Stroke = isNew
    ? { colour: 'new', pen: 'P2' }
    : { colour: 'woodln', pen: known ? 'P3' : 'P2', ...(known ? {} : { line: 'not-recorded' as const }) };
  const board = polygon(outline, { fill: 'wood', stroke });
  const middle = midpoint(from, to);
  const top0 = levelAt(frame.shape, 'top', middle) ?? zero;
  const nodes: SceneNode[] = [known ? board : group([board], { symbol: 'not-recorded' })];
  if (isNew) {
    const box = boxBetween(frame.x(from), frame.y(plus(top0, thick)), frame.x(to), frame.y(top0));
    nodes.push(group([strokes(hatch(box, 2.4), { colour: 'new', pen: 'P4' })], { symbol: 'new-sill' }));
  }
  return group(nodes, { thing: piece.id, role: 'thing', name: spokenPiece(piece, frame.speaker) });
}

/** The top of concrete under a stretch, with both heights of every step. */
function topOutline(frame: ElevationFrame, from: Length, to: Length): readonly LevelAt[] {
  const points: LevelAt[] = [];
  for (const stem of frame.shape.stems) {
    const left = larger(from, stem.from);
    const right = smaller(to, stem.to);
    if (right <= left) continue;
    points.push({ station: left, level: levelAt(frame.shape, 'top', left, 'right') ?? zero });
    points.push(...stem.top.filter(({ station }) => station > left && station < right));
    points.push({ station: right, level: levelAt(frame.shape, 'top', right, 'left') ?? zero });
  }
  return points;
}

function jointSign(frame: ElevationFrame, joint: JointBetween): readonly SceneNode[] {
  const { left, right, end } = joint;
  const { thick } = sillThickness(left);
  if (end.shape !== 'square') {
    const at = (station: Length, share: number): XY => [
      frame.x(station),
      frame.y(plus(levelAt(frame.shape, 'top', station, 'left') ?? zero, scale(thick, share, 2))),
    ];
    const path =
      end.shape === 'lap'
        ? [at(end.from, 2), at(end.from, 1), at(end.to, 1), at(end.to, 0)]
        : [at(end.from, 2), at(end.to, 0)];
    return [group([polyline(path, { stroke: { colour: 'ink', pen: 'P2' } })], { symbol: 'joint', hidden: true })];
  }
  if (joint.gap === undefined || left.joint === 'step' || left.joint === 'corner' || right.from > frame.shape.length)
    return [];
  const before = levelAt(frame.shape, 'top', left.to, 'left') ?? zero;
  if (before !== (levelAt(frame.shape, 'top', left.to, 'right') ?? zero)) return [];
  const wide = Math.max(0.6, onPaper(frame, joint.gap));
  const x = frame.x(left.to);
  const box = boxBetween(x - wide / 2, frame.y(plus(before, thick)), x + wide / 2, frame.y(before));
  return [
    group(
      [
        rect(box, { fill: 'paper' }),
        strokes(
          [
            [
              [box.x, box.y],
              [box.x, box.y + box.height],
            ],
            [
              [box.x + wide, box.y],
              [box.x + wide, box.y + box.height],
            ],
          ],
          { colour: 'ink', pen: 'P4' },
        ),
      ],
      { symbol: 'joint', hidden: true },
    ),
  ];
}

// ---- openings, services, defects, anchors found

export function openings(frame: ElevationFrame): readonly SceneNode[] {
  return frame.wall.obstructions.flatMap((thing) => {
    const drawn = isOpeningKind(thing.kind) ? drawnThing(frame, thing) : undefined;
    if (!drawn) return [];
    const { box, recorded } = drawn;
    const sign =
      thing.kind === 'vent'
        ? vent(box, recorded)
        : thing.kind === 'window'
          ? glazing(box, recorded)
          : thing.kind === 'chimney'
            ? chimney(box)
            : doorway(box, recorded);
    const reach = drawn.fullHeight ? [unrecordedReach(frame, thing, box)] : [];
    return [
      group([...reach, sign, ...remedySign(thing, box)], {
        thing: thing.id,
        role: 'thing',
        name: spokenThing(thing, frame.speaker),
      }),
    ];
  });
}

/** Drawn as found, and what the design does to it on top. */
function remedySign(thing: Obstruction, box: Box): readonly SceneNode[] {
  if (thing.remedied === 'removed') return [removedThing(box)];
  return thing.remedied === 'relocated' ? [relocatedThing(box)] : [];
}

const isOpeningKind = (kind: Obstruction['kind']): boolean =>
  kind === 'vent' || kind === 'window' || kind === 'door' || kind === 'hatch' || kind === 'chimney';

/** An opening without a recorded height blocks the full height: its jambs go on in short dashes. */
function unrecordedReach(frame: ElevationFrame, thing: Obstruction, box: Box): SceneNode {
  const middle = thing.stretch ? midpoint(thing.stretch.from, thing.stretch.to) : zero;
  const underside = frame.y(levelAt(frame.shape, 'joistUnderside', middle) ?? frame.highest);
  const ground = frame.y(levelAt(frame.shape, 'ground', middle) ?? frame.lowest);
  const stroke: Stroke = { colour: 'ink3', pen: 'P4', line: 'not-recorded' };
  const nodes = [box.x, box.x + box.width].flatMap((x) => [
    ...(box.y > underside + 0.5 ? [line([x, box.y], [x, underside], stroke)] : []),
    ...(box.y + box.height < ground - 0.5 ? [line([x, box.y + box.height], [x, ground], stroke)] : []),
  ]);
  return group(nodes, { symbol: 'not-recorded', hidden: true });
}

export function services(frame: ElevationFrame, room: Length | undefined): readonly SceneNode[] {
  // A pipe that runs into a box ends behind it.
  const behindFirst = [...frame.wall.obstructions].sort((a, b) => Number(isBox(a)) - Number(isBox(b)));
  return behindFirst.flatMap((thing) => {
    const drawn = isOpeningKind(thing.kind) ? undefined : drawnThing(frame, thing);
    if (!drawn) return [];
    return [
      group(
        [serviceSign(thing, drawn.box, drawn.recorded, isInTheToolsWay(thing, room)), ...remedySign(thing, drawn.box)],
        {
          thing: thing.id,
          role: 'thing',
          name: spokenThing(thing, frame.speaker),
        },
      ),
    ];
  });
}

/** Free depth in front of the wall that the tools of this wall want, most of all; `undefined` where nothing says. */
export function toolRoom({ layout, wall }: ElevationFrame): Length | undefined {
  const wanted = wall.anchors.flatMap(
    ({ connector }) => connector?.fits.flatMap((fit) => (fit.subject === 'side-room' ? [fit.least] : [])) ?? [],
  );
  const everywhere = asked(layout.rules, 'side-room', 'straight');
  return [...wanted, everywhere].reduce<Length | undefined>(
    (most, each) => (most === undefined || (each !== undefined && each > most) ? each : most),
    undefined,
  );
}

/** Nearer to the wall than the tool's room, or nobody measured how near. */
function isInTheToolsWay({ off }: Obstruction, room: Length | undefined): boolean {
  const away = off === undefined ? zero : knownValue(off);
  return room !== undefined && (away === undefined || away < room);
}

const isBox = (thing: Obstruction): boolean => thing.kind === 'electrical-panel' || thing.kind === 'meter';

function serviceSign(
  thing: Obstruction,
  box: Box,
  recorded: { readonly top: boolean; readonly bottom: boolean },
  inTheWay: boolean,
): SceneNode {
  const middle: XY = [box.x + box.width / 2, box.y + box.height / 2];
  const upright = box.height > box.width;
  const axis: readonly [XY, XY] = upright
    ? [
        [middle[0], box.y],
        [middle[0], box.y + box.height],
      ]
    : [
        [box.x, middle[1]],
        [box.x + box.width, middle[1]],
      ];
  const known = recorded.top && recorded.bottom;
  const movable = thing.words.has('movable');
  switch (thing.kind) {
    case 'gas-pipe':
      return known || thing.words.has('riser')
        ? gasLine(axis[0], axis[1])
        : group([gasLine(axis[0], axis[1]), thingInTheWay(box, recorded)]);
    case 'flue':
      return known ? flueLine(axis[0], axis[1]) : group([flueLine(axis[0], axis[1]), thingInTheWay(box, recorded)]);
    case 'electrical-panel':
    case 'meter':
      return powerBox(box, recorded);
    case 'conduit':
      return pipe(box, recorded, 'power');
    case 'pipe':
    case 'stack':
    case 'duct':
      return pipe(box, recorded);
    default:
      return thingInTheWay(box, recorded, { movable, near: inTheWay });
  }
}

export function defects(frame: ElevationFrame): readonly SceneNode[] {
  return frame.wall.defects.flatMap((defect) => {
    const sign = defectSign(frame, defect);
    const { stretch } = defect;
    const middle = stretch ? midpoint(larger(stretch.from, zero), smaller(stretch.to, frame.shape.length)) : zero;
    const seenTo = defect.remedied
      ? [remediedDefect([frame.x(middle), frame.y(levelAt(frame.shape, 'top', middle) ?? zero) + 4.4])]
      : [];
    return sign
      ? [group([sign, ...seenTo], { thing: defect.id, role: 'thing', name: spokenThing(defect, frame.speaker) })]
      : [];
  });
}

/** An eighth of an inch: a wider crack is drawn double. */
export const WIDE_CRACK = inMillimetres((NANOMETRES_PER_INCH / 8) as Length);

function defectSign(frame: ElevationFrame, defect: Defect): SceneNode | undefined {
  const { stretch } = defect;
  if (!stretch || stretch.from > frame.shape.length || stretch.to < zero) return undefined;
  const from = larger(stretch.from, zero);
  const to = smaller(stretch.to, frame.shape.length);
  const middle = midpoint(from, to);
  const top = levelAt(frame.shape, 'top', middle) ?? zero;
  const ground = levelAt(frame.shape, 'ground', middle) ?? zero;
  switch (defect.kind) {
    case 'rot':
    case 'insects':
    case 'notch':
      return softWood(woodBox(frame, from, to, top));
    case 'split':
      return splitWood(woodBox(frame, from, to, top));
    case 'crack':
    case 'spall': {
      const width = knownValue(defect.width);
      return crackLine(
        frame.x(middle),
        frame.y(top),
        frame.y(ground),
        width !== undefined && inMillimetres(width) > WIDE_CRACK,
      );
    }
    case 'cold-joint':
      return coldJoint(frame.x(middle), frame.y(top), frame.y(ground));
  }
}

function woodBox(frame: ElevationFrame, from: Length, to: Length, top: Length): Box {
  const box = boxBetween(frame.x(from), frame.y(sillTopAt(frame, midpoint(from, to))), frame.x(to), frame.y(top));
  return box.width >= 2.2 ? box : { ...box, x: box.x + box.width / 2 - 1.1, width: 2.2 };
}

export function foundAnchors(frame: ElevationFrame, anchors: readonly FoundAnchor[]): readonly SceneNode[] {
  return anchors.flatMap((anchor) => {
    if (anchor.station === undefined) return [];
    const top = levelAt(frame.shape, 'top', anchor.station) ?? zero;
    const embed = knownValue(anchor.embed);
    const sign = foundAnchor(
      {
        x: frame.x(anchor.station),
        sillTop: frame.y(sillTopAt(frame, anchor.station)),
        foot: frame.y(minus(top, embed ?? inches(5))),
        footKnown: embed !== undefined,
      },
      foundState(anchor),
    );
    const washer = anchor.newWasher
      ? [
          newWasher(
            frame.x(anchor.station),
            frame.y(sillTopAt(frame, anchor.station)),
            Math.max(2.6, onPaper(frame, anchor.newWasher.body?.wide ?? inches(3))),
          ),
        ]
      : [];
    return [
      group([...washer, sign], { thing: anchor.id, role: 'thing', name: spokenFoundAnchor(anchor, frame.speaker) }),
    ];
  });
}
