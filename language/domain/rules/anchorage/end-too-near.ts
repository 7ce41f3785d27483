import { fromEnd } from '../../fit/end-window.ts';
import type { CountedAnchor } from '../../fit/piece-anchors.ts';
import { anchorsOf } from '../../fit/piece-anchors.ts';
import type { Side } from '../../fit/piece-requirements.ts';
import {
  diametersOn,
  endDistanceAsked,
  endDistanceSubjects,
  lengthOfPiece,
  loneAnchorEnd,
  takesOneAnchor,
} from '../../fit/piece-requirements.ts';
import { slideAnchor } from '../../fixes/anchor-fixes.ts';
import type { SillPiece, Wall } from '../../model/layout.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import type { Length } from '../../units/length.ts';
import { scale } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import type { AskedLimit } from '../limit-words.ts';
import { limitWords, severityOf } from '../limit-words.ts';
import { straddledEnds } from './straddles-break.ts';

export const endTooNear = defineRule({
  id: 'anchorage/end-too-near',
  severity: 'error',
  on: 'piece',
  summary: 'An anchor stands nearer to the true end of a sill board than the rule set allows.',
  why: 'Under load the wood between the hole and the end splits out, and the anchor holds nothing.',
  remedy: 'Move the anchor away from the end, or add one within the end window.',
  subjects: {
    ...endDistanceSubjects,
    'lone-anchor-end': 'length',
    'piece-count': 'number',
    'side-plate-as-bolt': 'length',
    tolerance: 'length',
  },
  examples: [
    {
      failing: demo({ anchors: [`0'-6"`, `4'-4"`, `8'-2"`, `11'-2"`, `13'-2"`] }),
      passing: demo({ anchors: sound }),
    },
  ],
  check({ wall, piece }, context) {
    const { layout } = context;
    const anchors = anchorsOf(wall, piece);
    if (anchors.length === 0) return;
    const lone = takesOneAnchor(layout, wall, piece, diametersOn(wall, piece));
    const tolerance = toleranceOf(layout.rules);
    for (const anchor of anchors) {
      const straddled = anchor.planned ? straddledEnds(layout, wall, anchor.planned) : [];
      for (const side of ['left', 'right'] as const) {
        // Over the joint is nearer than near: a rule of its own says so.
        if (straddled.includes(side)) continue;
        const asked = lone ? loneLimit(wall, piece, anchor, context) : windowLimit(wall, piece, side, anchor, context);
        if (asked && fromEnd(piece, side, anchor.station) < asked.value - tolerance) {
          report(wall, piece, anchor, side, asked, context);
        }
      }
    }
  },
});

type Distance = AskedLimit & { readonly value: Length };

/** The only anchor of a short board has no window; it keeps its distance where the board is long enough for it. */
function loneLimit(wall: Wall, piece: SillPiece, anchor: CountedAnchor, { layout }: RuleContext): Distance | undefined {
  const asked = loneAnchorEnd(layout, wall, piece, anchor.diameter);
  return asked.kind === 'asked' && lengthOfPiece(piece) >= scale(asked.value, 2) ? asked : undefined;
}

function windowLimit(
  wall: Wall,
  piece: SillPiece,
  side: Side,
  anchor: CountedAnchor,
  context: RuleContext,
): Distance | undefined {
  const asked = endDistanceAsked(context.layout, wall, piece, side, 'least', [anchor.diameter]);
  if (asked.kind === 'asked') return asked;
  context.leftOpen(asked, anchor.span);
  return undefined;
}

function report(
  wall: Wall,
  piece: SillPiece,
  anchor: CountedAnchor,
  side: Side,
  asked: Distance,
  context: RuleContext,
): void {
  const distance = fromEnd(piece, side, anchor.station);
  context.report({
    message:
      `${anchor.words} at ${context.showStation(anchor.station)} is ${context.show(distance)} from the ${side} end of sill ${piece.name}: ` +
      `${limitWords(asked, 'least', context)}, or the end splits out. Slide it away from the end.`,
    severity: severityOf(asked.limit, 'error'),
    about: `${anchor.id} ${side}`,
    thing: anchor.id,
    layer: anchor.planned ? 'design' : 'survey',
    station: anchor.station,
    span: anchor.span,
    related: [{ span: piece.source, message: `sill ${piece.name}` }],
    citation: asked.limit.citation,
    asked,
    fixes: (now) => slideAnchor(now, wall, piece, anchor, 'most-room'),
  });
}
