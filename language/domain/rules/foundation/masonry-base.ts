import type { FoundationMaterial } from '../../model/layout.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { sourceWords } from '../limit-words.ts';

export const masonryBase = defineRule({
  id: 'foundation/masonry-base',
  severity: 'stop',
  on: 'foundation',
  summary: 'A wall stands on brick, stone, hollow block or wood posts instead of concrete.',
  why: 'Anchors pull out of old masonry, and the foundation itself may not hold together. The tables for anchors do not cover it. This is also the screening item for each wall; screening/masonry-base speaks only of what the house block says.',
  remedy: 'An engineer evaluates and tests it, or designs a new foundation. The survey stays good for that.',
  subjects: { 'perimeter-concrete': 'verdict' },
  examples: [
    {
      failing: demo({ anchors: sound, foundation: `brick thick 8" showing 18" top 0"` }),
      passing: demo({ anchors: sound, foundation: `concrete thick 8" showing 18" top 0"` }),
    },
  ],
  check({ wall, stretch }, context) {
    if (stretch.material === 'concrete') return;
    // Inside the house a wall on brick matters where somebody means to anchor it.
    if (wall.role === 'interior' && wall.anchors.length === 0) return;
    const answer = context.limit('perimeter-concrete', {});
    const limit = answer.kind === 'limit' ? answer.limit : undefined;
    const { showStation } = context;
    const asked = limit?.verdict === 'required' ? `; continuous concrete is asked for (${sourceWords(limit)})` : '';
    context.report({
      message:
        `Wall ${wall.name} stands on ${NAMES[stretch.material]} from ${showStation(stretch.from)} to ${showStation(stretch.to)}${asked}. ` +
        'The prescriptive path ends here: an engineer has to look at it.',
      stationTo: stretch.to,
      span: stretch.materialSource ?? stretch.source,
      citation: limit?.citation,
    });
  },
});

const NAMES: Readonly<Record<FoundationMaterial, string>> = {
  concrete: 'concrete',
  brick: 'brick',
  stone: 'stone',
  block: 'block',
  'wood-posts': 'wood posts',
};
