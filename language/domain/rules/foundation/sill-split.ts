import { replaceSill } from '../../fixes/replace-sill.ts';
import type { Defect } from '../../model/layout.ts';
import { leastLength, mostLength } from '../../rulesets/compare.ts';
import { minus, zero } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { limitWords } from '../limit-words.ts';
import {
  anchorsWords,
  boardOf,
  defectSubjects,
  defectsOf,
  nearSubjects,
  placeOf,
  sayDefectsLacking,
  slideAway,
} from './near-defect.ts';

const KINDS: readonly Defect['kind'][] = ['split'];

export const sillSplit = defineRule({
  id: 'foundation/sill-split',
  severity: 'warning',
  on: 'wall',
  summary: 'A sill board has a long split, or an anchor stands at a split.',
  why: 'Along a split the wood takes no shear: half of the board moves by itself. A new hole in it opens it further.',
  remedy: 'Keep anchors well away from it, strap across it, or replace the board there.',
  subjects: { ...nearSubjects, 'split-long': 'length', 'split-clear': defectSubjects['split-clear'] },
  examples: [
    {
      failing: demo({ anchors: sound, found: [`split 6'-0" to 6'-8"`] }),
      passing: demo({ anchors: sound, found: [`split 6'-0" to 6'-6"`] }),
    },
  ],
  check({ wall }, context) {
    sayDefectsLacking(wall, KINDS, context);
    const long = context.limit('split-long', {});
    const clear = context.limit('split-clear', {});
    const most = long.kind === 'limit' ? mostLength(long.limit)?.reach : undefined;
    for (const near of defectsOf(wall, KINDS, context)) {
      const { defect, anchors } = near;
      const { stretch } = defect;
      const piece = boardOf(wall, defect);
      if (!stretch) context.lacks({ wants: `place of the split on wall ${wall.name}`, at: defect.source });
      if (!stretch || !piece) continue;
      const length = minus(stretch.to, stretch.from);
      const tooLong = most !== undefined && length > most;
      if (!tooLong && anchors.length === 0) continue;
      const { show, showStation } = context;
      const asked = [
        ...(tooLong && long.kind === 'limit' ? [limitWords({ limit: long.limit, query: {} }, 'most', context)] : []),
        ...(anchors.length > 0 && clear.kind === 'limit'
          ? [
              `${anchorsWords(anchors, context)} ${anchors.length === 1 ? 'wants' : 'want'} ${limitWords({ limit: clear.limit, query: {} }, 'least', context)} from it`,
            ]
          : []),
      ];
      const limit = tooLong && long.kind === 'limit' ? long.limit : clear.kind === 'limit' ? clear.limit : undefined;
      context.report({
        message:
          `Split of ${show(length)} in sill ${piece.name} at ${showStation(stretch.from)}: ${asked.join('; ')}. ` +
          'Keep anchors away from it, strap across it, or replace the board.',
        ...placeOf(near, piece),
        citation: limit?.citation,
        fixes: (now) => [
          ...slideAway(now, wall, anchors),
          ...replaceSill(
            now,
            wall,
            piece,
            stretch,
            (clear.kind === 'limit' ? leastLength(clear.limit)?.reach : undefined) ?? zero,
          ),
        ],
      });
    }
  },
});
