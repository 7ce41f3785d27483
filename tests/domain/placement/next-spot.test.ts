import { describe, expect, it } from 'vitest';
import { checkPlacement } from '../../../language/domain/placement/check.ts';
import { nextSpot } from '../../../language/domain/placement/next-spot.ts';
import type { PlacedAnchor, PlacementProblem } from '../../../language/domain/placement/problem.ts';
import { solvePlacement } from '../../../language/domain/placement/solve.ts';
import { problemOfInstance } from '../../../language/domain/placement/verify-instances.ts';
import { inches } from '../../../language/domain/units/length.ts';
import { randomWall } from '../../oracles/random-walls.ts';
import { board, fiveEighths, half, thing, wallOf } from './boards.ts';

const bolts = (stations: readonly number[]) =>
  stations.map((station): PlacedAnchor => ({ piece: 'P1', station: inches(station), kind: half.id }));

describe('when a hole fails', () => {
  // Twice the depth of a 4 in hole: common practice, no source.
  const away = inches(8);

  it('the nearest marks on either side that keep every limit are the next spots, nearest first', () => {
    const problem = wallOf([board({ to: 100, obstructions: [thing('vent', 57, 63)] })]);
    const [first, failed, last] = bolts([10.5, 55, 89.5]);
    if (first === undefined || failed === undefined || last === undefined) throw new Error('three bolts');
    const next = nextSpot(problem, [first, failed, last], { anchor: failed, away });
    expect(next?.kind === 'spots' && next.spots.map(({ station }) => station / inches(1))).toEqual([47]);
    const open = nextSpot(wallOf([board({ to: 100 })]), [first, { ...failed, station: inches(50) }, last], {
      anchor: { ...failed, station: inches(50) },
      away,
    });
    expect(open?.kind === 'spots' && open.spots.map(({ station }) => station / inches(1))).toEqual([42, 58]);
  });

  it('another kind is offered after the same kind', () => {
    const problem = wallOf([
      board({
        to: 100,
        kinds: [half, fiveEighths],
        obstructions: [thing('stud', 58, 70, { blocks: [{ kind: half.id, from: inches(53), to: inches(60) }] })],
      }),
    ]);
    const anchors = bolts([10.5, 50, 89.5]);
    const failed = anchors[1];
    if (failed === undefined) throw new Error('three bolts');
    const next = nextSpot(problem, anchors, { anchor: failed, away });
    expect(next?.kind === 'spots' && next.spots.map(({ kind, station }) => [kind, station / inches(1)])).toEqual([
      [half.id, 42],
      [fiveEighths.id, 42],
      [fiveEighths.id, 58],
    ]);
  });

  it('where no single spot will do, the anchors that together will', () => {
    // A gap of 80 in is left around the dead hole; the two wide vents leave one place on either side of it.
    const problem = wallOf([board({ to: 100, obstructions: [thing('vent 1', 22, 38), thing('vent 2', 62, 78)] })]);
    const anchors = bolts([10.5, 50, 89.5]);
    const failed = anchors[1];
    if (failed === undefined) throw new Error('three bolts');
    const next = nextSpot(problem, anchors, { anchor: failed, away: inches(11) });
    expect(next).toMatchObject({ kind: 'more-anchors', cost: 2 * half.cost });
    if (next?.kind !== 'more-anchors') return;
    const repaired = [...anchors.filter((anchor) => anchor !== failed), ...next.anchors];
    expect(checkPlacement(problem, repaired).violations).toEqual([]);
  });

  it('where nothing will do, stop, and why', () => {
    const problem = wallOf([board({ to: 100, obstructions: [thing('vent 1', 22, 43), thing('vent 2', 57, 78)] })]);
    const anchors = bolts([10.5, 50, 89.5]);
    const failed = anchors[1];
    if (failed === undefined) throw new Error('three bolts');
    const next = nextSpot(problem, anchors, { anchor: failed, away });
    expect(next?.kind).toBe('stop');
    expect(next?.kind === 'stop' && next.explanations[0]?.cause.kind).toBe('stretch-blocked');
    expect(next?.kind === 'stop' && next.explanations[0]?.blockers).toEqual(['dead hole', 'vent 1', 'vent 2']);
  });

  it('the slip that was held back may be used up, and what is not in the placement has no next spot', () => {
    const problem: PlacementProblem = wallOf([board({ to: 100 })], { slip: inches(1) });
    const anchors = bolts([10.5, 50, 89.5]);
    const failed = anchors[0];
    if (failed === undefined) throw new Error('three bolts');
    const next = nextSpot(problem, anchors, { anchor: failed, away: inches(1.5) });
    expect(next?.kind === 'spots' && next.spots.map(({ station }) => station / inches(1))).toEqual([9, 12]);
    expect(nextSpot(problem, anchors, { anchor: { ...failed, station: inches(11) }, away })).toBeUndefined();
  });

  it('every spot offered on random walls holds', () => {
    const kinds = new Set<string>();
    for (let seed = 3000; seed < 3025; seed += 1) {
      const problem = problemOfInstance(randomWall(seed, { leastFeet: 6, greatestFeet: 24, grain: 8, mostTypes: 2 }));
      if (typeof problem === 'string') throw new Error(problem);
      const answer = solvePlacement(problem);
      if (answer.status !== 'optimal') continue;
      for (const anchor of answer.anchors) {
        const next = nextSpot(problem, answer.anchors, { anchor, away: 96 });
        if (next === undefined) throw new Error('the anchor is there');
        kinds.add(next.kind);
        const others = answer.anchors.filter((other) => other !== anchor);
        const repairs =
          next.kind === 'spots' ? next.spots.map((spot) => [spot]) : next.kind === 'more-anchors' ? [next.anchors] : [];
        for (const repair of repairs) {
          expect(checkPlacement(problem, [...others, ...repair]).violations).toEqual([]);
          expect(
            repair.every(
              ({ station }) => Math.abs(station - anchor.station) >= 96 || anchor.piece !== repair[0]?.piece,
            ),
          ).toBe(true);
        }
      }
    }
    expect([...kinds].sort()).toEqual(['more-anchors', 'spots', 'stop']);
  });
});
