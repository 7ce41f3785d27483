import { serviceOf } from '../../fit/blocked-by-things.ts';
import type { FitAt } from '../../fit/clear-intervals.ts';
import { clearIntervals, fitAt } from '../../fit/clear-intervals.ts';
import type { Blocked, BlockReason, FitCase } from '../../fit/fit-case.ts';
import { howSet } from '../../fit/fit-case.ts';
import type { CountedAnchor } from '../../fit/piece-anchors.ts';
import { anchorsOf, pieceAt } from '../../fit/piece-anchors.ts';
import { changeConnector, slideAnchor } from '../../fixes/anchor-fixes.ts';
import type { Connector } from '../../hardware/connector.ts';
import { anchorsSill } from '../../hardware/connector.ts';
import type { Layout, NewAnchor, SillPiece, ThingId, Wall } from '../../model/layout.ts';
import type { SourceSpan } from '../../model/source.ts';
import { leastLength } from '../../rulesets/compare.ts';
import type { LimitQuery } from '../../rulesets/limit-for.ts';
import type { Limit } from '../../rulesets/rule-set.ts';
import type { Length } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import type { Fix } from '../finding.ts';
import { reportWords } from '../foundation/report-words.ts';
import { sourceWords } from '../limit-words.ts';

/** A new anchor at its place, and whether it fits there. */
export interface PlacedAnchor {
  readonly station: Length;
  readonly piece: SillPiece | undefined;
  readonly fitCase: FitCase;
  readonly fit: FitAt;
}

/** `undefined` for what is no sill anchor, has no legible place, or will not be built. */
export function placedAnchor(
  layout: Layout,
  wall: Wall,
  anchor: NewAnchor,
  connector: Connector,
): PlacedAnchor | undefined {
  return anchorsSill(connector.kind) ? placedHole(layout, wall, anchor, connector) : undefined;
}

/** The same, and the rod of a hold-down too: for what minds every hole that somebody drills. */
export function placedHole(
  layout: Layout,
  wall: Wall,
  anchor: NewAnchor,
  connector: Connector,
): PlacedAnchor | undefined {
  const { station } = anchor;
  if (station === undefined || !(anchorsSill(connector.kind) || connector.kind === 'hold-down')) return undefined;
  if (anchor.state === 'omitted' || anchor.state === 'failed') return undefined;
  const ofLayout = placedIn.get(layout) ?? new WeakMap<NewAnchor, PlacedAnchor>();
  placedIn.set(layout, ofLayout);
  const before = ofLayout.get(anchor);
  if (before?.fitCase.wall === wall && before.fitCase.connector === connector) return before;
  const piece = pieceAt(wall, station);
  const fitCase = { layout, wall, piece, connector, ...howSet(anchor) };
  const placed = { station, piece, fitCase, fit: fitAt(fitCase, station) };
  ofLayout.set(anchor, placed);
  return placed;
}
/** A dozen rules ask it of each anchor. */
const placedIn = new WeakMap<Layout, WeakMap<NewAnchor, PlacedAnchor>>();

/** What rules the anchor out for one of these reasons, the deepest in the way first. */
export function inTheWay({ fit, station }: PlacedAnchor, reasons: readonly BlockReason[]): readonly Blocked[] {
  const depth = (each: Blocked): number => Math.min(station - each.from, each.to - station);
  return fit.blocked.filter((each) => reasons.includes(each.reason)).sort((a, b) => depth(b) - depth(a));
}

/** The same without things that a graver reason rules out already: one mistake is said once. */
export function inTheWayBut(
  placed: PlacedAnchor,
  reasons: readonly BlockReason[],
  graver: readonly BlockReason[],
): readonly Blocked[] {
  const said = new Set(inTheWay(placed, graver).map((each) => each.thing));
  return inTheWay(placed, reasons).filter((each) => each.thing === undefined || !said.has(each.thing));
}

