import { concreteAcross, holesBelowTop } from '../../fit/blocked-by-concrete.ts';
import { setOffset } from '../../fixes/anchor-values.ts';
import { leastLength } from '../../rulesets/compare.ts';
import { smaller } from '../../units/length.ts';
import { inTheWay, placedAnchor, waysOut } from '../clearance/anchor-fit.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';
import { limitWords, sourceWords } from '../limit-words.ts';

/** Anchors that hold by pressing outwards. */
const EXPANDING = /^(wedge|sleeve|expansion|drop-in)(-|$)/i;

export const expansionNearEdge = defineRule({
  id: 'foundation/expansion-near-edge',
  severity: 'warning',
  on: 'anchor',
  summary: 'An anchor that spreads in its hole stands near an edge of old concrete.',
  why: 'Wedge and sleeve anchors hold by pressing outwards, and near an edge they crack the face off while they are tightened. Adhesive and screw anchors press less.',
  remedy: 'Use an adhesive or a screw anchor, or shift it away from the edge.',
  subjects: { 'expansion-edge': 'length', 'expansion-cracks-face': 'verdict' },
  examples: [
    {
      failing: withWedge(`offset 1-1/2"`),
      passing: withWedge(`offset 2-3/4"`),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const fastener = connector.fasteners.find((each) => each.member === 'concrete');
    if (!fastener || !EXPANDING.test(fastener.kind)) return;
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    // Nearer than its own report allows is the graver of the two, and shifting it mends both.
    if (!placed || inTheWay(placed, ['concrete-edge']).length > 0) return;
    const answer = context.limit('expansion-edge', {});
    const least = answer.kind === 'limit' ? leastLength(answer.limit)?.reach : undefined;
    if (answer.kind !== 'limit' || least === undefined) return;
    const across = concreteAcross(placed.fitCase, placed.station);
    const has =
      connector.kind === 'through-bolt' ? across && smaller(across.inner, across.outer) : holesBelowTop(placed.fitCase);
    if (has === undefined) {
      const wants =
        connector.kind === 'through-bolt'
          ? `concrete on either side of ${anchor.name}`
          : `holes of connector ${connector.name}`;
      context.lacks({ wants, at: anchor.source });
      return;
    }
    if (has >= least) return;
    const cracks = context.limit('expansion-cracks-face', {});
    const rule = cracks.kind === 'limit' && cracks.limit.verdict === 'not-allowed' ? cracks.limit : undefined;
    const { show, showStation } = context;
    context.report({
      message:
        `${anchor.name} (${fastener.kind}) at ${showStation(placed.station)} stands ${show(has)} from the edge of the concrete: ` +
        `${limitWords({ limit: answer.limit, query: {} }, 'least', context)} for anchors that spread` +
        `${rule ? `; they must not crack the face (${sourceWords(rule)})` : ''}. Use an adhesive or a screw anchor.`,
      span: anchor.connectorSource ?? anchor.source,
      related: [{ span: connector.source, message: `what ${connector.name} is` }],
      citation: rule?.citation ?? answer.limit.citation,
      fixes: (now) => [...setOffset(now, wall, anchor, least), ...waysOut(now, wall, placed.piece, anchor)],
    });
  },
});

function withWedge(offset: string): string {
  const connector = [
    'connector wedge-half through-bolt',
    '  demo',
    '  report "none: invented values"',
    '  body 3" wide 3" tall',
    '  into concrete 1 wedge-anchor size 1/2" x 7" hole-depth 4" edge 1-3/4"',
    '',
  ].join('\n');
  const text = demo({
    anchors: [`1'-0"`],
    length: `2'-0"`,
    connectors: ['wedge-half'],
    sill: `size 2x6 set-back 3/4" headroom 25"`,
  });
  return `${text.replace(`at 1'-0"`, `at 1'-0" ${offset}`)}\n${connector}`;
}
