import type { Fastener } from '../hardware/connector.ts';
import { holesInSill } from '../hardware/connector.ts';
import type { FoundAnchor, Stretch, ThingId, Wall } from '../model/layout.ts';
import { knownValue, profileAt } from '../model/reading.ts';
import type { SourceSpan } from '../model/source.ts';
import { formatStation } from '../units/format-length.ts';
import type { Length } from '../units/length.ts';
import {
  half,
  inches,
  larger,
  minus,
  nanometres,
  negate,
  plus,
  scale,
  sixteenth,
  smaller,
  zero,
} from '../units/length.ts';
import { concreteFastener, holeDepth } from './blocked-by-concrete.ts';
import type { BlockReason, FitCase, FitNotes } from './fit-case.ts';
import type { Footprint, fitSubjects } from './footprint.ts';
import { timesAsked, timesDiameter } from './footprint.ts';
import { heightBetween, sillTop } from './height-zone.ts';
import type { IntervalIndex } from './interval-index.ts';
import { intervalIndex } from './interval-index.ts';

/**
 * Where an old bolt or an old hole leaves no room for a new connector: for its washer on the board, for what goes into the wood
 * beside or across the old rod, and for its holes in the concrete.
 *
 * An old bolt goes straight down: through the board at its offset, or in the middle where nobody measured it, and on into the
 * concrete as deep as was measured, or all the way. Taken out, it leaves its hole in the old board, and in the concrete a hole or
 * the stub of its rod.
 */
export function blockByOldHoles(
  fitCase: FitCase,
  footprint: Footprint,
  halfWidth: Length,
  around: Stretch,
  notes: FitNotes,
): void {
  for (const old of oldHolesOn(fitCase.wall).overlapping(around.from, around.to)) {
    const site: HoleSite = { fitCase, footprint, old, notes };
    if (old.what === 'plate') blockByOldPlate(site, halfWidth);
    else if (footprint.mounted === 'on-the-face') blockAcrossOldRod(site, halfWidth);
    else if (footprint.holes.length > 0) blockBesideOldRod(site, halfWidth);
  }
}

interface OldHole extends Stretch {
  readonly what: 'bolt' | 'plate' | 'hole-of-bolt' | 'dead-hole';
  readonly station: Length;
  /** Of the rod; `undefined` for a hole that somebody gave up, which is as wide as what was to go into it. */
  readonly diameter: Length | undefined;
  readonly anchor: FoundAnchor | undefined;
  readonly thing: ThingId | undefined;
  readonly source: SourceSpan;
}

/** Few old sill bolts are thicker. */
const UNMEASURED_ROD = inches(5 / 8);

/** Stands on the face of the wall, or is nailed to it; what else was found goes down through the board. */
const ON_THE_FACE: ReadonlySet<string | undefined> = new Set(['plate', 'strap']);

const known = new WeakMap<Wall, IntervalIndex<OldHole>>();

function oldHolesOn(wall: Wall): IntervalIndex<OldHole> {
  const before = known.get(wall);
  if (before) return before;
  const ofAnchors = wall.foundAnchors.flatMap((anchor): readonly OldHole[] => {
    const { station, id, source, kind } = anchor;
    if (station === undefined) return [];
    const isOut = anchor.states.includes('to-be-removed');
    const isPlate = ON_THE_FACE.has(kind);
    const what = isPlate ? 'plate' : isOut ? 'hole-of-bolt' : 'bolt';
    // Nothing is known of the holes of an old plate that comes off.
    if (isPlate && isOut) return [];
    const diameter = knownValue(anchor.size) ?? UNMEASURED_ROD;
    return [{ what, from: station, to: station, station, diameter, anchor, thing: id, source }];
  });
  const dead = (wall.deadHoles ?? []).map(
    ({ station, source }): OldHole => ({
      what: 'dead-hole',
      from: station,
      to: station,
      station,
      diameter: undefined,
      anchor: undefined,
      thing: undefined,
      source,
    }),
  );
  const index = intervalIndex([...ofAnchors, ...dead]);
  known.set(wall, index);
  return index;
}

interface HoleSite {
  readonly fitCase: FitCase;
  readonly footprint: Footprint;
  readonly old: OldHole;
  readonly notes: FitNotes;
}

