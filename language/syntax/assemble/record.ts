import type { Connector } from '../../domain/hardware/connector.ts';
import type { NameReference, Stretch } from '../../domain/model/layout.ts';
import { noTags } from '../../domain/model/layout.ts';
import { distanceBetween } from '../../domain/model/outline.ts';
import type { AsBuilt, DayRecord, Issue, MarkState, RecordEvent } from '../../domain/model/record.ts';
import type { Length } from '../../domain/units/length.ts';
import type { GirderDraft, InstalledDraft, IssueDraft, RecordDraft, RecordEventDraft } from '../drafts.ts';
import type { WallInBrief, WorkInBrief } from '../in-brief.ts';
import { namesIn } from '../in-brief.ts';
import { sayGirderTrouble } from './girder-trouble.ts';
import type { StationFinder } from './stations.ts';
import { createStationFinder } from './stations.ts';
import type { Say } from './wall.ts';
import { nearestName } from './wall.ts';

/** An event with its day. */
export interface DatedEvent {
  readonly date: string;
  readonly event: RecordEventDraft;
}

/** What the record says of one wall: of its marks, its old anchors, and what was found or drilled on it. */
export interface WallRecord {
  /** Oldest first. */
  readonly events: readonly DatedEvent[];
  /** By mark in lower case; a mark without an event is planned. */
  readonly states: ReadonlyMap<string, MarkState>;
  /** The newest `installed` event of each mark that is still there, by mark in lower case. */
  readonly installed: ReadonlyMap<string, { readonly date: string; readonly event: InstalledDraft }>;
}
export const emptyWallRecord: WallRecord = { events: [], states: new Map(), installed: new Map() };

/** Where what an event speaks of stands on its wall; `undefined`: it cannot be told. */
export type EventPlaces = ReadonlyMap<RecordEventDraft, Stretch | undefined>;

/** Days in order; those of one date stay as they stand in the text. */
export function byDay(records: readonly RecordDraft[]): readonly RecordDraft[] {
  return records.toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
}

// ---- whose mark is it

/** The marks of the design and the names of the survey, as the record speaks of them. */
export interface MarksInSight {
  /** Walls and girders that have the name, in lower case, by the name in lower case. */
  readonly owners: ReadonlyMap<string, readonly string[]>;
  /** As written, for a name that is nearly right. */
  readonly written: readonly string[];
}

export function marksInSight(
  walls: readonly WallInBrief[],
  girders: readonly GirderDraft[],
  works: readonly WorkInBrief[],
): MarksInSight {
  const owners = new Map<string, readonly string[]>();
  const written: string[] = [];
  for (const draft of [...works, ...walls, ...girders]) {
    const owner = ownerOf(draft).toLowerCase();
    // One list for all names that it alone has.
    const alone = [owner];
    for (const name of namesOf(draft)) {
      const bare = name.toLowerCase();
      const others = owners.get(bare);
      if (!others) {
        owners.set(bare, alone);
        written.push(name);
      } else if (!others.includes(owner)) owners.set(bare, [...others, owner]);
    }
  }
  return { owners, written };
}

/** All that `marksInSight` takes from a draft, in one text: most edits leave it as it is. */
export function namesInWords(draft: WallInBrief | GirderDraft | WorkInBrief): string {
  const known = knownWords.get(draft);
  if (known !== undefined) return known;
  const words = [draft.kind, ownerOf(draft), ...namesOf(draft)].join('\n');
  knownWords.set(draft, words);
  return words;
}
const knownWords = new WeakMap<WallInBrief | GirderDraft | WorkInBrief, string>();

const ownerOf = (draft: WallInBrief | GirderDraft | WorkInBrief): string =>
  draft.kind === 'work' ? draft.on.name : draft.name;

const namesOf = (draft: WallInBrief | GirderDraft | WorkInBrief): readonly string[] =>
  draft.kind === 'girder' ? namesIn(draft) : draft.names;

/** Walls and girders that have the mark; `F-A1.2` is the second angle of `F-A1`, `F.X4` the thing X4 of wall F. */
function ownersOf(mark: string, marks: MarksInSight): readonly string[] {
  const key = mark.toLowerCase();
  return ownersByName(key, marks) ?? ownersByName(key.replace(/\.\d+$/, ''), marks) ?? [];
}

function ownersByName(key: string, { owners }: MarksInSight): readonly string[] | undefined {
  const bare = owners.get(key);
  if (bare) return bare;
  for (let dot = key.indexOf('.'); dot >= 0; dot = key.indexOf('.', dot + 1)) {
    const owner = key.slice(0, dot);
    if (owners.get(key.slice(dot + 1))?.includes(owner)) return [owner];
  }
  return undefined;
}

