import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { ConditionFact, LimitQuery } from '../../language/domain/rulesets/limit-for.ts';
import { limitFor } from '../../language/domain/rulesets/limit-for.ts';
import type { Limit, RuleSet, RulesInForce } from '../../language/domain/rulesets/rule-set.ts';
import { parseLength } from '../../language/domain/units/parse-length.ts';
import { parseQuantity } from '../../language/domain/units/parse-quantity.ts';
import { readSheet } from '../../language/syntax/sheet.ts';
import { length } from '../support/outlines.ts';
import type { Piece, PublishedRuleSet, RuleTableCell } from './rule-tables.data.ts';
import { ruleTables } from './rule-tables.data.ts';

const names: readonly PublishedRuleSet[] = [
  'existing-building',
  'new-house',
  'new-building',
  'los-angeles',
  'bay-area',
  'portland',
];
const sets = new Map(names.map((name) => [name, shipped(name)]));
const existingBuilding = setNamed('existing-building');
const shopLimits = shipped('shop-limits');
const inForce = (set: RuleSet): RulesInForce => ({ chosen: [set], limits: set.limits });
const rules = inForce(existingBuilding);

/** Boards of each row of the tables: its shortest and one within. */
const lengthsOf: Readonly<Record<Piece, readonly string[]>> = {
  'twelve-feet-and-more': [`12'-0"`, `30'-0"`],
  'six-to-twelve-feet': [`6'-0"`, `11'-11 15/16"`],
  'thirty-inches-to-six-feet': [`30"`, `5'-11 15/16"`],
  'under-thirty-inches': [`29-15/16"`, `12"`],
};

/** What the tables say in words, and no limit can: by subject, or by value where the subject has limits in other sets. */
const notLimits: ReadonlySet<string> = new Set([
  'heavy',
  'outside the scope',
  'excluded',
  'splice',
  'embedment',
  'side-plate-capacity',
  'as listed for the device',
  `by the anchor's approval`,
]);

describe.each(names)('the shipped rule set %s against the tables, entered twice', (name) => {
  const set = setNamed(name);
  const own = ruleTables.filter((cell) => cell.ruleSet === name);
  const cells = own.filter((cell) => set.limits.some((limit) => limit.subject === cell.subject));

  it('has a row of the tables for each of its limits', () => {
    const reached = new Set<Limit>();
    for (const cell of cells) {
      for (const query of queriesOf(cell, set)) {
        const answer = limitFor(inForce(set), cell.subject, query);
        if (answer.kind === 'limit') reached.add(answer.limit);
      }
    }
    const rest = set.limits.filter((limit) => !reached.has(limit)).map((limit) => `${limit.subject} ${wordsOf(limit)}`);
    expect(rest).toEqual([]);
  });

  it('leaves out of the tables only what is no limit', () => {
    const left = own.filter((cell) => !cells.includes(cell)).map((cell) => cell.subject);
    expect([...new Set(left)].filter((subject) => !notLimits.has(subject))).toEqual([]);
  });

  it.each(cells.filter((cell) => !notLimits.has(cell.value)).map((cell) => [nameOf(cell), cell] as const))(
    '%s',
    (_name, cell) => {
      for (const query of queriesOf(cell, set)) {
        const answer = limitFor(inForce(set), cell.subject, query);
        if (answer.kind !== 'limit') throw new Error(`${answer.kind} for ${JSON.stringify(query)}`);
        expect(canonical(wordsOf(answer.limit))).toBe(canonical(cell.value));
        expect(answer.limit.citation?.trust).toBe(cell.mark === 'secondary-text' ? 'recalled' : cell.mark);
        expect(cell.source).toContain(answer.limit.citation?.text);
      }
    },
  );
});

describe('the existing-building rule set', () => {
  it('says nothing of a 1/2 in bolt under three storeys, which the table does not have', () => {
    expect(
      limitFor(
        rules,
        'anchor-spacing',
        factsOf({ subject: 'anchor-spacing', storeys: 3, bolt: '1/2"' }, `20'-0"`, existingBuilding),
      ).kind,
    ).toBe('none');
  });

  it('takes a thicker bolt for the size below it, as the table gives least diameters', () => {
    for (const storeys of [1, 2]) {
      const answer = limitFor(
        rules,
        'anchor-spacing',
        factsOf({ subject: 'anchor-spacing', storeys, bolt: '3/4"' }, `20'-0"`, existingBuilding),
      );
      expect(answer.kind === 'limit' && wordsOf(answer.limit)).toBe(`at-most 6'-0"`);
    }
  });
});

