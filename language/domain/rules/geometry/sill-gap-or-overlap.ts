import { stepsOf } from '../../fit/steps.ts';
import { extentOf } from '../../fit/thing-words.ts';
import type { SillPiece, Stretch, Wall } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import { mostLength } from '../../rulesets/compare.ts';
import type { Limit } from '../../rulesets/rule-set.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import { formatExact, formatExactStation } from '../../units/format-length.ts';
import type { Length } from '../../units/length.ts';
import { minus } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';
import type { Fix } from '../finding.ts';
import { limitWords } from '../limit-words.ts';

const first = 'to 5\'-0" size 2x6 set-back 3/4" headroom 11-1/8"';
const second = (from: string): string => `sill F2 ${from} to end size 2x6 set-back 3/4" headroom 11-1/8"`;
const anchors = [`0'-10"`, `4'-2"`, `6'-0"`, `8'-6"`, `11'-0"`, `13'-2"`];

const lapped = [`0'-10"`, `4'-2"`, `5'-10"`, `8'-6"`, `11'-0"`, `13'-2"`];

export const sillGapOrOverlap = defineRule({
  id: 'geometry/sill-gap-or-overlap',
  severity: 'error',
  on: 'wall',
  summary: 'Two sill boards leave a gap that nothing explains, or lie over each other without a lap.',
  why: 'Each board is checked from its true ends. With a gap or an overlap that nobody meant, those ends are not known, and the anchors at them are measured from the wrong place.',
  remedy: 'Mend the stations, write the lap (`half-lap 4"`), or write down the chimney or the door in the gap.',
  subjects: { 'sill-gap': 'length', tolerance: 'length' },
  examples: [
    {
      failing: demo({ anchors, sill: first, found: [second(`5'-2"`)] }),
      passing: demo({ anchors, sill: first, found: [second(`5'-0"`)] }),
    },
    {
      failing: demo({ anchors: lapped, sill: first, found: [second(`4'-11"`)] }),
      passing: demo({ anchors: lapped, sill: `${first} half-lap 1"`, found: [second(`4'-11"`)] }),
    },
  ],
  check({ wall }, context) {
    const answer = context.limit('sill-gap', {});
    const most = answer.kind === 'limit' ? mostLength(answer.limit) : undefined;
    const pieces = wall.pieces.toSorted((a, b) => a.from - b.from || a.to - b.to);
    const tolerance = toleranceOf(context.layout.rules);
    let left: SillPiece | undefined;
    for (const right of pieces) {
      if (left) {
        const gap = minus(right.from, left.to);
        const declared = knownValue(left.gap);
        if (gap < 0 && left.joint !== 'half-lap' && left.joint !== 'scarf') reportOverlap(left, right, context);
        else if (answer.kind === 'limit' && most) {
          const open = gap > 0 ? gap : (declared ?? gap);
          if (open > most.reach + tolerance && !isExplained(wall, { from: left.to, to: right.from }))
            reportGap(left, right, open, answer.limit, gap > 0, context);
        }
      }
      if (!left || right.to > left.to) left = right;
    }
  },
});

/** Wood stops at a chimney, a door or a step, and begins again behind it. */
const STOPS_WOOD: ReadonlySet<string> = new Set(['chimney', 'door', 'hatch', 'window', 'vent']);

function isExplained(wall: Wall, gap: Stretch): boolean {
  if (stepsOf(wall).steps.some((step) => gap.from <= step.station && step.station <= gap.to)) return true;
  return wall.obstructions.some((each) => {
    const extent = STOPS_WOOD.has(each.kind) ? extentOf(each) : undefined;
    return extent !== undefined && extent.from <= gap.to && gap.from <= extent.to;
  });
}

function reportGap(
  left: SillPiece,
  right: SillPiece,
  open: Length,
  limit: Limit,
  inStations: boolean,
  context: RuleContext,
): void {
  const { show, showStation } = context;
  context.report({
    message:
      `${show(open)} between sill ${left.name}, which ends at ${showStation(left.to)}, and ${right.name}: ` +
      `${limitWords({ limit, query: {} }, 'most', context)}. Mend a station, or write down what stands in the gap.`,
    about: `gap ${left.id} ${right.id}`,
    thing: left.id,
    piece: left.name,
    station: left.to,
    stationTo: right.from > left.to ? right.from : undefined,
    span: right.placeSource ?? right.source,
    related: [{ span: left.placeSource ?? left.source, message: `sill ${left.name} ends here` }],
    citation: limit.citation,
    fixes: (now) => (inStations ? moveEnds(left, right, right.from, left.to, now.title.units) : []),
  });
}

function reportOverlap(left: SillPiece, right: SillPiece, context: RuleContext): void {
  const { show, showStation } = context;
  const over = minus(left.to, right.from);
  context.report({
    message:
      `Sill ${right.name} begins at ${showStation(right.from)}, ${show(over)} before ${left.name} ends, and no lap is written there: ` +
      'write `half-lap` or `scarf` on the left board, or mend a station.',
    about: `overlap ${left.id} ${right.id}`,
    thing: left.id,
    piece: left.name,
    station: right.from,
    stationTo: left.to,
    span: right.placeSource ?? right.source,
    related: [{ span: left.placeSource ?? left.source, message: `sill ${left.name} ends here` }],
    fixes: (now) => [
      {
        title: `Write the lap: half-lap ${formatExact(over, now.title.units)} on ${left.name}`,
        trust: 'by-hand',
        edits: [{ kind: 'add-words', span: left.source, text: `half-lap ${formatExact(over, now.title.units)}` }],
      },
      ...moveEnds(left, right, right.from, left.to, now.title.units),
    ],
  });
}

function moveEnds(
  left: SillPiece,
  right: SillPiece,
  leftTo: Length,
  rightFrom: Length,
  units: Parameters<typeof formatExact>[1],
): readonly Fix[] {
  const place = (from: Length, to: Length): string =>
    `${formatExactStation(from, units)} to ${formatExactStation(to, units)}`;
  const fix = (title: string, piece: SillPiece, text: string): readonly Fix[] =>
    piece.placeSource
      ? [{ title, trust: 'by-hand', edits: [{ kind: 'replace-text', span: piece.placeSource, text }] }]
      : [];
  return [
    ...fix(`End ${left.name} where ${right.name} begins`, left, place(left.from, leftTo)),
    ...fix(`Begin ${right.name} where ${left.name} ends`, right, place(rightFrom, right.to)),
  ];
}
