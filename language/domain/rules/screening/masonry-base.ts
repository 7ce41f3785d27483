import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { sayHouseWord } from './foundation-words.ts';

const MASONRY: ReadonlySet<string> = new Set([
  'brick',
  'stone',
  'rubble',
  'block',
  'masonry',
  'unreinforced-masonry',
  'hollow-block',
]);

export const screeningMasonryBase = defineRule({
  id: 'screening/masonry-base',
  severity: 'stop',
  on: 'house',
  summary: 'The house block says that the foundation is of brick, stone or block, and no wall says where.',
  why: 'Anchors pull out of old masonry, and the tables do not cover it. Where a wall says so of its own foundation, `foundation/masonry-base` tells it there and this one is silent.',
  remedy: 'Write `foundation brick` or the like on each wall that stands on it; an engineer evaluates and tests it.',
  subjects: { 'unreinforced-masonry': 'verdict' },
  examples: [
    {
      failing: shell({ house: ['storeys 2', 'foundation continuous brick'] }),
      passing: shell({ house: ['storeys 2', 'foundation continuous concrete'] }),
    },
  ],
  check(_house, context) {
    sayHouseWord(context, {
      words: MASONRY,
      subject: 'unreinforced-masonry',
      toldOf: (stretch) => stretch.material !== 'concrete',
      sentence: (word, source) => `Foundation of ${word.replaceAll('-', ' ')}: not covered (${source}).`,
    });
  },
});
