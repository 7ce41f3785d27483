import { runsOf } from '../../fit/profile-runs.ts';
import { storeysOver } from '../../fit/storeys.ts';
import type { CrippleStretch, Stretch, Wall } from '../../model/layout.ts';
import type { Profile } from '../../model/reading.ts';
import { knownValue, profileAt } from '../../model/reading.ts';
import { mostLength } from '../../rulesets/compare.ts';
import type { LimitQuery } from '../../rulesets/limit-for.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { shell } from '../example-texts.ts';
import { limitWords, severityOf } from '../limit-words.ts';
import { limitInForce, whatFollows } from './eligibility.ts';

export const crippleTooTall = defineRule({
  id: 'screening/cripple-too-tall',
  severity: 'stop',
  on: 'wall',
  summary: 'A cripple wall is taller than the rule set covers.',
  why: 'A tall panel tips before it racks, and the tables hold for low ones only. One rule set measures the whole height from the concrete to the joists, another the stud alone.',
  remedy: 'Have that wall engineered, with hold-downs, or take a rule set that reaches as high.',
  subjects: { 'cripple-overall': 'length', 'cripple-stud': 'length' },
  examples: [
    {
      failing: shell({ wall: [`cripple height 4'-6" stud-height 49-1/8"`] }),
      passing: shell({ wall: [`cripple height 4'-0" stud-height 43-1/8"`] }),
    },
  ],
  check({ wall }, context) {
    for (const cripple of wall.cripples) {
      if (!look(wall, cripple, 'cripple-overall', cripple.height, context)) {
        look(wall, cripple, 'cripple-stud', cripple.studHeight, context);
      }
    }
  },
});

const MEASURED = { 'cripple-overall': 'overall', 'cripple-stud': 'to the length of its studs' } as const;
const WANTED = { 'cripple-overall': 'height', 'cripple-stud': 'stud height' } as const;

/** Whether something was found. The strictest of the storeys that stand above the stretch holds for all of it. */
function look(
  wall: Wall,
  cripple: CrippleStretch,
  subject: keyof typeof MEASURED,
  profile: Profile | undefined,
  context: RuleContext,
): boolean {
  const asked = storeysOver(context.layout, wall, cripple).flatMap((reading) => {
    const query: LimitQuery = {
      storeys:
        reading?.kind === 'known'
          ? { kind: 'number', number: reading.value }
          : { kind: 'unknown', wants: `storeys above wall ${wall.name}` },
    };
    const limit = limitInForce(context, subject, query, cripple.source);
    const most = limit && mostLength(limit)?.reach;
    return limit && most !== undefined ? [{ limit, query, most }] : [];
  });
  const strictest = asked.toSorted((a, b) => a.most - b.most)[0];
  if (!strictest) return false;
  const lacks = (): void =>
    context.lacks({
      wants: `${WANTED[subject]} of the cripple wall on wall ${wall.name}`,
      at: cripple.source,
      thing: cripple.id,
    });
  if (!profile) {
    lacks();
    return false;
  }
  const { failing, unknown } = runsOf(profile, cripple, (value) => value <= strictest.most);
  if (unknown.length > 0) lacks();
  const [first] = failing;
  if (!first) return false;
  const { show, showStation } = context;
  const tallest = tallestIn(profile, failing);
  const height = knownValue(profileAt(profile, tallest));
  context.report({
    message:
      `Cripple wall on wall ${wall.name}, ${height === undefined ? '' : show(height)} ${MEASURED[subject]} at ${showStation(tallest)}: ` +
      `${limitWords(strictest, 'most', context)}. ${whatFollows(strictest.limit, wall)}`,
    severity: severityOf(strictest.limit, 'stop'),
    thing: cripple.id,
    about: cripple.id,
    station: first.from,
    stationTo: failing[failing.length - 1]?.to ?? first.to,
    span: cripple.source,
    citation: strictest.limit.citation,
  });
  return true;
}

function tallestIn(profile: Profile, runs: readonly Stretch[]): Stretch['from'] {
  const ends = runs.flatMap((run) => [
    run.from,
    run.to,
    ...profile.points.map((point) => point.station).filter((station) => run.from <= station && station <= run.to),
  ]);
  const height = (station: Stretch['from']): number => knownValue(profileAt(profile, station)) ?? 0;
  return ends.reduce((best, station) => (height(station) > height(best) ? station : best));
}
