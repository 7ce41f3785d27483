import { polygonArea, polygonLength } from 'd3-polygon';
import polygonClipping from 'polygon-clipping';
import { describe, expect, it } from 'vitest';
import { createAnalyser, writeEdits } from '../../../language/analysis.ts';
import { closingToText } from '../../../language/domain/documents/closing-report.ts';
import type { ClosingProposal } from '../../../language/domain/fixes/closing.ts';
import { closingEdits, closingOf } from '../../../language/domain/fixes/closing.ts';
import type { Layout } from '../../../language/domain/model/layout.ts';
import { outlineArea, perimeter, traverse } from '../../../language/domain/model/outline.ts';
import { outlineOf } from '../../../language/domain/model/taped-outline.ts';
import { formatExactStation, formatLength } from '../../../language/domain/units/format-length.ts';
import { inInches, inMillimetres, sixteenth } from '../../../language/domain/units/length.ts';
import { formatSheet } from '../../../language/syntax/format.ts';
import { applyChanges } from '../../../language/syntax/write-edit.ts';
import { analyse } from '../../support/analyse.ts';
import { MAIN } from '../../support/memory-host.ts';
import { exampleHost, readLayout } from '../../support/read-layout.ts';

const surveyed = createAnalyser(exampleHost).analyse('maple-surveyed.sill');
const designed = createAnalyser(exampleHost).analyse('maple-designed.sill');

type Spread = Extract<ClosingProposal, { kind: 'spread' }>;
function spreadOf(layout: Layout, anew = false): Spread {
  const { proposal } = closingOf(layout, { anew });
  if (proposal.kind !== 'spread') throw new Error(JSON.stringify(proposal));
  return proposal;
}
const afterwards = (layout: Layout, anew = false): readonly string[] =>
  spreadOf(layout, anew).walls.map((wall) => formatExactStation(wall.after, layout.title.units));

/** The text with the proposal written into it. */
function closed(text: string): string {
  const analysis = analyse(text);
  const written = writeEdits(analysis, closingEdits(analysis.layout));
  if (written.kind === 'refused') throw new Error(written.reason);
  return applyChanges(text, written.changes);
}

const box = (a: string, b: string, c: string, d: string, more = ''): string => `wall A faces north from (0", 0") ${a}
wall B turn right ${b}
wall C turn right ${c}
wall D turn right ${d}
${more}`;

/** An L of 24 by 22 ft less 8 by 12 ft, with a bay of 2'-6" on its south side: three walls, turned by 45°. */
const bay = (first: string): string => `layout "Bay"
wall A faces north from (0", 0") length ${first}
wall B turn right length 10'-0"
wall C turn right length 8'-0"
wall D turn left length 12'-0"
wall E turn right length 2'-6"
wall F turn -45° length 3'-6 7/16"
wall G turn 45° length 6'-0"
wall H turn 45° length 3'-6 7/16"
wall I turn -45° length 2'-6"
wall J turn right length 22'-0"
`;

describe('the demo house', () => {
  it('misses by 3/8 in both ways as taped, and closes as adjusted', () => {
    const { taped, adjusted, proposal } = closingOf(surveyed.layout);
    expect(inInches(taped?.dx ?? sixteenth)).toBe(0.375);
    expect(inInches(taped?.dy ?? sixteenth)).toBe(0.375);
    // By hand: sqrt(0.375² + 0.375²) = 0.530; 141'-2 1/2" is 1694.5 in; 1694.5 / 0.5303 = 3195.
    expect(inInches(taped?.length ?? sixteenth).toFixed(2)).toBe('0.53');
    expect(taped?.ratio).toBe(3195);
    expect(adjusted?.closes).toBe(true);
    expect(proposal).toEqual({ kind: 'closed' });
    expect(closingEdits(surveyed.layout)).toEqual([]);
  });

  it('has its area, perimeter and check diagonal by hand and by two polygon libraries', () => {
    const { corners } = traverse(outlineOf(surveyed.layout, 'adjusted'));
    if (!corners) throw new Error('no corners');
    const ring = corners.map(({ x, y }): [number, number] => [inInches(x), inInches(y)]);
    // 28'-2" × 36'-4" and a bump-out of 6'-1" × 12'-3": 338 × 436 + 73 × 147 = 158 099 sq in.
    const squareInches = 338 * 436 + 73 * 147;
    expect(Number(outlineArea(corners)) / Number(sixteenth) ** 2 / 256).toBeCloseTo(squareInches, 6);
    expect(Math.abs(polygonArea(ring))).toBeCloseTo(squareInches, 6);
    const [whole] = polygonClipping.union([ring]);
    expect(Math.abs(polygonArea(whole?.[0] ?? []))).toBeCloseTo(squareInches, 6);
    expect((squareInches / 144).toFixed(1)).toBe('1097.9');
    expect(formatLength(perimeter(corners), 'feet-inches')).toBe(`141'-2"`);
    expect(polygonLength(ring)).toBeCloseTo(141 * 12 + 2, 6);
    const [diagonal] = surveyed.layout.house.diagonals;
    const reckoned = Math.hypot(338, 436);
    expect(Math.round(reckoned * 16) / 16).toBe(45 * 12 + 11 + 11 / 16);
    expect(diagonal?.taped).toMatchObject({ value: (45 * 192 + 11 * 16 + 11) * sixteenth });
  });

  it('spread anew from the tape gives each wall its share, on marks of the tape', () => {
    expect(afterwards(surveyed.layout, true)).toEqual([
      `34'-3 1/16"`,
      `12'-3 1/16"`,
      `6'-0 13/16"`,
      `24'-1 1/8"`,
      `28'-2 1/4"`,
      `36'-4 3/16"`,
    ]);
  });

  it('leaves alone the walls with work that was installed or issued', () => {
    expect(spreadOfDesigned()).toEqual([
      ['A', `34'-3"`, 'work is installed on it'],
      ['B', `12'-3"`, undefined],
      ['C', `6'-1"`, undefined],
      ['D', `24'-1"`, undefined],
      ['E', `28'-2"`, 'its work was issued'],
      ['F', `36'-4"`, 'work is installed on it'],
    ]);
    // C alone runs with A and E, and takes what they leave of it; B and D are right as taped.
  });
  function spreadOfDesigned() {
    // Without the adjusted length of C the outline is open by what C's tape is off: 1/4 in.
    const walls = designed.layout.walls.map((wall) => (wall.name === 'C' ? { ...wall, adjusted: undefined } : wall));
    const spread = spreadOf({ ...designed.layout, walls });
    expect(spread.closing.closes).toBe(true);
    expect(spread.edits).toEqual([{ kind: 'set-adjusted', wall: 'wall:C', length: (6 * 192 + 16) * sixteenth }]);
    return spread.walls.map((wall) => [wall.name, formatExactStation(wall.after, 'feet-inches'), wall.kept]);
  }
});

