import type { Connector } from '../hardware/connector.ts';
import type { PriceList } from '../hardware/prices.ts';
import type { RulesInForce } from '../rulesets/rule-set.ts';
import type { Length } from '../units/length.ts';
import type { Quantity } from '../units/quantity.ts';
import type { AddedHardware, NailKind, Panel, Remedy, SisterBoard, Tie } from './design.ts';
import type { Profile, Reading } from './reading.ts';
import type { AsBuilt, DayRecord, Issue, MarkState } from './record.ts';
import type { SourceMap, SourceSpan } from './source.ts';

/**
 * One house: what was found, what will be built, and the rules and hardware in force. Plain immutable data.
 * Checks, placement, drawings and documents read this and nothing else.
 */
export interface Layout {
  readonly title: Title;
  readonly house: House;
  /** Perimeter walls in walking order, then interior walls. */
  readonly walls: readonly Wall[];
  readonly lines: readonly ResistanceLine[];
  readonly girders: readonly Girder[];
  readonly spaces: readonly Space[];
  /** By name in lower case. */
  readonly connectors: ReadonlyMap<string, Connector>;
  readonly prices: readonly PriceList[];
  readonly rules: RulesInForce;
  /** Day by day, oldest first; days of one date in text order. */
  readonly record: readonly DayRecord[];
  readonly issues: readonly Issue[];
  readonly questions: readonly Question[];
  /** Every value that is not measured, in text order: outputs count and list what they leaned on. */
  readonly assumptions: readonly Leaning[];
  /** Every `unknown`, in text order: the survey list. */
  readonly unknowns: readonly Leaning[];
  readonly sourceMap: SourceMap;
}

/**
 * Names a thing for findings, drawings and selection; stable while the thing keeps its name:
 * `wall:F`, `F/sill:F1`, `F/anchor:F-8`, `F/vent:V4`, `F/found-anchor:#2` (the second unnamed one), `GD/post:P1`.
 */
export type ThingId = string;

/** What all things have. */
export interface Thing {
  readonly id: ThingId;
  /** As declared; `undefined` where the text gives none. */
  readonly name: string | undefined;
  /** The whole line (or heading). */
  readonly source: SourceSpan;
  readonly tags: Tags;
}

export interface Tags {
  readonly notes: readonly string[];
  readonly photos: readonly number[];
  readonly by: string | undefined;
  readonly dated: string | undefined;
}
export const noTags: Tags = { notes: [], photos: [], by: undefined, dated: undefined };

export interface Title {
  /** `undefined` where there is no title block. */
  readonly name: string | undefined;
  readonly units: LengthUnits;
  readonly face: Face;
  /** Rule sets by name as written, the later wins. Empty: none chosen. */
  readonly ruleSets: readonly NameReference[];
  /** Title-block text; `unknown` where that was written, absent where nothing was. */
  readonly facts: ReadonlyMap<TitleFact, string | 'unknown'>;
  readonly surveyed: DateFact | undefined;
  readonly prepared: DateFact | undefined;
  /** `sheets engineered`: the set goes to an engineer whatever the checks say. */
  readonly engineered: boolean;
  /** Who does the special inspection, where the title block names one. */
  readonly specialInspectionBy?: string;
  /** Notes and photos of the title block, those of a single line with its word before them. */
  readonly tags?: Tags;
  readonly accepted: readonly Acceptance[];
  readonly source: SourceSpan | undefined;
}
export type LengthUnits = 'feet-inches' | 'metric';
export type Face = 'outside' | 'inside';
export type TitleFact =
  | 'address'
  | 'owner'
  | 'jurisdiction'
  | 'permit-number'
  | 'code'
  | 'licence'
  | 'scale'
  | 'special-inspection';
export interface DateFact {
  /** ISO date, or `unknown`. */
  readonly date: string;
  readonly by: string | undefined;
  readonly purpose: string | undefined;
}
export interface NameReference {
  readonly name: string;
  readonly source: SourceSpan;
}

