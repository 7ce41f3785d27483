import type { Connector } from '../domain/hardware/connector.ts';
import type { PriceList } from '../domain/hardware/prices.ts';
import type { PanelNailers, PanelNailing, PanelVentHoles, Remedy, Tie } from '../domain/model/design.ts';
import type {
  Acceptance,
  Bays,
  Condition,
  DateFact,
  Defect,
  Face,
  FoundAnchor,
  FoundationMaterial,
  Joint,
  LengthUnits,
  MicroDegrees,
  NameReference,
  NoWork,
  Obstruction,
  Point,
  Rim,
  Size,
  Space,
  Tags,
  TitleFact,
} from '../domain/model/layout.ts';
import type { Reading } from '../domain/model/reading.ts';
import type {
  DeadHoleEvent,
  DiscoveredEvent,
  InspectedEvent,
  InstalledEvent,
  Issue,
  OmittedEvent,
  TestedEvent,
} from '../domain/model/record.ts';
import type { SourceSpan } from '../domain/model/source.ts';
import type { RuleSet } from '../domain/rulesets/rule-set.ts';
import type { Length } from '../domain/units/length.ts';
import type { Quantity } from '../domain/units/quantity.ts';

/**
 * What one block says by itself, before its stations are resolved and `typical`, other layers and other files are brought in.
 * It depends on nothing but the block's text, so it is kept as long as that text stays.
 */
export type BlockDraft =
  | { readonly kind: 'nothing' }
  | UseDraft
  | TitleDraft
  | HouseDraft
  | LineDraft
  | TypicalDraft
  | SpaceDraft
  | WallDraft
  | GirderDraft
  | WorkDraft
  | RecordDraft
  | IssueDraft
  | PricesDraft
  | { readonly kind: 'connector'; readonly connector: Connector; readonly nameSource: SourceSpan }
  | { readonly kind: 'ruleset'; readonly ruleSet: RuleSet; readonly nameSource: SourceSpan };

export interface UseDraft {
  readonly kind: 'use';
  readonly path: string;
  readonly pathSource: SourceSpan;
}

export interface TitleDraft {
  readonly kind: 'layout';
  readonly name: string;
  readonly source: SourceSpan;
  readonly facts: ReadonlyMap<TitleFact, string>;
  readonly units: LengthUnits | undefined;
  readonly face: Face | undefined;
  readonly ruleSets: readonly NameReference[];
  readonly surveyed: DateFact | undefined;
  readonly prepared: DateFact | undefined;
  readonly engineered: boolean;
  readonly inspectionBy: string | undefined;
  readonly tags: Tags;
  readonly accepted: readonly AcceptanceDraft[];
  readonly questions: readonly QuestionDraft[];
}

/** `house`, `seismic` and `weights` blocks: facts by name. */
export interface HouseDraft {
  readonly kind: 'house';
  readonly source: SourceSpan;
  readonly facts: ReadonlyMap<string, Reading<Quantity>>;
  readonly floorUnderside: Reading<Length> | undefined;
  readonly words: ReadonlyMap<string, readonly string[]>;
  /** Where each fact and word of this block stands. */
  readonly sources: ReadonlyMap<string, SourceSpan>;
  readonly tags: Tags;
  readonly seismic: ReadonlyMap<string, Reading<Quantity>>;
  readonly seismicWords: ReadonlyMap<string, string>;
  readonly weights: ReadonlyMap<string, Reading<Quantity>>;
  readonly diagonals: readonly {
    readonly from: Point;
    readonly to: Point;
    readonly taped: Reading<Length>;
    readonly source: SourceSpan;
  }[];
  readonly questions: readonly QuestionDraft[];
}

export interface LineDraft {
  readonly kind: 'line';
  readonly name: string;
  readonly label: string | undefined;
  readonly source: SourceSpan;
  readonly walls: readonly NameReference[];
  readonly storeys: Reading<number> | undefined;
  readonly exempt: { readonly from: 'bracing' | 'anchorage' | 'all'; readonly reason: string } | undefined;
  readonly tags: Tags;
}

export interface TypicalDraft {
  readonly kind: 'typical';
  readonly foundation: FoundationWords;
  readonly sill: SillWords;
  readonly cripple: CrippleWords;
  readonly joists: JoistWords;
  readonly rim: RimWords;
  /** For walls that say nothing of blocking. */
  readonly blocking: WallDraft['blocking'];
  readonly tags: Tags;
  /** For panels that do not say otherwise. */
  readonly panel: PanelWords;
  /** On the `panel` line: they speak of every panel. */
  readonly panelTags: Tags;
}

