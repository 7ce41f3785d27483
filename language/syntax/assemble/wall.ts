import type { Connector } from '../../domain/hardware/connector.ts';
import type {
  Acceptance,
  CrippleStretch,
  DeadHole,
  Defect,
  Face,
  FoundAnchor,
  FoundationStretch,
  IrregularStud,
  JoistRun,
  LengthUnits,
  NameReference,
  NewAnchor,
  Obstruction,
  Question,
  Rim,
  Stretch,
  Tags,
  Thing,
  ThingId,
  Wall,
  WorkBlock,
} from '../../domain/model/layout.ts';
import { degrees, noTags } from '../../domain/model/layout.ts';
import { distanceBetween } from '../../domain/model/outline.ts';
import { knownValue } from '../../domain/model/reading.ts';
import type { SourceSpan } from '../../domain/model/source.ts';
import { nothing, ownText } from '../../domain/spare-room.ts';
import { formatExactStation, formatLength, formatStation } from '../../domain/units/format-length.ts';
import type { Length } from '../../domain/units/length.ts';
import { minus, negate, zero } from '../../domain/units/length.ts';
import type { AcceptanceDraft, LineOf, TypicalDraft, WallDraft, WorkDraft } from '../drafts.ts';
import { nearestWord } from '../nearest-word.ts';
import { printName } from '../print/name.ts';
import type { Problem } from '../problem.ts';
import type { EventPlaces, WallRecord } from './record.ts';
import { placesOfEvents } from './record.ts';
import { remediesOnWall } from './remedies.ts';
import { sillPieces } from './sill.ts';
import type { EdgesOf, StationFinder, StationTrouble } from './stations.ts';
import { createStationFinder } from './stations.ts';
import type { MergedStretch } from './stretches.ts';
import { mergeStretches, profileOver, withReadings } from './stretches.ts';
import { newWorkOn } from './work.ts';

export type MarkState = NewAnchor['state'];

export interface WallInputs {
  readonly draft: WallDraft;
  readonly plan: Wall['plan'];
  readonly typical: TypicalDraft | undefined;
  readonly works: readonly WorkDraft[];
  readonly face: Face;
  readonly units: LengthUnits;
  readonly connectors: ReadonlyMap<string, Connector>;
  /** By mark in lower case; a mark without an event is planned. */
  readonly markStates: ReadonlyMap<string, MarkState>;
  readonly record: WallRecord;
}

export interface AssembledWall {
  readonly wall: Wall;
  readonly questions: readonly Question[];
  readonly problems: readonly Problem[];
  /** Of what the record says of this wall. */
  readonly places: EventPlaces;
}

