import { anchorsOf } from '../../fit/piece-anchors.ts';
import type { Step } from '../../fit/steps.ts';
import { stepsOf } from '../../fit/steps.ts';
import { insertAnchorAt } from '../../fixes/anchor-fixes.ts';
import type { SillPiece, Wall } from '../../model/layout.ts';
import { compareLength, leastLength, mostLength } from '../../rulesets/compare.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import type { Length } from '../../units/length.ts';
import { magnitude, minus, nanometres, plus } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { sourceWords } from '../limit-words.ts';

const subjects = ['step-first-anchor', 'step-second-anchor'] as const;

export const stepSideBare = defineRule({
  id: 'anchorage/step-side-bare',
  severity: 'error',
  on: 'wall',
  summary:
    'A board beside a step of the foundation lacks an anchor where the rule set asks one, counted from the step.',
  why: 'At a step the force leaves one level for the other. Anchors close to it on both sides carry it down before the boards pull apart.',
  remedy: 'Add an anchor at the distance that the rule set asks, on each side of the step.',
  subjects: { 'step-first-anchor': 'length', 'step-second-anchor': 'length', tolerance: 'length' },
  examples: [
    {
      failing: stepped([`1'-0"`, `5'-0"`, `7'-0"`, `9'-0"`, `11'-0"`, `15'-0"`, `19'-0"`]),
      passing: stepped([`1'-0"`, `5'-0"`, `7'-0"`, `9'-0"`, `11'-0"`, `13'-0"`, `15'-0"`, `19'-0"`]),
    },
  ],
  check({ wall }, context) {
    const { steps, unknown } = stepsOf(wall);
    const asksOfSteps = subjects.some(
      (subject) => context.limit(subject, { 'step-height': someHeight }).kind !== 'none',
    );
    if (!asksOfSteps) return;
    for (const each of unknown) context.lacks({ wants: each.wants, at: each.source, thing: each.thing });
    for (const step of steps) {
      for (const subject of subjects) {
        const query = { 'step-height': { kind: 'length', length: magnitude(step.jump) } } as const;
        const answer = context.limit(subject, query);
        if (answer.kind !== 'limit') continue;
        for (const side of ['left', 'right'] as const) {
          const piece = pieceBeside(wall, step, side);
          const least = leastLength(answer.limit)?.reach;
          const wanted = least ?? mostLength(answer.limit)?.reach;
          if (!piece || wanted === undefined) continue;
          const tolerance = toleranceOf(context.layout.rules);
          const keeps = anchorsOf(wall, piece).some((anchor) => {
            const distance = magnitude(minus(anchor.station, step.station));
            return answer.limit.bounds.every((bound) => compareLength(bound, distance, tolerance));
          });
          if (keeps) continue;
          report(wall, piece, step, side, wanted, sourceWords(answer.limit), answer.limit.citation, subject, context);
        }
      }
    }
  },
});

/** Any step there may be: asked only to see whether the rules speak of steps at all. */
const someHeight = { kind: 'unknown', wants: 'height of the step' } as const;

function pieceBeside(wall: Wall, step: Step, side: 'left' | 'right'): SillPiece | undefined {
  return wall.pieces.find((piece) =>
    side === 'left'
      ? piece.from < step.station && step.station <= piece.to
      : piece.from <= step.station && step.station < piece.to,
  );
}

function report(
  wall: Wall,
  piece: SillPiece,
  step: Step,
  side: 'left' | 'right',
  wanted: Length,
  source: string,
  citation: Parameters<RuleContext['report']>[0]['citation'],
  subject: string,
  context: RuleContext,
): void {
  const { show, showStation } = context;
  const at = side === 'left' ? minus(step.station, wanted) : plus(step.station, wanted);
  context.report({
    message:
      `The ${show(magnitude(step.jump))} step at ${showStation(step.station)} has no anchor ${show(wanted)} from it on the ${side}, on sill ${piece.name} ` +
      `(${source}). Add one at ${showStation(at)}.`,
    about: `${piece.id} ${subject} ${side} ${step.station}`,
    thing: piece.id,
    layer: 'survey',
    piece: piece.name,
    station: step.station,
    span: piece.source,
    related: [{ span: step.source, message: 'the step' }],
    citation,
    fixes: (now) => insertAnchorAt(now, wall, piece, nanometres(at)),
  });
}

function stepped(stations: readonly string[]): string {
  return [
    'layout "Example"',
    '  rules new-house',
    '',
    'house',
    '  storeys 1',
    '',
    `wall F length 20'-0"`,
    `  foundation to 10'-0" thick 8" showing 6'-0" top 0"`,
    `  foundation to end thick 8" showing 18" top -4'-6"`,
    `  sill F1 to 10'-0" size 2x6 set-back 3/4" headroom 25-1/8" step`,
    `  sill F2 to end size 2x6 set-back 3/4" headroom 25-1/8"`,
    '',
    'work on F',
    ...stations.map((station, index) => `  anchor F-${index + 1} stepped-plate-s at ${station}`),
    '',
  ].join('\n');
}
