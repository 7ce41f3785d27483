import { describe, expect, it } from 'vitest';
import type { Storeys } from '../../language/domain/engineering/prescriptive.ts';
import {
  bracingShares,
  existingHouseAnchorage,
  printedFigures,
  shortPieceAnchors,
} from '../../language/domain/engineering/prescriptive.ts';
import type { ConditionFact, LimitQuery } from '../../language/domain/rulesets/limit-for.ts';
import { limitFor } from '../../language/domain/rulesets/limit-for.ts';
import type { LimitValue } from '../../language/domain/rulesets/rule-set.ts';
import type { Length } from '../../language/domain/units/length.ts';
import { feet, inches, inInches } from '../../language/domain/units/length.ts';
import { readLayout } from '../support/read-layout.ts';

/*
 * The engineering tables and the shipped rule set were entered by different hands from the same printed tables
 * (IEBC appendix chapter A3): where they differ, one of them is wrong.
 */
const { rules } = readLayout('layout "Rules"\n  rules existing-building\n').layout;
const number = (count: number): ConditionFact => ({ kind: 'number', number: count });
const long = (length: Length): ConditionFact => ({ kind: 'length', length });
const plainly = (value: LimitValue): number =>
  value.kind === 'length' ? inInches(value.length) : value.kind === 'quantity' ? value.quantity.amount : value.number;
function ask(subject: string, query: LimitQuery): readonly number[] | string {
  const answer = limitFor(rules, subject, query);
  return answer.kind === 'limit' ? answer.limit.bounds.map((bound) => plainly(bound.value)) : answer.kind;
}

describe('the shipped existing-building rule set and the engineering tables', () => {
  const all: readonly Storeys[] = [1, 2, 3];

  it('space the bolts of long boards alike (Table A304.3.1)', () => {
    for (const storeys of all) {
      for (const { bolt, spacing } of existingHouseAnchorage[storeys]) {
        expect(ask('anchor-spacing', { storeys: number(storeys), bolt: long(bolt), piece: long(feet(20)) })).toEqual([
          inInches(spacing),
        ]);
      }
    }
  });

  it('count the anchors of short boards alike (Table A304.3.2)', () => {
    for (const storeys of all) {
      const { sixFeetUp, thirtyInchesUp, shorter } = shortPieceAnchors[storeys];
      const count = (piece: Length, bolt: Length = inches(0.5)) =>
        ask('piece-count', { storeys: number(storeys), bolt: long(bolt), piece: long(piece) });
      for (const { bolt, anchors } of sixFeetUp) expect(count(feet(8), bolt)).toEqual([anchors]);
      expect(count(feet(4))).toEqual([thirtyInchesUp]);
      expect(count(inches(20))).toEqual([shorter]);
    }
  });

  it('brace the same share of a line (Table A304.3.1)', () => {
    for (const storeys of all) {
      const [other, heavy] = [{}, { heavy: { kind: 'holds' } }].map((more) =>
        ask('bracing-share', { storeys: number(storeys), ...more } as LimitQuery),
      );
      expect([other, heavy]).toEqual([[bracingShares[storeys].other], [bracingShares[storeys].heavy]]);
    }
  });

  it('bore the same holes (A304.4.3) and ask the same of a side plate (A304.3.1)', () => {
    const at = (place: string) =>
      printedFigures.find((each) => each.section.publication === 'IEBC A3' && each.section.place === place)?.figures;
    expect(ask('vent-hole', {})).toEqual(at('A304.4.3')?.hole_in);
    expect(ask('vent-hole-clear', {})).toEqual([at('A304.4.3')?.clear_to_plates_in]);
    const [newtons] = ask('side-plate-capacity', {});
    expect(Number(newtons) / 4.4482216152605).toBeCloseTo(Number(at('A304.3.1')?.alt_connection_min_shear_lb), 9);
  });
});
