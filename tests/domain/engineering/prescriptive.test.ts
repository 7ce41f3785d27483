import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  fewestBolts,
  newHouseCrippleBracing,
  prescriptiveBracing,
} from '../../../language/domain/engineering/prescriptive.ts';
import { feet, inches } from '../../../language/domain/units/length.ts';

describe('arithmetic on the prescriptive tables (IEBC appendix chapter A3)', () => {
  it('a short wall is braced by its two end panels, whatever the share asks', () => {
    const bracing = prescriptiveBracing(feet(10), 1, false, feet(3));
    expect([bracing.total.number, bracing.leastPanel.number, bracing.totalWithEnds.number]).toEqual([4, 6, 12]);
    expect(bracing.totalWithEnds.notes).toContain('L_e governs');
  });

  it('the demo: half of 36 ft-4 in and of 28 ft-2 in (invented house)', () => {
    expect(prescriptiveBracing(feet(36 + 4 / 12), 2, false, inches(30)).total.value).toBe(feet(18) + inches(2));
    expect(prescriptiveBracing(feet(28 + 2 / 12), 2, false, inches(30)).total.value).toBe(feet(14) + inches(1));
  });

  it('so many bolts do, one less does not', () => {
    const length = fc.double({ min: 12, max: 80, noNaN: true });
    fc.assert(
      fc.property(length, fc.constantFrom(4, 6), (piece, spacing) => {
        const count = fewestBolts(feet(piece), feet(spacing), inches(12)).number;
        const reach = (bolts: number) => (bolts - 1) * spacing + 2;
        expect(reach(count)).toBeGreaterThanOrEqual(piece - 1e-6);
        expect(reach(count - 1)).toBeLessThan(piece + 1e-6);
      }),
    );
  });

  it('new houses: 1.15 times the storey above, 1.5 where an inner line has no footing', () => {
    expect(newHouseCrippleBracing(feet(8), false).number).toBeCloseTo(9.2, 9);
    expect(newHouseCrippleBracing(feet(8), true).number).toBeCloseTo(12, 9);
  });
});
