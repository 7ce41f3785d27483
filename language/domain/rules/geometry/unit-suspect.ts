import type { Layout, Wall } from '../../model/layout.ts';
import type { Known, Profile, Reading } from '../../model/reading.ts';
import { formatExact } from '../../units/format-length.ts';
import type { Length } from '../../units/length.ts';
import { scale } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { houseDemo } from '../example-texts.ts';
import type { Fix } from '../finding.ts';

export const unitSuspect = defineRule({
  id: 'geometry/unit-suspect',
  severity: 'warning',
  on: 'house',
  summary:
    'A value is ten times, or 25.4 times, what the same thing measures elsewhere in the house, or that part of it.',
  why: 'That is what a slip between inches and millimetres, or between centimetres and millimetres, looks like. The number reads well and is wrong by a unit.',
  remedy: 'Look at the tape or the photo again and write the unit that it shows.',
  subjects: {},
  examples: [{ failing: thicknesses('8mm'), passing: thicknesses('8"') }],
  check({ layout }, context) {
    for (const { value, usual, slip } of slipsIn(layout)) report(layout, value, usual, slip, context);
  },
});

interface SuspectValue {
  readonly value: Value;
  readonly usual: Length;
  readonly slip: Slip;
}

function slipsIn({ walls }: Layout): readonly SuspectValue[] {
  const byKind = new Map<string, Value[]>();
  for (const value of walls.flatMap(valuesOf)) {
    const others = byKind.get(value.kind);
    if (others) others.push(value);
    else byKind.set(value.kind, [value]);
  }
  return [...byKind.values()].flatMap((values) => {
    const amounts = values.map(({ reading }) => reading.value).sort((a, b) => a - b);
    const usual = amounts[Math.floor(amounts.length / 2)];
    // Two values can't tell which of them is off.
    if (amounts.length < 3 || usual === undefined || usual <= 0) return [];
    return values.flatMap((value): readonly SuspectValue[] => {
      const slip = slipOf(value.reading.value, usual);
      return slip ? [{ value, usual, slip }] : [];
    });
  });
}

interface Value {
  readonly kind: string;
  readonly wall: Wall;
  readonly reading: Known<Length>;
}

/** Values that vary little from wall to wall: each line that gives one counts once. */
function valuesOf(wall: Wall): readonly Value[] {
  const values: Value[] = [];
  const seen = new Set<Reading<Length>>();
  const add = (kind: string, reading: Reading<Length> | undefined): void => {
    if (reading?.kind !== 'known' || seen.has(reading)) return;
    seen.add(reading);
    values.push({ kind, wall, reading });
  };
  const along = (kind: string, profile: Profile | undefined): void => {
    for (const point of profile?.points ?? []) add(kind, point.value);
  };
  for (const each of wall.foundation) along('thickness of the foundation', each.thick);
  for (const each of wall.pieces) {
    add('thickness of a sill', each.size?.thick);
    add('width of a sill', each.size?.wide);
  }
  for (const each of wall.cripples) {
    add('spacing of studs', each.spaced);
    add('thickness of a stud', each.studSize?.thick);
    add('width of a stud', each.studSize?.wide);
  }
  for (const each of wall.joists) {
    add('spacing of joists', each.spaced);
    add('thickness of a joist', each.size?.thick);
    add('depth of a joist', each.size?.wide);
  }
  for (const each of wall.foundAnchors) add('size of an old anchor', each.size);
  return values;
}

interface Slip {
  readonly words: string;
  /** What it would be, written with the unit that was meant. */
  readonly meant: (reading: Known<Length>, write: (length: Length) => string) => string;
}

/** Within a tenth of the factor: the same thing is not quite the same everywhere. */
const near = (ratio: number, factor: number): boolean => ratio > factor * 0.9 && ratio < factor * 1.1;

const PLAIN = /^(?<number>\d+(?:\.\d+)?)\s*(?<unit>mm|in|")$/;

function slipOf(value: Length, usual: Length): Slip | undefined {
  const ratio = value / usual;
  if (ratio > 0.2 && ratio < 5) return undefined;
  const inOther =
    (unit: string, factor: readonly [number, number]): Slip['meant'] =>
    (reading, write) => {
      const { number } = PLAIN.exec(reading.typed)?.groups ?? {};
      return number === undefined ? write(scale(reading.value, ...factor)) : `${number}${unit}`;
    };
  const inverse = 1 / ratio;
  if (near(ratio, 25.4)) return { words: '25.4 times', meant: inOther('mm', [10, 254]) };
  if (near(inverse, 25.4)) return { words: 'a 25.4th of', meant: inOther('"', [254, 10]) };
  if (near(ratio, 10)) return { words: '10 times', meant: (reading, write) => write(scale(reading.value, 1, 10)) };
  if (near(inverse, 10)) return { words: 'a tenth of', meant: (reading, write) => write(scale(reading.value, 10)) };
  return undefined;
}

function report(layout: Layout, { kind, wall, reading }: Value, usual: Length, slip: Slip, context: RuleContext): void {
  const write = (length: Length): string => formatExact(length, layout.title.units);
  const meant = slip.meant(reading, write);
  context.report({
    message:
      `${reading.typed} for the ${kind} on wall ${wall.name} is ${slip.words} the ${context.show(usual)} usual in this house ` +
      `(common practice, no source): ${meant} may be meant. Look again and write the unit.`,
    thing: wall.id,
    about: `${wall.id} ${kind} ${reading.typed}`,
    layer: 'survey',
    wall: wall.name,
    span: reading.source,
    fixes: (): readonly Fix[] => [
      {
        title: `Write ${meant} for ${reading.typed}`,
        trust: 'by-hand',
        edits: [{ kind: 'replace-text', span: reading.source, text: meant }],
      },
    ],
  });
}

function thicknesses(last: string): string {
  return ['8"', '8"', '8"', last].reduce(
    (text, thick, index) =>
      text.replace(new RegExp(`(wall ${'ABCD'[index]} .*\\n)`), `$1  foundation thick ${thick}\n`),
    houseDemo([`20'-0"`, `16'-0"`, `20'-0"`, `16'-0"`]),
  );
}
