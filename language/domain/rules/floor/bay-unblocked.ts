import { type ClosedBays, closedBays, type NumberedBay, rimIsThere } from '../../fit/closed-bays.ts';
import { intervalIndex } from '../../fit/interval-index.ts';
import { storeysOver } from '../../fit/storeys.ts';
import type { ThingEdit } from '../../fixes/edit.ts';
import type { JoistBay } from '../../model/joists.ts';
import { baysBetween, joistsOnWall } from '../../model/joists.ts';
import type { Stretch, Wall } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import { leastLength } from '../../rulesets/compare.ts';
import type { ConditionFact, LimitQuery } from '../../rulesets/limit-for.ts';
import type { Limit } from '../../rulesets/rule-set.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { caseWords, severityOf, sourceWords } from '../limit-words.ts';
import { clearOf } from './bay-too-narrow.ts';

const blocked = (bays: string): string =>
  demo({ anchors: sound, found: [`joists into size 2x10 spaced 16" first 0" last 13'-4"`, `blocking bays ${bays}`] });

export const bayUnblocked = defineRule({
  id: 'floor/bay-unblocked',
  severity: 'error',
  on: 'wall',
  summary: 'Joist bays have neither a rim joist nor a block, more of them than the rule set leaves open.',
  why: 'Joists that nothing holds upright roll over under the push of an earthquake, and the floor drops off its wall. Over a bracing panel the block is also what hands the force down.',
  remedy: 'Put a block into the bays. Where a vent or a pipe fills one, accept the finding there and say so.',
  subjects: { 'blocked-bays': 'share', 'blocked-over-panel': 'share', 'bay-clear': 'length' },
  examples: [{ failing: blocked('1, 3, 6, 8, 10'), passing: blocked('1, 3, 5, 7, 9') }],
  check({ wall }, context) {
    const runs = wall.joists.filter((run) => run.run === 'into');
    if (wall.role !== 'perimeter' || runs.length === 0) return;
    // Wherever the joists stand, a rim joist along all of them closes every bay.
    if (
      runs.every((run) =>
        wall.rims.some((rim) => rimIsThere(rim) === 'yes' && rim.from <= run.from && run.to <= rim.to),
      )
    )
      return;
    const { joists, lacking } = joistsOnWall(wall);
    for (const wants of lacking) context.lacks({ wants, at: wall.nameSource, thing: wall.id });
    const closed = closedBays(wall);
    const wants = unknownOf(closed, wall);
    if (wants !== undefined) {
      context.lacks({ wants, at: wall.nameSource, thing: wall.id });
      return;
    }
    const narrow = context.limit('bay-clear', {});
    const room = narrow.kind === 'limit' ? leastLength(narrow.limit)?.reach : undefined;
    const open = baysBetween(joists).filter((bay) => {
      const { joist, clear } = clearOf(bay);
      // No block fits into a bay that no hammer does: its two joists stand together.
      if (joist !== undefined && room !== undefined && clear < room) return false;
      return !(typeof closed === 'object' && closed.has(numbered(bay)));
    });
    if (open.length === 0) return;
    const places = intervalIndex(open.map((bay) => ({ from: bay.left.station, to: bay.right.station, bay })));
    const told = new Set<number>();
    for (const panel of wall.panels) {
      const { stretch } = panel;
      if (!stretch) continue;
      const bays = places.overlapping(stretch.from, stretch.to).map(({ bay }) => bay);
      const limit = bays.length === 0 ? undefined : limitOver(wall, stretch, 'blocked-over-panel', context);
      if (!limit || shareOf(limit.limit) <= 0) continue;
      for (const bay of bays) told.add(bay.number);
      report(wall, bays, `over panel ${panel.name}`, panel.id, limit, context);
    }
    for (const bays of runsOf(open.filter((bay) => !told.has(bay.number)))) {
      const [first] = bays;
      const last = bays[bays.length - 1];
      if (!first || !last) continue;
      const stretch = { from: first.left.station, to: last.right.station };
      const limit = limitOver(wall, stretch, 'blocked-bays', context);
      if (!limit) continue;
      // "Every other bay": between two blocks, as many may be open as the share leaves.
      const allowed = Math.floor(1 / shareOf(limit.limit) + 1e-9) - 1;
      if (bays.length > allowed) report(wall, bays, 'in a row', wall.id, limit, context);
    }
  },
});