/** A body on the face meets an old plate or strap there. How wide that is nobody writes down. */
function blockByOldPlate(site: HoleSite, halfWidth: Length): void {
  if (site.footprint.mounted !== 'on-the-face') return;
  keepApart(site, inTheMiddle, plus(halfWidth, UNMEASURED_HALF_PLATE), { part: 'its body' });
}
/** Half of an old plate or strap: common practice, no source. */
const UNMEASURED_HALF_PLATE = inches(2);

/**
 * A bolt, or the rod of a hold-down, beside an old one: both go down. Washers lie on one board; holes in the wood keep the spacing of
 * fasteners in a row, those in concrete that of anchors.
 */
function blockBesideOldRod(site: HoleSite, halfWidth: Length): void {
  const { fitCase, footprint, old } = site;
  const fastener = concreteFastener(fitCase);
  const own = fastener?.diameter ?? zero;
  const wider = larger(own, old.diameter ?? own);
  const hasWasher = footprint.mounted === 'through-the-sill';
  if (old.what === 'bolt' && hasWasher) {
    keepApart(site, inTheMiddle, plus(halfWidth, halfOfWasher(old)), { part: 'its washer' });
  }
  const wood = timesAsked(fitCase.layout.rules, 'old-bolt-apart-per-diameter');
  if (wood && isInWood(site)) {
    keepApart(site, inTheMiddle, timesDiameter(wider, wood.times), {
      part: 'its hole in the sill',
      subject: 'old-bolt-apart-per-diameter',
    });
  }
  const concrete = timesAsked(fitCase.layout.rules, 'old-bolt-in-concrete-per-diameter');
  if (concrete) {
    keepApart(site, inTheMiddle, timesDiameter(wider, concrete.times), {
      part: 'its hole in the concrete',
      subject: 'old-bolt-in-concrete-per-diameter',
    });
  }
}

/** The screws of a plate go into the edge of the board and its anchors into the face of the concrete: both across an old rod. */
function blockAcrossOldRod(site: HoleSite, halfWidth: Length): void {
  const { fitCase, footprint, old } = site;
  const fastener = concreteFastener(fitCase);
  const own = fastener?.diameter ?? zero;
  if (old.what === 'dead-hole') {
    // Nobody writes which way a hole went that was given up: taken as drilled like those of the plate.
    const concrete = timesAsked(fitCase.layout.rules, 'old-bolt-in-concrete-per-diameter');
    if (!concrete) return;
    const apart = timesDiameter(own, concrete.times);
    keepApart(
      site,
      footprint.holes.map(({ x }) => at(x)),
      apart,
      { part: 'its hole in the concrete', subject: 'old-bolt-in-concrete-per-diameter' },
    );
    return;
  }
  const clear = timesAsked(fitCase.layout.rules, 'old-hole-clear-per-diameter');
  const between = (diameter: Length): Length => (clear ? timesDiameter(diameter, clear.times) : zero);
  const subject = clear && 'old-hole-clear-per-diameter';
  const rod = old.diameter ?? zero;
  if (isInWood(site)) {
    for (const screw of fitCase.connector.fasteners.filter((each) => each.member === 'sill')) {
      const thick = screw.diameter ?? zero;
      const away = between(thick);
      if (!reachesRodInWood(site, screw, away)) continue;
      const apart = nanometres(half(plus(plus(rod, DRILLED_WIDER), thick)) + away);
      const kind = screw.kind.replaceAll('-', ' ');
      const where = holesInSill(fitCase.connector).length > 0 ? '' : ' somewhere on the plate';
      keepApart(site, screwsOf(fitCase, halfWidth), apart, { part: `a ${kind}${where}`, subject });
    }
  }
  const away = between(own);
  const drilled = fastener?.hole ?? own;
  const near = footprint.holes.filter((hole) => reachesRodInConcrete(site, hole.heights, away));
  const apart = nanometres(half(plus(rod, drilled)) + away);
  keepApart(
    site,
    near.map(({ x }) => at(x)),
    apart,
    { part: 'its hole in the concrete', subject },
  );
}

/** NDS 2018, 12.1.3.2: holes for bolts are 1/32 to 1/16 in wider than the bolt; from memory. */
const DRILLED_WIDER = sixteenth;

