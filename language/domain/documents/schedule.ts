import { anchorsSill, type Connector, type ConnectorKind, type Fastener } from '../hardware/connector.ts';
import type { Girder, Layout, LengthUnits, NewAnchor, PostHardware, SillPiece, Wall } from '../model/layout.ts';
import type { Reading } from '../model/reading.ts';
import type { SourceSpan } from '../model/source.ts';
import type { Checked } from '../rules/checked.ts';
import { formatInches, formatLength } from '../units/format-length.ts';
import { type Length, minus } from '../units/length.ts';
import { type Basis, basisOf } from './basis.ts';

/** Every connector of the design, one row each, in house order: nothing that has a mark is ever left out. */
export interface Schedule {
  readonly house: string;
  readonly units: LengthUnits;
  readonly rows: readonly ScheduleRow[];
  readonly basis: Basis;
}

export interface ScheduleRow {
  readonly mark: string;
  /** The wall, or for post hardware the girder. */
  readonly wall: string;
  /** The sill board (both where they lap), or the post. Empty where there is none at that station. */
  readonly piece: string;
  /** `undefined` where it cannot be placed; those rows stand last. */
  readonly station: Length | undefined;
  readonly kind: string;
  readonly connector: string;
  readonly size: string;
  readonly embed: string;
  readonly hole: string;
  readonly gapLeft: Gap | undefined;
  readonly gapRight: Gap | undefined;
  readonly washer: string;
  readonly shim: string;
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

export type ScheduleState = 'set by hand' | 'proposed' | 'installed' | 'omitted' | 'failed test';

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

/** Walls in walking order and their connectors by station, then girders; what has no place comes last. */
export function scheduleOf(layout: Layout, checked: Checked): Schedule {
  const findings = countByThing(checked);
  const rows = [
    ...layout.walls.flatMap((wall) => wallRows(wall, layout.title.units, findings)),
    ...layout.girders.flatMap((girder) => girderRows(girder, layout.title.units, findings)),
  ];
  return {
    house: layout.title.name ?? 'Untitled layout',
    units: layout.title.units,
    rows: [...rows.filter((row) => row.station !== undefined), ...rows.filter((row) => row.station === undefined)],
    basis: basisOf(layout, checked),
  };
}

function wallRows(wall: Wall, units: LengthUnits, findings: ReadonlyMap<string, number>): readonly ScheduleRow[] {
  const gaps = gapsOf(wall);
  return wall.anchors.map((anchor) => {
    const { left, right } = gaps(anchor);
    const pieces = anchor.station === undefined ? [] : piecesAt(wall, anchor.station);
    return {
      mark: anchor.name,
      wall: wall.name,
      piece: pieces.map((piece) => piece.name).join(', '),
      station: anchor.station,
      ...connectorCells(anchor.connector, anchor.connectorName, units),
      embed: embedOf(anchor, units),
      gapLeft: left,
      gapRight: right,
      shim: readingInWords(anchor.shim, units),
      drill: drillOf(anchor),
      state: stateOf(anchor),
      source: anchor.source,
      findings: findings.get(anchor.id) ?? 0,
    };
  });
}

function girderRows(girder: Girder, units: LengthUnits, findings: ReadonlyMap<string, number>): readonly ScheduleRow[] {
  return girder.posts.flatMap((post) =>
    post.hardware.map((piece) => ({
      mark: piece.name,
      wall: girder.name,
      piece: post.name ?? '',
      station: post.station,
      ...connectorCells(piece.connector, piece.connectorName, units),
      embed: readingInWords(fastenerOf(piece.connector)?.embed, units),
      gapLeft: undefined,
      gapRight: undefined,
      shim: shimOfPostHardware(piece, units),
      drill: '',
      state: 'set by hand',
      source: piece.source,
      findings: findings.get(piece.id) ?? 0,
    })),
  );
}

function countByThing(checked: Checked): ReadonlyMap<string, number> {
  const counts = new Map<string, number>();
  for (const { thing } of checked.findings) if (thing !== undefined) counts.set(thing, (counts.get(thing) ?? 0) + 1);
  return counts;
}

function connectorCells(
  connector: Connector | undefined,
  name: string | undefined,
  units: LengthUnits,
): Pick<ScheduleRow, 'kind' | 'connector' | 'size' | 'hole' | 'washer' | 'valuesFrom'> {
  const fastener = fastenerOf(connector);
  return {
    kind: connector ? kindInWords[connector.kind] : 'not found',
    connector: connector?.name ?? name ?? 'none named',
    size: fastener ? sizeOf(fastener, units) : '',
    hole: [fastener?.hole, fastener?.holeDepth]
      .flatMap((length) => (length ? [formatInches(length, units)] : []))
      .join(' x '),
    washer: washerOf(connector, units),
    valuesFrom: valuesFrom(connector),
  };
}

function valuesFrom(connector: Connector | undefined): string {
  if (!connector) return 'no connector';
  if (connector.demo) return 'demo value';
  return connector.report ?? 'no report given';
}

/** The fastener into concrete is what gets drilled for; a connector without one is known by its first. */
function fastenerOf(connector: Connector | undefined): Fastener | undefined {
  return connector?.fasteners.find((fastener) => fastener.member === 'concrete') ?? connector?.fasteners[0];
}

function sizeOf(fastener: Fastener, units: LengthUnits): string {
  const across = fastener.diameter ? formatInches(fastener.diameter, units) : undefined;
  const nail = fastener.penny === undefined ? undefined : `${fastener.penny}d`;
  const long = fastener.long ? formatInches(fastener.long, units) : undefined;
  const size = [across ?? nail, long].filter((part) => part !== undefined).join(' x ');
  return fastener.count > 1 ? `${fastener.count} of ${size}` : size;
}

function embedOf(anchor: NewAnchor, units: LengthUnits): string {
  return readingInWords(anchor.embed ?? fastenerOf(anchor.connector)?.embed, units);
}

function readingInWords(reading: Reading<Length> | Length | undefined, units: LengthUnits): string {
  if (reading === undefined) return '';
  if (typeof reading === 'number') return formatInches(reading, units);
  return reading.kind === 'unknown' ? 'unknown' : formatInches(reading.value, units);
}

/** The body of a through-bolt is the plate washer under its nut. */
function washerOf(connector: Connector | undefined, units: LengthUnits): string {
  const body = connector?.kind === 'through-bolt' ? connector.body : undefined;
  return body ? `${formatInches(body.wide, units)} x ${formatInches(body.tall, units)}` : '';
}

function shimOfPostHardware(piece: PostHardware, units: LengthUnits): string {
  return [readingInWords(piece.shim, units), piece.bothSides ? 'both sides' : '']
    .filter((part) => part !== '')
    .join(', ');
}

function drillOf(anchor: NewAnchor): string {
  if (anchor.rightAngleDrill) return 'right-angle';
  const kind = anchor.connector?.kind;
  if (kind === 'through-bolt' || kind === 'hold-down') return 'down';
  return kind === 'side-plate' || kind === 'stepped-side-plate' ? 'sideways' : '';
}

function stateOf(anchor: NewAnchor): ScheduleState {
  if (anchor.state === 'failed') return 'failed test';
  if (anchor.state !== 'planned') return anchor.state;
  return anchor.proposed ? 'proposed' : 'set by hand';
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
