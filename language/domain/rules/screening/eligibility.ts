import type { Layout, Wall } from '../../model/layout.ts';
import type { SourceSpan } from '../../model/source.ts';
import type { LimitQuery } from '../../rulesets/limit-for.ts';
import type { Limit } from '../../rulesets/rule-set.ts';
import type { RuleContext } from '../define.ts';

/**
 * The limit that a screening check goes by. A rule set that does not speak of the matter does not screen for it; what is open
 * about a limit is said.
 */
export function limitInForce(
  context: RuleContext,
  subject: string,
  query: LimitQuery,
  at: SourceSpan,
): Limit | undefined {
  const answer = context.limit(subject, query);
  switch (answer.kind) {
    case 'limit':
      return answer.limit;
    case 'depends':
      context.lacks({ wants: answer.wants, at });
      return undefined;
    case 'conflict':
      context.leftOpen({ ...answer, subject }, at);
      return undefined;
    case 'none':
      return undefined;
  }
}

/** What follows from being beyond a limit, by its grade: for the whole house, or for one wall of it. */
export function whatFollows({ otherwise }: Limit, wall?: Wall): string {
  switch (otherwise ?? 'stop') {
    case 'stop':
      return 'The prescriptive path ends here: an engineer has to look at it.';
    case 'engineer':
      return wall
        ? `Only wall ${wall.name} goes to an engineer, or under a rule set that covers it.`
        : 'This part of the house goes to an engineer, or under a rule set that covers it.';
    case 'ask':
      return 'The building official decides: ask before drawing.';
    default:
      return 'Say so on the sheet.';
  }
}

/** The words of a screening line of the house block, in lower case; `undefined` where there is none. */
export function houseWords(layout: Layout, key: string): readonly string[] | undefined {
  return layout.house.words.get(key)?.map((word) => word.toLowerCase());
}

/** Where the house block stands, or whatever stands for it. */
export function houseSpan(layout: Layout): SourceSpan | undefined {
  return layout.house.source ?? layout.title.source ?? layout.walls[0]?.nameSource;
}