/** Cut washers are up to 2-3/4 times as wide as their rod: ASME B18.21.1, type A wide, from memory. A nut alone is twice as wide. */
function halfOfWasher({ diameter = UNMEASURED_ROD, anchor }: OldHole): Length {
  const put = anchor?.newWasher?.body;
  if (put) return half(larger(put.wide, put.tall));
  return anchor?.washer === 'none' ? diameter : scale(diameter, 11, 8);
}

/** New wood has no hole of what was taken out before it. */
function isInWood({ fitCase: { piece }, old }: HoleSite): boolean {
  return piece !== undefined && !(old.what === 'hole-of-bolt' && piece.layer === 'design');
}

/** Along the wall from the centre; where the hardware does not say, anywhere on the plate. */
function screwsOf({ connector }: FitCase, halfWidth: Length): readonly Stretch[] {
  const points = holesInSill(connector);
  return points.length > 0 ? points.map(({ x }) => at(x)) : [{ from: negate(halfWidth), to: halfWidth }];
}

const at = (x: Length): Stretch => ({ from: x, to: x });
const inTheMiddle: readonly Stretch[] = [at(zero)];

/** From the inner edge of the board to the middle of the old rod; `undefined` where neither it nor the board was measured. */
function offsetOfRod({ fitCase: { piece }, old }: HoleSite): Length | undefined {
  const wide = knownValue(piece?.size?.wide);
  return knownValue(old.anchor?.offset) ?? (wide === undefined ? undefined : half(wide));
}

/** Of plates on both sides, the nearer one may reach it. */
function reachesRodInWood(site: HoleSite, screw: Fastener, away: Length): boolean {
  const { connector, piece, bothSides } = site.fitCase;
  const fromInside = offsetOfRod(site);
  const wide = knownValue(piece?.size?.wide);
  const plate = connector.body?.thick ?? zero;
  if (screw.long === undefined || fromInside === undefined || (bothSides && wide === undefined)) return true;
  const offset = bothSides && wide !== undefined ? smaller(fromInside, minus(wide, fromInside)) : fromInside;
  const nearSide = minus(offset, half(plus(site.old.diameter ?? zero, DRILLED_WIDER)));
  return minus(screw.long, plate) + away > nearSide;
}

function reachesRodInConcrete(site: HoleSite, heights: Footprint['holes'][number]['heights'], away: Length): boolean {
  const { fitCase, old } = site;
  const embed = knownValue(old.anchor?.embed);
  const top = sillTop(fitCase.piece) ?? zero;
  if (embed !== undefined && heights && heightBetween(heights, { low: -embed, high: top }) >= away) return false;
  const offset = offsetOfRod(site);
  const setBack = fitCase.piece?.setBack && knownValue(profileAt(fitCase.piece.setBack, old.station));
  const depth = holeDepth(fitCase);
  // From outside nobody says how far the holes go in.
  if (fitCase.bothSides || offset === undefined || setBack === undefined || depth === undefined) return true;
  return depth + away > setBack + offset - half(old.diameter ?? zero);
}

function keepApart(
  { fitCase, old, notes }: HoleSite,
  fasteners: readonly Stretch[],
  apart: Length,
  asks: { readonly part: string; readonly subject?: keyof typeof fitSubjects | undefined },
): void {
  for (const { from, to } of fasteners) {
    notes.block({
      from: nanometres(old.station - to - apart),
      to: nanometres(old.station - from + apart),
      reason: reasonOf(old),
      thing: old.thing,
      span: old.source,
      words: wordsOf(old, fitCase),
      service: undefined,
      wanted: apart,
      part: asks.part,
      ...(asks.subject ? { subject: asks.subject } : {}),
    });
  }
}

const reasonOf = ({ what }: OldHole): BlockReason => (what === 'bolt' || what === 'plate' ? 'old-anchor' : 'old-hole');

function wordsOf({ what, station, anchor }: OldHole, { layout }: FitCase): string {
  const at = `at ${formatStation(station, layout.title.units)}`;
  const name = anchor?.name;
  const old = ['old anchor', name, at].filter((word) => word !== undefined).join(' ');
  switch (what) {
    case 'bolt':
      return old;
    case 'plate':
      return `old ${[anchor?.kind, name, at].filter((word) => word !== undefined).join(' ')}`;
    case 'hole-of-bolt':
      return `the hole of ${old}`;
    case 'dead-hole':
      return `the dead hole ${at}`;
  }
}
