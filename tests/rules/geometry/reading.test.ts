import { describe, expect, it } from 'vitest';
import { problemPages } from '../../../language/syntax/problem.ts';
import { findingsOf, mended, soundRow, wallText } from '../support.ts';

describe('what comes to light in reading goes by the name that the trade has for it', () => {
  it('has a line in the list of checks', () => {
    expect(problemPages().map((page) => page.id)).toEqual(
      expect.arrayContaining([
        'geometry/station-outside-wall',
        'geometry/duplicate-mark',
        'geometry/fraction-not-on-tape',
      ]),
    );
  });

  it('geometry/station-outside-wall offers the end of the wall, and the other end for a negative station', () => {
    const rule = 'geometry/station-outside-wall';
    const past = wallText({ found: [`vent V1 18'-0" to 20'-6"`], anchors: soundRow });
    expect(mended(past, rule, /^Write `20'-0"`$/)).toContain(`18'-0" to 20'-0"`);
    const [finding] = findingsOf(past, rule);
    expect(finding?.fixes.map((fix) => fix.trust)).toEqual(['by-hand']);
  });

  it.each([
    ['1/3"', /3\/8"|5\/16"/],
    ['3 17/16"', /./],
  ])('geometry/fraction-not-on-tape: a set-back of %s', (typed, suggestion) => {
    const text = wallText({ anchors: soundRow }).replace('set-back 3/4"', `set-back ${typed}`);
    const [finding] = findingsOf(text, 'geometry/fraction-not-on-tape');
    expect(finding?.severity).toBe('warning');
    expect(finding?.fixes.map((fix) => fix.title).join()).toMatch(suggestion);
    expect(finding?.fixes.every((fix) => fix.trust === 'by-hand')).toBe(true);
  });

  it('geometry/duplicate-mark stands at the second one', () => {
    const text = wallText({ anchors: soundRow }).replace('anchor F-2 ', 'anchor F-1 ');
    expect(findingsOf(text, 'geometry/duplicate-mark').map((each) => each.severity)).toEqual(['error']);
  });
});
