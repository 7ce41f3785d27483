import type { HouseOptions } from './facts.ts';
import type { House } from './house.ts';
import { houseOf } from './house.ts';

const long = Boolean(process.env.SILLWRIGHT_LONG);

/** Houses of every sort in turn: designed or only surveyed, tidy or as people leave them. With SILLWRIGHT_LONG set, many more. */
export function* manyHouses(count: number, countWhenLong: number, options: HouseOptions = {}): Generator<House> {
  const total = long ? countWhenLong : count;
  for (let seed = 0; seed < total; seed += 1) {
    yield houseOf(seed, { design: seed % 2 === 0, untidy: seed % 3 === 0, ...options });
  }
}

/** Properties over many houses take minutes on a busy machine. */
export const patience = long ? 3_600_000 : 300_000;
