import { describe, expect, it } from 'vitest';
import { rules } from '../../language/domain/rules/registry.ts';
import { unreadSubjects } from '../../language/domain/rulesets/subjects.ts';
import { inches } from '../../language/domain/units/length.ts';
import { shippedRuleSets } from '../../language/syntax/shipped-rule-sets.ts';
import { readLayout } from '../support/read-layout.ts';

const ruleSet = (...lines: readonly string[]): string => ['ruleset mine "Mine"', ...lines].join('\n');

describe('a rule set of the user', () => {
  it('keeps each limit with its conditions, its source and how far that can be trusted', () => {
    const { layout, problems } = readLayout(
      `layout "X"\n  rules mine\n${ruleSet(
        '  source "Table 9" from-memory',
        `    limit anchor-spacing at-most 4'-0" for storeys 2, bolt 1/2", piece at-least 12'-0"`,
        `    limit end-distance at-least 9" at-most 12" source "section 3" published otherwise ask`,
      )}`.replace('source "section 3" published otherwise ask', 'otherwise ask source "section 3" published'),
    );
    expect(problems).toEqual([]);
    const [spacing, end] = layout.rules.limits.filter((limit) => limit.ruleSet === 'mine');
    expect(spacing).toMatchObject({
      subject: 'anchor-spacing',
      bounds: [{ comparison: 'at-most', value: { kind: 'length', length: inches(48) } }],
      conditions: [
        { key: 'storeys', bounds: [{ comparison: 'is', value: { kind: 'number', number: 2 } }] },
        { key: 'bolt', bounds: [{ comparison: 'is', value: { kind: 'length', length: inches(0.5) } }] },
        { key: 'piece', bounds: [{ comparison: 'at-least', value: { kind: 'length', length: inches(144) } }] },
      ],
      citation: { text: 'Table 9', trust: 'from-memory' },
    });
    expect(end).toMatchObject({ otherwise: 'ask', citation: { text: 'section 3', trust: 'published' } });
  });

  it('is told of a subject that no check reads, with the nearest one', () => {
    const { problems } = readLayout(ruleSet('  source "s" published', `    limit anchor-spacin at-most 4'-0"`));
    expect(problems.map((each) => [each.code, each.replacements[0]?.text])).toEqual([
      ['unknown-subject', 'anchor-spacing'],
    ]);
  });

  it('is told of a value that its subject cannot have', () => {
    const { problems } = readLayout(
      ruleSet(
        '  source "s" published',
        '    limit anchor-spacing at-most 4',
        '    limit perimeter-concrete at-least 3',
      ),
    );
    expect(problems.map((each) => each.code)).toEqual(['no-unit', 'wrong-kind']);
  });

  it('is told of a limit without a source', () => {
    const { problems } = readLayout(ruleSet(`  limit anchor-spacing at-most 4'-0"`));
    expect(problems.map((each) => each.code)).toEqual(['limit-without-source']);
  });
});

it('a subject leaves the waiting list when a rule reads it', () => {
  const read = rules.flatMap((rule) => Object.keys(rule.subjects));
  expect(Object.keys(unreadSubjects).filter((subject) => read.includes(subject))).toEqual([]);
});

describe('the shipped rule sets', () => {
  it('say nothing that they would tell a user of', () => {
    for (const shipped of shippedRuleSets()) {
      expect(shipped.limits.length).toBeGreaterThan(0);
      for (const limit of shipped.limits) expect(limit.citation, `${shipped.name} ${limit.subject}`).toBeDefined();
    }
  });
});
