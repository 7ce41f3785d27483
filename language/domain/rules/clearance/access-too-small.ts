import type { Space } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import { leastLength } from '../../rulesets/compare.ts';
import { smaller } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { limitWords } from '../limit-words.ts';

export const accessTooSmall = defineRule({
  id: 'clearance/access-too-small',
  severity: 'warning',
  on: 'house',
  summary: 'The way into a space under the house is smaller, or the crawl space lower, than people and panels want.',
  why: 'Whoever works there has to get out in a hurry, and every sheet, drill and bucket goes through the same hole.',
  remedy: 'Enlarge the hatch before the work begins, or plan the panels in pieces that go through it.',
  subjects: { 'access-wide': 'length', 'access-tall': 'length', 'crawl-height': 'length' },
  examples: [
    {
      failing: withSpace('clear-height 30" access 17" x 24"'),
      passing: withSpace('clear-height 30" access 24" x 18"'),
    },
  ],
  check({ layout }, context) {
    for (const space of layout.spaces) {
      if (space.kind !== 'crawl' && space.kind !== 'basement') continue;
      lookAtWayIn(space, context);
      if (space.kind === 'crawl') lookAtHeight(space, context);
    }
  },
});

function lookAtWayIn(space: Space, context: RuleContext): void {
  const [wideAsked, tallAsked] = [context.limit('access-wide', {}), context.limit('access-tall', {})];
  if (wideAsked.kind !== 'limit' || tallAsked.kind !== 'limit') return;
  const wide = knownValue(space.access?.wide);
  const tall = knownValue(space.access?.tall);
  if (wide === undefined || tall === undefined) {
    context.lacks({ wants: `size of the way into ${space.name}`, at: space.source, thing: space.id });
    return;
  }
  const leastWide = leastLength(wideAsked.limit)?.reach ?? wide;
  const leastTall = leastLength(tallAsked.limit)?.reach ?? tall;
  // A hatch in a floor has no upright: whichever way it is read.
  if ((wide >= leastWide && tall >= leastTall) || (wide >= leastTall && tall >= leastWide)) return;
  const { show } = context;
  context.report({
    message:
      `The way into ${space.name} is ${show(wide)} x ${show(tall)}: at least ${show(leastWide)} x ${show(leastTall)}, for people, panels and a way out ` +
      `(${limitWords({ limit: wideAsked.limit, query: {} }, 'least', context).replace(/^.*\((.*)\)$/, '$1')}). Enlarge it, or cut panels to pass.`,
    thing: space.id,
    about: `${space.id} way in`,
    layer: 'survey',
    span: space.source,
    citation: wideAsked.limit.citation,
  });
}

function lookAtHeight(space: Space, context: RuleContext): void {
  const answer = context.limit('crawl-height', {});
  const least = answer.kind === 'limit' ? leastLength(answer.limit)?.reach : undefined;
  if (answer.kind !== 'limit' || least === undefined) return;
  const near = knownValue(space.clearHeight);
  const far = space.clearHeightTo ? knownValue(space.clearHeightTo) : near;
  if (near === undefined || far === undefined) {
    context.lacks({ wants: `clear height of ${space.name}`, at: space.source, thing: space.id });
    return;
  }
  const height = smaller(near, far);
  if (height >= least) return;
  context.report({
    message:
      `${space.name} is ${context.show(height)} high at its lowest: ${limitWords({ limit: answer.limit, query: {} }, 'least', context)}. ` +
      'Nobody gets out of it quickly; dig it out, or work from outside.',
    thing: space.id,
    about: `${space.id} height`,
    layer: 'survey',
    span: space.source,
    citation: answer.limit.citation,
  });
}

function withSpace(words: string): string {
  return `${demo({ anchors: sound })}\nspace under-house crawl from (0", 0") to (14'-0", 10'-0") ${words}\n`;
}
