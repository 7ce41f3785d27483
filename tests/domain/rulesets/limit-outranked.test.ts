import { describe, expect, it } from 'vitest';
import { demo, sound } from '../../../language/domain/rules/example-texts.ts';
import { analyse, placedFindings } from '../../support/analyse.ts';

/** What is said of limits of a town that stands after the existing-building set: the line of each, and its message. */
function outranked(...limits: readonly string[]): readonly (readonly [string, string])[] {
  const text = [
    demo({ anchors: sound, rules: 'existing-building, our-town' }),
    'ruleset our-town "Our town"',
    '  source "Town sheet 4" published',
    ...limits.map((limit) => `    limit ${limit}`),
    '',
  ].join('\n');
  return placedFindings(analyse(text))
    .filter(({ rule }) => rule === 'load-path/limit-outranked')
    .map(({ line, severity, message }) => {
      expect(severity).toBe('info');
      return [text.split('\n')[line]?.trim().slice('limit '.length) ?? '', message];
    });
}
const lines = (...limits: readonly string[]): readonly string[] => outranked(...limits).map(([line]) => line);

describe('a limit of a set named later', () => {
  it('is told where it is stricter than a more particular one before it, which goes first', () => {
    expect(outranked(`anchor-spacing at-most 3'-0"`)).toEqual([
      [
        `anchor-spacing at-most 3'-0"`,
        '`anchor-spacing` at most 3\'-0" (Town sheet 4) of our-town gives way to at most 6\'-0" (Table A304.3.1) of existing-building, which is more particular, and 3 more. Give it the same conditions.',
      ],
    ]);
  });

  it('is not where it asks less than that one anyway', () => {
    expect(lines(`anchor-spacing at-most 7'-0"`, 'piece-count at-least 1')).toEqual([]);
  });

  it('is not where it has as many conditions, since then it goes first', () => {
    expect(lines(`anchor-spacing at-most 3'-0" for storeys 2, bolt at-least 1/2", piece at-least 10'-0"`)).toEqual([]);
  });

  it('is told against those cases only that it speaks of too', () => {
    expect(lines(`anchor-spacing at-most 3'-0" for storeys 4`)).toEqual([]);
    expect(lines(`anchor-spacing at-most 3'-0" for storeys at-least 3`)).toEqual([
      `anchor-spacing at-most 3'-0" for storeys at-least 3`,
    ]);
    expect(lines(`anchor-spacing at-most 3'-0" for piece under 12'-0"`)).toEqual([]);
    expect(lines(`headroom-bolt at-least 30" for drill sideways`)).toEqual([]);
  });

  it('is told against the shop limits too, and for verdicts', () => {
    expect(lines('headroom-bolt at-least 30"')).toEqual(['headroom-bolt at-least 30"']);
    expect(lines('bottom-edge-nails required')).toEqual(['bottom-edge-nails required']);
    expect(lines('bottom-edge-nails not-required')).toEqual([]);
  });

  it('of a shipped set stands at its name in the title block', () => {
    const text = demo({ anchors: sound, rules: 'existing-building, new-house' });
    const found = placedFindings(analyse(text)).filter(({ rule }) => rule === 'load-path/limit-outranked');
    expect(found.map(({ line, from, to }) => text.split('\n')[line]?.slice(from, to))).toContain('new-house');
  });
});
