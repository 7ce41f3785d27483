import { concreteAcross, holesBelowTop } from '../../fit/blocked-by-concrete.ts';
import { footprintOf } from '../../fit/footprint.ts';
import { setOffset } from '../../fixes/anchor-values.ts';
import { smaller } from '../../units/length.ts';
import { inTheWay, placedAnchor, sayLacking, waysOut } from '../clearance/anchor-fit.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';
import { reportWords } from './report-words.ts';

const oneBolt = { connectors: ['bolt-half'], anchors: [`1'-0"`], length: `2'-0"` } as const;

export const concreteEdgeThin = defineRule({
  id: 'foundation/concrete-edge-thin',
  severity: 'error',
  on: 'anchor',
  summary: 'An anchor stands too near to a face, or to the top, of the concrete.',
  why: 'The concrete beside the anchor breaks out long before the steel gives. What it needs is in the report of the connector; openings and steps count by themselves.',
  remedy: 'Shift the bolt across the sill, or take a connector that needs less beside it.',
  subjects: {},
  examples: [
    {
      failing: demo({ ...oneBolt, sill: `size 2x6 set-back 4" headroom 25"` }),
      passing: demo({ ...oneBolt, sill: `size 2x6 set-back 3/4" headroom 25"` }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    if (!placed) return;
    sayLacking(placed, ['concrete-edge'], context);
    if (inTheWay(placed, ['concrete-edge']).length === 0) return;
    const { edge } = footprintOf(placed.fitCase);
    const { show, showStation } = context;
    const across = concreteAcross(placed.fitCase, placed.station);
    const top = holesBelowTop(placed.fitCase);
    const has = across ? smaller(across.inner, across.outer) : top;
    const face = across ? (across.inner < across.outer ? 'inner face' : 'outer face') : 'top';
    context.report({
      message:
        `${anchor.name} (${connector.name}) at ${showStation(placed.station)} stands ${has === undefined ? 'too near' : `${show(has)} from`} the ${face} of the ` +
        `concrete: at least ${show(edge)} (${reportWords(connector)}). ${across ? 'Shift it across the sill, or use another connector.' : 'Use another connector.'}`,
      span: anchor.stationSource ?? anchor.source,
      related: [{ span: connector.source, message: `what ${connector.name} asks for` }],
      fixes: (now) => [...setOffset(now, wall, anchor), ...waysOut(now, wall, placed.piece, anchor)],
    });
  },
});
