import { joistsOnWall } from '../../model/joists.ts';
import type { JoistRun, Wall } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import { formatExact } from '../../units/format-length.ts';
import type { Length } from '../../units/length.ts';
import { larger, minus, plus, smaller } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import type { Fix } from '../finding.ts';

const joists = (say: string): string =>
  demo({ anchors: sound, found: [`joists into size 2x10 spaced 16" ${say}`, `rim nails 8d spaced 6" verified`] });

export const joistCountOdd = defineRule({
  id: 'geometry/joist-count-odd',
  severity: 'warning',
  on: 'wall',
  summary: 'The joists as written leave more than a bay of the wall without any.',
  why: 'Bays are counted from the first joist. Where a joist is missing from the list, every bay behind it has another number on paper than on site.',
  remedy: 'Count again: the first joist, the spacing, the last one, and each that stands off the row.',
  subjects: {},
  examples: [{ failing: joists(`first 0" last 8'-0"`), passing: joists(`first 0" last 13'-4"`) }],
  check({ wall }, context) {
    const { lacking } = joistsOnWall(wall);
    const { show, showStation } = context;
    for (const wants of lacking) context.lacks({ wants, at: wall.nameSource, thing: wall.id });
    for (const run of wall.joists) {
      const spaced = run.run === 'into' ? knownValue(run.spaced) : undefined;
      if (spaced === undefined) continue;
      if (lacking.length > 0 || wall.length === undefined) continue;
      const bare = bareEnds(wall, run, spaced);
      for (const end of bare) {
        context.report({
          message:
            `${show(minus(end.to, end.from))} at the ${end.side} end of wall ${wall.name}, ${showStation(end.from)} to ${showStation(end.to)}, has no joist, ` +
            `more than one bay of ${show(spaced)} (common practice, no source). Count the joists again, or list those that stand off the row.`,
          thing: run.id,
          about: `${run.id} ${end.side}`,
          station: end.from,
          stationTo: end.to,
          span: run.source,
          fixes: (now) => shifted(run, spaced, end.side, (length) => formatExact(length, now.title.units)),
        });
      }
    }
  },
});

/** The ends of a run of joists that more than a bay lies beyond, counting joists of their own lines. */
function bareEnds(
  wall: Wall,
  run: JoistRun,
  spaced: Length,
): readonly { readonly side: 'left' | 'right'; readonly from: Length; readonly to: Length }[] {
  const { joists } = joistsOnWall(wall);
  const to = smaller(run.to, wall.length ?? run.to);
  const here = joists.filter((each) => each.station >= run.from && each.station <= to);
  const first = here[0]?.station;
  const last = here[here.length - 1]?.station;
  if (first === undefined || last === undefined) return [];
  return [
    ...(minus(first, run.from) > spaced ? [{ side: 'left' as const, from: run.from, to: first }] : []),
    ...(minus(to, last) > spaced ? [{ side: 'right' as const, from: last, to }] : []),
  ];
}

/** The row goes on at its spacing as far as the wall does. */
function shifted(
  run: JoistRun,
  spaced: Length,
  side: 'left' | 'right',
  write: (length: Length) => string,
): readonly Fix[] {
  if (side === 'left') {
    const first = run.first;
    if (first?.kind !== 'known') return [];
    const bays = Math.floor((first.value - run.from) / spaced);
    const station = larger(run.from, minus(first.value, (bays * spaced) as Length));
    return [
      {
        title: `Begin the row of joists at ${write(station)}`,
        trust: 'by-hand',
        edits: [{ kind: 'replace-text', span: first.source, text: write(station) }],
      },
    ];
  }
  const { last, first } = run;
  if (last?.kind !== 'known') return [];
  const from = knownValue(first) ?? run.from;
  const station = plus(from, (Math.floor((run.to - from) / spaced) * spaced) as Length);
  return [
    {
      title: `Let the row of joists go on to ${write(station)}`,
      trust: 'by-hand',
      edits: [{ kind: 'replace-text', span: last.source, text: write(station) }],
    },
  ];
}
