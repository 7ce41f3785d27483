import type {
  Acceptance,
  Bays,
  Blocking,
  CrippleStretch,
  FoundAnchor,
  FoundationStretch,
  Layout,
  LengthUnits,
  MicroDegrees,
  Obstruction,
  Question,
  Rim,
  SillPiece,
  Stretch,
  Thing,
  Wall,
} from '../../domain/model/layout.ts';
import { degrees } from '../../domain/model/layout.ts';
import { traverse } from '../../domain/model/outline.ts';
import { knownValue } from '../../domain/model/reading.ts';
import type { Length } from '../../domain/units/length.ts';
import { zero } from '../../domain/units/length.ts';
import { printName } from './name.ts';
import {
  keyed,
  printCount,
  printPlace,
  printPlaces,
  printPoint,
  printQuantityReading,
  printReading,
  printReadingsBetween,
  printSize,
  printStation,
  printStretch,
  printVarying,
} from './values.ts';
import { lineOf, printNameOrUnknown, printReference, printText, tagLines, tagWords } from './words.ts';

/** The survey of one wall. */
export function printWall(wall: Wall, layout: Layout): readonly string[] {
  const { units } = layout.title;
  const { length } = wall;
  const inWall: InWall = { units, end: length };
  return [
    heading(wall, layout),
    ...wall.storeys.map(({ stretch, value }) =>
      lineOf(
        'storeys',
        printCount(value),
        isWhole(stretch, wall) ? undefined : `from ${printStretch(stretch, units, length)}`,
      ),
    ),
    ...tagLines(wall.tags),
    ...inRows('foundation', wall.foundation, wall, inWall, foundationWords),
    ...sillLines(wall, inWall),
    ...inRows('cripple', wall.cripples, wall, inWall, crippleWords),
    ...wall.studs
      .filter((stud) => stud.layer === 'survey')
      .map((stud) =>
        lineOf('stud at', printStation(stud.station, units, length), printSize(stud.size, units), tagWords(stud.tags)),
      ),
    ...inRows('joists', wall.joists, wall, inWall, (run) => [
      run.run,
      printSize(run.size, units),
      keyed('spaced', run.spaced, units),
      keyed('first', run.first, units),
      keyed('last', run.last, units),
      keyed('span', run.span, units),
    ]),
    ...wall.irregularJoists.map((joist) =>
      lineOf(
        'joist at',
        printStation(joist.station, units, length),
        joist.role,
        printSize(joist.size, units),
        tagWords(joist.tags),
      ),
    ),
    ...inRows('rim', wall.rims, wall, inWall, (rim) => [
      rim.seen,
      printSize(rim.size, units),
      nailWords(rim.nails, units),
    ]),
    ...wall.blocking.filter((each) => each.layer === 'survey').map((each) => blockingLine(each, units)),
    ...(wall.sideRoom ?? []).map(({ stretch, room }) =>
      lineOf(
        ['side-room', printReading(room, units)],
        stretch.from === stretch.to
          ? ['at', printStation(stretch.from, units, length)]
          : ['from', printStretch(stretch, units, length)],
      ),
    ),
    ...groupsOfOneName(wall.obstructions).map((group) => obstructionLine(group, inWall)),
    ...wall.defects.map((defect) =>
      lineOf(
        [defect.kind, defect.name],
        printPlace(defect.stretch, units, length),
        keyed('width', defect.width, units),
        keyed('depth', defect.depth, units),
        tagWords(defect.tags),
      ),
    ),
    ...groupsOfOneName(wall.foundAnchors).map((group) => foundAnchorLine(group, inWall)),
    ...[...wall.absent].map((what) => lineOf('no', printName(what))),
    ...wall.accepted.map((each) => acceptanceLine(each, inWall)),
    ...questionLines(layout.questions, wall.id),
  ];
}

export interface InWall {
  readonly units: LengthUnits;
  /** The wall's right end, where it is known. */
  readonly end: Length | undefined;
}

export function acceptanceLine(accepted: Acceptance, { units, end }: InWall): string {
  return lineOf(
    'accept',
    accepted.rule,
    accepted.on === undefined ? undefined : ['on', printReference(accepted.on)],
    accepted.station === undefined ? undefined : ['at', printStation(accepted.station, units, end)],
    ['because', printText(accepted.reason)],
    tagWords(accepted.tags),
  );
}

