import { describe, expect, it } from 'vitest';
import { analyse } from '../../support/analyse.ts';
import { findingsOf, idsOf, mended, wallText } from './wall-text.ts';

const rule = 'clearance/old-anchor-in-way';
const flush = 'size 2x6 set-back 0" headroom 25-1/8"';
const rusted = (at: string): string => `anchor X1 1/2" at ${at} heavy-rust credit none`;
const flat = (at: string): string => `anchor F-1 flat-plate at ${at}`;

describe('clearance/old-anchor-in-way', () => {
  it('tells of lag screws that would run into an old bolt, and slides the plate', () => {
    const text = wallText({ sill: flush, found: [rusted(`5'-3"`)], work: [flat(`5'-0"`)] });
    expect(findingsOf(text, rule).map((each) => each.message)).toEqual([
      `F-1 (flat-plate at 5'-0"): a lag screw meets old anchor X1 at 5'-3"; 3/4" wanted (common practice, no source). Nearest clear: 4'-11 1/4" or 5'-6 3/4".`,
    ]);
    expect(mended(text, rule, /F-1/)).not.toContain(`F-1 flat-plate at 5'-0"`);
  });

  it('measures from the nearest screw, the outermost 3 in from the middle', () => {
    const beside = (at: string): string => wallText({ sill: flush, found: [rusted(at)], work: [flat(`5'-0"`)] });
    expect(findingsOf(beside(`5'-3-1/2"`), rule)[0]?.message).toMatch(/a lag screw is 1\/2" along the wall from old/);
    expect(idsOf(beside(`5'-3-3/4"`), rule)).toEqual([]);
    expect(idsOf(beside(`5'-3-11/16"`), rule)).toEqual([rule]);
  });

  it('holds of a bolt that comes out, and of one that is given up: the hole stays', () => {
    for (const remedy of ['remove', 'grout']) {
      const text = wallText({ sill: flush, found: [rusted(`5'-3"`)], work: [flat(`5'-0"`), `${remedy} X1`] });
      expect(findingsOf(text, rule)[0]?.message).toMatch(
        remedy === 'remove' ? /the hole of old anchor X1/ : /old anchor X1/,
      );
    }
  });

  it('asks six diameters in the concrete of a bolt beside an old one, and says whose figure that is', () => {
    // ACI 318-19, 17.9.2: anchors put in later stand six diameters apart; from memory.
    const beside = (inches: string): string =>
      wallText({ found: [rusted(inches)], work: [`anchor F-1 bolt-half at 5'-5"`] });
    expect(idsOf(beside(`5'-8"`), rule)).toEqual([]);
    const [finding] = findingsOf(beside(`5'-7-15/16"`), rule);
    expect(finding?.message).toMatch(
      /its hole in the concrete is 2-15\/16" along the wall from old anchor X1 at 5'-7 15\/16"; 3" wanted \(ACI 318-19, 17\.9\.2/,
    );
    expect(finding?.citation?.trust).toBe('from-memory');
  });

  it('minds the rod of a hold-down too', () => {
    const text = wallText({
      found: [rusted(`5'-8"`)],
      work: [`hold-down F-H1 tie-rod at 5'-6" on double-stud`],
    });
    expect(idsOf(text, rule)).toEqual([rule]);
  });

  it('keeps new anchors off a hole that was given up, and says nothing of the mark that went elsewhere because of it', () => {
    const on = (...events: readonly string[]): string =>
      wallText({
        work: [`anchor F-1 bolt-half at 5'-5"`],
        after: ['', 'record 2026-06-10', ...events.map((event) => `  ${event}`)],
      });
    const hole = `dead-hole F at 5'-4" open`;
    expect(findingsOf(on(hole), rule)[0]?.message).toMatch(
      /its hole in the concrete is 1" along .* the dead hole at 5'-4"; 3" wanted/,
    );
    expect(idsOf(on(hole, `installed F-1 at 5'-9" because "hit steel"`), rule)).toEqual([]);
    expect(idsOf(on(hole, 'installed F-1 as planned'), rule)).toEqual([rule]);
  });

  it('warns of a mark over one that failed its test, where that was really built; one that was left out has no holes', () => {
    const on = (event: string): string =>
      wallText({
        work: [`anchor F-1 bolt-half at 5'-5"`, `anchor F-2 bolt-half at 5'-9"`],
        after: ['', 'record 2026-06-10', `  installed F-1 at 5'-8"`, `  ${event}`],
      });
    const [finding] = findingsOf(on('tested F-1 pull 900 lb failed slipped'), rule);
    expect(finding?.severity).toBe('warning');
    expect(finding?.message).toMatch(
      /^F-2 \(bolt-half at 5'-9"\) stands over F-1, which failed at 5'-8": its holes are there\. Nearest clear:/,
    );
    expect(idsOf(on('omitted F-1 because "stone"'), rule)).toEqual([]);
  });

  it('looks again when the record names another hole', () => {
    const text = wallText({
      work: [`anchor F-1 bolt-half at 5'-5"`],
      after: ['', 'record 2026-06-10', `  dead-hole F at 5'-0"`],
    });
    expect(analyse(text).findings.some((each) => each.rule === rule)).toBe(false);
    expect(idsOf(text.replace(`at 5'-0"`, `at 5'-3"`), rule)).toEqual([rule]);
  });
});
