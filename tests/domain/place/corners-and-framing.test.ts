import { describe, expect, it } from 'vitest';
import { withEdits } from '../../../language/domain/fixes/apply-in-memory.ts';
import type { Layout } from '../../../language/domain/model/layout.ts';
import { framingEdits, framingFor } from '../../../language/domain/place/framing.ts';
import { placeLayout } from '../../../language/domain/place/place-layout.ts';
import { placementEdits } from '../../../language/domain/place/placement-edits.ts';
import { checkLayout } from '../../../language/domain/rules/check-layout.ts';
import { formatStation } from '../../../language/domain/units/format-length.ts';
import { analyse } from '../../support/analyse.ts';

/** Four walls with bolts, 8 in thick, so that the holes of two walls meet in each corner. */
const square = (rules = '', found = ''): Layout =>
  analyse(`layout "Square"
  rules existing-building${rules === '' ? '' : ', corners'}

house
  storeys 1

typical
  foundation concrete thick 8" showing 18" top 0" grade 8"
  sill size 1-5/8" x 5-5/8" set-back 0" headroom 30"

connector rod through-bolt
  demo
  body 3" wide 3" tall
  into concrete 1 adhesive-rod size 1/2" x 8-1/2" hole 5/8" hole-depth 4" edge 1-3/4"
${rules}
${['A', 'B', 'C', 'D'].map((name) => `\nwall ${name} length 16'-0"\n  sill ${name}1 corner\n${found}`).join('')}
`).layout;

const laidOut = (layout: Layout): Layout => {
  const placement = placeLayout({ layouts: [layout], scope: { kind: 'house' } });
  expect(placement.boards.map(({ outcome }) => outcome)).toEqual(['placed', 'placed', 'placed', 'placed']);
  return withEdits(layout, placementEdits(layout, placement).edits);
};
const clashes = (layout: Layout) =>
  checkLayout(layout).findings.filter(({ rule }) => rule === 'anchorage/corner-holes-clash');

describe('a corner of two walls', () => {
  /** So far apart that the middles of the end windows are too near to each other, and their far ends are not. */
  const apart = (inches: string): string => `
ruleset corners "Corners"

  source "a test" common-practice
    limit corner-holes-apart at-least ${inches}
`;

  it('gets the holes of both as far apart as the rule set asks, where the end windows leave room for it', () => {
    // Bolts in the middle of the sill, 5-3/16 in from the outer face: 12 in along either wall they are 9.6 in apart.
    for (const inches of [6, 7, 8, 9]) {
      expect(clashes(laidOut(square(apart(`${inches}"`)))), `${inches} in`).toEqual([]);
    }
    // More than that no two windows keep: it is told, and nothing is left out for it.
    expect(clashes(laidOut(square(apart('10"')))).length).toBe(4);
  });

  it('moves a pair that would clash when each wall is laid out for itself', () => {
    const layout = square(apart('9"'));
    const alone = layout.walls.reduce((house, wall) => {
      const placement = placeLayout({ layouts: [{ ...layout, rules: square().rules }], scope: { kind: 'wall', wall } });
      return withEdits(house, placementEdits(layout, placement).edits);
    }, layout);
    expect(clashes(alone).length).toBeGreaterThan(0);
    expect(clashes(laidOut(layout))).toEqual([]);
  });
});

describe('framing angles and blocks', () => {
  const joisted = (found: string, work = ''): Layout =>
    analyse(`layout "Framing"
  rules existing-building

house
  storeys 2

wall W length 16'-0"
  foundation concrete thick 8" showing 18" top 0" grade 8"
${found}
work on W
${work}`).layout;
  const sill = `  sill W1 size 1-5/8" x 5-5/8" set-back 0" headroom 9"\n`;
  const joists = `  joists into size 1-1/2" x 7-1/2" spaced 16" first 0"\n`;
  const framing = (layout: Layout) => {
    const [wall] = layout.walls;
    if (!wall) throw new Error('no wall');
    return framingFor(layout, wall);
  };
  const errors = (layout: Layout): readonly string[] =>
    checkLayout(layout)
      .findings.filter(({ rule, severity }) => rule.startsWith('floor/') && severity === 'error')
      .map(({ rule }) => rule);

  it('are the fewest that keep the spacing, every other bay at 16 in where 32 in are allowed', () => {
    const layout = joisted(`${sill}${joists}  rim nails 8d spaced 6" verified\n`);
    const proposal = framing(layout);
    // Twelve bays; from the first to the last 176 in, in steps of 32 in at most: seven angles, and six cannot do it.
    expect(proposal?.angles?.bays).toEqual([1, 3, 5, 7, 9, 11, 12]);
    expect(proposal?.blocks).toEqual([]);
    if (!proposal) return;
    const done = withEdits(layout, framingEdits(proposal));
    expect(errors(done)).toEqual([]);
    expect(framing(done)).toBeUndefined();
  });

  it('stand in every bay over a panel, and every bay there is blocked', () => {
    const cripple = `  cripple height 30" stud-height 25" studs size 1-5/8" x 3-5/8" spaced 16" first 0" double plate trimmers none\n`;
    const panel = `  panel W-P1 0" to 5'-4" plywood 15/32" nails 8d edge 4" field 12" nailers 2x4 nails 4 16d\n`;
    const layout = joisted(`${sill}${cripple}${joists}  blocking bays 1, 3\n`, panel);
    const proposal = framing(layout);
    expect(proposal?.angles?.bays.slice(0, 4)).toEqual([1, 2, 3, 4]);
    expect(proposal?.blocks.slice(0, 2)).toEqual([2, 4]);
    if (!proposal) return;
    expect(errors(withEdits(layout, framingEdits(proposal)))).toEqual([]);
  });

  it('stand on the sill with all of their length, and not at all where a bay is too narrow', () => {
    const boards = `  sill W1 to 5'-0" size 1-5/8" x 5-5/8" set-back 0" headroom 9"\n  sill W2 8'-0" to end size 1-5/8" x 5-5/8" set-back 0" headroom 9"\n  chimney K1 5'-0" to 8'-0"\n`;
    const proposal = framing(joisted(`${boards}${joists}  joist at 15'-0"\n  rim nails 8d spaced 6" verified\n`));
    const stations = proposal?.angles?.stations ?? [];
    expect(stations.length).toBeGreaterThan(0);
    for (const at of stations) {
      const inch = at / 25_400_000;
      expect(inch + 4 <= 60 || inch - 4 >= 96, formatStation(at, 'feet-inches')).toBe(true);
    }
    expect(proposal?.tooNarrow.length).toBeGreaterThan(0);
  });

  it('are not proposed where nobody recorded the joists', () => {
    const proposal = framing(joisted(`${sill}  joists into spaced 16" first unknown\n`));
    expect(proposal?.angles).toBeUndefined();
    expect(proposal?.lacking).toEqual(['first joist of wall W']);
  });
});
