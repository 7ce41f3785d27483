import { describe, expect, it } from 'vitest';
import { checkLayout } from '../../language/domain/rules/check-layout.ts';
import { formatExact } from '../../language/domain/units/format-length.ts';
import type { Length } from '../../language/domain/units/length.ts';
import { inches, minus, nanometres, plus, sixteenth, zero } from '../../language/domain/units/length.ts';
import { length } from '../support/outlines.ts';
import { readLayout } from '../support/read-layout.ts';
import type { RuleTableCell } from './rule-tables.data.ts';
import { ruleTables } from './rule-tables.data.ts';

/*
 * The limits that the tables give, each at its edge, a sixteenth inside and a sixteenth outside, through a whole analysis, in
 * inches and in millimetres. Sources stand beside each number in the tables. A tape may be off by 1/16 in (common practice, no
 * source), so the first station that breaks a limit lies a nanometre beyond that.
 */

type Tape = (length: Length) => string;
const tapes: readonly (readonly [string, Tape])[] = [
  ['in feet and inches', (each) => formatExact(each, 'feet-inches')],
  ['in millimetres', (each) => formatExact(each, 'metric')],
];
const nanometre = nanometres(1);
const beyond = plus(sixteenth, nanometre);

interface Bolted {
  readonly rules: string;
  readonly storeys: number;
  readonly bolt: Length;
  readonly stations: readonly Length[];
  readonly long: Length;
}

/** What is said of the anchors of one bolted board. */
function anchorageFindings({ rules, storeys, bolt, stations, long }: Bolted, tape: Tape): readonly string[] {
  const text = [
    'layout "Edge"',
    `  rules ${rules}`,
    'house',
    `  storeys ${storeys}`,
    'connector the-bolt through-bolt',
    '  demo',
    `  body ${tape(inches(3))} wide ${tape(inches(3))} tall`,
    `  into concrete 1 adhesive-rod size ${tape(bolt)} x ${tape(inches(8))} edge ${tape(inches(1.75))}`,
    `wall F length ${tape(long)}`,
    `  foundation thick ${tape(inches(8))} showing ${tape(inches(18))} top 0"`,
    `  sill F1 size 2x6 set-back 0" headroom ${tape(inches(30))}`,
    'work on F',
    ...stations.map((station, index) => `  anchor F-${index + 1} the-bolt at ${tape(station)}`),
    '',
  ].join('\n');
  const { layout, problems } = readLayout(text);
  expect(problems.map((each) => each.message)).toEqual([]);
  return checkLayout(layout)
    .findings.map((each) => each.rule)
    .filter((rule) => looked.has(rule));
}
const looked: ReadonlySet<string> = new Set([
  'anchorage/gap-too-wide',
  'anchorage/end-too-near',
  'anchorage/end-too-far',
  'anchorage/short-piece-count',
  'anchorage/piece-without-anchor',
]);

/** Anchors from 10 in on, the first gap as given, then 30 in each; 10 in left at the right end. */
function withGap(gap: Length): Pick<Bolted, 'stations' | 'long'> {
  const stations = [inches(10), plus(inches(10), gap)];
  for (let count = 0; count < 3; count += 1) stations.push(plus(stations[stations.length - 1] ?? zero, inches(30)));
  return { stations, long: plus(stations[stations.length - 1] ?? zero, inches(10)) };
}

const cellsOf = (subject: string) => ruleTables.filter((cell) => cell.subject === subject);
const bound = (cell: RuleTableCell, side: 'at-least' | 'at-most'): Length | undefined => {
  const value = new RegExp(`${side} (\\S+)`).exec(cell.value)?.[1];
  return value === undefined ? undefined : length(value);
};
const named = (cell: RuleTableCell): string =>
  `${cell.ruleSet}, ${cell.storeys ?? 2} storeys, ${cell.bolt ?? '1/2"'}: ${cell.value}`;

