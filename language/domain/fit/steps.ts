import type { ThingId, Wall } from '../model/layout.ts';
import { profileAt } from '../model/reading.ts';
import type { SourceSpan } from '../model/source.ts';
import { recentOnly } from '../recent-only.ts';
import type { Length } from '../units/length.ts';
import { minus } from '../units/length.ts';

/** A place where the top of the concrete jumps. */
export interface Step {
  readonly station: Length;
  /** Upwards from left to right; never 0. */
  readonly jump: Length;
  /** The stretch of foundation on its right. */
  readonly source: SourceSpan;
  readonly thing: ThingId;
}
export interface StepsOfWall {
  readonly steps: readonly Step[];
  /** Where two stretches meet and the level of one is not known. */
  readonly unknown: readonly { readonly wants: string; readonly thing: ThingId; readonly source: SourceSpan }[];
}

const known = recentOnly<Wall['foundation'], StepsOfWall>();

/** The steps of a wall's foundation: where two stretches meet at different levels. A level that nobody wrote says nothing. */
export function stepsOf(wall: Wall): StepsOfWall {
  const before = known.get(wall.foundation);
  if (before) return before;
  const steps: Step[] = [];
  const unknown: StepsOfWall['unknown'][number][] = [];
  const stretches = wall.foundation.toSorted((a, b) => a.from - b.from);
  for (const [index, right] of stretches.entries()) {
    const left = stretches[index - 1];
    if (!left?.top || !right.top || left.to !== right.from) continue;
    const levels = [profileAt(left.top, left.to), profileAt(right.top, right.from)] as const;
    const [a, b] = levels;
    if (a.kind === 'known' && b.kind === 'known') {
      const jump = minus(b.value, a.value);
      if (jump !== 0) steps.push({ station: right.from, jump, source: right.source, thing: right.id });
    } else {
      const stretch = a.kind === 'unknown' ? left : right;
      unknown.push({ wants: `top of the concrete of wall ${wall.name}`, thing: stretch.id, source: stretch.source });
    }
  }
  const result = { steps, unknown };
  known.set(wall.foundation, result);
  return result;
}
