import { clearIntervals } from '../../fit/clear-intervals.ts';
import { endWindow } from '../../fit/end-window.ts';
import { howSet } from '../../fit/fit-case.ts';
import { within } from '../../fit/intervals.ts';
import type { CountedAnchor } from '../../fit/piece-anchors.ts';
import { anchorsOf } from '../../fit/piece-anchors.ts';
import { endDistanceAsked, endDistanceSubjects } from '../../fit/piece-requirements.ts';
import type { Stud } from '../../fit/studs.ts';
import { studsOf } from '../../fit/studs.ts';
import { slideTowards } from '../../fixes/anchor-fixes.ts';
import type { Layout, SillPiece, Stretch, Wall } from '../../model/layout.ts';
import { mostLength } from '../../rulesets/compare.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import type { Length } from '../../units/length.ts';
import { magnitude, midpoint, minus, plus, zero } from '../../units/length.ts';
import { inTheWay, placedAnchor } from '../clearance/anchor-fit.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';
import { limitWords, severityOf } from '../limit-words.ts';

const cripple = [
  `cripple height 30" stud-height 25-1/8" studs size 2x4 spaced 24" first 0" double plate trimmers none`,
];
const sill = 'size 2x6 set-back 3/4" headroom 25-1/8"';

export const bayCentreOff = defineRule({
  id: 'anchorage/bay-centre-off',
  severity: 'info',
  on: 'anchor',
  summary:
    'A bolt between studs stands further from the middle of its bay than the rule set has it, where the end window leaves room.',
  why: 'In the middle of a bay there is room for the drill, the washer and the wrench, and the blocks for a panel fit on both sides.',
  remedy: 'Slide it towards the middle of the bay where the spacing allows it.',
  subjects: {
    'bay-centre': 'verdict',
    'bay-centre-off': 'length',
    ...endDistanceSubjects,
    'side-plate-as-bolt': 'length',
    tolerance: 'length',
  },
  examples: [
    {
      failing: demo({
        anchors: [`1'-0"`, `4'-6"`, `7'-0"`, `11'-0"`, `13'-0"`],
        connectors: ['bolt-half'],
        sill,
        found: cripple,
      }),
      passing: demo({
        anchors: [`1'-0"`, `5'-0"`, `7'-0"`, `11'-0"`, `13'-0"`],
        connectors: ['bolt-half'],
        sill,
        found: cripple,
      }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    if (connector.kind !== 'through-bolt') return;
    const { layout, show, showStation } = context;
    const wanted = context.limit('bay-centre', {});
    const off = context.limit('bay-centre-off', {});
    if (wanted.kind !== 'limit' || wanted.limit.verdict !== 'required' || off.kind !== 'limit') return;
    const most = mostLength(off.limit);
    const placed = placedAnchor(layout, wall, anchor, connector);
    const piece = placed?.piece;
    // In a stud it is told that it does not fit.
    if (!most || !placed || !piece || inTheWay(placed, ['stud']).length > 0) return;
    const bay = bayAround(wall, placed.station);
    if (!bay) return;
    const centre = midpoint(bay.from, bay.to);
    const distance = magnitude(minus(placed.station, centre));
    if (distance <= most.reach + toleranceOf(layout.rules)) return;
    const counted = anchorsOf(wall, piece).find((each) => each.id === anchor.id);
    const near = { from: minus(centre, most.reach), to: plus(centre, most.reach) };
    // An end window is hard and the bay is not: nothing to say where the two do not meet.
    if (!counted || !roomNear(layout, wall, piece, counted, near)) return;
    context.report({
      message:
        `${anchor.name} at ${showStation(placed.station)} is ${show(distance)} off the middle of its stud bay at ${showStation(centre)}: ` +
        `${limitWords({ limit: off.limit, query: {} }, 'most', context)}. Slide it if the spacing allows.`,
      severity: severityOf(wanted.limit, 'info'),
      span: anchor.stationSource ?? anchor.source,
      citation: wanted.limit.citation,
      fixes: (now) => slideTowards(now, wall, piece, counted, near, centre),
    });
  },
});

/** The clear space between the two studs round a station; `undefined` where one of them is missing. */
function bayAround(wall: Wall, station: Length): Stretch | undefined {
  const { studs } = studsOf(wall);
  let low = 0;
  let high = studs.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((studs[middle]?.centre ?? station) < station) low = middle + 1;
    else high = middle;
  }
  const [left, right]: readonly (Stud | undefined)[] = [studs[low - 1], studs[low]];
  if (!left || !right) return undefined;
  const cripple = wall.cripples.find((each) => each.from <= station && station <= each.to);
  // Studs of two cripple walls, with an opening or nothing between them, make no bay.
  if (!cripple || left.centre < cripple.from || right.centre > cripple.to) return undefined;
  if (left.role === 'jamb' && right.role === 'jamb' && left.thing === right.thing) return undefined;
  return { from: plus(left.centre, left.halfWidth), to: minus(right.centre, right.halfWidth) };
}

function roomNear(layout: Layout, wall: Wall, piece: SillPiece, anchor: CountedAnchor, near: Stretch): boolean {
  const { planned } = anchor;
  if (!planned?.connector) return false;
  const anchors = anchorsOf(wall, piece);
  const fits = clearIntervals({ layout, wall, piece, connector: planned.connector, ...howSet(planned) });
  let open = within(fits.clear, near);
  for (const side of ['left', 'right'] as const) {
    if ((side === 'left' ? anchors[0] : anchors[anchors.length - 1]) !== anchor) continue;
    const least = endDistanceAsked(layout, wall, piece, side, 'least', [anchor.diameter]);
    const most = endDistanceAsked(layout, wall, piece, side, 'most', [anchor.diameter]);
    if (most.kind !== 'asked') continue;
    open = within(open, endWindow(piece, side, least.kind === 'asked' ? least.value : zero, most.value));
  }
  return open.length > 0;
}
