import { defineRule } from '../define.ts';

export const ruleCrashed = defineRule({
  id: 'internal/rule-crashed',
  severity: 'info',
  on: 'house',
  summary: 'A check of this program broke off: a mistake of ours.',
  why: 'What this check would have said is not known. All other checks ran.',
  remedy: 'Please look over by eye what the check is about, and send us the layout if you may.',
  subjects: {},
  examples: [],
  check(_house, context) {
    const said = new Set<string>();
    for (const crash of context.seen.crashes) {
      if (said.has(crash.rule)) continue;
      said.add(crash.rule);
      const where = crash.wall === undefined ? '' : ` on wall ${crash.wall}`;
      context.report({
        message: `The check ${crash.rule} broke off${where} (${crash.reason}): our mistake, not yours. Look over by eye what it checks; all other checks ran.`,
        thing: undefined,
        span: crash.at,
        about: crash.rule,
      });
    }
  },
});
