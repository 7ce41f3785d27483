import type { Severity } from '../../../language/domain/rules/finding.ts';
import { formatExact, formatExactStation } from '../../../language/domain/units/format-length.ts';
import { nanometres } from '../../../language/domain/units/length.ts';
import type { HouseFacts, PieceFacts, WallFacts } from '../../support/houses/facts.ts';
import type { Random } from '../../support/houses/random.ts';

/** One way in which people err, with the rule that is meant to catch it. */
export interface Defect {
  /** What the person did, in words. */
  readonly id: string;
  readonly rule: string;
  /** Errors that cannot but come with it, each with the reason. */
  readonly companions?: Readonly<Record<string, string>>;
  /** `undefined` where this house has no place for it. */
  readonly inject: (house: LegalHouse) => Injected | undefined;
}

export interface LegalHouse {
  readonly text: string;
  readonly facts: HouseFacts;
  readonly random: Random;
}

export interface Injected {
  readonly text: string;
  /** Where the rule that is meant has to fire; it fires nowhere else. */
  readonly expected: readonly Place[];
}

export interface Place {
  readonly wall?: string;
  readonly piece?: string;
  /** Nanometres from the wall's left end. */
  readonly station?: number;
  /** Where the rule has more than one. */
  readonly severity?: Severity;
}

/** A length in the units of the house, exactly. */
export function lengthIn({ facts }: LegalHouse, length: number): string {
  return formatExact(nanometres(length), facts.units);
}

export function stationIn({ facts }: LegalHouse, station: number): string {
  return formatExactStation(nanometres(station), facts.units);
}

/** What the layout calls a board: by its name, or by its number among those without. */
export function nameOf(wall: WallFacts, piece: PieceFacts): string {
  return piece.name ?? `${wall.name}(${wall.pieces.indexOf(piece) + 1})`;
}

/** All of a list, beginning somewhere: the first that will do is then any that will do. */
export function shuffled<Each>(random: Random, list: readonly Each[]): readonly Each[] {
  if (list.length === 0) return [];
  const start = random.integer(0, list.length - 1);
  return [...list.slice(start), ...list.slice(0, start)];
}

/** The first answer that is one. */
export function firstOf<Each, Answer>(
  list: readonly Each[],
  answer: (each: Each) => Answer | undefined,
): Answer | undefined {
  for (const each of list) {
    const found = answer(each);
    if (found !== undefined) return found;
  }
  return undefined;
}
