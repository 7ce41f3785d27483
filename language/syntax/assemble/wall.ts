import type { Connector } from '../../domain/hardware/connector.ts';
import { bayCentre, baysBetween, joistsOnWall, namesBay } from '../../domain/model/joists.ts';
import type {
  Acceptance,
  AngleRun,
  CrippleStretch,
  Defect,
  Face,
  FoundAnchor,
  FoundationStretch,
  JoistRun,
  LengthUnits,
  NameReference,
  NewAnchor,
  Obstruction,
  Question,
  Rim,
  SillPiece,
  Stretch,
  Tags,
  Thing,
  ThingId,
  Wall,
  WorkBlock,
} from '../../domain/model/layout.ts';
import { degrees } from '../../domain/model/layout.ts';
import { distanceBetween } from '../../domain/model/outline.ts';
import { knownValue } from '../../domain/model/reading.ts';
import type { SourceSpan } from '../../domain/model/source.ts';
import { formatLength, formatStation } from '../../domain/units/format-length.ts';
import type { Length } from '../../domain/units/length.ts';
import { minus, negate, plus, zero } from '../../domain/units/length.ts';
import type {
  AcceptanceDraft,
  AnglesDraft,
  LineOf,
  NewAnchorDraft,
  TypicalDraft,
  WallDraft,
  WorkDraft,
} from '../drafts.ts';
import { nearestWord } from '../nearest-word.ts';
import { printName } from '../print.ts';
import type { Problem } from '../problem.ts';
import { sillPieces } from './sill.ts';
import type { EdgesOf, StationFinder, StationTrouble } from './stations.ts';
import { createStationFinder } from './stations.ts';
import type { MergedStretch } from './stretches.ts';
import { mergeStretches, profileOver, withPoint } from './stretches.ts';

export type MarkState = NewAnchor['state'];

export interface WallInputs {
  readonly draft: WallDraft;
  readonly typical: TypicalDraft | undefined;
  readonly works: readonly WorkDraft[];
  readonly face: Face;
  readonly units: LengthUnits;
  readonly connectors: ReadonlyMap<string, Connector>;
  /** By mark in lower case; a mark without an event is planned. */
  readonly markStates: ReadonlyMap<string, MarkState>;
}

export interface AssembledWall {
  readonly wall: Wall;
  readonly questions: readonly Question[];
  readonly problems: readonly Problem[];
}

