import { describe, expect, it } from 'vitest';
import { problemsOfLimits } from '../../language/syntax/assemble/limits.ts';
import { shippedBlocks, shippedRuleSets } from '../../language/syntax/shipped-rule-sets.ts';
import { analyse, placedFindings } from '../support/analyse.ts';

/*
 * What is wrong with a rule-set or a hardware file, told where it stands. Each case: the line, the words that the message is
 * drawn under, the message, and the line after the first mend where one is offered.
 */
interface Case {
  readonly line: string;
  readonly at: string;
  readonly says: string;
  readonly mended?: string;
}

/** `severity code: message` for every finding, with the words that it is drawn under. */
function told(text: string): readonly { readonly at: string; readonly says: string }[] {
  const lines = text.split('\n');
  return placedFindings(analyse(text)).map(({ line, from, to, severity, rule, message }) => ({
    at: lines[line]?.slice(from, to) ?? '',
    says: `${severity} ${rule}: ${message}`,
  }));
}

function mended(text: string): string {
  const analysis = analyse(text);
  for (const { fixes } of analysis.checked.findings) {
    const [edit] = fixes[0]?.edits ?? [];
    if (edit?.kind !== 'replace-text') continue;
    const place = analysis.locate(edit.span);
    if (place) return text.slice(0, place.start) + edit.text + text.slice(place.end);
  }
  return text;
}

function check(text: (line: string) => string, { line, at, says, mended: after }: Case): void {
  expect(told(text(line))).toEqual([{ at, says }]);
  if (after !== undefined) expect(mended(text(line))).toBe(text(after));
}

