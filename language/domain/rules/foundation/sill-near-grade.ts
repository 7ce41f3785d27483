import { runsOf } from '../../fit/profile-runs.ts';
import type { SillPiece, Stretch, Wall } from '../../model/layout.ts';
import type { Profile } from '../../model/reading.ts';
import { knownValue, profileAt } from '../../model/reading.ts';
import { leastLength } from '../../rulesets/compare.ts';
import type { Length } from '../../units/length.ts';
import { larger, smaller } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { limitWords, severityOf } from '../limit-words.ts';

const low = `thick 8" showing 18" top 0" grade 7-7/8"`;

export const sillNearGrade = defineRule({
  id: 'foundation/sill-near-grade',
  severity: 'warning',
  on: 'wall',
  summary: 'Untreated wood of the sill lies near the soil outside.',
  why: 'Wood near the soil stays damp, rots from where nobody looks, and feeds insects. New anchors in it do not last.',
  remedy: 'Dig the soil away outside, replace the board by treated wood, or ask the official.',
  subjects: { 'sill-above-grade': 'length' },
  examples: [
    {
      failing: demo({ anchors: sound, foundation: low, sill: `size 2x6 set-back 3/4" headroom 11-1/8" untreated` }),
      passing: demo({ anchors: sound, foundation: low, sill: `size 2x6 set-back 3/4" headroom 11-1/8" treated` }),
    },
  ],
  check({ wall }, context) {
    if (wall.role === 'interior') return;
    const answer = context.limit('sill-above-grade', {});
    if (answer.kind !== 'limit') return;
    const { limit } = answer;
    const least = leastLength(limit)?.reach;
    if (least === undefined) return;
    const { show, showStation } = context;
    const lows = lowStretches(wall, least, context);
    for (const run of joined(lows)) {
      const boards = [...new Set(run.parts.map((part) => part.piece.name))];
      const lowest = run.parts.reduce((best, each) => (each.height < best.height ? each : best));
      context.report({
        message:
          `${boards.length === 1 ? 'Sill' : 'Sills'} ${boards.join(', ')}, untreated, ${boards.length === 1 ? 'lies' : 'lie'} ${show(lowest.height)} above the soil ` +
          `outside, ${showStation(run.from)} to ${showStation(run.to)} of wall ${wall.name}: ${limitWords({ limit, query: {} }, 'least', context)}. Dig it away, or use treated wood.`,
        severity: severityOf(limit, 'warning'),
        about: `${wall.id} ${boards[0] ?? ''}`,
        ...(boards.length === 1 ? { piece: boards[0] } : {}),
        station: run.from,
        stationTo: run.to,
        span: run.parts[0]?.piece.source ?? wall.nameSource,
        related: [...new Set(run.parts.map((part) => part.piece))]
          .slice(1)
          .map((piece) => ({ span: piece.source, message: `sill ${piece.name}` })),
        citation: limit.citation,
      });
    }
  },
});

interface LowStretch extends Stretch {
  readonly piece: SillPiece;
  readonly height: Length;
}

function lowStretches(wall: Wall, least: Length, context: RuleContext): readonly LowStretch[] {
  const lows: LowStretch[] = [];
  for (const { from, to, grade, id, source } of wall.foundation) {
    if (!grade) continue;
    for (const piece of wall.pieces) {
      const part = { from: larger(from, piece.from), to: smaller(to, piece.to) };
      if (part.from >= part.to || piece.treated === true) continue;
      const { failing, unknown } = runsOf(grade, part, (value) => value >= least);
      if (unknown.length > 0) context.lacks({ wants: `soil outside wall ${wall.name}`, at: source, thing: id });
      if (failing.length === 0) continue;
      if (piece.treated === undefined) {
        context.lacks({ wants: `whether sill ${piece.name} is treated`, at: piece.source, thing: piece.id });
        continue;
      }
      lows.push(...failing.map((each) => ({ ...each, piece, height: lowestIn(grade, each) })));
    }
  }
  return lows.sort((a, b) => a.from - b.from);
}

function lowestIn(profile: Profile, run: Stretch): Length {
  const inside = profile.points.filter((point) => run.from <= point.station && point.station <= run.to);
  const heights = [run.from, ...inside.map((point) => point.station), run.to].flatMap(
    (station) => knownValue(profileAt(profile, station)) ?? [],
  );
  return heights.reduce(smaller, heights[0] ?? run.from);
}

/** Low soil along several boards or stretches is one matter. */
function joined(
  lows: readonly LowStretch[],
): readonly { readonly from: Length; readonly to: Length; readonly parts: readonly LowStretch[] }[] {
  const runs: { from: Length; to: Length; parts: LowStretch[] }[] = [];
  for (const each of lows) {
    const last = runs[runs.length - 1];
    if (last && each.from <= last.to) {
      last.to = larger(last.to, each.to);
      last.parts.push(each);
    } else runs.push({ from: each.from, to: each.to, parts: [each] });
  }
  return runs;
}
