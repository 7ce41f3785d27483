import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { heavyFact } from '../../../language/domain/fit/weight-class.ts';
import { compareLength } from '../../../language/domain/rulesets/compare.ts';
import type { ConditionFact, LimitQuery } from '../../../language/domain/rulesets/limit-for.ts';
import { limitFor } from '../../../language/domain/rulesets/limit-for.ts';
import type { Limit, RuleSet, RulesInForce } from '../../../language/domain/rulesets/rule-set.ts';
import { toleranceOf } from '../../../language/domain/rulesets/tolerance.ts';
import { feet, inches, millimetres, nanometres, sixteenth } from '../../../language/domain/units/length.ts';
import { quantityOf } from '../../../language/domain/units/quantity.ts';
import { limit, ruleSet } from '../../support/build-layout.ts';
import { readLayout } from '../../support/read-layout.ts';

const inForce = (...sets: readonly RuleSet[]): RulesInForce => ({
  chosen: sets,
  limits: sets.flatMap((set) => set.limits),
});
const one = (...limits: readonly Limit[]): RulesInForce => inForce(ruleSet('one', limits));
const storeys = (number: number): ConditionFact => ({ kind: 'number', number });
const long = (length: number): ConditionFact => ({ kind: 'length', length: nanometres(length) });
const wanted = (wants: string): ConditionFact => ({ kind: 'unknown', wants });

describe('the limit for a subject', () => {
  const tables = one(
    limit('spacing', `at-most 6'-0"`, ['storeys is 1', `piece at-least 12'-0"`]),
    limit('spacing', `at-most 4'-0"`, ['storeys is 2', `piece at-least 12'-0"`]),
    limit('spacing', `at-most 3'-0"`, ['storeys is 2', `piece at-least 12'-0"`, 'heavy']),
    limit('end', 'at-least 9" at-most 12"'),
  );
  const boundOf = (rules: RulesInForce, subject: string, query: LimitQuery): string => {
    const answer = limitFor(rules, subject, query);
    return answer.kind === 'limit' ? (answer.limit.bounds[0]?.value.typed ?? '') : answer.kind;
  };

  it('is the one whose conditions hold', () => {
    expect(boundOf(tables, 'spacing', { storeys: storeys(1), piece: long(feet(12)) })).toBe(`6'-0"`);
    expect(boundOf(tables, 'spacing', { storeys: storeys(2), piece: long(feet(12)) })).toBe(`4'-0"`);
  });

  it('has most conditions of those that apply', () => {
    const query = { storeys: storeys(2), piece: long(feet(20)), heavy: { kind: 'holds' } as const };
    expect(boundOf(tables, 'spacing', query)).toBe(`3'-0"`);
  });

  it('is none where no conditions hold, and nothing is guessed', () => {
    expect(boundOf(tables, 'spacing', { storeys: storeys(3), piece: long(feet(20)) })).toBe('none');
    expect(boundOf(tables, 'spacing', { storeys: storeys(1) })).toBe('none');
    expect(boundOf(tables, 'nothing-such', {})).toBe('none');
  });

  it('holds at the bound of a condition, and not a nanometre below', () => {
    expect(boundOf(tables, 'spacing', { storeys: storeys(1), piece: long(feet(12)) })).toBe(`6'-0"`);
    expect(boundOf(tables, 'spacing', { storeys: storeys(1), piece: long(feet(12) - 1) })).toBe('none');
    const under = one(limit('count', 'at-least 3', [`piece at-least 6'-0" under 12'-0"`]));
    expect(boundOf(under, 'count', { piece: long(feet(12)) })).toBe('none');
    expect(boundOf(under, 'count', { piece: long(feet(12) - 1) })).toBe('3');
  });

  it('compares words without regard to case', () => {
    const drills = one(
      limit('headroom', 'at-least 24"', ['drill straight']),
      limit('headroom', 'at-least 12"', ['drill right-angle']),
    );
    expect(boundOf(drills, 'Headroom', { drill: { kind: 'word', word: 'Right-Angle' } })).toBe('12"');
  });

  it('is a conflict where equally many conditions apply and disagree', () => {
    const clash = one(limit('spacing', 'at-most 48"', ['storeys is 2']), limit('spacing', 'at-most 60"', ['heavy']));
    const answer = limitFor(clash, 'spacing', { storeys: storeys(2), heavy: { kind: 'holds' } });
    expect(answer.kind === 'conflict' ? answer.limits.length : answer.kind).toBe(2);
  });

  it('is no conflict where they say the same in other words', () => {
    const same = one(limit('spacing', 'at-most 48"', ['storeys is 2']), limit('spacing', `at-most 4'-0"`, ['heavy']));
    expect(limitFor(same, 'spacing', { storeys: storeys(2), heavy: { kind: 'holds' } }).kind).toBe('limit');
  });

  it('comes from the later of two rule sets for the same case', () => {
    const state = ruleSet('state', [limit('spacing', 'at-most 72"', ['storeys is 2', `piece at-least 12'-0"`])]);
    const town = ruleSet('town', [limit('spacing', 'at-most 48"', [`piece at-least 144"`, 'storeys is 2'])]);
    const query = { storeys: storeys(2), piece: long(feet(14)) };
    expect(boundOf(inForce(state, town), 'spacing', query)).toBe('48"');
    expect(boundOf(inForce(town, state), 'spacing', query)).toBe('72"');
  });

  it('replaces an earlier limit as a whole: the side that the later one leaves out is gone, not mixed in', () => {
    const state = ruleSet('state', [limit('end', 'at-least 9" at-most 12"')]);
    const town = ruleSet('town', [limit('end', 'at-least 7"')]);
    const answer = limitFor(inForce(state, town), 'end', {});
    expect(answer.kind === 'limit' && answer.limit.bounds.map((bound) => bound.comparison)).toEqual(['at-least']);
  });

  it('depends on a fact that nobody measured, and says which', () => {
    const answer = limitFor(tables, 'spacing', { storeys: wanted('storeys above wall F'), piece: long(feet(14)) });
    expect(answer).toEqual({ kind: 'depends', wants: 'storeys above wall F' });
  });

  it('does not depend on it where every value leads to the same answer', () => {
    const rules = one(
      limit('count', 'at-least 2', ['piece under 72"']),
      limit('count', 'at-least 3', ['storeys at-least 1', 'piece at-least 72"']),
    );
    expect(boundOf(rules, 'count', { storeys: wanted('storeys'), piece: long(feet(5)) })).toBe('2');
    expect(boundOf(rules, 'count', { storeys: wanted('storeys'), piece: long(feet(8)) })).toBe('3');
    expect(boundOf(rules, 'count', { storeys: wanted('storeys'), piece: wanted('length') })).toBe('depends');
  });
});

