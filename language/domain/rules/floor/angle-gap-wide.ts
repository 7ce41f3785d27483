import { storeysOver } from '../../fit/storeys.ts';
import type { AngleRun, Layout, Wall } from '../../model/layout.ts';
import { mostLength } from '../../rulesets/compare.ts';
import type { ConditionFact, LimitQuery } from '../../rulesets/limit-for.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import type { Length } from '../../units/length.ts';
import { minus } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { limitWords, severityOf } from '../limit-words.ts';

export const angleGapWide = defineRule({
  id: 'floor/angle-gap-wide',
  severity: 'error',
  on: 'wall',
  summary: 'Two neighbouring framing angles of a wall stand further apart than the rule set allows.',
  why: 'Framing angles are what keeps the floor from sliding off the sill or the top plate; between two of them nothing else may hold it.',
  remedy: 'Add an angle in the gap, or set them closer.',
  subjects: { 'angle-spacing': 'length', tolerance: 'length' },
  examples: [
    {
      failing: withAngles(`1'-0", 3'-8", 6'-6", 9'-0"`),
      passing: withAngles(`1'-0", 3'-8", 6'-4", 9'-0"`),
    },
  ],
  check({ wall }, context) {
    const { layout, show, showStation } = context;
    for (const run of wall.angles) {
      for (const wants of run.lacking) context.lacks({ wants, at: run.source, thing: run.id });
    }
    const angles = wall.angles
      .flatMap((run) => run.stations.map((station, index) => ({ run, station, mark: markOf(run, index) })))
      .sort((a, b) => a.station - b.station);
    for (const [index, right] of angles.entries()) {
      const left = angles[index - 1];
      if (!left) continue;
      for (const query of queriesOver(layout, wall, left.station, right.station)) {
        const answer = context.limit('angle-spacing', query);
        const most = answer.kind === 'limit' ? mostLength(answer.limit) : undefined;
        if (answer.kind === 'depends') context.lacks({ wants: answer.wants, at: left.run.source, thing: left.run.id });
        if (answer.kind !== 'limit' || !most) continue;
        const width = minus(right.station, left.station);
        const bare = withoutSill(wall, left.station, right.station);
        if (width - bare <= most.reach + toleranceOf(layout.rules)) continue;
        context.report({
          message:
            `${show(width)} between framing angles ${left.mark} at ${showStation(left.station)} and ${right.mark} at ${showStation(right.station)} ` +
            `on wall ${wall.name}: ${limitWords({ limit: answer.limit, query }, 'most', context)}. Add an angle between them.`,
          severity: severityOf(answer.limit, 'error'),
          thing: left.run.id,
          about: `${left.mark} ${right.mark}`,
          layer: 'design',
          station: left.station,
          stationTo: right.station,
          span: left.run.source,
          related:
            right.run === left.run ? [] : [{ span: right.run.source, message: `right end of the gap, ${right.mark}` }],
          citation: answer.limit.citation,
        });
        break;
      }
    }
  },
});

/** How much of a stretch has no sill, as at a chimney: there is nothing there to tie the floor to. */
function withoutSill({ pieces }: Wall, from: Length, to: Length): number {
  if (pieces.length === 0) return 0;
  let reached = from;
  let bare = 0;
  for (const piece of pieces.toSorted((a, b) => a.from - b.from)) {
    if (piece.from > reached) bare += Math.max(0, Math.min(piece.from, to) - reached);
    if (piece.to > reached) reached = piece.to;
    if (reached >= to) return bare;
  }
  return bare + minus(to, reached);
}

/** An angle of a line of angles: `F-A1.3`. */
const markOf = (run: AngleRun, index: number): string => `${run.name}.${index + 1}`;

function queriesOver(layout: Layout, wall: Wall, from: Length, to: Length): readonly LimitQuery[] {
  return storeysOver(layout, wall, { from, to }).map((reading) => {
    const storeys: ConditionFact =
      reading?.kind === 'known'
        ? { kind: 'number', number: reading.value }
        : { kind: 'unknown', wants: `storeys above wall ${wall.name}` };
    return { storeys };
  });
}

function withAngles(stations: string): string {
  return `${demo({ anchors: sound })}  angles F-A1 angle-8 at ${stations}\n`;
}
