import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { LimitQuery } from '../../language/domain/rulesets/limit-for.ts';
import { limitFor } from '../../language/domain/rulesets/limit-for.ts';
import type { Limit, RuleSet, RulesInForce } from '../../language/domain/rulesets/rule-set.ts';
import { parseLength } from '../../language/domain/units/parse-length.ts';
import { parseQuantity } from '../../language/domain/units/parse-quantity.ts';
import { readSheet } from '../../language/syntax/sheet.ts';
import { length } from '../support/outlines.ts';
import type { Piece, RuleTableCell } from './rule-tables.data.ts';
import { ruleTables } from './rule-tables.data.ts';

const existingBuilding = shipped('existing-building');
const shopLimits = shipped('shop-limits');
const rules: RulesInForce = { chosen: [existingBuilding], limits: existingBuilding.limits };

/** Boards of each row of the tables: its shortest and one within. */
const lengthsOf: Readonly<Record<Piece, readonly string[]>> = {
  'twelve-feet-and-more': [`12'-0"`, `30'-0"`],
  'six-to-twelve-feet': [`6'-0"`, `11'-11 15/16"`],
  'thirty-inches-to-six-feet': [`30"`, `5'-11 15/16"`],
  'under-thirty-inches': [`29-15/16"`, `12"`],
};

describe('the shipped existing-building rule set against the tables, entered twice', () => {
  const subjects = new Set(existingBuilding.limits.map((limit) => limit.subject));
  const cells = ruleTables.filter((cell) => cell.ruleSet === 'existing-building' && subjects.has(cell.subject));

  it('is compared in most of its subjects', () => {
    const compared = new Set(cells.map((cell) => cell.subject));
    // Bracing, panels and inspection are not in these tables.
    const rest = [...subjects].filter((subject) => !compared.has(subject));
    expect(rest.toSorted()).toEqual([
      'bracing-ends',
      'bracing-share',
      'nail-edge',
      'panel-edge-nails',
      'panel-field-nails',
      'panel-length',
      'panel-per-height',
      'panel-thick',
      'special-inspection',
      'vent-hole',
      'vent-hole-clear',
      'vent-hole-count',
    ]);
    expect(cells.length).toBeGreaterThan(35);
  });

  it.each(cells.map((cell) => [nameOf(cell), cell] as const))('%s', (_name, cell) => {
    for (const query of queriesOf(cell)) {
      const answer = limitFor(rules, cell.subject, query);
      if (answer.kind !== 'limit') throw new Error(`${answer.kind} for ${JSON.stringify(query)}`);
      expect(canonical(wordsOf(answer.limit))).toBe(canonical(cell.value));
      expect(answer.limit.citation?.trust).toBe(cell.mark);
      expect(cell.source).toContain(answer.limit.citation?.text);
    }
  });

  it('says nothing of a 1/2 in bolt under three storeys, which the table does not have', () => {
    expect(limitFor(rules, 'anchor-spacing', factsOf({ storeys: 3, bolt: '1/2"' }, `20'-0"`)).kind).toBe('none');
  });

  it('takes a thicker bolt for the size below it, as the table gives least diameters', () => {
    for (const storeys of [1, 2]) {
      const answer = limitFor(rules, 'anchor-spacing', factsOf({ storeys, bolt: '3/4"' }, `20'-0"`));
      expect(answer.kind === 'limit' && wordsOf(answer.limit)).toBe(`at-most 6'-0"`);
    }
  });
});

describe('every shipped limit', () => {
  const limits = [...existingBuilding.limits, ...shopLimits.limits];

  it('names its source and how far that can be trusted', () => {
    expect(limits.length).toBeGreaterThan(80);
    for (const limit of limits) expect(limit.citation?.text, limit.subject).toBeTruthy();
    expect(new Set(shopLimits.limits.map((limit) => limit.citation?.trust))).toEqual(new Set(['common-practice']));
    expect(existingBuilding.limits.filter((limit) => limit.citation?.trust === 'common-practice')).toEqual([]);
  });

  it('is the only one that applies to its own case', () => {
    for (const set of [existingBuilding, shopLimits]) {
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

function queriesOf(cell: RuleTableCell): readonly LimitQuery[] {
  return (cell.piece ? lengthsOf[cell.piece] : [`20'-0"`]).map((piece) => factsOf(cell, piece));
}

function factsOf(cell: Pick<RuleTableCell, 'storeys' | 'bolt' | 'where'>, piece: string): LimitQuery {
  const penny = /^nail (\d+)d$/.exec(cell.where ?? '')?.[1];
  return {
    piece: { kind: 'length', length: length(piece) },
    ...(cell.storeys === undefined ? {} : { storeys: { kind: 'number', number: cell.storeys } }),
    ...(cell.bolt === undefined ? {} : { bolt: { kind: 'length', length: length(cell.bolt) } }),
    ...(penny === undefined ? {} : { nail: { kind: 'number', number: Number(penny) } }),
  };
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
