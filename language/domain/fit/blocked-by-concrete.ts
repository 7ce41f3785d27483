import type { Fastener } from '../hardware/connector.ts';
import { holesInSill } from '../hardware/connector.ts';
import type { FoundationStretch, Stretch } from '../model/layout.ts';
import type { Profile, Reading } from '../model/reading.ts';
import { knownValue, profileAt } from '../model/reading.ts';
import type { Limit } from '../rulesets/rule-set.ts';
import { formatLength } from '../units/format-length.ts';
import type { Length } from '../units/length.ts';
import { half, larger, minus, nanometres, plus, smaller } from '../units/length.ts';
import type { BlockReason, FitCase, FitNotes } from './fit-case.ts';
import type { Footprint } from './footprint.ts';
import { asked, footprintOf, timesAsked, timesDiameter } from './footprint.ts';
import { sillTop } from './height-zone.ts';
import { runsOf } from './profile-runs.ts';
import { stretchWords } from './thing-words.ts';

/** Where concrete or wood round a fastener is too thin: across the stem, behind a hole from the side, at the edges of the sill. */
export function blockByConcrete(fitCase: FitCase, footprint: Footprint, around: Stretch, notes: FitNotes): void {
  const { piece } = fitCase;
  const wood = woodEdge(fitCase);
  if (wood?.wants !== undefined) lacksOnBoard(fitCase, 'wood-edge', wood.wants, notes);
  else if (piece && wood && wood.has < wood.asked) {
    const words = `${formatLength(wood.has, fitCase.layout.title.units)} of wood beside its ${wood.fastener}`;
    blockOnBoard(fitCase, 'wood-edge', words, notes);
  }
  if (footprint.mounted === 'through-the-sill') blockAcrossStem(fitCase, footprint, around, notes);
  if (footprint.mounted === 'on-the-face') {
    blockThroughStem(fitCase, footprint, around, notes);
    const below = holesBelowTop(fitCase);
    if (below !== undefined && below < footprint.edge) {
      const words = `${formatLength(below, fitCase.layout.title.units)} from its holes to the top of the concrete`;
      blockOnBoard(fitCase, 'concrete-edge', words, notes);
    }
  }
}

/** What is missing, in words. */
interface Wants {
  readonly wants: string;
}

// Wood

export interface WoodEdge {
  readonly wants?: never;
  /** From the middle of the fastener to the nearest edge of the sill board. */
  readonly has: Length;
  readonly asked: Length;
  readonly fastener: string;
  /** `undefined`: the connector's own report asks. */
  readonly limit: Limit | undefined;
}

/**
 * Wood beside a bolt, across the board; beside the screws of a side plate, up and down from them.
 * `undefined` where nothing asks for any.
 */
export function woodEdge(fitCase: FitCase): WoodEdge | Wants | undefined {
  const { connector, piece } = fitCase;
  if (!piece) return undefined;
  if (connector.kind === 'through-bolt') {
    const perDiameter = timesAsked(fitCase.layout.rules, 'wood-edge-per-diameter');
    const diameter = concreteFastener(fitCase)?.diameter;
    if (!perDiameter || diameter === undefined) return undefined;
    const wide = knownValue(piece.size?.wide);
    const offset = offsetOf(fitCase);
    if (wide === undefined) return { wants: `width of sill ${piece.name}` };
    if ('wants' in offset) return offset;
    const has = smaller(offset.value, minus(wide, offset.value));
    return { has, asked: timesDiameter(diameter, perDiameter.times), fastener: 'bolt', limit: perDiameter.limit };
  }
  const screw = connector.fasteners.find((each) => each.member === 'sill');
  if (screw?.edge === undefined) return undefined;
  const thick = knownValue(piece.size?.thick);
  const top = sillTop(piece);
  if (thick === undefined || top === undefined) return { wants: `thickness of sill ${piece.name}` };
  const points = holesInSill(connector);
  const { heights } = footprintOf(fitCase);
  if (points.length === 0 || !heights) {
    // Their height is not given: taken in the middle of one board, where there is most wood.
    return { has: half(thick), asked: screw.edge, fastener: screw.kind.replaceAll('-', ' '), limit: undefined };
  }
  const middle = Math.floor((heights.low + heights.high) / 2);
  const nearest = points.map(({ y }) => Math.min(middle + y, top - middle - y));
  return {
    has: nanometres(Math.min(...nearest)),
    asked: screw.edge,
    fastener: screw.kind.replaceAll('-', ' '),
    limit: undefined,
  };
}

export const concreteFastener = ({ connector }: FitCase): Fastener | undefined =>
  connector.fasteners.find((each) => each.member === 'concrete');

