import type { GirderFacts, HouseFacts, HouseOptions, PieceFacts, RunFacts, Timber, WallFacts } from './facts.ts';
import { FOOT, INCH, MILLIMETRE } from './facts.ts';
import { wordsFor } from './obstructions.ts';
import type { Random } from './random.ts';
import type { Pen } from './text.ts';
import { words } from './text.ts';

/** A house as somebody would write it down. */
export function textOfHouse(random: Random, facts: HouseFacts, pen: Pen, options: HouseOptions): string {
  const site: Site = { random, facts, pen, plain: facts.plain };
  const blocks: readonly (readonly string[])[] = [
    titleBlock(site),
    houseBlock(site),
    ['seismic', '  SDS 1.00', '  R 6.5', words('  site-class', random.pick(['D', 'unknown']))],
    [
      'weights',
      `  roof ${random.integer(8, 20)} psf`,
      `  floor ${random.integer(8, 14)} psf`,
      '  exterior-walls 12 psf',
    ],
    ...(facts.plain ? [] : [typicalBlock(site)]),
    ...spaceBlocks(site),
    ...lineBlocks(site),
    ...facts.walls.map((wall, index) => wallBlock(site, wall, index)),
    ...facts.interior.map((wall) => [
      `wall "${wall.name}" interior from ${pointText(pen, wall.from)} to ${pointText(pen, wall.to)}`,
      '  foundation concrete thick 8" top 0',
      '  no sill',
    ]),
    ...facts.girders.map((girder) => girderBlock(site, girder)),
    ...(options.design ? designBlocks(site) : []),
  ];
  return `${blocks.map((lines) => lines.join('\n')).join('\n\n')}\n`;
}

interface Site {
  readonly random: Random;
  readonly facts: HouseFacts;
  readonly pen: Pen;
  readonly plain: boolean;
}

const pointText = (pen: Pen, { x, y }: { readonly x: number; readonly y: number }): string =>
  `(${x === 0 ? '0' : pen.length(x)}, ${y === 0 ? '0' : pen.length(y)})`;

function sizeText(pen: Pen, { thick, wide, nominal }: Timber): string {
  return nominal ?? `size ${pen.length(thick)} x ${pen.length(wide)}`;
}

function titleBlock({ random, facts, plain }: Site): readonly string[] {
  return [
    `layout "Invented house ${facts.seed}"`,
    `  address ${random.pick(['unknown', '"1 Example Lane"', '"the \\"old\\" mill, C:\\\\2"'])}`,
    '  owner "Demo Owner"',
    ...(facts.units === 'metric' ? ['  units metric'] : []),
    ...(facts.face === 'inside' ? ['  face inside'] : []),
    '  rules existing-building',
    '  surveyed 2026-04-18 by "crew lead"',
    ...(random.chance(0.3) ? ['  prepared 2026-05-02 by "designer" for review'] : []),
    ...(random.chance(0.2) ? ['  special-inspection not-required'] : []),
    ...(!plain && random.chance(0.3) ? ['  ask "roof layers, from the attic"'] : []),
  ];
}

function houseBlock({ random, facts, pen, plain }: Site): readonly string[] {
  const [first, , third] = facts.vertices;
  const diagonal =
    first && third && random.chance(0.3)
      ? [
          `  diagonal ${pointText(pen, first)} to ${pointText(pen, third)} taped ${pen.length(
            Math.round(Math.hypot(third.x - first.x, third.y - first.y) / INCH) * INCH,
          )}`,
        ]
      : [];
  return [
    'house',
    `  storeys ${facts.storeys}`,
    `  year ${random.integer(1900, 1960)}`,
    '  dwellings 1',
    ...(random.chance(0.3) ? [`  area ${random.integer(600, 1600)} sq ft`] : []),
    `  slope ${plain ? '' : random.pick(['', 'assume ', 'told '])}${random.integer(1, 8)} %`,
    `  floor-underside ${pen.length(facts.floorUnderside)}`,
    '  roof composition',
    `  siding ${random.pick(['wood-lap', 'shingle', 'board plywood'])}`,
    '  veneer none',
    '  floors one-level',
    '  foundation continuous',
    ...(plain ? [] : ['  soil unknown']),
    ...diagonal,
  ];
}

