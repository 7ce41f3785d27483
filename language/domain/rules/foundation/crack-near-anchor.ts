import { isWide } from '../../fit/blocked-by-things.ts';
import { thingWords } from '../../fit/thing-words.ts';
import type { Defect, FoundationStretch, Wall } from '../../model/layout.ts';
import { compareNumber } from '../../rulesets/compare.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { limitWords, severityOf } from '../limit-words.ts';
import { isUnsound } from './concrete-soft.ts';
import type { NearDefect } from './near-defect.ts';
import { anchorsWords, defectSubjects, defectsOf, nearSubjects, sayDefectsLacking, slideAway } from './near-defect.ts';

const KINDS: readonly Defect['kind'][] = ['crack', 'spall'];

export const crackNearAnchor = defineRule({
  id: 'foundation/crack-near-anchor',
  severity: 'warning',
  on: 'wall',
  summary: 'An anchor stands near a wide crack or in spalled concrete; several wide cracks in one stretch are a stop.',
  why: 'Between an anchor and a wide crack the concrete is a loose block. One crack can be kept away from or repaired; several say that the foundation itself is failing.',
  remedy:
    'Slide the anchor away, or have the crack repaired and write `repair`. Where there are several, an engineer looks at the foundation first.',
  subjects: {
    ...nearSubjects,
    'crack-clear': defectSubjects['crack-clear'],
    'crack-width': 'length',
    'wide-cracks': 'number',
  },
  examples: [
    {
      failing: demo({ anchors: sound, found: [`crack at 9'-0" width 1/4"`] }),
      passing: demo({ anchors: sound, found: [`crack at 9'-0" width 1/8"`] }),
    },
    {
      failing: demo({ anchors: sound, found: [`crack at 6'-6" width 1/4"`, `crack at 7'-0" width 1/4"`] }),
      passing: demo({ anchors: sound, found: [`crack at 6'-6" width 1/4"`] }),
    },
  ],
  check({ wall }, context) {
    sayDefectsLacking(wall, KINDS, context);
    const found = defectsOf(wall, KINDS, context);
    const wide = found.filter(({ defect }) => isWide(defect, context.layout));
    const failing = wall.foundation.filter((stretch) => reportFailing(wall, stretch, wide, context));
    for (const near of found) {
      const told = failing.some((stretch) => liesIn(stretch, near.defect));
      if (near.anchors.length > 0 && !told) reportNear(wall, near, context);
    }
  },
});

/** Several wide cracks in one stretch: the foundation itself. A stretch that is unsound anyhow is told as that. */
function reportFailing(
  wall: Wall,
  stretch: FoundationStretch,
  wide: readonly NearDefect[],
  context: RuleContext,
): boolean {
  const here = wide.filter(({ defect }) => liesIn(stretch, defect));
  if (here.length === 0) return false;
  if (isUnsound(stretch)) return true;
  const answer = context.limit('wide-cracks', {});
  if (answer.kind !== 'limit') return false;
  const { limit } = answer;
  if (limit.bounds.every((bound) => compareNumber(bound, here.length))) return false;
  const { showStation } = context;
  const places = here.flatMap(({ defect }) => (defect.stretch ? [showStation(defect.stretch.from)] : []));
  const shown = places.length <= 4 ? places.join(', ') : `${places.slice(0, 4).join(', ')} …`;
  context.report({
    message:
      `${here.length} wide cracks in the foundation of wall ${wall.name} (${shown}): ${limitWords({ limit, query: {} }, 'most', context)} along one ` +
      'stretch. The prescriptive path ends here: an engineer has to look at it.',
    severity: severityOf(limit, 'stop'),
    thing: stretch.id,
    about: `cracks ${stretch.id}`,
    station: stretch.from,
    stationTo: stretch.to,
    span: stretch.source,
    related: here.map(({ defect }) => ({ span: defect.source, message: 'a wide crack' })),
    citation: limit.citation,
  });
  return true;
}

const liesIn = (stretch: FoundationStretch, { stretch: place }: Defect): boolean =>
  place !== undefined && stretch.from <= place.from && place.from <= stretch.to;

function reportNear(wall: Wall, { defect, anchors }: NearDefect, context: RuleContext): void {
  const answer = context.limit('crack-clear', {});
  const limit =
    defect.kind === 'crack' && isWide(defect, context.layout) && answer.kind === 'limit' ? answer.limit : undefined;
  const [first] = anchors;
  const words = thingWords(defect, context.layout.title.units);
  const asked = limit ? `: ${limitWords({ limit, query: {} }, 'least', context)} between them` : '';
  context.report({
    message: `${anchorsWords(anchors, context)} on wall ${wall.name} ${anchors.length === 1 ? 'stands' : 'stand'} too near to the ${words}${asked}. Slide away, or have it repaired first.`,
    severity: 'warning',
    thing: first?.anchor.id ?? wall.id,
    about: defect.id,
    layer: 'design',
    station: first?.placed.station,
    piece: first?.placed.piece?.name,
    span: first?.anchor.stationSource ?? defect.source,
    related: [{ span: defect.source, message: words }],
    citation: limit?.citation,
    fixes: (now) => slideAway(now, wall, anchors),
  });
}
