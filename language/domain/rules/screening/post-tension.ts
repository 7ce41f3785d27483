import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { sayHouseWord } from './foundation-words.ts';

const TENSIONED: ReadonlySet<string> = new Set(['post-tensioned', 'post-tension', 'cables']);

export const screeningPostTension = defineRule({
  id: 'screening/post-tension',
  severity: 'stop',
  on: 'house',
  summary: 'The house block says that the foundation is post-tensioned, and no wall says where.',
  why: 'A drill that cuts a tensioned cable can kill. Where a wall says so of its own foundation, `foundation/post-tension-slab` tells it there and this one is silent.',
  remedy: 'Drill nowhere. Have the cables found by scanning, and the work engineered.',
  subjects: { 'post-tensioned': 'verdict' },
  examples: [
    {
      failing: shell({ house: ['storeys 2', 'foundation continuous cables'] }),
      passing: shell({ house: ['storeys 2', 'foundation continuous'] }),
    },
  ],
  check(_house, context) {
    sayHouseWord(context, {
      words: TENSIONED,
      subject: 'post-tensioned',
      toldOf: (stretch) => stretch.steel === 'post-tensioned',
      sentence: (_word, source) => `Post-tensioned foundation: drill nowhere before the cables are found (${source}).`,
    });
  },
});
