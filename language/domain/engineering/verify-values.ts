import type { CheckEntry, Recomputation, Recomputed, RecomputedRecord } from './verification/check-entry.ts';
import { noValue, readCheckEntry } from './verification/check-entry.ts';
import { concreteRecomputations } from './verification/concrete.ts';
import { earthquakeRecomputations } from './verification/earthquake.ts';
import { loadAndTextRecomputations } from './verification/loads-and-texts.ts';
import { sheathingRecomputations } from './verification/sheathing.ts';
import { timberRecomputations } from './verification/timber.ts';
import type { Difference } from './verification/tolerance.ts';
import { differences, readTolerance } from './verification/tolerance.ts';

/** What our formulas and tables make of one entry of a value file. */
export interface ValueVerdict {
  /** Empty where the entry has none. */
  readonly id: string;
  readonly topic: string;
  readonly verdict: 'agrees' | 'differs' | 'computed only' | 'cannot be computed';
  /** Seen in a public text, written from memory of it, or worked from the formulas (which checks the code, not the formulas). */
  readonly origin: 'found' | 'from memory' | 'arithmetic';
  /** By the keys that the entry expects; all that we have for it where it expects nothing. */
  readonly computed: RecomputedRecord;
  /** For `differs`: each key that does. */
  readonly differences: readonly Difference[];
  /** For `differs` and `cannot be computed`. */
  readonly reason: string | undefined;
  readonly source: string;
  readonly section: string;
}

/**
 * Recomputes published and worked figures by our own formulas and tables and compares within each entry's own tolerance.
 * Entries are as in a value file: `{ id, topic, kind, source, section, origin, inputs, expected, tolerance }`; which formula
 * to use follows from topic, inputs and keys, never from the id. Never throws: what is not an entry gets its verdict too.
 */
export function verifyValues(entries: readonly unknown[]): readonly ValueVerdict[] {
  return entries.map(verifyValue);
}

function verifyValue(raw: unknown): ValueVerdict {
  const entry = readCheckEntry(raw);
  if (typeof entry === 'string') return { ...blank, reason: entry };
  const about = {
    id: entry.id,
    topic: entry.topic,
    origin: originOf(entry),
    source: entry.source,
    section: entry.section,
  };
  const way = recomputations.find((each) => each.covers(entry));
  if (!way)
    return {
      ...blank,
      ...about,
      reason: `no formula here takes these inputs: ${Object.keys(entry.inputs).join(', ') || 'none'}`,
    };
  const result = recomputed(way, entry);
  if (result.kind === 'refused') return { ...blank, ...about, reason: result.reason };
  const asked = Object.keys(entry.expected);
  if (asked.length === 0)
    return { ...about, verdict: 'computed only', computed: result.values, differences: [], reason: undefined };
  const computed: RecomputedRecord = Object.fromEntries(
    asked.flatMap((key) => {
      const value = result.values[key];
      return value === undefined ? [] : [[key, value] as const];
    }),
  );
  const missing = asked.filter((key) => computed[key] === undefined);
  if (missing.length > 0) {
    return { ...blank, ...about, computed, reason: `no value for ${missing.join(', ')} follows from these inputs` };
  }
  const found = differences(computed, entry.expected, readTolerance(entry.tolerance));
  const reason = found.map((each) => `${each.key}: computed ${each.computed}, expected ${each.expected}`).join('; ');
  return {
    ...about,
    verdict: found.length > 0 ? 'differs' : 'agrees',
    computed,
    differences: found,
    reason: reason || undefined,
  };
}

/** A length of a value file may be larger than any length here can be. */
function recomputed(way: Recomputation, entry: CheckEntry): Recomputed {
  try {
    return way.compute(entry);
  } catch (error) {
    if (error instanceof RangeError) return noValue('an input is out of all proportion');
    throw error;
  }
}

const blank: ValueVerdict = {
  id: '',
  topic: '',
  verdict: 'cannot be computed',
  origin: 'from memory',
  computed: {},
  differences: [],
  reason: undefined,
  source: '',
  section: '',
};

const originOf = (entry: CheckEntry): ValueVerdict['origin'] =>
  entry.kind === 'derived' ? 'arithmetic' : entry.origin === 'found' ? 'found' : 'from memory';

const recomputations: readonly Recomputation[] = [
  ...timberRecomputations,
  ...sheathingRecomputations,
  ...earthquakeRecomputations,
  ...concreteRecomputations,
  ...loadAndTextRecomputations,
];
