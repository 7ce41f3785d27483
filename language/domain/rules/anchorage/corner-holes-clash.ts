import type { AcrossCorner, AnchorNearCorner } from '../../fit/corner-holes.ts';
import { holesAtRightCorner } from '../../fit/corner-holes.ts';
import { slideTowards } from '../../fixes/anchor-fixes.ts';
import type { Layout, Wall } from '../../model/layout.ts';
import { leastLength } from '../../rulesets/compare.ts';
import type { LimitQuery } from '../../rulesets/limit-for.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { cornerDemo } from '../example-texts.ts';
import type { Fix } from '../finding.ts';
import { limitWords, severityOf } from '../limit-words.ts';
import { sameAnchorTwice } from './corner-anchor-shared.ts';

export const cornerHolesClash = defineRule({
  id: 'anchorage/corner-holes-clash',
  severity: 'warning',
  on: 'wall',
  besides: 'round-corners',
  summary: 'Holes of two walls come nearer to each other in the concrete of their corner than the rule set allows.',
  why: 'Each anchor needs the concrete round it. Where two take the same piece of a corner, it breaks off with both.',
  remedy: 'Slide one of them away from the corner within its end window, or set one lower than the other.',
  subjects: { 'corner-holes-apart': 'length', 'corner-anchor-same': 'length', tolerance: 'length' },
  examples: [
    {
      failing: cornerDemo({ left: `19'-3"`, right: `0'-9"`, connector: 'bolt-half', setBack: '0"' }),
      passing: cornerDemo({ left: `19'-0"`, right: `0'-10"`, connector: 'bolt-half', setBack: '0"' }),
    },
  ],
  check({ wall }, context) {
    const { pairs, lacking } = holesAtRightCorner(context.layout, wall);
    for (const { wants, thing } of lacking) context.lacks({ wants, at: wall.nameSource, thing });
    for (const pair of pairs) {
      if (sameAnchorTwice(pair, context)) continue;
      const query = caseOf(pair);
      const answer = context.limit('corner-holes-apart', query);
      if (answer.kind === 'depends') context.lacks({ wants: answer.wants, at: pair.own.anchor.span });
      const least = answer.kind === 'limit' ? leastLength(answer.limit) : undefined;
      if (answer.kind !== 'limit' || !least) continue;
      if (pair.apart >= least.reach - toleranceOf(context.layout.rules)) continue;
      report(wall, pair, { limit: answer.limit, query }, context);
    }
  },
});

function caseOf({ own, other }: AcrossCorner): LimitQuery {
  const plates = own.mounted === 'on-the-face' && other.mounted === 'on-the-face';
  return plates ? { 'side-plates': { kind: 'holds' } } : {};
}

function report(
  wall: Wall,
  { own, other, apart }: AcrossCorner,
  asked: Parameters<typeof limitWords>[0],
  context: RuleContext,
): void {
  const { show, showStation } = context;
  context.report({
    message:
      `The holes of ${own.anchor.words} at ${showStation(own.anchor.station)} and, round the corner, of ${other.anchor.words} at ` +
      `${showStation(other.anchor.station)} on ${other.wall.name} are ${show(apart)} apart: ${limitWords(asked, 'least', context)}. Slide one.`,
    severity: severityOf(asked.limit, 'warning'),
    thing: own.anchor.id,
    about: `${own.anchor.id} ${other.anchor.id}`,
    layer: own.anchor.planned ? 'design' : 'survey',
    piece: own.piece.name,
    station: own.anchor.station,
    span: own.anchor.span,
    related: [{ span: other.anchor.span, message: `${other.anchor.words}, round the corner` }],
    citation: asked.limit.citation,
    fixes: (now) => awayFromCorner(now, wall, own),
  });
}

/** As far from the corner as the rules let it stand: what else it breaks, the check after it tells. */
function awayFromCorner(now: Layout, wall: Wall, { piece, anchor }: AnchorNearCorner): readonly Fix[] {
  const inch = 25_400_000;
  return [1, 2, 3].flatMap((by) => {
    const aim = (anchor.station - by * inch) as typeof anchor.station;
    return slideTowards(now, wall, piece, anchor, { from: piece.from, to: aim }, aim);
  });
}
