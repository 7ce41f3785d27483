import type { SubjectDimension } from '../../domain/rules/define.ts';
import { rules } from '../../domain/rules/registry.ts';
import type { Limit, LimitCondition, LimitValue, RuleSet } from '../../domain/rulesets/rule-set.ts';
import { unreadSubjects } from '../../domain/rulesets/subjects.ts';
import type { Dimension as QuantityDimension } from '../../domain/units/quantity.ts';
import { nearestWord } from '../nearest-word.ts';
import type { Problem } from '../problem.ts';

/**
 * What a user's rule set says that no check can read: a subject that nothing knows, or a value of another kind than its
 * subject has. Known are the subjects that the rules declare, those of the shipped rule sets, and those still waiting for a check.
 */
export function problemsOfLimits(own: readonly RuleSet[], shipped: readonly RuleSet[]): readonly Problem[] {
  if (own.length === 0) return [];
  const known = dimensionsOfSubjects(shipped);
  const conditions = new Set(shipped.flatMap(({ limits }) => limits.flatMap((limit) => limit.conditions)).map(keyOf));
  return own.flatMap((ruleSet) =>
    ruleSet.limits.flatMap((limit) => [...problemsOfLimit(limit, known), ...misspeltConditions(limit, conditions)]),
  );
}

type Dimension = SubjectDimension | QuantityDimension;

function dimensionsOfSubjects(shipped: readonly RuleSet[]): ReadonlyMap<string, Dimension> {
  const known = new Map<string, Dimension>(Object.entries(unreadSubjects));
  for (const limit of shipped.flatMap((ruleSet) => ruleSet.limits)) {
    const [bound] = limit.bounds;
    known.set(limit.subject, bound ? dimensionOf(bound.value) : 'verdict');
  }
  for (const rule of rules) {
    for (const [subject, dimension] of Object.entries(rule.subjects)) known.set(subject, dimension);
  }
  return known;
}

const dimensionOf = (value: LimitValue): Dimension =>
  value.kind === 'quantity' ? value.quantity.dimension : value.kind;

function problemsOfLimit(limit: Limit, known: ReadonlyMap<string, Dimension>): readonly Problem[] {
  const span = limit.subjectSource ?? limit.source;
  const dimension = known.get(limit.subject);
  if (dimension === undefined) {
    const nearest = nearestWord(limit.subject, known.keys());
    return [
      {
        code: 'unknown-subject',
        severity: 'warning',
        layer: 'rules',
        message: `No check reads a limit on \`${limit.subject}\`${nearest === undefined ? '' : `; did you mean \`${nearest}\`?`}`,
        span,
        related: [],
        replacements: nearest === undefined ? [] : [{ title: `Write \`${nearest}\``, text: nearest, span }],
      },
    ];
  }
  const given = limit.bounds.map((bound) => dimensionOf(bound.value));
  const fits = limit.bounds.length === 0 ? dimension === 'verdict' : given.every((each) => each === dimension);
  if (fits) return [];
  return [
    {
      code: 'wrong-kind',
      severity: 'error',
      layer: 'rules',
      message: `A limit on \`${limit.subject}\` takes ${dimensionWords[dimension] ?? dimension}.`,
      span,
      related: [],
      replacements: [],
    },
  ];
}

const keyOf = (condition: LimitCondition): string => condition.key.toLowerCase();

/** Under a misspelt condition a limit never applies, and a wider one speaks in its place. */
function misspeltConditions(limit: Limit, known: ReadonlySet<string>): readonly Problem[] {
  return limit.conditions.flatMap((condition): readonly Problem[] => {
    if (known.has(keyOf(condition))) return [];
    const nearest = nearestWord(condition.key, known);
    if (nearest === undefined) return [];
    return [
      {
        code: 'unknown-subject',
        severity: 'warning',
        layer: 'rules',
        message: `No check asks for \`${condition.key}\`, so this limit on \`${limit.subject}\` never applies; did you mean \`${nearest}\`?`,
        span: limit.subjectSource ?? limit.source,
        related: [],
        replacements: [],
      },
    ];
  });
}

const dimensionWords: Readonly<Record<string, string>> = {
  length: 'a length, such as `at-most 4\'-0"`',
  number: 'a plain number, such as `at-least 2`',
  share: 'a share, such as `at-least 50 %`',
  force: 'a force, such as `at-least 900 lb`',
  pressure: 'a pressure, such as `at-least 2000 psi`',
  verdict: 'one of `required`, `not-required`, `allowed`, `not-allowed`',
};
