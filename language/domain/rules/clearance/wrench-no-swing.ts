import { clearIntervals } from '../../fit/clear-intervals.ts';
import { contains } from '../../fit/intervals.ts';
import type { WrenchAsks } from '../../fit/wrench-room.ts';
import { wrenchRoomAt } from '../../fit/wrench-room.ts';
import { tapeStep } from '../../fixes/tape-step.ts';
import type { NewAnchor } from '../../model/layout.ts';
import { leastLength } from '../../rulesets/compare.ts';
import type { Length } from '../../units/length.ts';
import { inches, nanometres, roundDownTo, roundUpTo } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';
import type { Fix } from '../finding.ts';
import { sourceWords } from '../limit-words.ts';
import type { PlacedAnchor } from './anchor-fit.ts';
import { inTheWay, placedAnchor } from './anchor-fit.ts';

const bolts = {
  sill: 'size 2x6 set-back 3/4" headroom 25-1/8"',
  connectors: ['bolt-half'],
  anchors: [`0'-10"`, `4'-8"`, `8'-7"`, `11'-2"`, `13'-2"`],
};

export const wrenchNoSwing = defineRule({
  id: 'clearance/wrench-no-swing',
  severity: 'warning',
  on: 'anchor',
  summary: 'There is too little room round a nut for a socket, or in front of it for the handle of a wrench.',
  why: 'A nut that nobody can turn stays loose, and a loose anchor holds nothing until the house has moved.',
  remedy: 'Slide the anchor, or write down that it wants a deep socket and a short handle.',
  subjects: { 'nut-clear': 'length', 'wrench-swing': 'length' },
  examples: [
    {
      failing: demo({ ...bolts, found: [`furnace H1 at 8'-7" wide 20" off 9-15/16"`] }),
      passing: demo({ ...bolts, found: [`furnace H1 at 8'-7" wide 20" off 10"`] }),
    },
  ],
  check({ wall, anchor, connector }, context) {
    const placed = placedAnchor(context.layout, wall, anchor, connector);
    if (!placed || anchor.state === 'installed') return;
    const asks: WrenchAsks = { round: leastOf('nut-clear', context), swing: leastOf('wrench-swing', context) };
    const room = wrenchRoomAt(placed.fitCase, placed.station, asks);
    for (const { wants, span, thing } of room.lacking) context.lacks({ wants, at: span, thing });
    // What keeps the connector itself out is said of it already.
    const said = new Set(
      inTheWay(placed, ['no-concrete', 'thing', 'side-room', 'gas', 'power', 'stud']).map((each) => each.thing),
    );
    const first = room.tight.find((each) => !said.has(each.thing));
    if (!first) return;
    const subject = first.how === 'round' ? 'nut-clear' : 'wrench-swing';
    const answer = context.limit(subject, {});
    const limit = answer.kind === 'limit' ? answer.limit : undefined;
    const { show, showStation } = context;
    const wanted = (first.how === 'round' ? asks.round : asks.swing) ?? first.measured;
    const what =
      first.how === 'round'
        ? `the nut is ${show(first.measured)} from ${first.words}, and a wrench wants ${show(wanted)} round it`
        : `${first.words}, and the handle of a wrench wants ${show(wanted)}`;
    context.report({
      message:
        `${anchor.name} (${connector.name}) at ${showStation(placed.station)} is hard to tighten: ${what}` +
        `${limit ? ` (${sourceWords(limit)})` : ''}. Slide it, or note a deep socket.`,
      span: anchor.stationSource ?? anchor.source,
      related: first.span ? [{ span: first.span, message: first.words }] : [],
      citation: limit?.citation,
      fixes: () => slides(anchor, placed, asks, context),
    });
  },
});

function leastOf(subject: string, context: RuleContext): Length | undefined {
  const answer = context.limit(subject, {});
  return answer.kind === 'limit' ? leastLength(answer.limit)?.reach : undefined;
}

/** Further than this a slide is a new place, not a mend. */
const FURTHEST_SLIDE = inches(12);

/** To the nearest tape mark on either side where the connector fits and its nut can be turned. */
function slides(anchor: NewAnchor, placed: PlacedAnchor, asks: WrenchAsks, context: RuleContext): readonly Fix[] {
  if (anchor.state !== 'planned') return [];
  const { sure } = clearIntervals(placed.fitCase);
  const step = tapeStep(context.layout.title.units);
  const turns = (station: Length): boolean => {
    const { tight, lacking } = wrenchRoomAt(placed.fitCase, station, asks);
    return contains(sure, station) && tight.length === 0 && lacking.length === 0;
  };
  const near = (direction: 1 | -1): Length | undefined => {
    const start = direction === 1 ? roundUpTo(placed.station, step) : roundDownTo(placed.station, step);
    for (let moved = step as number; moved <= FURTHEST_SLIDE; moved += step) {
      const station = nanometres(start + direction * moved);
      if (turns(station)) return station;
    }
    return undefined;
  };
  return [near(1), near(-1)]
    .filter((station) => station !== undefined)
    .sort((a, b) => Math.abs(a - placed.station) - Math.abs(b - placed.station))
    .map((station) => ({
      title: `Slide ${anchor.name} from ${context.showStation(placed.station)} to ${context.showStation(station)}`,
      trust: 'review',
      edits: [{ kind: 'set-station', anchor: anchor.id, station }],
    }));
}
