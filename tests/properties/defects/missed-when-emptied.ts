import { emptied } from '../../support/emptied.ts';
import { houseOf } from '../../support/houses/house.ts';
import { randomFrom } from '../../support/houses/random.ts';
import type { Defect } from './defect.ts';
import { defects } from './defects.ts';
import { analyserOfTexts, tryDefect } from './trial.ts';

/** For each kind of mistake that a rule is meant to catch: whether one of it stays hidden once the check of the rule is emptied. */
export function missedWhenEmptied(rule: string): readonly { readonly kind: string; readonly missed: boolean }[] {
  return defects
    .filter((defect) => defect.rule === rule)
    .map((defect) => ({ kind: defect.id, missed: isMissed(defect) }));
}

/** In the first house that has a place for it and in which it is found as long as the rule has its check. */
function isMissed(defect: Defect): boolean {
  for (let seed = 0; seed < 500; seed += 1) {
    const house = { ...houseOf(seed, { design: true }), random: randomFrom(seed) };
    const injected = defect.inject(house);
    if (!injected) continue;
    const findings = analyserOfTexts();
    const before = findings(house.text);
    if (tryDefect(defect, house, before, injected, findings)?.missed.length !== 0) continue;
    const restore = emptied(defect.rule);
    try {
      // What is kept of the walls was found with the check.
      return (tryDefect(defect, house, before, injected, analyserOfTexts())?.missed.length ?? 0) > 0;
    } finally {
      restore();
    }
  }
  return false;
}
