/** Chance that repeats itself: the same seed gives the same house on every machine. */
export interface Random {
  /** Whole, both ends included. */
  integer(least: number, most: number): number;
  chance(share: number): boolean;
  pick<Each>(list: readonly [Each, ...Each[]]): Each;
  /** A new random source that does not disturb this one. */
  fork(): Random;
}

/** Mulberry32, a public-domain generator of 32 bits of state. */
export function randomFrom(seed: number): Random {
  let state = seed | 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  const random: Random = {
    integer: (least, most) => least + Math.floor(next() * (most - least + 1)),
    chance: (share) => next() < share,
    pick: (list) => list[Math.floor(next() * list.length)] ?? list[0],
    fork: () => randomFrom(Math.floor(next() * 4294967296)),
  };
  // Neighbouring seeds begin alike; a few throws part them.
  for (let throws = 0; throws < 4; throws += 1) next();
  return random;
}
