import { storeysOver } from '../../fit/storeys.ts';
import type { Wall } from '../../model/layout.ts';
import { compareLength } from '../../rulesets/compare.ts';
import type { LimitQuery } from '../../rulesets/limit-for.ts';
import { zero } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { limitWords, severityOf, sourceWords } from '../limit-words.ts';
import { limitInForce, whatFollows } from './eligibility.ts';

export const foundationPartial = defineRule({
  id: 'screening/foundation-partial',
  severity: 'stop',
  on: 'wall',
  summary: 'A wall of the perimeter has no foundation below it, or only below a part of it.',
  why: 'What stands beside a foundation is not tied by it. A short wall below a one-storey extension may go without; a longer or a higher one drags the rest along.',
  remedy:
    'Have that wall engineered, or put a foundation below it. What nobody looked at is missing in the survey: write it down.',
  subjects: { 'foundation-gap': 'length', 'partial-foundation': 'verdict', 'perimeter-concrete': 'verdict' },
  examples: [
    {
      failing: twoWalls({ length: `12'-0"`, foundation: 'no foundation' }),
      passing: twoWalls({ length: `12'-0"`, foundation: 'foundation thick 8" showing 18" top 0" sound' }),
    },
  ],
  check({ wall }, context) {
    if (wall.role !== 'perimeter') return;
    if (!wall.absent.has('foundation')) {
      sayUncovered(wall, context);
      return;
    }
    const exempt = gapLimit(wall, context);
    if (exempt === 'open') return;
    const { length } = wall;
    if (exempt && length === undefined) {
      context.lacks({ wants: `length of wall ${wall.name}`, at: wall.nameSource });
      return;
    }
    if (exempt && length !== undefined && exempt.limit.bounds.every((bound) => compareLength(bound, length))) return;
    const partial = limitInForce(context, 'partial-foundation', {}, wall.nameSource);
    const limit =
      partial?.verdict === 'not-allowed'
        ? partial
        : (exempt?.limit ?? limitInForce(context, 'perimeter-concrete', {}, wall.nameSource));
    if (!limit) return;
    const shorter = exempt ? `; without one ${limitWords(exempt, 'most', context)}` : '';
    const { show } = context;
    context.report({
      message: `Wall ${wall.name}${length === undefined ? '' : `, ${show(length)} long,`} has no foundation (${sourceWords(limit)})${shorter}. ${whatFollows(limit, wall)}`,
      severity: severityOf(limit, 'stop'),
      span: wall.nameSource,
      citation: limit.citation,
    });
  },
});

/** Up to which length a wall may go without: only under the storeys that the limit names. */
function gapLimit(wall: Wall, context: RuleContext) {
  let found: { readonly limit: NonNullable<ReturnType<typeof limitInForce>>; readonly query: LimitQuery } | undefined;
  for (const reading of storeysOver(context.layout, wall, { from: zero, to: wall.length ?? zero })) {
    const query: LimitQuery = {
      storeys:
        reading?.kind === 'known'
          ? { kind: 'number', number: reading.value }
          : { kind: 'unknown', wants: `storeys above wall ${wall.name}` },
    };
    const answer = context.limit('foundation-gap', query);
    if (answer.kind === 'depends') {
      context.lacks({ wants: answer.wants, at: wall.nameSource });
      return 'open';
    }
    if (answer.kind !== 'limit') return undefined;
    found = { limit: answer.limit, query };
  }
  return found;
}

/** Between what was written down of the foundation nobody knows what there is. */
function sayUncovered(wall: Wall, context: RuleContext): void {
  const { showStation } = context;
  if (wall.foundation.length === 0) {
    const measure = wall.length === undefined ? 'length' : 'foundation';
    context.lacks({ wants: `${measure} of wall ${wall.name}`, at: wall.nameSource });
    return;
  }
  let reached = zero;
  for (const stretch of wall.foundation.toSorted((a, b) => a.from - b.from)) {
    if (stretch.from > reached) {
      const wants = `foundation of wall ${wall.name}, ${showStation(reached)} to ${showStation(stretch.from)}`;
      context.lacks({ wants, at: wall.nameSource });
    }
    if (stretch.to > reached) reached = stretch.to;
  }
  if (wall.length !== undefined && reached < wall.length) {
    const wants = `foundation of wall ${wall.name}, ${showStation(reached)} to ${showStation(wall.length)}`;
    context.lacks({ wants, at: wall.nameSource });
  }
}

function twoWalls(say: { readonly length: string; readonly foundation: string }): string {
  return shell({
    after: [`wall G turn straight length ${say.length}`, `  ${say.foundation}`, '  no sill'],
  });
}
