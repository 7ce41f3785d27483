import { spawnSync } from 'node:child_process';
import process from 'node:process';
import { describe, expect, it } from 'vitest';
import type { Rule } from '../../language/domain/rules/define.ts';
import { rules } from '../../language/domain/rules/registry.ts';
import { filesBelow, read, root } from './sources.ts';

const byId = (list: readonly Rule[]): readonly string[] => list.map((rule) => rule.id).toSorted();

describe('the list of rules', () => {
  it('has every rule file, under the path that its id says', () => {
    const files = filesBelow('language/domain/rules', /\.ts$/)
      .filter((path) => path.split('/').length === 5 && /defineRule/.test(read(path)))
      .map((path) => path.slice('language/domain/rules/'.length, -'.ts'.length));
    expect(files.length).toBeGreaterThan(0);
    expect(byId(rules)).toEqual(files.toSorted());
  });

  it('names each rule once, in order: those on things and walls first, then those on the house, which hear of them', () => {
    const ids = rules.map((rule) => rule.id);
    expect(new Set(ids).size).toBe(ids.length);
    const onHouse = rules.map((rule) => rule.on === 'house');
    expect(onHouse).toEqual(onHouse.toSorted((a, b) => Number(a) - Number(b)));
    const others = rules.filter((rule) => rule.on !== 'house');
    const groups = [...new Set(others.map((rule) => rule.id.split('/')[0]))];
    for (const group of groups) {
      const own = others.filter((rule) => rule.id.startsWith(`${group}/`));
      expect(own.map((rule) => rule.id)).toEqual(byId(own));
    }
  });

  it('says of each when it fires, why it matters and what to do', () => {
    for (const rule of rules) {
      expect(rule.id).toMatch(/^[a-z]+(-[a-z]+)*\/[a-z0-9]+(-[a-z0-9]+)*$/);
      for (const text of [rule.summary, rule.why, rule.remedy]) expect(text, rule.id).toMatch(/^\S[\s\S]*[.!?`"]$/);
      expect(rule.summary, rule.id).not.toContain('\n');
    }
  });
});

describe('the rule pages', () => {
  it('are what the rules say', () => {
    const { status, stderr } = spawnSync(process.execPath, ['scripts/rule-pages.ts', '--check'], {
      cwd: root,
      encoding: 'utf8',
    });
    expect(stderr).toBe('');
    expect(status).toBe(0);
  });
});