export interface SpaceDraft {
  readonly kind: 'space';
  readonly space: Space;
}

// ---- places

export type StationDraft =
  | { readonly kind: 'from-left' | 'from-right'; readonly amount: Reading<Length>; readonly source: SourceSpan }
  | { readonly kind: 'start' | 'end'; readonly source: SourceSpan }
  | {
      readonly kind: 'beside';
      readonly side: 'left' | 'right';
      readonly amount: Reading<Length>;
      readonly of: NameReference;
      readonly source: SourceSpan;
    }
  /** Half typed or without a unit: its problem has been said. */
  | { readonly kind: 'illegible'; readonly source: SourceSpan };

export interface SpanDraft {
  /** `undefined`: where the stretch of its kind above ended. */
  readonly from: StationDraft | undefined;
  readonly to: StationDraft;
  readonly source: SourceSpan;
}

export type WhereDraft =
  | { readonly kind: 'span'; readonly span: SpanDraft }
  /** `at S, S wide W`: each station is a thing of its own. */
  | {
      readonly kind: 'at';
      readonly stations: readonly StationDraft[];
      readonly width: Reading<Length> | undefined;
      readonly source: SourceSpan;
    };

export interface VaryingDraft {
  readonly first: Reading<Length>;
  readonly last: Reading<Length> | undefined;
}

export interface LineOf<Words> {
  readonly name: NameReference | undefined;
  readonly span: SpanDraft | undefined;
  readonly words: Words;
  readonly tags: Tags;
  readonly source: SourceSpan;
}

// ---- attributes; an absent key was not written

export interface FoundationWords {
  readonly material?: FoundationMaterial;
  readonly materialSource?: SourceSpan;
  readonly thick?: VaryingDraft;
  readonly showing?: VaryingDraft;
  readonly top?: VaryingDraft;
  readonly grade?: VaryingDraft;
  readonly footing?: VaryingDraft;
  readonly strength?: Reading<Quantity>;
  readonly steel?: 'reinforced' | 'unreinforced' | 'post-tensioned';
  readonly conditions?: readonly Condition[];
}
export interface SillWords {
  readonly size?: Size;
  readonly setBack?: VaryingDraft;
  readonly headroom?: VaryingDraft;
  readonly joint?: Exclude<Joint, 'none'>;
  readonly jointLength?: Reading<Length>;
  readonly gap?: Reading<Length>;
  readonly treated?: boolean;
  readonly double?: boolean;
  readonly flush?: boolean;
  readonly runsThrough?: boolean;
  readonly species?: string;
  readonly conditions?: readonly Condition[];
}
export interface CrippleWords {
  readonly height?: VaryingDraft;
  readonly studHeight?: VaryingDraft;
  readonly ledge?: VaryingDraft;
  readonly studSize?: Size;
  readonly spaced?: Reading<Length>;
  readonly first?: Reading<Length>;
  readonly plates?: 'single' | 'double';
  readonly sheathing?: string;
  readonly trimmers?: 'every-opening' | 'unknown' | 'none';
  readonly conditions?: readonly Condition[];
}
export interface JoistWords {
  readonly run?: 'into' | 'parallel';
  readonly size?: Size;
  readonly spaced?: Reading<Length>;
  readonly first?: Reading<Length>;
  readonly last?: Reading<Length>;
  readonly span?: Reading<Length>;
}
export interface RimWords {
  readonly seen?: 'seen' | 'unseen' | 'absent';
  readonly size?: Size;
  readonly nails?: NonNullable<Rim['nails']>;
}