/** Soft wood is the graver mistake where several meet: foundation/sill-rotten tells of it. */
export function standsInRot({ fit, fitCase }: PlacedAnchor): boolean {
  const soft = new Set(
    fitCase.wall.defects.filter(({ kind }) => kind === 'rot' || kind === 'insects').map((defect) => defect.id),
  );
  return fit.blocked.some((each) => each.reason === 'defect' && each.thing !== undefined && soft.has(each.thing));
}

/** Says which measurements are missing for one of these reasons. */
export function sayLacking({ fit }: PlacedAnchor, reasons: readonly BlockReason[], context: RuleContext): void {
  for (const each of fit.lacking) {
    if (reasons.includes(each.reason)) context.lacks({ wants: each.wants, at: each.span, thing: each.thing });
  }
}

/** The clear spots on either side, in words: `Clear spots: 3'-8" and 5'-9".` */
export function clearSpotsWords({ fitCase, station }: PlacedAnchor, { showStation }: RuleContext): string {
  if (!fitCase.piece) return '';
  const { clear } = clearIntervals(fitCase);
  const left = clear.findLast((each) => each.to <= station)?.to;
  const right = clear.find((each) => each.from >= station)?.from;
  const spots = [left, right].flatMap((each) => (each === undefined ? [] : [showStation(each)]));
  if (spots.length === 0) return `It fits nowhere on sill ${fitCase.piece.name}: choose another connector.`;
  return `Nearest clear: ${spots.join(' or ')}.`;
}

/** Out of the way by the shortest slide, or with another connector in the same place. */
export function waysOut(now: Layout, wall: Wall, piece: SillPiece | undefined, anchor: NewAnchor): readonly Fix[] {
  // A hold-down stands where its stud stands.
  if (!piece || (anchor.connector && !anchorsSill(anchor.connector.kind))) return [];
  const counted: CountedAnchor | undefined = anchorsOf(wall, piece).find((each) => each.id === anchor.id);
  return [
    ...(counted ? slideAnchor(now, wall, piece, counted, 'nearest') : []),
    ...changeConnector(now, wall, piece, anchor),
  ];
}

/** Lines of the things in the way, for the finding's related places. */
export function placesOf(
  blocked: readonly Blocked[],
): readonly { readonly span: SourceSpan; readonly message: string }[] {
  return blocked.flatMap(({ span, words }) => (span ? [{ span, message: words }] : []));
}

/** What comes before any drill near gas or power; every title says it. */
export const CAUTION = 'locate and expose both sides first';

export function withCaution(fixes: readonly Fix[]): readonly Fix[] {
  return fixes.map((fix) => (fix.title.includes(CAUTION) ? fix : { ...fix, title: `${fix.title}: ${CAUTION}` }));
}

/** A line that has a thing moved, where the survey says that it can be and the thing has a name to say it by. */
export function haveMoved(wall: Wall, thing: ThingId | undefined): readonly Fix[] {
  const found = thing === undefined ? undefined : wall.obstructions.find((each) => each.id === thing);
  if (!found?.name || !found.words.has('movable') || found.words.has('fixed')) return [];
  const trade = serviceOf(found) ? ' by the licensed trade' : '';
  const fix: Fix = {
    title: `Have ${found.kind.replaceAll('-', ' ')} ${found.name} moved${trade}: relocate ${found.name}`,
    trust: 'review',
    edits: [{ kind: 'relocate', wall: wall.id, thing: found.id, name: found.name }],
  };
  return trade === '' ? [fix] : withCaution([fix]);
}

/** Where a connector's needs come from: the limit that asks as much, else the connector's own report. */
export function askedBy(limit: Limit | undefined, wanted: Length, connector: Connector): string {
  return limit && leastLength(limit)?.reach === wanted ? sourceWords(limit) : reportWords(connector);
}

/** The condition that the tool limits turn on. */
export const drillOf = ({ rightAngleDrill }: NewAnchor): LimitQuery => ({
  drill: { kind: 'word', word: rightAngleDrill ? 'right-angle' : 'straight' },
});
