import { describe, expect, it } from 'vitest';
import { cutBlocks } from '../../language/syntax/cut.ts';
import { parseBlock } from '../../language/syntax/parse.ts';
import { problemsOf, readSheet, samples } from './support.ts';

/** The text after the first replacement of its first problem. */
function mended(text: string): string {
  for (const cut of cutBlocks(text)) {
    const replacement = parseBlock(cut).problems[0]?.replacements[0];
    if (!replacement) continue;
    const start = cut.start + replacement.start;
    return text.slice(0, start) + replacement.text + text.slice(cut.start + replacement.end);
  }
  return text;
}

interface Case {
  readonly line: string;
  readonly says: string;
  /** The line after the fix; `undefined` where there is none. */
  readonly mended?: string;
}

const under: Readonly<Record<string, readonly Case[]>> = {
  'wall F': [
    {
      line: `sill F1 to 9'-7" headrom 7" butt`,
      says: 'syntax "headrom" `headrom`: did you mean `headroom`?',
      mended: `sill F1 to 9'-7" headroom 7" butt`,
    },
    {
      line: `ancor X 1/2" at 3'`,
      says: 'syntax "ancor" `ancor`: did you mean `anchor`?',
      mended: `anchor X 1/2" at 3'`,
    },
    { line: 'turn rihgt', says: 'syntax "rihgt" `rihgt`: did you mean `right`?', mended: 'turn right' },
    {
      line: 'turn',
      says: 'syntax "turn" after `turn` write `left`, `right`, `straight` or a number with its unit, for example `45°`',
    },
    {
      line: 'turn foo',
      says: 'syntax "foo" after `turn` write `left`, `right`, `straight` or a number with its unit, for example `45°`, not `foo`',
    },
    { line: 'sill F2 to', says: `syntax "to" after \`to\` write a place, for example \`3'-1"\`, \`start\` or \`end\`` },
    {
      line: 'sill F2 to foo set-back 1"',
      says: `syntax "foo" after \`to\` write a place, for example \`3'-1"\`, \`start\` or \`end\`, not \`foo\``,
    },
    {
      line: `vent V1 5'-0"-6'-4"`,
      says: `syntax "-6'-4\\"" write \`to\` between two lengths: \`5'-0" to 6'-4"\``,
      mended: `vent V1 5'-0" to 6'-4"`,
    },
    {
      line: `vent V1 5'-0" 6'-4"`,
      says: `syntax "6'-4\\"" write \`to\` between two lengths: \`5'-0" to 6'-4"\``,
      mended: `vent V1 5'-0" to 6'-4"`,
    },
    {
      line: `anchor 1/2" at 3' 4'`,
      says: `syntax "4'" write \`,\` between two lengths: \`3', 4'\``,
      mended: `anchor 1/2" at 3', 4'`,
    },
    {
      line: 'sill size 1-1/2" 5-1/2" flush',
      says: `syntax "5-1/2\\"" write \`x\` between two lengths: \`1-1/2" x 5-1/2"\``,
      mended: 'sill size 1-1/2" x 5-1/2" flush',
    },
    {
      line: 'sill size 8"x9"',
      says: 'open-string "\\"" put a space on both sides of `x`: `8" x 9"`',
      mended: 'sill size 8" x 9"',
    },
    {
      line: 'note "abc',
      says: 'open-string "\\"abc" this text is not closed: put `"` at its end',
      mended: 'note "abc"',
    },
    { line: 'note “abc', says: 'open-string "“abc" this text is not closed: put `”` at its end', mended: 'note “abc”' },
    {
      line: 'foundation thick 12 " showing 7"',
      says: 'syntax "\\"" the inch mark touches its number: write `12"`',
      mended: 'foundation thick 12" showing 7"',
    },
    {
      line: 'foundation thick 12 "',
      says: 'open-string "\\"" the inch mark touches its number: write `12"`',
      mended: 'foundation thick 12"',
    },
    {
      line: `foundation thick 12 '`,
      says: 'stray-character "\'" the foot mark touches its number: no space before `\'`',
      mended: `foundation thick 12'`,
    },
    {
      line: 'foundation thick 7" }',
      says: 'stray-brace "}" no brackets are needed: delete `}`',
      mended: 'foundation thick 7" ',
    },
    {
      line: 'foundation thick: 7"',
      says: 'stray-character ":" `:` has no meaning here: delete it',
      mended: 'foundation thick 7"',
    },
    {
      line: 'foundation thick 7"\u0000',
      says: 'stray-character "\\u0000" a character that cannot be printed (U+0000) has no meaning here: delete it',
      mended: 'foundation thick 7"',
    },
    { line: `sill F5 to 9' grade 5"`, says: 'syntax "grade" `grade` does not belong to `sill`' },
    {
      line: `sill F6 to 9' foundation thick 6"`,
      says: 'two-lines "foundation" start a new line before `foundation`',
      mended: `sill F6 to 9'\n  foundation thick 6"`,
    },
    { line: `post P1 at 3'`, says: 'syntax "post" `post` is no line of a `wall` block: it stands under `girder`' },
    { line: `3'-6" to 8'-0" chimney`, says: 'syntax "3\'-6\\"" a line of `wall` cannot start with `3\'-6"`' },
    { line: `sill at to 9'`, says: 'syntax "at" `at` has no place on this `sill` line', mended: `sill  to 9'` },
    {
      line: 'foundation strength',
      says: 'syntax "strength" after `strength` write a value, for example `2000 psi`, or `unknown`',
    },
    {
      line: `chimney K1`,
      says: `syntax "K1" after \`K1\` write a place, for example \`at 3'-1"\` or \`4'-0" to 5'-4"\``,
    },
    {
      line: 'set-back 2"',
      says: `syntax "2\\"" after \`2"\` write a place, for example \`at 3'-1"\` or \`from 4'-0" to 5'-4"\``,
    },
    {
      line: 'accept because "so"',
      says: 'syntax "because" after `accept` write the id of a finding, for example `anchorage/end-too-far`, not `because`',
    },
    { line: 'photo x', says: 'syntax "x" after `photo` write a number, not `x`' },
  ],
  'work on F': [
    {
      line: 'anchor A-1 bolt-half at',
      says: `syntax "at" after \`at\` write a place, for example \`3'-1"\`, \`start\` or \`end\``,
    },
    { line: `anchor A-1 at 3'`, says: 'syntax "at" after `A-1` write the name of a connector, not `at`' },
    { line: `anchor at 3'`, says: 'syntax "at" after `anchor` write a mark, for example `A-1`, not `at`' },
    { line: 'anchor', says: 'syntax "anchor" after `anchor` write a mark, for example `A-1`' },
    {
      line: `anchor A-1 bolt-half 3'`,
      says: `syntax "3'" write \`at\` before \`3'\``,
      mended: `anchor A-1 bolt-half at 3'`,
    },
    {
      line: 'no work "because so"',
      says: 'syntax "\\"because so\\"" write `because` before `"because so"`',
      mended: 'no work because "because so"',
    },
    {
      line: `angles A a 0" to 3' evry bay`,
      says: 'syntax "evry" `evry`: did you mean `every`?',
      mended: `angles A a 0" to 3' every bay`,
    },
    {
      line: 'blocking',
      says: 'syntax "blocking" after `blocking` write the bays, for example `every bay` or `bays 2, 4, 6`',
    },
    {
      line: 'panel P',
      says: `syntax "P" after \`P\` write from where to where, for example \`4'-0" to 5'-4"\` or \`to end\``,
    },
    {
      line: `anchor A-1 bolt-half at 3' proposd`,
      says: 'syntax "proposd" `proposd`: did you mean `proposed`?',
      mended: `anchor A-1 bolt-half at 3' proposed`,
    },
  ],
  'record 2026-06-10': [
    {
      line: 'omitted F-4 "hit a stone"',
      says: 'syntax "\\"hit a stone\\"" write `because` before `"hit a stone"`',
      mended: 'omitted F-4 because "hit a stone"',
    },
    { line: 'installed', says: 'syntax "installed" after `installed` write a mark, for example `A-1`' },
    {
      line: 'tested A-1 torque',
      says: 'syntax "torque" after `torque` write a value, for example `45 ft-lb`, or `unknown`',
    },
  ],
  'connector c strap': [
    {
      line: 'holes in concrete (1" 2")',
      says: 'syntax "2\\"" write `,` before `2"`',
      mended: 'holes in concrete (1", 2")',
    },
    {
      line: 'into concret 2 rod size 1/2"',
      says: 'syntax "concret" `concret`: did you mean `concrete`?',
      mended: 'into concrete 2 rod size 1/2"',
    },
  ],
  'ruleset r': [
    { line: 'limit', says: 'syntax "limit" after `limit` write what is limited, for example `anchor-spacing`' },
    {
      line: `limit anchor-spacing at-mst 4'`,
      says: 'syntax "at-mst" `at-mst`: did you mean `at-most`?',
      mended: `limit anchor-spacing at-most 4'`,
    },
    {
      line: 'limit a',
      says: 'syntax "a" after `a` write `at-least`, `at-most`, `over`, `under`, `is`, `required` or another of its words',
    },
    {
      line: 'source "x" publishd',
      says: 'syntax "publishd" `publishd`: did you mean `published`?',
      mended: 'source "x" published',
    },
  ],
};

