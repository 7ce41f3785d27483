import { describe, expect, it } from 'vitest';
import { analyse } from '../support/analyse.ts';

// Common practice, no source: what crews keep to on a two-storey house, written as a rule set of the user's own. It shows that
// trade habit can be said in the language, and that each limit bites exactly where it says.
const habits = `ruleset habits "Trade habits, two storeys"
  source "common practice" common-practice
    limit anchor-spacing at-most 4'-0"
    limit corner-distance at-least 9" at-most 12"
    limit break-distance at-least 3" at-most 12"
    limit angle-spacing at-most 32"
    limit tolerance is 0"
`;

const house = (
  anchors: readonly string[],
  angles = `  angles W-A1 clip at 1'-0", 3'-8", 6'-4", 9'-0"`,
): string => `layout "Habits"
  rules habits

${habits}
house
  storeys 2

connector rod through-bolt
  demo
  body 3" wide 3" tall
  into concrete 1 adhesive-rod size 1/2" x 8-1/2" hole 5/8" hole-depth 4" edge 1-3/4"

connector clip framing-angle
  demo
  body 8" wide 2-1/2" tall

wall W length 20'-0"
  foundation concrete thick 8" showing 18" top 0" grade 8"
  sill W1 to 10'-0" size 1-5/8" x 5-5/8" set-back 0" headroom 30" butt
  sill W2 to end size 1-5/8" x 5-5/8" set-back 0" headroom 30" corner

work on W
${anchors.map((station, index) => `  anchor W-${index + 1} rod at ${station}`).join('\n')}
${angles}
`;

// 10 in from the corner, 48 in apart, 8 in before the break, 6 in behind it, 12 in from the far corner.
const sound = [`0'-10"`, `4'-8"`, `8'-8"`, `9'-4"`, `10'-6"`, `14'-6"`, `17'-0"`, `19'-0"`];
const swapped = (index: number, station: string): readonly string[] =>
  sound.map((each, at) => (at === index ? station : each));
const errorsOf = (text: string): readonly string[] =>
  analyse(text)
    .findings.filter((finding) => finding.severity === 'error')
    .map((finding) => `${finding.rule} ${finding.piece ?? ''}`.trim());

describe('a rule set of trade habits (common practice, no source)', () => {
  it('can be said, and a layout can keep to it', () => {
    const analysis = analyse(house(sound));
    expect(analysis.findings.map((finding) => finding.message)).toEqual([]);
    expect(analysis.basis.rules).toBe('Trade habits, two storeys');
  });

  it.each([
    ['at the nearest 9 in from a corner', `0'-9"`, []],
    ['1/16 in nearer', `0'-8 15/16"`, ['anchorage/end-too-near W1']],
    ['1/16 in further', `0'-9 1/16"`, []],
    ['at the furthest 12 in from a corner', `1'-0"`, []],
    ['1/16 in further than that', `1'-0 1/16"`, ['anchorage/end-too-far W1']],
  ])('corner: %s', (_words, station, expected) => {
    expect(errorsOf(house(swapped(0, station)))).toEqual(expected);
  });

  it.each([
    ['3 in before it', 3, `9'-9"`, []],
    ['1/16 in nearer', 3, `9'-9 1/16"`, ['anchorage/end-too-near W1']],
    ['12 in behind it', 4, `11'-0"`, []],
    ['1/16 in further', 4, `11'-0 1/16"`, ['anchorage/end-too-far W2']],
    ['3 in behind it', 4, `10'-3"`, []],
    ['1/16 in nearer to it', 4, `10'-2 15/16"`, ['anchorage/end-too-near W2']],
  ])('sill break: %s', (_words, index, station, expected) => {
    const moved =
      index === 4 ? swapped(5, `14'-2"`).map((each, at) => (at === 4 ? station : each)) : swapped(index, station);
    expect(errorsOf(house(moved))).toEqual(expected);
  });

  it.each([
    ['4 ft on centre', `4'-10"`, []],
    ['1/16 in more', `4'-10 1/16"`, ['anchorage/gap-too-wide W1']],
    ['1/16 in less', `4'-9 15/16"`, []],
  ])('spacing: %s', (_words, station, expected) => {
    expect(errorsOf(house(swapped(1, station)))).toEqual(expected);
  });

  it.each([
    ['32 in on centre', `  angles W-A1 clip at 1'-0", 3'-8", 6'-4"`, []],
    ['1/16 in more', `  angles W-A1 clip at 1'-0", 3'-8 1/16", 6'-4"`, ['floor/angle-gap-wide']],
    ['1/16 in less', `  angles W-A1 clip at 1'-0", 3'-7 15/16", 6'-3"`, []],
  ])('framing angles: %s', (_words, angles, expected) => {
    expect(errorsOf(house(sound, angles))).toEqual(expected);
  });
});
