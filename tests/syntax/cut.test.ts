import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cutAgain, cutBlocks } from '../../language/syntax/cut.ts';
import { blockWords, lineWords } from '../../language/syntax/words.ts';
import { samples } from './support.ts';

const cut = (text: string): readonly string[] =>
  cutBlocks(text).map(({ kind, word, text: own }) => `${word ?? kind}|${own}`);

describe('a sheet is cut', () => {
  it('at every block word that starts a line, whatever its case and indentation', () => {
    expect(cut('wall A\n  sill\n  WALL B\n\tGirder GD\nx-wall\n')).toEqual([
      'wall|wall A\n  sill\n',
      'wall|  WALL B\n',
      'girder|\tGirder GD\n',
      'unread|x-wall\n',
    ]);
  });

  it('above the comment lines that stand directly above a heading', () => {
    expect(cut('// file\n\n// north\n  // side\nwall A\n  sill // end\n// next\nwall B\n')).toEqual([
      'preamble|// file\n\n',
      'wall|// north\n  // side\nwall A\n  sill // end\n',
      'wall|// next\nwall B\n',
    ]);
    expect(cut('wall A\n// of A\n\nwall B\n')).toEqual(['wall|wall A\n// of A\n\n', 'wall|wall B\n']);
  });

  it('at a word at the left edge that is neither a block word nor a line word, and holds back what follows', () => {
    expect(cut('wall A\n  sill A\nwal B\n  sill B\nwall C\n')).toEqual([
      'wall|wall A\n  sill A\n',
      'unread|wal B\n  sill B\n',
      'wall|wall C\n',
    ]);
  });

  it('but not at a line word at the left edge, nor at a strange word that is indented', () => {
    expect(cut('wall A\nsill A\nNote "x"\n  silk B\n{\n"text"\n+ to 3\'\n12"\n')).toHaveLength(1);
  });

  it('nowhere in a word that only begins like a block word', () => {
    expect(cut('line a walls A\n  walls B\nwall A\n  wall-like\n  walled\n')).toEqual([
      'line|line a walls A\n  walls B\n',
      'wall|wall A\n  wall-like\n  walled\n',
    ]);
  });

  it('with each kind of line break', () => {
    expect(cut('wall A\r\n  x\r\nwall B\rwall C\nwall D')).toEqual([
      'wall|wall A\r\n  x\r\n',
      'wall|wall B\r',
      'wall|wall C\n',
      'wall|wall D',
    ]);
  });

  it('into nothing where there is nothing', () => {
    expect(cutBlocks('')).toEqual([]);
  });

  it('although a heading carries thousands of characters', () => {
    const long = `wall B note "${'x'.repeat(10_000)}"\n`;
    expect(cutBlocks(`wall A\n${long}wall C\n`).map(({ text }) => text)).toEqual(['wall A\n', long, 'wall C\n']);
  });
});

describe('the texts of the blocks', () => {
  const pieces = fc.oneof(
    fc.constantFrom(...blockWords, ...lineWords),
    fc.constantFrom(
      '\n',
      '\r\n',
      '\r',
      ' ',
      '  ',
      '//',
      '"',
      '{',
      'wal',
      'Foo',
      '\uFEFF',
      '\u2028',
      '+',
      "3'",
      '\0',
      '\ud800',
    ),
    fc.string({ maxLength: 4 }),
  );

  it('joined are the sheet, whatever it holds', () => {
    fc.assert(
      fc.property(fc.array(pieces, { maxLength: 60 }), (parts) => {
        const text = parts.join('');
        const blocks = cutBlocks(text);
        expect(blocks.map((block) => block.text).join('')).toBe(text);
        let start = 0;
        for (const block of blocks) {
          expect(block.start).toBe(start);
          expect(block.text).not.toBe('');
          start += block.text.length;
        }
        for (const block of blocks) expect(block.kind === 'block').toBe(block.word !== undefined);
      }),
      { seed: 11, numRuns: 2000 },
    );
  });

  it('are the same when only what an edit touched is cut again', () => {
    const lines = fc.constantFrom(
      'wall A\n',
      '  sill A\n',
      '// note\n',
      'use "x"',
      'use "x"\n',
      '\n',
      'Foo\r',
      'work on A\r\n',
    );
    const text = fc.array(fc.oneof({ weight: 3, arbitrary: lines }, pieces), { maxLength: 30 });
    const edit = fc.record({
      at: fc.nat(),
      length: fc.nat({ max: 30 }),
      parts: fc.array(fc.oneof(lines, pieces), { maxLength: 3 }),
    });
    fc.assert(
      fc.property(text, fc.array(edit, { minLength: 1, maxLength: 4 }), (parts, edits) => {
        let before = parts.join('');
        for (const { at, length, parts: added } of edits) {
          const start = at % (before.length + 1);
          const now = before.slice(0, start) + added.join('') + before.slice(start + length);
          const old = cutBlocks(before);
          const again = cutAgain(now, {
            text: before,
            blocks: old,
            starts: [...old.map((block) => block.start), before.length],
          });
          const moved = now.length - before.length;
          expect([
            ...old.slice(0, again.before),
            ...again.between,
            ...old.slice(old.length - again.after).map((block) => ({ ...block, start: block.start + moved })),
          ]).toEqual(cutBlocks(now));
          before = now;
        }
      }),
      { seed: 12, numRuns: 5000 },
    );
  });

  it('are cut the same when one of them stands alone', () => {
    for (const { text } of samples) {
      for (const block of cutBlocks(text)) {
        const [alone, ...more] = cutBlocks(block.text);
        expect(more).toEqual([]);
        expect({ ...alone, start: block.start }).toEqual(block);
      }
    }
  });
});
