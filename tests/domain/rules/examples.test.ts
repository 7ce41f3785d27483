import { describe, expect, it } from 'vitest';
import { checkLayout } from '../../../language/domain/rules/check-layout.ts';
import { rules } from '../../../language/domain/rules/registry.ts';
import { readLayout } from '../../support/read-layout.ts';

/** What is only for information, an anchor set past a window for example, goes along with what the example shows. */
const found = (text: string, id: string): readonly string[] => {
  const { layout, problems } = readLayout(text);
  expect(problems.map((each) => each.message)).toEqual([]);
  return checkLayout(layout)
    .findings.filter((each) => each.rule === id || each.severity !== 'info')
    .map((each) => each.rule);
};

describe.each(rules.map((rule) => [rule.id, rule] as const))('%s', (id, rule) => {
  it('fires once on its failing examples and on nothing else there', () => {
    for (const { failing } of rule.examples) expect(found(failing, id)).toEqual([id]);
  });

  it('does not fire on its passing examples', () => {
    for (const { passing } of rule.examples) expect(found(passing, id)).not.toContain(id);
  });

  it('says when, why and what to do, and speaks no forbidden word', () => {
    for (const text of [rule.summary, rule.why, rule.remedy]) {
      expect(text.trim().length).toBeGreaterThan(10);
      expect(text).not.toMatch(/\b(safe|compliant|passes code|no problems|invalid)\b/i);
    }
  });
});

describe('the registry', () => {
  it('ends with the rules that hear of the others', () => {
    expect(rules.slice(-2).map((rule) => rule.id)).toEqual(['document/accept-unused', 'internal/rule-crashed']);
  });
});