describe.each(Object.entries(under))('under `%s`', (heading, cases) => {
  it.each(cases)('$line', ({ line, says, mended: wanted }) => {
    const text = `${heading}\n  ${line}\n`;
    expect(problemsOf(text)).toEqual([says]);
    const after = mended(text);
    expect(after).toBe(wanted === undefined ? text : `${heading}\n  ${wanted}\n`);
  });

  it('and every fix mends what it was offered for', () => {
    for (const { line, mended: wanted } of cases) {
      if (wanted === undefined) continue;
      const before = problemsOf(`${heading}\n  ${line}\n`);
      const after = problemsOf(`${heading}\n  ${wanted}\n`);
      expect(after.filter((problem) => before.includes(problem))).toEqual([]);
    }
  });
});

describe('headings', () => {
  it.each([
    { line: 'wal F\n  sill F1', says: 'unread-block "wal" `wal`: did you mean `wall`?', mended: 'wall F\n  sill F1' },
    { line: 'wall', says: 'syntax "wall" after `wall` write a name, for example `A` or `north`' },
    {
      line: 'wall end',
      says: 'syntax "end" `end` has its own meaning; as a name it stands in quotes',
      mended: 'wall "end"',
    },
    {
      line: `wall F trn right length 3'`,
      says: 'syntax "trn" `trn`: did you mean `turn`?',
      mended: `wall F turn right length 3'`,
    },
    { line: 'work', says: 'syntax "work" after `work` write `on`' },
    { line: 'work F', says: 'syntax "F" write `on` before `F`', mended: 'work on F' },
    { line: 'work on', says: 'syntax "on" after `on` write the name of a wall or girder' },
    { line: 'record', says: 'syntax "record" after `record` write a date, for example `2026-06-11`' },
    {
      line: 'record 10.6.2026',
      says: 'syntax "10.6" after `record` write a date, for example `2026-06-11`, not `10.6`',
    },
    { line: 'layout Demo', says: 'syntax "Demo" after `layout` write a text in quotes, not `Demo`' },
    { line: 'use', says: 'syntax "use" after `use` write a text in quotes' },
    { line: 'use "a.sill"\n  sill F1', says: 'syntax "sill" `sill` does not belong to `use`' },
    {
      line: 'connector c',
      says: 'syntax "c" after `c` write what kind of connector it is, for example `side-plate` or `through-bolt`',
    },
    { line: 'wall F {', says: 'stray-brace "{" no brackets are needed: delete `{`', mended: 'wall F ' },
  ])('$line', ({ line, says, mended: wanted }) => {
    expect(problemsOf(`${line}\n`)).toEqual([says]);
    expect(mended(`${line}\n`)).toBe(`${wanted ?? line}\n`);
  });

  it('a sheet that starts with something else is told so once', () => {
    const [problem, ...more] = problemsOf('  sill F1\n  sill F2\n\nwall F\n');
    expect(problem).toMatch(
      /^outside-blocks "sill" `sill` stands above the first heading\. Start a block with one of `use`, /,
    );
    expect(more).toEqual([]);
  });

  it('that is too long is the one thing said', () => {
    expect(problemsOf(`wall F note "${'x'.repeat(5000)}"\n  sill F1\n`).map((each) => each.split(' ')[0])).toEqual([
      'line-too-long',
    ]);
  });

  it('a block of prose is one finding', () => {
    expect(problemsOf('Dear Sam,\n  please look at wall F.\n')).toHaveLength(1);
  });
});

describe('the words of the messages', () => {
  const all = [...Object.values(under).flat()].map(({ says }) => says);

  it('are those of a foreman, not of a parser', () => {
    for (const message of all) {
      expect(message).not.toMatch(/invalid|please|token|expect|unexpected|parse|EOF|redundant|undefined/i);
      expect(message).not.toMatch(/NaN|\bID\b/);
    }
  });
});

describe('many mistakes in one block', () => {
  it('are counted, after the first fifty', () => {
    const { problems } = readSheet(`wall F\n${'  foo bar\n'.repeat(200)}`)[0] ?? { problems: [] };
    expect(problems).toHaveLength(51);
    expect(problems.at(-1)).toMatchObject({
      code: 'more-problems',
      message: 'and 150 more that cannot be read in this block',
    });
  });

  it('come in the order of the text', () => {
    const starts = problemsOf;
    for (const { text } of samples) {
      const spoilt = text.replaceAll(/^( {2,}\w+) /gm, '$1 { ');
      for (const { problems } of readSheet(spoilt)) {
        expect(problems.map(({ start }) => start)).toEqual(problems.map(({ start }) => start).sort((a, b) => a - b));
      }
      expect(starts(spoilt).length).toBeGreaterThan(0);
    }
  });
});
