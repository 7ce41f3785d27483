import { describe, expect, it } from 'vitest';
import { checkPlacement } from '../../language/domain/placement/check.ts';
import { problemOfInstance, verifyPlacement } from '../../language/domain/placement/verify-instances.ts';
import file from './placement-cases.json' with { type: 'json' };

/**
 * Walls with known optima. Source: proven by mixed-integer programs (HiGHS in SciPy 1.17, gap 0) and by a dynamic program
 * over sixteenths, as each case says under `proof`; no published collection of such walls was found.
 */
describe('walls with proven optima', () => {
  const answers = verifyPlacement(file);

  it.each(file.cases.map((wall, index) => ({ wall, answer: answers[index] })))(
    '$wall.id: $wall.note',
    ({ wall, answer }) => {
      const { status, cost, slack } = { cost: undefined, slack: undefined, ...wall.expected };
      expect({ status: answer?.status, cost: answer?.cost, slack: answer?.slack }).toEqual({ status, cost, slack });
    },
  );

  it('the checker accepts the certificate of each case, at its cost and its slack', () => {
    for (const wall of file.cases) {
      if (!('certificate' in wall) || wall.certificate === undefined || !('cost' in wall.expected)) continue;
      const problem = problemOfInstance(wall);
      if (typeof problem === 'string') throw new Error(problem);
      const anchors = wall.certificate.map(({ x, type }) => ({
        piece: problem.pieces.find((piece) => piece.from < x && x < piece.to)?.id ?? '',
        station: x,
        kind: type,
      }));
      const check = checkPlacement(problem, anchors);
      expect({ id: wall.id, violations: check.violations, cost: check.cost, slack: check.slack }).toEqual({
        id: wall.id,
        violations: [],
        cost: wall.expected.cost,
        slack: wall.expected.slack,
      });
    }
  });
});
