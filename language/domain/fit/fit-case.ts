import type { Connector } from '../hardware/connector.ts';
import type { Layout, NewAnchor, SillPiece, Stretch, ThingId, Wall } from '../model/layout.ts';
import type { Reading } from '../model/reading.ts';
import type { SourceSpan } from '../model/source.ts';
import type { Length } from '../units/length.ts';
import { nanometres, zero } from '../units/length.ts';

/** A connector on a board of the sill: the question is where its centre may stand. */
export interface FitCase {
  readonly layout: Layout;
  readonly wall: Wall;
  /** `undefined`: at a place where no board lies. Then nothing is said about the board. */
  readonly piece: SillPiece | undefined;
  readonly connector: Connector;
  readonly shim?: Reading<Length> | undefined;
  readonly rightAngleDrill?: boolean;
  /** Plates on the inside and the outside of the wall. */
  readonly bothSides?: boolean | undefined;
  /** From the inner edge of the sill to the middle of a bolt; without it the middle of the board. */
  readonly offset?: Reading<Length> | undefined;
  /** Where the design asks for another embedment than the connector's own. */
  readonly embed?: Reading<Length> | undefined;
}

/** How a planned anchor is set, as far as it bears on where it fits. */
export const howSet = ({
  shim,
  rightAngleDrill,
  bothSides,
  offset,
  embed,
}: NewAnchor): Pick<FitCase, 'shim' | 'rightAngleDrill' | 'bothSides' | 'offset' | 'embed'> => ({
  shim,
  rightAngleDrill,
  bothSides,
  offset,
  embed,
});

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
  /** Too little concrete between the anchor and a face of the foundation. */
  | 'concrete-edge'
  /** Too little wood between the fastener and an edge of the sill. */
  | 'wood-edge'
  /** A hole from the side would come too near the far face. */
  | 'through-stem'
  | 'step'
  | 'masonry'
  /** Rot, a split, a crack … in the wood or the concrete. */
  | 'defect'
  /** Where an anchor was left out, or failed its test: whatever stopped it is still there. */
  | 'tried-before'
  /** An old anchor that stands there, with its washer and its nut. */
  | 'old-anchor'
  /** The hole of an old anchor that comes out, or one that was drilled and given up. */
  | 'old-hole';

/** What ruling out by a physical thing means for the end windows: studs, defects and sizes are no such thing. */
export const PHYSICAL: ReadonlySet<BlockReason> = new Set<BlockReason>([
  'no-concrete',
  'thing',
  'side-room',
  'neighbour',
  'gas',
  'power',
  'old-anchor',
  'old-hole',
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
  /** What there is, where one number decides: how far a thing stands off the wall. */
  readonly measured?: Length;
  /** What is wanted: room in front, or the distance along the wall that the nearest hole or the body keeps from the thing. */
  readonly wanted?: Length;
  /** The part of the connector that meets it, where it is not the whole: `a lag screw`. */
  readonly part?: string;
  /** The subject of the limit that asks for the distance. */
  readonly subject?: string;
}

/** How near along the wall, where a distance from the thing is wanted; 0 where it stands right there. */
export function distanceAlong({ from, to, wanted = zero }: Blocked, station: Length): Length {
  return nanometres(Math.max(0, wanted - Math.min(station - from, to - station)));
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
