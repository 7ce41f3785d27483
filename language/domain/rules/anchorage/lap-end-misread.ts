import { fromEnd } from '../../fit/end-window.ts';
import { lapAt, middleOf } from '../../fit/laps.ts';
import type { CountedAnchor } from '../../fit/piece-anchors.ts';
import { anchorsOf } from '../../fit/piece-anchors.ts';
import type { Side } from '../../fit/piece-requirements.ts';
import { diametersOn, endDistanceAsked, endDistanceSubjects, takesOneAnchor } from '../../fit/piece-requirements.ts';
import { insertAnchors, slideAnchor } from '../../fixes/anchor-fixes.ts';
import type { Layout, SillPiece, Wall } from '../../model/layout.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import type { Length } from '../../units/length.ts';
import { magnitude, minus } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';
import type { AskedLimit } from '../limit-words.ts';
import { limitWords, severityOf } from '../limit-words.ts';
import { lookAtEnd } from './bare-end.ts';

const first = 'to 5\'-2" size 2x6 set-back 3/4" headroom 11-1/8" half-lap 4"';
const second = ['sill F2 4\'-10" to end size 2x6 set-back 3/4" headroom 11-1/8"'];

export const lapEndMisread = defineRule({
  id: 'anchorage/lap-end-misread',
  severity: 'error',
  on: 'piece',
  summary:
    'The end distance of an anchor beside a lap is right from the middle of the lap, but not from the true end of its board.',
  why: 'In a lap each board goes on past the joint that one sees. Measured from the middle of the lap, the window is off by half its length, and the free end is left too long.',
  remedy: 'Measure from the true end of each board, and slide the anchor there or add one.',
  subjects: {
    ...endDistanceSubjects,
    'piece-count': 'number',
    'side-plate-as-bolt': 'length',
    tolerance: 'length',
  },
  examples: [
    {
      failing: demo({ anchors: [`0'-10"`, `4'-1"`, `5'-9"`, `8'-3"`, `10'-9"`, `13'-2"`], sill: first, found: second }),
      passing: demo({ anchors: [`0'-10"`, `4'-3"`, `5'-9"`, `8'-3"`, `10'-9"`, `13'-2"`], sill: first, found: second }),
    },
  ],
  check({ wall, piece }, context) {
    const { show, showStation } = context;
    for (const side of ['left', 'right'] as const) {
      const misread = misreadEnd(context.layout, wall, piece, side);
      if (!misread) continue;
      const { anchor, asked, distance, fromMiddle } = misread;
      context.report({
        message:
          `${anchor.words} at ${showStation(anchor.station)} is ${show(fromMiddle)} from the middle of the lap, but ${show(distance)} from the true ` +
          `${side} end of sill ${piece.name}: ${limitWords(asked, 'most', context)}. Measure again from the end of the wood.`,
        severity: severityOf(asked.limit, 'error'),
        about: `${piece.id} ${side}`,
        thing: anchor.id,
        layer: anchor.planned ? 'design' : 'survey',
        station: anchor.station,
        span: anchor.span,
        related: [{ span: piece.source, message: `sill ${piece.name}` }],
        citation: asked.limit.citation,
        fixes: (now) => [
          ...slideAnchor(now, wall, piece, anchor, 'most-room'),
          ...insertAnchors(now, wall, piece, { kind: 'end', side }),
        ],
      });
    }
  },
});

export interface MisreadEnd {
  readonly anchor: CountedAnchor;
  readonly asked: AskedLimit;
  readonly distance: Length;
  readonly fromMiddle: Length;
}

/** An end whose anchor is too far from the end of the wood, and in the window if that were the middle of the lap. */
export function misreadEnd(layout: Layout, wall: Wall, piece: SillPiece, side: Side): MisreadEnd | undefined {
  const lap = lapAt(wall, piece, side);
  const anchors = anchorsOf(wall, piece);
  const anchor = side === 'left' ? anchors[0] : anchors[anchors.length - 1];
  if (!lap || !anchor || takesOneAnchor(layout, wall, piece, diametersOn(wall, piece))) return undefined;
  const most = endDistanceAsked(layout, wall, piece, side, 'most', [anchor.diameter]);
  const least = endDistanceAsked(layout, wall, piece, side, 'least', [anchor.diameter]);
  if (most.kind !== 'asked') return undefined;
  const tolerance = toleranceOf(layout.rules);
  const distance = fromEnd(piece, side, anchor.station);
  const fromMiddle = magnitude(minus(anchor.station, middleOf(lap)));
  if (distance <= most.value + tolerance || fromMiddle > most.value + tolerance) return undefined;
  if (least.kind === 'asked' && fromMiddle < least.value - tolerance) return undefined;
  // Past what fills the end window it stands as the rule set lets it, wherever it was measured from.
  if (lookAtEnd(wall, piece, side, anchor, { layout, leftOpen: () => {} })?.past) return undefined;
  return { anchor, asked: most, distance, fromMiddle };
}
