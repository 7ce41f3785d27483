import { anchorsOf } from '../../fit/piece-anchors.ts';
import { countAsked, diametersOf, lengthOfPiece, spacingAsked } from '../../fit/piece-requirements.ts';
import { insertAnchors } from '../../fixes/anchor-fixes.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';
import { caseWords, severityOf, sourceWords } from '../limit-words.ts';
import { shortageOf } from './counts.ts';

export const shortPieceCount = defineRule({
  id: 'anchorage/short-piece-count',
  severity: 'error',
  on: 'piece',
  summary: 'A short sill board has fewer anchors than the table for short boards asks.',
  why: 'A short board has little length to share the load. Spacing alone would leave it with one or two anchors, so short boards go by number.',
  remedy: 'Add the anchors that are missing, the outer ones within the end windows.',
  subjects: {
    'piece-count': 'number',
    'anchor-spacing': 'length',
    'side-plate-as-bolt': 'length',
  },
  examples: [
    {
      failing: demo({ length: `8'-0"`, anchors: [`0'-10"`, `4'-0"`, `7'-2"`] }),
      passing: demo({ length: `8'-0"`, anchors: [`0'-10"`, `2'-11"`, `5'-1"`, `7'-2"`] }),
    },
  ],
  check({ wall, piece }, context) {
    const { layout, show } = context;
    const anchors = anchorsOf(wall, piece);
    // A board without any is said by a rule of its own.
    if (anchors.length === 0) return;
    const shortage = shortageOf(layout, wall, piece);
    if (!shortage) {
      const asked = countAsked(layout, wall, piece, diametersOf(anchors));
      const spacing = spacingAsked(layout, wall, piece, piece, diametersOf(anchors));
      // A board that goes by spacing needs no number. Where neither is known, the rule on gaps says so.
      if (asked.kind !== 'asked' && asked.kind !== 'none' && spacing.kind !== 'asked')
        context.leftOpen(asked, piece.source);
      else if (asked.kind === 'none' && spacing.kind === 'none' && anchors.length === 1)
        context.leftOpen(asked, piece.source);
      return;
    }
    const { has, asked } = shortage;
    const missing = asked.value - has;
    context.report({
      message:
        `Sill ${piece.name} is ${show(lengthOfPiece(piece))} long and has ${has} of the ${asked.value} anchors asked of it` +
        `${caseWords(asked, show)} (${sourceWords(asked.limit)}). Add ${missing}.`,
      severity: severityOf(asked.limit, 'error'),
      span: piece.source,
      related: anchors.map((anchor) => ({ span: anchor.span, message: `${anchor.words} counts` })),
      citation: asked.limit.citation,
      asked,
      fixes: (now) => insertAnchors(now, wall, piece, { kind: 'piece' }),
    });
  },
});
