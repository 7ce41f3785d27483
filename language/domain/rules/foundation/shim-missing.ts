import { setShim } from '../../fixes/anchor-values.ts';
import { knownValue, profileAt } from '../../model/reading.ts';
import { mostLength } from '../../rulesets/compare.ts';
import { minus, zero } from '../../units/length.ts';
import { inTheWay, placedAnchor, waysOut } from '../clearance/anchor-fit.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { limitWords } from '../limit-words.ts';

export const shimMissing = defineRule({
  id: 'foundation/shim-missing',
  severity: 'warning',
  on: 'anchor',
  summary: 'A flat side plate bridges a gap to the sill without a shim.',
  why: 'Across a gap the screws bend before they hold. Where the gap is beyond the range of the plate itself, foundation/set-back-out-of-range says so instead.',
  remedy:
    'Fill the gap with a steel or treated shim over the full height of the plate, as its report allows, and put it on the list.',
  subjects: { 'set-back-flat': 'length' },
  examples: [
    {
      failing: withWidePlate(''),
      passing: withWidePlate(' shim 1/4"'),
    },
  ],
  check({ wall, anchor, connector }, context) {
    if (connector.kind !== 'side-plate' || anchor.shim?.kind === 'unknown') return;
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    const piece = placed?.piece;
    if (!placed || !piece?.setBack || inTheWay(placed, ['set-back']).length > 0) return;
    const answer = context.limit('set-back-flat', {});
    const most = answer.kind === 'limit' ? mostLength(answer.limit)?.reach : undefined;
    const setBack = knownValue(profileAt(piece.setBack, placed.station));
    if (setBack === undefined) {
      context.lacks({ wants: `set-back of sill ${piece.name}`, at: piece.source, thing: piece.id });
      return;
    }
    if (answer.kind !== 'limit' || most === undefined) return;
    const gap = minus(setBack, knownValue(anchor.shim) ?? zero);
    if (gap <= most) return;
    const { show, showStation } = context;
    context.report({
      message:
        `${show(gap)} between ${anchor.name} (${connector.name}) at ${showStation(placed.station)} and sill ${piece.name}: ` +
        `${limitWords({ limit: answer.limit, query: {} }, 'most', context)} without a shim. Add \`shim ${show(setBack)}\`.`,
      span: anchor.connectorSource ?? anchor.source,
      related: [{ span: piece.source, message: `set-back of sill ${piece.name}` }],
      citation: answer.limit.citation,
      fixes: (now) => [...setShim(now, anchor, setBack), ...waysOut(now, wall, piece, anchor)],
    });
  },
});

/** A flat plate whose report allows a gap up to 1/2 in. */
function withWidePlate(shim: string): string {
  const plate = [
    'connector wide-plate side-plate',
    '  demo',
    '  report "none: invented values"',
    '  fits set-back 0" to 1/2"',
    '  fits showing at-least 9"',
    '  body 8" wide 10" tall 5/16" thick',
    '  into concrete 2 concrete-screw-anchor size 1/2" x 4-1/2" hole-depth 4-3/4" apart 4" edge 3"',
    '  into sill 6 lag-screw size 5/16" x 3" edge 3/4"',
    '',
  ].join('\n');
  const text = demo({
    anchors: [sound[0] ?? ''],
    length: `2'-0"`,
    connectors: ['wide-plate'],
    sill: `size 2x6 set-back 1/4" headroom 11-1/8"`,
  });
  return `${text.replace(`at ${sound[0]}`, `at 1'-0"${shim}`)}\n${plate}`;
}
