import { fitSubjects } from '../fit/footprint.ts';
import type { LimitCondition, LimitValue, RuleSet } from '../rulesets/rule-set.ts';
import { unreadSubjects } from '../rulesets/subjects.ts';
import type { Dimension as QuantityDimension } from '../units/quantity.ts';
import type { SubjectDimension } from './define.ts';
import { rules } from './registry.ts';

/** The kind of value that a limit on a subject takes. */
export type LimitDimension = SubjectDimension | QuantityDimension;

/** What a condition compares: a value of some dimension, a word (`drill straight`), or nothing (`heavy`). */
export type ConditionKind = LimitDimension | 'word' | 'flag';

/** Every subject that a rule reads, that is still waiting for one, or that these rule sets limit, with its dimension. */
export function knownSubjects(ruleSets: readonly RuleSet[]): ReadonlyMap<string, LimitDimension> {
  const known = new Map<string, LimitDimension>(Object.entries(unreadSubjects));
  for (const limit of ruleSets.flatMap((ruleSet) => ruleSet.limits)) {
    const [bound] = limit.bounds;
    known.set(limit.subject, bound ? dimensionOf(bound.value) : 'verdict');
  }
  for (const [subject, dimension] of Object.entries(fitSubjects)) known.set(subject, dimension);
  for (const rule of rules) {
    for (const [subject, dimension] of Object.entries(rule.subjects)) known.set(subject, dimension);
  }
  return known;
}

/** Every condition that limits of these rule sets have. */
export function knownConditions(ruleSets: readonly RuleSet[]): ReadonlyMap<string, ConditionKind> {
  const limits = ruleSets.flatMap((ruleSet) => ruleSet.limits);
  return new Map(
    limits.flatMap(({ conditions }) =>
      conditions.map((condition): [string, ConditionKind] => [condition.key.toLowerCase(), kindOfCondition(condition)]),
    ),
  );
}

export const dimensionOf = (value: LimitValue): LimitDimension =>
  value.kind === 'quantity' ? value.quantity.dimension : value.kind;

export function kindOfCondition({ word, bounds }: LimitCondition): ConditionKind {
  if (word !== undefined) return 'word';
  const [bound] = bounds;
  return bound ? dimensionOf(bound.value) : 'flag';
}

/** A dimension in words, with an example. */
export const dimensionWords: Readonly<Record<ConditionKind, string>> = {
  length: 'a length, such as `at-most 4\'-0"`',
  number: 'a plain number, such as `at-least 2`',
  share: 'a share, such as `at-least 50 %`',
  force: 'a force, such as `at-least 900 lb`',
  pressure: 'a pressure, such as `at-least 2000 psi`',
  'force-per-length': 'a force along a length, such as `at-most 350 plf`',
  area: 'an area, such as `at-least 50 sq in`',
  angle: 'an angle, such as `at-most 45°`',
  density: 'a density, such as `at-most 150 pcf`',
  mass: 'a mass, such as `at-most 20 kg`',
  moment: 'a moment, such as `at-least 45 ft-lb`',
  time: 'a time, such as `at-least 30 min`',
  verdict: 'one of `required`, `not-required`, `allowed`, `not-allowed`',
  word: 'a word, such as `drill right-angle`',
  flag: 'no value: it holds or it does not',
};