export interface House {
  readonly storeys: Reading<number> | undefined;
  readonly year: Reading<number> | undefined;
  readonly dwellings: Reading<number> | undefined;
  readonly area: Reading<Quantity> | undefined;
  readonly slope: Reading<Quantity> | undefined;
  /** First-floor joist underside above datum. */
  readonly floorUnderside: Reading<Length> | undefined;
  /** Screening words such as `roof composition`; `['unknown']` where that was written. */
  readonly words: ReadonlyMap<string, readonly string[]>;
  readonly seismic: ReadonlyMap<string, Reading<Quantity>>;
  readonly seismicWords: ReadonlyMap<string, string>;
  readonly weights: ReadonlyMap<string, Reading<Quantity>>;
  readonly diagonals: readonly Diagonal[];
  /** Notes and photos, those of a single line with its word before them. */
  readonly tags?: Tags;
  readonly source: SourceSpan | undefined;
}
export interface Diagonal {
  readonly from: Point;
  readonly to: Point;
  readonly taped: Reading<Length>;
  readonly source: SourceSpan;
}

/** Plan position: x east, y north. */
export interface Point {
  readonly x: Length;
  readonly y: Length;
}

/** A stretch of a wall, `from <= to`, from its station 0. */
export interface Stretch {
  readonly from: Length;
  readonly to: Length;
}

export interface Wall extends Thing {
  readonly name: string;
  readonly label: string | undefined;
  readonly role: 'perimeter' | 'interior';
  readonly nameSource: SourceSpan;
  /** As read from the tape; stations are tied to it. */
  readonly taped: Reading<Length> | undefined;
  /** What the closing of the outline made of it; plan geometry uses it. */
  readonly adjusted: Reading<Length> | undefined;
  /** The station axis: the taped length where it is known, else the adjusted one. */
  readonly length: Length | undefined;
  readonly face: Face;
  /** To the right from the wall before, in millionths of a degree: 90 000 000 is a right turn. */
  readonly turn: MicroDegrees;
  /** Ends in plan on the face that the title block names, from the adjusted lengths; station 0 first. */
  readonly plan: { readonly from: Point; readonly to: Point } | undefined;
  /** Storeys above, by stretch; the rest follows from its line, else from the house. */
  readonly storeys: readonly { readonly stretch: Stretch; readonly value: Reading<number> }[];
  readonly foundation: readonly FoundationStretch[];
  readonly pieces: readonly SillPiece[];
  /** The boards as surveyed, where the design puts others in place of some; absent where `pieces` are all as found. */
  readonly foundPieces?: readonly SillPiece[];
  /** Boards and breaks of the sill whose place nobody knows: no check reaches them. */
  readonly unplaced: readonly UnplacedSill[];
  readonly cripples: readonly CrippleStretch[];
  readonly joists: readonly JoistRun[];
  readonly irregularJoists: readonly IrregularJoist[];
  readonly studs: readonly IrregularStud[];
  readonly rims: readonly Rim[];
  readonly blocking: readonly Blocking[];
  /** Free space in front of the wall, written down only where it is tight; each reading holds at its own place. */
  readonly sideRoom: readonly RoomInFront[] | undefined;
  readonly obstructions: readonly Obstruction[];
  readonly defects: readonly Defect[];
  readonly foundAnchors: readonly FoundAnchor[];
  /** Holes that the record says were drilled and given up, where their place is known; absent where there are none. */
  readonly deadHoles?: readonly DeadHole[];
  /** From every `work on` this wall, in order of station; those without a legible station last. */
  readonly anchors: readonly NewAnchor[];
  readonly angles: readonly AngleRun[];
  /** In order of station, those without a legible place last. */
  readonly panels: readonly Panel[];
  readonly ties: readonly Tie[];
  /** What the design does to found things of this wall, in text order. */
  readonly remedies: readonly Remedy[];
  readonly absent: ReadonlySet<string>;
  readonly noWork: NoWork | undefined;
  readonly accepted: readonly Acceptance[];
  /** Where a new line of this wall's design would be written; in text order. */
  readonly workBlocks: readonly WorkBlock[];
}
export type MicroDegrees = number & { readonly [microDegrees]: true };
declare const microDegrees: unique symbol;
export const degrees = (count: number): MicroDegrees => Math.round(count * 1_000_000) as MicroDegrees;

