import type { InRuns } from '../../list-in-runs.ts';
import { createRuns } from '../../list-in-runs.ts';
import type { Layout, Wall } from '../../model/layout.ts';
import type { Known, Profile, Reading } from '../../model/reading.ts';
import { isSameSpan } from '../../model/source.ts';
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

interface Weighed {
  readonly inRuns: InRuns<Wall, readonly Value[]>;
  lists: readonly (readonly Value[])[] | undefined;
  slips: readonly SuspectValue[];
}

/** Of each house, by its title, which stays while others of its blocks are edited: most edits change no value that is weighed here. */
const weighed = new WeakMap<Layout['title'], Weighed>();

function slipsIn(layout: Layout): readonly SuspectValue[] {
  const known = weighed.get(layout.title) ?? { inRuns: createRuns(valuesOfRun), lists: undefined, slips: [] };
  weighed.set(layout.title, known);
  const lists = known.inRuns(layout.walls);
  if (known.lists === lists) return known.slips;
  const byKind = new Map<string, Value[]>();
  for (const list of lists) {
    for (const value of list) {
      const values = byKind.get(value.kind);
      if (values) values.push(value);
      else byKind.set(value.kind, [value]);
    }
  }
  known.lists = lists;
  known.slips = [...byKind.values()].flatMap((values): readonly SuspectValue[] => {
    const sorted = values.map((each) => each.reading.value).sort((a, b) => a - b);
    const usual = sorted[Math.floor(sorted.length / 2)];
    // Two values can't tell which of them is off.
    if (values.length < 3 || usual === undefined || usual <= 0) return [];
    return values.flatMap((value): readonly SuspectValue[] => {
      const slip = slipOf(value.reading.value, usual);
      return slip ? [{ value, usual, slip }] : [];
    });
  });
  return known.slips;
}

function valuesOfRun(walls: readonly Wall[], before: readonly Value[] | undefined): readonly Value[] {
  const values = walls.flatMap(valuesOf);
  return before && sameValues(before, values) ? before : values;
}

/** A wall with other work on it has the same readings, though they may have been read again. */
function sameValues(a: readonly Value[], b: readonly Value[]): boolean {
  return a.length === b.length && a.every((value, at) => isSameValue(value, b[at]));
}

function isSameValue({ kind, wall, reading }: Value, other: Value | undefined): boolean {
  if (other?.kind !== kind || other.wall.id !== wall.id) return false;
  return (
    other.reading === reading ||
    (other.reading.value === reading.value && isSameSpan(other.reading.source, reading.source))
  );
}

interface Value {
  readonly kind: string;
  readonly wall: Pick<Wall, 'id' | 'name'>;
  readonly reading: Known<Length>;
}

const kept = new WeakMap<Wall, readonly Value[]>();

/** Values that vary little from wall to wall: each line that gives one counts once. */
function valuesOf(wall: Wall): readonly Value[] {
  const before = kept.get(wall);
  if (before) return before;
  const values: Value[] = [];
  // Not the wall itself: values stay when other work on it makes it another.
  const named = { id: wall.id, name: wall.name };
  const seen = new Set<Reading<Length>>();
  const add = (kind: string, reading: Reading<Length> | undefined): void => {
    if (reading?.kind !== 'known' || seen.has(reading)) return;
    seen.add(reading);
    values.push({ kind, wall: named, reading });
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
  kept.set(wall, values);
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
