import { storeysOver } from '../../fit/storeys.ts';
import type { Layout } from '../../model/layout.ts';
import { zero } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { headOf } from '../head-of-house.ts';

export const rulesUnset = defineRule({
  id: 'load-path/rules-unset',
  severity: 'error',
  on: 'house',
  summary: 'No rule set is chosen, or nobody says how many storeys stand above.',
  why: 'Every limit comes from a rule set, and most depend on the storeys above. Without them nothing can be measured against anything, and silence would look like a clean check.',
  remedy:
    'Write `rules existing-building`, or the name of your own set, in the title block, and `storeys 2` in the house block.',
  subjects: {},
  examples: [{ failing: demo({ anchors: sound, rules: undefined }), passing: demo({ anchors: sound }) }],
  check({ layout }, context) {
    const span = headOf(layout);
    if (!span) return;
    const noRules = layout.title.ruleSets.length === 0;
    const bare = wallsWithoutStoreys(layout);
    if (!noRules && bare.length === 0) return;
    const missing = [
      ...(noRules ? ['No rule set is chosen: write `rules existing-building`, or your own, in the title block.'] : []),
      ...(bare.length > 0
        ? [`Nobody says how many storeys stand above ${bare}: write \`storeys\` in the house block.`]
        : []),
    ];
    context.report({ message: `${missing.join(' ')} Until then no limit holds here.`, thing: undefined, span });
  },
});

/** The perimeter walls with a sill of which the storeys above are not even said to be unknown, in words. */
function wallsWithoutStoreys(layout: Layout): string {
  if (layout.house.storeys) return '';
  const bare = layout.walls.filter((wall) => {
    if (wall.role === 'interior' || wall.pieces.length === 0) return false;
    const last = wall.pieces[wall.pieces.length - 1];
    return storeysOver(layout, wall, { from: zero, to: wall.length ?? last?.to ?? zero }).some(
      (each) => each === undefined,
    );
  });
  if (bare.length === 0) return '';
  if (bare.length === layout.walls.length && bare.length > 1) return 'the walls';
  const names = bare.slice(0, 4).map((wall) => wall.name);
  return `${bare.length === 1 ? 'wall' : 'walls'} ${names.join(', ')}${bare.length > 4 ? ' …' : ''}`;
}