function typicalBlock({ random, facts, pen }: Site): readonly string[] {
  return [
    'typical',
    `  foundation concrete unreinforced strength ${random.pick(['assume ', ''])}2500 psi footing unknown`,
    `  sill ${sizeText(pen, facts.sill)} untreated species ${random.pick(['unknown', 'douglas-fir', 'redwood'])}`,
    `  cripple studs ${sizeText(pen, facts.stud)}`,
    ...(random.chance(0.5) ? ['  joists 2x10'] : []),
  ];
}

function spaceBlocks({ random, facts, pen }: Site): readonly (readonly string[])[] {
  if (random.chance(0.5)) return [];
  const xs = facts.vertices.map(({ x }) => x);
  const ys = facts.vertices.map(({ y }) => y);
  const inset = 3 * FOOT;
  const on = (value: number): number => Math.round(value / INCH) * INCH;
  const from = { x: on(Math.min(...xs) + inset), y: on(Math.min(...ys) + inset) };
  const to = { x: on(Math.max(...xs) - inset), y: on(Math.max(...ys) - inset) };
  return [
    [
      words(
        `space low crawl from ${pointText(pen, from)} to ${pointText(pen, to)}`,
        `clear-height ${pen.value(random.integer(24, 48) * INCH)} access ${pen.length(24 * INCH)} x ${pen.length(30 * INCH)}`,
      ),
    ],
  ];
}

/** Now and then a line is named, with the storeys that every wall has. */
function lineBlocks({ random, facts }: Site): readonly (readonly string[])[] {
  const [wall, second] = facts.walls;
  if (second && random.chance(0.1))
    return [[`line side "street" walls ${second.name}`, '  exempt from bracing because "porch, by agreement"']];
  if (!wall || random.chance(0.6)) return [];
  return [
    [`line front walls ${wall.name} storeys ${facts.storeys}`, ...(random.chance(0.3) ? ['  note "street side"'] : [])],
  ];
}

// ---- survey

function wallBlock(site: Site, wall: WallFacts, index: number): readonly string[] {
  const { random, pen, plain, facts } = site;
  return [
    heading(site, wall, index),
    ...(random.chance(0.1) ? [`  note "read by the second person"`] : []),
    ...wall.runs.map((run) => foundationLine(site, wall, run)),
    ...wall.pieces.map((piece, at) => sillLine(site, wall, piece, at)),
    ...wall.pieces.flatMap((piece) => extraReadings(site, piece)),
    ...wall.runs.flatMap((run) => crippleLine(site, wall, run)),
    joistsLine(site, wall),
    ...(wall.joists.run === 'into' && random.chance(0.3)
      ? [
          `  joist at ${stationText(site, wall, wall.length - INCH)} ${random.pick(['end-joist', 'doubled', 'trimmer'])} 2x10`,
        ]
      : []),
    ...(random.chance(0.1)
      ? [`  side-room ${pen.value(random.integer(24, 40) * INCH)} at ${pen.station(3 * FOOT)}`]
      : []),
    ...(random.chance(0.1)
      ? [`  side-room ${pen.length(24 * INCH)} from ${pen.station(INCH)} to ${pen.station(2 * FOOT)}`]
      : []),
    `  rim seen nails 8d spaced ${pen.length(6 * INCH)} verified`,
    ...(random.chance(0.4) ? [`  blocking ${random.pick(['every bay', 'odd bays', 'bays 2, 4, 6'])}`] : []),
    ...wall.obstructions.map((each) => obstructionLine(site, wall, each)),
    ...wall.defects.map(({ kind, from, to }) =>
      kind === 'crack'
        ? `  crack at ${pen.station(from)} width ${pen.length(INCH / 16)}`
        : `  ${kind} ${pen.station(from)} to ${pen.station(to)}${random.chance(0.4) ? ' note "probed with an awl"' : ''}`,
    ),
    ...wall.foundAnchors.map(({ name, station, size }) =>
      words(
        '  anchor',
        name,
        pen.length(size),
        `at ${stationText(site, wall, station)}`,
        random.pick(['', 'J-bolt', 'cast-in', 'wedge']),
        random.pick(['sound', 'light-rust', 'heavy-rust']),
        random.pick(['', 'washer cut', 'washer none', plain ? '' : 'washer unknown']),
        random.pick(['', 'nut tight', 'nut none']),
        random.chance(0.1) && 'loss over 25 %',
        random.chance(0.15) &&
          `embed ${pen.doubtful(6 * INCH)} offset ${pen.length(2 * INCH)} projects ${pen.length(INCH)}`,
        random.chance(0.1) && 'credit none',
        random.chance(0.2) && `photo ${random.integer(1, 60)}, ${random.integer(61, 99)}`,
      ),
    ),
    ...(!plain && random.chance(0.15) ? [`  ask "behind the shelf at ${random.integer(1, 9)} ft"`] : []),
    ...(random.chance(0.1) && facts.walls.length > 4 ? ['  no hatch'] : []),
  ];
}

