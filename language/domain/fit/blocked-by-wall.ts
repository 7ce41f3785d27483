import type { FoundationStretch, LengthUnits, SillPiece, Stretch, Wall } from '../model/layout.ts';
import { knownValue, profileAt } from '../model/reading.ts';
import { formatLength } from '../units/format-length.ts';
import type { Length } from '../units/length.ts';
import { inches, minus, nanometres, plus, smaller } from '../units/length.ts';
import { cornersOf, depthOfCorner } from './corners.ts';
import type { BlockReason, FitCase, FitNotes } from './fit-case.ts';
import type { Footprint } from './footprint.ts';
import { rangeThatFits } from './footprint.ts';
import { runsOf } from './profile-runs.ts';
import { studsOf } from './studs.ts';
import { stretchWords } from './thing-words.ts';

/** Where the board, the studs, the concrete and the corners of the wall itself rule a connector out. */
export function blockByWall(
  fitCase: FitCase,
  footprint: Footprint,
  halfWidth: Length,
  around: Stretch,
  notes: FitNotes,
): void {
  const { piece } = fitCase;
  if (piece) {
    blockByEnds(piece, halfWidth, notes);
    blockBySetBack(fitCase, piece, notes);
    blockByHeadroom(fitCase, piece, footprint, notes);
  }
  if (footprint.mounted === 'through-the-sill') blockByStuds(fitCase, halfWidth, around, notes);
  if (footprint.mounted === 'on-the-face') {
    blockByCorners(fitCase, halfWidth, notes);
    blockBySideRoom(fitCase, footprint, halfWidth, around, notes);
  }
  blockByFoundation(fitCase, footprint, halfWidth, around, notes);
}

/** The body stands on one board: over its end, half of the fasteners would hold the next one. */
function blockByEnds(piece: SillPiece, halfWidth: Length, notes: FitNotes): void {
  const end = (side: 'left' | 'right', station: Length): void =>
    notes.block({
      from: minus(station, halfWidth),
      to: plus(station, halfWidth),
      reason: 'joint',
      thing: piece.id,
      span: piece.source,
      words: `the ${side} end of sill ${piece.name}`,
      service: undefined,
    });
  end('left', piece.from);
  end('right', piece.to);
}

function blockBySetBack({ connector, shim, layout }: FitCase, piece: SillPiece, notes: FitNotes): void {
  const range = rangeThatFits(connector, 'set-back');
  if (!range) return;
  const shimmed = shim === undefined ? nanometres(0) : knownValue(shim);
  if (!piece.setBack || shimmed === undefined) {
    lacksAll(
      piece,
      'set-back',
      shimmed === undefined ? `thickness of the shim on sill ${piece.name}` : `set-back of sill ${piece.name}`,
      notes,
    );
    return;
  }
  const { setBack } = piece;
  const units = layout.title.units;
  blockByRange(
    (passes) => runsOf(setBack, beyond(piece), (value) => passes(minus(value, shimmed))),
    range,
    nanometres(1),
    (at) => {
      const value = knownValue(profileAt(setBack, at));
      const shown = value === undefined ? '' : `${formatLength(value, units)} `;
      return `${shown}set-back of sill ${piece.name}`;
    },
    { reason: 'set-back', piece, wants: `set-back of sill ${piece.name}` },
    notes,
  );
}

function blockByHeadroom({ layout }: FitCase, piece: SillPiece, footprint: Footprint, notes: FitNotes): void {
  const needed = footprint.headroom;
  if (needed === undefined) return;
  const { headroom } = piece;
  if (!headroom) {
    lacksAll(piece, 'headroom', `headroom of sill ${piece.name}`, notes);
    return;
  }
  blockByRange(
    (passes) => runsOf(headroom, beyond(piece), passes),
    { least: needed, most: undefined },
    nanometres(1),
    (at) =>
      `${shownAt(headroom, at, layout.title.units)}headroom over sill ${piece.name}, ${formatLength(needed, layout.title.units)} wanted`,
    { reason: 'headroom', piece, wants: `headroom of sill ${piece.name}` },
    notes,
  );
}

function blockBySideRoom(
  { wall, layout }: FitCase,
  footprint: Footprint,
  halfWidth: Length,
  around: Stretch,
  notes: FitNotes,
): void {
  const needed = footprint.sideRoom;
  if (needed === undefined) return;
  const { units } = layout.title;
  // Room in front is written down only where it is tight, so each reading speaks of its own place and of no other.
  for (const { stretch, room, source } of wall.sideRoom ?? []) {
    const reach = beyondBody(stretch, halfWidth);
    if (reach.to <= around.from || reach.from >= around.to) continue;
    if (room.kind === 'unknown') {
      notes.lacks({
        ...reach,
        reason: 'side-room',
        wants: `room in front of wall ${wall.name} ${stretchWords(stretch, units)}`,
        thing: wall.id,
        span: source,
      });
    } else if (room.value < needed) {
      notes.block({
        ...reach,
        reason: 'side-room',
        thing: wall.id,
        span: source,
        words: `${formatLength(room.value, units)} of room in front ${stretchWords(stretch, units)}, ${formatLength(needed, units)} wanted`,
        service: undefined,
        measured: room.value,
        wanted: needed,
      });
    }
  }
}

