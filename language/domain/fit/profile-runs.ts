import type { Stretch } from '../model/layout.ts';
import type { Profile } from '../model/reading.ts';
import { profileAt } from '../model/reading.ts';
import type { Length } from '../units/length.ts';
import { nanometres } from '../units/length.ts';

/** Where a varying value breaks a bound, and where nobody can tell: closed runs of whole nanometres, in order. */
export interface ProfileRuns {
  readonly failing: readonly Stretch[];
  readonly unknown: readonly Stretch[];
}

/**
 * @param passes must be one-sided (true above some value and false below it, or the other way): between two readings the
 * value runs straight, so it passes that value once at most
 */
export function runsOf(profile: Profile, stretch: Stretch, passes: (value: Length) => boolean): ProfileRuns {
  const corners = [
    stretch.from,
    ...profile.points.map((point) => point.station).filter((station) => station > stretch.from && station < stretch.to),
    stretch.to,
  ];
  const failing: Stretch[] = [];
  const unknown: Stretch[] = [];
  corners.forEach((to, index) => {
    const from = corners[index - 1];
    if (from === undefined) return;
    const left = profileAt(profile, from);
    const right = profileAt(profile, to);
    if (left.kind === 'unknown' || right.kind === 'unknown') {
      add(
        unknown,
        left.kind === 'unknown' ? from : nanometres(from + 1),
        right.kind === 'unknown' ? to : nanometres(to - 1),
      );
      if (left.kind === 'known' && !passes(left.value)) add(failing, from, from);
      if (right.kind === 'known' && !passes(right.value)) add(failing, to, to);
      return;
    }
    const passesLeft = passes(left.value);
    const passesRight = passes(right.value);
    if (passesLeft && passesRight) return;
    const failsAt = (station: Length): boolean => {
      const value = profileAt(profile, station);
      return value.kind === 'known' && !passes(value.value);
    };
    if (!passesLeft && !passesRight) add(failing, from, to);
    else if (passesRight) add(failing, from, lastThat(failsAt, from, to));
    else add(failing, firstThat(failsAt, from, to), to);
  });
  return { failing, unknown };
}

/** Runs that meet, or leave no whole nanometre between them, are one. */
function add(runs: Stretch[], from: Length, to: Length): void {
  if (to < from) return;
  const last = runs[runs.length - 1];
  if (last && from <= last.to + 1) {
    if (to > last.to) runs[runs.length - 1] = { from: last.from, to };
  } else runs.push({ from, to });
}

/** `test` holds at `from`, not at `to`, and changes once. */
function lastThat(test: (station: Length) => boolean, from: Length, to: Length): Length {
  let low: number = from;
  let high: number = to;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (test(nanometres(middle))) low = middle;
    else high = middle;
  }
  return nanometres(low);
}

/** `test` holds at `to`, not at `from`, and changes once. */
function firstThat(test: (station: Length) => boolean, from: Length, to: Length): Length {
  return nanometres(lastThat((station) => !test(station), from, to) + 1);
}
