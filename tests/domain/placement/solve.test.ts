import { describe, expect, it } from 'vitest';
import { checkPlacement } from '../../../language/domain/placement/check.ts';
import { placementMemory } from '../../../language/domain/placement/memory.ts';
import { oneAnchorLimits, type PlacementProblem } from '../../../language/domain/placement/problem.ts';
import { type Placed, type PlacementAnswer, solvePlacement } from '../../../language/domain/placement/solve.ts';
import { problemOfInstance } from '../../../language/domain/placement/verify-instances.ts';
import { inches, sixteenth } from '../../../language/domain/units/length.ts';
import { generator, randomWall } from '../../oracles/random-walls.ts';
import { type BoardFigures, board, fiveEighths, half, limitsOf, standing, thing, wallOf } from './boards.ts';

describe('how many anchors a board takes', () => {
  // The demo house's boards with two storeys above. Spacings and counts of the existing-building appendix, Tables A304.3.1
  // and A304.3.2: from memory; the counts per board are those of the demo, before obstructions and credit.
  const boards = [
    ['A1', 192, 5, 4],
    ['A2', 150, 4, 3],
    ['A3', 73, 4, 3],
    ['B1', 147, 4, 3],
    ['C1', 73, 4, 3],
    ['D1', 42, 2, 2],
    ['D2', 193, 5, 4],
    ['E1', 167, 4, 3],
    ['E2', 171, 5, 4],
    ['F1', 115, 4, 3],
    ['F2', 129, 4, 3],
    ['F3', 192, 5, 4],
  ] as const;
  it.each(boards)('%s of %i in: %i half-inch bolts, or %i of five eighths', (id, length, halves, fives) => {
    const tables = [
      { kind: half, spacing: 48, shortCount: 4, wanted: halves },
      { kind: fiveEighths, spacing: 72, shortCount: 3, wanted: fives },
    ];
    for (const { kind, spacing, shortCount, wanted } of tables) {
      const limits = length >= 144 ? limitsOf({ spacing }) : limitsOf({ count: length >= 72 ? shortCount : 2 });
      const answer = placed(solvePlacement(wallOf([board({ id, to: length, kinds: [kind], limits })])));
      expect(answer.anchors.length).toBe(wanted);
      expect(answer.cost).toBe(wanted * kind.cost);
    }
  });

  it('the demo house takes 50 of one or 39 of the other', () => {
    expect(boards.reduce((sum, [, , halves]) => sum + halves, 0)).toBe(50);
    expect(boards.reduce((sum, [, , , fives]) => sum + fives, 0)).toBe(39);
  });
});

describe('what counts after the cost', () => {
  it('end anchors stand in the middle of their windows, so that the hole may miss by most', () => {
    const answer = placed(solvePlacement(wallOf([board({ to: 100 })])));
    expect(answer.slack).toBe(inches(1.5));
    expect([stations(answer)[0], stations(answer).at(-1)]).toEqual([10.5, 89.5]);
  });

  it('one kind of hardware is better than two at the same cost and slack', () => {
    const twins = [half, { ...fiveEighths, cost: half.cost }];
    const parts = [thing('stud', 40, 60, { blocks: [{ kind: half.id, from: inches(40), to: inches(60) }] })];
    const answer = placed(
      solvePlacement(wallOf([board({ to: 100, kinds: twins, obstructions: parts })], { kinds: twins })),
    );
    expect(new Set(answer.anchors.map(({ kind }) => kind))).toEqual(new Set([fiveEighths.id]));
  });

  it('a kind that was set by hand anyway is no new kind', () => {
    const twins = [half, { ...fiveEighths, cost: half.cost }];
    const fixed = [standing('F-1', 50, limitsOf({ spacing: 48 }), { drifts: true, kind: fiveEighths.id })];
    const answer = placed(solvePlacement(wallOf([board({ to: 100, kinds: twins, fixed })], { kinds: twins })));
    expect(answer.anchors.map(({ kind }) => kind)).toEqual([fiveEighths.id, fiveEighths.id]);
  });

  it('anchors go to the centres of stud bays where slack leaves the choice', () => {
    const bays = [8, 24, 40, 56, 72, 88, 104, 120];
    const answer = placed(solvePlacement(wallOf([board({ to: 130, preferred: bays })])));
    // 10-1/2 in at both ends is where the slack is greatest; the two between are free to choose.
    expect(stations(answer)).toEqual([10.5, 56, 88, 119.5]);
  });

  it('or to equal gaps where a board has no studs, also between fixed anchors', () => {
    const even = (figures: Partial<BoardFigures>) => {
      const answer = placed(solvePlacement(wallOf([board({ to: 141, preferred: 'evenly', ...figures })])));
      return stations(answer);
    };
    expect(even({})).toEqual([10.5, 50.5, 90.5, 130.5]);
    expect(even({ fixed: [standing('X1', 90.5, limitsOf({ spacing: 48 }))] })).toEqual([10.5, 50.5, 130.5]);
    // Past a stud in the way, with the slack of 1-1/2 in that the ends have too.
    expect(even({ obstructions: [thing('stud', 49, 51.5)] })).toEqual([10.5, 53, 90.5, 130.5]);
    expect(even({ to: 28, limits: limitsOf({ count: 1, end: [3.5, undefined] }) })).toEqual([14]);
  });

  it('without any preference the leftmost stations are taken', () => {
    const answer = placed(solvePlacement(wallOf([board({ to: 130 })])));
    expect(stations(answer)).toEqual([10.5, 26.5, 73, 119.5]);
  });
});

