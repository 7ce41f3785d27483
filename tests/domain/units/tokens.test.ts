import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LengthUnits } from '../../../language/domain/model/layout.ts';
import { formatExact, formatExactStation } from '../../../language/domain/units/format-length.ts';
import { formatQuantity } from '../../../language/domain/units/format-quantity.ts';
import { nanometres } from '../../../language/domain/units/length.ts';
import { LONGEST_LENGTH, parseLength } from '../../../language/domain/units/parse-length.ts';
import { parseQuantity } from '../../../language/domain/units/parse-quantity.ts';
import { QUANTITY_UNITS, quantityOf } from '../../../language/domain/units/quantity.ts';
import { terminals } from '../../../language/generated/rules.ts';

const whole = (terminal: RegExp): RegExp => new RegExp(`^(?:${terminal.source})$`, terminal.flags);
const LENGTH = whole(terminals.LENGTH);
const LOOSE = whole(terminals.LOOSE);
const HALF_LENGTH = whole(terminals.HALF_LENGTH);
const QUANTITY = whole(terminals.QUANTITY);
const NUMBER = whole(terminals.NUMBER);

/** Texts of the shapes that the tokens have, whether one token or not. */
const pieces = (...texts: readonly string[]) =>
  fc.array(fc.constantFrom(...texts), { minLength: 1, maxLength: 9 }).map((parts) => parts.join(''));
const lengthLike = pieces(
  '1',
  '12',
  '3.5',
  '1/2',
  '7/16',
  '½',
  '⅓',
  '-',
  '–',
  '−',
  ' ',
  "'",
  '’',
  '′',
  '"',
  '”',
  '″',
  "''",
  'ft',
  ' in',
  'mm',
  ' m',
  '+',
);

describe('what the grammar takes for one token of a length', () => {
  it('has a meaning, or a reason in words', () => {
    let seen = 0;
    fc.assert(
      fc.property(lengthLike, (text) => {
        if (!LENGTH.test(text)) return;
        seen += 1;
        const parsed = parseLength(text);
        if (parsed.kind === 'bad') expect(parsed.reason).toContain('longer than 10 000 ft');
        else expect(parsed.kind, text).toBe('length');
      }),
      { numRuns: 30_000 },
    );
    expect(seen).toBeGreaterThan(100);
  });

  it('is questioned or refused where it lacks its marks', () => {
    fc.assert(
      fc.property(lengthLike, (text) => {
        const parsed = parseLength(text);
        if (HALF_LENGTH.test(text) && !LENGTH.test(text)) expect(parsed.kind, text).toBe('bad');
        if (LOOSE.test(text)) expect(parsed.kind !== 'length' || parsed.doubt !== undefined, text).toBe(true);
      }),
      { numRuns: 30_000 },
    );
  });
});

describe('what tools write into a file', () => {
  it('is one token of a length', () => {
    const anyLength = fc.integer({ min: -LONGEST_LENGTH, max: LONGEST_LENGTH }).map(nanometres);
    const onTape = fc.integer({ min: -80_000, max: 80_000 }).map((count) => nanometres(count * 396_875));
    fc.assert(
      fc.property(
        fc.oneof(anyLength, onTape),
        fc.constantFrom<LengthUnits>('feet-inches', 'metric'),
        (length, units) => {
          expect(formatExact(length, units)).toMatch(LENGTH);
          expect(formatExactStation(length, units)).toMatch(LENGTH);
        },
      ),
      { numRuns: 2000 },
    );
  });

  it('is one token of a quantity', () => {
    for (const unit of QUANTITY_UNITS.keys()) {
      for (const value of [0, 7, 2500, -45, 0.25, 13.8]) {
        const quantity = quantityOf(value, unit);
        if (!quantity) throw new Error(`${unit} is a unit`);
        expect(formatQuantity(quantity)).toMatch(unit === '' ? NUMBER : QUANTITY);
      }
    }
  });

  it('is a quantity wherever the grammar takes one', () => {
    const quantityLike = pieces(
      '1',
      '12',
      '3.5',
      '-',
      '−',
      '+',
      ' ',
      ...[...QUANTITY_UNITS.keys()].filter((unit) => unit !== ''),
    );
    fc.assert(
      fc.property(quantityLike, (text) => {
        if (QUANTITY.test(text) || NUMBER.test(text)) expect(parseQuantity(text), text).toBeDefined();
      }),
      { numRuns: 20_000 },
    );
  });
});
