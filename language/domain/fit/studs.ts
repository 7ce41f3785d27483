import type { CrippleStretch, Obstruction, OpeningKind, ThingId, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { recentOnly } from '../recent-only.ts';
import type { Length } from '../units/length.ts';
import { NANOMETRES_PER_INCH, nanometres } from '../units/length.ts';

/** One stud as it stands: its centre, and half its width along the wall. */
export interface Stud {
  readonly centre: Length;
  readonly halfWidth: Length;
  readonly role: 'common' | 'jamb' | 'added';
  /** The cripple wall, the opening at whose jamb it stands, or the stud's own line. */
  readonly thing: ThingId;
}

export interface Studs {
  /** In order of station. */
  readonly studs: readonly Stud[];
  /** Where studs may stand that nobody recorded; whole stretches of wall, or the jambs of openings. */
  readonly lacking: readonly {
    readonly from: Length;
    readonly to: Length;
    readonly wants: string;
    readonly thing: ThingId;
  }[];
}

const OPENINGS: ReadonlySet<string> = new Set<OpeningKind>(['vent', 'window', 'door', 'hatch', 'chimney']);
export const isOpening = (obstruction: Obstruction): boolean => OPENINGS.has(obstruction.kind);

const known = recentOnly<Wall, Studs>();

/**
 * The studs of a wall's cripple walls. A stud on the grid that falls into an opening is taken as cut; where trimmers are said
 * to stand at every opening, one stands outside each jamb, its centre half a stud away.
 */
export function studsOf(wall: Wall): Studs {
  const before = known.get(wall);
  if (before) return before;
  const studs: Stud[] = [];
  const lacking: Studs['lacking'][number][] = [];
  const openings = wall.obstructions.filter((each) => isOpening(each) && cutsCrippleWall(each)).toSorted(byPlace);
  for (const cripple of wall.cripples) addStudsOf(cripple, wall, openings, studs, lacking);
  for (const stud of wall.studs) {
    const size = stud.size ?? crippleAt(wall, stud.station)?.studSize;
    const width = knownValue(size?.thick);
    if (width === undefined) {
      lacking.push({
        from: stud.station,
        to: stud.station,
        wants: `size of the stud at its station on wall ${wall.name}`,
        thing: stud.id,
      });
      continue;
    }
    studs.push({ centre: stud.station, halfWidth: halfOf(width), role: 'added', thing: stud.id });
  }
  const result = { studs: studs.sort((a, b) => a.centre - b.centre), lacking };
  known.set(wall, result);
  return result;
}

function addStudsOf(
  cripple: CrippleStretch,
  wall: Wall,
  openings: readonly Obstruction[],
  studs: Stud[],
  lacking: Studs['lacking'][number][],
): void {
  const width = knownValue(cripple.studSize?.thick);
  const lacks = (wants: string): void => {
    lacking.push({
      from: cripple.from,
      to: cripple.to,
      wants: `${wants} of the cripple wall on wall ${wall.name}`,
      thing: cripple.id,
    });
  };
  if (width === undefined) {
    lacks('stud size');
    return;
  }
  const halfWidth = halfOf(width);
  const inside = openings.flatMap((each) => {
    const stretch = each.stretch;
    return stretch && stretch.to > cripple.from && stretch.from < cripple.to ? [{ ...stretch, thing: each.id }] : [];
  });

  const spaced = knownValue(cripple.spaced);
  const first = cripple.first === undefined ? cripple.from : knownValue(cripple.first);
  // No stud wall is framed closer than an inch; a slip of the pen must not make a million studs.
  if (spaced === undefined || spaced < NANOMETRES_PER_INCH) lacks('stud spacing');
  else if (first === undefined) lacks('first stud');
  else {
    // `first` is a station of the wall: a stretch further right falls in with the same row.
    let next = 0;
    for (
      let count = Math.max(0, Math.ceil((cripple.from - first) / spaced));
      first + count * spaced <= cripple.to;
      count += 1
    ) {
      const centre = nanometres(first + count * spaced);
      while ((inside[next]?.to ?? Number.POSITIVE_INFINITY) <= centre) next += 1;
      const opening = inside[next];
      if (opening && opening.from < centre) continue;
      studs.push({ centre, halfWidth, role: 'common', thing: cripple.id });
    }
  }

  for (const opening of inside) {
    const jambs = [nanometres(opening.from - halfWidth), nanometres(opening.to + halfWidth)].filter(
      (centre) => centre >= cripple.from && centre <= cripple.to,
    );
    for (const centre of jambs) {
      if (cripple.trimmers === 'every-opening') studs.push({ centre, halfWidth, role: 'jamb', thing: opening.thing });
      else if (cripple.trimmers === 'unknown') {
        lacking.push({
          from: nanometres(centre - halfWidth),
          to: nanometres(centre + halfWidth),
          wants: `studs at the openings of the cripple wall on wall ${wall.name}`,
          thing: cripple.id,
        });
      }
    }
  }
}

/** An opening whose zone lies in the concrete alone does not cut the wall above; one without a zone does. */
function cutsCrippleWall({ zone }: Obstruction): boolean {
  return !(zone && zone.datum === 'top' && zone.side === 'below');
}

function crippleAt(wall: Wall, station: Length): CrippleStretch | undefined {
  return wall.cripples.find((each) => each.from <= station && station <= each.to);
}

function byPlace(a: Obstruction, b: Obstruction): number {
  return (a.stretch?.from ?? 0) - (b.stretch?.from ?? 0);
}

/** Rounded up: half a stud is never less than it is. */
const halfOf = (width: Length): Length => nanometres(Math.ceil(width / 2));