/** A wall with its stations resolved, `typical` filled in and its design beside the survey. Its place in plan comes later. */
export function assembleWall(inputs: WallInputs): AssembledWall {
  const { draft, typical, works } = inputs;
  const problems: Problem[] = [];
  const say = (problem: Omit<Problem, 'severity' | 'related' | 'replacements' | 'wall'> & Partial<Problem>): void => {
    problems.push({ severity: 'error', related: [], replacements: [], wall: draft.name, ...problem });
  };
  const length = lengthOf(draft, say);
  const finder = createStationFinder(length, edgesOfThings(draft), troubleTeller(draft, length, inputs.units, say));
  const named = createThingNamer(draft.name, say);
  const merge = <Words extends object>(
    lines: readonly LineOf<Words>[],
    words: Words | undefined,
    kind: string,
  ): readonly MergedStretch<Words>[] =>
    draft.absent.includes(kind) && lines.length === 0
      ? []
      : mergeStretches({
          lines,
          typical: words,
          length,
          finder,
          headingSource: draft.source,
          fill: true,
          overlap: (earlier, later) =>
            say({
              code: 'overlapping-stretches',
              message: `Two \`${kind}\` lines of wall ${draft.name} give the same thing for the same stretch; end one where the other begins.`,
              span: later.span?.source ?? later.source,
              related: [{ span: earlier.span?.source ?? earlier.source, message: 'the other one' }],
            }),
        });

  const foundation = merge(draft.foundation, typical?.foundation, 'foundation').map(
    (each): FoundationStretch => ({
      ...named('foundation', each),
      from: each.from,
      to: each.to,
      material: each.words.material ?? 'concrete',
      materialSource: each.words.materialSource,
      thick: profileOver(each.words.thick, each),
      showing: profileOver(each.words.showing, each),
      top: profileOver(each.words.top, each),
      grade: profileOver(each.words.grade, each),
      footing: profileOver(each.words.footing, each),
      strength: each.words.strength,
      steel: each.words.steel,
      conditions: each.words.conditions ?? [],
    }),
  );
  const cripples = merge(draft.cripples, typical?.cripple, 'cripple')
    // `typical` says how cripple walls are framed, not that there is one.
    .filter((each) => each.words.height !== undefined || each.words.studHeight !== undefined)
    .map(
      (each): CrippleStretch => ({
        ...named('cripple', each),
        from: each.from,
        to: each.to,
        height: profileOver(each.words.height, each),
        studHeight: profileOver(each.words.studHeight, each),
        ledge: profileOver(each.words.ledge, each),
        studSize: each.words.studSize,
        spaced: each.words.spaced,
        first: each.words.first,
        plates: each.words.plates,
        sheathing: each.words.sheathing,
        trimmers: each.words.trimmers,
        conditions: each.words.conditions ?? [],
      }),
    );
  const joists = merge(draft.joists, typical?.joists, 'joists')
    .filter((each) => each.words.run !== undefined)
    .map(
      (each): JoistRun => ({
        ...named('joists', each),
        from: each.from,
        to: each.to,
        run: each.words.run,
        size: each.words.size,
        spaced: each.words.spaced,
        first: each.words.first,
        last: each.words.last,
        span: each.words.span,
      }),
    );
  const rims = merge(draft.rims, typical?.rim, 'rim')
    .filter((each) => Object.keys(each.words).length > 0)
    .map(
      (each): Rim => ({
        ...named('rim', each),
        from: each.from,
        to: each.to,
        seen: each.words.seen,
        size: each.words.size,
        nails: each.words.nails,
      }),
    );

  const { pieces, unplaced } = sillPieces({ draft, typical, works, length, finder, say, named });
  if (length === undefined && unplaced.length > 0) sayNoLength(draft, draft.nameSource, say);
  const obstructions = draft.obstructions.flatMap((each): readonly Obstruction[] =>
    finder.places(each.where).map((place) => ({
      ...named(each.kind, each),
      kind: each.kind,
      label: each.label,
      stretch: place.stretch,
      placeSource: place.source,
      zone: each.zone,
      off: each.off,
      deep: each.deep,
      diameter: each.diameter,
      hub: each.hub,
      netArea: each.netArea,
      words: each.words,
    })),
  );
  const defects = draft.defects.flatMap((each): readonly Defect[] =>
    finder.places(each.where).map((place) => ({
      ...named(each.kind, each),
      kind: each.kind,
      stretch: place.stretch,
      width: each.width,
      depth: each.depth,
      remedied: place.stretch !== undefined && isReplaced(each.kind, place.stretch, pieces),
    })),
  );
  const foundAnchors = draft.foundAnchors.flatMap((each): readonly FoundAnchor[] =>
    each.stations.map((station) => ({
      ...named('found-anchor', each),
      ...each.anchor,
      states: [...each.anchor.states, ...fateOf(each.name, draft.name, inputs)],
      station: finder.station(station),
      stationSource: station.source,
    })),
  );

  const anchors = works
    .flatMap((work) => work.anchors)
    .map((each) => newAnchor(each, named('anchor', each), finder, inputs, say))
    .sort((a, b) => (a.station ?? Number.MAX_SAFE_INTEGER) - (b.station ?? Number.MAX_SAFE_INTEGER));

  const irregularJoists = draft.irregularJoists.flatMap((each) => {
    const station = finder.station(each.at);
    return station === undefined
      ? []
      : [{ ...named('joist', { ...each, name: undefined }), station, role: each.role, size: each.size }];
  });
  const angles = works
    .flatMap((work) => work.angles)
    .map((each) =>
      angleRun(each, named('angles', each), { name: draft.name, length, joists, irregularJoists }, finder, inputs, say),
    );

  let sideRoom: Wall['sideRoom'];
  for (const reading of draft.readings) {
    if (reading.key !== 'side-room') continue;
    for (const place of finder.places(reading.where)) {
      if (place.stretch) sideRoom = withPoint(sideRoom, { station: place.stretch.from, value: reading.value });
    }
  }

  const wallId = wallThingId(draft.name);
  const wall: Wall = {
    id: wallId,
    name: draft.name,
    label: draft.label,
    role: draft.interior ? 'interior' : 'perimeter',
    source: draft.source,
    nameSource: draft.nameSource,
    tags: draft.tags,
    taped: draft.taped,
    adjusted: draft.adjusted,
    length,
    face: draft.face ?? inputs.face,
    turn: draft.turn ?? degrees(90),
    plan: undefined,
    storeys: draft.storeys.flatMap((each) => {
      const stretch = each.span
        ? finder.stretch(each.span, zero)
        : length === undefined
          ? undefined
          : { from: zero, to: length };
      return stretch ? [{ stretch, value: each.value }] : [];
    }),
    foundation,
    pieces,
    unplaced,
    cripples,
    joists,
    irregularJoists,
    studs: [
      ...draft.studs.map((each) => ({ each, layer: 'survey' as const })),
      ...works.flatMap((work) => work.studs.map((each) => ({ each, layer: 'design' as const }))),
    ].flatMap(({ each, layer }) => {
      const station = finder.station(each.at);
      return station === undefined
        ? []
        : [{ ...named('stud', { ...each, name: undefined }), station, size: each.size, layer }];
    }),
    rims,
    blocking: [
      ...draft.blocking.map((each) => ({ each, layer: 'survey' as const })),
      ...works.flatMap((work) => work.blocking.map((each) => ({ each, layer: 'design' as const }))),
    ].map(({ each, layer }) => ({
      ...named('blocking', { ...each, name: undefined }),
      bays: each.bays,
      size: each.size,
      layer,
    })),
    sideRoom,
    obstructions,
    defects,
    foundAnchors,
    anchors,
    angles,
    panels: [],
    ties: [],
    remedies: [],
    absent: new Set(draft.absent),
    noWork: works.find((work) => work.noWork)?.noWork,
    accepted: [...draft.accepted, ...works.flatMap((work) => work.accepted)].map((each) => acceptance(each, finder)),
    workBlocks: works.map((work): WorkBlock => ({ source: work.source, headingSource: work.headingSource })),
  };
  return {
    wall,
    questions: draft.questions.map((question) => ({ ...question, about: wallId })),
    problems,
  };
}

