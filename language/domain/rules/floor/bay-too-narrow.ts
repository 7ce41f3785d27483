import type { JoistBay } from '../../model/joists.ts';
import { baysBetween, joistsOnWall, namesBay } from '../../model/joists.ts';
import type { Wall } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import { leastLength } from '../../rulesets/compare.ts';
import type { Length } from '../../units/length.ts';
import { half, larger, minus, zero } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { limitWords, severityOf } from '../limit-words.ts';

const joists = [
  `joists into size 2x10 spaced 16" first 0" last 13'-4"`,
  `rim nails 8d spaced 6" verified`,
  `joist at 13'-9" end-joist`,
];

export const bayTooNarrow = defineRule({
  id: 'floor/bay-too-narrow',
  severity: 'warning',
  on: 'wall',
  summary: 'An angle or a block is planned in a joist bay too narrow to nail it in.',
  why: 'A hammer or a palm nailer needs its own width beside the angle. In a narrow bay nothing is nailed, whatever the sheet says.',
  remedy: 'Put it into the next bay, or nail it from the other side.',
  subjects: { 'bay-clear': 'length' },
  examples: [
    {
      failing: `${demo({ anchors: sound, found: joists })}  angles F-A1 angle-8 bays 9, 10, 11\n`,
      passing: `${demo({ anchors: sound, found: joists })}  angles F-A1 angle-8 bays 8, 9, 10\n`,
    },
  ],
  check({ wall }, context) {
    const answer = context.limit('bay-clear', {});
    const least = answer.kind === 'limit' ? leastLength(answer.limit) : undefined;
    if (answer.kind !== 'limit' || !least) return;
    const planned = plannedInBays(wall);
    if (planned === undefined) return;
    const { joists: found } = joistsOnWall(wall);
    for (const bay of baysBetween(found)) {
      const works = planned(bay);
      const [first] = works;
      if (!first) continue;
      const { joist, clear } = clearOf(bay);
      if (joist === undefined) {
        context.lacks({ wants: `thickness of the joists of wall ${wall.name}`, at: first.source, thing: first.id });
        continue;
      }
      if (clear >= least.reach) continue;
      const { show, showStation } = context;
      context.report({
        message:
          `${first.words} is planned in bay ${bay.number} of wall ${wall.name}, ${showStation(bay.left.station)} to ${showStation(bay.right.station)}, only ${show(clear)} clear: ` +
          `${limitWords({ limit: answer.limit, query: {} }, 'least', context)}. Leave it out there, or set it in a bay beside.`,
        severity: severityOf(answer.limit, 'warning'),
        thing: first.id,
        about: `${wall.id} bay ${bay.number}`,
        layer: 'design',
        station: bay.left.station,
        stationTo: bay.right.station,
        span: first.source,
        citation: answer.limit.citation,
      });
    }
  },
});

/** The clear space of a bay between the faces of its joists; without their thickness, `joist` is `undefined`. */
export function clearOf(bay: JoistBay): { readonly joist: Length | undefined; readonly clear: Length } {
  const left = knownValue(bay.left.size?.thick);
  const right = knownValue(bay.right.size?.thick);
  const clear = minus(minus(bay.right.station, bay.left.station), half(((left ?? zero) + (right ?? zero)) as Length));
  return { joist: left === undefined || right === undefined ? undefined : left, clear: larger(zero, clear) };
}

interface Work {
  readonly id: string;
  readonly words: string;
  readonly source: Wall['source'];
}

/** What the design puts into a bay; `undefined` where it puts nothing into any. */
function plannedInBays(wall: Wall): ((bay: JoistBay) => readonly Work[]) | undefined {
  const angles = wall.angles
    .flatMap((run) =>
      run.stations.map((station, index) => ({
        station,
        work: { id: run.id, words: `Angle ${run.name}.${index + 1}`, source: run.source },
      })),
    )
    .sort((a, b) => a.station - b.station);
  const blocks = wall.blocking
    .filter((each) => each.layer === 'design')
    .map((each) => ({ names: namesBay(each.bays), work: { id: each.id, words: 'A block', source: each.source } }));
  if (angles.length === 0 && blocks.length === 0) return undefined;
  let next = 0;
  return (bay) => {
    while ((angles[next]?.station ?? bay.left.station) < bay.left.station) next += 1;
    const here: Work[] = [];
    for (let index = next; index < angles.length; index += 1) {
      const each = angles[index];
      if (!each || each.station > bay.right.station) break;
      here.push(each.work);
    }
    return [...here, ...blocks.flatMap((each) => (each.names(bay.number) ? [each.work] : []))];
  };
}