function heading({ random, facts, pen }: Site, wall: WallFacts, index: number): string {
  const turn = turnText(wall.turn);
  const [start] = facts.vertices;
  const first = index === 0;
  const facing = ((wall.heading - 90 + 360) % 360).toString();
  const faces =
    { '0': '', '90': 'faces east', '180': 'faces south', '270': 'faces west' }[facing] ?? `faces ${facing}°`;
  return words(
    `wall ${wall.name}`,
    random.chance(0.4) && `"side ${index + 1}"`,
    (turn !== 'turn right' || random.chance(0.3)) && turn,
    `length ${pen.length(wall.length)}`,
    wall.adjusted !== wall.length && `adjusted ${pen.length(wall.adjusted)}`,
    first && faces,
    first && start && (start.x !== 0 || start.y !== 0) && `from ${pointText(pen, start)}`,
  );
}

function turnText(turn: number): string {
  if (turn === 90) return 'turn right';
  return turn === -90 ? 'turn left' : `turn ${turn}°`;
}

/** `to X` where it can be said so; else both ends. */
function stretchText(
  { random, pen }: Site,
  wall: WallFacts,
  { from, to }: { readonly from: number; readonly to: number },
  before: number,
): string {
  const end = to === wall.length && random.chance(0.7) ? 'end' : pen.station(to);
  return from === before && random.chance(0.7)
    ? `to ${end}`
    : `${from === 0 && random.chance(0.3) ? 'start' : pen.station(from)} to ${end}`;
}

/** From either end, as it was read. */
function stationText({ random, pen }: Site, wall: WallFacts, station: number): string {
  return random.chance(0.15) ? `${pen.length(wall.length - station)} from right` : pen.station(station);
}

function foundationLine(site: Site, wall: WallFacts, run: RunFacts): string {
  const { random, pen, plain } = site;
  const index = wall.runs.indexOf(run);
  const whole = wall.runs.length === 1 && random.chance(0.6);
  return words(
    '  foundation',
    !whole && stretchText(site, wall, run, wall.runs[index - 1]?.to ?? 0),
    random.chance(0.5) && 'concrete',
    `thick ${pen.value(run.thick)}`,
    `showing ${pen.varying(run.showing)}`,
    `top ${pen.varying(run.top)}`,
    `grade ${pen.value(run.grade)}`,
    plain && `strength ${random.integer(20, 30) * 100} psi`,
    random.chance(0.3) && 'sound',
    random.chance(0.05) && 'note "patched by the gate"',
  );
}

function sillLine(site: Site, wall: WallFacts, piece: PieceFacts, index: number): string {
  const { random, pen, plain, facts } = site;
  const whole = wall.pieces.length === 1 && random.chance(0.5);
  return words(
    '  sill',
    piece.name,
    !whole && stretchText(site, wall, piece, wall.pieces[index - 1]?.to ?? 0),
    (plain || random.chance(0.1)) && sizeText(pen, facts.sill),
    `set-back ${pen.varying(piece.setBack)}`,
    `headroom ${pen.varying(piece.headroom)}`,
    wall.runs[piece.run]?.double && 'double',
    piece.joint !== 'hole' && words(piece.joint, piece.jointLength !== undefined && pen.length(piece.jointLength)),
    piece.gap !== undefined && `gap ${pen.length(piece.gap)}`,
    random.chance(0.05) && `photo ${random.integer(1, 99)}`,
  );
}

/** Readings along a board that say what its ends say, or a little less at one spot of head-room. */
function extraReadings({ random, pen }: Site, piece: PieceFacts): readonly string[] {
  if (random.chance(0.8) || piece.to - piece.from < 60 * INCH) return [];
  const at = piece.from + Math.floor((piece.to - piece.from) / 3 / INCH) * INCH;
  const [least] = [...piece.setBack].sort((a, b) => a - b);
  const lower = Math.min(...piece.headroom);
  return random.pick([
    [`  set-back ${pen.value(least ?? 0)} at ${pen.station(at)}`],
    [`  headroom ${pen.value(lower)} from ${pen.station(at)} to ${pen.station(at + 12 * INCH)}`],
    [
      `  set-back ${pen.value(least ?? 0)} at ${pen.station(at)}`,
      `  set-back ${pen.value(least ?? 0)} at ${pen.station(at + 7 * INCH)}`,
    ],
  ]);
}

