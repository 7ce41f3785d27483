import type {
  AnchorKind,
  AnchorLimits,
  FixedAnchor,
  KindOffer,
  PlacementObstruction,
  PlacementPiece,
  PlacementProblem,
} from '../../../language/domain/placement/problem.ts';
import { inches, sixteenth } from '../../../language/domain/units/length.ts';

/** Problems in the project's nanometres, from figures in inches. */
export const half: AnchorKind = { id: 'half-inch bolt', cost: 20, capacity: 900 };
export const fiveEighths: AnchorKind = { id: 'five-eighths bolt', cost: 26, capacity: 1300 };

/** The windows and spacings that the existing-building tables give, from memory; they are the rule sets' business. */
export function limitsOf(figures: {
  readonly spacing?: number;
  readonly count?: number;
  readonly end?: readonly [number, number | undefined];
  readonly apart?: number;
}): AnchorLimits {
  const [least, most] = figures.end ?? [9, 12];
  const end = { least: inches(least), most: most === undefined ? undefined : inches(most) };
  return {
    left: end,
    right: end,
    minGap: inches(figures.apart ?? 12),
    maxGap: figures.spacing === undefined ? undefined : inches(figures.spacing),
    count: figures.count ?? 2,
  };
}

export interface BoardFigures {
  readonly id?: string;
  readonly from?: number;
  readonly to: number;
  readonly demand?: number;
  readonly kinds?: readonly AnchorKind[];
  readonly limits?: AnchorLimits | readonly AnchorLimits[];
  readonly obstructions?: readonly PlacementObstruction[];
  readonly fixed?: readonly FixedAnchor[];
  readonly preferred?: readonly number[] | 'evenly';
  readonly joinsNext?: boolean;
  readonly endWindowPastObstruction?: boolean;
}

export function board(figures: BoardFigures): PlacementPiece {
  const from = inches(figures.from ?? 0);
  const to = inches(figures.to);
  const limits = figures.limits ?? limitsOf({ spacing: 48 });
  const offers = (figures.kinds ?? [half]).map(({ id }, index): KindOffer => {
    const own = 'left' in limits ? limits : limits[index];
    return { kind: id, limits: own ?? limitsOf({}), available: [{ from, to }] };
  });
  return {
    id: figures.id ?? 'P1',
    from,
    to,
    demand: figures.demand ?? 0,
    joinsNext: figures.joinsNext ?? false,
    offers,
    otherOffers: [],
    obstructions: figures.obstructions ?? [],
    fixed: figures.fixed ?? [],
    preferred: figures.preferred === 'evenly' ? 'evenly' : (figures.preferred ?? []).map((station) => inches(station)),
    endWindowPastObstruction: figures.endWindowPastObstruction ?? false,
  };
}

/** A thing that blocks centres from one station to another, clearance and half-width included. */
export function thing(
  id: string,
  from: number,
  to: number,
  more: Partial<PlacementObstruction> = {},
): PlacementObstruction {
  return {
    id,
    physical: true,
    liftable: false,
    liftCost: undefined,
    blocks: [{ kind: undefined, from: inches(from), to: inches(to) }],
    ...more,
  };
}

export function standing(
  id: string,
  station: number,
  limits: AnchorLimits,
  more: Partial<FixedAnchor> = {},
): FixedAnchor {
  return { id, station: inches(station), limits, counts: true, capacity: 0, drifts: false, kind: undefined, ...more };
}

export function wallOf(pieces: readonly PlacementPiece[], more: Partial<PlacementProblem> = {}): PlacementProblem {
  return { step: sixteenth, slip: 0, kinds: [half, fiveEighths], pieces, lines: [], ...more };
}
