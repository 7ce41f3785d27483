import { expect, it } from 'vitest';
import { analyse } from '../../support/analyse.ts';

const house = (exempt: string): string => `layout "Exempt line"
  rules existing-building
house
  storeys 1
  dwellings 1
typical
  foundation concrete sound thick 6" showing 20" top 0" grade 10"
  sill size 1-1/2" x 5-1/2" treated
wall A length 16'-0"
  sill A1 set-back 0" headroom 7-1/2" corner
  gas-pipe G1 at 8'-0" wide 1" riser live
line north walls A
  ${exempt}
work on A
  anchor A-1 flat-plate at 8'-2"
`;
const rulesOn = (text: string): readonly string[] => analyse(text).findings.map(({ rule }) => rule);

it('an exempt line is not asked for anchors, and what is planned on it still meets the gas', () => {
  expect(rulesOn(house('storeys 1'))).toEqual(
    expect.arrayContaining(['clearance/gas-near-drill', 'anchorage/end-too-far']),
  );
  const exempt = rulesOn(house('exempt because "porch, no floor above"'));
  expect(exempt).toContain('clearance/gas-near-drill');
  expect(exempt.filter((rule) => rule.startsWith('anchorage/'))).toEqual([]);
});
