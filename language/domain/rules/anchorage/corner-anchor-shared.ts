import type { AcrossCorner } from '../../fit/corner-holes.ts';
import { holesAtRightCorner } from '../../fit/corner-holes.ts';
import { mostLength } from '../../rulesets/compare.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { cornerDemo } from '../example-texts.ts';
import { limitWords } from '../limit-words.ts';

export const cornerAnchorShared = defineRule({
  id: 'anchorage/corner-anchor-shared',
  severity: 'error',
  on: 'wall',
  besides: 'round-corners',
  summary: 'One anchor in the corner of the house is counted for the boards of two walls.',
  why: 'A bolt goes through one board. The board of the other wall stops beside it and has nothing at that end.',
  remedy: 'Leave it with the wall whose board it goes through, and add an anchor at the end of the other.',
  subjects: { 'corner-anchor-same': 'length' },
  examples: [
    {
      failing: cornerDemo({
        left: `19'-6 3/4"`,
        right: `0'-5 1/4"`,
        connector: 'bolt-half',
        setBack: '0"',
        free: true,
      }),
      passing: cornerDemo({ left: `19'-2"`, right: `0'-10"`, connector: 'bolt-half', setBack: '0"' }),
    },
  ],
  check({ wall }, context) {
    for (const pair of holesAtRightCorner(context.layout, wall).pairs) {
      const same = sameAnchorTwice(pair, context);
      if (!same) continue;
      const { own, other, apart } = pair;
      const { show, showStation } = context;
      context.report({
        message:
          `${own.anchor.words} at ${showStation(own.anchor.station)} and ${other.anchor.words} at ${showStation(other.anchor.station)} on ` +
          `${other.wall.name} are one anchor in the corner, ${show(apart)} apart (${limitWords({ limit: same, query: {} }, 'most', context)}), counted for two boards. Add one on the other wall.`,
        thing: own.anchor.id,
        about: `${own.anchor.id} ${other.anchor.id}`,
        layer: own.anchor.planned ? 'design' : 'survey',
        piece: own.piece.name,
        station: own.anchor.station,
        span: own.anchor.span,
        related: [{ span: other.anchor.span, message: `${other.anchor.words}, counted for sill ${other.piece.name}` }],
        citation: same.citation,
      });
    }
  },
});

/** The limit that makes two anchors round a corner one: bolts nearer than two bolts can stand. */
export function sameAnchorTwice({ own, other, apart }: AcrossCorner, context: RuleContext) {
  if (own.mounted !== 'through-the-sill' || other.mounted !== 'through-the-sill') return undefined;
  const answer = context.limit('corner-anchor-same', {});
  if (answer.kind !== 'limit') return undefined;
  const most = mostLength(answer.limit);
  return most && apart <= most.reach ? answer.limit : undefined;
}
