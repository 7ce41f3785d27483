import { wallAsBuilt } from '../fit/as-built.ts';
import { anchorsSill, type Connector, type ConnectorKind } from '../hardware/connector.ts';
import type {
  Girder,
  Layout,
  LengthUnits,
  NewAnchor,
  PostHardware,
  SillPiece,
  ThingId,
  Wall,
} from '../model/layout.ts';
import type { SourceSpan } from '../model/source.ts';
import type { SlideRoom } from '../place/crew-notes.ts';
import type { Checked } from '../rules/checked.ts';
import { formatInches, formatLength } from '../units/format-length.ts';
import { type Length, minus } from '../units/length.ts';
import { type Basis, basisOf } from './basis.ts';
import { type BuiltRow, placeOf, stateOf, type WorkState } from './schedules/built-columns.ts';
import { recordOfMarks } from './schedules/mark-record.ts';
import { addedInWords, fastenerOf, fastenerSize, joined, readingInWords, washerInWords } from './schedules/words.ts';

/** Every sill anchor and every piece of post hardware, one row each, in house order: none that has a mark is left out. */
export interface Schedule {
  readonly house: string;
  readonly units: LengthUnits;
  readonly rows: readonly ScheduleRow[];
  readonly basis: Basis;
}

/** What was built stands as it was built, with its gaps; what is still to be built as it is designed. */
export interface ScheduleRow extends BuiltRow {
  readonly thing: ThingId;
  readonly mark: string;
  /** The wall, or for post hardware the girder. */
  readonly wall: string;
  /** The sill board (both where they lap), or the post. Empty where there is none at that station. */
  readonly piece: string;
  /** `undefined` where it cannot be placed; those rows stand last. */
  readonly station: Length | undefined;
  readonly kind: string;
  readonly connector: string;
  /** The design's connector, where the record says that another was put in. */
  readonly insteadOf: string;
  readonly size: string;
  readonly embed: string;
  readonly hole: string;
  readonly gapLeft: Gap | undefined;
  readonly gapRight: Gap | undefined;
  readonly washer: string;
  /** `with …`: what comes with it. */
  readonly added: string;
  readonly shim: string;
  /** How far it may slide while all others stay; `undefined` where that was not asked or cannot be told. */
  readonly slide: SlideRoom | undefined;
  /** Which way the hole goes: `down`, `sideways`, `right-angle` (down, with a right-angle drill). */
  readonly drill: string;
  readonly state: ScheduleState;
  /** The evaluation report that the connector's values come from, or `demo value`. */
  readonly valuesFrom: string;
  readonly source: SourceSpan;
  /** Findings that name this connector, accepted ones too. */
  readonly findings: number;
}

/** To the next sill anchor that counts, or to the end of the board where there is none. */
export interface Gap {
  readonly length: Length;
  readonly to: 'anchor' | 'end';
}

export type ScheduleState = WorkState;

/** Trade words for the kinds of connector. */
export const kindInWords: Readonly<Record<ConnectorKind, string>> = {
  'side-plate': 'side plate',
  'stepped-side-plate': 'stepped side plate',
  'through-bolt': 'through-bolt',
  'framing-angle': 'framing angle',
  'post-cap': 'post cap',
  'post-base': 'post base',
  'hold-down': 'hold-down',
  'plate-washer': 'plate washer',
  strap: 'strap',
  shim: 'shim',
};

/** How far an anchor may slide: asked of the placement, and only for documents, as it costs more than all the rest. */
export type FindSlide = (layout: Layout, wall: Wall, anchor: NewAnchor) => SlideRoom | undefined;

/** Walls in walking order and their connectors by station, then girders; what has no place comes last. */
export function scheduleOf(layout: Layout, checked: Checked, findSlide?: FindSlide): Schedule {
  const findings = findingsByThing(checked);
  const rows = [
    ...layout.walls.flatMap((wall) => wallRows(layout, wall, findings, findSlide)),
    ...layout.girders.flatMap((girder) => girderRows(layout, girder, findings)),
  ];
  return {
    house: layout.title.name ?? 'Untitled layout',
    units: layout.title.units,
    rows: [...rows.filter((row) => row.station !== undefined), ...rows.filter((row) => row.station === undefined)],
    basis: basisOf(layout, checked),
  };
}

