import { thingWords } from '../../fit/thing-words.ts';
import type { Defect } from '../../model/layout.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { limitWords } from '../limit-words.ts';
import { anchorsWords, defectSubjects, defectsOf, nearSubjects, sayDefectsLacking, slideAway } from './near-defect.ts';

const KINDS: readonly Defect['kind'][] = ['cold-joint'];

export const coldJointNear = defineRule({
  id: 'foundation/cold-joint-near',
  severity: 'warning',
  on: 'wall',
  summary: 'An anchor stands near a joint between two pours of concrete.',
  why: 'Old pours lie against each other without holding together; concrete beside the joint splits along it.',
  remedy: 'Slide the anchor away from the joint.',
  subjects: { ...nearSubjects, 'cold-joint-clear': defectSubjects['cold-joint-clear'] },
  examples: [
    {
      failing: demo({ anchors: sound, found: [`cold-joint at 9'-2"`] }),
      passing: demo({ anchors: sound, found: [`cold-joint at 10'-0"`] }),
    },
  ],
  check({ wall }, context) {
    sayDefectsLacking(wall, KINDS, context);
    const answer = context.limit('cold-joint-clear', {});
    if (answer.kind !== 'limit') return;
    const { limit } = answer;
    for (const { defect, anchors } of defectsOf(wall, KINDS, context)) {
      const [first] = anchors;
      if (!first) continue;
      const words = thingWords(defect, context.layout.title.units);
      context.report({
        message:
          `${anchorsWords(anchors, context)} on wall ${wall.name}: holes too near to the ${words}: ` +
          `${limitWords({ limit, query: {} }, 'least', context)}. Slide away from the joint.`,
        thing: first.anchor.id,
        about: defect.id,
        layer: 'design',
        station: first.placed.station,
        piece: first.placed.piece?.name,
        span: first.anchor.stationSource ?? first.anchor.source,
        related: [{ span: defect.source, message: words }],
        citation: limit.citation,
        fixes: (now) => slideAway(now, wall, anchors),
      });
    }
  },
});
