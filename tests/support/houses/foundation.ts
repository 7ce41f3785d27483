import type { RunFacts, Timber } from './facts.ts';
import { INCH, MILLIMETRE } from './facts.ts';
import type { Random } from './random.ts';

/** What the house has in common: every level follows from these. */
export interface HouseFrame {
  readonly units: 'feet-inches' | 'metric';
  readonly sill: Timber;
  readonly stud: Timber;
  readonly floorUnderside: number;
  readonly joistDepth: number;
  /** Plates over the studs. */
  readonly plates: 1 | 2;
  readonly studSpacing: number;
}

/** `none`: the joists lie on the sill · `low`: no room to drill from above · `tall`: room for a drill. */
export type Level = 'none' | 'low' | 'tall';

/** Rounded down to what is read off a tape: 1/8 in or 1 mm. */
export function onTape(frame: HouseFrame, nanometres: number): number {
  const step = frame.units === 'metric' ? MILLIMETRE : INCH / 8;
  return Math.floor(nanometres / step) * step;
}

export function inches(frame: HouseFrame, count: number): number {
  return onTape(frame, count * INCH);
}

/**
 * One stretch of stem wall between steps. The chain of levels holds at both ends: top of concrete, height of the cripple wall (or the
 * sill alone) and the underside of the joists.
 */
export function foundationRun(
  random: Random,
  frame: HouseFrame,
  place: {
    readonly from: number;
    readonly to: number;
    readonly level: Level;
    readonly height: number;
    readonly mayslope: boolean;
  },
): RunFacts {
  const { from, to, level, height, mayslope } = place;
  const thick = random.pick([
    inches(frame, 6.5),
    inches(frame, 7),
    inches(frame, 7.25),
    inches(frame, 8),
    inches(frame, 8),
  ]);
  const showing = inches(frame, random.integer(20, 60) / 2);
  const grade = inches(frame, random.integer(16, 26) / 2);
  const double = random.chance(0.06);
  const sill = double ? 2 * frame.sill.thick : frame.sill.thick;
  const showingRight = random.chance(0.3) ? showing + inches(frame, random.integer(1, 4)) : showing;
  if (level === 'none') {
    const top = frame.floorUnderside - sill;
    return { from, to, thick, showing: [showing, showingRight], grade, top: [top, top], double, cripple: undefined };
  }
  const right = mayslope && random.chance(0.35) ? height + inches(frame, random.integer(1, 4)) : height;
  const studHeight = (overall: number): number => overall - sill - frame.plates * frame.stud.thick;
  return {
    from,
    to,
    thick,
    showing: [showing, showingRight],
    grade,
    top: [frame.floorUnderside - height, frame.floorUnderside - right],
    double,
    cripple: { height: [height, right], studHeight: [studHeight(height), studHeight(right)] },
  };
}

/** Overall height of a cripple wall of a level: a drill needs 24 in over the sill, the rule set allows 4 ft. */
export function heightFor(random: Random, frame: HouseFrame, level: Level): number {
  if (level === 'none') return frame.sill.thick;
  return level === 'low' ? inches(frame, random.integer(14, 22)) : inches(frame, random.integer(32, 43));
}
