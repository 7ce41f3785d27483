import { describe, expect, it } from 'vitest';
import { checkPlacement, type ViolationKind } from '../../../language/domain/placement/check.ts';
import type { PlacedAnchor } from '../../../language/domain/placement/problem.ts';
import { inches, sixteenth } from '../../../language/domain/units/length.ts';
import { type BoardFigures, board, fiveEighths, half, limitsOf, standing, thing, wallOf } from './boards.ts';

/** A board of 100 in that three bolts at 10, 50 and 90 in satisfy. */
const found = (stations: readonly number[], figures: Partial<BoardFigures> = {}, kind = half.id) => {
  const problem = wallOf([board({ to: 100, ...figures })]);
  const anchors = stations.map((station): PlacedAnchor => ({ piece: 'P1', station: inches(station), kind }));
  return checkPlacement(problem, anchors);
};
const broken = (...args: Parameters<typeof found>): [ViolationKind, number][] =>
  found(...args).violations.map(({ kind, by }) => [kind, by / sixteenth]);

describe('the checker, which every answer passes', () => {
  it('accepts what holds, with its cost and its least room', () => {
    expect(found([10, 50, 90])).toEqual({ violations: [], cost: 60, slack: inches(1), onlySpots: [] });
  });

  it('takes limits inclusively, and names by how much one is missed', () => {
    expect(broken([12, 50, 91])).toEqual([]);
    expect(broken([12 + 1 / 16, 50, 91])).toEqual([['end-anchor-too-far', 1]]);
    expect(broken([9 - 1 / 16, 50, 91])).toEqual([['too-near-end', 1]]);
    expect(broken([9, 57, 91])).toEqual([]);
    expect(broken([9, 57 + 1 / 16, 91])).toEqual([['gap-too-wide', 1]]);
    expect(broken([10, 22, 50, 90])).toEqual([]);
    expect(broken([10, 22 - 1 / 16, 50, 90])).toEqual([['gap-too-tight', 1]]);
  });

  it('takes an obstruction as open: its very edge is free', () => {
    const vent = { obstructions: [thing('vent', 40, 50)] };
    expect(broken([10, 50, 90], vent)).toEqual([]);
    expect(broken([10, 50 - 1 / 16, 90], vent)).toEqual([['blocked', 0]]);
    expect(found([10, 50, 90], vent).slack).toBe(0);
    // Of two that touch, the station between is left.
    expect(broken([10, 50, 90], { obstructions: [thing('vent', 40, 50), thing('stack', 50, 60)] })).toEqual([]);
    // One that blocks another kind is none.
    const forOthers = thing('vent', 40, 60, { blocks: [{ kind: fiveEighths.id, from: inches(40), to: inches(60) }] });
    expect(broken([10, 50, 90], { obstructions: [forOthers] })).toEqual([]);
  });

  it('counts, weighs and looks at the tape', () => {
    expect(broken([10, 50, 90], { limits: limitsOf({ count: 4 }) })).toEqual([['too-few', 1 / sixteenth]]);
    expect(broken([10, 50, 90], { demand: 2701 })).toEqual([['too-weak', 1 / sixteenth]]);
    expect(broken([10 + 1 / 32, 50, 90])).toEqual([['off-tape-mark', 0.5]]);
    expect(broken([10, 50, 90], {}, 'a kind of no offer').map(([kind]) => kind)).toContain('kind-not-offered');
    expect(broken([]).map(([kind]) => kind)).toEqual(['too-few']);
  });

  it('looks across a break that joins, and over a line', () => {
    const pieces = [board({ id: 'P1', to: 60, joinsNext: true }), board({ id: 'P2', from: 60, to: 120 })];
    const anchors = [10, 49, 71, 110].map((station) => ({
      piece: station < 60 ? 'P1' : 'P2',
      station: inches(station),
      kind: half.id,
    }));
    const problem = wallOf(pieces, { lines: [{ id: 'D', pieces: ['P1', 'P2'], count: 5 }] });
    expect(checkPlacement(problem, anchors).violations).toEqual([
      { kind: 'line-short', where: 'D', station: undefined, by: 1, standing: false },
    ]);
    const tight = wallOf([
      board({ id: 'P1', to: 60, joinsNext: true, limits: limitsOf({ apart: 23 }) }),
      ...pieces.slice(1),
    ]);
    expect(checkPlacement(tight, anchors).violations).toMatchObject([
      { kind: 'gap-too-tight', where: 'P2', across: 'P1', by: inches(1) },
    ]);
  });

  it('says of what stands between fixed anchors only that it stands', () => {
    const limits = limitsOf({ spacing: 48 });
    const fixed = [standing('X1', 5, limits), standing('X2', 12, limits)];
    const check = found([55, 90], { fixed });
    expect(check.violations.map(({ kind, standing: stands }) => [kind, stands])).toEqual([
      ['too-near-end', true],
      ['gap-too-tight', true],
    ]);
  });

  it('holds the promised slip back from everything', () => {
    const problem = wallOf([board({ to: 100 })], { slip: inches(1) });
    const at = (stations: readonly number[]) =>
      checkPlacement(
        problem,
        stations.map((station) => ({ piece: 'P1', station: inches(station), kind: half.id })),
      );
    expect(at([10.5, 50, 89.5])).toMatchObject({ violations: [], slack: inches(0.5) });
    expect(at([12, 50, 89.5]).violations.map(({ kind }) => kind)).toEqual(['end-anchor-too-far']);
    expect(at([10.5, 57, 89.5]).violations.map(({ kind }) => kind)).toEqual(['gap-too-wide']);
  });
});
