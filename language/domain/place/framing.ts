import { storeysOver } from '../fit/storeys.ts';
import type { ThingEdit } from '../fixes/edit.ts';
import { tapeStep } from '../fixes/tape-step.ts';
import type { Connector } from '../hardware/connector.ts';
import { bayCentre, baysBetween, type JoistBay, joistsOnWall, namesBay } from '../model/joists.ts';
import type { Layout, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import { leastLength, mostLength } from '../rulesets/compare.ts';
import { type ConditionFact, limitFor } from '../rulesets/limit-for.ts';
import type { Limit } from '../rulesets/rule-set.ts';
import { type Length, larger, nanometres, roundTo, zero } from '../units/length.ts';

/** Framing angles and blocks that the floor over a wall still wants. */
export interface FramingProposal {
  readonly wall: Wall;
  /** `undefined`: none wanted, or none can be proposed. */
  readonly angles:
    | {
        readonly mark: string;
        readonly connector: Connector;
        readonly bays: readonly number[];
        readonly stations: readonly Length[];
      }
    | undefined;
  /** Bays to block. */
  readonly blocks: readonly number[];
  /** Bays too narrow for an angle and a hammer. */
  readonly tooNarrow: readonly number[];
  /** Between these angles the gap stays wider than allowed: no bay between takes one. */
  readonly gapsLeft: readonly { readonly from: Length; readonly to: Length }[];
  /** What nobody recorded, or the rules leave open; without it nothing is proposed of that part. */
  readonly lacking: readonly string[];
}

/**
 * For a wall that joists end on: the fewest angles that keep the spacing that the rules ask, with one in every bay over a
 * panel, the first and the last as near the corners as a bay takes one; and the blocks that are missing. What the design
 * has already counts. `undefined` where no joist ends on the wall or nothing is wanted.
 */
export function framingFor(layout: Layout, wall: Wall): FramingProposal | undefined {
  if (wall.noWork) return undefined;
  const { joists, lacking: unrecorded } = joistsOnWall(wall);
  if (joists.length < 2 && unrecorded.length === 0) return undefined;
  const lacking = [...unrecorded];
  const bays = baysBetween(joists);
  const angles = unrecorded.length > 0 ? noAngles : anglesFor(layout, wall, bays, lacking);
  const blocks = unrecorded.length > 0 ? [] : blocksFor(layout, wall, bays, lacking);
  const { proposal, tooNarrow, gapsLeft } = angles;
  if (!proposal && blocks.length === 0 && lacking.length === 0 && gapsLeft.length === 0) return undefined;
  return { wall, angles: proposal, blocks, tooNarrow, gapsLeft, lacking: [...new Set(lacking)] };
}

export function framingEdits({ wall, angles, blocks }: FramingProposal): readonly ThingEdit[] {
  return [
    ...(blocks.length === 0 ? [] : [{ kind: 'insert-blocking' as const, wall: wall.id, bays: blocks }]),
    ...(angles === undefined
      ? []
      : [
          {
            kind: 'insert-angles' as const,
            wall: wall.id,
            mark: angles.mark,
            connector: angles.connector.name,
            stations: angles.stations,
          },
        ]),
  ];
}

interface AnglesWanted {
  readonly proposal: FramingProposal['angles'];
  readonly tooNarrow: readonly number[];
  readonly gapsLeft: FramingProposal['gapsLeft'];
}
const noAngles: AnglesWanted = { proposal: undefined, tooNarrow: [], gapsLeft: [] };

function anglesFor(layout: Layout, wall: Wall, bays: readonly JoistBay[], lacking: string[]): AnglesWanted {
  const spacing = strictestLength(layout, wall, 'angle-spacing', 'most', lacking);
  const connector = angleOf(layout, wall);
  if (spacing === undefined || connector === undefined) return noAngles;
  for (const run of wall.angles) lacking.push(...run.lacking);
  if (wall.angles.some((run) => run.lacking.length > 0)) return noAngles;
  if (connector.body === undefined) {
    lacking.push(`body of connector ${connector.name}`);
    return noAngles;
  }
  // Room for the angle, and for the hammer beside it: the larger of the two that are stated.
  const { wide } = connector.body;
  const need = larger(wide, strictestLength(layout, wall, 'bay-clear', 'least', lacking) ?? zero);
  const step = tapeStep(layout.title.units);
  const spots = bays
    .map((bay) => ({ bay: bay.number, station: roundTo(bayCentre(bay), step), clear: clearOf(bay) }))
    .filter(({ station }) => liesOnSill(wall, station, wide));
  const usable = spots.filter(({ clear }) => clear >= need);
  const tooNarrow = spots.filter(({ clear }) => clear < need).map(({ bay }) => bay);
  const standing = wall.angles.flatMap((run) => run.stations);
  const isTaken = (spot: Spot) => standing.some((station) => Math.abs(station - spot.station) < need);
  const free = usable.filter((spot) => !isTaken(spot));

  const overPanel = free.filter(({ station }) => isOverPanel(wall, station));
  const ends = [free[0], free.at(-1)].flatMap((spot) => (spot === undefined ? [] : [spot]));
  const outermost = ends.filter(
    ({ station }) => standing.every((other) => station < other) || standing.every((other) => station > other),
  );
  const chosen = new Map<Length, Spot>([...overPanel, ...outermost].map((spot) => [spot.station, spot]));
  const gapsLeft: { from: Length; to: Length }[] = [];
  const posts = [...new Set([...standing, ...chosen.keys()])].sort((a, b) => a - b);
  for (const [index, end] of posts.entries()) {
    let at = posts[index - 1];
    // As far on as the spacing reaches, again and again: no other way takes fewer.
    while (at !== undefined && end - at > spacing) {
      const from: Length = at;
      const next = free.findLast(({ station }) => station > from && station < end && station - from <= spacing);
      const beyond = next ?? free.find(({ station }) => station > from && station < end);
      // Where no sill lies, as at a chimney, there is nothing to tie the floor to.
      const isOverSill = spots.some(({ station }) => station > from && station < (beyond?.station ?? end));
      if (next === undefined && isOverSill) gapsLeft.push({ from, to: beyond?.station ?? end });
      if (beyond) chosen.set(beyond.station, beyond);
      at = beyond?.station;
    }
  }
  const placed = [...chosen.values()].sort((a, b) => a.station - b.station);
  const proposal =
    placed.length === 0
      ? undefined
      : {
          mark: freshMark(layout, wall),
          connector,
          bays: placed.map(({ bay }) => bay),
          stations: placed.map(({ station }) => station),
        };
  return { proposal, tooNarrow, gapsLeft };
}

/** All of the angle stands on one board: past its end half of the nails would find nothing. */
function liesOnSill(wall: Wall, station: Length, wide: Length): boolean {
  return wall.pieces.some(({ from, to }) => from <= station - wide / 2 && station + wide / 2 <= to);
}

interface Spot {
  readonly bay: number;
  readonly station: Length;
  readonly clear: Length;
}

function blocksFor(layout: Layout, wall: Wall, bays: readonly JoistBay[], lacking: string[]): readonly number[] {
  const rims = wall.rims.filter(({ seen }) => seen !== 'absent');
  const isSeen = ({ seen, size, nails }: (typeof rims)[number]): boolean =>
    seen === 'seen' || size !== undefined || (nails !== undefined && typeof nails === 'object');
  const isSilent =
    wall.rims.length === 0 && wall.blocking.length === 0 && !wall.absent.has('rim') && !wall.absent.has('blocking');
  if (isSilent || rims.some((rim) => !isSeen(rim)) || wall.blocking.some((line) => line.bays.kind === 'unknown')) {
    lacking.push(`rim or blocking of wall ${wall.name}`);
    return [];
  }
  const share = strictestShare(layout, wall, 'blocked-bays', lacking);
  const overPanels = strictestShare(layout, wall, 'blocked-over-panel', lacking);
  if (share === undefined && overPanels === undefined) return [];
  // A rim joist holds the joists upright by itself, and where no hammer fits two joists stand together.
  const room = strictestLength(layout, wall, 'bay-clear', 'least', lacking) ?? zero;
  const real = bays.filter(
    (bay) => clearOf(bay) >= room && !rims.some(({ from, to }) => from <= bay.left.station && bay.right.station <= to),
  );
  const named = wall.blocking.map((line) => namesBay(line.bays));
  const blocked = new Set(real.filter((bay) => named.some((names) => names(bay.number))).map(({ number }) => number));
  const added: number[] = [];
  const add = (bay: JoistBay): void => {
    if (blocked.has(bay.number)) return;
    blocked.add(bay.number);
    added.push(bay.number);
  };
  if (overPanels !== undefined && overPanels > 0) {
    for (const bay of real) {
      if (
        wall.panels.some(({ stretch }) => stretch && bay.left.station < stretch.to && stretch.from < bay.right.station)
      )
        add(bay);
    }
  }
  if (share !== undefined && share >= 1) for (const bay of real) add(bay);
  else if (share !== undefined && share > 0) {
    // Of a share of one half every other bay: so many neighbours may stay open, and no more.
    const open = Math.floor(1 / share + 1e-9) - 1;
    let run = 0;
    for (const [index, bay] of real.entries()) {
      const isNext = real[index - 1]?.number === bay.number - 1;
      run = blocked.has(bay.number) ? 0 : (isNext ? run : 0) + 1;
      if (run <= open) continue;
      add(bay);
      run = 0;
    }
  }
  return added.sort((a, b) => a - b);
}

function isOverPanel(wall: Wall, station: Length): boolean {
  return wall.panels.some(({ stretch }) => stretch !== undefined && stretch.from <= station && station <= stretch.to);
}

function clearOf({ left, right }: JoistBay): Length {
  const wood = (knownValue(left.size?.thick) ?? 0) + (knownValue(right.size?.thick) ?? 0);
  return nanometres(right.station - left.station - Math.ceil(wood / 2));
}

/** What the wall has already, else the user's own, else the shipped one; of several the first by name. */
function angleOf(layout: Layout, wall: Wall): Connector | undefined {
  const used = wall.angles.find((run) => run.connector)?.connector;
  if (used) return used;
  const all = [...layout.connectors.values()]
    .filter(({ kind }) => kind === 'framing-angle')
    .sort((a, b) => (a.name < b.name ? -1 : 1));
  return all.find((each) => layout.sourceMap.locate(each.source) !== undefined) ?? all[0];
}

function freshMark(layout: Layout, wall: Wall): string {
  const taken = new Set(layout.walls.flatMap((each) => each.angles.map(({ name }) => name.toLowerCase())));
  const prefix = `${wall.name.replace(/[^\p{L}\p{N}_]+/gu, '-')}-A`;
  for (let number = 1; ; number += 1) {
    if (!taken.has(`${prefix}${number}`.toLowerCase())) return `${prefix}${number}`;
  }
}

function limitsOver(layout: Layout, wall: Wall, subject: string, lacking: string[]): readonly Limit[] {
  const whole = { from: zero, to: wall.length ?? zero };
  return storeysOver(layout, wall, whole).flatMap((reading) => {
    const storeys: ConditionFact =
      reading?.kind === 'known'
        ? { kind: 'number', number: reading.value }
        : { kind: 'unknown', wants: `storeys above wall ${wall.name}` };
    const answer = limitFor(layout.rules, subject, { storeys });
    if (answer.kind === 'depends') lacking.push(answer.wants);
    return answer.kind === 'limit' ? [answer.limit] : [];
  });
}

function strictestLength(
  layout: Layout,
  wall: Wall,
  subject: string,
  side: 'least' | 'most',
  lacking: string[],
): Length | undefined {
  const values = limitsOver(layout, wall, subject, lacking).flatMap(
    (limit) => (side === 'least' ? leastLength(limit) : mostLength(limit))?.reach ?? [],
  );
  if (values.length === 0) return undefined;
  return values.reduce((a, b) => ((side === 'least' ? b > a : b < a) ? b : a));
}

function strictestShare(layout: Layout, wall: Wall, subject: string, lacking: string[]): number | undefined {
  const shares = limitsOver(layout, wall, subject, lacking).flatMap(({ bounds }) =>
    bounds.flatMap(({ comparison, value }) =>
      comparison === 'at-least' && value.kind === 'quantity' && value.quantity.dimension === 'share'
        ? [value.quantity.amount]
        : [],
    ),
  );
  return shares.length === 0 ? undefined : Math.max(...shares);
}
