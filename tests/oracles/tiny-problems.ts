import fc from 'fast-check';
import type {
  AnchorLimits,
  FixedAnchor,
  KindOffer,
  PlacementObstruction,
  PlacementPiece,
  PlacementProblem,
  Stretch,
} from '../../language/domain/placement/problem.ts';

/** Problems small enough to try every placement, with every feature that a problem can have. */
export interface TinyShape {
  readonly pieces: number;
  readonly mostMarks: number;
  readonly mostKinds: number;
  /** Limits that most pieces can keep, so that several pieces together still have answers. */
  readonly easy: boolean;
}

const KINDS = ['A', 'B', 'C'];

export function tinyProblem(shape: TinyShape): fc.Arbitrary<PlacementProblem> {
  return fc
    .record({
      step: fc.constantFrom(1, 1, 2, 3),
      slip: fc.constantFrom(0, 0, 0, 1),
      kinds: fc.integer({ min: 1, max: shape.mostKinds }),
      costs: fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 3, maxLength: 3 }),
      capacities: fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 3, maxLength: 3 }),
    })
    .chain(({ step, slip, kinds, costs, capacities }) => {
      const names = KINDS.slice(0, kinds);
      return fc
        .array(tinyPiece(shape.mostMarks * step, names, shape.easy), {
          minLength: shape.pieces,
          maxLength: shape.pieces,
        })
        .map((drafts): PlacementProblem => {
          let from = 0;
          const pieces = drafts.map((draft, index): PlacementPiece => {
            const start = from + (index === 0 ? draft.offset % (step + 1) : 0);
            from = start + draft.length - (draft.offset % 3) + 1;
            return placed(draft, `P${index + 1}`, start);
          });
          return {
            step,
            slip,
            kinds: names.map((id, index) => ({ id, cost: costs[index] ?? 1, capacity: capacities[index] ?? 1 })),
            pieces,
            lines: [],
          };
        });
    });
}

/** A piece that starts at 0. */
type Draft = Omit<PlacementPiece, 'id' | 'from' | 'to' | 'joinsNext' | 'preferred'> & {
  readonly preferred: readonly number[];
  readonly length: number;
  readonly offset: number;
};

function tinyPiece(longest: number, names: readonly string[], easy: boolean): fc.Arbitrary<Draft> {
  return fc.integer({ min: Math.ceil(longest / 2), max: longest }).chain((length) => {
    const stretch = fc
      .tuple(fc.integer({ min: -1, max: length }), fc.integer({ min: 0, max: Math.ceil(length / 2) }))
      .map(([from, span]) => ({ from, to: from + span }));
    const limits = tinyLimits(length, easy);
    const obstruction: fc.Arbitrary<PlacementObstruction> = fc.record({
      id: fc.constantFrom('O1', 'O2', 'O3'),
      physical: fc.boolean(),
      liftable: fc.boolean(),
      liftCost: fc.constantFrom(undefined, 2),
      blocks: fc.array(
        fc.tuple(stretch, fc.constantFrom(undefined, undefined, ...names)).map(([part, kind]) => ({ ...part, kind })),
        { minLength: 1, maxLength: 2 },
      ),
    });
    const fixed: fc.Arbitrary<FixedAnchor> = fc.record({
      id: fc.constantFrom('X1', 'X2', 'X3'),
      station: fc.integer({ min: 0, max: length }),
      limits,
      counts: fc.boolean(),
      capacity: fc.integer({ min: 0, max: 3 }),
      drifts: fc.boolean(),
      kind: fc.constantFrom(undefined, undefined, ...names),
    });
    return fc.record({
      length: fc.constant(length),
      offset: fc.integer({ min: 0, max: 4 }),
      demand: fc.integer({ min: 0, max: easy ? 4 : 8 }),
      offers: offersOf(names, limits, stretch, length),
      otherOffers: fc.constant([]),
      obstructions: fc.array(obstruction, { maxLength: easy ? 1 : 3 }),
      fixed: fc.oneof(
        { weight: 2, arbitrary: fc.constant([]) },
        { weight: 1, arbitrary: fc.array(fixed, { maxLength: 3 }) },
      ),
      preferred: fc.array(fc.integer({ min: 0, max: length }), { maxLength: 3 }),
      endWindowPastObstruction: fc.boolean(),
    });
  });
}

/** Every second time the kinds differ in their count only, so that nothing but the count keeps one from standing in for another. */
function offersOf(
  names: readonly string[],
  limits: fc.Arbitrary<AnchorLimits>,
  stretch: fc.Arbitrary<Stretch>,
  length: number,
): fc.Arbitrary<KindOffer[]> {
  const room = fc.oneof(
    { weight: 3, arbitrary: fc.constant([{ from: 0, to: length }]) },
    { weight: 1, arbitrary: fc.array(stretch, { minLength: 1, maxLength: 3 }) },
  );
  const each = fc.tuple(...names.map((kind) => fc.record({ kind: fc.constant(kind), limits, available: room })));
  return fc
    .tuple(each, limits, fc.boolean())
    .map(([offers, common, alike]) =>
      offers.map((offer) => (alike ? { ...offer, limits: { ...common, count: offer.limits.count } } : offer)),
    );
}

function tinyLimits(length: number, easy: boolean): fc.Arbitrary<AnchorLimits> {
  const half = Math.ceil(length / 2);
  const end = fc.record({
    least: fc.integer({ min: 0, max: easy ? 1 : 3 }),
    most: fc.oneof(
      { weight: 3, arbitrary: fc.integer({ min: easy ? Math.ceil(half / 2) : 1, max: half }) },
      { weight: 1, arbitrary: fc.constant(undefined) },
    ),
  });
  return fc.record({
    left: end,
    right: end,
    minGap: fc.integer({ min: 1, max: easy ? 2 : 4 }),
    maxGap: fc.oneof(
      { weight: 3, arbitrary: fc.integer({ min: easy ? half : 2, max: length }) },
      { weight: 1, arbitrary: fc.constant(undefined) },
    ),
    count: fc.integer({ min: 1, max: easy ? 2 : 3 }),
  });
}

function placed({ length, offset, ...draft }: Draft, id: string, start: number): PlacementPiece {
  const move = <T extends { readonly from: number; readonly to: number }>(part: T): T => ({
    ...part,
    from: part.from + start,
    to: part.to + start,
  });
  return {
    ...draft,
    id,
    from: start,
    to: start + length,
    joinsNext: offset !== 1,
    offers: draft.offers.map((offer) => ({ ...offer, available: offer.available.map(move) })),
    obstructions: draft.obstructions.map((obstruction) => ({ ...obstruction, blocks: obstruction.blocks.map(move) })),
    fixed: draft.fixed.map((anchor) => ({ ...anchor, station: anchor.station + start })),
    preferred: draft.preferred.map((station) => station + start),
  };
}