/** What the design or the record does to a found anchor: it comes out, or it failed a test. */
function fateOf(name: NameReference | undefined, wall: string, { works, markStates }: WallInputs): readonly string[] {
  if (!name) return [];
  const names = [name.name, `${wall}.${name.name}`].map((each) => each.toLowerCase());
  const comesOut = works.some((work) => work.removed.some((each) => names.includes(each.name.toLowerCase())));
  return [
    ...(comesOut ? ['to-be-removed'] : []),
    ...(names.some((each) => markStates.get(each) === 'failed') ? ['failed'] : []),
  ];
}

/** A name in sight that was most likely meant, to be written in place of the one that is not. */
export function nearestName(reference: NameReference, inSight: readonly string[]): Problem['replacements'] {
  const name = nearestWord(reference.name, inSight);
  return name === undefined ? [] : [{ title: `Write \`${name}\``, text: printName(name), span: reference.source }];
}

/** Along which stations count; `undefined` where nobody taped it. */
function lengthOf(draft: WallDraft, say: Say): Length | undefined {
  const length = knownValue(draft.taped) ?? knownValue(draft.adjusted) ?? lengthBetween(draft);
  if (length === undefined || length > 0) return length;
  say({
    code: 'wrong-kind',
    message: `Wall ${draft.name} is not longer than nothing; write the length that the tape shows, or \`length unknown\`.`,
    span: draft.nameSource,
  });
  return undefined;
}

/** An interior wall's length follows from its two points. */
function lengthBetween({ interior, from, to }: WallDraft): Length | undefined {
  return interior && from && to ? distanceBetween(from, to) : undefined;
}

export const wallThingId = (name: string): ThingId => `wall:${name}`;

/** Gives each thing of a wall its id, and says where two of one kind have one name. */
export type ThingNamer = (
  kind: string,
  from: { readonly name: NameReference | undefined; readonly source: SourceSpan; readonly tags: Tags },
) => Thing;

/** New work, whose names are marks. */
const MARKED: ReadonlySet<string> = new Set(['anchor', 'angles', 'cap', 'base']);

export function createThingNamer(owner: string, say: Say): ThingNamer {
  const seen = new Map<string, SourceSpan>();
  const unnamed = new Map<string, number>();
  const copies = new Map<string, number>();
  return (kind, { name, source, tags }) => {
    if (!name) {
      const count = (unnamed.get(kind) ?? 0) + 1;
      unnamed.set(kind, count);
      return { id: `${owner}/${kind}:#${count}`, name: undefined, source, tags };
    }
    const id = `${owner}/${kind}:${name.name}`;
    const key = id.toLowerCase();
    const earlier = seen.get(key);
    if (!earlier) {
      seen.set(key, name.source);
      return { id, name: name.name, source, tags };
    }
    if (earlier !== name.source) {
      say({
        code: MARKED.has(kind) ? 'geometry/duplicate-mark' : 'duplicate-name',
        message: `Two things of one kind on ${owner} are called ${name.name}; give one of them another name.`,
        span: name.source,
        related: [{ span: earlier, message: 'the first one' }],
      });
    }
    let copy = (copies.get(key) ?? 1) + 1;
    while (seen.has(`${key}~${copy}`)) copy += 1;
    copies.set(key, copy);
    seen.set(`${key}~${copy}`, name.source);
    return { id: `${id}~${copy}`, name: name.name, source, tags };
  };
}

