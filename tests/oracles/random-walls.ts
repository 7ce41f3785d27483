/** A wall in the plain form of the case files; every length a whole number of sixteenths of an inch. */
export interface WallCase {
  readonly id: string;
  readonly length: number;
  readonly breaks: readonly number[];
  readonly emin: number;
  readonly emax: number;
  readonly maxGap: number;
  readonly minGap: number;
  readonly minCount: number;
  readonly demand: readonly number[];
  readonly obstructions: readonly { readonly from: number; readonly to: number; readonly clear: number }[];
  readonly types: readonly WallType[];
}
export interface WallType {
  readonly id: string;
  readonly cost: number;
  readonly capacity: number;
  readonly half: number;
  readonly available: readonly (readonly [number, number])[] | null;
}

export interface WallShape {
  readonly leastFeet: number;
  readonly greatestFeet: number;
  /** Every length is a multiple of it: 16 for whole inches, 1 for sixteenths. */
  readonly grain: number;
  readonly mostTypes: number;
}

const FOOT = 192;

/** The same wall for the same seed, on every machine. */
export function randomWall(seed: number, shape: WallShape): WallCase {
  const random = generator(seed);
  const between = (least: number, greatest: number) => least + Math.floor(random() * (greatest - least + 1));
  const onGrain = (value: number) => Math.round(value / shape.grain) * shape.grain;
  const chance = (share: number) => random() < share;

  const length = onGrain(between(shape.leastFeet * FOOT, shape.greatestFeet * FOOT));
  const breaks: number[] = [];
  for (let at = 0; ; ) {
    at += onGrain(between(4 * FOOT, 20 * FOOT));
    if (at > length - 4 * FOOT) break;
    breaks.push(at);
  }
  const emin = onGrain(between(64, 144));
  const emax = emin + onGrain(between(32, 160));
  const maxGap = onGrain([768, 960, 1152, 2 * emax - 32][between(0, 3)] ?? 1152);
  const minGap = Math.max(shape.grain, onGrain(between(48, Math.min(224, maxGap / 2))));
  const minCount = chance(0.3) ? 1 : 2;
  const cuts = [0, ...breaks, length];
  const types = Array.from({ length: between(1, shape.mostTypes) }, (_, index): WallType => {
    const capacity = between(600, 2200);
    return {
      id: `T${index + 1}`,
      cost: Math.max(1, Math.round((capacity / 90) * (0.7 + 0.6 * random()))),
      capacity,
      half: onGrain([0, 16, 32][between(0, 2)] ?? 0),
      available: chance(0.35) ? rooms(length, between, onGrain) : null,
    };
  });
  const demand = cuts.slice(1).map((to, index) => {
    const span = to - (cuts[index] ?? 0);
    return chance(0.5) ? between(500, 1500) : Math.round((span / FOOT) * between(80, 500));
  });
  const obstructions = Array.from({ length: between(0, Math.ceil(length / (12 * FOOT))) }, () => {
    const from = onGrain(between(0, length - 64));
    return { from, to: Math.min(length, from + onGrain(between(16, 320))), clear: onGrain(between(0, 48)) };
  });
  return { id: `wall ${seed}`, length, breaks, emin, emax, maxGap, minGap, minCount, demand, obstructions, types };
}

/** Numbers from 0 up to 1, the same for the same seed. */
export function generator(seed: number): () => number {
  let state = (Math.imul(seed, 0x9e3779b1) ^ 0x5bd1e995) >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

function rooms(
  length: number,
  between: (least: number, greatest: number) => number,
  onGrain: (value: number) => number,
): [number, number][] {
  const parts: [number, number][] = [];
  for (let at = onGrain(between(0, 400)); at < length; ) {
    const to = Math.min(length, at + onGrain(between(32, 1000)));
    parts.push([at, to]);
    at = to + onGrain(between(16, 500));
  }
  return parts;
}
