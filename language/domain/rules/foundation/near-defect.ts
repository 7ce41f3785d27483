import { drilledInto } from '../../fit/drilled-holes.ts';
import { fitSubjects } from '../../fit/footprint.ts';
import type { CountedAnchor } from '../../fit/piece-anchors.ts';
import { anchorsOf, pieceAt } from '../../fit/piece-anchors.ts';
import { slideAnchor } from '../../fixes/anchor-fixes.ts';
import type { Defect, Layout, NewAnchor, SillPiece, Wall } from '../../model/layout.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import type { PlacedAnchor } from '../clearance/anchor-fit.ts';
import { placedHole, sayLacking } from '../clearance/anchor-fit.ts';
import type { ReportedFinding, RuleContext } from '../define.ts';
import type { Fix } from '../finding.ts';

/** A defect of the wood or the concrete with the new anchors that stand too near it. */
export interface NearDefect {
  readonly defect: Defect;
  readonly anchors: readonly { readonly anchor: NewAnchor; readonly placed: PlacedAnchor }[];
}

/** Where `near-defect` is asked, fit has asked for the distance to keep from each kind of defect. */
export const defectSubjects = {
  'rot-clear': fitSubjects['rot-clear'],
  'split-clear': fitSubjects['split-clear'],
  'crack-clear': fitSubjects['crack-clear'],
  'cold-joint-clear': fitSubjects['cold-joint-clear'],
} as const;

/** Anchors near a defect are told by the tape. */
export const nearSubjects = { tolerance: 'length' } as const;

/** The defects of these kinds that are still there, in order of station, each with the anchors that fit finds too near. */
export function defectsOf(wall: Wall, kinds: readonly Defect['kind'][], context: RuleContext): readonly NearDefect[] {
  const found = wall.defects.filter((defect) => kinds.includes(defect.kind) && !defect.remedied);
  if (found.length === 0) return [];
  const near = new Map<string, { readonly anchor: NewAnchor; readonly placed: PlacedAnchor }[]>();
  const tolerance = toleranceOf(context.layout.rules);
  for (const anchor of drilledInto(wall)) {
    const { connector } = anchor;
    const placed = connector && placedHole(context.layout, wall, anchor, connector);
    if (!placed) continue;
    const { station } = placed;
    for (const each of placed.fit.blocked) {
      if (each.reason !== 'defect' || each.thing === undefined) continue;
      // Distances along the wall are read off a tape; a defect of no length is met only across it.
      const inside = Math.min(station - each.from, each.to - station);
      if (inside <= tolerance && each.to - each.from > 2 * tolerance) continue;
      const list = near.get(each.thing);
      if (list) list.push({ anchor, placed });
      else near.set(each.thing, [{ anchor, placed }]);
    }
  }
  return found
    .map((defect) => ({ defect, anchors: near.get(defect.id) ?? [] }))
    .sort((a, b) => (a.defect.stretch?.from ?? 0) - (b.defect.stretch?.from ?? 0));
}

/** What is not known about defects of these kinds near the anchors of a wall. */
export function sayDefectsLacking(wall: Wall, kinds: readonly Defect['kind'][], context: RuleContext): void {
  const ids = new Set(wall.defects.filter((defect) => kinds.includes(defect.kind)).map((defect) => defect.id));
  if (ids.size === 0) return;
  for (const anchor of drilledInto(wall)) {
    const placed = anchor.connector && placedHole(context.layout, wall, anchor, anchor.connector);
    if (!placed) continue;
    const lacking = placed.fit.lacking.filter((each) => ids.has(each.thing));
    sayLacking({ ...placed, fit: { ...placed.fit, lacking } }, ['defect'], context);
  }
}

/** The board in which a defect of the wood lies: in a lap, the left one. */
export function boardOf(wall: Wall, { stretch }: Defect): SillPiece | undefined {
  if (!stretch) return undefined;
  return wall.pieces.find((piece) => piece.from <= stretch.to && stretch.from <= piece.to);
}

/** Where a finding stands: at the first anchor that is too near, which is what a slide mends; else at the defect. */
export function placeOf(
  { defect, anchors }: NearDefect,
  piece: SillPiece,
): Pick<ReportedFinding, 'thing' | 'layer' | 'about' | 'piece' | 'station' | 'stationTo' | 'span' | 'related'> {
  const [first] = anchors;
  const board = { span: piece.source, message: `sill ${piece.name}` };
  if (!first) {
    const { id, source, stretch } = defect;
    const place = { station: stretch?.from, stationTo: stretch?.to };
    return { thing: id, about: id, layer: 'survey', piece: piece.name, ...place, span: source, related: [board] };
  }
  return {
    thing: first.anchor.id,
    about: `${defect.id} near an anchor`,
    layer: 'design',
    piece: piece.name,
    station: first.placed.station,
    stationTo: undefined,
    span: first.anchor.stationSource ?? first.anchor.source,
    related: [
      { span: defect.source, message: `the ${defect.kind}` },
      board,
      ...anchors.slice(1).map(({ anchor }) => ({ span: anchor.stationSource ?? anchor.source, message: anchor.name })),
    ],
  };
}

/** `F-1 at 0'-10" and F-2 at 4'-8"`. */
export function anchorsWords(
  anchors: NearDefect['anchors'],
  { showStation }: Pick<RuleContext, 'showStation'>,
): string {
  const words = anchors.map(({ anchor, placed }) => `${anchor.name} at ${showStation(placed.station)}`);
  if (words.length <= 2) return words.join(' and ');
  return `${words.slice(0, 2).join(', ')} and ${words.length - 2} more`;
}

/** Where one anchor stands too near, out of the way by the shortest slide. */
export function slideAway(now: Layout, wall: Wall, anchors: NearDefect['anchors']): readonly Fix[] {
  const [only, ...others] = anchors;
  if (!only || others.length > 0) return [];
  const piece = pieceAt(wall, only.placed.station);
  const counted: CountedAnchor | undefined = piece && anchorsOf(wall, piece).find((each) => each.id === only.anchor.id);
  return piece && counted ? slideAnchor(now, wall, piece, counted, 'nearest') : [];
}