export type Say = (problem: Omit<Problem, 'severity' | 'related' | 'replacements' | 'wall'> & Partial<Problem>) => void;

const WOOD_DEFECTS: ReadonlySet<Defect['kind']> = new Set(['rot', 'split', 'notch', 'insects']);

/** A defect of the wood is gone where a new board lies over all of it. */
function isReplaced(kind: Defect['kind'], stretch: Stretch, pieces: readonly SillPiece[]): boolean {
  return (
    WOOD_DEFECTS.has(kind) &&
    pieces.some((piece) => piece.layer === 'design' && piece.from <= stretch.from && stretch.to <= piece.to)
  );
}

function newAnchor(
  draft: NewAnchorDraft,
  thing: Thing,
  finder: StationFinder,
  inputs: WallInputs,
  say: Say,
): NewAnchor {
  const connector = draft.connector ? inputs.connectors.get(draft.connector.name.toLowerCase()) : undefined;
  if (draft.connector && !connector) sayUnknownConnector(draft.connector, inputs, say);
  return {
    ...thing,
    name: draft.name.name,
    nameSource: draft.name.source,
    connectorName: draft.connector?.name,
    connectorSource: draft.connector?.source,
    connector,
    station: draft.at ? finder.station(draft.at) : undefined,
    stationSource: draft.at?.source,
    embed: draft.embed,
    offset: draft.offset,
    shim: draft.shim,
    proposed: draft.proposed,
    rightAngleDrill: draft.rightAngleDrill,
    state: inputs.markStates.get(draft.name.name.toLowerCase()) ?? 'planned',
  };
}

function sayUnknownConnector(reference: NameReference, inputs: WallInputs, say: Say): void {
  say({
    code: 'unresolved-name',
    layer: 'design',
    message: `No connector \`${reference.name}\` in this file or the files it uses.`,
    span: reference.source,
    replacements: nearestName(
      reference,
      [...inputs.connectors.values()].map((each) => each.name),
    ),
  });
}

function angleRun(
  draft: AnglesDraft,
  thing: Thing,
  wall: Parameters<typeof joistsOnWall>[0],
  finder: StationFinder,
  inputs: WallInputs,
  say: Say,
): AngleRun {
  const { stations, lacking } = angleStations(draft, wall, finder);
  const connector = inputs.connectors.get(draft.connector.name.toLowerCase());
  if (!connector) sayUnknownConnector(draft.connector, inputs, say);
  return {
    ...thing,
    name: draft.name.name,
    connectorName: draft.connector.name,
    connectorSource: draft.connector.source,
    connector,
    stations: stations.toSorted((a, b) => a - b),
    lacking,
  };
}

/** More angles than any wall takes. */
const MOST_ANGLES = 2000;

function angleStations(
  draft: AnglesDraft,
  wall: Parameters<typeof joistsOnWall>[0],
  finder: StationFinder,
): { readonly stations: readonly Length[]; readonly lacking: readonly string[] } {
  const { placing } = draft;
  if (placing.kind === 'at')
    return { stations: placing.stations.flatMap((each) => finder.station(each) ?? []), lacking: [] };
  const stretch = draft.span
    ? finder.stretch(draft.span, zero)
    : wall.length === undefined
      ? undefined
      : { from: zero, to: wall.length };
  if (!stretch) return { stations: [], lacking: [`stretch of angles ${draft.name.name}`] };
  if (placing.kind === 'spaced') {
    const spaced = knownValue(placing.spaced);
    if (spaced === undefined) return { stations: [], lacking: [`spacing of angles ${draft.name.name}`] };
    const stations: Length[] = [];
    if (spaced > 0 && (stretch.to - stretch.from) / spaced <= MOST_ANGLES) {
      for (let station = stretch.from; station <= stretch.to; station = plus(station, spaced)) stations.push(station);
    }
    return { stations, lacking: [] };
  }
  const { joists, lacking } = joistsOnWall(wall);
  const wanted = namesBay(placing.bays);
  const stations = baysBetween(joists)
    .filter((bay) => wanted(bay.number))
    .map(bayCentre)
    .filter((centre) => centre >= stretch.from && centre <= stretch.to);
  return { stations, lacking };
}

