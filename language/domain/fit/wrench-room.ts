import type { RoomInFront, Stretch, ThingId, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import type { SourceSpan } from '../model/source.ts';
import { recentOnly } from '../recent-only.ts';
import { formatLength } from '../units/format-length.ts';
import type { Length } from '../units/length.ts';
import { minus, nanometres, plus, zero } from '../units/length.ts';
import { thingsOn } from './blocked-by-things.ts';
import type { FitCase } from './fit-case.ts';
import { footprintOf } from './footprint.ts';
import type { HeightRange } from './height-zone.ts';
import { heightBetween, heightsOf } from './height-zone.ts';
import type { IntervalIndex } from './interval-index.ts';
import { intervalIndex } from './interval-index.ts';
import type { Stud } from './studs.ts';
import { isOpening, studsOf } from './studs.ts';
import { stretchWords, thingWords } from './thing-words.ts';

/** What a wrench asks for: free radius round each nut, and free depth in front of it for the handle. */
export interface WrenchAsks {
  readonly round: Length | undefined;
  readonly swing: Length | undefined;
}
export interface WrenchRoom {
  /** Nearest first. */
  readonly tight: readonly {
    /** `round`: the socket does not go over the nut. `swing`: the handle cannot be pulled. */
    readonly how: 'round' | 'swing';
    readonly words: string;
    readonly thing: ThingId;
    readonly span: SourceSpan | undefined;
    readonly measured: Length;
  }[];
  readonly lacking: readonly { readonly wants: string; readonly thing: ThingId; readonly span: SourceSpan }[];
}

/** Can the nut be turned that a connector has with its centre at this station. The body itself is taken to fit. */
export function wrenchRoomAt(fitCase: FitCase, station: Length, asks: WrenchAsks): WrenchRoom {
  const footprint = footprintOf(fitCase);
  const { wall, piece, layout } = fitCase;
  const { units } = layout.title;
  const tight: WrenchRoom['tight'][number][] = [];
  const lacking: WrenchRoom['lacking'][number][] = [];
  const round = asks.round ?? zero;
  const fromAbove = footprint.mounted === 'through-the-sill';
  const swing = fromAbove ? (asks.swing ?? zero) : zero;
  if (footprint.mounted === 'elsewhere') return { tight, lacking };
  const nuts = nutsOf(footprint, station, round);
  const reach = Math.max(round, ...nuts.map((nut) => Math.abs(nut.station - station) + round));
  const { from, to } = { from: nanometres(station - reach - 1), to: nanometres(station + reach + 1) };
  if (fromAbove) {
    for (const stud of studsNear(wall, station, round)) tight.push({ ...stud, words: studWords(stud.centre) });
  }
  for (const { thing, from: left, to: right } of thingsOn(wall).obstructions.overlapping(from, to)) {
    if (isOpening(thing)) continue;
    const found = heightsOf(thing, wall, piece);
    const words = thingWords(thing, units);
    const lacks = (wants: string): void => void lacking.push({ wants, thing: thing.id, span: thing.source });
    for (const nut of nuts) {
      const across = Math.max(0, left - nut.station, nut.station - right);
      const up = nut.heights && found.kind === 'heights' ? heightBetween(nut.heights, found.heights) : 0;
      if (across >= round || up >= round) continue;
      const off = thing.off === undefined ? zero : knownValue(thing.off);
      // The socket of a bolt comes from above, that of a plate from the front.
      const distance = Math.round(fromAbove ? Math.hypot(across, off ?? 0) : Math.hypot(across, up));
      const how = off !== undefined && off >= round ? 'swing' : 'round';
      if (how === 'round' ? distance >= round : (off ?? zero) >= swing) continue;
      if (found.kind === 'lacking') lacks(found.wants);
      else if (off === undefined) lacks(`how far ${words} stands off the wall`);
      else if (nut.heights && nut.heights.low < nut.heights.high && !fromAbove) {
        const { connector } = fitCase;
        const of = { thing: `connector:${connector.name}`, span: connector.source };
        lacking.push({ wants: `holes of connector ${connector.name}`, ...of });
      } else {
        const about = { how, thing: thing.id, span: thing.source } as const;
        if (how === 'round') tight.push({ ...about, words, measured: nanometres(distance) });
        else tight.push({ ...about, words: `${words}, ${formatLength(off, units)} in front`, measured: off });
      }
      break;
    }
  }
  if (swing > 0) {
    for (const { each } of placesOn(wall).room.overlapping(station - round - 1, station + round + 1)) {
      const room = knownValue(each.room);
      const about = { thing: wall.id, span: each.source };
      if (room === undefined) lacking.push({ wants: `room in front of wall ${wall.name}`, ...about });
      else if (room < swing) {
        const words = `${formatLength(room, units)} of room in front of the wall, ${stretchWords(each.stretch, units)}`;
        tight.push({ how: 'swing', ...about, words, measured: room });
      }
    }
  }
  return { tight: tight.sort((a, b) => a.measured - b.measured), lacking };

  function studWords(centre: Length): string {
    return `the stud ${stretchWords({ from: centre, to: centre } satisfies Stretch, units)}`;
  }
}

interface Nut {
  readonly station: Length;
  /** `undefined` where nobody knows. */
  readonly heights: HeightRange | undefined;
}

/** On top of the sill for a bolt, as high as a socket is; on the face of a plate at each of its holes into concrete. */
function nutsOf(footprint: ReturnType<typeof footprintOf>, station: Length, round: Length): readonly Nut[] {
  return footprint.holes.map(({ x, heights }): Nut => {
    if (footprint.mounted !== 'through-the-sill') return { station: plus(station, x), heights };
    return { station, heights: heights && { low: heights.high, high: heights.high + round } };
  });
}

function studsNear(wall: Wall, station: Length, round: Length) {
  return placesOn(wall)
    .studs.overlapping(station - round, station + round)
    .map(({ stud }) => {
      const measured = nanometres(Math.max(0, Math.abs(station - stud.centre) - stud.halfWidth));
      return { how: 'round' as const, thing: stud.thing, span: undefined, measured, centre: stud.centre };
    });
}

interface PlacesOnWall {
  readonly studs: IntervalIndex<Stretch & { readonly stud: Stud }>;
  readonly room: IntervalIndex<Stretch & { readonly each: RoomInFront }>;
}

const known = recentOnly<Wall, PlacesOnWall>();

function placesOn(wall: Wall): PlacesOnWall {
  const before = known.get(wall);
  if (before) return before;
  const places: PlacesOnWall = {
    studs: intervalIndex(
      studsOf(wall).studs.map((stud) => ({
        from: minus(stud.centre, stud.halfWidth),
        to: plus(stud.centre, stud.halfWidth),
        stud,
      })),
    ),
    room: intervalIndex((wall.sideRoom ?? []).map((each) => ({ ...each.stretch, each }))),
  };
  known.set(wall, places);
  return places;
}
