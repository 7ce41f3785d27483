import { describe, expect, it } from 'vitest';
import { analyse } from '../../support/analyse.ts';
import { expectDrawnFindings } from '../../support/fixture.ts';

/** A connector on a line that its kind cannot serve counts for nothing, and is told at its name. */
describe('a connector used where it cannot be', () => {
  const only = (text: string): readonly string[] =>
    analyse(text)
      .findings.filter(({ rule }) => rule.endsWith('misplaced'))
      .map(({ message }) => message);

  it('as an anchor of the sill: a framing angle ties nothing to concrete', () => {
    const analysis = expectDrawnFindings(`
layout "House"
  rules existing-building
house
  storeys 2
wall F length 4'-0"
  foundation thick 8" showing 18" top 0"
  sill F1 size 2x6 set-back 3/4" headroom 11-1/8"
work on F
  anchor F-1 stepped-plate-s at 0'-10"
  anchor F-2 stepped-plate-s at 3'-2"
  anchor F-3 angle-8 at 2'-0"
//           ^^^^^^^ error load-path/connector-misplaced
`);
    const [finding] = analysis.findings;
    expect(finding?.message).toBe(
      'F-3 is `angle-8`, a framing angle, which ties no sill to concrete and counts for nothing. Use a side plate, a stepped side plate or a through-bolt.',
    );
    expect(finding).toMatchObject({ wall: 'F', piece: 'F1', thing: 'F/anchor:F-3', layer: 'design' });
  });

  const house = (work: string): string =>
    `layout "House"\n  rules existing-building\nhouse\n  storeys 2\nwall F length 4'-0"\n  foundation thick 8" showing 18" top 0"\n  sill F1 size 2x6 set-back 3/4" headroom 11-1/8"\nwork on F\n  ${work}\n`;

  it('as framing angles, and as a hold-down', () => {
    expect(only(house(`angles F-A1 flat-plate at 1'-0"`))).toEqual([
      'F-A1 is `flat-plate`, a side plate, which ties no floor to the sill. Use a framing angle.',
    ]);
    expect(only(house(`hold-down F-H1 angle-8 at 3'-0"`))).toEqual([
      'F-H1 is `angle-8`, a framing angle, which is no hold-down. Use a hold-down.',
    ]);
  });

  it('on a post', () => {
    const text = `layout "House"\n  rules existing-building\nhouse\n  storeys 2\ngirder G size 5-1/2" x 7-1/2" from (0, 0) to (20'-0", 0) underside -6"\n  post P1 6x6 at 6'-0" height 3'-0"\nwork on G\n  cap C1 washer-3 on P1\n`;
    expect(only(text)).toEqual(['C1 is `washer-3`, a plate washer, which ties no post. Use a post cap.']);
    expect(only(text.replace('washer-3', 'cap-plates'))).toEqual([]);
  });

  it('is not told of what stands where it belongs', () => {
    for (const work of [
      `anchor F-1 bolt-half at 2'-0"`,
      `anchor F-1 flat-plate at 2'-0"`,
      `angles F-A1 angle-8 at 1'-0"`,
      `hold-down F-H1 tie-rod at 3'-0"`,
    ])
      expect(only(house(work))).toEqual([]);
  });
});
