import { toleranceOf } from '../../rulesets/tolerance.ts';
import { half, magnitude, midpoint, minus } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';
import { clearSpotsWords, inTheWay, placedAnchor, sayLacking, waysOut } from './anchor-fit.ts';

const studWall = {
  sill: 'size 2x6 set-back 3/4" headroom 25-1/8"',
  found: [`cripple height 30" stud-height 25-1/8" studs size 2x4 spaced 16" first 0" ledge 2"`],
  connectors: ['bolt-half'],
};
const betweenStuds = [`0'-10"`, `4'-8"`, `8'-7"`, `11'-2"`, `13'-0 1/2"`];

export const boltUnderStud = defineRule({
  id: 'clearance/bolt-under-stud',
  severity: 'error',
  on: 'anchor',
  summary: 'A bolt stands so near to a stud that its washer cannot lie flat on the sill beside it.',
  why: 'The nut and washer have no seat; the stud gets notched for them, or the bolt is left out.',
  remedy: 'Slide the bolt into the bay: half the stud and half the washer away from the middle of the stud.',
  subjects: { tolerance: 'length' },
  examples: [
    {
      failing: demo({ ...studWall, anchors: betweenStuds.map((each, index) => (index === 2 ? `8'-1"` : each)) }),
      passing: demo({ ...studWall, anchors: betweenStuds }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    if (!placed) return;
    sayLacking(placed, ['stud'], context);
    const tolerance = toleranceOf(context.layout.rules);
    const first = inTheWay(placed, ['stud']).find(
      ({ from, to }) => Math.min(placed.station - from, to - placed.station) > tolerance,
    );
    if (!first) return;
    const { show, showStation } = context;
    const centre = midpoint(first.from, first.to);
    context.report({
      message:
        `${anchor.name} (${connector.name}) at ${showStation(placed.station)} is ${show(magnitude(minus(placed.station, centre)))} from the middle of the ` +
        `${first.words}; half the stud and half its washer are ${show(half(minus(first.to, first.from)))}. ${clearSpotsWords(placed, context)}`,
      span: anchor.stationSource ?? anchor.source,
      fixes: (now) => waysOut(now, wall, placed.piece, anchor),
    });
  },
});
