import { describe, expect, it } from 'vitest';
import { verifyPlacement } from '../../../language/domain/placement/verify-instances.ts';
import { randomWall } from '../../oracles/random-walls.ts';

const wall = randomWall(4, { leastFeet: 10, greatestFeet: 20, grain: 16, mostTypes: 1 });
const plain = {
  ...wall,
  breaks: [],
  demand: [0],
  obstructions: [],
  types: [{ id: 'A', cost: 10, capacity: 1, half: 0, available: null }],
};

describe('cases of a case file', () => {
  it('are read as a list or under the word cases, with or without what is expected of them', () => {
    const [answer] = verifyPlacement([plain]);
    expect(answer).toMatchObject({ id: wall.id, status: 'optimal' });
    expect(Object.keys(answer ?? {})).toEqual(['id', 'status', 'cost', 'slack', 'placement']);
    expect(
      verifyPlacement({ unit: '1/16 in', cases: [{ ...plain, expected: { status: 'optimal', cost: -1 } }] }),
    ).toEqual([answer]);
  });

  it('that cannot be read say why, in their own line', () => {
    const reasons = verifyPlacement([
      plain,
      7,
      { ...plain, id: 'no length', length: undefined },
      { ...plain, id: 'demand', demand: [] },
      { ...plain, id: 'breaks', breaks: [99_999], demand: [0, 0] },
      { ...plain, id: 'types', types: [{ id: 'A' }] },
      { ...plain, id: 'obstructions', obstructions: [{ from: 1 }] },
      { ...plain, id: 'fraction', minGap: 1.5 },
      { ...plain, id: 'twins', types: [...plain.types, ...plain.types] },
      { ...plain, id: 'emin', emin: '9' },
    ]).map(({ id, status, reason }) => [id, status, reason?.split(';')[0]]);
    expect(reasons).toEqual([
      [wall.id, 'optimal', undefined],
      ['case 2', 'malformed', 'a case is an object'],
      ['no length', 'malformed', 'length is missing'],
      ['demand', 'malformed', 'demand does not give one number a piece'],
      ['breaks', 'malformed', 'the breaks do not rise within the length'],
      ['types', 'malformed', 'a type lacks id, cost, capacity, half or available'],
      ['obstructions', 'malformed', 'an obstruction lacks from, to or clear'],
      ['fraction', 'malformed', 'piece 1: the least gap is 1.5, not a whole number from 1 up'],
      ['twins', 'malformed', 'A: the kind is given twice'],
      ['emin', 'malformed', 'emin is missing'],
    ]);
    expect(verifyPlacement('nothing')).toEqual([{ id: '', status: 'malformed', reason: 'there is no list of cases' }]);
  });

  it('that would take too long are given up, not hung on', () => {
    const endless = { ...plain, length: 900_000_000, maxGap: 2000, emin: 80, emax: 192, minGap: 96 };
    expect(verifyPlacement([endless], { effort: 500 })).toEqual([{ id: wall.id, status: 'gave-up' }]);
  });
});
