import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { partsAsTheyWere, partsThatSayTheSame } from '../../language/domain/as-it-was.ts';

const block = { file: 'f', key: 'wall A' };
const thing = (id: string, more: object = {}) => ({
  id,
  source: { block, start: 4, end: 9 },
  reading: { kind: 'known', value: 25_400_000 },
  words: new Set(['movable']),
  ...more,
});

describe('a wall that was put together anew', () => {
  it('has the very objects of before where they say the same', () => {
    const before = { name: 'A', pieces: [thing('A1'), thing('A2')], plan: { from: { x: 1, y: 2 } }, none: [] };
    const now = partsAsTheyWere(before, copyOf(before));
    for (const name of ['pieces', 'plan', 'none'] as const) expect(now[name], name).toBe(before[name]);
  });

  it('has each thing of before round one that is another, also where one was put in or taken out', () => {
    const before = { pieces: [thing('A1'), thing('A2'), thing('A3')] };
    const [one, two, three] = before.pieces;
    const another = thing('A2', { reading: { kind: 'known', value: 1 } });
    const edited = partsAsTheyWere(before, { pieces: [thing('A1'), another, thing('A3')] });
    expect(edited.pieces.map((each) => [one, two, three].indexOf(each))).toEqual([0, -1, 2]);
    expect(edited.pieces[1]).toBe(another);
    const longer = partsAsTheyWere(before, { pieces: [thing('A1'), thing('B'), thing('A2'), thing('A3')] });
    expect(longer.pieces.map((each) => [one, two, three].indexOf(each))).toEqual([0, -1, 1, 2]);
    const shorter = partsAsTheyWere(before, { pieces: [thing('A1'), thing('A3')] });
    expect(shorter.pieces.map((each) => [one, two, three].indexOf(each))).toEqual([0, 2]);
    expect(shorter.pieces).toHaveLength(2);
  });

  it.each([
    ['a block that was edited, whatever it says', { source: { block: { ...block }, start: 4, end: 9 } }],
    ['a connector that is another', { connector: { name: 'x' } }],
    ['a place', { source: { block, start: 4, end: 10 } }],
    ['a word', { words: new Set(['fixed']) }],
    ['a part less', { reading: { kind: 'known' } }],
    ['a part more', { label: undefined }],
  ])('has a thing anew that has %s', (_, more) => {
    const before = { pieces: [thing('A1', 'connector' in more ? { connector: { name: 'x' } } : {})] };
    const now = { pieces: [thing('A1', more)] };
    expect(partsAsTheyWere(before, now).pieces[0]).toBe(now.pieces[0]);
  });

  it('has for a drawing the things of before that only stand elsewhere in the text', () => {
    const before = { pieces: [thing('A1'), thing('A2')] };
    const elsewhere = { source: { block: { ...block }, start: 90, end: 95 } };
    const now = { pieces: [thing('A1', elsewhere), thing('A2', { ...elsewhere, label: 'new' })] };
    const drawn = partsThatSayTheSame(before, now);
    expect(drawn.pieces[0]).toBe(before.pieces[0]);
    expect(drawn.pieces[1]).toBe(now.pieces[1]);
    expect(partsAsTheyWere(before, now).pieces).toEqual(now.pieces);
  });

  it('says the same as it did by itself', () => {
    const value = fc.letrec((tie) => ({
      any: fc.oneof(
        { maxDepth: 3 },
        fc.constantFrom(1, 2, 'a', undefined, null, Number.NaN),
        fc.array(tie('any'), { maxLength: 4 }),
        fc.dictionary(fc.constantFrom('a', 'b', 'block', 'connector'), tie('any'), { noNullPrototype: true }),
      ),
    })).any;
    const whole = fc.dictionary(fc.constantFrom('x', 'y', 'z'), value, { noNullPrototype: true });
    fc.assert(
      fc.property(whole, whole, (before, now) => {
        const expected = structuredClone(now);
        expect(partsAsTheyWere(before, now)).toEqual(expected);
        expect(partsAsTheyWere(structuredClone(now), now)).toEqual(expected);
      }),
    );
  });
});

/** A copy with the same blocks: they are what an edit elsewhere leaves. */
function copyOf<Value>(value: Value): Value {
  if (typeof value !== 'object' || value === null || Object.is(value, block)) return value;
  if (Array.isArray(value)) return value.map(copyOf) as Value;
  if (value instanceof Set) return new Set(value) as Value;
  return Object.fromEntries(Object.entries(value).map(([name, part]) => [name, copyOf(part)])) as Value;
}
