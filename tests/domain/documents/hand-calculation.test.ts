import { expect, it } from 'vitest';
import { createAnalyser } from '../../../language/analysis.ts';
import { calculationSheet } from '../../../language/domain/documents/calculation-sheet.ts';
import { calculationSheetToText } from '../../../language/domain/documents/write-calculation-sheet.ts';
import { exampleHost } from '../../support/read-layout.ts';

/**
 * The west line of the demo house, worked by hand from the survey tables. ASCE 7-16 12.8 (equivalent lateral force; from
 * memory), 2.4.5 (allowable-stress combination; from memory); strips halfway between lines, by statics. Nothing is taken from
 * the program but the number at the end.
 */
it('the west line of the demo house, step by step', () => {
  // Outline: 28'-2" x 36'-4" and the bump-out 6'-1" x 12'-3"; the upper storey stands on the main house only.
  const main = (28 + 2 / 12) * (36 + 4 / 12);
  const bumpOut = (6 + 1 / 12) * (12 + 3 / 12);
  const ground = main + bumpOut;
  expect(ground).toBeCloseTo(1097.9, 1);

  // Weight 80 psf of ground floor (assumed); C_s = S_DS / (R / I_e) = 1.00 / 6.5; allowable-stress level 0.7.
  const weight = 80 * ground;
  expect(weight).toBeCloseTo(87_833, 0);
  const strength = (1.0 / 6.5) * weight;
  expect(strength).toBeCloseTo(13_513, 0);
  const allowable = 0.7 * strength;
  expect(allowable).toBeCloseTo(9_459, 0);

  // Shared to the storeys by their floor areas.
  const first = (allowable * ground) / (ground + main);
  const second = (allowable * main) / (ground + main);

  // South of 24'-1" the line on the east is D, 28'-2" away; north of it, B, 34'-3" away. Half of each bay goes west; the upper
  // storey ends at 28'-2" and so does not reach past its own half-way line.
  const south = ((28 + 2 / 12) / 2) * (24 + 1 / 12);
  const north = ((34 + 3 / 12) / 2) * (12 + 3 / 12);
  const tributary = south + north;
  expect(tributary).toBeCloseTo(548.95, 1);
  const west = (first * tributary) / ground + (second * tributary) / main;
  expect(west).toBeCloseTo(4_896, 0);

  // Anchors that stand: seven plates of 950 lb (F-4 was left out) and five bolts of 1,040 lb. Invented values.
  const capacity = 7 * 950 + 5 * 1_040;
  expect(capacity).toBe(11_850);

  const { layout, checked, basis } = createAnalyser(exampleHost).analyse('maple-designed.sill');
  const sheet = calculationSheetToText(calculationSheet(layout, checked, basis, { line: 'west' }));
  expect(sheet).toContain(`west  ${Math.round(west).toLocaleString('en')} lb`);
  expect(sheet).toMatch(new RegExp(`12 counted, 3 not +11,850 lb +${Math.ceil((100 * west) / capacity)} %`));
});