export function questionLines(questions: readonly Question[], about: string | undefined): readonly string[] {
  return questions.filter((question) => question.about === about).map(({ text }) => lineOf('ask', printText(text)));
}

export function printBays(bays: Bays): string {
  switch (bays.kind) {
    case 'every':
      return 'every bay';
    case 'odd':
    case 'even':
      return `${bays.kind} bays`;
    case 'unknown':
    case 'none':
      return bays.kind;
    case 'numbers': {
      const { numbers } = bays;
      const first = numbers[0] ?? 0;
      const inARow = numbers.length > 2 && numbers.every((number, index) => number === first + index);
      if (inARow) return `bays ${first} to ${first + numbers.length - 1}`;
      return `${numbers.length === 1 ? 'bay' : 'bays'} ${numbers.join(', ')}`;
    }
  }
}

// ---- heading

function heading(wall: Wall, layout: Layout): string {
  const { units, face } = layout.title;
  const { taped, adjusted } = wall;
  const lengths =
    taped || adjusted
      ? [
          'length',
          printReading(taped ?? { kind: 'unknown', source: wall.source }, units),
          wall.face === face ? undefined : wall.face,
          keyed('adjusted', adjusted, units),
        ]
      : [];
  return lineOf(
    ['wall', printName(wall.name), wall.label === undefined ? undefined : printText(wall.label)],
    wall.turn === degrees(90) ? undefined : ['turn', turnWord(wall.turn)],
    lengths,
    placeOfWall(wall, layout),
  );
}

function turnWord(turn: MicroDegrees): string {
  if (turn === degrees(0)) return 'straight';
  return turn === degrees(-90) ? 'left' : printDegrees(turn);
}

const printDegrees = (angle: MicroDegrees): string => `${Number((angle / 1_000_000).toFixed(6))}°`;

/** Interior walls say both ends; the first of the perimeter says where it starts and which way it faces. */
function placeOfWall(wall: Wall, layout: Layout): readonly (string | undefined)[] {
  const { units } = layout.title;
  if (wall.role === 'interior') {
    const ends = wall.plan && ['from', printPoint(wall.plan.from, units), 'to', printPoint(wall.plan.to, units)];
    return ['interior', ...(ends ?? [])];
  }
  if (!wall.plan || wall !== layout.walls.find((each) => each.role === 'perimeter')) return [];
  const { from } = wall.plan;
  const facing = facingOf(layout.walls.filter((each) => each.role === 'perimeter'));
  return [
    facing === degrees(0) ? undefined : `faces ${compass.get(facing) ?? printDegrees(facing)}`,
    from.x === 0 && from.y === 0 ? undefined : `from ${printPoint(from, units)}`,
  ];
}
const compass: ReadonlyMap<number, string> = new Map([
  [degrees(90), 'east'],
  [degrees(180), 'south'],
  [degrees(270), 'west'],
]);

/** The roundest angle that puts every wall where it stands in plan. */
function facingOf(perimeter: readonly Wall[]): MicroDegrees {
  const plan = perimeter[0]?.plan;
  if (!plan) return degrees(0);
  const heading = (Math.atan2(plan.to.y - plan.from.y, plan.to.x - plan.from.x) * 180) / Math.PI;
  const facing = ((-heading % 360) + 360) % 360;
  const walls = perimeter.map((wall) => ({
    length: knownValue(wall.adjusted) ?? knownValue(wall.taped),
    turn: wall.turn,
  }));
  for (const decimals of [0, 1, 2, 3, 4, 5]) {
    const round = degrees(Number(facing.toFixed(decimals)) % 360);
    const placed = traverse({ start: plan.from, facing: round, walls }).walls;
    const same = perimeter.every((wall, index) => {
      const { to } = placed[index] ?? {};
      return to?.x === wall.plan?.to.x && to?.y === wall.plan?.to.y;
    });
    if (same) return round;
  }
  return degrees(facing);
}

// ---- stretches of one kind

