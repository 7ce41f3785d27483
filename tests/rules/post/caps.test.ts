import { describe, expect, it } from 'vitest';
import { findingsOf, lackingOf, mended, soundRow, wallText } from '../support.ts';

const girder = (post: string, work: readonly string[] = [], size = '6x8') =>
  wallText({
    anchors: soundRow,
    after: [
      `girder GD size ${size} from (0", 0") to (18'-0", 0")`,
      `  post P1 ${post}`,
      '',
      ...(work.length === 0 ? [] : ['work on GD', ...work.map((line) => `  ${line}`), '']),
    ],
  });

describe('post/post-cap-missing', () => {
  const rule = 'post/post-cap-missing';
  it.each([
    ['none', 1],
    ['toenails', 1],
    ['shims', 1],
    ['side-plate', 0],
  ])('a post with cap %s: %i', (cap, count) => {
    const found = findingsOf(girder(`6x6 at 6'-0" cap ${cap}`), rule);
    expect(found).toHaveLength(count);
    for (const each of found)
      expect(each).toMatchObject({ severity: 'warning', wall: 'GD', piece: 'P1', thing: 'GD/post:P1' });
  });

  it('a new cap answers it; what nobody saw is asked for', () => {
    expect(findingsOf(girder(`6x6 at 6'-0" cap none`, ['cap C1 cap-plates on P1 both-sides']), rule)).toEqual([]);
    expect(lackingOf(girder(`6x6 at 6'-0" cap unknown`), rule)).toEqual(['cap of post P1 under girder GD']);
    expect(lackingOf(girder(`6x6 at 6'-0"`), rule)).toEqual(['cap of post P1 under girder GD']);
  });

  it('says where a one-piece cap would not fit', () => {
    const [finding] = findingsOf(girder(`size 3-5/8" x 3-5/8" at 12'-2" cap none`, [], `5-1/2" x 7-1/2"`), rule);
    expect(finding?.message).toContain('The post is 3-5/8" wide and the girder 5-1/2"');
  });
});

describe('post/cap-size-clash', () => {
  const rule = 'post/cap-size-clash';
  const capped = (size: string, more = '') =>
    girder(
      `size ${size} x ${size} at 6'-0" cap none`,
      [`cap C1 cap-plates on P1 both-sides${more}`],
      `5-1/2" x 7-1/2"`,
    );

  // The demo plates take posts of 3-1/2 to 5-1/2 in, and shims make up the difference: invented values.
  it.each([
    ['5-1/2"', '', 0],
    ['3-5/8"', '', 1],
    ['3-5/8"', ' shim 15/16"', 0],
    ['3-5/8"', ' shim 7/8"', 1],
    ['3-1/2"', ' shim 1"', 0],
    ['3-7/16"', ' shim 1-1/32"', 1],
  ])('a post of %s under 5-1/2 in%s: %i', (size, more, count) => {
    const found = findingsOf(capped(size, more), rule);
    expect(found).toHaveLength(count);
    for (const each of found) expect(each).toMatchObject({ severity: 'error', wall: 'GD', piece: 'P1' });
  });

  it('is mended by a shim on each side', () => {
    const after = mended(capped('3-5/8"'), rule, /shim 15\/16"/);
    expect(after).toContain('both-sides shim 15/16"');
    expect(findingsOf(after, rule)).toEqual([]);
  });

  it('lacks the width of a post or a shim that nobody measured', () => {
    expect(lackingOf(capped('3-5/8"', ' shim unknown'), rule)).toEqual(['thickness of the shim at C1']);
    expect(lackingOf(girder(`at 6'-0" cap none`, ['cap C1 cap-plates on P1']), rule)).toEqual(['width of post P1']);
  });
});
