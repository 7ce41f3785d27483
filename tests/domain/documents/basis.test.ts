import { describe, expect, it } from 'vitest';
import { type Basis, basisLineLength, basisOf } from '../../../language/domain/documents/basis.ts';
import type { Finding, NotChecked } from '../../../language/domain/rules/finding.ts';
import { analyse } from '../../support/analyse.ts';

const house = `
layout "Test house"
  rules existing-building
house
  storeys 1
  dwellings 1
  slope 0 %
typical
  foundation concrete thick 8" showing 20" top 0" sound strength assume 2000 psi
  sill size 1-1/2" x 5-1/2" set-back 0" headroom 30"
wall A length 20'-0"
  foundation
  sill A1
work on A
  anchor A-1 bolt-half at 0'-10"
`;

const basisOfText = (text: string): Basis => analyse(text).basis;
const said = (basis: Basis): string => basis.lines.join(' ');

/** The findings of a text, with some put beside them. */
function basisWith(
  text: string,
  more: { findings?: readonly Partial<Finding>[]; notChecked?: readonly Partial<NotChecked>[] },
): Basis {
  const { layout, checked } = analyse(text);
  return basisOf(layout, {
    findings: [...checked.findings, ...((more.findings ?? []) as Finding[])],
    notChecked: [...checked.notChecked, ...((more.notChecked ?? []) as NotChecked[])],
  });
}
const stop: Partial<Finding> = { rule: 'screening/cripple-too-tall', severity: 'stop', wall: 'A', accepted: undefined };

describe('the basis of every output', () => {
  it('counts what was found, what could not be checked and what was assumed, under the rules by title and edition', () => {
    const { layout, checked, basis } = analyse(house);
    const errors = checked.findings.filter((finding) => finding.severity === 'error').length;
    expect(basis.counts).toMatchObject({
      errors,
      notChecked: checked.notChecked.length,
      assumed: layout.assumptions.length,
    });
    expect(said(basis)).toContain(
      `${errors} error${errors === 1 ? '' : 's'} under Existing-building code appendix, chapter A3, 2021; ` +
        `${checked.notChecked.length} not checked for want of measurements; ${layout.assumptions.length} assumed.`,
    );
  });

  it('says what it is not, and who decides', () => {
    const text = said(basisOfText(house));
    expect(text).toContain(
      'An aid to drafting and checking, not engineering; it does not show that the house is safe.',
    );
    expect(text).toContain('Local code, the building official and licensed professionals decide.');
    expect(text).toContain('Connector values come from the evaluation report of the product bought.');
    expect(text).toContain('Retrofit lowers risk; it does not prevent damage.');
  });

  it('keeps to lines that fit below a drawing', () => {
    const long = basisWith(
      house
        .replace('"Test house"', `"${'x'.repeat(500)}"`)
        .replace('rules existing-building', `rules ${'y'.repeat(300)}`),
      {
        findings: [stop],
      },
    );
    for (const line of [...long.lines, ...basisOfText(house).lines])
      expect(line.length).toBeLessThanOrEqual(basisLineLength);
  });

  it('never says what nobody may say of a house', () => {
    for (const text of ['', house, house.replace(/work on[\s\S]*/, '')]) {
      const words = said(basisOfText(text)).replace('it does not show that the house is safe', '');
      expect(words).not.toMatch(/\bsafe|compliant|passes code|no problems/i);
    }
  });
});