/** A wall with its stations resolved, `typical` filled in and its design beside the survey. */
export function assembleWall(inputs: WallInputs): AssembledWall {
  const { draft, typical, works } = inputs;
  const problems: Problem[] = [];
  const recordBlocks = new Set(inputs.record.events.map(({ event }) => event.source.block));
  const say = (problem: Omit<Problem, 'severity' | 'related' | 'replacements' | 'wall'> & Partial<Problem>): void => {
    const layer = recordBlocks.has(problem.span.block) ? ({ layer: 'record' } as const) : {};
    problems.push({ severity: 'error', related: [], replacements: [], wall: draft.name, ...layer, ...problem });
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
      grade: withReadings(profileOver(each.words.grade, each), 'grade', each, draft, finder),
      footing: profileOver(each.words.footing, each),
      strength: each.words.strength,
      steel: each.words.steel,
      conditions: each.words.conditions ?? nothing,
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
        conditions: each.words.conditions ?? nothing,
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

  const { pieces, unplaced, sillPlaces, foundPieces } = sillPieces({
    draft,
    typical,
    works,
    length,
    finder,
    say,
    named,
  });
  if (length === undefined && unplaced.length > 0) sayNoLength(draft, draft.nameSource, say);
  const foundObstructions = draft.obstructions.flatMap((each): readonly Obstruction[] =>
    finder.places(each.where).map((place) => ({
      ...named(each.kind, each),
      kind: each.kind,
      label: each.label,
      stretch: place.stretch,
      placeSource: place.source,
      ...(each.where.kind === 'span' ? {} : { byMiddle: true }),
      zone: each.zone,
      off: each.off,
      deep: each.deep,
      diameter: each.diameter,
      hub: each.hub,
      netArea: each.netArea,
      words: each.words,
    })),
  );
  const newWood = pieces
    .flatMap((piece): readonly Stretch[] => (piece.layer === 'design' ? [piece] : (piece.sistered ?? [])))
    .sort((a, b) => a.from - b.from);
  const foundDefects = draft.defects.flatMap((each): readonly Defect[] =>
    finder.places(each.where).map((place) => ({
      ...named(each.kind, each),
      kind: each.kind,
      stretch: place.stretch,
      width: each.width,
      depth: each.depth,
      remedied: place.stretch !== undefined && WOOD_DEFECTS.has(each.kind) && isCovered(place.stretch, newWood),
    })),
  );
  const surveyedAnchors = draft.foundAnchors.flatMap((each): readonly FoundAnchor[] =>
    each.stations.map((station) => ({
      ...named('found-anchor', each),
      ...each.anchor,
      states: [...each.anchor.states, ...fateOf(each.name, draft.name, inputs)],
      station: finder.station(station),
      stationSource: station.source,
    })),
  );

  const irregularJoists = draft.irregularJoists.flatMap((each) => {
    const station = finder.station(each.at);
    return station === undefined
      ? []
      : [{ ...named('joist', { ...each, name: undefined }), station, role: each.role, size: each.size }];
  });
  const newWork = newWorkOn({
    inputs,
    wall: { name: draft.name, length, joists, irregularJoists },
    finder,
    named,
    say,
  });
  const studs = [
    ...draft.studs.map((each) => ({ each, layer: 'survey' as const, proposed: false })),
    ...works.flatMap((work) => work.studs.map((each) => ({ each, layer: 'design' as const, proposed: each.proposed }))),
  ].flatMap(({ each, layer, proposed }): readonly IrregularStud[] => {
    const station = finder.station(each.at);
    return station === undefined
      ? []
      : [
          {
            ...named('stud', { ...each, name: undefined }),
            station,
            size: each.size,
            layer,
            ...(proposed ? { proposed } : {}),
          },
        ];
  });
  const { obstructions, defects, foundAnchors, remedies } = remediesOnWall({
    works,
    owner: draft.name,
    found: { obstructions: foundObstructions, defects: foundDefects, foundAnchors: surveyedAnchors },
    pieces,
    sillPlaces,
    irregularJoists,
    studs,
    finder,
    connectors: inputs.connectors,
    say,
  });

  const sideRoom = draft.readings
    .filter((reading) => reading.key === 'side-room')
    .flatMap((reading) =>
      finder
        .places(reading.where)
        .flatMap(({ stretch }) => (stretch ? [{ stretch, room: reading.value, source: reading.source }] : [])),
    );

  // `typical` speaks of walls that have joists to block between, and say nothing of blocking themselves.
  const blocking =
    draft.blocking.length > 0 || joists.length === 0 || draft.absent.includes('blocking')
      ? draft.blocking
      : (typical?.blocking ?? []);

  const places = placesOfEvents(inputs.record.events, finder);
  const deadHoles = deadHolesOf(inputs.record, places);
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
    plan: inputs.plan,
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
    ...(foundPieces ? { foundPieces } : {}),
    unplaced,
    cripples,
    joists,
    irregularJoists,
    studs,
    rims,
    blocking: [
      ...blocking.map((each) => ({ each, layer: 'survey' as const, proposed: false })),
      ...works.flatMap((work) =>
        work.blocking.map((each) => ({ each, layer: 'design' as const, proposed: each.proposed })),
      ),
    ].map(({ each, layer, proposed }) => ({
      ...named('blocking', { ...each, name: undefined }),
      bays: each.bays,
      size: each.size,
      ...(each.nails ? { nails: each.nails } : {}),
      layer,
      ...(proposed ? { proposed } : {}),
    })),
    sideRoom: sideRoom.length > 0 ? sideRoom : undefined,
    obstructions,
    defects,
    foundAnchors,
    ...(deadHoles.length > 0 ? { deadHoles } : {}),
    ...newWork,
    remedies,
    absent: draft.absent.length === 0 ? nothingAbsent : new Set(draft.absent),
    noWork: works.find((work) => work.noWork)?.noWork,
    accepted: [...draft.accepted, ...works.flatMap((work) => work.accepted)].map((each) => acceptance(each, finder)),
    workBlocks: works.map(workBlock),
  };
  return {
    wall,
    questions: [...draft.questions, ...works.flatMap((work) => work.questions)].map((question) => ({
      ...question,
      about: wallId,
    })),
    problems,
    places,
  };
}