describe('fixed anchors', () => {
  const limits = limitsOf({ spacing: 48 });

  it('count in gaps, ends and numbers, and nothing is placed where they suffice', () => {
    const fixed = [standing('X1', 10, limits), standing('X2', 55, limits), standing('X3', 90, limits)];
    const answer = placed(solvePlacement(wallOf([board({ to: 100, fixed })])));
    expect(answer.anchors).toEqual([]);
    expect(answer).toMatchObject({ cost: 0, slack: undefined, standing: [] });
  });

  it('stay where they are, off the tape marks too, and the new ones fill in around them', () => {
    const fixed = [standing('X1', 10.03, limits), standing('X2', 61.41, limits)];
    const problem = wallOf([board({ to: 150, fixed })]);
    const answer = placed(solvePlacement(problem));
    expect(checkPlacement(problem, answer.anchors).violations).toEqual([]);
    // One between the two, as they are 51.38 in apart; one past the second; one at the right end.
    expect(answer.anchors.length).toBe(3);
    expect(answer.anchors.every(({ station }) => station % sixteenth === 0)).toBe(true);
  });

  it('with part credit lend strength only', () => {
    const lends = standing('X1', 50, limits, { counts: false, capacity: 400 });
    const two = placed(solvePlacement(wallOf([board({ to: 56, demand: 2200, fixed: [lends] })])));
    const three = placed(solvePlacement(wallOf([board({ to: 56, demand: 2201, fixed: [lends] })])));
    expect([two.anchors.length, three.anchors.length]).toEqual([2, 3]);
  });

  it('that are too close to each other, or to an end, are named and not mended', () => {
    const fixed = [standing('X1', 6, limits), standing('X2', 15, limits)];
    const answer = placed(solvePlacement(wallOf([board({ to: 100, fixed })])));
    expect(answer.standing.map(({ kind, by }) => [kind, by / inches(1)])).toEqual([
      ['too-near-end', 3],
      ['gap-too-tight', 3],
    ]);
    expect(answer.anchors.length).toBe(2);
  });

  it('beside bolts of another size the stricter spacing governs that gap', () => {
    const strict = limitsOf({ spacing: 48 });
    const loose = limitsOf({ spacing: 72 });
    const between = (first: typeof strict) => {
      const fixed = [standing('X1', 10, first), standing('X2', 80, loose)];
      return placed(solvePlacement(wallOf([board({ to: 90, kinds: [fiveEighths], limits: loose, fixed })]))).anchors
        .length;
    };
    expect([between(loose), between(strict)]).toEqual([0, 1]);
  });
});

