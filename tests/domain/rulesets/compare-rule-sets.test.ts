import { describe, expect, it } from 'vitest';
import { createAnalyser } from '../../../language/analysis.ts';
import type { ComparedPlace, Edition } from '../../../language/domain/documents/compare-rule-sets.ts';
import { compareRuleSets } from '../../../language/domain/documents/compare-rule-sets.ts';
import { comparisonsToJson, comparisonToText } from '../../../language/domain/documents/write-rule-set-comparison.ts';
import { demo } from '../../../language/domain/rules/example-texts.ts';
import { MAIN, memoryHost } from '../../support/memory-host.ts';

function editionsOf(text: string, choices: readonly (readonly string[])[]): readonly Edition[] {
  const analyser = createAnalyser(memoryHost({ [MAIN]: text }));
  return choices.map((ruleSets) => {
    const { file, layout, checked, basis } = analyser.analyse(MAIN, { rules: ruleSets });
    return { ruleSets, report: { file, layout, checked, basis, placeOf: () => undefined } };
  });
}

/** `RULE at STATION: verdict under each`, the differing ones first with a `*`. */
function rowsOf(places: readonly ComparedPlace[]): readonly string[] {
  return places.map(({ rule, finding, under, differs }) => {
    const verdicts = under.map(
      ({ verdict, limit }) => `${verdict}${limit ? ` ${limit.bounds.map((each) => each.value.typed).join('..')}` : ''}`,
    );
    return `${differs ? '*' : ' '} ${rule}${finding?.station === undefined ? '' : ` ${finding.station / 25_400_000}`}: ${verdicts.join(' | ')}`;
  });
}

const compared = (text: string, ...choices: readonly (readonly string[])[]): readonly string[] =>
  rowsOf(compareRuleSets(editionsOf(text, choices))).filter((row) => !/load-path|screening/.test(row));

describe('editions side by side', () => {
  // 5 ft between the second and the third anchor: too far for 1/2 in under two storeys by one set, near enough by the other.
  const wide = demo({ anchors: [`0'-10"`, `4'-2"`, `9'-2"`, `13'-2"`] });

  it('show a gap that one of them forbids with the limit of each', () => {
    expect(compared(wide, ['existing-building'], ['new-house'])).toEqual([
      `* anchorage/gap-too-wide 50: error 4'-0" | no-finding 6'-0"`,
    ]);
    expect(compared(wide, ['new-house'], ['existing-building'])).toEqual([
      `* anchorage/gap-too-wide 50: no-finding 6'-0" | error 4'-0"`,
    ]);
  });

  it('put first what differs, then what is the same', () => {
    const bare = demo({ anchors: [`0'-10"`, `4'-2"`, `9'-2"`, `12'-6"`] });
    expect(compared(bare, ['existing-building'], ['new-house'])).toEqual([
      `* anchorage/gap-too-wide 50: error 4'-0" | no-finding 6'-0"`,
      `* anchorage/end-too-far 150: error 9"..12" | error 3-1/2"..12"`,
    ]);
    expect(compared(bare, ['existing-building'], ['existing-building'])).toEqual([
      `  anchorage/gap-too-wide 50: error 4'-0" | error 4'-0"`,
      `  anchorage/end-too-far 150: error 9"..12" | error 9"..12"`,
    ]);
  });

  it('call it no limit where an edition is silent, never a pass', () => {
    expect(compared(wide, ['existing-building'], ['bay-area'])).toEqual([
      `* anchorage/gap-too-wide 50: error 4'-0" | no-limit`,
    ]);
    const silent = compareRuleSets(editionsOf(wide, [['existing-building'], ['bay-area']]));
    expect(silent.filter(({ rule }) => rule === 'load-path/no-limit').map(({ under }) => under[1]?.verdict)).toContain(
      'warning',
    );
  });

  it('take a choice of several sets together: the later overrides the earlier', () => {
    const town = `${wide}\nruleset town "Town"\n  source "sheet 1" published\n    limit anchor-spacing at-most 5'-0" for storeys 2, bolt at-least 1/2" under 5/8", piece at-least 12'-0"\n`;
    expect(compared(town, ['existing-building'], ['existing-building', 'town'])).toEqual([
      `* anchorage/gap-too-wide 50: error 4'-0" | no-finding 5'-0"`,
    ]);
  });

  it('say what is not checked where a measurement is missing', () => {
    const town = 'ruleset town "Town"\n  source "sheet 1" published\n    limit anchor-spacing at-most 5\'-0"\n';
    const unknown = `${wide.replace('storeys 2', 'storeys unknown')}\n${town}`;
    expect(compared(unknown, ['town'], ['los-angeles'])).toEqual([
      '* anchorage/gap-too-wide: no-finding | not-checked',
    ]);
  });

  it('call it no limit, too, where one cannot be checked for want of a measurement and another does not ask', () => {
    const rows = rowsOf(compareRuleSets(editionsOf(wide, [['existing-building'], ['new-house']])));
    expect(rows).toContain('* screening/dwellings-beyond: not-checked | no-limit');
  });

  it('can be more than two', () => {
    expect(compared(wide, ['existing-building'], ['new-house'], ['los-angeles'])).toEqual([
      `* anchorage/gap-too-wide 50: error 4'-0" | no-finding 6'-0" | error 4'-0"`,
    ]);
  });

  it('leave the layout as it is: its own rules hold in the next reading', () => {
    const analyser = createAnalyser(memoryHost({ [MAIN]: wide }));
    const own = analyser.analyse(MAIN).findings.map((finding) => finding.rule);
    expect(analyser.analyse(MAIN, { rules: ['new-house'] }).findings.map((finding) => finding.rule)).not.toEqual(own);
    expect(analyser.analyse(MAIN).findings.map((finding) => finding.rule)).toEqual(own);
  });

  it('check mends under the rules that were chosen', () => {
    const analyser = createAnalyser(memoryHost({ [MAIN]: wide }));
    const { findings } = analyser.analyse(MAIN, { rules: ['existing-building'] });
    expect(findings.find((finding) => finding.rule === 'anchorage/gap-too-wide')?.fixes.length).toBeGreaterThan(0);
  });
});