function crippleLine(site: Site, wall: WallFacts, run: RunFacts): readonly string[] {
  const { random, pen, facts, plain } = site;
  if (!run.cripple) return [];
  const before = wall.runs.slice(0, wall.runs.indexOf(run)).findLast((each) => each.cripple);
  const whole = wall.runs.length === 1 && random.chance(0.5);
  const plates = Math.round(
    (run.cripple.height[0] - run.cripple.studHeight[0] - (run.double ? 2 : 1) * facts.sill.thick) / facts.stud.thick,
  );
  return [
    words(
      '  cripple',
      !whole && stretchText(site, wall, run, before?.to ?? 0),
      `height ${pen.varying(run.cripple.height)}`,
      `stud-height ${pen.varying(run.cripple.studHeight)}`,
      `ledge ${pen.length(facts.sill.wide - facts.stud.wide)}`,
      words(
        'studs',
        sizeText(pen, facts.stud),
        `spaced ${pen.length(wall.studs.spaced)} first ${pen.length(wall.studs.first)}`,
      ),
      plates === 2 ? 'double plate' : 'single plate',
      `sheathing ${plain ? 'boards-horizontal' : random.pick(['boards-horizontal', 'none', 'unknown'])}`,
      `trimmers ${random.pick(['every-opening', 'none'])}`,
    ),
  ];
}

function joistsLine({ pen, random }: Site, wall: WallFacts): string {
  const { run, first, spaced } = wall.joists;
  return words(
    '  joists',
    run,
    random.chance(0.6) && '2x10',
    run === 'into' && `spaced ${pen.length(spaced)} first ${pen.length(first)}`,
    run === 'parallel' && `spaced ${pen.length(spaced)}`,
    random.chance(0.2) && `span ${pen.length(14 * FOOT)}`,
  );
}

function obstructionLine(site: Site, wall: WallFacts, each: WallFacts['obstructions'][number]): string {
  const { random, pen, plain } = site;
  const { from, to } = each;
  const middle = (from + to) / 2;
  const place =
    random.chance(0.3) && Number.isInteger(middle / (INCH / 64)) && Number.isInteger((to - from) / (INCH / 64))
      ? `at ${pen.station(middle)} ${random.pick(['wide', 'long'])} ${pen.length(to - from)}`
      : `${stationText(site, wall, from)} to ${stationText(site, wall, to)}`;
  return words(
    `  ${each.kind}`,
    each.name,
    random.chance(0.15) && '"as found"',
    place,
    each.off !== undefined && `off ${pen.value(each.off)}`,
    random.chance(0.2) && `deep ${pen.doubtful(6 * INCH)}`,
    each.kind === 'stack' && random.chance(0.5) && `dia ${pen.length(4 * INCH)} hub ${pen.doubtful(5 * INCH)}`,
    random.chance(0.12) &&
      `zone ${pen.value(4 * INCH)} to ${pen.value(14 * INCH)} ${random.pick(['below top', 'below joists', 'above soil'])}`,
    ...wordsFor(random, each.kind),
    each.kind === 'vent' && !plain && random.chance(0.3) && 'net-area 72 sq in',
    random.chance(0.1) && 'note "look behind it"',
  );
}

function girderBlock({ pen, random, plain }: Site, girder: GirderFacts): readonly string[] {
  const spans = girder.posts.map(({ station }, index) => station - (girder.posts[index - 1]?.station ?? 0));
  return [
    words(
      `girder ${girder.name}`,
      random.chance(0.3) && '"under the hall"',
      '6x8',
      `from ${pointText(pen, girder.from)} to ${pointText(pen, girder.to)} underside ${pen.length(-6 * INCH)}`,
    ),
    ...(spans.length > 1 && random.chance(0.5)
      ? [
          `  spans ${spans
            .slice(1)
            .map((span) => pen.length(span))
            .join(', ')}`,
        ]
      : []),
    ...girder.posts.map(({ name, station, size }) =>
      words(
        `  post ${name} ${size} at ${pen.station(station)}`,
        `height ${pen.value(66 * INCH)}`,
        random.pick(['cap none', 'cap toenails', plain ? 'cap none' : 'cap unknown', 'cap side-plate']),
        random.pick(['base none', 'base sound', 'base loose pier pad']),
      ),
    ),
    ...(random.chance(0.5) ? ['  rests at start pocket', '  rests at end doubled-studs'] : []),
  ];
}

