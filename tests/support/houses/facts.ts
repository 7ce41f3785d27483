import type { Outline } from './outline.ts';
/** What was built, as plain data: all lengths in nanometres, stations from a wall's left end. */
export interface HouseFacts {
  readonly seed: number;
  readonly units: 'feet-inches' | 'metric';
  readonly face: 'outside' | 'inside';
  readonly storeys: 1 | 2;
  /** First-floor joist underside above datum. */
  readonly floorUnderside: number;
  readonly sill: Timber;
  readonly stud: Timber;
  /** Left ends of the perimeter walls in plan, in walking order, to the nearest nanometre. */
  readonly vertices: readonly { readonly x: number; readonly y: number }[];
  /** In walking order. */
  readonly walls: readonly WallFacts[];
  readonly interior: readonly { readonly name: string; readonly from: PointFacts; readonly to: PointFacts }[];
  readonly girders: readonly GirderFacts[];
  /** Everything written about the house as a whole was measured, and `typical` was not used. */
  readonly plain: boolean;
}
export interface PointFacts {
  readonly x: number;
  readonly y: number;
}
export interface Timber {
  readonly thick: number;
  readonly wide: number;
  /** `2x6`, where it has its dressed size. */
  readonly nominal: string | undefined;
}
export interface WallFacts {
  readonly name: string;
  /** As taped: the station axis. */
  readonly length: number;
  /** What the outline uses; the taped length unless the wall says `adjusted`. */
  readonly adjusted: number;
  /** Degrees to the right from the wall before. */
  readonly turn: number;
  /** Compass degrees of its run, north 0. */
  readonly heading: number;
  readonly runs: readonly RunFacts[];
  readonly pieces: readonly PieceFacts[];
  readonly studs: { readonly first: number; readonly spaced: number };
  readonly joists: { readonly run: 'into' | 'parallel'; readonly first: number; readonly spaced: number };
  readonly obstructions: readonly ObstructionFacts[];
  readonly defects: readonly { readonly kind: string; readonly from: number; readonly to: number }[];
  readonly foundAnchors: readonly {
    readonly name: string | undefined;
    readonly station: number;
    readonly size: number;
  }[];
  readonly anchors: readonly AnchorFacts[];
  readonly panels: readonly { readonly mark: string; readonly from: number; readonly to: number }[];
  readonly angles: { readonly mark: string; readonly everyBay: boolean } | undefined;
  readonly noWork: boolean;
}
/** A stretch of stem wall between steps, with the cripple wall on it. */
export interface RunFacts {
  readonly from: number;
  readonly to: number;
  readonly thick: number;
  readonly showing: readonly [number, number];
  readonly grade: number;
  /** Above datum, at the left and the right end. */
  readonly top: readonly [number, number];
  /** Top of concrete to joist underside; `undefined`: the joists lie on the sill. */
  /** Two boards of sill, one on the other. */
  readonly double: boolean;
  readonly cripple:
    | { readonly height: readonly [number, number]; readonly studHeight: readonly [number, number] }
    | undefined;
}
export type ConnectorName = 'bolt-half' | 'flat-plate' | 'stepped-plate-s' | 'stepped-plate-l';
export interface PieceFacts {
  readonly name: string | undefined;
  readonly from: number;
  readonly to: number;
  readonly setBack: readonly [number, number];
  readonly headroom: readonly [number, number];
  readonly joint: 'butt' | 'half-lap' | 'scarf' | 'step' | 'corner' | 'hole';
  readonly jointLength: number | undefined;
  readonly gap: number | undefined;
  /** The connector that suits it. */
  readonly connector: ConnectorName;
  /** Which of the wall's runs it lies on. */
  readonly run: number;
}
export interface AnchorFacts {
  readonly mark: string;
  readonly connector: ConnectorName;
  readonly station: number;
  /** Index of its board among the wall's pieces. */
  readonly piece: number;
}
export interface ObstructionFacts {
  readonly kind: string;
  readonly name: string | undefined;
  readonly from: number;
  readonly to: number;
  /** Stand-off from the wall. */
  readonly off: number | undefined;
}
export interface GirderFacts {
  readonly name: string;
  readonly from: PointFacts;
  readonly to: PointFacts;
  readonly posts: readonly { readonly name: string; readonly station: number; readonly size: '4x4' | '6x6' }[];
}

export interface HouseOptions {
  /** With anchors, panels and angles by the rule set existing-building, and days of record. */
  readonly design?: boolean;
  /** Spaces, comments and letter case as people leave them; the meaning stays. */
  readonly untidy?: boolean;
  /** No `typical` block, nothing assumed: everything that is written was measured. */
  readonly plain?: boolean;
  /** Round which the walls stand, instead of a random one. */
  readonly outline?: Outline;
}

export const INCH = 25_400_000;
export const FOOT = 12 * INCH;
export const MILLIMETRE = 1_000_000;
