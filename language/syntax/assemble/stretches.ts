import type { NameReference, Stretch, Tags } from '../../domain/model/layout.ts';
import { noTags } from '../../domain/model/layout.ts';
import type { Profile, ProfilePoint } from '../../domain/model/reading.ts';
import { profileAt, withEnds } from '../../domain/model/reading.ts';
import type { SourceSpan } from '../../domain/model/source.ts';
import type { Length } from '../../domain/units/length.ts';
import { larger, nanometres, smaller, zero } from '../../domain/units/length.ts';
import type { LineOf, VaryingDraft, WallDraft } from '../drafts.ts';
import type { StationFinder } from './stations.ts';

/** A stretch of one kind with every word that holds there: its own line over whole-wall lines over `typical`. */
export interface MergedStretch<Words> extends Stretch {
  readonly name: NameReference | undefined;
  readonly words: Words;
  readonly tags: Tags;
  readonly source: SourceSpan;
  readonly placeSource: SourceSpan | undefined;
}

/**
 * @param fill whether whole-wall words also stand where no line with a stretch does (foundation: yes; sill boards: no)
 * @param overlap told of each pair that overlaps and gives a word twice
 * @param unplaced told of each line whose place cannot be found; of none for what `typical` says of a wall without a length
 */
export function mergeStretches<Words extends object>(input: {
  readonly lines: readonly LineOf<Words>[];
  readonly typical: Words | undefined;
  readonly length: Length | undefined;
  readonly finder: StationFinder;
  readonly headingSource: SourceSpan;
  readonly fill: boolean;
  readonly overlap: (earlier: LineOf<Words>, later: LineOf<Words>) => void;
  readonly unplaced?: (line: LineOf<Words> | undefined) => void;
}): readonly MergedStretch<Words>[] {
  const { lines, typical, length, finder } = input;
  const spanned: { readonly line: LineOf<Words>; readonly stretch: Stretch }[] = [];
  let whole: Words = (typical ?? {}) as Words;
  let wholeLine: LineOf<Words> | undefined;
  // Behind a line whose end is not known, one written `to X` begins nobody knows where.
  let previousEnd: Length | undefined = zero;
  for (const line of lines) {
    if (!line.span) {
      whole = { ...whole, ...line.words };
      wholeLine = line;
      continue;
    }
    const stretch = finder.stretch(line.span, previousEnd);
    previousEnd = stretch?.to;
    if (!stretch) {
      input.unplaced?.(line);
      continue;
    }
    spanned.push({ line, stretch });
  }
  spanned.sort((a, b) => a.stretch.from - b.stretch.from);
  const merged: MergedStretch<Words>[] = [];
  const filler = (from: Length, to: Length): void => {
    if (from >= to) return;
    if (!wholeLine && (spanned.length > 0 || !typical || Object.keys(typical).length === 0)) return;
    merged.push({
      from,
      to,
      name: wholeLine?.name,
      words: whole,
      tags: wholeLine?.tags ?? noTags,
      source: wholeLine?.source ?? input.headingSource,
      placeSource: undefined,
    });
  };
  let reached = zero;
  let last: (typeof spanned)[number] | undefined;
  for (const each of spanned) {
    if (input.fill) filler(reached, each.stretch.from);
    if (last && each.stretch.from < last.stretch.to && sharesWord(last.line.words, each.line.words)) {
      input.overlap(last.line, each.line);
    }
    merged.push({
      ...each.stretch,
      name: each.line.name,
      words: { ...whole, ...each.line.words },
      tags: each.line.tags,
      source: each.line.source,
      placeSource: each.line.span?.source,
    });
    if (!last || each.stretch.to > last.stretch.to) last = each;
    reached = larger(reached, each.stretch.to);
  }
  const oneForTheWhole = !lines.some((line) => line.span);
  if (length !== undefined && (input.fill || oneForTheWhole)) filler(reached, length);
  if (length === undefined && oneForTheWhole && Object.keys(whole).length > 0) input.unplaced?.(wholeLine);
  return merged;
}

function sharesWord(a: object, b: object): boolean {
  return Object.keys(a).some((key) => key in b);
}

/** A value over a stretch as a profile: level, or straight from the left end to the right end. */
export function profileOver(value: VaryingDraft | undefined, stretch: Stretch): Profile | undefined {
  if (!value) return undefined;
  const { first, last } = value;
  const start = { station: stretch.from, value: first };
  // Nearly all are level, which one point says: of the ends of a long house that is a third of a megabyte.
  const isLevel = last === undefined || last === first || stretch.to <= stretch.from;
  return { points: isLevel ? [start] : [start, { station: stretch.to, value: last }] };
}

/** Adds a reading at one station: straight lines run through it. */
export function withPoint(profile: Profile | undefined, point: ProfilePoint): Profile {
  const points = (profile?.points ?? []).filter((each) => each.station !== point.station);
  return { points: [...points, point].sort((a, b) => a.station - b.station) };
}

/** Puts a level value over a stretch; outside it the profile stays as it was. */
export function withLevel(profile: Profile | undefined, stretch: Stretch, value: ProfilePoint['value']): Profile {
  if (!profile) return { points: [{ station: stretch.from, value }] };
  // One nanometre apart: a step, told from a slope by no tape.
  const before = nanometres(stretch.from - 1);
  const after = nanometres(stretch.to + 1);
  const points: ProfilePoint[] = [
    ...profile.points.filter((point) => point.station < stretch.from),
    { station: before, value: profileAt(profile, before) },
    { station: stretch.from, value },
    { station: stretch.to, value },
    { station: after, value: profileAt(profile, after) },
    ...profile.points.filter((point) => point.station > stretch.to),
  ];
  const unique = new Map(points.map((point) => [point.station, point]));
  return { points: [...unique.values()].sort((a, b) => a.station - b.station) };
}

/** A profile with the spot readings that lie on its stretch: `set-back 1/2" at 3'-0"`, `grade 4" from 2'-0" to 6'-0"`. */
export function withReadings(
  profile: Profile | undefined,
  key: WallDraft['readings'][number]['key'],
  over: Stretch,
  draft: WallDraft,
  finder: StationFinder,
): Profile | undefined {
  const readings = draft.readings.filter((reading) => reading.key === key);
  if (readings.length === 0) return profile;
  let made = withEnds(profile, over);
  for (const { where, value } of readings) {
    for (const { stretch } of finder.places(where)) {
      const here = stretch && within(stretch, over);
      if (!here) continue;
      made = here.from === here.to ? withPoint(made, { station: here.from, value }) : withLevel(made, here, value);
    }
  }
  return made;
}

function within(stretch: Stretch, over: Stretch): Stretch | undefined {
  if (stretch.from === stretch.to) return stretch.from >= over.from && stretch.from <= over.to ? stretch : undefined;
  return overlapOf(stretch, over);
}

export function overlapOf(a: Stretch, b: Stretch): Stretch | undefined {
  const from = larger(a.from, b.from);
  const to = smaller(a.to, b.to);
  return from < to ? { from, to } : undefined;
}