describe('the limits that ship, by what people know of a house', () => {
  const text = (...house: readonly string[]): string =>
    ['layout "House"', '  rules existing-building', 'house', ...house.map((line) => `  ${line}`), ''].join('\n');
  const ask = (house: readonly string[], subject: string, query: LimitQuery): string => {
    const { layout } = readLayout(text(...house));
    const answer = limitFor(layout.rules, subject, { heavy: heavyFact(layout), ...query });
    return answer.kind === 'limit'
      ? answer.limit.bounds.map((bound) => bound.value.typed).join(' to ')
      : answer.kind === 'depends'
        ? `depends on ${answer.wants}`
        : answer.kind;
  };
  const long = (feetLong: number): ConditionFact => ({ kind: 'length', length: feet(feetLong) });
  const bolt = (inchesThick: number): ConditionFact => ({ kind: 'length', length: inches(inchesThick) });

  it('by storeys and size of anchor (IEBC appendix A3, Table A304.3.1, from memory)', () => {
    const spacing = (count: number, thick: number) =>
      ask([], 'anchor-spacing', { storeys: storeys(count), bolt: bolt(thick), piece: long(20) });
    expect([spacing(1, 0.5), spacing(2, 0.5), spacing(2, 0.625), spacing(3, 0.625)]).toEqual([
      `6'-0"`,
      `4'-0"`,
      `6'-0"`,
      `4'-0"`,
    ]);
    expect(spacing(3, 0.5)).toBe('none');
  });

  it('by length of the board (Table A304.3.2, recalled)', () => {
    const count = (feetLong: number) =>
      ask([], 'piece-count', { storeys: storeys(2), bolt: bolt(0.5), piece: long(feetLong) });
    expect([count(2), count(4), count(8), count(12)]).toEqual(['1', '2', '4', 'none']);
  });

  it('by the materials of walls and roof, which make a house heavy or not (Table A304.3.1, from memory)', () => {
    const share = (...house: readonly string[]) => ask(house, 'bracing-share', { storeys: storeys(2) });
    expect(share('siding stucco', 'roof clay-tile')).toBe('70 %');
    expect(share('siding stucco', 'roof composition')).toBe('50 %');
    expect(share('siding wood-lap', 'roof clay-tile')).toBe('50 %');
    expect(share('siding stucco')).toBe('depends on kind of roof');
    expect(share('siding wood-lap')).toBe('50 %');
    expect(share('siding unknown', 'roof concrete-tile')).toBe('depends on wall finish');
  });

  it('by nail and by drill', () => {
    const nails = (penny: number) => ask([], 'panel-edge-nails', { nail: { kind: 'number', number: penny } });
    expect([nails(8), nails(10)]).toEqual(['4"', 'none']);
    const room = (word: string) => ask([], 'headroom-bolt', { drill: { kind: 'word', word } });
    expect([room('straight'), room('Right-Angle'), room('by-hand')]).toEqual(['24"', '12"', 'none']);
  });

  it('by a quantity, at its edge (section 2305.3.11 of the 2006 building code: above 350 plf)', () => {
    const { layout } = readLayout('layout "House"\n  rules new-building\n');
    const sill = (plf: number) => {
      const quantity = quantityOf(plf, 'plf');
      if (!quantity) throw new Error('no such unit');
      return limitFor(layout.rules, 'three-inch-sill', { 'allowable-shear': { kind: 'quantity', quantity } }).kind;
    };
    expect([sill(349), sill(350), sill(350.1)]).toEqual(['none', 'none', 'limit']);
  });

  it('prefers the more particular one, and at equal detail the set named later', () => {
    const { layout } = readLayout('layout "House"\n  rules existing-building, los-angeles\n');
    const answer = (piece: ConditionFact) =>
      limitFor(layout.rules, 'anchor-spacing', { storeys: storeys(2), bolt: bolt(0.5), piece });
    const sets = [answer(long(20)), answer(long(8))].map((each) => each.kind === 'limit' && each.limit.ruleSet);
    expect(sets).toEqual(['existing-building', 'los-angeles']);
    const same = limitFor(layout.rules, 'bracing-share', { storeys: storeys(2) });
    expect(same.kind === 'limit' && same.limit.ruleSet).toBe('los-angeles');
  });
});

