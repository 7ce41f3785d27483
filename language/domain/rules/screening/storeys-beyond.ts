import type { Layout } from '../../model/layout.ts';
import type { Known, Reading } from '../../model/reading.ts';
import { compareNumber } from '../../rulesets/compare.ts';
import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { limitWords, severityOf } from '../limit-words.ts';
import { houseSpan, limitInForce, whatFollows } from './eligibility.ts';

export const storeysBeyond = defineRule({
  id: 'screening/storeys-beyond',
  severity: 'stop',
  on: 'house',
  summary: 'The house, or a part of it, has more storeys than the rule set covers.',
  why: 'Every storey adds weight above the sill. The tables for anchors and bracing end where their makers stopped reckoning.',
  remedy: 'Take a rule set that covers the house, or have it engineered. The survey stays good for that.',
  subjects: { storeys: 'number' },
  examples: [{ failing: shell({ house: ['storeys 4'] }), passing: shell({ house: ['storeys 3'] }) }],
  check({ layout }, context) {
    const span = houseSpan(layout);
    if (!span) return;
    const limit = limitInForce(context, 'storeys', {}, span);
    if (!limit) return;
    let most: Known<number> | undefined;
    for (const reading of storeysOf(layout)) {
      if (reading.kind === 'unknown') context.lacks({ wants: 'number of storeys', at: reading.source });
      else if (!most || reading.value > most.value) most = reading;
    }
    if (!most) return;
    const { value, source } = most;
    if (limit.bounds.every((bound) => compareNumber(bound, value))) return;
    context.report({
      message: `${value} storeys: ${limitWords({ limit, query: {} }, 'most', context)}. ${whatFollows(limit)}`,
      severity: severityOf(limit, 'stop'),
      thing: undefined,
      span: source,
      citation: limit.citation,
    });
  },
});

function storeysOf({ house, lines, walls }: Layout): readonly Reading<number>[] {
  const readings = [house.storeys, ...lines.map((line) => line.storeys)].flatMap((each) => each ?? []);
  // Walls are many, and mostly say nothing of this.
  for (const wall of walls) for (const { value } of wall.storeys) readings.push(value);
  return readings;
}
