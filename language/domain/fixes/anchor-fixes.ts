import { type ClearIntervals, clearIntervals, fitAt } from '../fit/clear-intervals.ts';
import { howSet } from '../fit/fit-case.ts';
import { contains, within, withoutOpen } from '../fit/intervals.ts';
import type { CountedAnchor } from '../fit/piece-anchors.ts';
import { anchorsOf } from '../fit/piece-anchors.ts';
import { apartAsked, diameterOfConnector, diametersOf } from '../fit/piece-requirements.ts';
import type { Connector } from '../hardware/connector.ts';
import { anchorsSill } from '../hardware/connector.ts';
import type { Layout, NewAnchor, SillPiece, Stretch, Wall } from '../model/layout.ts';
import type { Fix } from '../rules/finding.ts';
import { formatStation } from '../units/format-length.ts';
import type { Length } from '../units/length.ts';
import { inches, minus, plus } from '../units/length.ts';
import { connectorsFor } from './choose-connector.ts';
import type { ThingEdit } from './edit.ts';
import { nextMarks } from './next-mark.ts';
import type { Place } from './place-anchors.ts';
import { moveFor, nearestTo, stationsFor } from './place-anchors.ts';
import { tapeStep } from './tape-step.ts';

/** At most so many kinds of connector are offered for one thing to do. */
const MOST_KINDS = 2;

/** New anchors that bring a part of a board within the rules, one fix for each kind of connector that can. */
export function insertAnchors(layout: Layout, wall: Wall, piece: SillPiece, place: Place): readonly Fix[] {
  const fixes: Fix[] = [];
  for (const connector of connectorsFor(layout, wall, piece)) {
    if (fixes.length === MOST_KINDS) break;
    const stations = stationsFor(layout, wall, piece, connector, place);
    if (!stations || stations.length === 0) continue;
    const marks = nextMarks(layout, wall, stations.length);
    const edits = insertions(wall, marks, connector, stations);
    fixes.push({
      title: `Add ${insertedWords(layout, marks, connector, stations)}${caution(layout, wall, piece, connector, stations)}`,
      trust: 'review',
      edits,
    });
  }
  return fixes;
}

/** Moves one anchor that is not in the wall yet. Nothing that is installed or drilled is moved. */
export function slideAnchor(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  anchor: CountedAnchor,
  wish: 'nearest' | 'most-room',
): readonly Fix[] {
  const planned = anchor.planned;
  const connector = planned?.connector;
  if (planned?.state !== 'planned' || !connector) return [];
  const move = moveFor(layout, wall, piece, anchor, wish);
  if (!move || move.station === anchor.station) return [];
  const { station, added } = move;
  const marks = nextMarks(layout, wall, added.length);
  const show = (at: Length): string => formatStation(at, layout.title.units);
  const beside = added.length === 0 ? '' : ` and add ${insertedWords(layout, marks, connector, added)}`;
  const near = caution(layout, wall, piece, connector, [anchor.station, station, ...added]);
  return [
    {
      title: `Slide ${anchor.words} from ${show(anchor.station)} to ${show(station)}${beside}${near}`,
      trust: 'review',
      edits: [{ kind: 'set-station', anchor: anchor.id, station }, ...insertions(wall, marks, connector, added)],
    },
  ];
}

/** Moves one planned anchor to the clear tape mark of a stretch that is nearest to where one would have it. */
export function slideTowards(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  anchor: CountedAnchor,
  stretch: Stretch,
  aim: Length,
): readonly Fix[] {
  const planned = anchor.planned;
  const connector = planned?.connector;
  if (planned?.state !== 'planned' || !connector) return [];
  const { sure } = clearIntervals({ layout, wall, piece, connector, ...howSet(planned) });
  const station = nearestTo(within(sure, stretch), aim, tapeStep(layout.title.units));
  if (station === undefined || station === anchor.station) return [];
  const show = (at: Length): string => formatStation(at, layout.title.units);
  const near = caution(layout, wall, piece, connector, [anchor.station, station]);
  return [
    {
      title: `Slide ${anchor.words} from ${show(anchor.station)} to ${show(station)}${near}`,
      trust: 'review',
      edits: [{ kind: 'set-station', anchor: anchor.id, station }],
    },
  ];
}

/** One new anchor at a given station, or at none; one fix for each kind of connector that surely fits there. */
export function insertAnchorAt(layout: Layout, wall: Wall, piece: SillPiece, station: Length): readonly Fix[] {
  return connectorsFor(layout, wall, piece)
    .filter((connector) => contains(clearIntervals({ layout, wall, piece, connector }).sure, station))
    .slice(0, MOST_KINDS)
    .map((connector) => insertOne(layout, wall, piece, connector, station));
}

function insertOne(layout: Layout, wall: Wall, piece: SillPiece, connector: Connector, station: Length): Fix {
  const marks = nextMarks(layout, wall, 1);
  return {
    title: `Add ${insertedWords(layout, marks, connector, [station])}${caution(layout, wall, piece, connector, [station])}`,
    trust: 'review',
    edits: insertions(wall, marks, connector, [station]),
  };
}