/** Of one wall, by station; what has no place stands last. */
export function scheduleOfWall(layout: Layout, wall: Wall, checked: Checked): readonly ScheduleRow[] {
  const known = knownSchedules.get(checked);
  if (known?.layout === layout && known.wall === wall) return known.rows;
  const rows = wallRows(layout, wall, findingsByThing(checked), undefined);
  knownSchedules.set(checked, { layout, wall, rows });
  return rows;
}
/** The last one of each: a pane lists a wall and describes what is under the cursor on it. */
const knownSchedules = new WeakMap<
  Checked,
  { readonly layout: Layout; readonly wall: Wall; readonly rows: readonly ScheduleRow[] }
>();

function wallRows(
  layout: Layout,
  wall: Wall,
  findings: ReadonlyMap<string, number>,
  findSlide: FindSlide | undefined,
): readonly ScheduleRow[] {
  const { units } = layout.title;
  const recordOf = recordOfMarks(layout);
  const gaps = gapsOf(wallAsBuilt(layout, wall));
  const rows = wall.anchors.map((anchor): ScheduleRow => {
    const place = placeOf(anchor);
    const { left, right } = gaps({ ...anchor, station: place.station });
    const pieces = place.station === undefined ? [] : piecesAt(wall, place.station);
    const record = recordOf(wall.name, anchor.name);
    const using = anchor.asBuilt?.using?.name;
    const other =
      using !== undefined && using.toLowerCase() !== anchor.connectorName?.toLowerCase() ? using : undefined;
    const connector = other === undefined ? anchor.connector : layout.connectors.get(other.toLowerCase());
    return {
      thing: anchor.id,
      mark: anchor.name,
      wall: wall.name,
      piece: pieces.map((piece) => piece.name).join(', '),
      ...place,
      ...connectorCells(connector, other ?? anchor.connectorName, units),
      insteadOf: other === undefined ? '' : (anchor.connectorName ?? 'none named'),
      embed: readingInWords(anchor.asBuilt?.embed ?? anchor.embed ?? fastenerOf(connector)?.embed, units),
      gapLeft: left,
      gapRight: right,
      washer: washerInWords(connector, anchor.withHardware, units),
      added: joined([addedInWords(anchor.withHardware), anchor.bothSides ? 'both sides' : '']),
      shim: readingInWords(anchor.shim, units),
      slide: findSlide?.(layout, wall, anchor),
      drill: drillOf(anchor, connector),
      state: stateOf(anchor),
      record,
      source: anchor.source,
      findings: findings.get(anchor.id) ?? 0,
    };
  });
  // The design lists them by its own stations; one that was built past its neighbour stands past it here too.
  return rows.sort((a, b) => (a.station ?? Number.POSITIVE_INFINITY) - (b.station ?? Number.POSITIVE_INFINITY) || 0);
}

function girderRows(layout: Layout, girder: Girder, findings: ReadonlyMap<string, number>): readonly ScheduleRow[] {
  const { units } = layout.title;
  const recordOf = recordOfMarks(layout);
  return girder.posts.flatMap((post) =>
    post.hardware.map((piece): ScheduleRow => {
      const record = recordOf(girder.name, piece.name);
      return {
        thing: piece.id,
        mark: piece.name,
        wall: girder.name,
        piece: post.name ?? '',
        station: post.station,
        designed: post.station,
        placeUnknown: false,
        ...connectorCells(piece.connector, piece.connectorName, units),
        insteadOf: '',
        embed: readingInWords(fastenerOf(piece.connector)?.embed, units),
        gapLeft: undefined,
        gapRight: undefined,
        washer: washerInWords(piece.connector, piece.withHardware, units),
        added: addedInWords(piece.withHardware),
        shim: shimOfPostHardware(piece, units),
        slide: undefined,
        drill: '',
        state: stateOf({ state: piece.state ?? record.state, proposed: piece.proposed === true }),
        record,
        source: piece.source,
        findings: findings.get(piece.id) ?? 0,
      };
    }),
  );
}

/** How many findings name each thing, accepted ones too. */
export function findingsByThing(checked: Checked): ReadonlyMap<string, number> {
  const known = knownCounts.get(checked);
  if (known) return known;
  const counts = new Map<string, number>();
  for (const { thing } of checked.findings) if (thing !== undefined) counts.set(thing, (counts.get(thing) ?? 0) + 1);
  knownCounts.set(checked, counts);
  return counts;
}
const knownCounts = new WeakMap<Checked, ReadonlyMap<string, number>>();

