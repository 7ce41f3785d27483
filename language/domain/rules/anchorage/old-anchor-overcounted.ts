import { whyWorthless } from '../../fit/piece-anchors.ts';
import type { FoundAnchor } from '../../model/layout.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import type { Fix } from '../finding.ts';

export const oldAnchorOvercounted = defineRule({
  id: 'anchorage/old-anchor-overcounted',
  severity: 'error',
  on: 'wall',
  summary:
    'An old anchor has credit although it is rusted through, loose, broken, failed, coming out or without a nut.',
  why: 'On paper it carries its share; in the ground it carries nothing, and its neighbours are as far apart as if it were not there.',
  remedy: 'Give it no credit and put a new anchor in its place.',
  subjects: {},
  examples: [
    {
      failing: demo({
        anchors: sound,
        found: [`anchor X1 1/2" at 6'-8" heavy-rust nut none washer round credit full`],
      }),
      passing: demo({
        anchors: sound,
        found: [`anchor X1 1/2" at 6'-8" heavy-rust nut none washer round credit none`],
      }),
    },
  ],
  check({ wall }, context) {
    for (const anchor of wall.foundAnchors) {
      // What the design takes out is not counted on any more.
      if (anchor.states.includes('to-be-removed') || anchor.states.includes('abandoned')) continue;
      const why = anchor.credit === 'none' ? undefined : whyWorthless(anchor);
      if (why === undefined) continue;
      const at = anchor.station === undefined ? '' : ` at ${context.showStation(anchor.station)}`;
      const credit = anchor.credit === 'full' ? 'full credit' : 'half credit';
      context.report({
        message:
          `${foundWords(anchor)}${at} has ${credit}, but: ${why}. It holds nothing and is not counted. ` +
          'Write `credit none` and put a new anchor in its place.',
        thing: anchor.id,
        layer: 'survey',
        station: anchor.station,
        span: anchor.stationSource,
        // Its credit counts for nothing already.
        fixes: () => [{ ...withoutCredit(anchor), trust: 'safe' }],
      });
    }
  },
});

export const foundWords = (anchor: FoundAnchor): string =>
  anchor.name === undefined ? 'The old anchor' : `Old anchor ${anchor.name}`;

export function withoutCredit(anchor: FoundAnchor): Fix {
  const what = anchor.name ?? 'the old anchors of this line';
  return {
    title: `Give ${what} no credit`,
    trust: 'review',
    edits: [{ kind: 'set-credit', anchor: anchor.id, credit: 'none' }],
  };
}
