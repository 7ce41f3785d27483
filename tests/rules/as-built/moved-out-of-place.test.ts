import { describe, expect, it } from 'vitest';
import { cornerDemo, demo, sound } from '../../../language/domain/rules/example-texts.ts';
import { analyse } from '../../support/analyse.ts';
import { findingsOf, graveIn, lackingOf } from '../support.ts';

const rule = 'as-built/moved-out-of-place';

/** A legal board of plates, 10 in to 13'-2" of 14 ft, and what a day's record says of it. */
const board = (events: readonly string[], say: Partial<Parameters<typeof demo>[0]> = {}): string =>
  `${demo({ anchors: sound, ...say })}\nrecord 2026-06-10\n${events.map((event) => `  ${event}`).join('\n')}\n`;

function told(text: string): readonly string[] {
  return findingsOf(text, rule).map(({ message }) => message);
}

describe('as-built/moved-out-of-place', () => {
  it('is an error at its line of the record where an anchor was built outside its end window', () => {
    const text = board([`installed F-1 at 1'-2" because "hit steel"`]);
    const analysis = analyse(text);
    const [finding] = analysis.findings.filter((each) => each.rule === rule);
    // A304.3.2: 9 to 12 in from the end.
    expect(finding?.message).toBe(
      `As built: F-1 at 1'-2", the first anchor of sill F1, is 1'-2" from its left end: at most 1'-0" (A304.3.2). Add an anchor, or ask the official (anchorage/end-too-far).`,
    );
    expect(finding?.severity).toBe('error');
    expect(finding?.layer).toBe('record');
    const place = finding && analysis.layout.sourceMap.locate(finding.span);
    expect(text.slice(place?.start).startsWith(`installed F-1 at 1'-2"`)).toBe(true);
  });

  it('leaves the design as it is: its own place is right', () => {
    expect(graveIn(board([`installed F-1 at 1'-2" because "hit steel"`]))).toEqual([rule]);
  });

  it('says nothing of what was built as planned, or elsewhere within the rules', () => {
    expect(told(board(['installed F-1 as planned']))).toEqual([]);
    expect(told(board([`installed F-1 at 0'-11"`]))).toEqual([]);
  });

  it('judges gaps from what was built to what is still to be built, and names both', () => {
    const text = board([`installed F-3 at 9'-0"`]);
    expect(told(text)).toEqual([
      expect.stringMatching(/^As built: 4'-4" between F-2 at 4'-8" and F-3 at 9'-0" on sill F1: at most 4'-0"/),
    ]);
    expect(findingsOf(text, rule)[0]?.thing).toBe('F/anchor:F-3');
  });

  it('judges anchors against one another where both were moved', () => {
    expect(told(board([`installed F-2 at 4'-10"`, `installed F-3 at 8'-10"`]))).toEqual([]);
    expect(told(board([`installed F-2 at 4'-6"`, `installed F-3 at 8'-7"`]))).toHaveLength(1);
  });

  it('judges breaks, openings and services where the holes really are', () => {
    const found = [`vent V1 6'-0" to 7'-4"`];
    expect(told(board([`installed F-3 at 7'-6"`], { found }))).toContainEqual(
      expect.stringMatching(/^As built: F-3 \(stepped-plate-s\) at 7'-6" has no concrete to grip: vent V1/),
    );
    const gas = [`gas-pipe GP at 6'-8" wide 1"`];
    expect(told(board([`installed F-3 at 7'-1"`], { found: gas }))).toContainEqual(
      expect.stringMatching(/gas-pipe|gas pipe/),
    );
  });

  it('judges another connector, another embedment and another offset', () => {
    const bolts = { connectors: ['bolt-half'], sill: 'size 2x6 set-back 1-1/2" headroom 25-1/8"' };
    expect(told(board([`installed F-2 as planned`], bolts))).toEqual([]);
    expect(told(board([`installed F-2 as planned embed 3"`], bolts))).toEqual([
      expect.stringMatching(/foundation\/embed-short/),
    ]);
    expect(told(board([`installed F-2 as planned offset 1/2"`], bolts))).toEqual([
      expect.stringMatching(/foundation\/wood-edge-thin/),
    ]);
    expect(told(board([`installed F-2 as planned using stepped-plate-l`]))).toContainEqual(
      expect.stringMatching(/^As built: Sill F1 is set back .* stepped-plate-l takes/),
    );
  });

  it('has a screw behind a plate driven home, whatever its hole is drilled past it', () => {
    // 4-1/2 in long behind 5/16 in of plate; the hole is 4-3/4 in deep.
    expect(told(board([`installed F-2 as planned embed 4-3/16"`]))).toEqual([]);
    expect(told(board([`installed F-2 as planned embed 4-1/8"`]))).toEqual([
      expect.stringMatching(/goes 4-1\/8" into the concrete: at least 4-3\/16"/),
    ]);
  });

  it('asks for the place of what was installed where nobody wrote it down', () => {
    const text = board(['installed F-2 at unknown']);
    expect(told(text)).toEqual([]);
    expect(lackingOf(text, rule)).toEqual(['where F-2 was built']);
  });

  it('does not repeat what the design breaks in the same words', () => {
    const text = board([`installed F-5 at 13'-1"`], { anchors: [`1'-3"`, `4'-8"`, `8'-8"`, `11'-2"`, `13'-2"`] });
    expect(graveIn(text).filter((id) => id === rule)).toEqual([]);
  });

  it('hears of holes round the corner', () => {
    const corner = cornerDemo({ left: `19'-0"`, right: `1'-0"`, connector: 'bolt-half', setBack: '3/4"', free: true });
    expect(told(corner)).toEqual([]);
    const moved = `${corner}\nrecord 2026-06-10\n  installed A-6 at 19'-6"\n  installed B-1 at 0'-4"\n`;
    expect(told(moved)).toContainEqual(expect.stringMatching(/corner/));
  });

  it('can be accepted with the answer of the official', () => {
    const text = board([`installed F-1 at 1'-2" because "hit steel"`]).replace(
      'work on F\n',
      `work on F\n  accept ${rule} on F-1 because "official agreed on site"\n`,
    );
    expect(findingsOf(text, rule).map(({ accepted }) => accepted)).toEqual(['official agreed on site']);
  });
});