/** The washer must lie flat on the sill between the studs: half a stud and half a washer apart. */
function blockByStuds({ wall, layout }: FitCase, halfWidth: Length, around: Stretch, notes: FitNotes): void {
  const { studs, lacking } = studsOf(wall);
  for (const stud of studs) {
    if (stud.centre + stud.halfWidth + halfWidth <= around.from) continue;
    if (stud.centre - stud.halfWidth - halfWidth >= around.to) break;
    const role = stud.role === 'jamb' ? 'jamb stud' : 'stud';
    notes.block({
      from: nanometres(stud.centre - stud.halfWidth - halfWidth),
      to: nanometres(stud.centre + stud.halfWidth + halfWidth),
      reason: 'stud',
      thing: stud.thing,
      span: undefined,
      words: `${role} ${stretchWords({ from: stud.centre, to: stud.centre }, layout.title.units)}`,
      service: undefined,
    });
  }
  for (const each of lacking) {
    notes.lacks({
      ...widened(each, halfWidth),
      reason: 'stud',
      wants: each.wants,
      thing: each.thing,
      span: wall.nameSource,
    });
  }
}

/** Old stems are 6 to 8 in thick; where nobody measured one, nothing is said within a foot of the corner. */
const UNMEASURED_CORNER = inches(12);

function blockByCorners({ wall, layout }: FitCase, halfWidth: Length, notes: FitNotes): void {
  const { left, right } = cornersOf(layout, wall);
  const { length } = wall;
  const at = (own: 'left' | 'right', reach: Length): Stretch | undefined => {
    if (own === 'left') return { from: nanometres(-halfWidth - 1), to: plus(reach, halfWidth) };
    return length === undefined
      ? undefined
      : { from: nanometres(length - reach - halfWidth), to: plus(plus(length, halfWidth), nanometres(1)) };
  };
  for (const [own, corner] of [
    ['left', left],
    ['right', right],
  ] as const) {
    if (!corner) continue;
    const answer = depthOfCorner(wall, own, corner);
    const stretch = at(own, answer.kind === 'depth' ? answer.depth : UNMEASURED_CORNER);
    if (!stretch) continue;
    if (answer.kind === 'lacking') {
      notes.lacks({
        ...stretch,
        reason: 'neighbour',
        wants: answer.wants,
        thing: answer.of.id,
        span: answer.of.nameSource,
      });
    } else if (answer.depth > 0) {
      notes.block({
        ...stretch,
        reason: 'neighbour',
        thing: corner.neighbour.id,
        span: corner.neighbour.nameSource,
        words: `the concrete of wall ${corner.neighbour.name}, ${formatLength(answer.depth, layout.title.units)} at the corner`,
        service: undefined,
      });
    }
  }
}

function blockByFoundation(
  fitCase: FitCase,
  footprint: Footprint,
  halfWidth: Length,
  around: Stretch,
  notes: FitNotes,
): void {
  const { wall, connector } = fitCase;
  const holeReach = nanometres(Math.max(0, ...footprint.holes.map((hole) => Math.abs(hole.x))));
  const showing = rangeThatFits(connector, 'showing');
  const stem = rangeThatFits(connector, 'stem');
  const stretches = wall.foundation.filter((each) => each.from < each.to).sort((a, b) => a.from - b.from);
  // What is not written down about the concrete matters below the board only.
  const below = fitCase.piece ?? around;
  let reached = below.from;
  let before: FoundationStretch | undefined;
  const lacksFoundation = (from: Length, to: Length): void => {
    if (!showing && !stem) return;
    const where = stretchWords({ from: nanometres(Math.max(0, from)), to }, fitCase.layout.title.units);
    notes.lacks({
      ...widened({ from, to }, halfWidth),
      reason: showing ? 'concrete-low' : 'stem',
      // Where the wall's end is unknown, so is where its foundation lies.
      wants: wall.length === undefined ? `length of wall ${wall.name}` : `foundation of wall ${wall.name}, ${where}`,
      thing: wall.id,
      span: wall.nameSource,
    });
  };
  for (const stretch of stretches) {
    if (stretch.to <= around.from || stretch.from >= around.to) {
      before = stretch;
      continue;
    }
    if (stretch.from > reached && reached < below.to) {
      lacksFoundation(reached, smaller(stretch.from, below.to));
    }
    if (stretch.to > reached) reached = stretch.to;
    if (stretch.material !== 'concrete') {
      notes.block({
        ...widened(stretch, halfWidth),
        reason: 'masonry',
        thing: stretch.id,
        span: stretch.materialSource ?? stretch.source,
        words: `${stretch.material.replace('-', ' ')} foundation ${stretchWords(stretch, fitCase.layout.title.units)}`,
        service: undefined,
      });
    }
    if (before) blockByStep(before, stretch, wall, footprint, halfWidth, holeReach, notes);
    before = stretch;
    if (showing) blockByStretchValue(fitCase, stretch, 'showing', showing, halfWidth, notes);
    if (stem) blockByStretchValue(fitCase, stretch, 'stem', stem, holeReach, notes);
  }
  if (reached < below.to) lacksFoundation(reached, below.to);
}