/** One new anchor on the clear tape mark of a stretch that is nearest to where one would have it. */
export function insertAnchorTowards(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  stretch: Stretch,
  aim: Length,
): readonly Fix[] {
  return connectorsFor(layout, wall, piece)
    .slice(0, MOST_KINDS)
    .flatMap((connector) => {
      const { sure } = clearIntervals({ layout, wall, piece, connector });
      // Two anchors stand apart as the rules have it; who stands there already is in the way.
      const standing = anchorsOf(wall, piece);
      const asked = apartAsked(layout, wall, piece, [...diametersOf(standing), diameterOfConnector(connector)]);
      const apart = asked.kind === 'asked' ? asked.value : NEAR_A_SERVICE;
      const taken = standing.map(({ station }) => ({ from: minus(station, apart), to: plus(station, apart) }));
      const spots = within(sure, stretch).flatMap((each) => withoutOpen(each, taken));
      const station = nearestTo(spots, aim, tapeStep(layout.title.units));
      return station === undefined ? [] : [insertOne(layout, wall, piece, connector, station)];
    });
}

/** Leaves out an anchor that is not in the wall yet. */
export function removeAnchor(anchor: CountedAnchor): readonly Fix[] {
  if (anchor.planned?.state !== 'planned') return [];
  return [
    { title: `Leave out ${anchor.words}`, trust: 'review', edits: [{ kind: 'remove-anchor', anchor: anchor.id }] },
  ];
}

/** Another connector in the same place, of those that surely fit there. */
export function changeConnector(
  layout: Layout,
  wall: Wall,
  piece: SillPiece | undefined,
  anchor: NewAnchor,
): readonly Fix[] {
  const { station } = anchor;
  if (station === undefined || anchor.state !== 'planned' || !piece) return [];
  return connectorsFor(layout, wall, piece)
    .filter((connector) => connector !== anchor.connector && anchorsSill(connector.kind))
    .filter((connector) => {
      const { blocked, lacking } = fitAt({ layout, wall, piece, connector, ...howSet(anchor) }, station);
      return blocked.length === 0 && lacking.length === 0;
    })
    .slice(0, MOST_KINDS)
    .map((connector) => ({
      title: `Use ${connector.name} for ${anchor.name}${caution(layout, wall, piece, connector, [station])}`,
      trust: 'review',
      edits: [{ kind: 'set-connector', anchor: anchor.id, connector: connector.name }],
    }));
}

function insertions(
  wall: Wall,
  marks: readonly string[],
  connector: Connector,
  stations: readonly Length[],
): readonly ThingEdit[] {
  return stations.flatMap((station, index): readonly ThingEdit[] => {
    const mark = marks[index];
    return mark === undefined ? [] : [insertion(wall, mark, connector, station)];
  });
}

/** Below the last anchor of the wall that stands further left, so that the lines stay in order of station. */
function insertion(wall: Wall, mark: string, connector: Connector, station: Length): ThingEdit {
  const after = wall.anchors.findLast((anchor) => anchor.station !== undefined && anchor.station <= station);
  return { kind: 'insert-anchor', wall: wall.id, mark, connector: connector.name, station, after: after?.id };
}

function insertedWords(
  layout: Layout,
  marks: readonly string[],
  connector: Connector,
  stations: readonly Length[],
): string {
  const show = (at: Length | undefined): string => (at === undefined ? '' : formatStation(at, layout.title.units));
  if (stations.length === 1) return `${marks[0]} (${connector.name}) at ${show(stations[0])}`;
  const places =
    stations.length <= 4
      ? stations.map(show).join(', ')
      : `${show(stations[0])} to ${show(stations[stations.length - 1])}`;
  return `${stations.length} anchors ${marks[0]} to ${marks[marks.length - 1]} (${connector.name}) at ${places}`;
}

/** Within this of a place where gas or power rules holes out, the title says what comes before the drill. */
const NEAR_A_SERVICE = inches(12);

function caution(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  connector: Connector,
  stations: readonly Length[],
): string {
  const near = nearServices(clearIntervals({ layout, wall, piece, connector }));
  const isNear = near.some(({ from, to }) => stations.some((station) => from < station && station < to));
  return isNear ? `: ${BEFORE_THE_DRILL}` : '';
}

/** What is said wherever work is proposed near gas or power. */
export const BEFORE_THE_DRILL = 'locate and expose both sides first';

/** Open stretches in which gas or power is that near. */
export function nearServices({ blocked }: Pick<ClearIntervals, 'blocked'>): readonly Stretch[] {
  return blocked
    .filter(({ service }) => service !== undefined)
    .map(({ from, to }) => ({ from: minus(from, NEAR_A_SERVICE), to: plus(to, NEAR_A_SERVICE) }));
}
