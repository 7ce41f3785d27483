import { anchorsOfWall, panelsOfWall } from './anchors.ts';
import type { HouseFacts, HouseOptions, PieceFacts, RunFacts, Timber, WallFacts } from './facts.ts';
import { INCH, MILLIMETRE } from './facts.ts';
import { girdersOf, joistsOfWall } from './floor.ts';
import type { HouseFrame } from './foundation.ts';
import { inches } from './foundation.ts';
import { obstructionsOfWall, placeIn } from './obstructions.ts';
import type { Edge, Outline } from './outline.ts';
import { randomOutline } from './outline.ts';
import type { Random } from './random.ts';
import { randomFrom } from './random.ts';
import { sillOfWall } from './sill.ts';
import { penOf, untidied } from './text.ts';
import { textOfHouse } from './write.ts';

export interface House {
  readonly text: string;
  readonly facts: HouseFacts;
}

/**
 * A random house, the same for the same seed: its text and what was built. With `design` the house is legal: under the rule set
 * existing-building and the shop's limits, no finding is an error or a stop.
 */
export function houseOf(seed: number, options: HouseOptions = {}): House {
  const random = randomFrom(seed);
  const facts = factsOf(seed, random, options);
  const mixed = random.chance(0.3);
  const pen = penOf(random.fork(), { units: facts.units, mixed, plain: facts.plain });
  const text = textOfHouse(random.fork(), facts, pen, options);
  return { text: options.untidy ? untidied(text, random.fork()) : text, facts };
}

function factsOf(seed: number, random: Random, options: HouseOptions): HouseFacts {
  const units = random.chance(0.75) ? 'feet-inches' : 'metric';
  const frame = frameOf(random, units);
  const storeys = random.pick<1 | 2>([1, 2]);
  const face = random.chance(0.8) ? 'outside' : 'inside';
  const outline = options.outline ?? randomOutline(random, units);
  const joistsRunEast = random.chance(0.5);
  const walls = outline.edges.map((edge, index) =>
    wallOf(
      random,
      frame,
      storeys,
      { edge, name: nameOf(index), turn: outline.turns[index] ?? 90, joistsRunEast },
      options,
    ),
  );
  return {
    seed,
    units,
    face,
    storeys,
    floorUnderside: frame.floorUnderside,
    sill: frame.sill,
    stud: frame.stud,
    vertices: outline.vertices,
    walls,
    interior: interiorOf(random, outline),
    girders: girdersOf(random, frame, outline, joistsRunEast),
    plain: options.plain ?? random.chance(0.2),
  };
}

/** A to Z, then QA and so on: with no word of the language among them. */
const nameOf = (index: number): string =>
  `${['', ...'QXZJVK'][Math.floor(index / 26)] ?? `W${index}`}${String.fromCharCode(65 + (index % 26))}`;

function frameOf(random: Random, units: HouseFrame['units']): HouseFrame {
  const old = random.chance(0.5);
  const tape = units === 'metric' ? MILLIMETRE : INCH / 8;
  const size = (thick: number, wide: number, nominal: string): Timber => {
    const exact = Number.isInteger((thick * INCH) / tape) && Number.isInteger((wide * INCH) / tape);
    const on = (count: number): number => Math.round((count * INCH) / tape) * tape;
    if (!old) return { thick: thick * INCH, wide: wide * INCH, nominal };
    return { thick: exact ? thick * INCH : on(thick), wide: exact ? wide * INCH : on(wide), nominal: undefined };
  };
  const sill = old ? size(1.625, 5.625, '2x6') : size(1.5, 5.5, '2x6');
  const stud = old ? size(1.625, 3.625, '2x4') : size(1.5, 3.5, '2x4');
  const floorUnderside = random.chance(0.7) ? sill.thick : Math.round((random.integer(-8, 24) * INCH) / tape) * tape;
  return {
    units,
    sill,
    stud,
    floorUnderside,
    joistDepth: old ? Math.round((9.5 * INCH) / tape) * tape : 9.25 * INCH,
    plates: random.pick<1 | 2>([1, 2]),
    studSpacing: units === 'metric' ? 406 * MILLIMETRE : 16 * INCH,
  };
}