function isWhole({ from, to }: Stretch, { length }: Wall): boolean {
  return from === zero && to === length;
}

/** One line a stretch; a stretch of the whole wall that stands alone needs no place. */
function inRows<Each extends Thing & Stretch>(
  kind: string,
  stretches: readonly Each[],
  wall: Wall,
  { units, end }: InWall,
  words: (stretch: Each, inWall: InWall) => readonly (string | undefined)[],
): readonly string[] {
  let before: Length = zero;
  return stretches.map((stretch) => {
    const place =
      stretches.length === 1 && isWhole(stretch, wall) ? undefined : printStretch(stretch, units, end, before);
    before = stretch.to;
    return lineOf(kind, place, words(stretch, { units, end }), tagWords(stretch.tags));
  });
}

function foundationWords(each: FoundationStretch, { units }: InWall): readonly (string | undefined)[] {
  return [
    each.material === 'concrete' && !each.materialSource ? undefined : each.material,
    ...(['thick', 'showing', 'top', 'grade', 'footing'] as const).map((key) =>
      printVarying(key, each[key], each, units),
    ),
    each.strength && lineOf('strength', printQuantityReading(each.strength)),
    each.steel,
    ...each.conditions,
  ];
}

function crippleWords(each: CrippleStretch, { units }: InWall): readonly (string | undefined)[] {
  const studs = [
    printSize(each.studSize, units),
    keyed('spaced', each.spaced, units),
    keyed('first', each.first, units),
  ].filter((word) => word !== undefined);
  return [
    printVarying('height', each.height, each, units),
    printVarying('stud-height', each.studHeight, each, units),
    printVarying('ledge', each.ledge, each, units),
    studs.length === 0 ? undefined : lineOf('studs', studs),
    each.plates && `${each.plates} plate`,
    each.sheathing === undefined ? undefined : lineOf('sheathing', printNameOrUnknown(each.sheathing)),
    each.trimmers && `trimmers ${each.trimmers}`,
    ...each.conditions,
  ];
}

// ---- sill

/** Boards from left to right, those whose place nobody knows last, then what was read along them. */
function sillLines(wall: Wall, { units, end }: InWall): readonly string[] {
  const found = boardsByName(wall);
  let before: Length = zero;
  const boards = found.map(({ piece, name }) => {
    const place =
      found.length === 1 && wall.unplaced.length === 0 && isWhole(piece, wall)
        ? undefined
        : printStretch(piece, units, end, before);
    before = piece.to;
    return lineOf(
      'sill',
      name === undefined ? undefined : printName(name),
      place,
      sillWords(piece, units),
      tagWords(piece.tags),
    );
  });
  const unplaced = wall.unplaced.map(({ name, wants }) => {
    if (name === undefined && wants.startsWith('place of the break')) return 'break at unknown';
    const place = wall.length === undefined ? 'to end' : 'to unknown';
    return lineOf('sill', name === undefined ? undefined : printName(name), place);
  });
  const readings = [...(wall.foundPieces ?? []), ...wall.pieces].flatMap((piece) => [
    ...printReadingsBetween('set-back', piece.setBack, piece, units, end),
    ...printReadingsBetween('headroom', piece.headroom, piece, units, end),
  ]);
  // A lap's two boards share what was read where they overlap.
  return [...boards, ...unplaced, ...new Set(readings)];
}

/** Boards as surveyed, each with the name that it has in the text: one without a name was called by its wall and number. */
function boardsByName(wall: Wall): readonly { readonly piece: SillPiece; readonly name: string | undefined }[] {
  let unnamed = 0;
  return (wall.foundPieces ?? wall.pieces).map((piece) => {
    if (piece.name !== `${wall.name}(${unnamed + 1})`) return { piece, name: piece.name };
    unnamed += 1;
    return { piece, name: undefined };
  });
}