export interface RoomInFront {
  /** `from === to` for a reading at one station. */
  readonly stretch: Stretch;
  readonly room: Reading<Length>;
  readonly source: SourceSpan;
}

export interface UnplacedSill {
  readonly name: string | undefined;
  /** The measurement that would place it: `length of wall F`. */
  readonly wants: string;
  readonly source: SourceSpan;
}

/** `no work because "…"`: deliberately left alone. */
export interface NoWork {
  readonly reason: string;
  readonly source: SourceSpan;
  readonly tags?: Tags;
}

export interface WorkBlock {
  readonly source: SourceSpan;
  readonly headingSource: SourceSpan;
  /** Its `note` and `photo` lines; absent where it has none. */
  readonly tags?: Tags;
}

export type FoundationMaterial = 'concrete' | 'brick' | 'stone' | 'block' | 'wood-posts';
export interface FoundationStretch extends Thing, Stretch {
  readonly material: FoundationMaterial;
  readonly materialSource: SourceSpan | undefined;
  readonly thick: Profile | undefined;
  /** Inside, above ground or floor. */
  readonly showing: Profile | undefined;
  /** Top of the concrete above datum. */
  readonly top: Profile | undefined;
  /** Outside soil, that far below the top. */
  readonly grade: Profile | undefined;
  readonly footing: Profile | undefined;
  readonly strength: Reading<Quantity> | undefined;
  readonly steel: 'reinforced' | 'unreinforced' | 'post-tensioned' | undefined;
  readonly conditions: readonly Condition[];
}
export type Condition =
  | 'sound'
  | 'cracked'
  | 'crumbling'
  | 'soft'
  | 'damp'
  | 'leaning'
  | 'undermined'
  | 'rotten'
  | 'split';

export interface Size {
  /** `2x6` where a nominal size was written. */
  readonly nominal: string | undefined;
  /** True thickness (the smaller as written first) and width; nominal sizes give their dressed size. */
  readonly thick: Reading<Length>;
  readonly wide: Reading<Length>;
  readonly long: Reading<Length> | undefined;
}

export type Joint = 'butt' | 'half-lap' | 'scarf' | 'step' | 'corner' | 'none';

/** One board of the sill, from true end to true end. Boards may overlap (a lap) or leave a hole (a chimney). */
export interface SillPiece extends Thing, Stretch {
  /** Never `undefined`: a board without a name is called by its wall and number, `F(2)`. */
  readonly name: string;
  readonly wall: string;
  readonly size: Size | undefined;
  readonly setBack: Profile | undefined;
  readonly headroom: Profile | undefined;
  /** The joint at the right end. */
  readonly joint: Joint;
  readonly jointLength: Reading<Length> | undefined;
  readonly gap: Reading<Length> | undefined;
  readonly treated: boolean | undefined;
  readonly double: boolean;
  /** The inside face of the board is flush with that of the concrete. */
  readonly flush?: boolean;
  /** At the corner this board runs through and the neighbour's stops at it. */
  readonly runsThrough?: boolean;
  readonly species: string | undefined;
  readonly conditions: readonly Condition[];
  /** `design`: put in by `replace sill`. */
  readonly layer: 'survey' | 'design';
  /** Of the words that say where it lies, `to 16'-0"`; absent where it lies where nothing else does. */
  readonly placeSource?: SourceSpan;
  /** New wood beside this board, from `sister sill`; the old board stays, with its ends and its anchors. */
  readonly sistered?: readonly SisterBoard[];
}