function wallOf(
  random: Random,
  frame: HouseFrame,
  storeys: 1 | 2,
  place: { readonly edge: Edge; readonly name: string; readonly turn: number; readonly joistsRunEast: boolean },
  options: HouseOptions,
): WallFacts {
  const { edge, name, turn } = place;
  const tape = frame.units === 'metric' ? MILLIMETRE : INCH / 8;
  // The tape reads a little off; the closing tool writes what fits beside it.
  const length = random.chance(0.1) ? edge.length + random.pick([-1, 1]) * tape : edge.length;
  const wall = { name, length };
  const sill = sillOfWall(random, frame, wall);
  const { pieces, anchors, firstStud } = anchorsOfWall(random, frame, storeys, wall, sill);
  const panels = options.design ? panelsOfWall(frame, wall, sill, firstStud) : [];
  const obstructions = obstructionsOfWall(random, frame, wall, { anchors, panels, holes: sill.holes });
  const busy = [...obstructions, ...panels];
  const joists = joistsOfWall(random, frame, edge.heading, place.joistsRunEast);
  return {
    name,
    length,
    adjusted: edge.length,
    turn,
    heading: edge.heading,
    runs: sill.runs,
    pieces,
    studs: { first: firstStud, spaced: frame.studSpacing },
    joists,
    obstructions,
    defects: defectsOf(random, frame, wall.length, anchors, busy, sill.runs),
    foundAnchors: foundAnchorsOf(random, frame, name, pieces, anchors, busy),
    anchors: options.design ? anchors : [],
    panels,
    angles: options.design ? { mark: `${name}-A1`, everyBay: joists.run === 'into' } : undefined,
    noWork: false,
  };
}

/** Far from what is to be built, so that nobody need repair it first. */
function defectsOf(
  random: Random,
  frame: HouseFrame,
  length: number,
  anchors: WallFacts['anchors'],
  busy: readonly { readonly from: number; readonly to: number }[],
  runs: readonly RunFacts[],
): WallFacts['defects'] {
  const stations = [0, ...anchors.map(({ station }) => station), length];
  return stations.slice(1).flatMap((right, index): WallFacts['defects'] => {
    const left = stations[index] ?? 0;
    if (!random.chance(0.06)) return [];
    const kind = random.pick(['rot', 'split', 'insects', 'crack', 'notch', 'spall']);
    const place = placeIn(
      random,
      frame,
      { wide: kind === 'crack' ? [0, 0] : [2, 5] },
      { from: left + 20 * INCH, to: right - 20 * INCH },
    );
    if (!place || runs.some((run) => run.from > place.from && run.from < place.to)) return [];
    const clear = busy.every((each) => each.to + 18 * INCH <= place.from || place.to + 18 * INCH <= each.from);
    return clear ? [{ kind, ...place }] : [];
  });
}

/** Old bolts between the new anchors, without credit. */
function foundAnchorsOf(
  random: Random,
  frame: HouseFrame,
  wall: string,
  pieces: readonly PieceFacts[],
  anchors: WallFacts['anchors'],
  busy: readonly { readonly from: number; readonly to: number }[],
): WallFacts['foundAnchors'] {
  const found = pieces.flatMap((piece) => {
    const station = inches(
      frame,
      Math.round((piece.from + (piece.to - piece.from) * (random.integer(2, 8) / 10)) / INCH),
    );
    const away = anchors.every((each) => Math.abs(each.station - station) >= 7 * INCH);
    const open = busy.every((each) => station < each.from - 6 * INCH || station > each.to + 6 * INCH);
    return away && open && random.chance(0.4) ? [station] : [];
  });
  const named = random.chance(0.6);
  return found.map((station, index) => ({
    name: named ? `X${wall}${index + 1}` : undefined,
    station,
    size: random.pick([INCH / 2, (5 * INCH) / 8]),
  }));
}

function interiorOf(random: Random, outline: Outline): HouseFacts['interior'] {
  const { from, to } = outline.core;
  if (random.chance(0.7) || to.x - from.x < 60 * INCH) return [];
  return [{ name: 'inner', from: { x: from.x, y: from.y }, to: { x: to.x, y: from.y } }];
}
