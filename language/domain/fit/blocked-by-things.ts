import type { Defect, Layout, NewAnchor, Obstruction, Stretch, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { recentOnly } from '../recent-only.ts';
import { mostLength } from '../rulesets/compare.ts';
import { limitFor } from '../rulesets/limit-for.ts';
import { formatLength, formatStation } from '../units/format-length.ts';
import type { Length } from '../units/length.ts';
import { half, inches, minus, nanometres, plus, zero } from '../units/length.ts';
import type { Blocked, BlockReason, FitCase, FitNotes } from './fit-case.ts';
import type { Footprint, Hole } from './footprint.ts';
import { asked, fitSubjects } from './footprint.ts';
import type { HeightRange } from './height-zone.ts';
import { fullHeight, heightBetween, heightsOf, overlaps } from './height-zone.ts';
import type { IntervalIndex } from './interval-index.ts';
import { intervalIndex } from './interval-index.ts';
import { isOpening } from './studs.ts';
import { extentOf, thingWords } from './thing-words.ts';
import { workingSpacesOn } from './working-space.ts';

/** Where openings, pipes, appliances, services and defects rule a connector out. */
export function blockByThings(
  fitCase: FitCase,
  footprint: Footprint,
  halfWidth: Length,
  around: Stretch,
  notes: FitNotes,
): void {
  const things = thingsOn(fitCase.wall);
  for (const obstruction of things.placeless) {
    const words = thingWords({ ...obstruction, stretch: undefined }, fitCase.layout.title.units);
    notes.lacks({
      ...around,
      reason: isOpening(obstruction) ? 'no-concrete' : 'thing',
      wants: `place of ${words} on wall ${fitCase.wall.name}`,
      thing: obstruction.id,
      span: obstruction.source,
    });
    for (const reason of serviceOf(obstruction)?.reasons ?? []) {
      const wants = `place of ${words} on wall ${fitCase.wall.name}`;
      notes.lacks({ ...around, reason, wants, thing: obstruction.id, span: obstruction.source });
    }
  }
  for (const { thing: obstruction, from, to } of things.obstructions.overlapping(around.from, around.to)) {
    const found = heightsOf(obstruction, fitCase.wall, fitCase.piece);
    const heights = found.kind === 'heights' ? found.heights : fullHeight;
    const site: ThingSite = { fitCase, footprint, halfWidth, obstruction, extent: { from, to }, heights, notes: notes };
    if (found.kind === 'lacking') {
      // What would be in the way at full height cannot be told from what is not.
      blockByObstruction({ ...site, notes: asLacking(notes, obstruction, found.wants) });
    } else blockByObstruction(site);
    if (from === to) {
      // Nobody wrote down how wide it is: it is in the way at its middle, and may be beside it.
      const wants = `width of ${wordsOf(site)} on wall ${fitCase.wall.name}`;
      const widest = { from: minus(from, UNMEASURED_HALF_WIDTH), to: plus(to, UNMEASURED_HALF_WIDTH) };
      blockByObstruction({ ...site, extent: widest, notes: asLacking(notes, obstruction, wants) });
    }
  }
  blockByWorkingSpaces(fitCase, footprint, around, notes);
  for (const defect of things.placelessDefects) {
    const words = thingWords(defect, fitCase.layout.title.units);
    const wants = `place of ${words} on wall ${fitCase.wall.name}`;
    notes.lacks({ ...around, reason: 'defect', wants, thing: defect.id, span: defect.source });
  }
  for (const { thing: defect, from, to } of things.defects.overlapping(around.from, around.to)) {
    blockByDefect(fitCase, defect, { from, to }, footprint, halfWidth, notes);
  }
}

/** Where an anchor was left out or failed: whatever stopped it is still there. */
export function blockedByTries(layout: Layout, wall: Wall, halfWidth: Length, around: Stretch): readonly Blocked[] {
  const reach = nanometres(halfWidth + 1);
  return triesOn(wall)
    .overlapping(minus(around.from, reach), plus(around.to, reach))
    .map(({ thing: anchor, from, to }) => ({
      from: minus(from, halfWidth),
      to: plus(to, halfWidth),
      reason: 'tried-before',
      thing: anchor.id,
      span: anchor.source,
      words: `${anchor.name}, ${anchor.state === 'failed' ? 'which failed' : 'left out'} at ${formatStation(drilledAt(anchor) ?? from, layout.title.units)}`,
      service: undefined,
    }));
}

/** Few pipes and openings are wider than 2 ft. */
const UNMEASURED_HALF_WIDTH = inches(12);

/** How far a thing can rule out centres beyond its own edges. */
export function reachOfThings(layout: Layout, footprint: Footprint, halfWidth: Length): Length {
  const subjects = Object.keys(fitSubjects) as (keyof typeof fitSubjects)[];
  const clear = Math.max(
    0,
    footprint.edge,
    footprint.drillRadius,
    ...subjects.map((subject) => asked(layout.rules, subject) ?? 0),
  );
  return nanometres(
    UNMEASURED_HALF_WIDTH + halfWidth + clear + Math.max(0, ...footprint.holes.map((hole) => Math.abs(hole.x))),
  );
}

interface Placed<Item> extends Stretch {
  readonly thing: Item;
}
interface ThingsOnWall {
  readonly obstructions: IntervalIndex<Placed<Obstruction>>;
  readonly defects: IntervalIndex<Placed<Defect>>;
  readonly placeless: readonly Obstruction[];
  readonly placelessDefects: readonly Defect[];
}

const known = recentOnly<Wall, ThingsOnWall>();

/** What stands on a wall, each with its extent. What the design takes out or has moved is no longer there. */
export function thingsOn(wall: Wall): ThingsOnWall {
  const before = known.get(wall);
  if (before) return before;
  const things = {
    obstructions: intervalIndex(
      wall.obstructions.flatMap((thing) => {
        const extent = thing.remedied ? undefined : extentOf(thing);
        return extent ? [{ ...extent, thing }] : [];
      }),
    ),
    defects: intervalIndex(
      wall.defects.flatMap((thing) => (thing.stretch && !thing.remedied ? [{ ...thing.stretch, thing }] : [])),
    ),
    placeless: wall.obstructions.filter((thing) => !thing.stretch && !thing.remedied),
    placelessDefects: wall.defects.filter((thing) => !thing.stretch && !thing.remedied),
  };
  known.set(wall, things);
  return things;
}

const knownTries = recentOnly<Wall['anchors'], IntervalIndex<Placed<NewAnchor>>>();

function triesOn({ anchors }: Wall): IntervalIndex<Placed<NewAnchor>> {
  const before = knownTries.get(anchors);
  if (before) return before;
  const tries = intervalIndex(
    anchors.flatMap((thing) => {
      const { state, connector } = thing;
      const station = drilledAt(thing);
      if (station === undefined || (state !== 'omitted' && state !== 'failed')) return [];
      // As wide as it would have been: some of its holes may be there.
      const reach = half(connector?.body?.wide ?? zero);
      return [{ from: minus(station, reach), to: plus(station, reach), thing }];
    }),
  );
  knownTries.set(anchors, tries);
  return tries;
}

/** Where it was tried: as the record has it, else as designed. */
const drilledAt = ({ asBuilt, station }: NewAnchor): Length | undefined => asBuilt?.station ?? station;

interface ThingSite {
  readonly fitCase: FitCase;
  readonly footprint: Footprint;
  readonly halfWidth: Length;
  readonly obstruction: Obstruction;
  readonly extent: Stretch;
  readonly heights: HeightRange;
  readonly notes: FitNotes;
}

function blockByObstruction(site: ThingSite): void {
  if (isOpening(site.obstruction)) blockByOpening(site);
  else blockByThingInFront(site);
  const service = serviceOf(site.obstruction);
  if (service) blockByService(site, service);
}

/** No concrete in the opening, nor enough beside it; and no plate across it. */
function blockByOpening(site: ThingSite): void {
  const { footprint, heights, extent, halfWidth } = site;
  const { edge } = footprint;
  const short = footprint.holes.filter((hole) => {
    const inConcrete = concreteOf(hole, footprint);
    return inConcrete === undefined || overlaps({ low: inConcrete.low - edge, high: inConcrete.high + edge }, heights);
  });
  let gripless: Stretch | undefined;
  if (short.length > 0) {
    // Between two holes of one plate its body spans the opening: one stretch.
    const leftmost = Math.min(...short.map((hole) => hole.x));
    const rightmost = Math.max(...short.map((hole) => hole.x));
    gripless = { from: nanometres(extent.from - edge - rightmost), to: nanometres(extent.to + edge - leftmost) };
    blockBy(site, gripless, 'no-concrete');
  }
  // The washer of a bolt lies on the board, whatever is below.
  if (footprint.mounted !== 'on-the-face') return;
  if (footprint.heights && !overlaps(footprint.heights, heights)) return;
  const covered = { from: minus(extent.from, halfWidth), to: plus(extent.to, halfWidth) };
  if (gripless && gripless.from <= covered.from && covered.to <= gripless.to) return;
  blockBy(site, covered, 'thing');
}

/** The part of a hole that is in concrete. Where the board's thickness is not known, all heights below the top. */
function concreteOf(hole: Hole, footprint: Footprint): HeightRange | undefined {
  if (footprint.mounted !== 'on-the-face') return { low: hole.heights?.low ?? Number.NEGATIVE_INFINITY, high: 0 };
  return hole.heights;
}

/** The body meets the thing, or there is no room in front to drill. */
function blockByThingInFront(site: ThingSite): void {
  const { footprint, heights, extent, halfWidth, obstruction, notes } = site;
  const off = obstruction.off === undefined ? zero : knownValue(obstruction.off);
  const reaches = (half: Length): Stretch => ({ from: minus(extent.from, half), to: plus(extent.to, half) });
  if (footprint.mounted === 'through-the-sill') {
    // The hole is drilled and the nut turned from above the board: what stands well off the wall is not in the way.
    const radius = nanometres(Math.max(halfWidth, footprint.drillRadius));
    const above = footprint.heights && { low: 0, high: footprint.heights.high + (footprint.headroom ?? 0) };
    if (above && !overlaps(above, heights)) return;
    if (off === undefined) lacksStandOff(site, reaches(radius));
    else if (off < radius) notes.block({ ...blockedBy(site, reaches(radius), 'thing'), wanted: radius });
    return;
  }
  if (footprint.mounted !== 'on-the-face') return;
  if (footprint.heights && !overlaps(footprint.heights, heights)) return;
  if (off === undefined) lacksStandOff(site, reaches(halfWidth));
  else if (off < footprint.depth) blockBy(site, reaches(halfWidth), 'thing');
  else if (footprint.sideRoom !== undefined && off < footprint.sideRoom) {
    const units = site.fitCase.layout.title.units;
    const words = `${wordsOf(site)}, ${formatLength(off, units)} off the wall (${formatLength(footprint.sideRoom, units)} wanted to drill)`;
    notes.block({
      ...blockedBy(site, reaches(halfWidth), 'side-room'),
      words,
      measured: off,
      wanted: footprint.sideRoom,
    });
  }
}

function lacksStandOff(site: ThingSite, stretch: Stretch): void {
  const { obstruction, notes } = site;
  notes.lacks({
    ...stretch,
    reason: 'thing',
    wants: `how far ${wordsOf(site)} stands off the wall`,
    thing: obstruction.id,
    span: obstruction.source,
  });
}

/** Every hole keeps its distance from gas and from power, in height or along the wall. */
function blockByService(site: ThingSite, service: Service): void {
  const { footprint, heights, extent, fitCase } = site;
  for (const reason of service.reasons) {
    const clear = asked(fitCase.layout.rules, reason === 'gas' ? 'gas-clear' : 'power-clear');
    if (clear === undefined) continue;
    const near = footprint.holes.filter((hole) => !hole.heights || heightBetween(hole.heights, heights) < clear);
    if (near.length === 0) continue;
    const leftmost = Math.min(...near.map((hole) => hole.x));
    const rightmost = Math.max(...near.map((hole) => hole.x));
    const stretch = { from: nanometres(extent.from - clear - rightmost), to: nanometres(extent.to + clear - leftmost) };
    const units = fitCase.layout.title.units;
    site.notes.block({
      ...blockedBy(site, stretch, reason),
      words: `${wordsOf(site)} (holes keep ${formatLength(clear, units)} away)`,
      wanted: clear,
    });
  }
}

/** Nobody drills from where the power is served, however far below or above it the hole would be. */
function blockByWorkingSpaces(fitCase: FitCase, { holes }: Footprint, around: Stretch, notes: FitNotes): void {
  if (holes.length === 0) return;
  const leftmost = Math.min(...holes.map((hole) => hole.x));
  const rightmost = Math.max(...holes.map((hole) => hole.x));
  for (const space of workingSpacesOn(fitCase.layout, fitCase.wall)) {
    if (space.to - leftmost <= around.from || space.from - rightmost >= around.to) continue;
    notes.block({
      from: nanometres(space.from - rightmost),
      to: nanometres(space.to - leftmost),
      reason: 'power',
      thing: space.panel.id,
      span: space.panel.source,
      words: `the working space in front of ${thingWords(space.panel, fitCase.layout.title.units)}`,
      service: 'power',
    });
  }
}

interface Service {
  readonly reasons: readonly ('gas' | 'power')[];
}

export function serviceOf(obstruction: Pick<Obstruction, 'kind'>): Service | undefined {
  switch (obstruction.kind) {
    case 'gas-pipe':
      return { reasons: ['gas'] };
    case 'conduit':
    case 'electrical-panel':
      return { reasons: ['power'] };
    // A meter may be of either.
    case 'meter':
      return { reasons: ['gas', 'power'] };
    default:
      return undefined;
  }
}

const WOOD_DEFECTS: ReadonlySet<Defect['kind']> = new Set<Defect['kind']>(['rot', 'insects', 'split', 'notch']);

function blockByDefect(
  fitCase: FitCase,
  defect: Defect,
  extent: Stretch,
  footprint: Footprint,
  halfWidth: Length,
  notes: FitNotes,
): void {
  if (defect.kind === 'crack' && !isNarrow(defect, fitCase.layout) && knownValue(defect.width) === undefined) {
    // Nobody wrote how wide it is: nothing stands across it, and how far from it one has to keep is open.
    const wants = `width of the ${thingWords(defect, fitCase.layout.title.units)} on wall ${fitCase.wall.name}`;
    const far = plus(asked(fitCase.layout.rules, 'crack-clear') ?? zero, nanometres(reachOfHoles(footprint)));
    notes.lacks({
      from: minus(extent.from, far),
      to: plus(extent.to, far),
      reason: 'defect',
      wants,
      thing: defect.id,
      span: defect.source,
    });
  }
  const clear = clearanceOf(defect, fitCase) ?? zero;
  const holeReach = reachOfHoles(footprint);
  const own = WOOD_DEFECTS.has(defect.kind) ? halfWidth : holeReach;
  const reach = plus(own, clear);
  // A crack is a line: nothing stands across it even where no distance is asked.
  const atLeast = nanometres(Math.max(reach, extent.from === extent.to ? 1 : 0));
  notes.block({
    from: minus(extent.from, atLeast),
    to: plus(extent.to, atLeast),
    reason: 'defect',
    thing: defect.id,
    span: defect.source,
    words: thingWords(defect, fitCase.layout.title.units),
    service: undefined,
  });
}

const reachOfHoles = ({ holes }: Footprint): Length =>
  nanometres(Math.max(0, ...holes.map((hole) => Math.abs(hole.x))));

/** Cracks of up to this width weaken no anchor beside them. */
const mostCrackWidth = (layout: Layout): Length | undefined => {
  const answer = limitFor(layout.rules, 'crack-width', {});
  return answer.kind === 'limit' ? mostLength(answer.limit)?.reach : undefined;
};

/** Whether a crack is known to be wider than the rules in force let pass. */
export function isWide({ kind, width }: Defect, layout: Layout): boolean {
  const most = mostCrackWidth(layout);
  const wide = knownValue(width);
  return kind === 'crack' && wide !== undefined && most !== undefined && wide > most;
}

/** Whether it is known not to be. */
function isNarrow({ width }: Defect, layout: Layout): boolean {
  const most = mostCrackWidth(layout);
  const wide = knownValue(width);
  return most === undefined || (wide !== undefined && wide <= most);
}

function clearanceOf(defect: Defect, { layout }: FitCase): Length | undefined {
  switch (defect.kind) {
    case 'rot':
    case 'insects':
      return asked(layout.rules, 'rot-clear');
    case 'split':
      return asked(layout.rules, 'split-clear');
    case 'crack':
      return isWide(defect, layout) ? asked(layout.rules, 'crack-clear') : undefined;
    case 'cold-joint':
      return asked(layout.rules, 'cold-joint-clear');
    case 'notch':
    case 'spall':
      return undefined;
  }
}

function blockBy(site: ThingSite, stretch: Stretch, reason: BlockReason): void {
  site.notes.block(blockedBy(site, stretch, reason));
}

function blockedBy(site: ThingSite, stretch: Stretch, reason: BlockReason): Blocked {
  return {
    ...stretch,
    reason,
    thing: site.obstruction.id,
    span: site.obstruction.source,
    words: wordsOf(site),
    service: serviceOf(site.obstruction)?.reasons[0],
  };
}

function wordsOf({ obstruction, fitCase }: ThingSite): string {
  return thingWords(obstruction, fitCase.layout.title.units);
}

function asLacking(notes: FitNotes, obstruction: Obstruction, wants: string): FitNotes {
  return {
    block: ({ from, to, reason }) =>
      notes.lacks({ from, to, reason, wants, thing: obstruction.id, span: obstruction.source }),
    lacks: (lacking) => notes.lacks(lacking),
  };
}