describe.each(tapes)('%s', (_tape, tape) => {
  it.each(cellsOf('anchor-spacing').map((cell) => [named(cell), cell] as const))('spacing by %s', (_name, cell) => {
    const most = bound(cell, 'at-most');
    if (most === undefined) throw new Error(`no spacing in ${cell.value}`);
    const found = (gap: Length) =>
      anchorageFindings(
        { rules: cell.ruleSet, storeys: cell.storeys ?? 2, bolt: length(cell.bolt ?? '1/2"'), ...withGap(gap) },
        tape,
      );
    for (const kept of [minus(most, sixteenth), most, plus(most, sixteenth)]) expect(found(kept)).toEqual([]);
    for (const broken of [plus(most, beyond), plus(most, inches(0.125))])
      expect(found(broken)).toEqual(['anchorage/gap-too-wide']);
  });

  it.each(
    cellsOf('end-distance').flatMap((cell) =>
      (['left', 'right'] as const).map((side) => [`${named(cell)} at the ${side} end`, cell, side] as const),
    ),
  )('end distance by %s', (_name, cell, side) => {
    const { stations } = withGap(inches(40));
    const last = stations[stations.length - 1] ?? zero;
    const found = (distance: Length) =>
      anchorageFindings(
        {
          rules: cell.ruleSet,
          storeys: 2,
          bolt: length(cell.bolt ?? '1/2"'),
          ...(side === 'left'
            ? { stations: [distance, ...stations.slice(1)], long: plus(last, inches(10)) }
            : { stations, long: plus(last, distance) }),
        },
        tape,
      );
    const least = bound(cell, 'at-least');
    const most = bound(cell, 'at-most');
    if (most === undefined) throw new Error(`no window in ${cell.value}`);
    for (const kept of [minus(most, sixteenth), most, plus(most, sixteenth)]) expect(found(kept)).toEqual([]);
    expect(found(plus(most, beyond))).toEqual(['anchorage/end-too-far']);
    if (least === undefined) return;
    for (const kept of [plus(least, sixteenth), least, minus(least, sixteenth)]) expect(found(kept)).toEqual([]);
    expect(found(minus(least, beyond))).toEqual(['anchorage/end-too-near']);
  });

  it.each(
    cellsOf('piece-count')
      .filter((cell) => cell.piece === undefined)
      .map((cell) => [named(cell), cell] as const),
  )('number of anchors on a board of any length by %s', (_name, { ruleSet, value }) => {
    expect(value).toBe('at-least 2');
    const rules = ruleSet;
    for (const long of [inches(24), inches(30), inches(60)]) {
      const ends = [inches(6), minus(long, inches(6))];
      const found = (stations: readonly Length[]) =>
        anchorageFindings({ rules, storeys: 2, bolt: inches(0.5), stations, long }, tape);
      expect(found(ends)).toEqual([]);
      expect(found(ends.slice(1))).toContain('anchorage/short-piece-count');
    }
  });
});

describe('the scope of each set', () => {
  /** What is said of a house of which only the head and a cripple wall matter. */
  const screened = (rules: string, say: { readonly house: readonly string[]; readonly cripple?: string }) => {
    const text = [
      'layout "Scope"',
      `  rules ${rules}`,
      'house',
      ...say.house.map((line) => `  ${line}`),
      `wall F length 20'-0"`,
      '  foundation thick 8" showing 18" top 0" sound',
      '  no sill',
      ...(say.cripple === undefined ? [] : [`  cripple ${say.cripple}`]),
      '',
    ].join('\n');
    const { layout, problems } = readLayout(text);
    expect(problems.map((each) => each.message)).toEqual([]);
    return checkLayout(layout).findings.map((each) => `${each.severity} ${each.rule}`);
  };
  const most = (cell: RuleTableCell): number => Number(/at-most ([\d.]+)/.exec(cell.value)?.[1]);

  it.each(cellsOf('storeys').map((cell) => [named(cell), cell] as const))('storeys by %s', (_name, cell) => {
    const found = (storeys: number) => screened(cell.ruleSet, { house: [`storeys ${storeys}`, 'dwellings 1'] });
    expect(found(most(cell))).not.toContain('stop screening/storeys-beyond');
    expect(found(most(cell) + 1)).toContain('stop screening/storeys-beyond');
  });

  it.each(cellsOf('dwellings').map((cell) => [named(cell), cell] as const))('dwellings by %s', (_name, cell) => {
    const found = (dwellings: number) => screened(cell.ruleSet, { house: ['storeys 2', `dwellings ${dwellings}`] });
    expect(found(most(cell))).not.toContain('stop screening/dwellings-beyond');
    expect(found(most(cell) + 1)).toContain('stop screening/dwellings-beyond');
  });

  it.each(cellsOf('slope').map((cell) => [named(cell), cell] as const))('slope by %s', (_name, cell) => {
    const found = (percent: number) => screened(cell.ruleSet, { house: ['storeys 2', `slope ${percent} %`] });
    expect(found(33.3)).not.toContain('stop screening/slope-beyond');
    expect(found(33.4)).toContain('stop screening/slope-beyond');
  });

  const heights = [
    ...cellsOf('cripple-overall').map((cell) => [cell, 'height'] as const),
    ...cellsOf('cripple-stud').map((cell) => [cell, 'stud-height'] as const),
  ];
  const eachOnEachTape = tapes.flatMap(([inUnits, tape]) =>
    heights.map(([cell, key]) => [`${key} by ${named(cell)}, ${inUnits}`, cell, key, tape] as const),
  );
  it.each(eachOnEachTape)('%s', (_name, cell, key, tape) => {
    const found = (height: Length) => {
      // The other height is far below any limit.
      const other = key === 'height' ? 'stud-height 6"' : 'height 12"';
      return screened(cell.ruleSet, {
        house: [`storeys ${cell.storeys ?? 2}`, 'dwellings 1'],
        cripple: `${key} ${tape(height)} ${other}`,
      });
    };
    const tall = 'stop screening/cripple-too-tall';
    const limit = bound(cell, 'at-most');
    const under = length(/under (\S+)/.exec(cell.value)?.[1] ?? '0"');
    const last = limit ?? minus(under, nanometre);
    expect(found(minus(last, sixteenth))).not.toContain(tall);
    expect(found(last)).not.toContain(tall);
    // The tolerance of a tape is for spacing and ends, not for heights.
    expect(found(plus(last, nanometre))).toContain(tall);
    expect(found(plus(last, sixteenth))).toContain(tall);
  });
});