describe('the label', () => {
  it('is prescriptive where nothing stands against it', () => {
    const basis = basisOfText(house);
    expect(basis).toMatchObject({ label: 'prescriptive - not engineered', stopped: false });
    expect(basis.because).toBeUndefined();
    expect(basis.lines).toContain('Basis: prescriptive - not engineered.');
  });

  it('goes to the engineer with one stop, also with one that somebody tried to accept', () => {
    for (const accepted of [undefined, 'we know better']) {
      const basis = basisWith(house, { findings: [{ ...stop, accepted }] });
      expect(basis).toMatchObject({ label: "for engineer's review", stopped: true });
      expect(basis.counts).toMatchObject({ stops: 1, accepted: 0 });
      expect(said(basis)).toContain('1 stop and ');
      expect(said(basis)).toContain("Basis: for engineer's review (1 stop: screening/cripple-too-tall on wall A).");
    }
  });

  it.each([
    ['no rule set is chosen', house.replace('  rules existing-building\n', ''), 'no rule set chosen'],
    ['a rule set is not found', house.replace('existing-building', 'my-town'), '1 error in the text'],
    [
      'the title block says so',
      house.replace('rules existing-building', 'rules existing-building\n  sheets engineered'),
      'the title block says so',
    ],
    [
      'the text is not read in full',
      house.replace('  slope 0 %', '  slope 0 % )'),
      '1 error in the text: not all of it is known',
    ],
    ['the storeys are unknown', house.replace('storeys 1', 'storeys unknown'), 'not known: '],
    ['nobody recorded the dwellings', house.replace('  dwellings 1\n', ''), 'not recorded: dwellings'],
    ['the slope is unknown', house.replace('slope 0 %', 'slope unknown'), 'not known: slope'],
    [
      'the concrete strength is unknown',
      house.replace('assume 2000 psi', 'unknown'),
      'concrete of wall A: strength unknown',
    ],
    [
      'nobody looked at the concrete',
      house.replace(' sound strength assume 2000 psi', ''),
      'concrete of wall A: neither strength nor condition is recorded',
    ],
    [
      'a cripple wall has an unknown height',
      house.replace('  sill A1', '  sill A1\n  cripple height unknown'),
      'cripple wall A: height unknown',
    ],
    [
      'a cripple wall has no height',
      house.replace('  sill A1', '  sill A1\n  cripple stud-height 20"'),
      'cripple wall A: height is not recorded',
    ],
  ])('goes to the engineer where %s', (_name, text, because) => {
    const basis = basisOfText(text);
    expect(basis.label).toBe("for engineer's review");
    expect(basis.because).toContain(because);
    expect(basis.stopped).toBe(false);
  });

  it('goes to the engineer where a check that could stop the house lacks a measurement', () => {
    const basis = basisWith(house, { notChecked: [{ rule: 'foundation/masonry-base', wants: 'material of wall A' }] });
    expect(basis).toMatchObject({ label: "for engineer's review", because: 'not known: material of wall A' });
  });

  it('goes to the engineer where a check of ours broke off', () => {
    const basis = basisWith(house, {
      findings: [{ rule: 'internal/rule-crashed', severity: 'info', accepted: undefined }],
    });
    expect(basis).toMatchObject({
      label: "for engineer's review",
      because: 'a check broke off, a defect of Sillwright',
    });
  });

  it('stays where a check that could stop nothing lacks a measurement', () => {
    const basis = basisWith(house, { notChecked: [{ rule: 'anchorage/end-too-far', wants: 'set-back of sill A1' }] });
    expect(basis.label).toBe('prescriptive - not engineered');
    expect(basis.counts.notChecked).toBe(1);
  });
});

describe('values that want a word', () => {
  it('invented connector values are said to be so, but only where such a connector is used', () => {
    expect(basisOfText(house).demo).toBe(true);
    expect(said(basisOfText(house))).toContain('DEMO VALUES: connector values are invented. Not for permit');
    const unused = basisOfText(house.replace(/work on[\s\S]*/, ''));
    expect(unused.demo).toBe(false);
    expect(said(unused)).not.toContain('DEMO');
  });

  it('recalled limits ask to be confirmed', () => {
    expect(said(basisOfText(house))).toMatch(/\d+ limits in force are recalled; confirm in your adopted copy\./);
    const own =
      house.replace('existing-building', 'mine') +
      'ruleset mine "Mine"\n  source "my book" published\n    limit anchor-spacing at-most 48"\n';
    expect(said(basisOfText(own))).not.toContain('recalled');
  });

  it('common practice is called that', () => {
    const own = `${house.replace('rules existing-building', 'rules existing-building, mine')}ruleset mine "Mine"\n  source "common practice" common-practice\n    limit side-room at-least 20"\n`;
    expect(said(basisOfText(own))).toMatch(/common practice, no source\./);
    expect(basisOfText(own).rules).toBe('Existing-building code appendix, chapter A3, 2021; with Mine');
  });

  it('says of built work that it stands where the record has it, and what the checks then still judge', () => {
    const start = `layout "Built"\n  rules existing-building\nwall A length 20'-0"\n  sill A1\nwork on A\n  anchor A-1 bolt-half at 1'-0"\n  anchor A-2 bolt-half at 5'-0"\n`;
    const linesOf = (record: string): string => analyse(start + record).basis.lines.join('\n');
    const built = 'Stations of installed work are those of the record.';
    expect(linesOf('')).not.toContain(built);
    const asPlanned = linesOf('record 2026-06-10\n  installed A-1 as planned\n');
    expect(asPlanned).toContain(built);
    expect(asPlanned).not.toContain('elsewhere');
    expect(linesOf(`record 2026-06-10\n  installed A-1 at 1'-2"\n`)).toContain(
      '1 mark stands elsewhere than designed: the checks judge both places.',
    );
    expect(linesOf('record 2026-06-10\n  installed A-1, A-2 at unknown\n')).toContain(
      'Of 2 installed marks nobody recorded the place: the designed one is shown.',
    );
  });
});