export interface CrippleStretch extends Thing, Stretch {
  readonly height: Profile | undefined;
  readonly studHeight: Profile | undefined;
  readonly ledge: Profile | undefined;
  readonly studSize: Size | undefined;
  readonly spaced: Reading<Length> | undefined;
  readonly first: Reading<Length> | undefined;
  readonly plates: 'single' | 'double' | undefined;
  readonly sheathing: string | undefined;
  readonly trimmers: 'every-opening' | 'unknown' | 'none' | undefined;
  readonly conditions: readonly Condition[];
}

export interface JoistRun extends Thing, Stretch {
  readonly run: 'into' | 'parallel' | undefined;
  readonly size: Size | undefined;
  readonly spaced: Reading<Length> | undefined;
  readonly first: Reading<Length> | undefined;
  readonly last: Reading<Length> | undefined;
  readonly span: Reading<Length> | undefined;
}
export interface IrregularJoist extends Thing {
  readonly station: Length;
  readonly role: 'end-joist' | 'doubled' | 'trimmer' | undefined;
  readonly size: Size | undefined;
}
export interface IrregularStud extends Thing {
  readonly station: Length;
  readonly size: Size | undefined;
  readonly layer: 'survey' | 'design';
  /** Of new studs: placed by the tool. */
  readonly proposed?: boolean;
}
export interface Rim extends Thing, Stretch {
  readonly seen: 'seen' | 'unseen' | 'absent' | undefined;
  readonly size: Size | undefined;
  readonly nails:
    | {
        readonly penny: number;
        readonly kind?: NailKind;
        /** Nails of each block or joist end, where the text counts them. */
        readonly count?: number;
        readonly spaced: Reading<Length> | undefined;
        readonly verified: boolean;
      }
    | 'unknown'
    | 'unseen'
    | undefined;
}
export type Bays =
  | { readonly kind: 'every' | 'odd' | 'even' | 'unknown' | 'none' }
  | { readonly kind: 'numbers'; readonly numbers: readonly number[] };
export interface Blocking extends Thing {
  readonly bays: Bays;
  readonly size: Size | undefined;
  readonly nails?: NonNullable<Rim['nails']>;
  readonly layer: 'survey' | 'design';
  /** Of new blocks: placed by the tool. */
  readonly proposed?: boolean;
}

export type OpeningKind = 'vent' | 'window' | 'door' | 'hatch' | 'chimney';
export type ServiceKind =
  | 'pipe'
  | 'gas-pipe'
  | 'stack'
  | 'conduit'
  | 'duct'
  | 'flue'
  | 'electrical-panel'
  | 'meter'
  | 'water-heater'
  | 'furnace'
  | 'stair'
  | 'obstruction';

/** Something in the way: an opening in the foundation or wall, or a thing in front of it. */
export interface Obstruction extends Thing {
  readonly kind: OpeningKind | ServiceKind;
  readonly label: string | undefined;
  /** `undefined` where the text gives no legible place. */
  readonly stretch: Stretch | undefined;
  readonly placeSource: SourceSpan;
  /** The place is written as its middle and its width. */
  readonly byMiddle?: boolean;
  /** Height zone; `undefined`: not recorded, blocks the full height. */
  readonly zone: Zone | undefined;
  /** Stand-off from the wall; 0 where nothing is said. */
  readonly off: Reading<Length> | undefined;
  readonly deep: Reading<Length> | undefined;
  readonly diameter: Reading<Length> | undefined;
  readonly hub: Reading<Length> | undefined;
  readonly netArea: Reading<Quantity> | undefined;
  readonly words: ReadonlySet<ObstructionWord>;
  /** The design takes it out or moves it elsewhere: drawn as found, and no bar to new work. */
  readonly remedied?: 'removed' | 'relocated';
}
export type ObstructionWord =
  | 'movable'
  | 'fixed'
  | 'riser'
  | 'reaches-sill'
  | 'both-sides'
  | 'single-wall'
  | 'double-wall'
  | 'cast-iron'
  | 'copper'
  | 'live';