/** The events that each wall has to know of, by wall in lower case: an event on another wall leaves it as it was. */
export function eventsByOwner(
  records: readonly RecordDraft[],
  marks: MarksInSight,
): ReadonlyMap<string, readonly DatedEvent[]> {
  const events = new Map<string, DatedEvent[]>();
  for (const { date, events: drafted } of byDay(records)) {
    for (const event of drafted) {
      const owners =
        'marks' in event
          ? new Set(event.marks.flatMap((mark) => ownersOf(mark.name, marks)))
          : 'on' in event && event.on
            ? [event.on.name.toLowerCase()]
            : [];
      for (const owner of owners) {
        const own = events.get(owner);
        if (own) own.push({ date, event });
        else events.set(owner, [{ date, event }]);
      }
    }
  }
  return events;
}

// ---- what it says of one wall

export function wallRecordOf(wall: string, events: readonly DatedEvent[]): WallRecord {
  if (events.length === 0) return emptyWallRecord;
  const states = new Map<string, MarkState>();
  const installed = new Map<string, { readonly date: string; readonly event: InstalledDraft }>();
  const prefix = `${wall.toLowerCase()}.`;
  for (const { date, event } of events) {
    const state = stateAfter(event);
    if (!state || !('marks' in event)) continue;
    for (const { name } of event.marks) {
      const key = name.toLowerCase();
      const mark = key.startsWith(prefix) ? key.slice(prefix.length) : key;
      states.set(mark, state);
      if (event.kind === 'installed') installed.set(mark, { date, event });
      if (event.kind === 'omitted') installed.delete(mark);
    }
  }
  return { events, states, installed };
}

/** A passed test says nothing new of a mark: one that failed stays failed until something is installed anew under it. */
function stateAfter(event: RecordEventDraft): MarkState | undefined {
  if (event.kind === 'installed' || event.kind === 'omitted') return event.kind;
  return event.kind === 'tested' && event.result === 'failed' ? 'failed' : undefined;
}

/** The same of every mark at once, for girders. */
export function statesOfMarks(records: readonly RecordDraft[]): ReadonlyMap<string, MarkState> {
  const events = byDay(records).flatMap(({ date, events: drafted }) => drafted.map((event) => ({ date, event })));
  return wallRecordOf('', events).states;
}

/** Where and how a mark was built; `undefined` while the record does not have it installed. */
export function asBuiltOf(
  mark: string,
  designed: Length | undefined,
  record: WallRecord,
  finder: StationFinder,
): AsBuilt | undefined {
  const newest = record.installed.get(mark.toLowerCase());
  if (!newest) return undefined;
  const { date, event } = newest;
  const { place } = event;
  return {
    station: place.kind === 'as-planned' ? designed : place.kind === 'at' ? finder.station(place.at) : undefined,
    asPlanned: place.kind === 'as-planned',
    embed: event.embed,
    ...(event.offset ? { offset: event.offset } : {}),
    using: event.using,
    date,
    source: event.source,
  };
}

/** Stations of the events on one wall, told where they lie past its ends. */
export function placesOfEvents(events: readonly DatedEvent[], finder: StationFinder): EventPlaces {
  if (events.length === 0) return noPlaces;
  const places = new Map<RecordEventDraft, Stretch | undefined>();
  for (const { event } of events) {
    if (event.kind === 'installed' && event.place.kind === 'at')
      places.set(event, pointAt(finder.station(event.place.at)));
    if (event.kind === 'dead-hole' && event.at) places.set(event, pointAt(finder.station(event.at)));
    if (event.kind === 'discovered' && event.where) places.set(event, finder.places(event.where)[0]?.stretch);
  }
  return places;
}

const noPlaces: EventPlaces = new Map();

const pointAt = (station: Length | undefined): Stretch | undefined =>
  station === undefined ? undefined : { from: station, to: station };

// ---- the record of the house

/** More near misses than this are listed without a guess: each guess looks through every mark. */
const MOST_GUESSES = 20;

