import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { subjectsPage } from '../../../language/domain/documents/subjects-page.ts';
import { rules } from '../../../language/domain/rules/registry.ts';
import { shippedConnectors, shippedRuleSets } from '../../../language/syntax/shipped-rule-sets.ts';

describe('the page of subjects', () => {
  const page = subjectsPage(shippedRuleSets(), shippedConnectors());

  it('is the one in docs', () => {
    const written = readFileSync(join(import.meta.dirname, '../../../docs/subjects.md'), 'utf8');
    expect(written.replaceAll('\r\n', '\n')).toBe(page);
  });

  it('names every subject with its kind, the rules that read it and the sets that give it', () => {
    const row = (subject: string) => page.split('\n').find((line) => line.startsWith(`| \`${subject}\` |`)) ?? '';
    expect(row('anchor-spacing')).toContain('| length |');
    expect(row('anchor-spacing')).toContain('[anchorage/gap-too-wide](rules/anchorage/gap-too-wide.md)');
    expect(row('anchor-spacing')).toContain('existing-building, los-angeles, new-building, new-house, portland');
    expect(row('near-source-factor')).toContain('no check yet | bay-area');
    expect(row('headroom-bolt')).toContain('where a connector fits');
    for (const ruleSet of shippedRuleSets())
      for (const { subject } of ruleSet.limits) expect(row(subject)).not.toBe('');
    for (const rule of rules) for (const subject of Object.keys(rule.subjects)) expect(row(subject)).toContain(rule.id);
  });

  it('names every condition with what it compares', () => {
    for (const condition of [
      'storeys` | number',
      'bolt` | length',
      'piece` | length',
      'nail` | number',
      'drill` | word',
      'heavy` | flag',
    ])
      expect(page).toContain(`| \`${condition} |`);
  });
});
