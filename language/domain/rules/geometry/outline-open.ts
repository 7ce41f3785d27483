import { closingFixes } from '../../fixes/close-outline.ts';
import type { ClosingError } from '../../model/outline.ts';
import { traverse } from '../../model/outline.ts';
import { goesRound, outlineOf, perimeterOf } from '../../model/taped-outline.ts';
import { mostLength } from '../../rulesets/compare.ts';
import type { Limit } from '../../rulesets/rule-set.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { houseDemo } from '../example-texts.ts';
import { headOf } from '../head-of-house.ts';
import { limitWords, severityOf } from '../limit-words.ts';

export const outlineOpen = defineRule({
  id: 'geometry/outline-open',
  severity: 'warning',
  on: 'house',
  summary: 'Walked round as taped, the walls do not come back to where they began.',
  why: 'A little is the tape. More is a wall that was misread, or a corner that is not square, and every station of that wall is off by as much.',
  remedy:
    'Up to an inch, spread the error over the walls. Beyond that, tape the walls of that direction again, and a diagonal.',
  subjects: { 'closing-error': 'length', 'closing-blunder': 'length', tolerance: 'length' },
  examples: [
    {
      failing: houseDemo([`20'-0 1/2"`, `16'-0"`, `20'-0"`, `16'-0"`]),
      passing: houseDemo([`20'-0 1/8"`, `16'-0"`, `20'-0"`, `16'-0"`]),
    },
  ],
  check({ layout }, context) {
    const span = headOf(layout);
    if (!span || !goesRound(layout)) return;
    const walls = perimeterOf(layout);
    const taped = traverse(outlineOf(layout, 'taped'));
    for (const index of taped.missing) {
      const wall = walls[index];
      if (wall) context.lacks({ wants: `length of wall ${wall.name}`, at: wall.nameSource, thing: wall.id });
    }
    if (!taped.closing) return;
    const broken = brokenLimit(taped.closing, context);
    if (!broken) return;
    const adjusted = traverse(outlineOf(layout, 'adjusted')).closing;
    const spread = !broken.blunder && adjusted !== undefined && adjusted.length <= toleranceOf(layout.rules);
    const { show } = context;
    const { dx, dy, length, ratio } = taped.closing;
    const what =
      `Taped, the walls miss their beginning by ${show(length)} (${show(dx)} east, ${show(dy)} north${ratio === undefined ? '' : `, 1 : ${Math.round(ratio)}`}): ` +
      `${limitWords({ limit: broken.limit, query: {} }, 'most', context)}.`;
    context.report({
      message: `${what} ${spread ? 'The adjusted lengths close; stations stay tied to the tape.' : broken.blunder ? 'One wall was misread, or a corner is not square: tape again.' : 'Spread it over the walls, or tape again.'}`,
      severity: spread ? 'info' : severityOf(broken.limit, broken.blunder ? 'error' : 'warning'),
      thing: spread ? 'outline:spread' : 'outline:open',
      about: spread ? 'spread over the walls' : 'open',
      layer: 'survey',
      span,
      citation: broken.limit.citation,
      fixes: (now) => (spread ? [] : closingFixes(now)),
    });
  },
});

function brokenLimit(
  { length }: ClosingError,
  context: RuleContext,
): { readonly limit: Limit; readonly blunder: boolean } | undefined {
  for (const subject of ['closing-blunder', 'closing-error'] as const) {
    const answer = context.limit(subject, {});
    const most = answer.kind === 'limit' ? mostLength(answer.limit) : undefined;
    if (answer.kind === 'limit' && most && length > most.reach)
      return { limit: answer.limit, blunder: subject === 'closing-blunder' };
  }
  return undefined;
}
