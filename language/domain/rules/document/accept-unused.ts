import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';

export const acceptUnused = defineRule({
  id: 'document/accept-unused',
  severity: 'warning',
  on: 'house',
  summary: 'An `accept` line speaks of a finding that is not there, or of a stop, which nobody can accept.',
  why: 'A reason left standing after its finding has gone would silence the next one of its kind unread.',
  remedy:
    'Delete the line, or mend the name of the rule, the thing or the station. A stop wants an engineer, not a reason.',
  subjects: {},
  examples: [
    {
      failing: demo({ anchors: sound, found: ['accept anchorage/end-too-far because "seen on site"'] }),
      passing: demo({
        anchors: [`1'-3"`, `5'-2"`, `9'-2"`, `13'-2"`],
        found: ['accept anchorage/end-too-far because "seen on site"'],
      }),
    },
  ],
  check(_house, context) {
    for (const { acceptance, wall, outcome } of context.seen.acceptances) {
      const where = wall === undefined ? 'in this house' : `on wall ${wall}`;
      if (outcome === 'unused') {
        context.report({
          message: `There is no finding ${acceptance.rule}${acceptance.on === undefined ? '' : ` on ${acceptance.on}`} ${where} to accept. Delete this line, or mend what it names.`,
          thing: undefined,
          span: acceptance.source,
          about: `${acceptance.source.block.key} ${acceptance.source.start}`,
        });
      } else if (outcome === 'no-such-check') {
        context.report({
          message: `This version has no check ${acceptance.rule}: the line accepts nothing. Mend the name if it is misspelt.`,
          severity: 'info',
          thing: undefined,
          span: acceptance.source,
          about: `${acceptance.source.block.key} ${acceptance.source.start}`,
        });
      } else if (outcome === 'stop') {
        context.report({
          message: `${acceptance.rule} ${where} is a stop: no reason written here can accept it. An engineer has to look at it.`,
          thing: undefined,
          span: acceptance.source,
          about: `${acceptance.source.block.key} ${acceptance.source.start}`,
        });
      }
    }
  },
});
