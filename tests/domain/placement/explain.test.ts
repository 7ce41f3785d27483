import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Explanation, explainFailure, type Relief } from '../../../language/domain/placement/explain.ts';
import type { PlacementProblem } from '../../../language/domain/placement/problem.ts';
import { solvePlacement } from '../../../language/domain/placement/solve.ts';
import { inches } from '../../../language/domain/units/length.ts';
import { tinyProblem } from '../../oracles/tiny-problems.ts';
import { board, fiveEighths, half, limitsOf, standing, thing, wallOf } from './boards.ts';

describe('why a board cannot be served', () => {
  it('it is too short for both end distances', () => {
    expect(explained(wallOf([board({ to: 17 })])).cause).toEqual({
      kind: 'piece-too-short',
      piece: 'P1',
      length: inches(17),
      least: inches(18),
    });
  });

  it('nothing is offered for it', () => {
    expect(explained(wallOf([board({ to: 100, kinds: [] })])).cause).toEqual({ kind: 'nothing-offered', piece: 'P1' });
  });

  it('an end window is blocked, by these things, and lifting the one that can be lifted helps', () => {
    // The demo's board E1: soft wood over its end window.
    const rot = thing('rot', -4, 18 + 12, { physical: false, liftable: true, liftCost: 350 });
    const window = thing('window', 54, 86);
    const { cause, blockers, blockersAreFewest, reliefs } = explained(
      wallOf([board({ to: 167, obstructions: [rot, window] })]),
    );
    expect(cause).toEqual({
      kind: 'end-blocked',
      piece: 'P1',
      end: 'left',
      window: { from: inches(9), to: inches(12) },
      obstructions: ['rot'],
    });
    expect([blockers, blockersAreFewest]).toEqual([['rot'], true]);
    expect(reliefs[0]).toEqual({
      relief: { kind: 'lift', obstruction: 'rot' },
      cost: 5 * half.cost + 350,
      priced: true,
    });
    // A longer window would do too, but that is for the rule set to say, so it comes after.
    expect(reliefs.map(({ relief }) => relief.kind)).toEqual(['lift', 'loosen']);
    expect(reliefs[1]?.relief).toEqual({ kind: 'loosen', limit: 'end-most', by: inches(18) });
  });

  it('a found bolt just outside the window leaves no room for one within it', () => {
    // The demo's board B1: its last bolt stands 13 in from the end.
    const limits = limitsOf({ spacing: 72 });
    const fixed = [standing('X1', 12, limits), standing('X2', 72, limits), standing('X3', 134, limits)];
    const { cause, blockers, reliefs } = explained(wallOf([board({ to: 147, kinds: [fiveEighths], limits, fixed })]));
    expect(cause).toEqual({ kind: 'fixed-in-the-way', piece: 'P1', anchors: ['X3'] });
    expect(blockers).toEqual([]);
    expect(reliefs[0]).toEqual({ relief: { kind: 'release', anchor: 'X3' }, cost: fiveEighths.cost, priced: true });
    expect(reliefs.map(({ relief }) => relief)).toContainEqual({ kind: 'loosen', limit: 'end-most', by: inches(1) });
  });

  it('a stretch is blocked for longer than the greatest gap', () => {
    const parts = [thing('vent', 30, 70), thing('stack', 68, 90), thing('far', 130, 134)];
    const { cause, blockers } = explained(wallOf([board({ to: 160, obstructions: parts })]));
    expect(cause).toEqual({
      kind: 'stretch-blocked',
      piece: 'P1',
      reached: inches(30),
      next: inches(90),
      maxGap: inches(48),
      obstructions: ['stack', 'vent'],
    });
    expect(blockers).toEqual(['stack', 'vent']);
  });

  it('a kind that was not chosen can be the way out', () => {
    const plate = { id: 'side plate', cost: 31, capacity: 900 };
    const boltOnly = thing('low joists', 20, 150, { blocks: [{ kind: half.id, from: inches(20), to: inches(150) }] });
    const piece = board({ to: 160, obstructions: [boltOnly] });
    const otherOffers = [
      { kind: plate.id, limits: limitsOf({ spacing: 48 }), available: [{ from: 0, to: inches(160) }] },
    ];
    const { reliefs } = explained(wallOf([{ ...piece, otherOffers }], { kinds: [half, plate] }));
    expect(reliefs[0]).toEqual({
      relief: { kind: 'allow', anchorKind: plate.id },
      cost: 2 * half.cost + 2 * plate.cost,
      priced: true,
    });
  });

  it('too few fit, or they are too weak', () => {
    const few = explained(wallOf([board({ to: 50, limits: limitsOf({ count: 4 }) })]));
    expect(few.cause).toEqual({ kind: 'too-few-fit', piece: 'P1', fit: 3, wanted: 4 });
    const weak = explained(wallOf([board({ to: 50, demand: 3000, limits: limitsOf({ count: 2 }) })]));
    expect(weak.cause).toEqual({ kind: 'too-weak', piece: 'P1', greatest: 2700, demand: 3000 });
    expect(weak.reliefs.map(({ relief }) => relief)).toContainEqual({ kind: 'loosen', limit: 'demand', by: 300 });
  });

  it('each board could be served, but not the gap across the break between them', () => {
    const blocked = [thing('step', 30, 90)];
    const long = limitsOf({ spacing: 48, end: [9, 40] });
    const pieces = [
      board({ id: 'P1', to: 60, joinsNext: true, limits: long, obstructions: blocked }),
      board({ id: 'P2', from: 60, to: 120, limits: long, obstructions: blocked }),
    ];
    const { cause, blockers } = explained(wallOf(pieces));
    expect(cause).toEqual({ kind: 'across-breaks', pieces: ['P1', 'P2'] });
    expect(blockers).toEqual(['step']);
  });

  it('the promised slip is too much', () => {
    const { reliefs } = explained(wallOf([board({ to: 100 })], { slip: inches(2) }));
    expect(reliefs.map(({ relief }) => relief)).toContainEqual({ kind: 'less-slip', slip: inches(1.5) });
  });

  it('a line cannot get its number', () => {
    const pieces = [
      board({ id: 'P1', to: 100, obstructions: [thing('vent', 22, 44, { liftable: true })] }),
      board({ id: 'P2', from: 200, to: 250, limits: limitsOf({ count: 2 }) }),
    ];
    const problem = wallOf(pieces, { lines: [{ id: 'D', pieces: ['P1', 'P2'], count: 10 }] });
    const { cause, reliefs } = explained(problem);
    expect(cause).toEqual({ kind: 'line-short', line: 'D', fit: 9, wanted: 10 });
    expect(reliefs[0]).toMatchObject({
      relief: { kind: 'lift', obstruction: 'vent' },
      cost: 10 * half.cost,
      priced: false,
    });
    expect(reliefs.map(({ relief }) => relief)).toContainEqual({ kind: 'loosen', limit: 'line-count', by: 1 });
  });
});

