import { result } from './anchor-edits.ts';
import type { Defect, Injected, LegalHouse, Place } from './defect.ts';
import { firstOf, shuffled } from './defect.ts';
import type { Edit } from './house-text.ts';
import { changeLine, changeLines, surveyOf } from './house-text.ts';

/** A house that is legal under one rule set comes under another one too, and there something is beyond what that covers. */
export const rulesOfThePlace: readonly Defect[] = [
  {
    id: 'the ground is steeper than the town lets it be',
    rule: 'screening/slope-beyond',
    inject: (house) => under(house, 'los-angeles', { severity: 'stop' }, inHouse(/^ {2}slope /, '  slope 45 %')),
  },
  {
    id: 'the floors of a storey lie at two levels',
    rule: 'screening/floors-split',
    inject: (house) =>
      under(house, 'los-angeles', { severity: 'stop' }, inHouse(/^ {2}floors /, '  floors split-level')),
  },
  {
    id: 'a cripple wall has plywood already',
    rule: 'screening/cripple-sheathed-already',
    inject: (house) =>
      firstOf(shuffled(house.random, house.facts.walls), (wall) => {
        const [run] = wall.runs;
        if (!run?.cripple || wall.runs.length !== 1) return undefined;
        return under(
          house,
          'los-angeles',
          { wall: wall.name, station: run.from },
          changeLine(surveyOf(wall), /^ {2}cripple /, (line) => line.replace(/ sheathing \S+/, ' sheathing plywood')),
        );
      }),
  },
  {
    id: 'the veneer stands higher than the plan set lets it',
    rule: 'screening/veneer-high',
    inject: (house) => under(house, 'bay-area', { severity: 'stop' }, inHouse(/^ {2}veneer /, '  veneer brick high')),
  },
];

function under(house: LegalHouse, rules: string, place: Place, edit: Edit): Injected | undefined {
  // Under two storeys those rules ask more of short boards than the houses are laid out for.
  if (house.facts.storeys !== 1) return undefined;
  return result(
    house,
    [place],
    changeLines(/^layout /, /^ {2}rules /, (line) => `${line}, ${rules}`, 1),
    edit,
  );
}

const inHouse = (line: RegExp, now: string): Edit => changeLine(/^house$/m, line, () => now);