function acceptance(draft: AcceptanceDraft, finder: StationFinder): Acceptance {
  const { at, ...rest } = draft;
  return { ...rest, station: at ? finder.station(at) : undefined };
}

/** Each reading off another adds its error: nobody tapes so many in a row, and no text may exhaust the stack. */
const LONGEST_CHAIN = 64;

/** Edges of named openings, things and defects of a wall, found in turn; a circle of references is noticed. */
function edgesOfThings(draft: WallDraft): EdgesOf {
  const byName = new Map<string, WallDraft['obstructions'][number] | WallDraft['defects'][number]>();
  for (const thing of [...draft.obstructions, ...draft.defects]) {
    if (thing.name) byName.set(thing.name.name.toLowerCase(), thing);
  }
  const anchors = new Map(
    draft.foundAnchors.flatMap((anchor) => (anchor.name ? [[anchor.name.name.toLowerCase(), anchor] as const] : [])),
  );
  const open = new Set<string>();
  // Each thing is placed once, so that what is wrong with it is said once for each line that leans on it.
  const found = new Map<string, Stretch | undefined>();
  return (name, finder) => {
    const key = name.toLowerCase();
    const anchor = anchors.get(key);
    const thing = byName.get(key);
    if (!thing && !anchor) return undefined;
    if (open.has(key)) return 'circular';
    if (found.has(key)) return found.get(key);
    if (open.size >= LONGEST_CHAIN) return 'too-far';
    open.add(key);
    try {
      const first = anchor?.stations[0];
      const station = first ? finder.station(first) : undefined;
      const edges = thing
        ? finder.places(thing.where)[0]?.stretch
        : station === undefined
          ? undefined
          : { from: station, to: station };
      found.set(key, edges);
      return edges;
    } finally {
      open.delete(key);
    }
  };
}

function troubleTeller(
  draft: WallDraft,
  length: Length | undefined,
  units: LengthUnits,
  say: Say,
): (trouble: StationTrouble) => void {
  let lengthSaid = false;
  // A station is looked up for each thing that leans on it; what is wrong with it is said once.
  const said = new Set<SourceSpan>();
  return (trouble) => {
    if (said.has(trouble.source)) return;
    said.add(trouble.source);
    switch (trouble.kind) {
      case 'no-length':
        if (lengthSaid) return;
        lengthSaid = true;
        sayNoLength(draft, trouble.source, say);
        return;
      case 'outside':
        say({
          code: 'geometry/station-outside-wall',
          message: outsideWords(draft.name, trouble.station ?? zero, length, units),
          span: trouble.source,
        });
        return;
      case 'unresolved':
        say({
          code: 'unresolved-name',
          message: `Nothing called \`${trouble.name}\` with a place on wall ${draft.name}.`,
          span: trouble.source,
        });
        return;
      case 'circular':
        say({
          code: 'unresolved-name',
          message: `\`${trouble.name}\` is measured from a thing that is measured from it; tape one of them from the left end.`,
          span: trouble.source,
        });
        return;
      case 'too-far':
        say({
          code: 'unresolved-name',
          message: `\`${trouble.name}\` is measured through more than ${LONGEST_CHAIN} other things; tape one of them from the left end.`,
          span: trouble.source,
        });
        return;
      case 'backward':
        say({
          code: 'backward-stretch',
          message: 'This stretch ends before it begins; its two stations are read the other way round.',
          span: trouble.source,
        });
        return;
      case 'unknown-place':
        // An unknown place is on the survey list already.
        return;
    }
  };
}

function outsideWords(wall: string, station: Length, length: Length | undefined, units: LengthUnits): string {
  const past =
    length !== undefined && station > length
      ? `${formatLength(minus(station, length), units)} past the right end of wall ${wall}, which is ${formatLength(length, units)} long`
      : `${formatLength(negate(station), units)} past the left end of wall ${wall}`;
  return `${formatStation(station, units)} is ${past}. Mend the station; it counts from the left end, facing the wall from inside.`;
}

/** Whoever wrote `length unknown` has it on the survey list already. */
function sayNoLength({ taped, adjusted, name, nameSource }: WallDraft, needed: SourceSpan, say: Say): void {
  if (taped || adjusted) return;
  say({
    code: 'missing-part',
    message: `Wall ${name} has no length, so its right end cannot be found; write \`length\` in its heading.`,
    span: nameSource,
    related: [{ span: needed, message: 'needs the length' }],
  });
}
