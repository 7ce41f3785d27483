import { describe, expect, it } from 'vitest';
import { analyse } from '../../support/analyse.ts';
import { findingsOf, inMetric, lackingOf, mended } from '../support.ts';

const box = (a: string, more = '', turn = ''): string =>
  [
    'layout "Box"',
    '  rules existing-building',
    '',
    'house',
    '  storeys 1',
    '  dwellings 1',
    '',
    ...[a, `16'-0"`, `20'-0"${more}`, `16'-0"`].flatMap((length, index) => [
      `wall ${'ABCD'[index]}${turn} length ${length}`,
      '  no sill',
      '',
    ]),
  ].join('\n');

describe('geometry/outline-open', () => {
  const rule = 'geometry/outline-open';

  // 1/4 in and 1 in: common practice, no source. Only A and C run in this direction, so the error is their difference.
  it.each([
    [`20'-0"`, undefined],
    [`20'-0 1/4"`, undefined],
    [`20'-0 5/16"`, 'warning'],
    [`20'-1"`, 'warning'],
    [`20'-1 1/16"`, 'error'],
    [`24'-0"`, 'error'],
  ])('a wall of %s against one of 20 ft: %s', (length, severity) => {
    for (const text of [box(length), inMetric(box(length))]) {
      expect(findingsOf(text, rule).map((each) => each.severity)).toEqual(severity === undefined ? [] : [severity]);
    }
  });

  it('says by how much and which way', () => {
    expect(findingsOf(box(`20'-0 1/2"`), rule)[0]?.message).toMatch(/by 1\/2" .*1 : \d+\): at most 1\/4"/);
  });

  it('once spread over the walls it is for information; the tape stays', () => {
    const text = box(`20'-0 1/2"`);
    const after = mended(text, rule, /^Spread the closing error/);
    expect(after).toContain(`length 20'-0 1/2" adjusted 20'-0 1/4"`);
    expect(findingsOf(after, rule).map((each) => each.severity)).toEqual(['info']);
  });

  it('offers the wall that would close it, as an assumption to be taped again', () => {
    expect(mended(box(`24'-0"`), rule, /^Take wall A as 20'-0"/)).toContain(`wall A length assume 20'-0"`);
  });

  it('waits until the walls go round, and asks for a length that is missing', () => {
    const open = box(`20'-0 1/2"`).replace(/wall D[\s\S]*/, '');
    expect(findingsOf(open, rule)).toEqual([]);
    expect(lackingOf(box('unknown'), rule)).toEqual(['length of wall A']);
  });
});

describe('geometry/walls-counter-clockwise', () => {
  const rule = 'geometry/walls-counter-clockwise';
  it('speaks where every corner turns left', () => {
    expect(findingsOf(box(`20'-0"`, '', ' turn left'), rule).map((each) => each.severity)).toEqual(['warning']);
    expect(findingsOf(box(`20'-0"`), rule)).toEqual([]);
    expect(findingsOf(box(`20'-0"`, '', ' turn left').replace(/wall D[\s\S]*/, ''), rule)).toEqual([]);
  });
});

describe('geometry/unit-suspect', () => {
  const rule = 'geometry/unit-suspect';
  const thick = (...values: readonly string[]) =>
    values.reduce(
      (text, value, index) =>
        text.replace(new RegExp(`(wall ${'ABCD'[index]} .*\\n)`), `$1  foundation thick ${value}\n`),
      box(`20'-0"`),
    );

  it.each([
    [['8"', '8"', '8"', '8mm'], '8"'],
    [['200mm', '200mm', '200mm', '200"'], '200mm'],
    [['203mm', '203mm', '203mm', '20mm'], '200 mm'],
    [['8"', '7-1/4"', '6"', '80"'], '8"'],
  ])('%s: %s is meant', (values, meant) => {
    const [finding, ...more] = findingsOf(thick(...values), rule);
    expect(more).toEqual([]);
    expect(finding).toMatchObject({ severity: 'warning', wall: 'D' });
    expect(finding?.fixes.map((fix) => fix.title)).toEqual([`Write ${meant} for ${values[3]}`]);
  });

  it('lets walls differ as walls do, and needs three to tell which is off', () => {
    expect(findingsOf(thick('6"', '8"', '10"', '12"'), rule)).toEqual([]);
    expect(findingsOf(thick('8"', '8mm'), rule)).toEqual([]);
  });

  it('is mended by the unit that was meant, by hand only', () => {
    expect(findingsOf(mended(thick('8"', '8"', '8"', '8mm'), rule, /^Write 8" for 8mm/), rule)).toEqual([]);
    expect(findingsOf(thick('8"', '8"', '8"', '8mm'), rule)[0]?.fixes[0]?.trust).toBe('by-hand');
  });
});

describe('geometry/assumption-live', () => {
  const rule = 'geometry/assumption-live';
  it('names each assumed value once, however many things it stands for', () => {
    const text = box(`20'-0"`)
      .replace('house\n', 'typical\n  foundation thick assume 8"\n\nhouse\n')
      .replaceAll('  no sill', '  foundation showing 18"\n  no sill');
    const found = findingsOf(text, rule);
    expect(found.map((each) => each.severity)).toEqual(['info']);
    expect(found[0]?.message).toContain('assume 8"');
    const [fix] = found[0]?.fixes ?? [];
    expect(fix?.trust).toBe('by-hand');
    expect(findingsOf(mended(text, rule, /^Write 8" as measured/), rule)).toEqual([]);
  });

  it('leaves what was measured, and what nobody knows, to others', () => {
    expect(findingsOf(box(`20'-0"`), rule)).toEqual([]);
    expect(findingsOf(box('unknown'), rule)).toEqual([]);
    expect(analyse(box('unknown')).layout.unknowns).toHaveLength(1);
  });
});
