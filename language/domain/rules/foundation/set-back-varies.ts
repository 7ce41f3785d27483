import { profileRange } from '../../model/reading.ts';
import { mostLength } from '../../rulesets/compare.ts';
import { minus } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';
import { limitWords } from '../limit-words.ts';

const lone = { anchors: [`1'-0"`], length: `2'-0"` } as const;

export const setBackVaries = defineRule({
  id: 'foundation/set-back-varies',
  severity: 'warning',
  on: 'piece',
  summary: 'The set-back of one sill board changes much along it.',
  why: 'A side plate that fits at one end does not reach at the other, so that one board wants plates of several kinds. Bolts down through the sill do not care.',
  remedy: 'Pick the plate station by station: the set-back is read straight between the readings.',
  subjects: { 'set-back-difference': 'length' },
  examples: [
    {
      failing: demo({ ...lone, sill: `size 2x6 set-back 3/4" to 1-1/4" headroom 11-1/8"` }),
      passing: demo({ ...lone, sill: `size 2x6 set-back 3/4" to 1-1/8" headroom 11-1/8"` }),
    },
  ],
  check({ wall, piece }, context) {
    const onPiece = wall.anchors.filter(
      ({ station, connector }) =>
        station !== undefined && connector !== undefined && piece.from <= station && station <= piece.to,
    );
    if (onPiece.length > 0 && onPiece.every(({ connector }) => connector?.kind === 'through-bolt')) return;
    if (!piece.setBack || (wall.role === 'interior' && onPiece.length === 0)) return;
    const range = profileRange(piece.setBack, piece.from, piece.to);
    if ('kind' in range) {
      context.lacks({ wants: `set-back of sill ${piece.name}`, at: piece.source });
      return;
    }
    const answer = context.limit('set-back-difference', {});
    const most = answer.kind === 'limit' ? mostLength(answer.limit)?.reach : undefined;
    if (answer.kind !== 'limit' || most === undefined) return;
    const difference = minus(range.greatest.value, range.least.value);
    if (difference <= most) return;
    const { show } = context;
    context.report({
      message:
        `The set-back of sill ${piece.name} goes from ${show(range.least.value)} to ${show(range.greatest.value)}, ${show(difference)} apart: ` +
        `${limitWords({ limit: answer.limit, query: {} }, 'most', context)} for plates of one kind. Pick the plate at each station.`,
      stationTo: piece.to,
      span: piece.source,
      citation: answer.limit.citation,
    });
  },
});
