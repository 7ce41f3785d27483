import type { FoundationStretch } from '../../model/layout.ts';
import type { RuleContext } from '../define.ts';
import { severityOf, sourceWords } from '../limit-words.ts';
import { houseSpan, houseWords, limitInForce, whatFollows } from './eligibility.ts';

/**
 * What the house block says of the foundation in a word. Where a wall says it of its own stretch, the rule of the group
 * `foundation` tells it there, with its place, and nothing is said twice.
 */
export function sayHouseWord(
  context: RuleContext,
  about: {
    readonly words: ReadonlySet<string>;
    readonly subject: string;
    readonly toldOf: (stretch: FoundationStretch) => boolean;
    readonly sentence: (word: string, source: string) => string;
  },
): void {
  const { layout } = context;
  const span = houseSpan(layout);
  const word = houseWords(layout, 'foundation')?.find((each) => about.words.has(each));
  if (!span || word === undefined) return;
  if (layout.walls.some((wall) => wall.foundation.some(about.toldOf))) return;
  const limit = limitInForce(context, about.subject, {}, span);
  if (!limit) return;
  context.report({
    message: `${about.sentence(word, sourceWords(limit))} ${whatFollows(limit)} Write on each wall where.`,
    severity: severityOf(limit, 'stop'),
    thing: undefined,
    span,
    citation: limit.citation,
  });
}