describe('boards that take one anchor', () => {
  const one = (to: number) =>
    oneAnchorLimits({ from: 0, to: inches(to) }, { end: inches(3.5), minGap: inches(12) }, sixteenth);

  it('get it in the middle', () => {
    expect(stations(placed(solvePlacement(wallOf([board({ to: 24, limits: one(24) })]))))).toEqual([12]);
  });

  it('get it in the middle of the widest clear stretch', () => {
    const pipe = [thing('pipe', 10, 14)];
    expect(stations(placed(solvePlacement(wallOf([board({ to: 26, limits: one(26), obstructions: pipe })]))))).toEqual([
      18.25,
    ]);
  });

  it('keep the end distance where the board allows, and stand within a mark of the middle where it does not', () => {
    const corner = [thing('stud', -1, 20)];
    expect(
      stations(placed(solvePlacement(wallOf([board({ to: 24, limits: one(24), obstructions: corner })])))),
    ).toEqual([20.25]);
    const [short] = stations(placed(solvePlacement(wallOf([board({ to: 5, limits: one(5) })]))));
    expect(short).toBe(2.5);
    const blocked = solvePlacement(wallOf([board({ to: 5, limits: one(5), obstructions: [thing('pipe', 2, 4)] })]));
    expect(blocked.status).toBe('infeasible');
  });

  it('take a second where one is not strong enough', () => {
    expect(placed(solvePlacement(wallOf([board({ to: 29, limits: one(29), demand: 1000 })]))).anchors.length).toBe(2);
  });
});

describe('an end window that physical things block', () => {
  const chimney = thing('chimney', -5, 14.5);

  it('leaves the nearest clear spot beyond, where the rule set allows it', () => {
    const problem = wallOf([board({ to: 100, obstructions: [chimney], endWindowPastObstruction: true })]);
    const answer = placed(solvePlacement(problem));
    expect(stations(answer)[0]).toBe(14.5);
    expect(answer.onlySpots.map(({ station }) => station / inches(1))).toEqual([14.5]);
    // The anchors that can move still get their slack.
    expect(answer.slack).toBe(inches(1.5));
  });

  it('is served by a fixed anchor that is nearer than any clear spot', () => {
    const fixed = [standing('X1', 20, limitsOf({ spacing: 48 }))];
    const obstructions = [thing('chimney', -5, 30)];
    const answer = placed(
      solvePlacement(wallOf([board({ to: 100, obstructions, fixed, endWindowPastObstruction: true })])),
    );
    expect(stations(answer).length).toBe(2);
    expect(answer.onlySpots).toEqual([]);
  });

  it('leaves nothing where the rule set is silent', () => {
    expect(solvePlacement(wallOf([board({ to: 100, obstructions: [chimney] })])).status).toBe('infeasible');
  });

  it('is not excused by a defect or a stud in it', () => {
    const rot = { ...chimney, id: 'rot', physical: false };
    const board1 = board({ to: 100, obstructions: [rot], endWindowPastObstruction: true });
    expect(solvePlacement(wallOf([board1])).status).toBe('infeasible');
    const half1 = board({
      to: 100,
      obstructions: [thing('pipe', 8, 11), { ...thing('rot', 10, 13), physical: false }],
      endWindowPastObstruction: true,
    });
    expect(solvePlacement(wallOf([half1])).status).toBe('infeasible');
  });
});

