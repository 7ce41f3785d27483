import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTolerance } from '../../../language/domain/engineering/verification/tolerance.ts';
import { verifyValues } from '../../../language/domain/engineering/verify-values.ts';
import entries from '../../../language/library/check-values.json' with { type: 'json' };

type Json = number | string | boolean | null | Json[] | { [key: string]: Json };
const all = entries as unknown as readonly { readonly [key: string]: Json }[];
const one = (entry: unknown) => {
  const [verdict] = verifyValues([entry]);
  if (!verdict) throw new Error('one entry, one verdict');
  return verdict;
};
const bolt = all[0] ?? {};

describe('verify values', () => {
  it('looks at inputs, not at names: entries renamed and shuffled agree as before', () => {
    const renamed = all.map((entry, index) => ({ ...entry, id: `case ${index}` })).toReversed();
    expect(verifyValues(renamed).filter((verdict) => verdict.verdict !== 'agrees')).toEqual([]);
  });

  it('notices every expected figure that is changed by more than its tolerance', () => {
    let changed = 0;
    for (const entry of all) {
      for (const path of leaves(entry.expected ?? null)) {
        const before = at(entry.expected ?? null, path);
        const after =
          typeof before === 'number' ? before * 1.3 + 0.5 : typeof before === 'boolean' ? !before : 'something else';
        const verdict = one({ ...entry, expected: replaced(entry.expected ?? null, path, after) });
        expect(verdict.verdict, `${entry.id} ${path.join('.')} ${before} as ${after}`).toBe('differs');
        expect(verdict.reason).toContain('expected');
        changed += 1;
      }
    }
    expect(changed).toBeGreaterThan(700);
  });

  it('computes new cases, not only the ones on file', () => {
    const sill = (D: number, ls: number) =>
      one({
        id: 'new',
        topic: '3-nds-bolt-concrete',
        inputs: { D_in: D, Fyb_psi: 45000, ls_in: ls, G: 0.46, Fem_psi: 7500, lm_in: 6 },
        expected: {},
      });
    const [thin, thick] = [sill(0.5, 1.5), sill(0.875, 2)];
    expect([thin.verdict, thick.verdict]).toEqual(['computed only', 'computed only']);
    expect(Number(thick.computed.Z_par_lb)).toBeGreaterThan(Number(thin.computed.Z_par_lb));
  });

  it('says why there is no verdict', () => {
    const reasons = [
      one({ ...bolt, inputs: {} }),
      one({ ...bolt, inputs: { ...(bolt.inputs as object), G: 0.6 } }),
      one({ ...bolt, expected: { Z_par_lb: 650, colour: 'red' } }),
      one({ id: 'x', topic: '9-astrology', inputs: { sign: 'leo' }, expected: { luck: 1 } }),
      one({ ...bolt, inputs: { ...(bolt.inputs as object), lm_in: 1e300 } }),
      one({ topic: 'no id' }),
      one(null),
      one({ id: 'x', inputs: 3 }),
    ].map((verdict) => `${verdict.verdict}: ${verdict.reason}`);
    expect(reasons).toEqual([
      'cannot be computed: no formula here takes these inputs: none',
      'cannot be computed: G 0.6 gives a bearing strength of 6700 psi, the entry states 5600',
      'cannot be computed: no value for colour follows from these inputs',
      'cannot be computed: no formula here takes these inputs: sign',
      'cannot be computed: an input is out of all proportion',
      'cannot be computed: the entry has no id',
      'cannot be computed: the entry is not an object',
      'cannot be computed: "inputs" is not an object',
    ]);
  });

  it('throws at nothing: any JSON gets a verdict', () => {
    fc.assert(
      fc.property(fc.array(fc.jsonValue()), (whatever) => {
        expect(verifyValues(whatever).length).toBe(whatever.length);
      }),
    );
    const inputs = all.map((entry) => entry.inputs);
    fc.assert(
      fc.property(fc.constantFrom(...all), fc.constantFrom(...inputs), fc.jsonValue(), (entry, other, whatever) => {
        expect(() =>
          verifyValues([
            { ...entry, inputs: other },
            { ...entry, expected: { x: whatever } },
          ]),
        ).not.toThrow();
      }),
    );
  });

  it('any number in any input gets a verdict', () => {
    fc.assert(
      fc.property(fc.constantFrom(...all), fc.double({ noNaN: true }), fc.nat(), (entry, value, pick) => {
        const inputs = entry.inputs as { readonly [key: string]: Json };
        const keys = Object.keys(inputs);
        const key = keys[pick % Math.max(1, keys.length)] ?? 'x';
        expect(['agrees', 'differs', 'computed only', 'cannot be computed']).toContain(
          one({ ...entry, inputs: { ...inputs, [key]: value } }).verdict,
        );
      }),
      { numRuns: 1000 },
    );
  });
});

describe('a tolerance', () => {
  it('is read as its entry words it', () => {
    expect(readTolerance('exact')).toEqual({ steps: [], absolute: [], shares: [] });
    expect(readTolerance('0.05 kip; 0.001').absolute).toEqual([
      { amount: 0.05, unit: 'kip' },
      { amount: 0.001, unit: '' },
    ]);
    expect(readTolerance('0.01 (33.65: 2 percent)')).toEqual({
      steps: [],
      absolute: [{ amount: 0.01, unit: '' }],
      shares: [{ value: 33.65, share: 0.02 }],
    });
    expect(readTolerance('nearest 10 lb; within 0.5 lb of a half-step either way').steps).toEqual([
      { step: 10, unit: 'lb', slack: 0.5 },
    ]);
    expect(readTolerance('1 lb/in').absolute).toEqual([{ amount: 1, unit: 'lb/in' }]);
    expect(readTolerance('the table rounds to 5 or 10 plf').absolute).toEqual([{ amount: 5, unit: 'plf' }]);
    expect(readTolerance('whatever you like')).toEqual({ steps: [], absolute: [], shares: [] });
  });

  it('in pounds does not loosen a ratio beside it', () => {
    const corner = all.find((entry) => entry.id === 'aci-shear-corner');
    const expected = { ...(corner?.expected as object), psi_ed: 0.9283 };
    expect(one({ ...corner, expected })).toMatchObject({ verdict: 'differs', differences: [{ key: 'psi_ed' }] });
  });

  it('rounded to a step lets a half-way value print either way, and no other', () => {
    const verdict = (expected: number) => one({ ...all[1], expected: { Z_perp_lb: expected } }).verdict;
    expect([510, 520, 523, 530, 540].map(verdict)).toEqual(['differs', 'agrees', 'differs', 'agrees', 'differs']);
  });
});

function* leaves(value: Json, path: readonly string[] = []): Generator<readonly string[]> {
  if (typeof value !== 'object' || value === null) yield path;
  else for (const [key, inner] of Object.entries(value)) yield* leaves(inner, [...path, key]);
}
function at(value: Json, path: readonly string[]): Json {
  return path.reduce<Json>(
    (inner, key) =>
      typeof inner === 'object' && inner !== null ? ((inner as { [key: string]: Json })[key] ?? null) : null,
    value,
  );
}
function replaced(value: Json, path: readonly string[], leaf: Json): Json {
  const [key, ...rest] = path;
  if (key === undefined) return leaf;
  const copy = structuredClone(value) as { [key: string]: Json };
  copy[key] = replaced(copy[key] ?? null, rest, leaf);
  return copy;
}