export function sillWords(piece: SillPiece, units: LengthUnits): readonly (string | undefined)[] {
  return [
    printSize(piece.size, units),
    printVarying('set-back', piece.setBack, piece, units),
    printVarying('headroom', piece.headroom, piece, units),
    piece.species === undefined ? undefined : lineOf('species', printNameOrUnknown(piece.species)),
    piece.treated === undefined ? undefined : piece.treated ? 'treated' : 'untreated',
    piece.double ? 'double' : undefined,
    piece.flush ? 'flush' : undefined,
    piece.runsThrough ? 'runs-through' : undefined,
    ...piece.conditions,
    piece.joint === 'none' ? undefined : piece.joint,
    piece.joint === 'none' ? undefined : piece.jointLength && printReading(piece.jointLength, units),
    keyed('gap', piece.gap, units),
  ];
}

export function blockingLine(each: Blocking, units: LengthUnits): string {
  return lineOf(
    ['blocking', printBays(each.bays), printSize(each.size, units), nailWords(each.nails, units)],
    [each.proposed ? 'proposed' : undefined, tagWords(each.tags)],
  );
}

function nailWords(nails: Rim['nails'], units: LengthUnits): string | undefined {
  if (nails === undefined || typeof nails === 'string') return nails && `nails ${nails}`;
  return lineOf(
    ['nails', nails.count === undefined ? undefined : String(nails.count), `${nails.penny}d`, nails.kind],
    [keyed('spaced', nails.spaced, units), nails.verified ? 'verified' : undefined],
  );
}

// ---- things in the way and old anchors

/** Neighbours of one kind and one name came from one line: `at 3', 4'`. */
function groupsOfOneName<Each extends Thing>(things: readonly Each[]): readonly (readonly [Each, ...Each[]])[] {
  const groups: [Each, ...Each[]][] = [];
  for (const thing of things) {
    const last = groups[groups.length - 1];
    if (last && thing.name !== undefined && last[0].name === thing.name && last[0].source === thing.source)
      last.push(thing);
    else groups.push([thing]);
  }
  return groups;
}

function obstructionLine(group: readonly [Obstruction, ...Obstruction[]], { units, end }: InWall): string {
  const [thing] = group;
  const stretches = group.flatMap((each) => each.stretch ?? []);
  const { zone } = thing;
  return lineOf(
    [thing.kind, thing.name, thing.label === undefined ? undefined : printText(thing.label)],
    thing.byMiddle ? placesByMiddle(stretches, { units, end }) : spanOf(thing.stretch, { units, end }),
    [keyed('off', thing.off, units), keyed('deep', thing.deep, units)],
    [keyed('dia', thing.diameter, units), keyed('hub', thing.hub, units)],
    zone && [keyed('zone', zone.near, units), zone.far && `to ${printReading(zone.far, units)}`, zone.side, zone.datum],
    thing.netArea && `net-area ${printQuantityReading(thing.netArea)}`,
    [...thing.words],
    tagWords(thing.tags),
  );
}

const placesByMiddle = (stretches: readonly Stretch[], { units, end }: InWall): string =>
  stretches.length === 0 ? 'at unknown' : printPlaces(stretches, units, end);
const spanOf = (stretch: Stretch | undefined, { units, end }: InWall): string =>
  stretch ? printStretch(stretch, units, end) : 'to unknown';

function foundAnchorLine(group: readonly [FoundAnchor, ...FoundAnchor[]], { units, end }: InWall): string {
  const [anchor] = group;
  const { loss } = anchor;
  return lineOf(
    ['anchor', anchor.name === undefined ? undefined : printName(anchor.name)],
    anchor.size && printReading(anchor.size, units),
    ['at', group.map((each) => printStation(each.station, units, end)).join(', ')],
    anchor.kind,
    // What the design and the record make of it stands in their own blocks.
    anchor.states.filter((state) => !fates.has(state)),
    loss && ['loss', loss.over ? 'over' : undefined, printQuantityReading(loss.share)],
    anchor.washer && `washer ${anchor.washer}`,
    anchor.nut && `nut ${anchor.nut}`,
    [
      keyed('embed', anchor.embed, units),
      keyed('offset', anchor.offset, units),
      keyed('projects', anchor.projects, units),
    ],
    anchor.credit === 'none' ? undefined : `credit ${anchor.credit}`,
    tagWords(anchor.tags),
  );
}
const fates: ReadonlySet<string> = new Set(['to-be-removed', 'failed', 'abandoned', 'grouted']);