describe('the promised slip', () => {
  it('holds however the anchors drift, all at once', () => {
    const slip = 5 * sixteenth;
    let corners = 0;
    for (let seed = 300; seed < 330; seed += 1) {
      const problem = problemOfInstance(randomWall(seed, { leastFeet: 6, greatestFeet: 24, grain: 4, mostTypes: 2 }));
      if (typeof problem === 'string') throw new Error(problem);
      const wanted = { ...problem, slip: 5 };
      const answer = solvePlacement(wanted);
      if (answer.status !== 'optimal' || answer.anchors.length > 10) continue;
      // Every limit is on one station or on the difference of two, so the corners of the drift are the worst of it.
      for (let corner = 0; corner < 2 ** answer.anchors.length; corner += 1) {
        const drifted = answer.anchors.map((anchor, index) => ({
          ...anchor,
          station: anchor.station + ((corner >> index) & 1 ? 5 : -5),
        }));
        expect(checkPlacement(problem, drifted).violations).toEqual([]);
        corners += 1;
      }
      expect(answer.cost).toBeGreaterThanOrEqual(placed(solvePlacement(problem)).cost);
    }
    expect(corners).toBeGreaterThan(500);
    expect(slip).toBe(inches(5 / 16));
  });

  it('can ask for more anchors than the limits alone', () => {
    const exact = board({ to: 12 + 48 + 48 + 12 });
    expect(placed(solvePlacement(wallOf([exact]))).anchors.length).toBe(3);
    expect(placed(solvePlacement(wallOf([exact], { slip: sixteenth }))).anchors.length).toBe(4);
  });

  it('does not hold back against anchors that are in already', () => {
    const limits = limitsOf({ spacing: 48 });
    const at = (drifts: boolean) =>
      placed(
        solvePlacement(
          wallOf(
            [
              board({
                to: 12 + 48 + 47 + 12,
                fixed: [standing('X1', 12, limits, { drifts }), standing('X2', 107, limits, { drifts })],
              }),
            ],
            {
              slip: inches(0.5),
            },
          ),
        ),
      ).anchors.length;
    // 95 in between the two: one anchor has half an inch to drift if they stand still, none to spare if they drift too.
    expect([at(false), at(true)]).toEqual([1, 2]);
  });
});

describe('the number of anchors on a line', () => {
  const pieces = [
    board({ id: 'P1', to: 100 }),
    board({ id: 'P2', from: 100, to: 200, obstructions: [thing('vent', 112.5, 187.5)] }),
  ];
  const limits = limitsOf({ spacing: 48 });

  it('is not cut by an obstruction: what has no room on one board goes on another', () => {
    const short = board({ id: 'P3', from: 200, to: 240, limits: limitsOf({ count: 2 }) });
    const open = board({ id: 'P1', to: 100 });
    const line = { id: 'D', pieces: ['P1', 'P3'], count: 6 };
    const answer = placed(solvePlacement(wallOf([open, short], { lines: [line] })));
    expect(answer.anchors.length).toBe(6);
    expect(answer.cost).toBe(6 * half.cost);
  });

  it('counts what stands there', () => {
    const standingOne = board({ id: 'P1', to: 100, fixed: [standing('X1', 55, limits)] });
    const with4 = placed(solvePlacement(wallOf([standingOne], { lines: [{ id: 'D', pieces: ['P1'], count: 4 }] })));
    expect(with4.anchors.length).toBe(3);
  });

  it('that cannot be reached is said of the line, and the boards are placed all the same', () => {
    const answer = solvePlacement(
      wallOf([pieces[0] ?? board({ to: 100 })], { lines: [{ id: 'D', pieces: ['P1'], count: 40 }] }),
    );
    expect(answer).toMatchObject({ status: 'infeasible', failed: [{ kind: 'line', line: 'D' }] });
    expect('anchors' in answer && answer.anchors.length).toBe(3);
  });
});

describe('pieces without a placement', () => {
  it('do not hold up the others', () => {
    const blocked = board({ id: 'P1', to: 100, obstructions: [thing('vent', 5, 60)] });
    const fine = board({ id: 'P2', from: 100, to: 200 });
    const answer = solvePlacement(wallOf([blocked, fine]));
    expect(answer).toMatchObject({ status: 'infeasible', failed: [{ kind: 'pieces', pieces: ['P1'] }] });
    expect('anchors' in answer && answer.anchors.map(({ piece }) => piece)).toEqual(['P2', 'P2', 'P2']);
  });

  it('an empty problem is answered with nothing', () => {
    expect(solvePlacement(wallOf([]))).toMatchObject({ status: 'optimal', anchors: [], cost: 0, slack: undefined });
  });

  it('what cannot be read is named: nothing is rounded, and nothing throws', () => {
    const odd = { ...board({ to: 100 }), to: inches(100) + 0.5, demand: -1 };
    const answer = solvePlacement(wallOf([odd], { step: 0, kinds: [half, half] }));
    expect(answer.status).toBe('malformed');
    expect(answer.status === 'malformed' && answer.faults.map(({ where }) => where)).toEqual([
      'problem',
      half.id,
      'P1',
      'P1',
    ]);
  });
});

