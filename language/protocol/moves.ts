/**
 * What the pane is told of a connector that a person takes hold of: where it may stand, what is in the way, who stands beside
 * it. Everything that a drag needs is there when it begins. Lengths are whole nanometres from the wall's left end.
 */
export interface ConnectorMoves {
  readonly thing: string;
  readonly mark: string;
  readonly station: number;
  /** The marks of the tape that it is set to, by the unit that its line is written in. */
  readonly step: number;
  readonly units: 'feet-inches' | 'metric';
  /** Of its station; the layout's own where the line says no other. */
  readonly stationUnits: 'feet-inches' | 'metric';
  /** From left to right; they overlap in a lap. */
  readonly boards: readonly MoveBoard[];
}

export interface MoveBoard extends MoveStretch {
  readonly name: string;
  /** Where a connector counts for this board. */
  readonly counts: readonly MoveStretch[];
  /** Where it may stand, in closed stretches: it surely fits. */
  readonly clear: readonly MoveStretch[];
  /** Where it may stand if what nobody measured turns out well. */
  readonly unmeasured: readonly MoveStretch[];
  /** Parts of the clear ones in which the distances to ends and neighbours are kept too. */
  readonly kept: readonly MoveStretch[];
  /** Where a placement would set it. */
  readonly best: readonly number[];
  /** What rules it out, each by one thing, in open stretches that may overlap. */
  readonly inTheWay: readonly NamedStretch[];
  /** What could rule it out, in open stretches. */
  readonly lacking: readonly NamedStretch[];
  /** The stretches between the clear ones, with everything that is in the way there. */
  readonly blocked: readonly (MoveStretch & { readonly words: readonly string[] })[];
  /** Open stretches in which gas or power is near: the drill waits until both sides are exposed. */
  readonly services: readonly MoveStretch[];
  /** The other anchors of this board, from left to right. */
  readonly others: readonly MoveNeighbour[];
  readonly left: MoveLimits;
  readonly right: MoveLimits;
}
export interface MoveStretch {
  readonly from: number;
  readonly to: number;
}
export interface NamedStretch extends MoveStretch {
  readonly words: string;
}
/** How near and how far the next anchor or the end may be; `null` where no limit is known. */
export interface MoveLimits {
  readonly least: number | null;
  readonly most: number | null;
}
export interface MoveNeighbour extends MoveLimits {
  readonly name: string;
  readonly station: number;
}

export type MovesAnswer =
  | { readonly kind: 'moves'; readonly revision: number; readonly moves: ConnectorMoves }
  /** It stays where it is, and why; where it could stand may be known all the same. */
  | {
      readonly kind: 'fixed';
      readonly revision: number;
      readonly reason: string;
      readonly moves: ConnectorMoves | null;
    };

/** What became of an edit that was asked for from the pane. */
export type EditAnswer =
  | { readonly kind: 'done'; readonly words: string }
  /** Nothing was changed. */
  | { readonly kind: 'refused'; readonly reason: string };

/** Reads an answer that another window may have forged: what is not one is `undefined`. */
export function readMovesAnswer(value: unknown): MovesAnswer | undefined {
  if (!isRecord(value) || !isWhole(value.revision)) return undefined;
  const { kind, revision } = value;
  const moves = value.moves === null ? null : readMoves(value.moves);
  if (moves === undefined) return undefined;
  if (kind === 'fixed') return isText(value.reason) ? { kind, revision, reason: value.reason, moves } : undefined;
  return kind === 'moves' && moves ? { kind, revision, moves } : undefined;
}

export function readEditAnswer(value: unknown): EditAnswer | undefined {
  if (!isRecord(value)) return undefined;
  if (value.kind === 'done' && isText(value.words)) return { kind: 'done', words: value.words };
  if (value.kind === 'refused' && isText(value.reason)) return { kind: 'refused', reason: value.reason };
  return undefined;
}

function readMoves(value: unknown): ConnectorMoves | undefined {
  if (!isRecord(value)) return undefined;
  const { thing, mark, station, step, units, stationUnits } = value;
  if (!isText(thing) || !isText(mark) || !isWhole(station) || !isWhole(step) || step <= 0) return undefined;
  if (!isUnits(units) || !isUnits(stationUnits)) return undefined;
  const boards = listOf(value.boards, readBoard);
  return boards && { thing, mark, station, step, units, stationUnits, boards };
}

function readBoard(value: unknown): MoveBoard | undefined {
  const whole = readStretch(value);
  if (!whole || !isRecord(value) || !isText(value.name)) return undefined;
  const counts = listOf(value.counts, readStretch);
  const clear = listOf(value.clear, readStretch);
  const unmeasured = listOf(value.unmeasured, readStretch);
  const kept = listOf(value.kept, readStretch);
  const best = listOf(value.best, (each) => (isWhole(each) ? each : undefined));
  const inTheWay = listOf(value.inTheWay, readNamed);
  const lacking = listOf(value.lacking, readNamed);
  const blocked = listOf(value.blocked, readHole);
  const services = listOf(value.services, readStretch);
  const others = listOf(value.others, readNeighbour);
  const left = readLimits(value.left);
  const right = readLimits(value.right);
  if (!counts || !clear || !unmeasured || !kept || !best || !inTheWay || !lacking) return undefined;
  if (!blocked || !services || !others || !left || !right) return undefined;
  const room = { counts, clear, unmeasured, kept, best, inTheWay, lacking, blocked, services };
  return { name: value.name, ...whole, ...room, others, left, right };
}

function readStretch(value: unknown): MoveStretch | undefined {
  if (!isRecord(value) || !isWhole(value.from) || !isWhole(value.to) || value.to < value.from) return undefined;
  return { from: value.from, to: value.to };
}

function readNamed(value: unknown): NamedStretch | undefined {
  const stretch = readStretch(value);
  return stretch && isRecord(value) && isText(value.words) ? { ...stretch, words: value.words } : undefined;
}

function readHole(value: unknown): (MoveStretch & { readonly words: readonly string[] }) | undefined {
  const stretch = readStretch(value);
  const words = isRecord(value) ? listOf(value.words, (each) => (isText(each) ? each : undefined)) : undefined;
  return stretch && words && { ...stretch, words };
}

function readLimits(value: unknown): MoveLimits | undefined {
  if (!isRecord(value)) return undefined;
  const { least, most } = value;
  return isWholeOrNull(least) && isWholeOrNull(most) ? { least, most } : undefined;
}

function readNeighbour(value: unknown): MoveNeighbour | undefined {
  const limits = readLimits(value);
  if (!limits || !isRecord(value) || !isText(value.name) || !isWhole(value.station)) return undefined;
  return { name: value.name, station: value.station, ...limits };
}

/** More than any wall has, and little enough to draw. */
const MOST_ENTRIES = 5000;
const LONGEST_TEXT = 2000;

function listOf<Item>(value: unknown, read: (each: unknown) => Item | undefined): readonly Item[] | undefined {
  if (!Array.isArray(value) || value.length > MOST_ENTRIES) return undefined;
  const items: Item[] = [];
  for (const each of value as readonly unknown[]) {
    const item = read(each);
    if (item === undefined) return undefined;
    items.push(item);
  }
  return items;
}

const isUnits = (value: unknown): value is 'feet-inches' | 'metric' => value === 'feet-inches' || value === 'metric';
const isText = (value: unknown): value is string => typeof value === 'string' && value.length <= LONGEST_TEXT;
const isWhole = (value: unknown): value is number => typeof value === 'number' && Number.isSafeInteger(value);
const isWholeOrNull = (value: unknown): value is number | null => value === null || isWhole(value);
const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