describe('properties of the answer', () => {
  const number = fc.integer({ min: 1, max: 4 });
  const condition = fc.oneof(
    number.map((each) => `storeys is ${each}`),
    number.map((each) => `storeys at-least ${each}`),
    fc.integer({ min: 1, max: 6 }).map((each) => `piece under ${each * 12}"`),
    fc.constant('heavy'),
  );
  const limits = fc.array(
    fc.tuple(
      fc.integer({ min: 1, max: 5 }),
      fc.uniqueArray(condition, { maxLength: 3, selector: (each) => each.split(' ')[0] ?? '' }),
    ),
    { minLength: 1, maxLength: 8 },
  );
  const made = (from: readonly (readonly [number, readonly string[]])[]): readonly Limit[] =>
    from.map(([inchCount, conditions]) => limit('spacing', `at-most ${inchCount}"`, conditions));
  const query = fc.record({
    storeys: number.map(storeys),
    piece: fc.integer({ min: 1, max: 72 }).map((each) => long(inches(each))),
  });

  it('an answer does not hang on the order of the limits', () => {
    fc.assert(
      fc.property(limits, query, fc.boolean(), (from, asked, heavy) => {
        const full = heavy ? { ...asked, heavy: { kind: 'holds' } as const } : asked;
        const there = limitFor(one(...made(from)), 'spacing', full);
        const back = limitFor(one(...made(from).toReversed()), 'spacing', full);
        expect(back.kind).toBe(there.kind);
        if (there.kind === 'limit' && back.kind === 'limit')
          expect(back.limit.bounds[0]?.value.typed).toBe(there.limit.bounds[0]?.value.typed);
      }),
    );
  });

  it('with the storeys unknown, an answer that is given is the answer for each number of storeys', () => {
    fc.assert(
      fc.property(limits, query, number, (from, asked, real) => {
        const rules = one(...made(from));
        const open = limitFor(rules, 'spacing', { ...asked, storeys: wanted('storeys') });
        const told = limitFor(rules, 'spacing', { ...asked, storeys: storeys(real) });
        if (open.kind === 'depends') return;
        expect(told.kind).toBe(open.kind);
        if (open.kind === 'limit' && told.kind === 'limit')
          expect(told.limit.bounds[0]?.value.typed).toBe(open.limit.bounds[0]?.value.typed);
      }),
    );
  });

  it('the limit that wins applies, and none that applies has more conditions', () => {
    fc.assert(
      fc.property(limits, query, (from, asked) => {
        const all = made(from);
        const answer = limitFor(one(...all), 'spacing', asked);
        const applying = all.filter((each) => limitFor(one(each), 'spacing', asked).kind === 'limit');
        const most = Math.max(-1, ...applying.map((each) => each.conditions.length));
        if (answer.kind === 'none') expect(applying).toEqual([]);
        if (answer.kind === 'limit') expect(answer.limit.conditions.length).toBe(most);
      }),
    );
  });
});

describe('comparing', () => {
  const most48 = limit('spacing', 'at-most 48"').bounds[0];
  it('takes in the limit itself, and a tape mark more only with the tolerance', () => {
    if (!most48) throw new Error('no bound');
    const mark = sixteenth;
    expect(compareLength(most48, inches(48))).toBe(true);
    expect(compareLength(most48, nanometres(inches(48) + 1))).toBe(false);
    expect(compareLength(most48, nanometres(inches(48) + mark), mark)).toBe(true);
    expect(compareLength(most48, nanometres(inches(48) + mark + 1), mark)).toBe(false);
  });

  it('lets 1220 mm pass a limit of 48 in within the tolerance of a tape', () => {
    if (!most48) throw new Error('no bound');
    expect(compareLength(most48, millimetres(1220), sixteenth)).toBe(true);
    expect(compareLength(most48, millimetres(1221), sixteenth)).toBe(false);
  });

  it('has a tolerance of 1/16 in unless the rules say another', () => {
    expect(toleranceOf(one(limit('spacing', 'at-most 48"')))).toBe(sixteenth);
    expect(toleranceOf(one(limit('tolerance', 'is 1/8"')))).toBe(inches(0.125));
  });
});