const nothingAbsent: ReadonlySet<string> = new Set();

function deadHolesOf({ events }: WallRecord, places: EventPlaces): readonly DeadHole[] {
  return events.flatMap(({ date, event }): readonly DeadHole[] => {
    const station = event.kind === 'dead-hole' ? places.get(event)?.from : undefined;
    return event.kind !== 'dead-hole' || station === undefined
      ? []
      : [{ station, state: event.state, date, source: event.source }];
  });
}

/** What the record says of a found anchor: it failed a test. */
function fateOf(name: NameReference | undefined, wall: string, { markStates }: WallInputs): readonly string[] {
  if (!name) return [];
  const names = [name.name, `${wall}.${name.name}`].map((each) => each.toLowerCase());
  return [...(names.some((each) => markStates.get(each) === 'failed') ? ['failed'] : [])];
}

/** Where a new line of design would be written, with what the block notes. */
export function workBlock({ source, headingSource, tags }: WorkDraft): WorkBlock {
  return { source, headingSource, ...(tags === noTags ? {} : { tags }) };
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
const MARKED: ReadonlySet<string> = new Set(['anchor', 'angles', 'panel', 'hold-down', 'strap', 'cap', 'base']);

export function createThingNamer(owner: string, say: Say): ThingNamer {
  const seen = new Map<string, SourceSpan>();
  const unnamed = new Map<string, number>();
  const copies = new Map<string, number>();
  return (kind, { name, source, tags }) => {
    if (!name) {
      const count = (unnamed.get(kind) ?? 0) + 1;
      unnamed.set(kind, count);
      return { id: idOf(owner, kind, `#${count}`), name: undefined, source, tags };
    }
    const id = idOf(owner, kind, name.name);
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

/** There are many, and each would keep the texts that it is put together of. */
const idOf = (owner: string, kind: string, name: string): ThingId => ownText(`${owner}/${kind}:${name}`);

export type Say = (problem: Omit<Problem, 'severity' | 'related' | 'replacements' | 'wall'> & Partial<Problem>) => void;

const WOOD_DEFECTS: ReadonlySet<Defect['kind']> = new Set(['rot', 'split', 'notch', 'insects']);

/** A defect of the wood is gone where new wood lies over, or beside, all of it; `wood` in order of station. */
function isCovered(stretch: Stretch, wood: readonly Stretch[]): boolean {
  let reached = stretch.from;
  let touched = false;
  for (const board of wood) {
    if (board.from > reached) break;
    if (board.to < reached) continue;
    touched = true;
    reached = board.to;
  }
  return touched && reached >= stretch.to;
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
          replacements: insteadOfOutside(trouble, length, units),
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

/** The end of the wall that it lies past; a negative station may have been meant from the other end. */
function insteadOfOutside(
  { station, source }: StationTrouble,
  length: Length | undefined,
  units: LengthUnits,
): Problem['replacements'] {
  if (station === undefined || length === undefined) return [];
  const write = (text: string): Problem['replacements'][number] => ({ title: `Write \`${text}\``, text, span: source });
  const atEnd = write(formatExactStation(station > length ? length : zero, units));
  const fromRight =
    station < 0 && -station <= length ? [write(`${formatExactStation(negate(station), units)} from right`)] : [];
  return [...fromRight, atEnd];
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
