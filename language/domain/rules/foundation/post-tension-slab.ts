import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { severityOf, sourceWords } from '../limit-words.ts';

export const postTensionSlab = defineRule({
  id: 'foundation/post-tension-slab',
  severity: 'stop',
  on: 'foundation',
  summary: 'The foundation of a wall holds tensioned cables, or is said to.',
  why: 'A drill that cuts a tensioned cable can kill, and costs the slab its strength. This is also the screening item for each wall; screening/post-tension speaks only of what the house block says.',
  remedy: 'Drill nowhere. Have the cables found by scanning, and the work engineered.',
  subjects: { 'post-tensioned': 'verdict' },
  examples: [
    {
      failing: demo({ anchors: sound, foundation: `thick 8" showing 18" top 0" post-tensioned` }),
      passing: demo({ anchors: sound, foundation: `thick 8" showing 18" top 0" unreinforced` }),
    },
  ],
  check({ wall, stretch }, context) {
    if (stretch.steel !== 'post-tensioned') return;
    const answer = context.limit('post-tensioned', {});
    const limit = answer.kind === 'limit' ? answer.limit : undefined;
    const source = limit ? ` (${sourceWords(limit)})` : '';
    const { showStation } = context;
    context.report({
      message:
        `Tensioned cables in the foundation of wall ${wall.name}, ${showStation(stretch.from)} to ${showStation(stretch.to)}${source}: ` +
        'drill nowhere. Have them found by scanning; an engineer has to look at it.',
      severity: limit ? severityOf(limit, 'stop') : 'stop',
      stationTo: stretch.to,
      span: stretch.source,
      citation: limit?.citation,
    });
  },
});
