import { stepsOf } from '../../fit/steps.ts';
import { splitSillAt } from '../../fixes/refactorings.ts';
import { mostLength } from '../../rulesets/compare.ts';
import { magnitude } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { limitWords } from '../limit-words.ts';

export const stepWithoutBreak = defineRule({
  id: 'geometry/step-without-break',
  severity: 'error',
  on: 'wall',
  summary: 'The top of the concrete jumps under one sill board.',
  why: 'Wood cannot jump. Either the board ends at the step, and then it has two ends more that want anchors, or the level was misread.',
  remedy: 'End the board at the step and begin another there, or mend the level.',
  subjects: { 'level-error': 'length' },
  examples: [{ failing: stepped(''), passing: stepped(` to 10'-0"`) }],
  check({ wall }, context) {
    const { steps, unknown } = stepsOf(wall);
    const answer = context.limit('level-error', {});
    const most = answer.kind === 'limit' ? mostLength(answer.limit) : undefined;
    if (answer.kind !== 'limit' || !most) return;
    for (const each of unknown) context.lacks({ wants: each.wants, at: each.source, thing: each.thing });
    const { show, showStation } = context;
    for (const step of steps) {
      const piece = wall.pieces.find((each) => each.from < step.station && step.station < each.to);
      if (!piece || magnitude(step.jump) <= most.reach) continue;
      context.report({
        message:
          `The top of the concrete jumps ${show(magnitude(step.jump))} at ${showStation(step.station)} under one board, sill ${piece.name}: ` +
          `${limitWords({ limit: answer.limit, query: {} }, 'most', context)}. End the board at the step, or mend the level.`,
        thing: piece.id,
        about: `${wall.id} ${step.station}`,
        piece: piece.name,
        station: step.station,
        span: piece.source,
        related: [{ span: step.source, message: 'the level on the right of the step' }],
        citation: answer.limit.citation,
        fixes: (now) => splitSillAt(now, wall, step.station, 'step'),
      });
    }
  },
});

function stepped(to: string): string {
  return [
    'layout "Example"',
    '  rules existing-building',
    '',
    'house',
    '  storeys 1',
    '',
    `wall F length 20'-0"`,
    `  foundation to 10'-0" thick 8" showing 24" top 0"`,
    `  foundation to end thick 8" showing 18" top -8"`,
    `  sill F1${to} size 2x6 set-back 3/4" headroom 25-1/8"`,
    ...(to === '' ? [] : [`  sill F2 to end size 2x6 set-back 3/4" headroom 25-1/8"`]),
    '',
    'work on F',
    ...[`1'-0"`, `5'-0"`, `9'-0"`, `11'-0"`, `15'-0"`, `19'-0"`].map(
      (station, index) => `  anchor F-${index + 1} stepped-plate-s at ${station}`,
    ),
    '',
  ].join('\n');
}