describe('every shipped limit', () => {
  const ofTheTrade = [...sets.values()].flatMap((set) => set.limits);
  const limits = [...ofTheTrade, ...shopLimits.limits];

  it('names its source and how far that can be trusted', () => {
    expect(limits.length).toBeGreaterThan(180);
    for (const limit of limits) expect(limit.citation?.text, limit.subject).toBeTruthy();
    // The distances from old bolts are those of two standards; nobody read them again for this.
    const ofStandards = ['old-bolt-apart-per-diameter', 'old-bolt-in-concrete-per-diameter'];
    for (const { subject, citation } of shopLimits.limits) {
      expect(citation?.trust, subject).toBe(ofStandards.includes(subject) ? 'from-memory' : 'common-practice');
    }
    expect(ofTheTrade.filter((limit) => limit.citation?.trust === 'common-practice')).toEqual([]);
  });

  it('is the only one that applies to its own case', () => {
    for (const set of [...sets.values(), shopLimits]) {
      const cases = set.limits.map(
        (limit) => `${limit.subject} for ${limit.conditions.map(conditionWords).join(', ')}`,
      );
      expect(new Set(cases).size).toBe(cases.length);
    }
  });
});

function shipped(name: string): RuleSet {
  const text = readFileSync(new URL(`../../language/library/rulesets/${name}.sill`, import.meta.url), 'utf8');
  for (const { draft } of readSheet(name, text).blocks) if (draft.kind === 'ruleset') return draft.ruleSet;
  throw new Error(`${name}.sill has no rule set`);
}

function setNamed(name: PublishedRuleSet): RuleSet {
  const set = sets.get(name);
  if (!set) throw new Error(`no rule set ${name}`);
  return set;
}

function queriesOf(cell: RuleTableCell, set: RuleSet): readonly LimitQuery[] {
  return (cell.piece ? lengthsOf[cell.piece] : [`20'-0"`]).map((piece) => factsOf(cell, piece, set));
}

function factsOf(
  cell: Pick<RuleTableCell, 'subject' | 'storeys' | 'bolt' | 'where'>,
  piece: string,
  set: RuleSet,
): LimitQuery {
  const keys = new Set(
    set.limits
      .filter((limit) => limit.subject === cell.subject)
      .flatMap((limit) => limit.conditions.map((condition) => condition.key)),
  );
  const more = (cell.where ?? '').split(', ').flatMap((part): readonly (readonly [string, ConditionFact])[] => {
    const [, key = '', value] = /^(\S+)(?: (.*))?$/.exec(part) ?? [];
    return keys.has(key) ? [[key, factOf(value)]] : [];
  });
  return {
    piece: { kind: 'length', length: length(piece) },
    ...(cell.storeys === undefined ? {} : { storeys: { kind: 'number', number: cell.storeys } }),
    ...(cell.bolt === undefined ? {} : { bolt: { kind: 'length', length: length(cell.bolt) } }),
    ...Object.fromEntries(more),
  };
}

function factOf(value: string | undefined): ConditionFact {
  if (value === undefined) return { kind: 'holds' };
  const penny = /^(\d+)d$/.exec(value)?.[1];
  if (penny !== undefined) return { kind: 'number', number: Number(penny) };
  const parsed = parseLength(value);
  if (parsed.kind === 'length') return { kind: 'length', length: parsed.length };
  const quantity = parseQuantity(value);
  if (!quantity) return { kind: 'word', word: value };
  return quantity.dimension === 'number' ? { kind: 'number', number: quantity.amount } : { kind: 'quantity', quantity };
}

const wordsOf = (limit: Limit): string =>
  limit.verdict ?? limit.bounds.map(({ comparison, value }) => `${comparison} ${value.typed}`).join(' ');

const conditionWords = ({ key, word, bounds }: Limit['conditions'][number]): string =>
  `${key} ${word ?? ''} ${bounds.map(({ comparison, value }) => `${comparison} ${value.typed}`).join(' ')}`;

/** By what it means: 4'-0" and 48" are one value. */
function canonical(words: string): string {
  return words.replace(
    /(at-least|at-most|over|under|is) (.+?)(?= at-least| at-most| over| under|$)/g,
    (_, comparison, value) => {
      const parsed = parseLength(value);
      if (parsed.kind === 'length') return `${comparison} ${parsed.length} nm`;
      const quantity = parseQuantity(value);
      if (!quantity) throw new Error(`${value} is neither a length nor a quantity`);
      return `${comparison} ${quantity.amount} ${quantity.dimension}`;
    },
  );
}

function nameOf(cell: RuleTableCell): string {
  const conditions = [
    cell.storeys === undefined ? [] : [`${cell.storeys} storeys`],
    cell.bolt === undefined ? [] : [`${cell.bolt} bolt`],
    cell.piece === undefined ? [] : [`boards of ${cell.piece.replaceAll('-', ' ')}`],
    cell.where === undefined ? [] : [cell.where],
  ].flat();
  return `${cell.subject}${conditions.length > 0 ? ` (${conditions.join(', ')})` : ''}: ${cell.value} [${cell.source}]`;
}