describe('the comparison as text and as JSON', () => {
  const text = demo({ anchors: [`0'-10"`, `4'-2"`, `9'-2"`, `13'-2"`] });
  const editions = editionsOf(text, [['existing-building'], ['new-house']]);
  const comparison = { editions, places: compareRuleSets(editions) };

  it('names the editions, the limits with their sources, the totals and the basis of each', () => {
    const printed = comparisonToText(comparison);
    expect(printed).toContain('A = existing-building: Existing-building code appendix, chapter A3, 2021');
    expect(printed).toContain('B = new-house: Residential code for new houses, 2015 and later');
    expect(printed).toContain(`error: at most 4'-0" (Table A304.3.1)`);
    expect(printed).toContain(`no finding: at most 6'-0" (R403.1.6)`);
    expect(printed).toMatch(/^existing-building +\d+ +1 /m);
    expect(printed).toMatch(/^new-house +\d+ +0 /m);
    expect(printed).toMatch(/^A: 1 error under Existing-building/m);
    expect(printed).toContain(
      'An aid to drafting and checking, not engineering; it does not show that the house is safe.',
    );
    for (const line of printed.split('\n')) expect(line.length).toBeLessThanOrEqual(132);
  });

  it('carries the same in JSON', () => {
    const document = JSON.parse(comparisonsToJson([comparison]));
    expect(document).toMatchObject({
      schemaVersion: 1,
      comparisons: [
        {
          file: MAIN,
          house: 'Example',
          editions: [{ ruleSets: ['existing-building'], counts: { errors: 1 } }, { ruleSets: ['new-house'] }],
        },
      ],
    });
    const gap = document.comparisons[0].places.find(({ rule }: { rule: string }) => rule === 'anchorage/gap-too-wide');
    expect(gap).toMatchObject({
      differs: true,
      wall: 'F',
      piece: 'F1',
      station: { text: `4'-2"` },
      stationTo: { text: `9'-2"` },
      under: [
        {
          verdict: 'error',
          subject: 'anchor-spacing',
          limit: `at most 4'-0" (Table A304.3.1)`,
          source: 'Table A304.3.1',
        },
        { verdict: 'no-finding', limit: `at most 6'-0" (R403.1.6)`, ruleSet: 'new-house', message: null },
      ],
    });
  });
});
