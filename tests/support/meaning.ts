import type { Layout, Stretch } from '../../language/domain/model/layout.ts';
import type { Profile, ProfilePoint, Reading } from '../../language/domain/model/reading.ts';
import { profileAt } from '../../language/domain/model/reading.ts';
import type { Length } from '../../language/domain/units/length.ts';

/**
 * What a layout says, without where and how it is written: two texts mean the same when these are equal.
 * Left out: places in the text, spelling of values, and the lists of unmeasured values, which count places in the text
 * (each value's quality stays with the value). What the tool ships is the same for all, so its names stand for it.
 */
export function meaningOf(layout: Layout): unknown {
  const isOwn = ({ source }: { readonly source: Parameters<Layout['sourceMap']['locate']>[0] }): boolean =>
    layout.sourceMap.locate(source) !== undefined;
  const {
    sourceMap: _map,
    assumptions: _a,
    unknowns: _u,
    questions,
    connectors,
    rules,
    prices,
    walls,
    ...rest
  } = layout;
  return plain({
    ...rest,
    walls: walls.map((wall) => ({
      ...wall,
      workBlocks: wall.workBlocks.flatMap((block) => block.tags?.notes ?? []),
      // What is new is said of the board itself, with what it keeps of the old one.
      remedies: wall.remedies.map((remedy) =>
        'what' in remedy && remedy.what === 'sill' && remedy.verb === 'replace'
          ? { ...remedy, size: undefined, treated: undefined, species: undefined }
          : remedy,
      ),
    })),
    // A place that cannot be found is as unknown as one that nobody wrote down.
    record: layout.record.map((day) => ({
      ...day,
      events: day.events.map((event) =>
        event.kind === 'installed' && event.place.kind === 'at' && event.place.station === undefined
          ? { ...event, place: { kind: 'unknown' } }
          : event,
      ),
    })),
    girders: layout.girders.map((girder) => ({
      ...girder,
      workBlocks: (girder.workBlocks ?? []).flatMap((block) => block.tags?.notes ?? []),
    })),
    questions: questions.map(({ text, about }) => `${about ?? 'house'}: ${text}`).sort(),
    connectors: [...connectors.values()].filter(isOwn).sort((a, b) => (a.name < b.name ? -1 : 1)),
    prices: prices.filter(isOwn),
    ruleSets: rules.chosen.map((ruleSet) => (isOwn(ruleSet) ? ruleSet : ruleSet.name)),
  });
}

/** Of `connector` only the name counts: it is described once, with the connectors. */
function plain(value: unknown, within?: Stretch): unknown {
  if (typeof value !== 'object' || value === null) return value;
  if (value instanceof Map)
    return Object.fromEntries([...value].map(([key, each]) => [String(key), plain(each)]).sort());
  if (value instanceof Set) return [...value].sort();
  if (Array.isArray(value)) return value.map((each) => plain(each, within));
  if (isProfile(value)) return within ? bends(value, within) : plain(value.points);
  const stretch = isStretch(value) ? value : undefined;
  const entries = Object.entries(value).flatMap(([key, each]): [string, unknown][] => {
    if (each === undefined || key === 'typed' || key === 'source' || key.endsWith('Source')) return [];
    if (key === 'connector' || key === 'newWasher') return [[key, (each as { readonly name: string }).name]];
    return [[key, plain(each, stretch)]];
  });
  return Object.fromEntries(entries.sort(([a], [b]) => (a < b ? -1 : 1)));
}

const isProfile = (value: object): value is Profile =>
  'points' in value && Array.isArray(value.points) && Object.keys(value).length === 1;
const isStretch = (value: object): value is Stretch =>
  'from' in value && 'to' in value && typeof value.from === 'number' && typeof value.to === 'number';

/** A profile by the points where it bends, within its stretch. */
function bends(profile: Profile, { from, to }: Stretch): unknown {
  const kept: ProfilePoint[] = [];
  const inside = profile.points.filter(({ station }) => station > from && station < to);
  const all = [
    { station: from, value: profileAt(profile, from) },
    ...inside,
    ...(to > from ? [{ station: to, value: profileAt(profile, to) }] : []),
  ];
  for (const [index, point] of all.entries()) {
    const before = kept[kept.length - 1];
    const after = all[index + 1];
    if (before && after && sameReading(point.value, profileAt({ points: [before, after] }, point.station))) continue;
    kept.push(point);
  }
  return kept.map(({ station, value }) => [station, plain(value)]);
}

function sameReading(a: Reading<Length>, b: Reading<Length>): boolean {
  if (a.kind === 'unknown' || b.kind === 'unknown') return a.kind === b.kind;
  return a.quality === b.quality && Math.abs(a.value - b.value) <= 1;
}