/** From the inner edge of the sill to the middle of a bolt: as the design says, else the middle of the board. */
function offsetOf({ offset, piece }: FitCase): { readonly value: Length } | Wants {
  const name = piece?.name ?? '';
  if (offset !== undefined) {
    const value = knownValue(offset);
    return value === undefined ? { wants: `offset of the bolt on sill ${name}` } : { value };
  }
  const wide = knownValue(piece?.size?.wide);
  return wide === undefined ? { wants: `width of sill ${name}` } : { value: half(wide) };
}

// Across the stem

export interface ConcreteAcross {
  /** From the inner face to the middle of the bolt. */
  readonly inner: Length;
  readonly outer: Length;
}

/** Concrete on either side of a bolt down into the stem, at a station; `undefined` where it can't be told. */
export function concreteAcross(fitCase: FitCase, station: Length): ConcreteAcross | undefined {
  const stretch = fitCase.wall.foundation.find(
    (each) => each.material === 'concrete' && each.from <= station && station <= each.to,
  );
  const inner = fromInnerFace(fitCase);
  if (!stretch?.thick || 'wants' in inner) return undefined;
  const reached = knownValue(profileAt(inner.profile, station));
  const thick = knownValue(profileAt(stretch.thick, station));
  return reached === undefined || thick === undefined ? undefined : { inner: reached, outer: minus(thick, reached) };
}

function fromInnerFace(fitCase: FitCase): { readonly profile: Profile } | Wants {
  const { piece } = fitCase;
  if (!piece?.setBack) return { wants: `set-back of sill ${piece?.name ?? ''}` };
  const offset = offsetOf(fitCase);
  if ('wants' in offset) return offset;
  return { profile: changed(piece.setBack, (value) => plus(value, offset.value)) };
}

function blockAcrossStem(fitCase: FitCase, footprint: Footprint, around: Stretch, notes: FitNotes): void {
  const { piece, layout } = fitCase;
  if (!piece || footprint.edge <= 0) return;
  const inner = fromInnerFace(fitCase);
  if ('wants' in inner) {
    lacksOnBoard(fitCase, 'concrete-edge', inner.wants, notes);
    return;
  }
  const { edge } = footprint;
  const words = (face: 'inner' | 'outer', profile: Profile, at: Length): string => {
    const has = knownValue(profileAt(profile, at));
    return `${has === undefined ? '' : `${formatLength(has, layout.title.units)} `}from the bolt to the ${face} face of the concrete`;
  };
  for (const run of concreteBelow(fitCase, around)) {
    const faces: (readonly ['inner' | 'outer', Profile])[] = [['inner', inner.profile]];
    if (run.stretch.thick) faces.push(['outer', difference(run.stretch.thick, inner.profile)]);
    else lacksThickness(fitCase, run, 'concrete-edge', notes);
    for (const [face, profile] of faces) {
      const found = runsOf(profile, run, (value) => value >= edge);
      for (const each of found.failing) {
        notes.block({
          ...opened(each),
          reason: 'concrete-edge',
          thing: face === 'inner' ? piece.id : run.stretch.id,
          span: face === 'inner' ? piece.source : run.stretch.source,
          words: words(face, profile, each.from),
          service: undefined,
        });
      }
      // An unknown set-back has been said at the inner face.
      const read = face === 'outer' ? run.stretch.thick : profile;
      for (const each of read ? runsOf(read, run, () => true).unknown : []) {
        const wants = face === 'inner' ? `set-back of sill ${piece.name}` : thicknessWords(fitCase, run.stretch);
        const of = face === 'inner' ? piece : run.stretch;
        notes.lacks({ ...opened(each), reason: 'concrete-edge', wants, thing: of.id, span: of.source });
      }
    }
  }
}

// From the side

/** Depth of a hole into the side of the stem; `undefined` where the hardware gives none. */
export function holeDepth(fitCase: FitCase): Length | undefined {
  const fastener = concreteFastener(fitCase);
  const embed = knownValue(fitCase.embed) ?? fastener?.embed;
  const depths = [fastener?.holeDepth, embed].flatMap((each) => (each === undefined ? [] : [each]));
  return depths.length === 0 ? undefined : depths.reduce(larger);
}

/** The thickness of the stem that a hole from the side wants: its depth and the cover behind it. */
export function stemForHole(fitCase: FitCase): Length | undefined {
  const depth = holeDepth(fitCase);
  const cover = asked(fitCase.layout.rules, 'cover-behind-hole');
  return depth === undefined || cover === undefined ? undefined : plus(depth, cover);
}

