import type { ConditionKind, LimitDimension } from '../../domain/rules/known-subjects.ts';
import {
  dimensionOf,
  dimensionWords,
  kindOfCondition,
  knownConditions,
  knownSubjects,
} from '../../domain/rules/known-subjects.ts';
import { caseOfLimit, sayTheSame } from '../../domain/rulesets/limit-for.ts';
import type { Bound, Limit, LimitCondition, LimitValue, RuleSet } from '../../domain/rulesets/rule-set.ts';
import { parseLength } from '../../domain/units/parse-length.ts';
import { nearestWord } from '../nearest-word.ts';
import type { Problem } from '../problem.ts';
import { withUsualUnits } from '../usual-units.ts';

/**
 * What a user's rule set says that no check can read: a subject or a condition that nothing knows, a value of another kind than
 * its subject or its condition has, two limits for one case. Known are the subjects that the rules declare, those of the shipped
 * rule sets, and those still waiting for a check.
 */
export function problemsOfLimits(own: readonly RuleSet[], shipped: readonly RuleSet[]): readonly Problem[] {
  if (own.length === 0) return [];
  const subjects = knownSubjects(shipped);
  const conditions = knownConditions(shipped);
  return own.flatMap((ruleSet) => [
    ...ruleSet.limits.flatMap((limit) => [
      ...problemsOfSubject(limit, subjects),
      ...limit.conditions.flatMap((condition) => problemsOfCondition(limit, condition, conditions)),
    ]),
    ...limitsForOneCase(ruleSet),
  ]);
}

function problemsOfSubject(limit: Limit, known: ReadonlyMap<string, LimitDimension>): readonly Problem[] {
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
  if (limit.bounds.length === 0) {
    if (dimension === 'verdict') return [];
    return [wrongKind(`A limit on \`${limit.subject}\` takes ${dimensionWords[dimension]}.`, span)];
  }
  return limit.bounds.flatMap((bound) => problemsOfBound(bound, dimension, `A limit on \`${limit.subject}\``, span));
}

function problemsOfBound(
  bound: Bound,
  dimension: LimitDimension,
  what: string,
  otherwise: Problem['span'],
): readonly Problem[] {
  const span = bound.source ?? otherwise;
  const given = dimensionOf(bound.value);
  // A bare 0 is a length too.
  if (given === dimension || (dimension === 'length' && isZero(bound.value))) return [];
  const units = given === 'number' ? unitsFor(bound.value.typed, dimension) : [];
  if (units.length === 0) return [wrongKind(`${what} takes ${dimensionWords[dimension]}.`, span)];
  return [
    {
      code: 'no-unit',
      severity: 'error',
      layer: 'rules',
      message: `${bound.value.typed} what? ${what} takes ${nounOf(dimension)}: write ${units.join(' or ')}.`,
      span,
      related: [],
      replacements: units.map((text) => ({ title: `Write ${text}`, text, span })),
    },
  ];
}

const isZero = (value: LimitValue): boolean => value.kind === 'number' && value.number === 0;

/** The same number with each unit that it could have here. */
function unitsFor(typed: string, dimension: LimitDimension): readonly string[] {
  if (dimension === 'verdict' || dimension === 'number') return [];
  if (dimension !== 'length') return withUsualUnits(typed, dimension);
  const length = parseLength(typed);
  return length.kind === 'bare' ? length.suggestions : [];
}

function wrongKind(message: string, span: Problem['span']): Problem {
  return { code: 'wrong-kind', severity: 'error', layer: 'rules', message, span, related: [], replacements: [] };
}

/** Under a condition that nothing asks for a limit never applies, and a wider one speaks in its place. */
function problemsOfCondition(
  limit: Limit,
  condition: LimitCondition,
  known: ReadonlyMap<string, ConditionKind>,
): readonly Problem[] {
  const span = condition.source ?? limit.subjectSource ?? limit.source;
  const kind = known.get(condition.key.toLowerCase());
  if (kind === undefined) return [unknownCondition(limit, condition, known)];
  const what = `The condition \`${condition.key}\``;
  if (kind === 'word' || kind === 'flag') {
    return kindOfCondition(condition) === kind ? [] : [wrongKind(`${what} takes ${dimensionWords[kind]}.`, span)];
  }
  if (condition.bounds.length === 0) return [wrongKind(`${what} takes ${dimensionWords[kind]}.`, span)];
  return condition.bounds.flatMap((bound) => problemsOfBound(bound, kind, what, span));
}

function unknownCondition(
  limit: Limit,
  { key, source }: LimitCondition,
  known: ReadonlyMap<string, ConditionKind>,
): Problem {
  const nearest = nearestWord(key, known.keys());
  const span = source && { ...source, end: source.start + key.length };
  return {
    code: 'unknown-subject',
    severity: 'warning',
    layer: 'rules',
    message:
      `No check asks for \`${key}\`, so this limit on \`${limit.subject}\` never applies` +
      `${nearest === undefined ? '.' : `; did you mean \`${nearest}\`?`}`,
    span: span ?? limit.subjectSource ?? limit.source,
    related: [],
    replacements: nearest === undefined || !span ? [] : [{ title: `Write \`${nearest}\``, text: nearest, span }],
  };
}

/** Of two limits on one subject under the very same conditions no check can tell which one holds. */
function limitsForOneCase(ruleSet: RuleSet): readonly Problem[] {
  const seen = new Map<string, Limit>();
  return ruleSet.limits.flatMap((limit): readonly Problem[] => {
    const key = caseOfLimit(limit);
    const earlier = seen.get(key);
    if (!earlier) {
      seen.set(key, limit);
      return [];
    }
    const same = sayTheSame(earlier, limit);
    return [
      {
        code: 'repeated-limit',
        severity: same ? 'warning' : 'error',
        layer: 'rules',
        message: same
          ? `\`${limit.subject}\` has this limit for this case already. Take one out.`
          : `\`${limit.subject}\` has another limit for the very same case, so neither is checked. ${wayOut(earlier, limit)}`,
        span: limit.subjectSource ?? limit.source,
        related: [{ span: earlier.subjectSource ?? earlier.source, message: 'the other one' }],
        replacements: [],
      },
    ];
  });
}

function wayOut(earlier: Limit, later: Limit): string {
  const [first, second] = [...earlier.bounds, ...later.bounds];
  const bothSides =
    earlier.bounds.length === 1 &&
    later.bounds.length === 1 &&
    first &&
    second &&
    isLower(first) !== isLower(second) &&
    first.comparison !== 'is' &&
    second.comparison !== 'is';
  return bothSides
    ? `Write both on one line: \`${boundWords(first)} ${boundWords(second)}\`.`
    : 'Take one out, or give it a condition more.';
}

const isLower = ({ comparison }: Bound): boolean => comparison === 'at-least' || comparison === 'over';
const boundWords = ({ comparison, value }: Bound): string => `${comparison} ${value.typed}`;

/** Without its example. */
const nounOf = (dimension: LimitDimension): string => dimensionWords[dimension].split(',')[0] ?? '';