// ---- design and record

function designBlocks(site: Site): readonly (readonly string[])[] {
  const { facts, random } = site;
  const works = facts.walls.map((wall) => workBlock(site, wall));
  const inner = facts.interior.map((wall) => [
    `work on "${wall.name}"`,
    '  no work because "inside wall, no load from the floor"',
  ]);
  const girders = facts.girders.flatMap((girder): (readonly string[])[] => {
    // As wide as the girder, so that the plates lie flat.
    const posts = girder.posts.filter(({ size }) => size === '6x6' && random.chance(0.5));
    if (posts.length === 0) return [];
    return [
      [
        `work on ${girder.name}`,
        ...posts.map(({ name }, index) => `  cap ${girder.name}-C${index + 1} cap-plates on ${name} both-sides`),
      ],
    ];
  });
  return [...works, ...inner, ...girders, ...(random.chance(0.5) ? recordBlocks(site) : [])];
}

function workBlock(site: Site, wall: WallFacts): readonly string[] {
  const { random, pen, facts } = site;
  // New wood keeps away from flues and chimneys.
  const hot = wall.obstructions.some(({ kind }) => kind === 'flue' || kind === 'chimney');
  return [
    `work on ${wall.name}`,
    ...(random.chance(0.1) ? ['  // marks are sprayed on: never renumber'] : []),
    ...wall.anchors.map(({ mark, connector, station }) =>
      words(
        `  anchor ${mark} ${connector} at ${stationText(site, wall, station)}`,
        // Between the back of a panel on the studs and the outer edge of the sill.
        connector === 'bolt-half' && `offset ${pen.length(facts.units === 'metric' ? 93 * MILLIMETRE : 3.625 * INCH)}`,
        random.chance(0.3) && 'proposed',
        random.chance(0.05) && 'note "mind the hose"',
      ),
    ),
    ...wall.panels.map(({ mark, from, to }) =>
      words(
        `  panel ${mark} ${pen.station(from)} to ${pen.station(to)}`,
        `plywood ${pen.length((15 * INCH) / 32)} nails 8d edge ${pen.length(4 * INCH)} field ${pen.length(12 * INCH)}`,
        'nailers 2x4 nails 4 16d',
        `vent-holes ${pen.length(2.5 * INCH)} top-and-bottom`,
      ),
    ),
    ...(wall.angles
      ? [
          wall.angles.everyBay
            ? `  angles ${wall.angles.mark} angle-8 every bay`
            : `  angles ${wall.angles.mark} angle-8 spaced ${pen.length(16 * INCH)}`,
        ]
      : []),
    ...wall.foundAnchors.flatMap(({ name }) =>
      name !== undefined && random.chance(0.15) ? [`  ${random.pick(['remove', 'grout'])} ${name}`] : [],
    ),
    ...(!hot && random.chance(0.3) ? ['  blocking even bays 2x10'] : []),
  ];
}

/** What was done in two days: some anchors as planned, tests that passed, and what came to light. */
function recordBlocks({ facts, random, pen }: Site): readonly (readonly string[])[] {
  const marks = facts.walls.flatMap((wall) => wall.anchors.map(({ mark }) => mark));
  const done = marks.slice(0, random.integer(1, 6));
  const [first, ...rest] = done;
  if (first === undefined) return [];
  return [
    ['issue 1 2026-06-03 for review by "designer"', `  changed ${first} because "moved off the stack"`],
    [
      'record 2026-06-10 by "crew lead"',
      `  installed ${first} as planned embed ${pen.length(4.5 * INCH)} tightened 45 ft-lb lot L-2206 expires 2027-01-31 photo 31`,
      ...(rest.length > 0 ? [`  installed ${rest.join(', ')} as planned`] : []),
      '  inspected anchors passed note "before panels"',
    ],
    [
      'record 2026-06-11',
      `  tested ${done.slice(0, 2).join(', ')} torque 40 ft-lb passed witness inspector`,
      `  discovered "old cable behind the plate" on ${facts.walls[0]?.name ?? 'A'} at ${pen.length(30 * INCH)} photo 34`,
    ],
  ];
}