/** Where the top of the concrete jumps: on the higher side a hole keeps its edge distance, on the lower the body its room. */
function blockByStep(
  left: FoundationStretch,
  right: FoundationStretch,
  wall: Wall,
  footprint: Footprint,
  halfWidth: Length,
  holeReach: Length,
  notes: FitNotes,
): void {
  const topLeft = left.top && knownValue(profileAt(left.top, left.to));
  const topRight = right.top && knownValue(profileAt(right.top, right.from));
  if (topLeft === undefined || topRight === undefined || topLeft === topRight) return;
  const higher = nanometres(Math.max(halfWidth, holeReach + footprint.edge));
  notes.block({
    from: minus(left.to, topLeft > topRight ? higher : halfWidth),
    to: plus(right.from, topRight > topLeft ? higher : halfWidth),
    reason: 'step',
    thing: wall.id,
    span: right.source,
    words: 'the step in the foundation',
    service: undefined,
  });
}

function blockByStretchValue(
  { wall, layout }: FitCase,
  stretch: FoundationStretch,
  subject: 'showing' | 'stem',
  range: { readonly least: Length | undefined; readonly most: Length | undefined },
  reach: Length,
  notes: FitNotes,
): void {
  const profile = subject === 'showing' ? stretch.showing : stretch.thick;
  const reason = subject === 'showing' ? 'concrete-low' : 'stem';
  const wants = `${subject === 'showing' ? 'concrete showing' : 'thickness of the foundation'} on wall ${wall.name}, ${stretchWords(stretch, layout.title.units)}`;
  if (!profile) {
    notes.lacks({ ...widened(stretch, reach), reason, wants, thing: stretch.id, span: stretch.source });
    return;
  }
  const what = subject === 'showing' ? 'concrete showing' : 'thick foundation';
  blockByRange(
    (passes) => runsOf(profile, stretch, passes),
    range,
    reach,
    (at) => `${shownAt(profile, at, layout.title.units)}${what}`,
    { reason, piece: stretch, wants },
    notes,
  );
}

function blockByRange(
  runs: (passes: (value: Length) => boolean) => ReturnType<typeof runsOf>,
  range: { readonly least: Length | undefined; readonly most: Length | undefined },
  reach: Length,
  words: (at: Length) => string,
  about: { readonly reason: BlockReason; readonly piece: SillPiece | FoundationStretch; readonly wants: string },
  notes: FitNotes,
): void {
  const { least, most } = range;
  const tests = [
    ...(least === undefined ? [] : [(value: Length) => value >= least]),
    ...(most === undefined ? [] : [(value: Length) => value <= most]),
  ];
  tests.forEach((passes, index) => {
    const found = runs(passes);
    for (const run of found.failing) {
      notes.block({
        ...widened(run, reach),
        reason: about.reason,
        thing: about.piece.id,
        span: about.piece.source,
        words: words(run.from),
        service: undefined,
      });
    }
    if (index > 0) return;
    for (const run of found.unknown) {
      notes.lacks({
        ...widened(run, reach),
        reason: about.reason,
        wants: about.wants,
        thing: about.piece.id,
        span: about.piece.source,
      });
    }
  });
}

function lacksAll(piece: SillPiece, reason: BlockReason, wants: string, notes: FitNotes): void {
  notes.lacks({ ...beyond(piece), reason, wants, thing: piece.id, span: piece.source });
}

function shownAt(profile: Parameters<typeof profileAt>[0], at: Length, units: LengthUnits): string {
  const value = knownValue(profileAt(profile, at));
  return value === undefined ? '' : `${formatLength(value, units)} `;
}

const widened = (stretch: Stretch, by: Length): Stretch => ({
  from: minus(stretch.from, by),
  to: plus(stretch.to, by),
});

/** Where the middle of a body may not be if no part of it may stand on the stretch, be it a single station. */
const beyondBody = (stretch: Stretch, halfWidth: Length): Stretch => widened(stretch, plus(halfWidth, nanometres(1)));

/** One nanometre more on either side, so that an open stretch takes in the ends of the board. */
const beyond = (piece: SillPiece): Stretch => widened(piece, nanometres(1));
