import { describe, expect, it } from 'vitest';
import { findingsOf, graveIn, inMetric, lackingOf, mended, soundRow, wallText } from '../support.ts';

describe('floor/bay-unblocked', () => {
  const rule = 'floor/bay-unblocked';
  const joists = `joists into size 2x10 spaced 16" first 0" last 19'-0"`;
  const floor = (say: { found?: readonly string[]; storeys?: string; work?: readonly string[] }) =>
    wallText({
      anchors: soundRow,
      storeys: say.storeys ?? '1',
      found: [joists, ...(say.found ?? [])],
      work: say.work ?? [],
    });
  const panel = `panel F-P1 4'-0" to 8'-4" plywood 15/32" nails 8d edge 4" field 12" nailers none vent-holes none`;

  // A304.1.3 of the existing-building appendix, published: every other bay, every bay at three storeys.
  it.each([
    ['odd bays', '1', []],
    ['odd bays', '3', [rule]],
    ['every bay', '3', []],
    ['bays 1, 3, 6, 8, 10, 12, 14', '1', [rule]],
    ['bays 1, 3, 5, 7, 9, 11, 13', '2', []],
  ])('blocking %s under %s storeys', (bays, storeys, expected) => {
    const text = floor({ found: [`blocking ${bays}`], storeys });
    expect([...new Set(findingsOf(text, rule).map((each) => each.rule))]).toEqual(expected);
    expect(findingsOf(inMetric(text), rule)).toHaveLength(findingsOf(text, rule).length);
  });

  it('names the bays that stand open side by side', () => {
    const [finding] = findingsOf(floor({ found: ['blocking bays 1, 3, 6, 8, 10, 12, 14'] }), rule);
    expect(finding?.message).toContain('Bays 4, 5 of wall F in a row, 4\'-0" to 6\'-8"');
    expect(finding?.citation).toEqual({ text: 'A304.1.3', trust: 'published' });
  });

  it('wants every bay over a panel from two storeys on', () => {
    const over = (storeys: string) => findingsOf(floor({ found: ['blocking odd bays'], storeys, work: [panel] }), rule);
    expect(over('1')).toEqual([]);
    expect(over('2').map((each) => [each.thing, each.message.includes('Bays 4, 6 of wall F over panel F-P1')])).toEqual(
      [['F/panel:F-P1', true]],
    );
  });

  it('a rim joist that somebody saw closes its bays; one that nobody saw is asked for', () => {
    expect(findingsOf(floor({ found: ['rim nails 8d spaced 6" verified'], storeys: '3' }), rule)).toEqual([]);
    expect(findingsOf(floor({ found: ['rim seen nails unseen'], storeys: '3' }), rule)).toEqual([]);
    expect(lackingOf(floor({ found: ['rim unseen'], storeys: '2' }), rule)).toEqual(['rim joist of wall F']);
    expect(lackingOf(floor({ storeys: '2' }), rule)).toEqual(['rim or blocking of wall F']);
    expect(findingsOf(floor({ found: ['rim absent'], storeys: '2' }), rule)).toHaveLength(1);
  });

  it('asks nothing of the joists where a rim joist runs along all of them', () => {
    const along = (...found: readonly string[]): string =>
      wallText({
        anchors: soundRow,
        storeys: '2',
        found: ['joists into size 2x10 spaced 16" first unknown', ...found],
      });
    const wants = ['first joist of wall F'];
    expect(lackingOf(along('rim nails 8d spaced 6" verified'), rule)).toEqual([]);
    expect(lackingOf(along('rim to 19\'-0" seen'), rule)).toEqual(wants);
    expect(lackingOf(along('blocking odd bays'), rule)).toEqual(wants);
  });

  it('lacks the storeys where they decide, and not where they do not', () => {
    expect(lackingOf(floor({ found: ['blocking odd bays'], storeys: 'unknown' }), rule)).toEqual([
      'storeys above wall F',
    ]);
    expect(lackingOf(floor({ found: ['blocking every bay'], storeys: 'unknown' }), rule)).toEqual([]);
  });

  it('is mended by blocks in those bays', () => {
    const text = floor({ found: ['blocking odd bays'], storeys: '2', work: [panel] });
    const after = mended(text, rule, /^Add blocks in bays 4, 6$/);
    expect(after).toContain('blocking bays 4, 6 proposed');
    expect(findingsOf(after, rule)).toEqual([]);
  });
});

describe('floor/bay-too-narrow', () => {
  const rule = 'floor/bay-too-narrow';
  // Joists 1-1/2 in thick; the end joist stands off the row.
  const floor = (end: string, angles: string) =>
    wallText({
      anchors: soundRow,
      found: [
        `joists into size 2x10 spaced 16" first 0" last 18'-8"`,
        `rim nails 8d spaced 6" verified`,
        `joist at ${end} end-joist`,
      ],
      work: [`angles F-A1 angle-8 ${angles}`],
    });

  // 6 in clear: common practice, no source. From 18'-8" it is 7-1/2 in to the middle of the next joist.
  it.each([
    [`19'-3 1/2"`, 0],
    [`19'-3 7/16"`, 1],
    [`19'-3 9/16"`, 0],
  ])('an end joist at %s: %i', (end, count) => {
    expect(findingsOf(floor(end, 'every bay'), rule)).toHaveLength(count);
    expect(findingsOf(inMetric(floor(end, 'every bay')), rule)).toHaveLength(count);
  });

  it('minds only bays that get an angle or a block', () => {
    expect(findingsOf(floor(`19'-0"`, 'bays 2, 4'), rule)).toEqual([]);
    const [finding] = findingsOf(floor(`19'-0"`, 'bays 14, 15'), rule);
    expect(finding).toMatchObject({ severity: 'warning', thing: 'F/angles:F-A1' });
    expect(finding?.message).toContain('only 2-1/2" clear');
    expect(graveIn(floor(`19'-0"`, 'bays 14, 15'))).toContain(rule);
  });
});