describe('the same problem, the same answer', () => {
  it('in whatever order kinds, obstructions, fixed anchors and preferences are listed', () => {
    const random = generator(5);
    const shuffled = <T>(list: readonly T[]): T[] =>
      list
        .map((item) => ({ item, key: random() }))
        .sort((a, b) => a.key - b.key)
        .map(({ item }) => item);
    let solved = 0;
    for (let seed = 600; seed < 640; seed += 1) {
      const plain = problemOfInstance(randomWall(seed, { leastFeet: 8, greatestFeet: 50, grain: 8, mostTypes: 4 }));
      if (typeof plain === 'string') throw new Error(plain);
      const problem = withBays(plain);
      const other: PlacementProblem = {
        ...problem,
        kinds: shuffled(problem.kinds),
        pieces: problem.pieces.map((piece) => ({
          ...piece,
          offers: shuffled(piece.offers.map((offer) => ({ ...offer, available: shuffled(offer.available) }))),
          obstructions: shuffled(piece.obstructions),
          preferred: piece.preferred === 'evenly' ? 'evenly' : shuffled(piece.preferred),
        })),
      };
      const answer = solvePlacement(problem);
      expect(JSON.stringify(solvePlacement(other))).toBe(JSON.stringify(answer));
      if (answer.status === 'optimal') solved += 1;
    }
    expect(solved).toBeGreaterThan(15);
  });

  it('with or without a memory of other problems, at any effort', () => {
    const memory = placementMemory();
    const statuses = new Set<string>();
    for (let seed = 700; seed < 720; seed += 1) {
      const plain = problemOfInstance(randomWall(seed, { leastFeet: 20, greatestFeet: 60, grain: 8, mostTypes: 4 }));
      if (typeof plain === 'string') throw new Error(plain);
      const problem = withBays(plain);
      for (const effort of [undefined, 12, 60, 12, undefined]) {
        const options = effort === undefined ? {} : { effort };
        const answer = solvePlacement(problem, { ...options, memory });
        expect(answer).toEqual(solvePlacement(problem, options));
        statuses.add(answer.status);
        if (!('anchors' in answer) || answer.status === 'infeasible' || answer.status === 'gave-up') continue;
        expect(checkPlacement(problem, answer.anchors).violations).toEqual([]);
      }
    }
    expect([...statuses].sort()).toEqual(['gave-up', 'infeasible', 'optimal', 'unproven']);
  });

  it('an edit of one board solves one board anew, and a board is known wherever it stands', () => {
    const memory = placementMemory();
    const boards = [
      board({ id: 'P1', to: 100 }),
      board({ id: 'P2', from: 100, to: 215 }),
      board({ id: 'P3', from: 215, to: 330 }),
    ];
    solvePlacement(wallOf(boards), { memory });
    // P2 and P3 are alike.
    expect(memory.chains.size).toBe(2);
    const edited = [...boards.slice(0, 2), board({ id: 'P3', from: 215, to: 329 })];
    const answer = solvePlacement(wallOf(edited), { memory });
    expect(memory.chains.size).toBe(3);
    expect(answer).toEqual(solvePlacement(wallOf(edited)));
  });

  it('a memory forgets what was not asked for longest', () => {
    const memory = placementMemory(2);
    for (const to of [100, 110, 120]) solvePlacement(wallOf([board({ to })]), { memory });
    expect(memory.chains.size).toBe(2);
  });
});

function placed(answer: PlacementAnswer): Placed {
  if (answer.status !== 'optimal') throw new Error(JSON.stringify(answer));
  return answer;
}

function stations({ anchors }: Placed): number[] {
  return anchors.map(({ station }) => station / inches(1));
}

function withBays(problem: PlacementProblem): PlacementProblem {
  const bays = (from: number, to: number) =>
    Array.from({ length: Math.ceil((to - from) / 256) }, (_, index) => from + 128 + 256 * index);
  return { ...problem, pieces: problem.pieces.map((piece) => ({ ...piece, preferred: bays(piece.from, piece.to) })) };
}
