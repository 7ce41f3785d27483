import { rangeThatFits } from '../../fit/footprint.ts';
import { changeConnector } from '../../fixes/anchor-fixes.ts';
import { setShim } from '../../fixes/anchor-values.ts';
import { knownValue, profileAt } from '../../model/reading.ts';
import { mostLength } from '../../rulesets/compare.ts';
import type { Length } from '../../units/length.ts';
import { minus, zero } from '../../units/length.ts';
import { inTheWay, placedAnchor, sayLacking } from '../clearance/anchor-fit.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { reportWords } from './report-words.ts';

const setBackTwoInches = 'size 2x6 set-back 2" headroom 11-1/8"';

export const setBackOutOfRange = defineRule({
  id: 'foundation/set-back-out-of-range',
  severity: 'error',
  on: 'anchor',
  summary: 'The sill is set back further, or less, than the side plate takes.',
  why: 'The plate must lie against the concrete and against the edge of the sill at once. Out of its range it touches one of them only, and its screws bend.',
  remedy:
    'Take a plate whose range holds the set-back, shim a flat one within what its report allows, or bolt through the sill.',
  subjects: { 'set-back-shim': 'length' },
  examples: [
    {
      failing: demo({
        anchors: sound,
        sill: setBackTwoInches,
        connectors: ['stepped-plate-l', 'stepped-plate-l', 'stepped-plate-s'],
      }),
      passing: demo({ anchors: sound, sill: setBackTwoInches, connectors: ['stepped-plate-l'] }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    const piece = placed?.piece;
    if (!placed || !piece) return;
    sayLacking(placed, ['set-back'], context);
    if (inTheWay(placed, ['set-back']).length === 0) return;
    const range = rangeThatFits(connector, 'set-back');
    const setBack = piece.setBack && knownValue(profileAt(piece.setBack, placed.station));
    if (!range || setBack === undefined) return;
    const { show, showStation } = context;
    const shim = knownValue(anchor.shim) ?? zero;
    const shimmed = shim === 0 ? '' : `, ${show(minus(setBack, shim))} with its shim`;
    context.report({
      message:
        `Sill ${piece.name} is set back ${show(setBack)}${shimmed} at ${anchor.name} (${showStation(placed.station)}); ${connector.name} takes ` +
        `${rangeWords(range, show)} (${reportWords(connector)}). Use a connector that reaches.`,
      span: anchor.connectorSource ?? anchor.source,
      related: [
        { span: piece.source, message: `set-back of sill ${piece.name}` },
        { span: connector.source, message: `what ${connector.name} fits` },
      ],
      fixes: (now) => [
        ...(connector.kind === 'side-plate' && setBack <= thickestShim(context) ? setShim(now, anchor, setBack) : []),
        ...changeConnector(now, wall, piece, anchor),
      ],
    });
  },
});

/** Behind a flat plate a gap up to this may be filled. */
function thickestShim(context: RuleContext): Length {
  const answer = context.limit('set-back-shim', {});
  return (answer.kind === 'limit' ? mostLength(answer.limit)?.reach : undefined) ?? zero;
}

function rangeWords(
  { least, most }: { readonly least: Length | undefined; readonly most: Length | undefined },
  show: (length: Length) => string,
): string {
  if (least === undefined) return most === undefined ? 'any' : `at most ${show(most)}`;
  return most === undefined ? `at least ${show(least)}` : `${show(least)} to ${show(most)}`;
}