describe('an L with a bay at 45°', () => {
  it('closes to a hundredth as taped: 42 7/16 in is 0.011 in over 30 times the root of 2', () => {
    const { layout } = readLayout(bay(`24'-0"`));
    const { taped } = closingOf(layout);
    // 2 × (42.4375 × cos 45° − 30) = 0.0157 in westward, and nothing north or south.
    expect(inInches(taped?.dx ?? sixteenth)).toBeCloseTo(-0.0157, 4);
    expect(inInches(taped?.dy ?? sixteenth)).toBeCloseTo(0, 6);
    const { corners } = traverse(outlineOf(layout, 'taped'));
    const ring = (corners ?? []).map(({ x, y }): [number, number] => [inInches(x), inInches(y)]);
    // 24 × 22 − 8 × 12 + (11 + 6) / 2 × 2.5 = 453.25 sq ft, within the error of closing along 22 ft.
    expect(Math.abs(polygonArea(ring)) / 144).toBeCloseTo(453.25, 1);
    expect(Number(outlineArea(corners ?? [])) / Number(sixteenth) ** 2 / 256 / 144).toBeCloseTo(
      Math.abs(polygonArea(ring)) / 144,
      6,
    );
    const [whole] = polygonClipping.union([ring]);
    expect(Math.abs(polygonArea(whole?.[0] ?? []))).toBeCloseTo(Math.abs(polygonArea(ring)), 3);
  });

  it('spreads 3/8 in of A over the walls of its direction, to less than two marks', () => {
    const { layout } = readLayout(bay(`24'-0 3/8"`));
    const { taped } = closingOf(layout);
    expect(inInches(taped?.dx ?? sixteenth)).toBeCloseTo(0.375 - 0.0157, 4);
    const { walls, closing } = spreadOf(layout);
    expect(closing.length).toBeLessThan(2 * sixteenth);
    // A and the walls that run against it change; those square to it stay as taped.
    const change = new Map(walls.map((wall) => [wall.name, (wall.after - (wall.taped ?? 0)) / sixteenth]));
    expect(change.get('A')).toBeLessThan(0);
    for (const name of ['B', 'D', 'J']) expect(change.get(name)).toBe(0);
    expect(Math.max(...[...change.values()].map(Math.abs))).toBeLessThanOrEqual(4);
  });
});