export interface Zone {
  readonly near: Reading<Length>;
  readonly far: Reading<Length> | undefined;
  readonly side: 'above' | 'below';
  readonly datum: 'top' | 'joists' | 'soil';
}

export interface Defect extends Thing {
  readonly kind: 'rot' | 'split' | 'crack' | 'cold-joint' | 'notch' | 'insects' | 'spall';
  /** `from === to` for a defect at one station. */
  readonly stretch: Stretch | undefined;
  readonly width: Reading<Length> | undefined;
  readonly depth: Reading<Length> | undefined;
  /** The design repairs it, or replaces or sisters the wood that has it: drawn as found, and no bar to new work. */
  readonly remedied: boolean;
}

export interface FoundAnchor extends Thing {
  readonly station: Length | undefined;
  readonly stationSource: SourceSpan;
  readonly size: Reading<Length> | undefined;
  readonly kind: string | undefined;
  /** As found; the design adds `to-be-removed` or `abandoned`, the record `failed`. */
  readonly states: readonly string[];
  readonly loss: { readonly over: boolean; readonly share: Reading<Quantity> } | undefined;
  readonly washer: string | undefined;
  readonly nut: string | undefined;
  readonly embed: Reading<Length> | undefined;
  readonly offset: Reading<Length> | undefined;
  readonly projects: Reading<Length> | undefined;
  readonly credit: 'none' | 'half' | 'full';
  /** The design puts this plate washer under its nut; `washer` stays as found. */
  readonly newWasher?: Connector;
}

/** A hole that was drilled while building, and given up. */
export interface DeadHole {
  readonly station: Length;
  readonly state: 'open' | 'grouted' | undefined;
  readonly date: string;
  /** Its line in the record. */
  readonly source: SourceSpan;
}

/** A new anchor of any connector kind. */
export interface NewAnchor extends Thing {
  /** The mark: unique in the house, sprayed on the concrete, never renumbered by a tool. */
  readonly name: string;
  readonly nameSource: SourceSpan;
  readonly connectorName: string | undefined;
  readonly connectorSource: SourceSpan | undefined;
  /** `undefined` where the name is not that of any connector in sight. */
  readonly connector: Connector | undefined;
  /** `undefined` where the station cannot be read or resolved: drawn in the tray, never dropped. */
  readonly station: Length | undefined;
  readonly stationSource: SourceSpan | undefined;
  readonly embed: Reading<Length> | undefined;
  readonly offset: Reading<Length> | undefined;
  readonly shim: Reading<Length> | undefined;
  /** Placed by the tool, which may move it; otherwise set by hand. */
  readonly proposed: boolean;
  readonly rightAngleDrill: boolean;
  /** Plates on the inside and the outside of the wall. */
  readonly bothSides?: boolean;
  /** `with …`: another fastener than the connector's own, or one more piece; absent where nothing is added. */
  readonly withHardware?: readonly AddedHardware[];
  readonly state: MarkState;
  /** Where it was really put; absent until the record says that it was installed. */
  readonly asBuilt?: AsBuilt;
}

/** Framing angles of one line of the design: `F-A1.1`, `F-A1.2`, … from left to right. */
export interface AngleRun extends Thing {
  readonly name: string;
  readonly connectorName: string;
  readonly connectorSource: SourceSpan;
  readonly connector: Connector | undefined;
  /** Of their centres, in order. */
  readonly stations: readonly Length[];
  /** What nobody recorded, so that the stations are not all known. */
  readonly lacking: readonly string[];
  readonly shim?: Reading<Length>;
  readonly proposed?: boolean;
  readonly withHardware?: readonly AddedHardware[];
}

export interface ResistanceLine extends Thing {
  readonly name: string;
  readonly label?: string;
  readonly walls: readonly NameReference[];
  readonly storeys: Reading<number> | undefined;
  readonly exempt: { readonly from: 'bracing' | 'anchorage' | 'all'; readonly reason: string } | undefined;
}

