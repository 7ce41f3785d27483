import { cornersOf, seenRound } from '../fit/corners.ts';
import { lineOf, othersOfLine, speaksForLine } from '../fit/storeys.ts';
import { provenIn } from '../fit/tested-anchors.ts';
import { isSameList } from '../list-in-runs.ts';
import type { Layout, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import type { Rule } from './define.ts';
import { isForgotten } from './load-path/wall-line-forgotten.ts';

/** Everything that `restsOn` looks at, at a glance. */
export function allAround(layout: Layout, wall: Wall): readonly unknown[] {
  const { left, right } = cornersOf(layout, wall);
  const around: unknown[] = [
    ofWholeHouse(layout),
    left?.neighbour,
    left?.turn,
    right?.neighbour,
    right?.turn,
    lineOf(layout, wall),
    provenIn(layout, wall),
    isForgotten(layout, wall),
    speaksForLine(layout, wall),
  ];
  for (const other of othersOfLine(layout, wall)) around.push(other);
  return around;
}

/**
 * All that the findings of a wall rest on beside the wall itself; an edit elsewhere leaves them as they are. All of them on what is
 * `common`, and those of each group of rules on its `own` too.
 */
export function restsOn(
  layout: Layout,
  wall: Wall,
): {
  readonly common: readonly unknown[];
  readonly apart: readonly { readonly besides: Rule['besides']; readonly own: readonly unknown[] }[];
} {
  const { left, right } = cornersOf(layout, wall);
  const line = lineOf(layout, wall);
  const common = [
    ofWholeHouse(layout),
    line?.storeys?.source,
    line?.storeys?.kind,
    knownValue(line?.storeys),
    line?.exempt?.from,
    provenIn(layout, wall),
    isForgotten(layout, wall),
    speaksForLine(layout, wall),
    ...seenRound(left),
    ...seenRound(right),
  ];
  return {
    common,
    apart: [
      { besides: undefined, own: nothingMore },
      { besides: 'round-corners', own: [left?.neighbour, right?.neighbour] },
      { besides: 'along-line', own: [...othersOfLine(layout, wall), line] },
    ],
  };
}

const nothingMore: readonly unknown[] = [];

const wholes = new WeakMap<Layout['rules'], (readonly unknown[])[]>();

/** What all walls rest on, as one object that stays while its parts do. */
export function ofWholeHouse(layout: Layout): readonly unknown[] {
  const before = wholeOfLayouts.get(layout);
  if (before) return before;
  const { storeys, floorUnderside } = layout.house;
  const inputs = [
    layout.connectors,
    layout.title.units,
    // Findings lead to the lines that say these, so a line that is read anew counts as another.
    storeys?.source,
    floorUnderside?.source,
    storeys?.kind,
    knownValue(storeys),
    floorUnderside?.kind,
    knownValue(floorUnderside),
    // Sheets go in through the space that the wall stands along.
    ...layout.spaces,
  ];
  const known = wholes.get(layout.rules) ?? [];
  const whole = known.find((each) => isSameList(each, inputs)) ?? inputs;
  // Of the houses open side by side; an older one only costs checking its walls once more.
  wholes.set(layout.rules, [whole, ...known.filter((each) => each !== whole)].slice(0, 8));
  wholeOfLayouts.set(layout, whole);
  return whole;
}
const wholeOfLayouts = new WeakMap<Layout, readonly unknown[]>();
