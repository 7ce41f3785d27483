import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { severityOf, sourceWords } from '../limit-words.ts';
import { limitInForce, whatFollows } from './eligibility.ts';

/** Sheathing that braces by itself. Boards laid level do not. */
const STRUCTURAL: ReadonlySet<string> = new Set([
  'plywood',
  'osb',
  'panel',
  'panels',
  'structural-panel',
  'structural-panels',
  'diagonal',
  'boards-diagonal',
  'diagonal-boards',
  'diagonal-sheathing',
]);

export const crippleSheathedAlready = defineRule({
  id: 'screening/cripple-sheathed-already',
  severity: 'stop',
  on: 'wall',
  summary: 'A cripple wall already has structural sheathing, which the rule set does not cover.',
  why: 'New panels on the inside of a wall that panels or diagonal boards already stiffen share the force in a way that no table tells.',
  remedy: 'Have that wall looked at by an engineer, or take a rule set that says how to count what is there.',
  subjects: { 'sheathed-already': 'verdict' },
  examples: [
    {
      failing: losAngeles('plywood'),
      passing: losAngeles('boards-horizontal'),
    },
  ],
  check({ wall }, context) {
    for (const cripple of wall.cripples) {
      const limit = limitInForce(context, 'sheathed-already', {}, cripple.source);
      if (limit?.verdict !== 'not-allowed') continue;
      const sheathing = cripple.sheathing?.toLowerCase();
      if (sheathing === undefined || sheathing === 'unknown') {
        const wants = `sheathing of the cripple wall on wall ${wall.name}`;
        context.lacks({ wants, at: cripple.source, thing: cripple.id });
        continue;
      }
      if (!STRUCTURAL.has(sheathing)) continue;
      const { showStation } = context;
      context.report({
        message:
          `Cripple wall on wall ${wall.name}, ${showStation(cripple.from)} to ${showStation(cripple.to)}: already sheathed with ` +
          `${cripple.sheathing}, which is not covered (${sourceWords(limit)}). ${whatFollows(limit, wall)}`,
        severity: severityOf(limit, 'stop'),
        thing: cripple.id,
        about: cripple.id,
        station: cripple.from,
        stationTo: cripple.to,
        span: cripple.source,
        citation: limit.citation,
      });
    }
  },
});

function losAngeles(sheathing: string): string {
  return shell({
    rules: 'los-angeles',
    house: ['storeys 2', 'floors one-level'],
    wall: [`cripple height 30" stud-height 25-1/8" sheathing ${sheathing}`],
  });
}
