import type { CountedAnchor } from '../../fit/piece-anchors.ts';
import { anchorsOf } from '../../fit/piece-anchors.ts';
import { apartAsked, diametersOf, endDistanceSubjects } from '../../fit/piece-requirements.ts';
import { removeAnchor, slideAnchor } from '../../fixes/anchor-fixes.ts';
import type { Layout, SillPiece, Wall } from '../../model/layout.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import { minus } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import type { Fix } from '../finding.ts';
import { limitWords, severityOf } from '../limit-words.ts';
import { straddledEnds } from './straddles-break.ts';

export const gapTooTight = defineRule({
  id: 'anchorage/gap-too-tight',
  severity: 'warning',
  on: 'wall',
  summary: 'Two anchors that go through one sill board stand nearer to each other than the rule set allows.',
  why: 'Two holes close together split the board between them, and the concrete that each anchor would tear out is counted twice.',
  remedy: 'Slide one of them along, or leave one out where the board has enough without it.',
  subjects: {
    'anchor-apart': 'length',
    'piece-count': 'number',
    ...endDistanceSubjects,
    'side-plate-as-bolt': 'length',
    tolerance: 'length',
  },
  examples: [
    {
      failing: demo({ anchors: [`0'-10"`, `4'-8"`, `5'-6"`, `8'-8"`, `11'-2"`, `13'-2"`] }),
      passing: demo({ anchors: sound }),
    },
  ],
  check({ wall }, context) {
    const { layout, show, showStation } = context;
    const tolerance = toleranceOf(layout.rules);
    const anchors = wall.pieces
      .flatMap((piece) => anchorsOf(wall, piece).map((anchor) => ({ anchor, piece })))
      .sort((a, b) => a.anchor.station - b.anchor.station);
    for (const [index, right] of anchors.entries()) {
      const left = anchors[index - 1];
      // In a lap an anchor of one board goes through the other too.
      const piece = left && [left.piece, right.piece].find((each) => liesUnder(each, left.anchor, right.anchor));
      // Over a joint it has to move anyway.
      if (!left || !piece || straddles(layout, wall, left.anchor) || straddles(layout, wall, right.anchor)) continue;
      const asked = apartAsked(layout, wall, piece, diametersOf([left.anchor, right.anchor]));
      if (asked.kind !== 'asked') {
        // A rule set may well ask nothing of it.
        if (asked.kind !== 'none') context.leftOpen(asked, right.anchor.span);
        continue;
      }
      const apart = minus(right.anchor.station, left.anchor.station);
      if (apart >= asked.value - tolerance) continue;
      context.report({
        message:
          `Only ${show(apart)} between ${left.anchor.words} at ${showStation(left.anchor.station)} and ${right.anchor.words} at ` +
          `${showStation(right.anchor.station)} on sill ${piece.name}: ${limitWords(asked, 'least', context)}. Slide one, or leave one out.`,
        severity: severityOf(asked.limit, 'warning'),
        thing: left.anchor.id,
        about: `${left.anchor.id} ${right.anchor.id}`,
        layer: left.anchor.planned ? 'design' : 'survey',
        piece: piece.name,
        station: left.anchor.station,
        stationTo: right.anchor.station,
        span: right.anchor.span,
        related: [{ span: left.anchor.span, message: `the other one, ${left.anchor.words}` }],
        citation: asked.limit.citation,
        asked,
        fixes: (now) => [...mends(now, wall, right), ...mends(now, wall, left)],
      });
    }
  },
});

const straddles = (layout: Layout, wall: Wall, { planned }: CountedAnchor): boolean =>
  planned !== undefined && straddledEnds(layout, wall, planned).length > 0;

const liesUnder = (piece: SillPiece, left: CountedAnchor, right: CountedAnchor): boolean =>
  piece.from <= left.station && right.station <= piece.to;

function mends(
  now: Layout,
  wall: Wall,
  { anchor, piece }: { readonly anchor: CountedAnchor; readonly piece: SillPiece },
): readonly Fix[] {
  return [...slideAnchor(now, wall, piece, anchor, 'nearest'), ...removeAnchor(anchor)];
}