describe('on any tiny problem that has no answer', () => {
  it('the reliefs help as they say, the blockers block, and no fewer do', () => {
    const seen = { explained: 0, blockers: 0, several: 0, reliefs: 0 };
    fc.assert(
      fc.property(tinyProblem({ pieces: 1, mostMarks: 9, mostKinds: 2, easy: false }), (problem) => {
        const answer = solvePlacement(problem);
        if (answer.status !== 'infeasible') return;
        const failure = answer.failed[0];
        if (failure?.kind !== 'pieces') return;
        const explanation = explainFailure(problem, failure);
        seen.explained += 1;
        const scope = { ...problem, pieces: problem.pieces.filter(({ id }) => failure.pieces.includes(id)) };
        const part = {
          ...scope,
          pieces: scope.pieces.map((piece, index) => ({
            ...piece,
            joinsNext: piece.joinsNext && index + 1 < scope.pieces.length,
          })),
        };
        const isPossible = (changed: PlacementProblem) => solvePlacement(changed).status === 'optimal';
        const only = (ids: readonly string[]) => ({
          ...part,
          pieces: part.pieces.map((piece) => ({
            ...piece,
            obstructions: piece.obstructions.filter(({ id }) => ids.includes(id)),
          })),
        });

        const { blockers } = explanation;
        expect(isPossible(only(blockers))).toBe(false);
        for (const one of blockers) expect(isPossible(only(blockers.filter((other) => other !== one)))).toBe(true);
        if (blockers.length > 0) seen.blockers += 1;
        if (blockers.length > 1) seen.several += 1;
        for (const { relief, cost, priced } of explanation.reliefs) {
          const changed = relieved(part, relief);
          if (changed === undefined) continue;
          const after = solvePlacement(changed);
          const lifted =
            relief.kind === 'lift'
              ? part.pieces.flatMap(({ obstructions }) => obstructions).findLast(({ id }) => id === relief.obstruction)
              : undefined;
          expect(after.status === 'optimal' && after.cost + (lifted?.liftCost ?? 0)).toBe(cost);
          expect(priced).toBe(lifted === undefined || lifted.liftCost !== undefined);
          seen.reliefs += 1;
        }
      }),
      { seed: 31, numRuns: 700 },
    );
    expect(seen.explained).toBeGreaterThan(100);
    expect(seen.blockers).toBeGreaterThan(20);
    expect(seen.several).toBeGreaterThan(2);
    expect(seen.reliefs).toBeGreaterThan(60);
  });
});

function explained(problem: PlacementProblem): Explanation {
  const answer = solvePlacement(problem);
  if (answer.status !== 'infeasible') throw new Error(JSON.stringify(answer));
  const failure = answer.failed[0];
  if (failure === undefined) throw new Error('nothing failed');
  return explainFailure(problem, failure);
}

/** The problem with a relief of the place or of the choice; limits are left to the solver's own search. */
function relieved(problem: PlacementProblem, relief: Relief): PlacementProblem | undefined {
  const each = (change: (piece: PlacementProblem['pieces'][number]) => PlacementProblem['pieces'][number]) => ({
    ...problem,
    pieces: problem.pieces.map(change),
  });
  if (relief.kind === 'lift')
    return each((piece) => ({
      ...piece,
      obstructions: piece.obstructions.filter(({ id }) => id !== relief.obstruction),
    }));
  if (relief.kind === 'release')
    return each((piece) => ({ ...piece, fixed: piece.fixed.filter(({ id }) => id !== relief.anchor) }));
  if (relief.kind === 'less-slip') return { ...problem, slip: relief.slip };
  return undefined;
}
