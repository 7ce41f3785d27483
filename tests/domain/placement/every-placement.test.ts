import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chainsOf } from '../../../language/domain/placement/chain.ts';
import type { PlacementProblem } from '../../../language/domain/placement/problem.ts';
import { solvePlacement } from '../../../language/domain/placement/solve.ts';
import { bestOfEvery } from '../../oracles/every-placement.ts';
import { type TinyShape, tinyProblem } from '../../oracles/tiny-problems.ts';

/** With SILLWRIGHT_LONG set, twenty times as many problems. */
const times = process.env.SILLWRIGHT_LONG ? 20 : 1;

/**
 * Every set of tape marks and kinds of a tiny problem against the solver. The problems have all that a problem can have:
 * limits that depend on kind and end, obstructions for some kinds, fixed anchors off the marks, counts, demands, slip,
 * preferred stations, obstructed ends, laps and joined breaks.
 */
describe('the answer is the one that trying every placement finds', () => {
  const seen = { solved: 0, infeasible: 0, withFixed: 0, onlySpots: 0, slipping: 0, twoKinds: 0 };

  function agrees(problem: PlacementProblem): void {
    const answer = solvePlacement(problem);
    const best = bestOfEvery(problem);
    if (answer.status === 'malformed') throw new Error(JSON.stringify(answer.faults));
    if (best === undefined) {
      expect(answer.status).toBe('infeasible');
      seen.infeasible += 1;
      return;
    }
    expect(answer.status).toBe('optimal');
    expect(answer.cost).toBe(best.cost);
    expect(answer.slack === undefined ? undefined : Math.floor(answer.slack / problem.step)).toBe(best.slack);
    seen.solved += 1;
    if (problem.pieces.some(({ fixed }) => fixed.some(({ counts }) => counts))) seen.withFixed += 1;
    if (answer.onlySpots.length > 0) seen.onlySpots += 1;
    if (problem.slip > 0) seen.slipping += 1;
    if (best.kinds > 1) seen.twoKinds += 1;
    // Strangers have their own greatest slack each, which the enumeration of all together does not look for.
    if (chainsOf(problem).length > 1) return;
    expect(answer.anchors.map(({ station }) => station)).toEqual(best.stations);
    const apart = problem.pieces.every(
      (piece, index) => piece.to < (problem.pieces[index + 1]?.from ?? Number.POSITIVE_INFINITY),
    );
    if (apart) expect(answer.anchors.map(({ kind }) => kind)).toEqual(best.names);
  }

  const joined = (problem: PlacementProblem): PlacementProblem => ({
    ...problem,
    pieces: problem.pieces.map((piece) => ({ ...piece, joinsNext: true })),
  });
  const shapes: readonly (readonly [string, TinyShape, number])[] = [
    ['one piece, two kinds', { pieces: 1, mostMarks: 8, mostKinds: 2, easy: false }, 800],
    ['one piece, three kinds', { pieces: 1, mostMarks: 6, mostKinds: 3, easy: false }, 300],
    ['two pieces that see each other', { pieces: 2, mostMarks: 5, mostKinds: 2, easy: true }, 200],
    ['three pieces that see each other', { pieces: 3, mostMarks: 3, mostKinds: 2, easy: true }, 200],
  ];
  it.each(shapes)('%s', (_, shape, numRuns) => {
    fc.assert(
      fc.property(tinyProblem(shape), (problem) => agrees(joined(problem))),
      { seed: 20260, numRuns: numRuns * times },
    );
  });

  it('and the problems tried had something to them', () => {
    expect(seen.solved).toBeGreaterThan(300);
    expect(seen.infeasible).toBeGreaterThan(100);
    expect(seen.withFixed).toBeGreaterThan(50);
    expect(seen.onlySpots).toBeGreaterThan(10);
    expect(seen.slipping).toBeGreaterThan(20);
    expect(seen.twoKinds).toBeGreaterThan(30);
  });

  it('for a line that asks for a number of anchors, as to cost and slack', () => {
    let bound = 0;
    fc.assert(
      fc.property(
        fc.tuple(tinyProblem({ pieces: 2, mostMarks: 5, mostKinds: 2, easy: true }), fc.integer({ min: 2, max: 6 })),
        ([draft, more]) => {
          const pieces = draft.pieces.map((piece) => ({ ...piece, joinsNext: false, fixed: [] }));
          const lines = [{ id: 'L', pieces: pieces.map(({ id }) => id), count: more }];
          const problem = { ...draft, pieces, lines };
          const best = bestOfEvery(problem, more);
          const answer = solvePlacement(problem);
          if (answer.status === 'malformed') throw new Error(JSON.stringify(answer.faults));
          expect(answer.status).toBe(best === undefined ? 'infeasible' : 'optimal');
          if (best === undefined) return;
          expect(answer.cost).toBe(best.cost);
          expect(answer.slack === undefined ? undefined : Math.floor(answer.slack / problem.step)).toBe(best.slack);
          expect(answer.anchors.length).toBeGreaterThanOrEqual(more);
          const free = solvePlacement({ ...problem, lines: [] });
          if (free.status === 'optimal' && free.cost < answer.cost) bound += 1;
        },
      ),
      { seed: 20261, numRuns: 250 * times },
    );
    expect(bound).toBeGreaterThan(20);
  });
});