function blockThroughStem(fitCase: FitCase, footprint: Footprint, around: Stretch, notes: FitNotes): void {
  const wanted = stemForHole(fitCase);
  if (wanted === undefined) return;
  const { units } = fitCase.layout.title;
  const left = Math.min(0, ...footprint.holes.map((hole) => hole.x));
  const right = Math.max(0, ...footprint.holes.map((hole) => hole.x));
  const centres = (run: Stretch): Stretch => ({
    from: nanometres(run.from - right - 1),
    to: nanometres(run.to - left + 1),
  });
  for (const run of concreteBelow(fitCase, around)) {
    const { thick } = run.stretch;
    if (!thick) {
      lacksThickness(fitCase, run, 'through-stem', notes);
      continue;
    }
    const found = runsOf(thick, run, (value) => value >= wanted);
    for (const each of found.failing) {
      const has = knownValue(profileAt(thick, each.from));
      notes.block({
        ...centres(each),
        reason: 'through-stem',
        thing: run.stretch.id,
        span: run.stretch.source,
        words: `${has === undefined ? '' : `${formatLength(has, units)} `}thick foundation ${stretchWords(run.stretch, units)}`,
        service: undefined,
      });
    }
    for (const each of found.unknown) {
      const wants = thicknessWords(fitCase, run.stretch);
      notes.lacks({
        ...centres(each),
        reason: 'through-stem',
        wants,
        thing: run.stretch.id,
        span: run.stretch.source,
      });
    }
  }
}

/** From the highest hole in concrete up to the top of it, where the hardware says where its holes are. */
export function holesBelowTop(fitCase: FitCase): Length | undefined {
  const given = fitCase.connector.holes.some((each) => each.member === 'concrete');
  if (!given) return undefined;
  const highs = footprintOf(fitCase).holes.flatMap((hole) => (hole.heights ? [hole.heights.high] : []));
  return highs.length === 0 ? undefined : nanometres(-Math.max(...highs));
}

// Shared

interface ConcreteRun extends Stretch {
  readonly stretch: FoundationStretch;
}

/** The stretches of concrete below the board, or along the wall where no board lies. What is not concrete is told elsewhere. */
function concreteBelow({ wall, piece }: FitCase, around: Stretch): readonly ConcreteRun[] {
  const below = piece ?? around;
  return wall.foundation
    .filter((each) => each.material === 'concrete' && each.from <= below.to && each.to >= below.from)
    .map((stretch) => ({ from: larger(stretch.from, below.from), to: smaller(stretch.to, below.to), stretch }));
}

const thicknessWords = ({ wall, layout }: FitCase, stretch: FoundationStretch): string =>
  `thickness of the foundation on wall ${wall.name}, ${stretchWords(stretch, layout.title.units)}`;

function lacksThickness(fitCase: FitCase, run: ConcreteRun, reason: BlockReason, notes: FitNotes): void {
  const { stretch } = run;
  notes.lacks({
    ...opened(run),
    reason,
    wants: thicknessWords(fitCase, stretch),
    thing: stretch.id,
    span: stretch.source,
  });
}

function blockOnBoard({ piece }: FitCase, reason: BlockReason, words: string, notes: FitNotes): void {
  if (!piece) return;
  notes.block({ ...opened(piece), reason, thing: piece.id, span: piece.source, words, service: undefined });
}

function lacksOnBoard({ piece }: FitCase, reason: BlockReason, wants: string, notes: FitNotes): void {
  if (piece) notes.lacks({ ...opened(piece), reason, wants, thing: piece.id, span: piece.source });
}

/** One nanometre more on either side, so that an open stretch takes in its ends. */
const opened = ({ from, to }: Stretch): Stretch => ({ from: nanometres(from - 1), to: nanometres(to + 1) });

function changed(profile: Profile, change: (value: Length) => Length): Profile {
  return {
    points: profile.points.map(({ station, value }) => ({
      station,
      value: value.kind === 'known' ? { ...value, value: change(value.value) } : value,
    })),
  };
}

/** `a` less `b` at every station where either has a reading; unknown where one of them is. */
function difference(a: Profile, b: Profile): Profile {
  const stations = [...new Set([...a.points, ...b.points].map((point) => point.station))].sort((x, y) => x - y);
  return {
    points: stations.map((station) => {
      const left = profileAt(a, station);
      const right = profileAt(b, station);
      const value: Reading<Length> =
        left.kind === 'unknown'
          ? left
          : right.kind === 'unknown'
            ? right
            : { ...left, value: minus(left.value, right.value) };
      return { station, value };
    }),
  };
}
