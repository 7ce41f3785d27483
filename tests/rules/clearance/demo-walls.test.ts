import { expect, it } from 'vitest';
import type { Finding } from '../../../language/domain/rules/finding.ts';
import { analyse } from '../../support/analyse.ts';
import { MAIN } from '../../support/memory-host.ts';
import { exampleHost } from '../../support/read-layout.ts';

/** The surveyed demo house (invented) with work at its awkward places. */
function withWork(...work: readonly string[]): readonly Finding[] {
  const survey = exampleHost.read('maple-surveyed.sill');
  if ('missing' in survey) throw new Error(survey.missing);
  const files = { [MAIN]: ['use "survey.sill"', '', ...work, ''].join('\n'), 'survey.sill': survey.text };
  return analyse(files).findings.filter((each) => each.rule.startsWith('clearance/'));
}
const said = (findings: readonly Finding[]): readonly string[] =>
  findings.map((each) => `${each.thing} ${each.rule.replace('clearance/', '')}`);

it('the east wall of the demo house: heater, gas, window and flue each say their own', () => {
  const findings = withWork(
    'work on D',
    `  anchor D-1 stepped-plate-l at 10'-10"  // in front of the water heater`,
    `  anchor D-2 stepped-plate-l at 14'-0"   // the gas pipe lies 14 in down`,
    `  anchor D-3 stepped-plate-l at 19'-8"   // under the window`,
    `  anchor D-4 stepped-plate-l at 21'-7"   // beside the window and the gas riser`,
    `  stud at 8'-2" size 1-5/8" x 3-5/8"     // 1-3/16 in from the chimney`,
    `  stud at 9'-6" size 1-5/8" x 3-5/8"     // 10 in above the single-wall flue`,
  );
  expect(said(findings)).toEqual([
    'D/stud:#1 flue-too-close',
    'D/anchor:D-1 side-room-short',
    'D/anchor:D-3 no-concrete-here',
    'D/anchor:D-4 gas-near-drill',
  ]);
  expect(findings[0]?.message).toContain('within 1-3/16" of chimney K1');
  expect(findings.map((each) => each.message)[1]).toContain('6" off the wall (1\'-8" wanted to drill)');
});

it('the south wall of the demo house: windows, and the electrical panel with its conduit', () => {
  const findings = withWork(
    'work on E',
    `  anchor E-1 stepped-plate-l at 5'-10"`,
    `  anchor E-2 stepped-plate-l at 16'-10"`,
    `  anchor E-3 stepped-plate-l at 16'-10 1/16"`,
    `  anchor E-4 stepped-plate-l at 20'-4 15/16"`,
    `  anchor E-5 stepped-plate-l at 20'-5"`,
  );
  // The panel stands from 18'-0" to 19'-3"; holes 2 in to either side keep 12 in away.
  expect(said(findings)).toEqual([
    'E/anchor:E-1 no-concrete-here',
    'E/anchor:E-3 power-near-drill',
    'E/anchor:E-4 power-near-drill',
  ]);
});