const numbered = ({ number, left, right }: JoistBay): NumberedBay => ({
  number,
  from: left.station,
  to: right.station,
});

function unknownOf(closed: ClosedBays | 'silent' | 'none', wall: Wall): string | undefined {
  if (closed === 'silent') return `rim or blocking of wall ${wall.name}`;
  return closed === 'none' ? undefined : closed.unknown[0];
}

interface Asked {
  readonly limit: Limit;
  readonly query: LimitQuery;
}

/** Of several numbers of storeys above a stretch, the one that wants most. */
function limitOver(
  wall: Wall,
  stretch: Stretch,
  subject: 'blocked-bays' | 'blocked-over-panel',
  context: RuleContext,
): Asked | undefined {
  let most: Asked | undefined;
  for (const reading of storeysOver(context.layout, wall, stretch)) {
    const number = knownValue(reading);
    const storeys: ConditionFact =
      number === undefined ? { kind: 'unknown', wants: `storeys above wall ${wall.name}` } : { kind: 'number', number };
    const query = { storeys };
    const answer = context.limit(subject, query);
    if (answer.kind === 'depends') context.lacks({ wants: answer.wants, at: wall.nameSource, thing: wall.id });
    if (answer.kind !== 'limit') continue;
    if (!most || shareOf(answer.limit) > shareOf(most.limit)) most = { limit: answer.limit, query };
  }
  return most && shareOf(most.limit) > 0 ? most : undefined;
}

function shareOf(limit: Limit): number {
  const value = limit.bounds[0]?.value;
  return value?.kind === 'quantity' ? value.quantity.amount : 0;
}

function runsOf(bays: readonly JoistBay[]): readonly (readonly JoistBay[])[] {
  const runs: JoistBay[][] = [];
  for (const bay of bays) {
    const run = runs[runs.length - 1];
    if (run && run[run.length - 1]?.number === bay.number - 1) run.push(bay);
    else runs.push([bay]);
  }
  return runs;
}

function report(
  wall: Wall,
  bays: readonly JoistBay[],
  where: string,
  thing: string,
  asked: Asked,
  context: RuleContext,
): void {
  const [first] = bays;
  const last = bays[bays.length - 1];
  if (!first || !last) return;
  const numbers = bays.map((bay) => bay.number);
  const { showStation } = context;
  const share = Math.round(shareOf(asked.limit) * 100);
  const wants = share >= 100 ? 'every bay there wants one' : `${share} % of the bays want one`;
  context.report({
    message:
      `${numbers.length === 1 ? 'Bay' : 'Bays'} ${numberWords(numbers)} of wall ${wall.name} ${where}, ${showStation(first.left.station)} to ${showStation(last.right.station)}, ` +
      `${numbers.length === 1 ? 'has' : 'have'} neither rim nor block: ${wants}${caseWords(asked, context.show)} (${sourceWords(asked.limit)}). Add blocks.`,
    severity: severityOf(asked.limit, 'error'),
    thing,
    about: `${wall.id} ${thing} ${first.number}`,
    layer: 'survey',
    station: first.left.station,
    stationTo: last.right.station,
    span: wall.blocking[wall.blocking.length - 1]?.source ?? wall.nameSource,
    citation: asked.limit.citation,
    fixes: () => {
      const edits: readonly ThingEdit[] = [{ kind: 'insert-blocking', wall: wall.id, bays: numbers }];
      return [
        {
          title: `Add blocks in ${numbers.length === 1 ? 'bay' : 'bays'} ${numberWords(numbers)}`,
          trust: 'review',
          edits,
        },
      ];
    },
  });
}

const numberWords = (numbers: readonly number[]): string =>
  numbers.length <= 6 ? numbers.join(', ') : `${numbers.slice(0, 5).join(', ')} … ${numbers[numbers.length - 1]}`;
