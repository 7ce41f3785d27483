import { describe, expect, it, vi } from 'vitest';
import { createAnalyser } from '../../../language/analysis.ts';
import { rules } from '../../../language/domain/rules/registry.ts';
import { houseOf } from '../../support/houses/house.ts';
import { MAIN, memoryHost } from '../../support/memory-host.ts';

/** The rules on the house that look again when a text is edited. */
function lookingAgain(edit: (text: string) => string): readonly string[] {
  const text = houseOf(7, { design: true }).text;
  const files = new Map([[MAIN, text]]);
  const analyser = createAnalyser(memoryHost(files));
  analyser.analyse(MAIN);
  const edited = edit(text);
  expect(edited).not.toBe(text);
  files.set(MAIN, edited);
  const again: string[] = [];
  const spies = rules
    .filter(({ on }) => on === 'house')
    .map((rule) => {
      const check = rule.check.bind(rule) as typeof rule.check;
      return vi.spyOn(rule, 'check').mockImplementation((subject, context) => {
        again.push(rule.id);
        check(subject as never, context);
      });
    });
  analyser.analyse(MAIN);
  for (const spy of spies) spy.mockRestore();
  return again;
}

describe('a rule on the whole house', () => {
  it('does not look again where new work on a wall is edited that it does not look at', () => {
    const again = lookingAgain((text) => text.replace(/^(\s+anchor\s+\S+\s+\S+\s+at\s+)(\d)/m, '$11$2'));
    expect(again).not.toContain('screening/plan-irregular');
    expect(again).not.toContain('geometry/unit-suspect');
    expect(again).not.toContain('geometry/outline-open');
  });

  it('looks again where the part of a wall is edited that it looks at', () => {
    const shorter = lookingAgain((text) => text.replace(/^(wall .*length \d+)(?=')/m, '$10'));
    expect(shorter).toContain('geometry/outline-open');
    expect(shorter).toContain('screening/plan-irregular');
    const thinner = lookingAgain((text) => text.replace(/(foundation .*?thick )(\d+)/, '$11$2'));
    expect(thinner).toContain('geometry/unit-suspect');
  });
});
