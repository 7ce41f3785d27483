import { holeDepth, stemForHole } from '../../fit/blocked-by-concrete.ts';
import { fitSubjects } from '../../fit/footprint.ts';
import { knownValue, profileAt } from '../../model/reading.ts';
import { inTheWay, placedAnchor, sayLacking, waysOut } from '../clearance/anchor-fit.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';
import { sourceWords } from '../limit-words.ts';

const onePlate = { anchors: [`1'-0"`], length: `2'-0"` } as const;

export const holeTooDeep = defineRule({
  id: 'foundation/hole-too-deep',
  severity: 'error',
  on: 'anchor',
  summary: 'A hole drilled from the side would come too near to the far face of the foundation.',
  why: 'The drill breaks the back out, sometimes out of sight below the soil, and the anchor then sits in rubble. The stem is read at the station of the anchor.',
  remedy: 'Take a shorter anchor, or a bolt down through the sill; or slide it to where the stem is thicker.',
  subjects: { 'cover-behind-hole': fitSubjects['cover-behind-hole'] },
  examples: [
    {
      failing: demo({ ...onePlate, foundation: `thick 5-3/4" showing 18" top 0"` }),
      passing: demo({ ...onePlate, foundation: `thick 6" showing 18" top 0"` }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    if (!placed) return;
    sayLacking(placed, ['through-stem'], context);
    const sideways = connector.kind === 'side-plate' || connector.kind === 'stepped-side-plate';
    const depth = holeDepth(placed.fitCase);
    if (sideways && (depth === undefined || anchor.embed?.kind === 'unknown')) {
      const wants = depth === undefined ? `hole depth of connector ${connector.name}` : `embedment of ${anchor.name}`;
      context.lacks({ wants, at: depth === undefined ? connector.source : anchor.source });
    }
    const [first] = inTheWay(placed, ['through-stem']);
    const wanted = stemForHole(placed.fitCase);
    const cover = context.limit('cover-behind-hole', {});
    if (!first || depth === undefined || wanted === undefined || cover.kind !== 'limit') return;
    const { show, showStation } = context;
    const stretch = wall.foundation.find((each) => each.id === first.thing);
    const has = stretch?.thick && knownValue(profileAt(stretch.thick, placed.station));
    context.report({
      message:
        `${anchor.name} (${connector.name}) at ${showStation(placed.station)}: holes ${show(depth)} deep want ${show(wanted)} of stem with the concrete ` +
        `behind them (${sourceWords(cover.limit)})${has === undefined ? '' : `; it is ${show(has)} there`}. Use a shorter anchor, or bolt from above.`,
      span: anchor.stationSource ?? anchor.source,
      related: first.span ? [{ span: first.span, message: first.words }] : [],
      citation: cover.limit.citation,
      fixes: (now) => waysOut(now, wall, placed.piece, anchor),
    });
  },
});