describe('a rule set that says of a limit', () => {
  const ruleSet = (line: string): string => `ruleset mine "Mine"\n  source "Table 9" published\n    ${line}\n`;

  it.each<readonly [string, Case]>([
    [
      'a subject that no check reads',
      {
        line: `limit anchor-spacin at-most 4'-0"`,
        at: 'anchor-spacin',
        says: 'warning language/unknown-subject: No check reads a limit on `anchor-spacin`; did you mean `anchor-spacing`?',
        mended: `limit anchor-spacing at-most 4'-0"`,
      },
    ],
    [
      'a subject that resembles none',
      {
        line: `limit wobble at-most 4'-0"`,
        at: 'wobble',
        says: 'warning language/unknown-subject: No check reads a limit on `wobble`',
      },
    ],
    [
      'a value of another dimension',
      {
        line: 'limit anchor-spacing at-most 900 lb',
        at: '900 lb',
        says: 'error language/wrong-kind: A limit on `anchor-spacing` takes a length, such as `at-most 4\'-0"`.',
      },
    ],
    [
      'a value where a verdict belongs',
      {
        line: 'limit bracing-ends at-least 2',
        at: '2',
        says: 'error language/wrong-kind: A limit on `bracing-ends` takes one of `required`, `not-required`, `allowed`, `not-allowed`.',
      },
    ],
    [
      'a verdict where a value belongs',
      {
        line: 'limit anchor-spacing required',
        at: 'anchor-spacing',
        says: 'error language/wrong-kind: A limit on `anchor-spacing` takes a length, such as `at-most 4\'-0"`.',
      },
    ],
    [
      'a length without its unit',
      {
        line: 'limit anchor-spacing at-most 4',
        at: '4',
        says: 'error language/no-unit: 4 what? A limit on `anchor-spacing` takes a length: write 4" or 4\' or 4 mm.',
        mended: 'limit anchor-spacing at-most 4"',
      },
    ],
    [
      'a force without its unit',
      {
        line: 'limit side-plate-capacity at-least 900',
        at: '900',
        says: 'error language/no-unit: 900 what? A limit on `side-plate-capacity` takes a force: write 900 lb or 900 kN.',
        mended: 'limit side-plate-capacity at-least 900 lb',
      },
    ],
    [
      'a share without its sign',
      {
        line: 'limit bracing-share at-least 40',
        at: '40',
        says: 'error language/no-unit: 40 what? A limit on `bracing-share` takes a share: write 40 %.',
        mended: 'limit bracing-share at-least 40 %',
      },
    ],
    [
      'bounds that nothing keeps',
      {
        line: 'limit end-distance at-least 12" at-most 9"',
        at: '9"',
        says: 'error language/empty-range: Nothing keeps this limit on end-distance: it would be `at-least 12"` and `at-most 9"` at once. Change one of them.',
      },
    ],
    [
      'bounds that meet where neither includes it',
      {
        line: 'limit end-distance over 9" at-most 9"',
        at: '9"',
        says: 'error language/empty-range: Nothing keeps this limit on end-distance: it would be `over 9"` and `at-most 9"` at once. Change one of them.',
      },
    ],
    [
      'one side twice',
      {
        line: 'limit end-distance at-least 9" at-least 10"',
        at: '10"',
        says: 'error language/empty-range: `at-least 9"` and `at-least 10"` bound the same side, and only the first counts. Take one out.',
      },
    ],
    [
      'a condition that no check asks for',
      {
        line: `limit anchor-spacing at-most 4'-0" for boldt 1/2"`,
        at: 'boldt',
        says: 'warning language/unknown-subject: No check asks for `boldt`, so this limit on `anchor-spacing` never applies; did you mean `bolt`?',
        mended: `limit anchor-spacing at-most 4'-0" for bolt 1/2"`,
      },
    ],
    [
      'a condition that resembles none',
      {
        line: `limit anchor-spacing at-most 4'-0" for moonshine`,
        at: 'moonshine',
        says: 'warning language/unknown-subject: No check asks for `moonshine`, so this limit on `anchor-spacing` never applies.',
      },
    ],
    [
      'a condition with a value of another dimension',
      {
        line: `limit anchor-spacing at-most 4'-0" for storeys 2"`,
        at: '2"',
        says: 'error language/wrong-kind: The condition `storeys` takes a plain number, such as `at-least 2`.',
      },
    ],
    [
      'a condition with a fraction that has no unit',
      {
        line: `limit anchor-spacing at-most 4'-0" for bolt 1/2`,
        at: '1/2',
        says: 'error language/no-unit: 1/2 what? Write 1/2".',
        mended: `limit anchor-spacing at-most 4'-0" for bolt 1/2"`,
      },
    ],
    [
      'a condition without the value that it compares',
      {
        line: `limit anchor-spacing at-most 4'-0" for bolt`,
        at: 'bolt',
        says: 'error language/wrong-kind: The condition `bolt` takes a length, such as `at-most 4\'-0"`.',
      },
    ],
    [
      'a condition with a value that it has no use for',
      {
        line: 'limit bracing-share at-least 40 % for heavy 2',
        at: 'heavy 2',
        says: 'error language/wrong-kind: The condition `heavy` takes no value: it holds or it does not.',
      },
    ],
    [
      'a condition that never holds',
      {
        line: `limit piece-count at-least 3 for piece at-least 12' under 6'`,
        at: `6'`,
        says: "error language/empty-range: `piece` is never so, and this limit never applies: it would be `at-least 12'` and `under 6'` at once. Change one of them.",
      },
    ],
    [
      'one condition twice',
      {
        line: 'limit piece-count at-least 3 for storeys 2, storeys 3',
        at: 'storeys 3',
        says: 'warning language/repeated-word: `storeys` is asked for twice, and both must hold at once. Put it into one: `storeys at-least … under …`, or take one out.',
      },
    ],
  ])('%s', (_name, each) => check(ruleSet, each));

  it('nothing of its source', () => {
    const text = `ruleset mine "Mine"\n  limit anchor-spacing at-most 4'-0"\n`;
    expect(told(text)).toEqual([
      {
        at: `limit anchor-spacing at-most 4'-0"`,
        says: 'warning language/limit-without-source: The limit on anchor-spacing does not say where it comes from; put `source "…"` behind it or above it.',
      },
    ]);
  });

  const twice = (second: string): string =>
    ruleSet(`limit anchor-spacing at-most 4'-0" for bolt 1/2", storeys 2\n    ${second}`);

  it('two values for one case, whatever the order of its conditions', () => {
    expect(told(twice('limit anchor-spacing at-most 6\' for storeys 2, bolt 1/2"'))).toEqual([
      {
        at: 'anchor-spacing',
        says: 'error language/repeated-limit: `anchor-spacing` has another limit for the very same case, so neither is checked. Take one out, or give it a condition more.',
      },
    ]);
  });

  it('the same twice', () => {
    expect(told(twice('limit anchor-spacing at-most 48" for storeys 2, bolt 1/2"'))).toEqual([
      {
        at: 'anchor-spacing',
        says: 'warning language/repeated-limit: `anchor-spacing` has this limit for this case already. Take one out.',
      },
    ]);
  });

  it('its two sides on two lines', () => {
    expect(told(ruleSet('limit end-distance at-least 9"\n    limit end-distance at-most 12"'))).toEqual([
      {
        at: 'end-distance',
        says: 'error language/repeated-limit: `end-distance` has another limit for the very same case, so neither is checked. Write both on one line: `at-least 9" at-most 12"`.',
      },
    ]);
  });

  it('leaves a limit out of the checks of which a condition could not be read, rather than widen it', () => {
    const { layout } = analyse(
      `layout "X"\n  rules mine\n${ruleSet(`limit anchor-spacing at-most 4'-0" for bolt 1/2`)}`,
    );
    expect(layout.rules.limits.filter((limit) => limit.ruleSet === 'mine')).toEqual([]);
  });

  it('takes conditions that it shares with the shipped sets, and 0 as a length', () => {
    expect(
      told(
        ruleSet(
          'limit end-distance at-least 0 at-most 12" for bolt over 1/2" at-most 5/8", storeys at-most 2\n    limit headroom-bolt at-least 20" for drill straight',
        ),
      ),
    ).toEqual([]);
  });
});

