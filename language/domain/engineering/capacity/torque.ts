import type { Force } from '../../units/force.ts';
import type { Length } from '../../units/length.ts';
import type { Moment } from '../../units/moment.ts';
import { formula } from '../formula.ts';
import { section } from '../publications.ts';
import type { Input, Traced } from '../trace.ts';
import { asInput, computed } from '../trace.ts';
import { factor, footPound, inch, pound } from '../trace-units.ts';

/** About 0.2 for dry threads: common practice, no source. */
export const dryThreadFriction = 0.2;

/** Torque that puts a tension into a threaded rod, ft-lb: K D F / 12. Found in an engineers' mailing list of 2010. */
export function torqueFor(
  tension: Input<Force>,
  diameter: Input<Length>,
  friction: Input<number> = dryThreadFriction,
): Traced<Moment> {
  const inputs = [
    asInput('K', 'nut factor', factor, friction, { section: section('common practice', '', 'common-practice') }),
    asInput('D', 'rod diameter', inch, diameter),
    asInput('F', 'tension in the rod', pound, tension),
  ];
  return computed(
    'T',
    'torque',
    footPound,
    torqueRule,
    inputs,
    section("engineers' mailing list", '2010', 'published'),
  );
}
const torqueRule = formula('K * D * F / 12');

/** Least torque of tested anchors, ft-lb by diameter, in the masonry chapter: a point of reference only. IEBC A107 (recalled). */
export const masonryTestTorques = {
  section: section('IEBC A1', 'A107', 'recalled'),
  footPounds: { '1/2 in': 40, '5/8 in': 50, '3/4 in': 60 },
} as const;