describe('what is written', () => {
  it('stands behind the taped length, whose words stay', () => {
    const text = box(`length 20'-0 1/8"`, `length 16'-0"`, `length 20'-0"`, `length 16'-0"`);
    const after = closed(text);
    expect(after).toContain(`length 20'-0 1/8" adjusted 20'-0 1/16"`);
    expect(after).toContain(`wall C turn right length 20'-0" adjusted 20'-0 1/16"`);
    expect(after).toContain(`wall B turn right length 16'-0"\n`);
    const closing = closingOf(readLayout(after).layout);
    expect(closing.adjusted?.closes).toBe(true);
    expect(closing.taped).toEqual(closingOf(readLayout(text).layout).taped);
    expect(closed(after)).toBe(after);
  });

  it('goes behind the face, before a comment, and keeps how good a reading is', () => {
    const text = box(
      `length assume 20'-0 1/8" outside // twice`,
      `length 16'-0"`,
      `length 20'-0" inside`,
      `length 16'-0"`,
    );
    const after = closed(text);
    expect(after).toContain(`length assume 20'-0 1/8" outside adjusted 20'-0 1/16" // twice`);
    expect(after).toContain(`length 20'-0" inside adjusted 20'-0 1/16"\n`);
    expect(readLayout(after).problems.map((problem) => problem.code)).toEqual([]);
  });

  it('goes behind a face on a line that is carried on', () => {
    const text = box(`length 20'-0 1/8"\n  + outside`, `length 16'-0"`, `length 20'-0"`, `length 16'-0"`);
    const after = closed(text);
    expect(after).toContain('adjusted');
    expect(readLayout(after).problems).toEqual([]);
    expect(closingOf(readLayout(after).layout).adjusted?.closes).toBe(true);
  });

  it('takes the place of an adjusted length that does not close, in whatever format the text was', () => {
    const text = box(`length 20'-0 1/8" adjusted 20'-0 1/8"`, `length 16'-0"`, `length 20'-0"`, `length 16'-0"`);
    expect(closed(text)).toContain(`length 20'-0 1/8" adjusted 20'-0 1/16"`);
    const canonical = applyChanges(text, formatSheet(text).changes);
    expect(formatSheet(closed(canonical)).changes).toEqual([]);
  });

  it('is whole millimetres in a metric file', () => {
    const text = `layout "m" units metric\n${box('length 6003 mm', 'length 5000 mm', 'length 6000 mm', 'length 5000 mm')}`;
    const { walls, closing } = spreadOf(readLayout(text).layout);
    expect(walls.map((wall) => inMillimetres(wall.after))).toEqual([6001, 5000, 6001, 5000]);
    expect(closing.closes).toBe(true);
    expect(closed(text)).toContain('adjusted 6001 mm');
  });
});

describe('an error that is not spread', () => {
  const cannot = (text: string): string => {
    const { proposal } = closingOf(readLayout(text).layout);
    expect(closingEdits(readLayout(text).layout)).toEqual([]);
    return proposal.kind === 'cannot-spread' ? proposal.reason : proposal.kind;
  };
  it.each([
    [
      'is more than the tape explains',
      box(`length 20'-0"`, `length 16'-0"`, `length 18'-0"`, `length 16'-0"`),
      `2'-0" is more than the 1" that a tape explains: a wall was misread, or a corner is not square`,
    ],
    [
      'has a wall without a length',
      box(`length 20'-0"`, 'length unknown', `length 20'-0"`, `length 16'-0"`),
      'wall B has no length yet',
    ],
    [
      'does not go round',
      box(`length 20'-0"`, `length 16'-0"`, `length 20'-0"`, '').replace(/wall D.*\n/, ''),
      'the walls do not go all the way round yet',
    ],
    [
      'would move what is built on every wall of a direction',
      box(
        `length 20'-0 1/8"`,
        `length 16'-0"`,
        `length 20'-0"`,
        `length 16'-0"`,
        `work on A
  anchor A-1 bolt-half at 3'-0"
work on C
  anchor C-1 bolt-half at 3'-0"
record 2026-06-10
  installed A-1 as planned
  tested C-1 pull 100 lb failed
`,
      ),
      'every wall that runs that way is kept',
    ],
  ])('%s', (_name, text, reason) => {
    expect(cannot(text)).toBe(reason);
  });

  it('leaves a wall alone in which a hole was drilled', () => {
    const text = box(
      `length 20'-0 1/8"`,
      `length 16'-0"`,
      `length 20'-0"`,
      `length 16'-0"`,
      `record 2026-06-10\n  dead-hole a 3'-0" open\n`,
    );
    const { walls } = spreadOf(readLayout(text).layout);
    expect(walls.map((wall) => wall.kept)).toEqual(['a hole is drilled in it', undefined, undefined, undefined]);
    expect(afterwards(readLayout(text).layout)).toEqual([`20'-0 1/8"`, `16'-0"`, `20'-0 1/8"`, `16'-0"`]);
  });
});

describe('the report', () => {
  it('shows each way, the whole and the ratio, before and after', () => {
    const text = closingToText(closingOf(surveyed.layout, { anew: true }), 'feet-inches');
    expect(text).toContain('As taped:      0.38 in east, 0.38 in north, 0.53 in in all, 1 : 3195\n');
    expect(text).toContain('As adjusted:   closes\nAs proposed:   closes\n');
    expect(text).toMatch(/^A +34'-3 1\/4" +34'-3" +34'-3 1\/16" +-0\.19 in$/m);
    expect(text).toContain('Taped lengths and stations stay as they are');
  });
  it('says why nothing is spread', () => {
    const { layout } = analyse({ [MAIN]: box(`length 20'-0"`, 'length unknown', `length 20'-0"`, `length 16'-0"`) });
    expect(closingToText(closingOf(layout), 'feet-inches')).toContain(
      'As taped:      cannot be told until every wall has a length',
    );
    expect(closingToText(closingOf(layout), 'feet-inches')).toContain(
      'The error cannot be spread: wall B has no length yet.',
    );
  });
});