export interface Girder extends Thing {
  readonly name: string;
  readonly label?: string;
  readonly size: Size | undefined;
  readonly from: Point | undefined;
  readonly to: Point | undefined;
  readonly underside: Reading<Length> | undefined;
  readonly posts: readonly Post[];
  readonly splices: readonly {
    readonly station: Length;
    readonly words: readonly string[];
    readonly source: SourceSpan;
  }[];
  readonly ends: ReadonlyMap<'start' | 'end', string>;
  /** As read from post to post: a check on the stations of the posts. */
  readonly spans?: readonly Reading<Length>[];
  /** What the design does to posts of this girder, in text order. */
  readonly remedies?: readonly Remedy[];
  readonly noWork?: NoWork;
  /** Written under the girder or its work; no check on girders reads them yet. */
  readonly accepted?: readonly Acceptance[];
  readonly workBlocks?: readonly WorkBlock[];
}
export interface Post extends Thing {
  readonly station: Length | undefined;
  readonly size: Size | undefined;
  readonly height: Reading<Length> | undefined;
  readonly found: ReadonlyMap<'cap' | 'base' | 'pier' | 'footing', readonly string[]>;
  readonly leans: Reading<Length> | undefined;
  /** `leans 1/4" per 1'`: over how much of its height; without it over all of it. */
  readonly leansPer?: Reading<Length>;
  readonly gap: Reading<Length> | undefined;
  /** New hardware: `cap`, `base` lines of `work on` this girder. */
  readonly hardware: readonly PostHardware[];
  /** The design puts another post in its place or takes it out; new hardware stands on what is there then. */
  readonly remedied?: { readonly how: 'removed' } | { readonly how: 'replaced'; readonly size: Size | undefined };
  /** Held up while work goes on. */
  readonly shored?: boolean;
  /** The design gives it a new footing; `found` stays as surveyed. */
  readonly newPad?: boolean;
}
export interface PostHardware extends Thing {
  readonly name: string;
  readonly role: 'cap' | 'base';
  readonly connectorName: string;
  readonly connector: Connector | undefined;
  readonly bothSides: boolean;
  readonly shim: Reading<Length> | undefined;
  readonly nameSource?: SourceSpan;
  readonly connectorSource?: SourceSpan;
  readonly proposed?: boolean;
  readonly withHardware?: readonly AddedHardware[];
  readonly state?: MarkState;
}

export interface Space extends Thing {
  readonly name: string;
  readonly kind: 'crawl' | 'basement' | 'slab' | 'garage' | 'porch' | undefined;
  readonly from: Point | undefined;
  readonly to: Point | undefined;
  readonly clearHeight: Reading<Length> | undefined;
  /** At the other end, where the height changes. */
  readonly clearHeightTo?: Reading<Length>;
  /** The way in: smallest opening, wide by tall. */
  readonly access?: { readonly wide: Reading<Length> | undefined; readonly tall: Reading<Length> | undefined };
}

/** A finding that a person looked at and accepts, with the reason. Never silences a stop. */
export interface Acceptance {
  readonly rule: string;
  readonly on: string | undefined;
  readonly station: Length | undefined;
  readonly reason: string;
  readonly tags: Tags;
  readonly source: SourceSpan;
}

/** `ask "…"`: goes on the survey list. */
export interface Question {
  readonly text: string;
  readonly about: ThingId | undefined;
  /** Who asks, and when; absent where the line does not say. */
  readonly tags?: Tags;
  readonly source: SourceSpan;
}

/** A value that was not measured, in words: `foundation strength, typical`, `set-back of sill F2`. */
export interface Leaning {
  readonly what: string;
  /** As typed: `assume 2000 psi`, `unknown`. */
  readonly typed: string;
  readonly quality: 'scaled' | 'told' | 'assumed' | 'unknown';
  readonly source: SourceSpan;
}
