import type { Reading } from '../model/reading.ts';
import type { SourceSpan } from '../model/source.ts';
import type { Length } from '../units/length.ts';
import type { Quantity } from '../units/quantity.ts';

export type ConnectorKind =
  | 'side-plate'
  | 'stepped-side-plate'
  | 'through-bolt'
  | 'framing-angle'
  | 'post-cap'
  | 'post-base'
  | 'hold-down'
  | 'plate-washer'
  | 'strap'
  | 'shim';

/** What can be bought and fastened, as the hardware file says. Every number is the report's or the user's. */
export interface Connector {
  readonly name: string;
  readonly kind: ConnectorKind;
  /** Invented values: DEMO VALUES on every output, and no issue "for permit". */
  readonly demo: boolean;
  /** The evaluation report that the numbers come from. */
  readonly report: string | undefined;
  readonly fits: readonly Fits[];
  readonly body: Body | undefined;
  /** How far the top of the plate lies below the top of the sill board; 0 unless said. */
  readonly drop: Length | undefined;
  readonly fasteners: readonly Fastener[];
  readonly holes: readonly Holes[];
  readonly capacities: readonly Capacity[];
  readonly metal: string | undefined;
  readonly tools: readonly string[];
  readonly notes: readonly string[];
  readonly source: SourceSpan;
}
export type FitSubject =
  | 'set-back'
  | 'stem'
  | 'showing'
  | 'headroom'
  | 'side-room'
  | 'post-width'
  | 'beam-width'
  | 'stud';
/** Both bounds are inclusive; `undefined`: no bound on that side. */
export interface Fits {
  readonly subject: FitSubject;
  readonly least: Length | undefined;
  readonly most: Length | undefined;
  readonly source: SourceSpan;
}
export interface Body {
  readonly wide: Length;
  readonly tall: Length;
  readonly thick: Length | undefined;
}
export type Member = 'concrete' | 'sill' | 'joist' | 'blocking' | 'post' | 'beam' | 'stud' | 'plate';
export interface Fastener {
  readonly member: Member;
  readonly count: number;
  readonly kind: string;
  /** Diameter; nails may give their penny size instead. */
  readonly diameter: Length | undefined;
  readonly penny: number | undefined;
  readonly long: Length | undefined;
  readonly hole: Length | undefined;
  readonly holeDepth: Length | undefined;
  readonly embed: Length | undefined;
  readonly apart: Length | undefined;
  readonly edge: Length | undefined;
  readonly metal: string | undefined;
  /** The rest of the hole is filled, so that the wood bears on the bolt. */
  readonly filled?: boolean;
}
export interface Holes {
  readonly member: Member;
  /** From the plate's centre, x to the right, y up. */
  readonly points: readonly { readonly x: Length; readonly y: Length }[];
}
export interface Capacity {
  readonly direction: 'along-wall' | 'across-wall' | 'up';
  readonly value: Reading<Quantity>;
  readonly basis: 'allowable' | 'strength';
  readonly species: string | undefined;
  readonly citation: string | undefined;
}

/** Kinds that fasten a sill to its foundation, and so count as anchors of a piece. */
export function anchorsSill(kind: ConnectorKind): boolean {
  return kind === 'side-plate' || kind === 'stepped-side-plate' || kind === 'through-bolt';
}

/** The diameter that a rule set's `bolt` condition compares: that of the fastener into concrete. */
export function anchorDiameter(connector: Connector): Length | undefined {
  return connector.fasteners.find((fastener) => fastener.member === 'concrete')?.diameter;
}

/** Where the screws of a plate go into the sill; empty where the hardware does not say. */
export function holesInSill({ holes }: Connector): Holes['points'] {
  return holes.filter(({ member }) => member === 'sill').flatMap(({ points }) => points);
}
