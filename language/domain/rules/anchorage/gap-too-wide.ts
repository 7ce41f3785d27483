import { anchorsOf } from '../../fit/piece-anchors.ts';
import { countAsked, diametersOf, spacingAsked } from '../../fit/piece-requirements.ts';
import { insertAnchors } from '../../fixes/anchor-fixes.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import { minus } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { limitWords, severityOf } from '../limit-words.ts';
import { countIsShort } from './counts.ts';

export const gapTooWide = defineRule({
  id: 'anchorage/gap-too-wide',
  severity: 'error',
  on: 'piece',
  summary: 'Two neighbouring anchors of a sill board stand further apart than the rule set allows.',
  why: 'Between two anchors the board carries the shear of the wall alone. The wider the gap, the more each anchor has to take, and the board bows and splits before the anchors work together.',
  remedy: 'Add an anchor in the gap, or move one so that neither gap is too wide.',
  subjects: {
    'anchor-spacing': 'length',
    'piece-count': 'number',
    'side-plate-as-bolt': 'length',
    tolerance: 'length',
  },
  examples: [
    {
      failing: demo({ anchors: [`0'-10"`, `4'-8"`, `9'-2"`, `13'-2"`] }),
      passing: demo({ anchors: sound }),
    },
  ],
  check({ wall, piece }, context) {
    const { layout, show, showStation } = context;
    const anchors = anchorsOf(wall, piece);
    // Too few anchors on a short board are one mistake, and their number is the one to mend.
    if (countIsShort(layout, wall, piece)) return;
    const tolerance = toleranceOf(layout.rules);
    for (const [index, right] of anchors.entries()) {
      const left = anchors[index - 1];
      if (!left) continue;
      const gap = { from: left.station, to: right.station };
      const asked = spacingAsked(layout, wall, piece, gap, diametersOf([left, right]));
      if (asked.kind !== 'asked') {
        // A short board goes by number instead.
        const byNumber =
          asked.kind === 'none' && countAsked(layout, wall, piece, diametersOf(anchors)).kind === 'asked';
        if (!byNumber) context.leftOpen(asked, piece.source);
        continue;
      }
      const width = minus(gap.to, gap.from);
      if (width <= asked.value + tolerance) continue;
      context.report({
        message:
          `${show(width)} between ${left.words} at ${showStation(left.station)} and ${right.words} at ${showStation(right.station)} ` +
          `on sill ${piece.name}: ${limitWords(asked, 'most', context)}. Add an anchor between them.`,
        severity: severityOf(asked.limit, 'error'),
        thing: left.id,
        layer: left.planned ? 'design' : 'survey',
        station: left.station,
        stationTo: right.station,
        span: left.span,
        related: [
          { span: left.span, message: `left end of the gap, ${left.words}` },
          { span: right.span, message: `right end of the gap, ${right.words}` },
        ],
        citation: asked.limit.citation,
        asked,
        fixes: (now) => insertAnchors(now, wall, piece, { kind: 'gap', left, right }),
      });
    }
  },
});