export interface WallDraft {
  readonly kind: 'wall';
  readonly name: string;
  readonly nameSource: SourceSpan;
  readonly label: string | undefined;
  readonly source: SourceSpan;
  readonly taped: Reading<Length> | undefined;
  readonly adjusted: Reading<Length> | undefined;
  readonly face: Face | undefined;
  readonly turn: MicroDegrees | undefined;
  readonly faces: MicroDegrees | undefined;
  readonly from: Point | undefined;
  readonly to: Point | undefined;
  readonly interior: boolean;
  readonly storeys: readonly { readonly span: SpanDraft | undefined; readonly value: Reading<number> }[];
  readonly foundation: readonly LineOf<FoundationWords>[];
  readonly sills: readonly LineOf<SillWords>[];
  readonly breaks: readonly { readonly at: StationDraft; readonly words: SillWords; readonly source: SourceSpan }[];
  readonly cripples: readonly LineOf<CrippleWords>[];
  readonly joists: readonly LineOf<JoistWords>[];
  readonly rims: readonly LineOf<RimWords>[];
  readonly irregularJoists: readonly {
    readonly at: StationDraft;
    readonly role: 'end-joist' | 'doubled' | 'trimmer' | undefined;
    readonly size: Size | undefined;
    readonly tags: Tags;
    readonly source: SourceSpan;
  }[];
  readonly studs: readonly {
    readonly at: StationDraft;
    readonly size: Size | undefined;
    readonly tags: Tags;
    readonly source: SourceSpan;
  }[];
  readonly blocking: readonly {
    readonly bays: Bays;
    readonly size: Size | undefined;
    readonly nails?: NonNullable<Rim['nails']>;
    readonly tags: Tags;
    readonly source: SourceSpan;
  }[];
  readonly readings: readonly {
    readonly key: 'set-back' | 'headroom' | 'grade' | 'side-room';
    readonly value: Reading<Length>;
    readonly where: WhereDraft;
    readonly source: SourceSpan;
  }[];
  readonly obstructions: readonly ObstructionDraft[];
  readonly defects: readonly DefectDraft[];
  readonly foundAnchors: readonly FoundAnchorDraft[];
  readonly absent: readonly string[];
  readonly accepted: readonly AcceptanceDraft[];
  readonly questions: readonly QuestionDraft[];
  readonly tags: Tags;
}

/** What the survey says of a thing does not wait for its place. */
export interface ObstructionDraft
  extends Pick<
    Obstruction,
    'kind' | 'label' | 'zone' | 'off' | 'deep' | 'diameter' | 'hub' | 'netArea' | 'words' | 'tags' | 'source'
  > {
  readonly name: NameReference | undefined;
  readonly where: WhereDraft;
}
export interface DefectDraft extends Pick<Defect, 'kind' | 'width' | 'depth' | 'tags' | 'source'> {
  readonly name: NameReference | undefined;
  readonly where: WhereDraft;
}
export interface FoundAnchorDraft {
  readonly name: NameReference | undefined;
  readonly stations: readonly StationDraft[];
  readonly anchor: Pick<
    FoundAnchor,
    'size' | 'kind' | 'states' | 'loss' | 'washer' | 'nut' | 'embed' | 'offset' | 'projects' | 'credit'
  >;
  readonly tags: Tags;
  readonly source: SourceSpan;
}

export interface AcceptanceDraft extends Omit<Acceptance, 'station'> {
  readonly at: StationDraft | undefined;
}
export interface QuestionDraft {
  readonly text: string;
  readonly tags?: Tags;
  readonly source: SourceSpan;
}

export interface GirderDraft {
  readonly kind: 'girder';
  readonly name: string;
  readonly label: string | undefined;
  readonly source: SourceSpan;
  readonly size: Size | undefined;
  readonly from: Point | undefined;
  readonly to: Point | undefined;
  readonly underside: Reading<Length> | undefined;
  readonly posts: readonly {
    readonly name: NameReference | undefined;
    readonly at: StationDraft;
    readonly size: Size | undefined;
    readonly height: Reading<Length> | undefined;
    readonly found: ReadonlyMap<'cap' | 'base' | 'pier' | 'footing', readonly string[]>;
    readonly leans: Reading<Length> | undefined;
    readonly leansPer: Reading<Length> | undefined;
    readonly gap: Reading<Length> | undefined;
    readonly tags: Tags;
    readonly source: SourceSpan;
  }[];
  readonly splices: readonly {
    readonly at: StationDraft;
    readonly words: readonly string[];
    readonly source: SourceSpan;
  }[];
  readonly ends: ReadonlyMap<'start' | 'end', string>;
  readonly spans: readonly Reading<Length>[];
  readonly questions: readonly QuestionDraft[];
  readonly accepted: readonly AcceptanceDraft[];
  readonly tags: Tags;
}

export interface WorkDraft {
  readonly kind: 'work';
  readonly on: NameReference;
  readonly source: SourceSpan;
  readonly headingSource: SourceSpan;
  readonly anchors: readonly NewAnchorDraft[];
  readonly angles: readonly AnglesDraft[];
  readonly studs: readonly (WallDraft['studs'][number] & { readonly proposed: boolean })[];
  readonly blocking: readonly (WallDraft['blocking'][number] & { readonly proposed: boolean })[];
  readonly panels: readonly PanelDraft[];
  readonly ties: readonly TieDraft[];
  readonly postHardware: readonly PostHardwareDraft[];
  readonly replacements: readonly ReplacementDraft[];
  readonly treatments: readonly TreatmentDraft[];
  readonly noWork: NoWork | undefined;
  readonly accepted: readonly AcceptanceDraft[];
  readonly questions: readonly QuestionDraft[];
  /** Its `note` and `photo` lines. */
  readonly tags: Tags;
}