function connectorCells(
  connector: Connector | undefined,
  name: string | undefined,
  units: LengthUnits,
): Pick<ScheduleRow, 'kind' | 'connector' | 'size' | 'hole' | 'valuesFrom'> {
  const fastener = fastenerOf(connector);
  return {
    kind: connector ? kindInWords[connector.kind] : 'not found',
    connector: connector?.name ?? name ?? 'none named',
    size: fastener ? fastenerSize(fastener, units) : '',
    hole: [fastener?.hole, fastener?.holeDepth]
      .flatMap((length) => (length ? [formatInches(length, units)] : []))
      .join(' x '),
    valuesFrom: valuesFrom(connector),
  };
}

export function valuesFrom(connector: Connector | undefined): string {
  if (!connector) return 'no connector';
  if (connector.demo) return 'demo value';
  return connector.report ?? 'no report given';
}

function shimOfPostHardware(piece: PostHardware, units: LengthUnits): string {
  return joined([readingInWords(piece.shim, units), piece.bothSides ? 'both sides' : '']);
}

function drillOf({ rightAngleDrill }: NewAnchor, connector: Connector | undefined): string {
  if (rightAngleDrill) return 'right-angle';
  const kind = connector?.kind;
  if (kind === 'through-bolt' || kind === 'hold-down') return 'down';
  return kind === 'side-plate' || kind === 'stepped-side-plate' ? 'sideways' : '';
}

function piecesAt(wall: Wall, station: Length): readonly SillPiece[] {
  return wall.pieces.filter((piece) => piece.from <= station && station <= piece.to);
}

/** Gaps of each new sill anchor to its neighbours on the same board, old anchors with full credit among them. */
function gapsOf(wall: Wall): (anchor: NewAnchor) => { left: Gap | undefined; right: Gap | undefined } {
  const stationsOnPiece = new Map(wall.pieces.map((piece) => [piece.id, countedStations(wall, piece)]));
  return (anchor) => {
    const station = anchor.station;
    if (station === undefined || !countsInGaps(anchor)) return { left: undefined, right: undefined };
    const pieces = piecesAt(wall, station);
    return {
      left: shortest(pieces.map((piece) => gapLeft(stationsOnPiece.get(piece.id) ?? [], piece, station))),
      right: shortest(pieces.map((piece) => gapRight(stationsOnPiece.get(piece.id) ?? [], piece, station))),
    };
  };
}

function countsInGaps(anchor: NewAnchor): boolean {
  return (
    anchor.state !== 'omitted' && anchor.state !== 'failed' && (!anchor.connector || anchorsSill(anchor.connector.kind))
  );
}

function countedStations(wall: Wall, piece: SillPiece): readonly Length[] {
  const planned = wall.anchors.filter(countsInGaps);
  const credited = wall.foundAnchors.filter((found) => found.credit === 'full');
  return [...planned, ...credited]
    .flatMap(({ station }) => (station === undefined || station < piece.from || station > piece.to ? [] : [station]))
    .sort((a, b) => a - b);
}

function gapLeft(stations: readonly Length[], piece: SillPiece, station: Length): Gap {
  const neighbour = stations[lowerBound(stations, station) - 1];
  if (neighbour === undefined) return { length: minus(station, piece.from), to: 'end' };
  return { length: minus(station, neighbour), to: 'anchor' };
}

function gapRight(stations: readonly Length[], piece: SillPiece, station: Length): Gap {
  let index = lowerBound(stations, station);
  while (stations[index] === station) index += 1;
  const neighbour = stations[index];
  if (neighbour === undefined) return { length: minus(piece.to, station), to: 'end' };
  return { length: minus(neighbour, station), to: 'anchor' };
}

function lowerBound(sorted: readonly Length[], value: Length): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((sorted[middle] ?? value) < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

function shortest(gaps: readonly Gap[]): Gap | undefined {
  return gaps.reduce<Gap | undefined>((best, gap) => (best && best.length <= gap.length ? best : gap), undefined);
}

export function gapInWords(gap: Gap | undefined, units: LengthUnits): string {
  if (!gap) return '';
  const length = formatLength(gap.length, units);
  return gap.to === 'end' ? `${length} end` : length;
}