/** Days and issues with every place resolved, and what they name that nothing in sight has. */
export function assembleRecord(input: {
  readonly records: readonly RecordDraft[];
  readonly issues: readonly IssueDraft[];
  readonly marks: MarksInSight;
  /** By name. */
  readonly walls: readonly string[];
  readonly girders: readonly GirderDraft[];
  readonly connectors: ReadonlyMap<string, Connector>;
  readonly places: EventPlaces;
  readonly say: Say;
}): { readonly record: readonly DayRecord[]; readonly issues: readonly Issue[] } {
  const say: Say = (problem) => input.say({ layer: 'record', ...problem });
  const places = new Map([...input.places, ...placesOnGirders(input.records, input.girders, say)]);
  const owners = [...input.walls, ...input.girders.map((each) => each.name)];
  const known = new Set(owners.map((name) => name.toLowerCase()));
  let guesses = 0;
  const guess = (reference: NameReference, inSight: readonly string[]): ReturnType<typeof nearestName> => {
    guesses += 1;
    return guesses > MOST_GUESSES ? [] : nearestName(reference, inSight);
  };
  const sayUnknown = (reference: NameReference, inSight: readonly string[], words: string): void => {
    const replacements = guess(reference, inSight);
    const near = replacements[0];
    say({
      code: 'unresolved-name',
      message: `${words}${near ? `; did you mean \`${near.text}\`?` : '.'}`,
      span: reference.source,
      replacements,
    });
  };
  const checkMarks = (marks: readonly NameReference[]): void => {
    for (const mark of marks) {
      if (ownersOf(mark.name, input.marks).length > 0) continue;
      sayUnknown(mark, input.marks.written, `Nothing in the design or the survey has the mark \`${mark.name}\``);
    }
  };
  for (const event of input.records.flatMap((record) => record.events)) {
    if ('marks' in event) checkMarks(event.marks);
    if ('on' in event && event.on && !known.has(event.on.name.toLowerCase())) {
      sayUnknown(event.on, owners, `No wall or girder \`${event.on.name}\` in this file or the files it uses`);
    }
    if (event.kind === 'installed' && event.using && !input.connectors.has(event.using.name.toLowerCase())) {
      const names = [...input.connectors.values()].map((each) => each.name);
      sayUnknown(event.using, names, `No connector \`${event.using.name}\` in this file or the files it uses`);
    }
  }
  for (const { issue } of input.issues) for (const changed of issue.changed) checkMarks(changed.marks);
  sayIssuesOfOneNumber(input.issues, say);
  return {
    record: byDay(input.records).map((day) => ({
      date: day.date,
      by: day.by,
      events: day.events.map((event) => withPlace(event, places)),
      source: day.source,
      ...(day.tags === noTags ? {} : { tags: day.tags }),
    })),
    issues: input.issues.map(({ issue }) => issue),
  };
}

function withPlace(event: RecordEventDraft, places: EventPlaces): RecordEvent {
  const stretch = places.get(event);
  switch (event.kind) {
    case 'installed': {
      const { place, ...rest } = event;
      if (place.kind !== 'at') return { ...rest, place };
      return { ...rest, place: { kind: 'at', station: stretch?.from, source: place.at.source } };
    }
    case 'discovered': {
      const { where: _where, ...rest } = event;
      return { ...rest, stretch };
    }
    case 'dead-hole': {
      const { at: _at, ...rest } = event;
      return { ...rest, station: stretch?.from };
    }
    default:
      return event;
  }
}

/** Girders have no openings to measure from: stations run from their first point. */
function placesOnGirders(records: readonly RecordDraft[], girders: readonly GirderDraft[], say: Say): EventPlaces {
  const byName = new Map(girders.map((girder) => [girder.name.toLowerCase(), girder]));
  const places = new Map<RecordEventDraft, Stretch | undefined>();
  for (const { date, events } of records) {
    for (const event of events) {
      const girder = 'on' in event && event.on ? byName.get(event.on.name.toLowerCase()) : undefined;
      if (!girder) continue;
      const length = girder.from && girder.to ? distanceBetween(girder.from, girder.to) : undefined;
      const finder = createStationFinder(
        length,
        () => undefined,
        (trouble) => sayGirderTrouble(girder.name, trouble, say),
      );
      for (const [key, place] of placesOfEvents([{ date, event }], finder)) places.set(key, place);
    }
  }
  return places;
}

function sayIssuesOfOneNumber(issues: readonly IssueDraft[], say: Say): void {
  const seen = new Map<number, Issue>();
  for (const { issue } of issues) {
    if (issue.number === undefined) continue;
    const earlier = seen.get(issue.number);
    if (!earlier) seen.set(issue.number, issue);
    else {
      say({
        code: 'duplicate-name',
        message: `Issue ${issue.number} left the office already; give this one the next number.`,
        span: issue.source,
        related: [{ span: earlier.source, message: `issue ${issue.number}` }],
      });
    }
  }
}
