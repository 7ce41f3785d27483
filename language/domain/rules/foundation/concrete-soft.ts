import type { Condition, FoundationStretch } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import { compareQuantity } from '../../rulesets/compare.ts';
import { formatQuantity } from '../../units/format-quantity.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { limitWords, severityOf, sourceWords } from '../limit-words.ts';

const UNSOUND: readonly Condition[] = ['soft', 'crumbling', 'leaning', 'undermined', 'rotten'];

export const concreteSoft = defineRule({
  id: 'foundation/concrete-soft',
  severity: 'stop',
  on: 'foundation',
  summary: 'The concrete of a foundation is weak, crumbling, leaning or undermined.',
  why: 'No anchor holds in it, and the stem itself may not stay up. A nail that scratches it deeply or a hollow sound under the hammer says so. This is also the screening item for each wall; screening/concrete-soft speaks only of what the house block says.',
  remedy:
    'An engineer tests it and says what to do. A strength that was assumed wants a test before anything rests on it.',
  subjects: { 'concrete-strength': 'pressure' },
  examples: [
    {
      failing: demo({ anchors: sound, foundation: `thick 8" showing 18" top 0" strength 1500 psi` }),
      passing: demo({ anchors: sound, foundation: `thick 8" showing 18" top 0" strength 2000 psi` }),
    },
    {
      failing: demo({ anchors: sound, foundation: `thick 8" showing 18" top 0" crumbling` }),
      passing: demo({ anchors: sound, foundation: `thick 8" showing 18" top 0" sound` }),
    },
  ],
  check({ wall, stretch }, context) {
    if (stretch.material !== 'concrete') return;
    if (wall.role === 'interior' && wall.anchors.length === 0) return;
    const { showStation } = context;
    const answer = context.limit('concrete-strength', {});
    const limit = answer.kind === 'limit' ? answer.limit : undefined;
    const place = `of wall ${wall.name}, ${showStation(stretch.from)} to ${showStation(stretch.to)}`;
    const report = (what: string): void =>
      context.report({
        message: `The concrete ${place}, ${what}. The prescriptive path ends here: an engineer has it tested and looks at it.`,
        severity: limit ? severityOf(limit, 'stop') : 'stop',
        stationTo: stretch.to,
        span: stretch.strength?.kind === 'known' ? stretch.strength.source : stretch.source,
        citation: limit?.citation,
      });
    const unsound = UNSOUND.filter((condition) => stretch.conditions.includes(condition));
    if (unsound.length > 0) {
      report(`is ${unsound.join(' and ')}${limit ? ` (${sourceWords(limit)})` : ''}`);
      return;
    }
    const strength = knownValue(stretch.strength);
    if (strength && limit) {
      if (limit.bounds.every((bound) => compareQuantity(bound, strength))) return;
      report(`has ${formatQuantity(strength)}: ${limitWords({ limit, query: {} }, 'least', context)}`);
      return;
    }
    if (stretch.strength?.kind === 'unknown')
      context.lacks({ wants: `strength of the concrete ${place}`, at: stretch.strength.source });
    else if (!stretch.conditions.includes('sound')) {
      context.lacks({ wants: `strength or condition of the concrete ${place}`, at: stretch.source });
    }
  },
});

/** Whether the survey says so of a stretch in a word. */
export const isUnsound = ({ material, conditions }: FoundationStretch): boolean =>
  material === 'concrete' && UNSOUND.some((condition) => conditions.includes(condition));