describe('a hardware file that says of a connector', () => {
  const plate = (line: string): string =>
    `connector mine side-plate\n  report "R-1 (invented)"\n  body 8" wide 10" tall\n  ${line}\n`;

  it.each<readonly [string, Case]>([
    [
      'a range from its most to its least',
      {
        line: 'fits set-back 2" to 1"',
        at: '2" to 1"',
        says: 'error language/empty-range: A range goes from its least to its most: write `1" to 2"`.',
        mended: 'fits set-back 1" to 2"',
      },
    ],
    [
      'a length without its unit',
      {
        line: 'fits showing at-least 9',
        at: '9',
        says: `error language/no-unit: 9 what? Write 9", 9' or 9 mm.`,
        mended: 'fits showing at-least 9"',
      },
    ],
    [
      'a capacity without its unit',
      {
        line: 'capacity along-wall 1000 source "R-1, table 2"',
        at: '1000',
        says: 'error language/no-unit: 1000 what? Write 1000 lb or 1000 kN.',
        mended: 'capacity along-wall 1000 lb source "R-1, table 2"',
      },
    ],
    [
      'a capacity that is no force',
      {
        line: 'capacity along-wall 1000 psi',
        at: '1000 psi',
        says: 'error language/wrong-kind: 1000 psi is not a force (lb, kN), which capacity of mine takes.',
      },
    ],
    [
      'fasteners without their size',
      {
        line: 'into concrete 2 wedge-anchor',
        at: 'wedge-anchor',
        says: 'error language/syntax: after `wedge-anchor` write `size`',
      },
    ],
    [
      'a size without its unit',
      {
        line: 'into sill 6 lag-screw size 5/16 x 3"',
        at: '5/16',
        says: 'error language/no-unit: 5/16 has no inch mark: write 5/16" if inches were read.',
        mended: 'into sill 6 lag-screw size 5/16" x 3"',
      },
    ],
  ])('%s', (_name, each) => check(plate, each));

  it('no report, and that its values are not invented', () => {
    expect(
      told('connector mine side-plate\n  body 8" wide 10" tall\n  capacity along-wall 900 lb source "a leaflet"\n'),
    ).toEqual([
      {
        at: 'mine',
        says: 'warning language/hardware-without-source: mine does not say which evaluation report its numbers come from. Add `report "…"`, or `demo` where they are invented.',
      },
    ]);
    expect(told('connector mine side-plate\n  demo\n  body 8" wide 10" tall\n')).toEqual([]);
  });

  it('no size of its body, though it stands on a wall', () => {
    expect(told('connector mine through-bolt\n  demo\n')).toEqual([
      {
        at: 'mine',
        says: 'warning language/connector-without-body: mine does not say how much room it takes, so no check can tell where it fits. Add `body … wide … tall`.',
      },
    ]);
    expect(told('connector mine post-base\n  demo\n')).toEqual([]);
  });

  it('a capacity of plain steel without its source', () => {
    const washer = (more: string): string =>
      `connector mine plate-washer\n  body 3" wide 3" tall 1/4" thick\n  capacity up 500 lb${more}\n`;
    expect(told(washer(''))).toEqual([
      {
        at: '500 lb',
        says: 'warning language/hardware-without-source: This capacity of mine does not say where it comes from. Put `source "…"` behind it, or `report "…"` above.',
      },
    ]);
    expect(told(washer(' source "reckoned, sheet 3"'))).toEqual([]);
    expect(told('connector mine plate-washer\n  body 3" wide 3" tall 1/4" thick\n')).toEqual([]);
  });
});

describe('what ships', () => {
  it('has none of these mistakes', () => {
    expect(shippedBlocks().flatMap((block) => block.problems.map((problem) => problem.message))).toEqual([]);
    const sets = shippedRuleSets();
    expect(problemsOfLimits(sets, sets)).toEqual([]);
  });
});