/** What lines of new work may say beside their place. */
export interface NewWorkWords {
  readonly embed: Reading<Length> | undefined;
  readonly offset: Reading<Length> | undefined;
  readonly shim: Reading<Length> | undefined;
  readonly proposed: boolean;
  readonly rightAngleDrill: boolean;
  readonly bothSides: boolean;
  readonly withHardware: readonly NameReference[];
}
export interface NewAnchorDraft extends NewWorkWords {
  readonly name: NameReference;
  readonly connector: NameReference | undefined;
  readonly at: StationDraft | undefined;
  readonly tags: Tags;
  readonly source: SourceSpan;
}
export interface TieDraft extends NewAnchorDraft {
  readonly kind: Tie['kind'];
  readonly member: Tie['member'];
}
export interface PostHardwareDraft extends Pick<NewWorkWords, 'shim' | 'proposed' | 'bothSides' | 'withHardware'> {
  readonly role: 'cap' | 'base';
  readonly name: NameReference;
  readonly connector: NameReference;
  readonly on: NameReference;
  readonly tags: Tags;
  readonly source: SourceSpan;
}

export interface PanelWords {
  readonly board?: { readonly kind: 'plywood' | 'OSB'; readonly thick: Reading<Length> | undefined };
  readonly nails?: PanelNailing;
  readonly nailers?: PanelNailers | 'none';
  readonly ventHoles?: PanelVentHoles | 'none';
  readonly flatBlock?: { readonly size: Size | undefined };
  readonly height?: Reading<Length>;
}
/** Its name is always there. */
export interface PanelDraft extends LineOf<PanelWords> {
  readonly name: NameReference;
  readonly proposed: boolean;
}

/** `replace sill E1 0" to 6'-0" …`, `sister …`; of a joist or stud each place is a line of its own. */
export interface ReplacementDraft {
  readonly verb: 'replace' | 'sister';
  readonly what: 'sill' | 'post' | 'joist' | 'stud';
  readonly name: NameReference | undefined;
  readonly where: WhereDraft | undefined;
  readonly words: SillWords;
  readonly tags: Tags;
  readonly source: SourceSpan;
}
/** `remove X4`, `washer X5 washer-3`. */
export interface TreatmentDraft {
  readonly verb: Exclude<Remedy['verb'], 'replace' | 'sister'>;
  readonly on: NameReference;
  readonly connector: NameReference | undefined;
  readonly tags: Tags;
  readonly source: SourceSpan;
}

export interface AnglesDraft {
  readonly name: NameReference;
  readonly connector: NameReference;
  /** Without it the whole wall. */
  readonly span: SpanDraft | undefined;
  readonly placing:
    | { readonly kind: 'bays'; readonly bays: Bays }
    | { readonly kind: 'at'; readonly stations: readonly StationDraft[] }
    | { readonly kind: 'spaced'; readonly spaced: Reading<Length> };
  readonly shim: Reading<Length> | undefined;
  readonly proposed: boolean;
  readonly withHardware: readonly NameReference[];
  readonly tags: Tags;
  readonly source: SourceSpan;
}

/** What was done on one day, with places as written. */
export interface RecordDraft {
  readonly kind: 'record';
  readonly date: string;
  readonly by: string | undefined;
  readonly events: readonly RecordEventDraft[];
  readonly tags: Tags;
  readonly source: SourceSpan;
}
export type RecordEventDraft =
  | InstalledDraft
  | OmittedEvent
  | TestedEvent
  | InspectedEvent
  | DiscoveredDraft
  | DeadHoleDraft;
export interface InstalledDraft extends Omit<InstalledEvent, 'place'> {
  readonly place:
    | { readonly kind: 'as-planned' }
    | { readonly kind: 'unknown' }
    | { readonly kind: 'at'; readonly at: StationDraft };
}
export interface DiscoveredDraft extends Omit<DiscoveredEvent, 'stretch'> {
  readonly where: WhereDraft | undefined;
}
export interface DeadHoleDraft extends Omit<DeadHoleEvent, 'station'> {
  readonly at: StationDraft | undefined;
}

export interface IssueDraft {
  readonly kind: 'issue';
  readonly issue: Issue;
}
export interface PricesDraft {
  readonly kind: 'prices';
  readonly prices: PriceList;
}
