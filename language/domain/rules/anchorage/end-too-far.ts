import { anchorsOf } from '../../fit/piece-anchors.ts';
import { diametersOn, endDistanceSubjects, takesOneAnchor } from '../../fit/piece-requirements.ts';
import { insertAnchors, slideAnchor } from '../../fixes/anchor-fixes.ts';
import type { Layout, SillPiece, Wall } from '../../model/layout.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { limitWords, severityOf, sourceWords } from '../limit-words.ts';
import { type BareEnd, lookAtEnd } from './bare-end.ts';
import { shortageOf } from './counts.ts';
import { misreadEnd } from './lap-end-misread.ts';

export const endTooFar = defineRule({
  id: 'anchorage/end-too-far',
  severity: 'error',
  on: 'piece',
  summary: 'The first or last anchor of a sill board is further from its true end than the rule set allows.',
  why: 'A free end lifts, rolls and splits: the outermost anchor has to catch it. Ends are those of the wood itself, also in a lap and beside a chimney.',
  remedy:
    'Move the anchor into the end window, or add one there. Where a pipe, an opening or a neighbouring wall fills the whole window and the rule set allows it, the nearest clear spot beyond is right.',
  subjects: {
    ...endDistanceSubjects,
    'end-window-past-obstruction': 'verdict',
    'piece-count': 'number',
    'side-plate-as-bolt': 'length',
    tolerance: 'length',
  },
  examples: [
    {
      failing: demo({ anchors: [`1'-3"`, `5'-2"`, `9'-2"`, `13'-2"`] }),
      passing: demo({ anchors: sound }),
    },
  ],
  check({ wall, piece }, context) {
    const anchors = anchorsOf(wall, piece);
    const diameters = diametersOn(wall, piece);
    if (anchors.length === 0 || takesOneAnchor(context.layout, wall, piece, diameters)) return;
    const bare: BareEnd[] = [];
    for (const side of ['left', 'right'] as const) {
      const anchor = side === 'left' ? anchors[0] : anchors[anchors.length - 1];
      // Measured from the wrong place: a rule of its own says so.
      if (misreadEnd(context.layout, wall, piece, side)) continue;
      const found = anchor && lookAtEnd(wall, piece, side, anchor, context);
      if (found) bare.push(found);
    }
    const shortage = shortageOf(context.layout, wall, piece);
    const missing = shortage ? shortage.asked.value - shortage.has : 0;
    // An anchor that is missing anyway can stand at a bare end: one mistake, said by the rule on their number.
    const errors = bare.filter((each) => each.past === undefined).sort((a, b) => a.distance - b.distance);
    for (const end of errors.slice(0, Math.max(0, errors.length - missing))) reportBare(wall, piece, end, context);
    for (const end of bare) if (end.past !== undefined) reportPast(wall, piece, end, end.past, context);
  },
});

/** Whether an end of a board wants an anchor nearer to it: none that stands past an obstruction, as the rule set lets it. */
export function hasBareEnd(layout: Layout, wall: Wall, piece: SillPiece): boolean {
  const anchors = anchorsOf(wall, piece);
  if (takesOneAnchor(layout, wall, piece, diametersOn(wall, piece))) return false;
  return (['left', 'right'] as const).some((side) => {
    const anchor = side === 'left' ? anchors[0] : anchors[anchors.length - 1];
    if (!anchor) return false;
    if (misreadEnd(layout, wall, piece, side)) return true;
    const found = lookAtEnd(wall, piece, side, anchor, { layout, leftOpen: () => {} });
    return found !== undefined && found.past === undefined;
  });
}

function reportBare(wall: Wall, piece: SillPiece, end: BareEnd, context: RuleContext): void {
  const { anchor, side, asked } = end;
  const place = side === 'left' ? 'first' : 'last';
  const inTheWay = end.blockers.length === 0 ? '' : ` In the window: ${end.blockers.join('; ')}.`;
  context.report({
    message:
      `${anchor.words} at ${context.showStation(anchor.station)}, the ${place} anchor of sill ${piece.name}, is ${context.show(end.distance)} from its ` +
      `${side} end: ${limitWords(asked, 'most', context)}. Slide it, or add one nearer the end.${inTheWay}`,
    severity: severityOf(asked.limit, 'error'),
    about: `${piece.id} ${side}`,
    thing: anchor.id,
    layer: anchor.planned ? 'design' : 'survey',
    station: anchor.station,
    span: anchor.span,
    related: [{ span: piece.source, message: `sill ${piece.name}` }],
    citation: asked.limit.citation,
    asked,
    fixes: (now) => [
      ...slideAnchor(now, wall, piece, anchor, 'most-room'),
      ...insertAnchors(now, wall, piece, { kind: 'end', side }),
    ],
  });
}

function reportPast(
  wall: Wall,
  piece: SillPiece,
  { anchor, side, distance }: BareEnd,
  past: NonNullable<BareEnd['past']>,
  context: RuleContext,
): void {
  context.report({
    message:
      `${anchor.words} at ${context.showStation(anchor.station)} stands ${context.show(distance)} from the ${side} end of sill ${piece.name}, the nearest ` +
      `clear spot: ${past.things.join('; ')} in the end window (${sourceWords(past.exception)}). The number of anchors stays.`,
    severity: 'info',
    about: `${piece.id} ${side} past an obstruction`,
    thing: anchor.id,
    layer: 'design',
    station: anchor.station,
    span: anchor.span,
    related: [{ span: wall.nameSource, message: `wall ${wall.name}` }],
    citation: past.exception.citation,
  });
}
