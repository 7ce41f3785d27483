import { traverse } from '../../model/outline.ts';
import { goesRound, outlineOf, perimeterOf } from '../../model/taped-outline.ts';
import { defineRule } from '../define.ts';
import { houseDemo } from '../example-texts.ts';

const lengths = [`20'-0"`, `16'-0"`, `20'-0"`, `16'-0"`];

export const wallsCounterClockwise = defineRule({
  id: 'geometry/walls-counter-clockwise',
  severity: 'warning',
  on: 'house',
  summary: 'The walls go round the house the other way: counter-clockwise, seen from above.',
  why: 'Stations run from the left end of each wall, seen from inside, so the walls follow each other clockwise. The other way round, left and right, inside and outside change places on every drawing.',
  remedy: 'List the walls clockwise, each from its left end as seen from inside, or mend the turns.',
  subjects: {},
  examples: [{ failing: houseDemo(lengths, 'left'), passing: houseDemo(lengths) }],
  check({ layout }, context) {
    const [first, second] = perimeterOf(layout);
    if (!first || !second || !goesRound(layout)) return;
    if (traverse(outlineOf(layout, 'taped')).winding !== 'counter-clockwise') return;
    context.report({
      message:
        `From wall ${first.name} to ${second.name} and on, the walls go round counter-clockwise, so inside and outside change places. ` +
        'List them clockwise, each read from its left end seen from inside, or mend the turns.',
      thing: undefined,
      layer: 'survey',
      span: first.nameSource,
      related: [{ span: second.nameSource, message: 'the next wall' }],
    });
  },
});
