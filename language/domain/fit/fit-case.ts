import type { Connector } from '../hardware/connector.ts';
import type { Layout, SillPiece, Stretch, ThingId, Wall } from '../model/layout.ts';
import type { Reading } from '../model/reading.ts';
import type { SourceSpan } from '../model/source.ts';
import type { Length } from '../units/length.ts';

/** A connector on a board of the sill: the question is where its centre may stand. */
export interface FitCase {
  readonly layout: Layout;
  readonly wall: Wall;
  /** `undefined`: at a place where no board lies. Then nothing is said about the board. */
  readonly piece: SillPiece | undefined;
  readonly connector: Connector;
  readonly shim?: Reading<Length> | undefined;
  readonly rightAngleDrill?: boolean;
}

export type BlockReason =
  /** The body would stand over the end of the board. */
  | 'joint'
  /** A hole would find no concrete, or too little beside an opening. */
  | 'no-concrete'
  /** The body would meet a thing. */
  | 'thing'
  /** Nothing to drill with fits in front. */
  | 'side-room'
  /** The concrete of the wall round the corner is in the way. */
  | 'neighbour'
  | 'gas'
  | 'power'
  | 'stud'
  | 'set-back'
  | 'headroom'
  | 'concrete-low'
  | 'stem'
  | 'step'
  | 'masonry'
  /** Rot, a split, a crack … in the wood or the concrete. */
  | 'defect'
  /** Where an anchor was left out, or failed its test: whatever stopped it is still there. */
  | 'tried-before';

/** What ruling out by a physical thing means for the end windows: studs, defects and sizes are no such thing. */
export const PHYSICAL: ReadonlySet<BlockReason> = new Set<BlockReason>([
  'no-concrete',
  'thing',
  'side-room',
  'neighbour',
  'gas',
  'power',
  'tried-before',
]);

/** Centres ruled out by one thing: every station strictly between `from` and `to`. Touching is allowed. */
export interface Blocked extends Stretch {
  readonly reason: BlockReason;
  readonly thing: ThingId | undefined;
  /** The line that speaks of the thing. */
  readonly span: SourceSpan | undefined;
  /** Names the thing and its place: `vent V5 26'-0" to 27'-4"`. */
  readonly words: string;
  /** A gas or power service stands here: locate and expose before drilling. */
  readonly service: 'gas' | 'power' | undefined;
}

/** Centres of which nobody can tell, for want of a measurement: every station strictly between `from` and `to`. */
export interface Lacking extends Stretch {
  /** What the measurement could turn out to be. */
  readonly reason: BlockReason;
  /** For example `set-back of sill F2`. */
  readonly wants: string;
  readonly thing: ThingId;
  readonly span: SourceSpan;
}

/** Where blocked and lacking stretches are put down. */
export interface FitNotes {
  block(blocked: Blocked): void;
  lacks(lacking: Lacking): void;
}
