import { expect, it } from 'vitest';
import { createAnalyser } from '../../../language/analysis.ts';

const house = (heading: string): string => `layout "Kept findings"
  rules existing-building
house
  ${heading}
  storeys 1
  dwellings 1
  floor-underside 2"
wall A length 14'-0"
  foundation concrete thick 8" showing 18" top -2'-4"
  sill A1 size 1-5/8" x 5-5/8" set-back 0" headroom 14" corner
  cripple height 22" stud-height 15" studs 2x4 spaced 16" double plate
`;

it('a finding that is kept leads to the line of the house that it speaks of, also after an edit beside that line', () => {
  let text = house('year 1924');
  const analyser = createAnalyser({ read: () => ({ text }), resolve: () => ({ refused: 'no other file' }) });
  const floorLine = (): string | undefined => {
    const analysis = analyser.analyse('main.sill');
    const [first] = analysis.findings.find(({ rule }) => rule === 'geometry/level-chain-broken')?.related ?? [];
    const place = first && analysis.locate(first.span);
    return place && text.slice(place.start, place.end);
  };
  expect(floorLine()).toBe('2"');
  text = house('year 1925');
  expect(floorLine()).toBe('2"');
});
