import type { Connector } from '../hardware/connector.ts';
import type { Length } from '../units/length.ts';
import type { NameReference, Size, Stretch, Thing, ThingId } from './layout.ts';
import type { Reading } from './reading.ts';
import type { AsBuilt, MarkState } from './record.ts';
import type { SourceSpan } from './source.ts';

/** New work beside anchors and angles: panels, ties, and remedies of what was found. Every piece of new work has a mark. */

export type NailKind = 'common' | 'box' | 'sinker' | 'cooler' | 'ring-shank';

/** Structural sheathing over the studs of a cripple wall. */
export interface Panel extends Thing {
  readonly name: string;
  readonly nameSource: SourceSpan;
  /** `undefined` where the text gives no legible place. */
  readonly stretch: Stretch | undefined;
  readonly stretchSource: SourceSpan;
  readonly board: { readonly kind: 'plywood' | 'OSB'; readonly thick: Reading<Length> | undefined } | undefined;
  readonly nails: PanelNailing | undefined;
  /** Blocks on the sill between the studs, where the sill is wider than they are; `none` where the design says so. */
  readonly nailers: PanelNailers | 'none' | undefined;
  readonly ventHoles: PanelVentHoles | 'none' | undefined;
  /** Backing of a horizontal joint; `undefined` also where its size is not said. */
  readonly flatBlock: Size | undefined;
  /** A horizontal joint gets a flat block, of whatever size. */
  readonly flatBlocked?: boolean;
  /** From the foot of the sill; without it the studs and plates of the cripple wall. */
  readonly height: Reading<Length> | undefined;
  readonly proposed: boolean;
  readonly state: MarkState;
}
export interface PanelNailing {
  /** Penny size, 8 for `8d`. */
  readonly penny: number | undefined;
  readonly kind: NailKind | undefined;
  readonly edge: Reading<Length> | undefined;
  readonly field: Reading<Length> | undefined;
}
export interface PanelNailers {
  readonly size: Size | undefined;
  /** Nails of each block. */
  readonly nails:
    | { readonly count: number | undefined; readonly penny: number | undefined; readonly kind?: NailKind }
    | undefined;
  /** Stops short of the bolts; otherwise a bolt's nut stands on the nailer. */
  readonly clear: boolean;
}
export interface PanelVentHoles {
  readonly diameter: Reading<Length> | undefined;
  readonly pattern: 'top-and-bottom' | 'one' | undefined;
}

/** A hold-down at a panel's end, or a strap across a top-plate joint. */
export interface Tie extends Thing {
  readonly kind: 'hold-down' | 'strap';
  readonly name: string;
  readonly nameSource: SourceSpan;
  readonly connectorName: string | undefined;
  readonly connectorSource: SourceSpan | undefined;
  readonly connector: Connector | undefined;
  readonly station: Length | undefined;
  readonly stationSource: SourceSpan | undefined;
  readonly member: 'single-stud' | 'double-stud' | 'post' | undefined;
  readonly embed: Reading<Length> | undefined;
  readonly offset: Reading<Length> | undefined;
  readonly shim: Reading<Length> | undefined;
  readonly rightAngleDrill?: boolean;
  readonly bothSides?: boolean;
  readonly withHardware?: readonly AddedHardware[];
  readonly proposed: boolean;
  readonly state: MarkState;
  /** Where it was really put; absent until the record says that it was installed. */
  readonly asBuilt?: AsBuilt;
}

/** `with washer-3`, `with wedge-anchor`: what comes with a piece of new work. */
export interface AddedHardware {
  readonly name: string;
  readonly source: SourceSpan;
  /** One more piece from the hardware file. */
  readonly connector: Connector | undefined;
  /** Another kind of fastener into the concrete than the connector's own; in small letters. */
  readonly fastenerKind: string | undefined;
}

/** New wood nailed beside an old sill board. */
export interface SisterBoard extends Stretch {
  readonly size: Size | undefined;
  readonly treated: boolean | undefined;
  readonly species: string | undefined;
  readonly source: SourceSpan;
}

/**
 * What the design does to something found. The survey stays as it was; the things of the wall carry the effect
 * (`Obstruction.remedied`, `Defect.remedied`, `FoundAnchor.states` and `.newWasher`, new boards in `Wall.pieces`,
 * `SillPiece.sistered`, `Post.remedied`), and rules read those.
 */
export type Remedy = ReplaceWood | TreatThing;

/** `replace sill E1 0" to 6'-0" 2x6 …`, `sister sill …`, `replace post P5 6x6`, `replace joist 4'-0"`, `replace stud …`. */
export interface ReplaceWood extends Thing {
  readonly verb: 'replace' | 'sister';
  readonly what: 'sill' | 'post' | 'joist' | 'stud';
  /** The found board or post; `undefined` where the line gives only a place. */
  readonly target: ThingId | undefined;
  readonly stretch: Stretch | undefined;
  readonly size: Size | undefined;
  readonly treated?: boolean;
  readonly species?: string;
}
/**
 * `remove X4` comes out · `grout X4` is abandoned and its hole filled · `relocate GP` by the licensed trade or the owner ·
 * `repair CJ` · `washer X5 washer-3` · `shore P5` while work goes on · `pad P5` gets a new footing.
 */
export interface TreatThing extends Thing {
  readonly verb: 'remove' | 'grout' | 'relocate' | 'repair' | 'washer' | 'shore' | 'pad';
  readonly on: NameReference;
  /** `undefined` where nothing in sight has that name. */
  readonly target: ThingId | undefined;
  readonly connectorName: string | undefined;
  readonly connector: Connector | undefined;
  /** Gas or power, or an appliance that may burn gas: by the licensed trade or the utility. */
  readonly byLicensedTrade?: boolean;
}
