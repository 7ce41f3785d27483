import { describe, expect, it } from 'vitest';
import { formatSheet } from '../../language/syntax/format.ts';
import { lexBlock } from '../../language/syntax/lex-block.ts';
import { plain, randomFrom, readSheet, samples } from './support.ts';

const format = (text: string): string => formatSheet(text).text;

/** A sheet whose blanks, indentation and case of keywords were changed at random. */
function rumpled(text: string, seed: number): string {
  const random = randomFrom(seed);
  const { tokens, hidden } = lexBlock(text);
  const words = [...tokens, ...hidden].sort((a, b) => a.start - b.start);
  let result = '';
  let end = 0;
  for (const token of words) {
    const blanks = text.slice(end, token.start);
    result += blanks.includes('"') ? blanks : blanks.length > 0 ? ' '.repeat(1 + random.below(5)) : '';
    const typed = text.slice(token.start, token.start + token.image.length);
    result += token.kind === 'NL' && random.below(4) === 0 ? '   \n' : typed;
    end = token.start + token.image.length;
  }
  return result + text.slice(end);
}

describe.each(samples)('$path', ({ text }) => {
  it('is formatted the same from any blanks', () => {
    const canonical = format(text);
    for (let seed = 0; seed < 10; seed++) {
      const rough = rumpled(text, seed);
      expect(readSheet(rough).flatMap(({ problems }) => problems)).toEqual([]);
      const flush = rough.replaceAll(/^[ \t]+(?=\/\/)/gm, '  ');
      expect(withoutCommentIndent(format(flush))).toBe(withoutCommentIndent(canonical));
    }
  });

  it('means the same after it', () => {
    expect(readSheet(format(text)).map(({ tree }) => plain(tree))).toEqual(
      readSheet(text).map(({ tree }) => plain(tree)),
    );
  });

  it('keeps every comment, and each in its place between the words', () => {
    const wordsOf = (sheet: string): readonly string[] => {
      const { tokens, hidden } = lexBlock(sheet);
      return [...tokens, ...hidden.filter((token) => token.kind === 'COMMENT')]
        .filter((token) => token.kind !== 'NL')
        .sort((a, b) => a.start - b.start)
        .map((token) => token.image.trimEnd());
    };
    expect(wordsOf(format(rumpled(text, 99)))).toEqual(wordsOf(text));
  });

  it('keeps CR LF line breaks', () => {
    const turned = format(text.replaceAll('\n', '\r\n'));
    expect(turned).toBe(format(text).replaceAll('\n', '\r\n'));
  });

  it('is not changed by a second time', () => {
    expect(formatSheet(format(text)).changes).toEqual([]);
  });
});

/** Whether an indented comment goes with the line below it is another test's matter. */
const withoutCommentIndent = (text: string): string => text.replaceAll(/^ +(?=\/\/)/gm, '');

describe('the samples of this folder', () => {
  it('are in canonical format', () => {
    const own = samples.filter(({ path }) => path.startsWith('tests/'));
    expect(own.length).toBeGreaterThan(0);
    for (const { text } of own) expect(format(text)).toBe(text);
  });
});

describe('a line', () => {
  it.each([
    ['one blank between words', 'wall   F    "west"   turn  right', 'wall F "west" turn right'],
    [
      'none inside parentheses or before a comma',
      "girder GD from ( 0 ,0 ) to (1' , 2')",
      `girder GD from (0, 0) to (1', 2')`,
    ],
    ['keywords in small letters', "WALL F Turn RIGHT Length 3'", `wall F turn right length 3'`],
    ['names as typed', 'wall Basement "Wall" turn LEFT', 'wall Basement "Wall" turn left'],
    ['lengths as typed', `wall F length 36' - 4 3/8"  adjusted 36′-4″`, `wall F length 36' - 4 3/8" adjusted 36′-4″`],
    ['the words with capitals of their own', 'seismic sds 1.0 sd1 0.6 r 6.5', 'seismic SDS 1.0 SD1 0.6 R 6.5'],
    ['no blank at its end', 'wall F   ', 'wall F'],
    ['two blanks before a comment on a heading', 'wall F // west  ', 'wall F  // west'],
  ])('has %s', (_, before, after) => {
    expect(format(`${before}\n`)).toBe(`${after}\n`);
  });

  it('stands at two blanks, a carried-on one at four, a limit under its source at four', () => {
    expect(
      format(`  wall Z
sill A
+ to 3' butt
      rim seen
ruleset q
limit a required
source "s" recalled
limit b required
   + note "x"
   note "y"
`),
    ).toBe(`wall Z
  sill A
    + to 3' butt
  rim seen
ruleset q
  limit a required
  source "s" recalled
    limit b required
      + note "x"
  note "y"
`);
  });

  it('loses the `from` of a stretch, but not behind a value', () => {
    expect(format(`wall F\n  sill A from 0" to 3'\n  headroom 7" from 4' to 6'\n  vent V1 from 5' to 6'\n`)).toBe(
      `wall F\n  sill A 0" to 3'\n  headroom 7" from 4' to 6'\n  vent V1 5' to 6'\n`,
    );
  });

  it('is never joined to another or broken, and keeps its place', () => {
    expect(format('wall F\n\n\n\n  sill A\n\n  rim seen\n\n\n')).toBe('wall F\n\n  sill A\n\n  rim seen\n\n');
    expect(format('wall F')).toBe('wall F');
  });
});

