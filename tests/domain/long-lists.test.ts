import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changedPlaces, createRuns, placesBefore, sameList } from '../../language/domain/list-in-runs.ts';
import { placeInList } from '../../language/domain/place-in-list.ts';
import { recentOnly } from '../../language/domain/recent-only.ts';
import { withoutSpareRoom } from '../../language/domain/spare-room.ts';

interface Member {
  readonly number: number;
}
let last = 0;
const member = (): Member => {
  last += 1;
  return { number: last };
};
const members = (count: number): readonly Member[] => Array.from({ length: count }, member);

const edit = fc.record({
  at: fc.nat(),
  out: fc.nat({ max: 90 }),
  in: fc.nat({ max: 90 }),
  moves: fc.boolean(),
});

/** Takes some members out, puts new ones in, and may move the first to the end. */
function edited(
  list: readonly Member[],
  { at, out, in: more, moves }: typeof edit extends fc.Arbitrary<infer E> ? E : never,
) {
  const place = at % (list.length + 1);
  const changed = [...list.slice(0, place), ...members(more), ...list.slice(place + out)];
  return moves ? [...changed.slice(1), ...changed.slice(0, 1)] : changed;
}

const sequence = fc.tuple(fc.nat({ max: 300 }), fc.array(edit, { maxLength: 8 }));

describe('a long list that is edited', () => {
  it('gives by its runs what it gives afresh', () => {
    fc.assert(
      fc.property(sequence, ([count, edits]) => {
        const inRuns = createRuns((run: readonly Member[]) => run.map(({ number }) => number));
        let list = members(count);
        for (const each of edits) {
          expect(inRuns(list).flat()).toEqual(list.map(({ number }) => number));
          list = edited(list, each);
        }
        expect(inRuns(list).flat()).toEqual(list.map(({ number }) => number));
      }),
      { numRuns: 60 },
    );
  });

  it('makes anew only the run in which a member became another', () => {
    let made = 0;
    const inRuns = createRuns((run: readonly Member[]) => {
      made += 1;
      return run.length;
    });
    const list = members(1_000);
    const before = inRuns(list);
    const first = made;
    inRuns(list.toSpliced(500, 1, member()));
    expect(made - first).toBe(1);
    expect(before.length).toBeGreaterThan(10);
  });

  it('stays the list of runs that it was where all that is made of them comes out the same', () => {
    const inRuns = createRuns((run: readonly Member[], before: readonly number[] | undefined) =>
      sameList(
        before,
        run.map(() => 1),
      ),
    );
    const list = members(200);
    const before = inRuns(list);
    expect(inRuns(list.toSpliced(20, 1, member()))).toBe(before);
  });

  it('says of each member where it stood', () => {
    fc.assert(
      fc.property(sequence, ([count, edits]) => {
        const before = members(count);
        const now = edits.reduce(edited, before);
        const index = new Map(before.map((each, place) => [each, place]));
        const places = placesBefore(before, now);
        expect(places.length).toBe(now.length);
        for (const [at, place] of places.entries()) if (place >= 0) expect(index.get(now[at] ?? member())).toBe(place);
        // What one edit leaves in its order is found again.
        if (edits.length < 2 && edits.every(({ moves }) => !moves))
          expect(places).toEqual(now.map((each) => index.get(each) ?? -1));
      }),
      { numRuns: 100 },
    );
  });

  it('says at which places it has another member', () => {
    const list = members(5);
    expect(changedPlaces(list, list.with(1, member()).with(3, member()))).toEqual([1, 3]);
    expect(changedPlaces(list, [...list])).toEqual([]);
  });

  it('has each member at its place, and no other', () => {
    fc.assert(
      fc.property(sequence, ([count, edits]) => {
        let list = members(count);
        for (const each of edits) {
          const now = edited(list, each);
          const places = new Map(now.map((one, place) => [one, place]));
          for (const one of [...list, ...now]) expect(placeInList(now, one)).toBe(places.get(one));
          list = now;
        }
      }),
      { numRuns: 40 },
    );
  });
});

describe('what is kept of objects', () => {
  it('is had again while they were asked about lately, and worked out again later', () => {
    const kept = recentOnly<Member, number>();
    const [first, ...others] = members(400);
    if (!first) throw new Error('no member');
    kept.set(first, 1);
    expect(kept.get(first)).toBe(1);
    for (const each of others.slice(0, 60)) kept.set(each, 2);
    expect(kept.get(first)).toBe(1);
    for (const each of others) kept.set(each, 2);
    expect(kept.get(first)).toBeUndefined();
  });

  it('has the same lists without their spare room', () => {
    const whole = { name: 'F', some: [1, 2], none: [] as readonly number[] };
    const trimmed = withoutSpareRoom({ ...whole });
    expect(trimmed).toEqual(whole);
    expect(withoutSpareRoom({ other: [] }).other).toBe(trimmed.none);
  });
});
