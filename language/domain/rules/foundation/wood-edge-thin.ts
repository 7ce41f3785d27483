import { woodEdge } from '../../fit/blocked-by-concrete.ts';
import { fitSubjects } from '../../fit/footprint.ts';
import { setOffset } from '../../fixes/anchor-values.ts';
import { inTheWay, placedAnchor, sayLacking, waysOut } from '../clearance/anchor-fit.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { sourceWords } from '../limit-words.ts';
import { reportWords } from './report-words.ts';

const boltedBoard = demo({ anchors: sound, connectors: ['bolt-half'], sill: `size 2x6 set-back 1-1/2" headroom 25"` });

export const woodEdgeThin = defineRule({
  id: 'foundation/wood-edge-thin',
  severity: 'error',
  on: 'anchor',
  summary: 'A bolt or the screws of a side plate stand too near to an edge of the sill.',
  why: 'Wood loaded beside a thin edge splits along the grain, and the anchor is loose in it.',
  remedy: 'Shift the bolt across the sill, take a thinner one, or a plate whose screws need less wood.',
  subjects: { 'wood-edge-per-diameter': fitSubjects['wood-edge-per-diameter'] },
  examples: [
    {
      failing: boltedBoard.replace(`at 8'-8"`, `at 8'-8" offset 5/8"`),
      passing: boltedBoard.replace(`at 8'-8"`, `at 8'-8" offset 3/4"`),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    if (!placed) return;
    sayLacking(placed, ['wood-edge'], context);
    if (inTheWay(placed, ['wood-edge']).length === 0) return;
    const edge = woodEdge(placed.fitCase);
    if (!edge || edge.wants !== undefined) return;
    const { show, showStation } = context;
    const source = edge.limit ? sourceWords(edge.limit) : reportWords(connector);
    context.report({
      message:
        `The ${edge.fastener} of ${anchor.name} (${connector.name}) at ${showStation(placed.station)} has ${show(edge.has)} of wood to the edge of sill ` +
        `${placed.piece?.name ?? ''}: at least ${show(edge.asked)} (${source}). Shift it across, or use another connector.`,
      span: anchor.stationSource ?? anchor.source,
      related: [{ span: connector.source, message: `what ${connector.name} is` }],
      citation: edge.limit?.citation,
      fixes: (now) => [...setOffset(now, wall, anchor), ...waysOut(now, wall, placed.piece, anchor)],
    });
  },
});
