import { whyWorthless } from '../../fit/piece-anchors.ts';
import { passedTest } from '../../fit/tested-anchors.ts';
import type { FoundAnchor, Layout, Wall } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { foundWords, withoutCredit } from './old-anchor-overcounted.ts';

const tested = ['', 'record 2026-05-04 by "crew lead"', '  tested X1 pull 1200 lb passed', ''].join('\n');
const known = 'anchor X1 1/2" at 6\'-8" sound nut tight washer square credit full';

export const oldAnchorUnproven = defineRule({
  id: 'anchorage/old-anchor-unproven',
  severity: 'warning',
  on: 'wall',
  summary: 'An old anchor has credit, and its size, its rust, its nut, its washer or a test of it is not on record.',
  why: 'An old bolt looks the same whether it is set in sound concrete or rusted off an inch down. What nobody looked at and tested cannot be counted on.',
  remedy: 'Look at it, test it and record the test; or give it no credit.',
  subjects: {},
  examples: [
    {
      failing: demo({ anchors: sound, found: [known] }),
      passing: demo({ anchors: sound, found: [known] }) + tested,
    },
  ],
  check({ wall }, context) {
    for (const anchor of wall.foundAnchors) {
      // One that is worthless needs no proof.
      if (anchor.credit === 'none' || whyWorthless(anchor) !== undefined) continue;
      const missing = missingProof(context.layout, wall, anchor);
      if (missing.length === 0) continue;
      const at = anchor.station === undefined ? '' : ` at ${context.showStation(anchor.station)}`;
      context.report({
        message:
          `${foundWords(anchor)}${at} has ${anchor.credit} credit without its ${inWords(missing)} on record. ` +
          'Find out and record it, or write `credit none`.',
        thing: anchor.id,
        layer: 'survey',
        station: anchor.station,
        span: anchor.stationSource,
        fixes: () => [withoutCredit(anchor)],
      });
    }
  },
});

function missingProof(layout: Layout, wall: Wall, anchor: FoundAnchor): readonly string[] {
  const seen = (word: string | undefined): boolean => word !== undefined && word !== 'unknown';
  return [
    ...(knownValue(anchor.size) === undefined ? ['size'] : []),
    ...(anchor.states.length === 0 ? ['state of rust'] : []),
    ...(seen(anchor.nut) ? [] : ['nut']),
    ...(seen(anchor.washer) || anchor.newWasher ? [] : ['washer']),
    ...(passedTest(layout, wall, anchor) ? [] : ['passed test']),
  ];
}

const inWords = (list: readonly string[]): string =>
  list.length < 2 ? list.join('') : `${list.slice(0, -1).join(', ')} and ${list[list.length - 1]}`;
