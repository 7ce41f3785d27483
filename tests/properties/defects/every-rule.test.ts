import { describe, expect, it } from 'vitest';
import { rules } from '../../../language/domain/rules/registry.ts';
import { analyse } from '../../support/analyse.ts';
import { emptied } from '../../support/emptied.ts';
import { defects } from './defects.ts';
import { missedWhenEmptied } from './missed-when-emptied.ts';
import { testsNaming } from './tests-by-rule.ts';

const meant = new Set(defects.map(({ rule }) => rule));

describe.each(rules.map((rule) => [rule.id, rule] as const))('%s', (id, rule) => {
  it('is meant by a mistake that is injected, or by a test of its own', () => {
    expect(meant.has(id) || testsNaming(id).length > 0).toBe(true);
  });

  it('says nothing on its examples once its check is taken out', () => {
    const says = (text: string): boolean => analyse(text).findings.some((finding) => finding.rule === id);
    for (const { failing } of rule.examples) {
      const restore = emptied(id);
      try {
        expect(says(failing)).toBe(false);
      } finally {
        restore();
      }
      expect(says(failing)).toBe(true);
    }
  });

  it('lets the mistakes that it is meant to catch go by once its check is taken out', () => {
    expect(missedWhenEmptied(id).filter(({ missed }) => !missed)).toEqual([]);
  });
});

describe('the mistakes that are injected', () => {
  it('name rules that there are', () => {
    const known = new Set<string>(rules.map(({ id }) => id));
    // Found in reading, before any rule looks at the house.
    const inReading = ['geometry/duplicate-mark', 'geometry/station-outside-wall'];
    expect([...meant].filter((rule) => !known.has(rule)).sort()).toEqual(inReading);
  });

  it('mean every rule on errors that one slip in a legal house can break', () => {
    const grave = rules.filter(({ severity }) => severity === 'error' || severity === 'stop');
    const without = grave.filter(({ id }) => !meant.has(id)).map(({ id }) => id);
    // Two bolts a finger apart round a corner break both end distances as well; only new houses are asked for anchors at steps.
    expect(without).toEqual(['anchorage/corner-anchor-shared', 'anchorage/step-side-bare']);
  });
});
