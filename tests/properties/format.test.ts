import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cutBlocks } from '../../language/syntax/cut.ts';
import { formatSheet } from '../../language/syntax/format.ts';
import { lexBlock } from '../../language/syntax/lex-block.ts';
import { commentsOf } from '../support/comments.ts';
import { houseOf } from '../support/houses/house.ts';
import { manyHouses, patience } from '../support/houses/many-houses.ts';
import { meaningOf } from '../support/meaning.ts';
import { readLayout } from '../support/read-layout.ts';

const long = Boolean(process.env.SILLWRIGHT_LONG);

/** What is wrong with formatting this text; nothing where all is well. */
function faultsOfFormatting(text: string): readonly string[] {
  const formatted = formatSheet(text);
  const faults: string[] = [];
  if (formatSheet(formatted.text).text !== formatted.text) faults.push('formatting twice is not formatting once');
  if (!same(tokensOf(text), tokensOf(formatted.text))) faults.push('tokens differ');
  if (!same(commentsOf(text), commentsOf(formatted.text))) faults.push('comments differ');
  return faults;
}

/**
 * The tokens of all blocks in order. Keywords count in any case, and the `from` that a stretch does not need may go: the formatter
 * writes it only behind a value.
 */
function tokensOf(text: string): readonly string[] {
  return cutBlocks(text).flatMap((cut) =>
    lexBlock(cut.text).tokens.flatMap(({ kind, image }) => {
      if (kind === 'NL' || kind === 'END') return [];
      const word = kind === 'STRING' ? image : image.toLowerCase();
      return word === 'from' ? [] : [word];
    }),
  );
}

const same = (some: readonly string[], others: readonly string[]): boolean =>
  some.length === others.length && some.every((each, index) => each === others[index]);

describe('formatting', () => {
  it(
    'keeps every token and comment of any house, once and for all',
    () => {
      for (const { text, facts } of manyHouses(120, 10_000, { untidy: true })) {
        expect({ seed: facts.seed, faults: faultsOfFormatting(text) }).toEqual({ seed: facts.seed, faults: [] });
        expect(formatSheet(text).skipped).toEqual([]);
      }
    },
    patience,
  );

  it(
    'keeps the meaning of any house',
    () => {
      for (const { text, facts } of manyHouses(60, 2_000, { untidy: true })) {
        const before = JSON.stringify(meaningOf(readLayout(text).layout));
        const after = JSON.stringify(meaningOf(readLayout(formatSheet(text).text).layout));
        expect({ seed: facts.seed, same: before === after }).toEqual({ seed: facts.seed, same: true });
      }
    },
    patience,
  );

  it(
    'keeps every token and comment of houses with a slip of the pen in them',
    () => {
      const slip = fc.record({
        seed: fc.integer({ min: 0, max: 5_000 }),
        cuts: fc.array(
          fc.record({
            at: fc.double({ min: 0, max: 1, noNaN: true }),
            gone: fc.integer({ min: 0, max: 12 }),
            put: fc.oneof(
              fc.constantFrom(
                '"',
                "'",
                '\n',
                '//',
                ' ',
                '+',
                '\t',
                '(',
                '{',
                'wall ',
                'to ',
                '1/',
                "3'",
                '\n  + ',
                '-',
                ',',
                'note ',
              ),
              fc.string({ maxLength: 4 }),
            ),
          }),
          { minLength: 1, maxLength: 4 },
        ),
      });
      fc.assert(
        fc.property(slip, ({ seed, cuts }) => {
          const house = houseOf(seed, { design: true, untidy: true }).text;
          // One or two blocks are enough to be hurt, and quick to read.
          let text = house.slice(0, Math.min(house.length, 3_000));
          for (const { at, gone, put } of cuts) {
            const place = Math.floor(at * text.length);
            text = text.slice(0, place) + put + text.slice(place + gone);
          }
          expect(faultsOfFormatting(text)).toEqual([]);
        }),
        { numRuns: long ? 10_000 : 300, seed: 20_260_418 },
      );
    },
    patience,
  );
});
