import { replaceSill } from '../../fixes/replace-sill.ts';
import type { Defect } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import { leastLength } from '../../rulesets/compare.ts';
import type { Length } from '../../units/length.ts';
import { minus, zero } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { limitWords } from '../limit-words.ts';
import { anchorsWords, boardOf, defectsOf, nearSubjects, placeOf, slideAway } from './near-defect.ts';

const KINDS: readonly Defect['kind'][] = ['notch'];

export const sillThin = defineRule({
  id: 'foundation/sill-thin',
  severity: 'error',
  on: 'wall',
  summary:
    'A sill board is thinner than the rule set allows, as a whole or at a notch, or an anchor stands in a notch.',
  why: 'The strength of a bolt in the sill goes by the thickness of the wood; at a notch there is less of it, and a washer lies hollow.',
  remedy: 'Replace the board there, or have an engineer say what it carries.',
  subjects: { ...nearSubjects, 'sill-thick': 'length' },
  examples: [
    {
      failing: demo({
        anchors: [`1'-0"`],
        length: `2'-0"`,
        connectors: ['bolt-half'],
        sill: `size 1-3/8" x 5-1/2" set-back 3/4" headroom 25"`,
      }),
      passing: demo({ anchors: sound }),
    },
  ],
  check({ wall }, context) {
    const answer = context.limit('sill-thick', {});
    if (answer.kind !== 'limit') return;
    const { limit } = answer;
    const least = leastLength(limit)?.reach;
    if (least === undefined) return;
    const { show, showStation } = context;
    const asked = limitWords({ limit, query: {} }, 'least', context);
    for (const piece of wall.pieces) {
      const thick = knownValue(piece.size?.thick);
      if (thick === undefined) {
        context.lacks({ wants: `thickness of sill ${piece.name}`, at: piece.source, thing: piece.id });
      } else if (thick < least) {
        context.report({
          message: `Sill ${piece.name} is ${show(thick)} thick: ${asked}. Replace it, or have an engineer say what it carries.`,
          thing: piece.id,
          about: piece.id,
          piece: piece.name,
          station: piece.from,
          stationTo: piece.to,
          span: piece.size?.thick.source ?? piece.source,
          citation: limit.citation,
        });
      }
    }
    for (const near of defectsOf(wall, KINDS, context)) {
      const { defect, anchors } = near;
      const { stretch } = defect;
      const piece = boardOf(wall, defect);
      const thick = knownValue(piece?.size?.thick);
      if (!stretch || !piece) continue;
      const depth = knownValue(defect.depth);
      const left: Length | undefined = thick === undefined || depth === undefined ? undefined : minus(thick, depth);
      if (depth === undefined) {
        context.lacks({
          wants: `depth of the notch in sill ${piece.name} at ${showStation(stretch.from)}`,
          at: defect.source,
        });
      }
      // A board that is too thin as a whole has been told.
      const tooThin = left !== undefined && left < least && thick !== undefined && thick >= least;
      if (!tooThin && anchors.length === 0) continue;
      const stands =
        anchors.length === 0
          ? ''
          : `${anchorsWords(anchors, context)} ${anchors.length === 1 ? 'stands' : 'stand'} in it. `;
      context.report({
        message:
          `Notch in sill ${piece.name} at ${showStation(stretch.from)}${tooThin ? ` leaves ${show(left)} of wood: ${asked}` : ''}. ` +
          `${stands}Keep anchors clear of it, or replace the board there.`,
        ...placeOf(near, piece),
        citation: limit.citation,
        fixes: (now) => [...slideAway(now, wall, anchors), ...replaceSill(now, wall, piece, stretch, zero)],
      });
    }
  },
});
