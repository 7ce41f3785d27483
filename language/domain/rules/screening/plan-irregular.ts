import type { Layout, Wall } from '../../model/layout.ts';
import { perimeterOf } from '../../model/taped-outline.ts';
import { compareQuantity } from '../../rulesets/compare.ts';
import type { Quantity } from '../../units/quantity.ts';
import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { limitWords, severityOf, sourceWords } from '../limit-words.ts';
import { houseSpan, limitInForce, whatFollows } from './eligibility.ts';

export const planIrregular = defineRule({
  id: 'screening/plan-irregular',
  severity: 'warning',
  on: 'house',
  summary: 'The plan has a large re-entrant corner, or rooms stand over a garage.',
  why: 'The wings of a bent plan swing apart, and an open garage front has little wall to brace. The simple methods reckon with a box.',
  remedy:
    'Ask the building official whether the cook-book path is open, for the whole house or for the parts by themselves.',
  subjects: { 'reentrant-share': 'share', 'garage-below': 'verdict' },
  examples: [
    {
      failing: bent(`10'-0"`),
      passing: bent(`4'-0"`),
    },
  ],
  check({ layout }, context) {
    const span = houseSpan(layout);
    if (!span) return;
    const limit = limitInForce(context, 'reentrant-share', {}, span);
    const corners = limit ? reentrantCorners(layout) : [];
    const allowed =
      limit && corners.length > 0 ? `${limitWords({ limit, query: {} }, 'most', context)}. ${whatFollows(limit)}` : '';
    for (const { wall, share } of corners) {
      if (!limit || limit.bounds.every((bound) => compareQuantity(bound, share))) continue;
      context.report({
        message:
          `The plan turns inwards at the left end of wall ${wall.name}: both wings reach ${Math.round(share.amount * 100)} % of the plan or more past it, ` +
          allowed,
        severity: severityOf(limit, 'warning'),
        thing: wall.id,
        about: `corner ${wall.id}`,
        wall: wall.name,
        span: wall.nameSource,
        citation: limit.citation,
      });
    }
    for (const space of layout.spaces) {
      if (space.kind !== 'garage') continue;
      const below = limitInForce(context, 'garage-below', {}, space.source);
      if (below?.verdict !== 'not-allowed') continue;
      context.report({
        message: `${space.name} is a garage: rooms above it and an open front want a method of their own (${sourceWords(below)}). ${whatFollows(below)}`,
        severity: severityOf(below, 'warning'),
        thing: space.id,
        about: `garage ${space.id}`,
        span: space.source,
        citation: below.citation,
      });
    }
  },
});

interface ReentrantCorner {
  /** The wall that begins at the corner. */
  readonly wall: Wall;
  /** Of the two ways in which the plan reaches past the corner, the smaller one as a share of the plan's extent that way. */
  readonly share: Quantity;
}

interface Corner {
  readonly wall: Wall;
  readonly u: number;
  readonly v: number;
}

/** Seen along the first wall and square to it; corners at other angles count by where they lie. */
function reentrantCorners(layout: Layout): readonly ReentrantCorner[] {
  const perimeter = perimeterOf(layout).filter((wall) => wall.plan);
  const first = perimeter[0]?.plan;
  if (!first || perimeter.length < 6) return [];
  const along = { x: first.to.x - first.from.x, y: first.to.y - first.from.y };
  const long = Math.hypot(along.x, along.y);
  if (long === 0) return [];
  const corners: Corner[] = [];
  const bounds = { u: { low: Infinity, high: -Infinity }, v: { low: Infinity, high: -Infinity } };
  const take = (bound: { low: number; high: number }, value: number): void => {
    if (value < bound.low) bound.low = value;
    if (value > bound.high) bound.high = value;
  };
  for (const wall of perimeter) {
    if (!wall.plan) continue;
    const { x, y } = wall.plan.from;
    const u = (x * along.x + y * along.y) / long;
    const v = (y * along.x - x * along.y) / long;
    corners.push({ wall, u, v });
    take(bounds.u, u);
    take(bounds.v, v);
  }
  const wide = { u: bounds.u.high - bounds.u.low, v: bounds.v.high - bounds.v.low };
  if (wide.u <= 0 || wide.v <= 0) return [];
  return corners.flatMap((corner, index): readonly ReentrantCorner[] => {
    if (corner.wall.turn >= 0) return [];
    const before = corners[(index + corners.length - 1) % corners.length];
    const after = corners[(index + 1) % corners.length];
    if (!before || !after) return [];
    // Outside lies back along the wall before, and on along the wall after.
    const outwards = (axis: 'u' | 'v'): number => {
      const back = before[axis] - corner[axis];
      const on = after[axis] - corner[axis];
      const way = Math.abs(back) > Math.abs(on) ? back : on;
      return way > 0 ? bounds[axis].high - corner[axis] : corner[axis] - bounds[axis].low;
    };
    const amount = Math.min(outwards('u') / wide.u, outwards('v') / wide.v);
    return [{ wall: corner.wall, share: { dimension: 'share', amount, unit: '%' } }];
  });
}

/** A plan of 30 ft by 30 ft with a corner cut out of it. */
function bent(cut: string): string {
  const rest = cut === `10'-0"` ? `20'-0"` : `26'-0"`;
  const others = [`30'-0"`, rest, cut, cut, rest].map((length, index) =>
    [
      `wall ${'BCDEG'[index]} turn ${index === 3 ? 'left' : 'right'} length ${length}`,
      '  foundation thick 8" showing 18" top 0" sound',
      '  no sill',
    ].join('\n'),
  );
  return shell({ after: others }).replace(`length 14'-0"`, `length 30'-0"`);
}
