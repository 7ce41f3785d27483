import { distanceAlong } from '../../fit/fit-case.ts';
import { fitSubjects } from '../../fit/footprint.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { sourceWords } from '../limit-words.ts';
import { clearSpotsWords, inTheWay, placedHole, placesOf, waysOut } from './anchor-fit.ts';

export const oldAnchorInWay = defineRule({
  id: 'clearance/old-anchor-in-way',
  severity: 'error',
  on: 'anchor',
  summary:
    'A washer, a screw or a hole of new work meets an old anchor, its hole, or a hole that was given up, or comes too near.',
  why: 'The screw or the drill runs into old steel, or into a hole where the wood and the concrete beside it have nothing left to give.',
  remedy:
    'Slide it along the wall, or take a connector that passes. An old anchor that comes out still leaves its hole.',
  subjects: {
    'old-bolt-apart-per-diameter': fitSubjects['old-bolt-apart-per-diameter'],
    'old-bolt-in-concrete-per-diameter': fitSubjects['old-bolt-in-concrete-per-diameter'],
    'old-hole-clear-per-diameter': fitSubjects['old-hole-clear-per-diameter'],
  },
  examples: [
    {
      failing: demo({ anchors: sound, found: [`anchor X1 1/2" at 8'-6" heavy-rust credit none`] }),
      passing: demo({ anchors: sound, found: [`anchor X1 1/2" at 8'-2" heavy-rust credit none`] }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedHole(context.layout, wall, anchor, connector);
    if (!placed) return;
    // A hole that was given up came after the design: it says nothing of the place that the mark was moved from because of it.
    const isElsewhere = anchor.asBuilt !== undefined && anchor.asBuilt.station !== anchor.station;
    const met = inTheWay(placed, ['old-anchor', 'old-hole']).filter(({ thing }) => thing !== undefined || !isElsewhere);
    const { show, showStation } = context;
    const [first] = met;
    if (!first) {
      const failed = new Set(wall.anchors.flatMap(({ id, state }) => (state === 'failed' ? [id] : [])));
      const [tried] = inTheWay(placed, ['tried-before']).filter(
        ({ thing }) => thing !== undefined && failed.has(thing),
      );
      if (!tried) return;
      context.report({
        // Where its holes are exactly, and what is left of the concrete round them, is to be seen on site.
        severity: 'warning',
        message:
          `${anchor.name} (${connector.name} at ${showStation(placed.station)}) stands over ${tried.words}: its holes are there. ` +
          `${clearSpotsWords(placed, context)}`,
        span: anchor.stationSource ?? anchor.source,
        related: placesOf([tried]),
        fixes: (now) => waysOut(now, wall, placed.piece, anchor),
      });
      return;
    }
    const answer = first.subject === undefined ? undefined : context.limit(first.subject, {});
    const limit = answer?.kind === 'limit' ? answer.limit : undefined;
    const source = limit ? ` (${sourceWords(limit)})` : '';
    const wanted = first.wanted === undefined ? '' : `; ${show(first.wanted)} wanted${source}`;
    const distance = distanceAlong(first, placed.station);
    const meets = distance === 0 ? 'meets' : `is ${show(distance)} along the wall from`;
    context.report({
      message: `${anchor.name} (${connector.name} at ${showStation(placed.station)}): ${first.part ?? 'it'} ${meets} ${first.words}${wanted}. ${clearSpotsWords(placed, context)}`,
      span: anchor.stationSource ?? anchor.source,
      related: placesOf([...new Map(met.map((each) => [each.span, each])).values()]),
      citation: limit?.citation,
      fixes: (now) => waysOut(now, wall, placed.piece, anchor),
    });
  },
});
