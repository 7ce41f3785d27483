import type { AnchorFacts, ObstructionFacts, WallFacts } from './facts.ts';
import { FOOT, INCH } from './facts.ts';
import type { HouseFrame } from './foundation.ts';
import { inches } from './foundation.ts';
import type { Random } from './random.ts';

interface Kind {
  readonly kind: string;
  readonly prefix: string;
  /** Inches. */
  readonly wide: readonly [number, number];
  /** Inches that it keeps from the centre of an anchor. */
  readonly clear: number;
  readonly words: readonly string[];
  readonly standsOff: boolean;
  /** Feet from the ends of the wall, since its working space reaches round corners. */
  readonly fromEnds: number;
}
const thing = (kind: string, prefix: string, wide: readonly [number, number], more: Partial<Kind> = {}): Kind => ({
  kind,
  prefix,
  wide,
  clear: 9,
  words: [],
  standsOff: false,
  fromEnds: 0,
  ...more,
});

const kinds: readonly [Kind, ...Kind[]] = [
  thing('vent', 'V', [8, 16]),
  thing('vent', 'V', [16, 16]),
  thing('window', 'W', [20, 36], { words: ['reaches-sill'] }),
  thing('hatch', 'H', [18, 24]),
  thing('pipe', 'P', [1, 5], { words: ['copper', 'movable'], standsOff: true }),
  thing('gas-pipe', 'GP', [1, 2], { clear: 13, words: ['live', 'both-sides'], standsOff: true }),
  thing('stack', 'S', [4, 8], { words: ['cast-iron', 'fixed'], standsOff: true }),
  thing('conduit', 'CR', [1, 2], { clear: 18, words: ['live', 'riser'] }),
  thing('duct', 'D', [6, 14], { words: ['movable'], standsOff: true }),
  thing('flue', 'FL', [4, 6], { clear: 14, words: ['single-wall', 'double-wall'], standsOff: true }),
  thing('electrical-panel', 'EP', [12, 16], { clear: 24, words: ['live'], fromEnds: 6 }),
  thing('meter', 'M', [6, 10], { clear: 20, words: ['fixed'], fromEnds: 6 }),
  thing('water-heater', 'WH', [18, 22], { words: ['movable'], standsOff: true }),
  thing('furnace', 'FU', [20, 28], { words: ['fixed'], standsOff: true }),
  thing('stair', 'ST', [30, 36]),
  thing('obstruction', 'O', [3, 20], { words: ['movable'], standsOff: true }),
];

/** Things in the free gaps between anchors, clear of panels and of each other. */
export function obstructionsOfWall(
  random: Random,
  frame: HouseFrame,
  wall: { readonly length: number },
  busy: {
    readonly anchors: readonly AnchorFacts[];
    readonly panels: WallFacts['panels'];
    readonly holes: readonly { readonly from: number; readonly to: number }[];
  },
): readonly ObstructionFacts[] {
  const found: ObstructionFacts[] = busy.holes.map(({ from, to }, index) => ({
    kind: random.pick(['chimney', 'door']),
    name: `K${index + 1}`,
    from,
    to,
    off: undefined,
  }));
  const counts = new Map<string, number>();
  for (const { from, to } of gapsOf(wall.length, busy.anchors)) {
    if (!random.chance(0.35)) continue;
    const kind = random.pick(kinds);
    const place = placeIn(random, frame, kind, { from: from + kind.clear * INCH, to: to - kind.clear * INCH });
    if (!place) continue;
    const apart = (each: { readonly from: number; readonly to: number }, by: number): boolean =>
      each.to + by <= place.from || place.to + by <= each.from;
    const ends = kind.fromEnds * FOOT;
    if (place.from < ends || place.to > wall.length - ends) continue;
    if (!found.every((each) => apart(each, 12 * INCH)) || !busy.panels.every((each) => apart(each, 9 * INCH))) continue;
    const count = (counts.get(kind.prefix) ?? 0) + 1;
    counts.set(kind.prefix, count);
    found.push({
      kind: kind.kind,
      name: random.chance(0.9) ? `${kind.prefix}${count}` : undefined,
      ...place,
      off: kind.standsOff && random.chance(0.7) ? inches(frame, random.integer(0, 12) / 2) : undefined,
    });
  }
  return found.sort((a, b) => a.from - b.from);
}

/** Words that a kind of thing may have. */
export function wordsFor(random: Random, kind: string): readonly string[] {
  const words = kinds.find((each) => each.kind === kind)?.words ?? [];
  const [first] = words;
  return first === undefined ? [] : [random.pick([first, ...words.slice(1)])];
}

/** Between neighbouring anchors, and between the ends of the wall and the outermost. */
function gapsOf(
  length: number,
  anchors: readonly AnchorFacts[],
): readonly { readonly from: number; readonly to: number }[] {
  const stations = [0, ...anchors.map(({ station }) => station).sort((a, b) => a - b), length];
  return stations.slice(1).map((to, index) => ({ from: stations[index] ?? 0, to }));
}

export function placeIn(
  random: Random,
  frame: HouseFrame,
  { wide: [least, most] }: { readonly wide: readonly [number, number] },
  room: { readonly from: number; readonly to: number },
): { readonly from: number; readonly to: number } | undefined {
  const free = Math.floor((room.to - room.from) / INCH) - 1;
  if (free < least) return undefined;
  const wide = random.integer(least, Math.min(most, free));
  const from = inches(frame, Math.ceil(room.from / INCH) + random.integer(0, free - wide));
  return from < room.from ? undefined : { from, to: from + inches(frame, wide) };
}