describe('comments', () => {
  it('on lines of their own stay at the left edge, or go with the line below', () => {
    expect(
      format(`wall F
// at the edge
      // indented
  sill A
 // last
ruleset r
  source "s" recalled
// edge
  // of the limit
    limit a required
`),
    ).toBe(`wall F
// at the edge
  // indented
  sill A
  // last
ruleset r
  source "s" recalled
// edge
    // of the limit
    limit a required
`);
  });

  it('at the end of neighbouring lines of one kind line up', () => {
    expect(
      format(`work on F
  anchor F-9 bolt-half at 21'-1" // one
  anchor F-10 bolt-half at 24'-8" proposed // two
  anchor F-11 bolt-half at 28'-4"
`),
    ).toBe(`work on F
  anchor  F-9     bolt-half   at 21'-1"             // one
  anchor  F-10    bolt-half   at 24'-8"   proposed  // two
  anchor  F-11    bolt-half   at 28'-4"
`);
  });
});

describe('lines of one kind', () => {
  const formatted = (body: string): string => format(`wall F\n${body}`).slice('wall F\n'.length);

  it('line up as far as their parts are the same', () => {
    expect(
      formatted(`  sill F1 to 9'-7" set-back 1/2" headroom 11-1/8" butt
  sill F2 to 20'-4" set-back 3/4" headroom 11-1/8" step damp
  sill F3 to end set-back 0" headroom 25-1/8" corner
`),
    ).toBe(`  sill    F1  to 9'-7"    set-back 1/2"   headroom 11-1/8"    butt
  sill    F2  to 20'-4"   set-back 3/4"   headroom 11-1/8"    step    damp
  sill    F3  to end      set-back 0"     headroom 25-1/8"    corner
`);
  });

  it('leave one blank behind the first part that differs', () => {
    expect(
      formatted(`  anchor X4 1/2" at 1'-2" J-bolt heavy-rust nut none
  anchor X5 1/2" at 7'-6" light-rust washer round
`),
    ).toBe(`  anchor  X4  1/2"    at 1'-2"    J-bolt heavy-rust nut none
  anchor  X5  1/2"    at 7'-6"    light-rust washer round
`);
  });

  it.each([
    ['a blank line', `  vent V1 5' to 6'\n\n  vent V10 15' to 16'\n`],
    ['a comment line', `  vent V1 5' to 6'\n  // between\n  vent V10 15' to 16'\n`],
    ['another kind of line', `  vent V1 5' to 6'\n  rim seen\n  vent V10 15' to 16'\n`],
    ['a line that is carried on', `  vent V1 5' to 6'\n  vent V2 7' to 8'\n    + movable\n  vent V10 15' to 16'\n`],
  ])('do not line up across %s', (_, body) => {
    expect(formatted(body)).toBe(body);
  });

  it('leave texts alone', () => {
    const body = '  note "one"\n  note "two, longer" by "me"\n  ask "three"\n  ask "four"\n';
    expect(formatted(body)).toBe(body);
  });
});

describe('what cannot be read', () => {
  const text = `wall  F
   sill A to
wall   G
     rim   seen
wal H
     rim   seen
`;

  it('stays as it is, is named, and hinders no other block', () => {
    const { text: after, skipped } = formatSheet(text);
    expect(after).toBe(`wall  F
   sill A to
wall G
  rim seen
wal H
     rim   seen
`);
    expect(skipped.map(({ start, end, problem }) => [text.slice(start, end), problem.code])).toEqual([
      ['wall  F\n   sill A to\n', 'syntax'],
      ['wal H\n     rim   seen\n', 'unread-block'],
    ]);
  });
});

describe('a range', () => {
  const text = `wall  F
   vent V1   5' to 6'
   vent V10   15' to 16'

   rim   seen
wall   G
`;

  it('changes the lines that it touches and those lined up with them, no other', () => {
    const start = text.indexOf('V10');
    const { text: after, changes } = formatSheet(text, { range: { start, end: start } });
    expect(after).toBe(`wall  F
  vent    V1  5' to 6'
  vent    V10 15' to 16'

   rim   seen
wall   G
`);
    expect(changes).toHaveLength(2);
  });
});

describe('the changes', () => {
  it('are one for each line that differs, and give the text when applied', () => {
    const text = "wall  F\n  rim seen\n   sill   A\n\n\n  vent V1 5' to 6'\n";
    const { changes, text: after } = formatSheet(text);
    expect(changes.map(({ start, end, text: written }) => [text.slice(start, end), written])).toEqual([
      ['wall  F', 'wall F'],
      ['   sill   A', '  sill A'],
      ['\n', ''],
    ]);
    const applied = changes.reduceRight(
      (result, { start, end, text: written }) => result.slice(0, start) + written + result.slice(end),
      text,
    );
    expect(applied).toBe(after);
  });
});
