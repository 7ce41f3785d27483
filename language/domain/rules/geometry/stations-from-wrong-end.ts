import { fitAt } from '../../fit/clear-intervals.ts';
import { howSet } from '../../fit/fit-case.ts';
import { pieceAt } from '../../fit/piece-anchors.ts';
import { extentOf, thingWords } from '../../fit/thing-words.ts';
import { flipStations } from '../../fixes/refactorings.ts';
import { anchorsSill } from '../../hardware/connector.ts';
import type { Layout, Obstruction, Stretch, Wall } from '../../model/layout.ts';
import { leastCount } from '../../rulesets/compare.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import type { Length } from '../../units/length.ts';
import { magnitude, minus } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';
import { sourceWords } from '../limit-words.ts';

const windows = [`window W1 1'-0" to 4'-0" reaches-sill`, `window W2 5'-0" to 6'-10" reaches-sill`];

export const stationsFromWrongEnd = defineRule({
  id: 'geometry/stations-from-wrong-end',
  severity: 'warning',
  on: 'wall',
  summary:
    'The stations of a list fit the wall clearly better when they are read from the other end, or one thing is given twice.',
  why: 'Reading a wall from its right end is the commonest slip of a survey. Every item of the list is then in the wrong place, and nothing else says so.',
  remedy: 'Check one item on site. If it is so, read the whole list from the other end.',
  subjects: { 'wrong-end-misfits': 'number', tolerance: 'length' },
  examples: [
    {
      failing: demo({
        anchors: [],
        found: [...windows, `anchor 1/2" at 2'-0", 3'-0", 5'-6", 6'-4" cast-in sound`],
      }).concat(`\nwork on F\n  no work because "example"\n`),
      passing: demo({
        anchors: [],
        found: [...windows, `anchor 1/2" at 12'-0", 11'-0", 8'-6", 7'-8" cast-in sound`],
      }).concat(`\nwork on F\n  no work because "example"\n`),
    },
  ],
  check({ wall }, context) {
    const { length } = wall;
    if (length === undefined) return;
    reportMirroredLists(wall, length, context);
    for (const [first, second] of givenTwice(wall, length, context.layout)) {
      const { units } = context.layout.title;
      context.report({
        message:
          `${thingWords(second, units)} is where ${thingWords(first, units)} would be, read from the other end of wall ${wall.name}: ` +
          'one thing given twice (common practice, no source). Check it on site and take one out.',
        thing: second.id,
        station: second.stretch?.from,
        span: second.placeSource,
        related: [{ span: first.placeSource, message: 'the other one' }],
      });
    }
  },
});

function reportMirroredLists(wall: Wall, length: Length, context: RuleContext): void {
  const answer = context.limit('wrong-end-misfits', {});
  const enough = answer.kind === 'limit' ? leastCount(answer.limit) : undefined;
  if (answer.kind !== 'limit' || enough === undefined) return;
  for (const layer of ['survey', 'design'] as const) {
    const stands = layer === 'survey' ? foundStands(wall) : newStands(context.layout, wall);
    const asWritten = stands.filter((each) => !each.fits(each.station)).length;
    if (asWritten < enough) continue;
    const mirrored = stands.filter((each) => !each.fits(minus(length, each.station))).length;
    if (asWritten - mirrored < enough || mirrored * 2 > asWritten) continue;
    const list = layer === 'survey' ? 'old anchors' : 'new anchors';
    context.report({
      message:
        `${asWritten} of ${stands.length} ${list} of wall ${wall.name} cannot be where they are written; read from the other end ` +
        `${mirrored === 0 ? 'all can' : `all but ${mirrored} can`} (${sourceWords(answer.limit)}). Check one on site, then read the list from the other end.`,
      about: `${wall.id} ${layer}`,
      layer,
      span: wall.nameSource,
      citation: answer.limit.citation,
      fixes: (now) => flipStations(now, wall, layer === 'survey' ? 'old-anchors' : 'new-work'),
    });
  }
}

interface Stand {
  readonly station: Length;
  readonly fits: (station: Length) => boolean;
}

/** A bolt in the wall goes through a board, and through no window that reaches the sill. */
function foundStands(wall: Wall): readonly Stand[] {
  const holes = wall.obstructions.flatMap((each): readonly Stretch[] => {
    const extent =
      each.words.has('reaches-sill') || each.kind === 'chimney' || each.kind === 'door' ? extentOf(each) : undefined;
    return extent ? [extent] : [];
  });
  return wall.foundAnchors.flatMap(({ station }) =>
    station === undefined
      ? []
      : [
          {
            station,
            fits: (at) => pieceAt(wall, at) !== undefined && !holes.some((hole) => hole.from < at && at < hole.to),
          },
        ],
  );
}

function newStands(layout: Layout, wall: Wall): readonly Stand[] {
  return wall.anchors.flatMap((anchor): readonly Stand[] => {
    const { station, connector } = anchor;
    if (station === undefined || !connector || !anchorsSill(connector.kind) || anchor.state !== 'planned') return [];
    const fits = (at: Length): boolean => {
      const piece = pieceAt(wall, at);
      return (
        piece !== undefined && fitAt({ layout, wall, piece, connector, ...howSet(anchor) }, at).blocked.length === 0
      );
    };
    return [{ station, fits }];
  });
}

/** A house has one of each of these in a place; two vents that mirror each other are a habit of builders. */
const ONE_OF_A_KIND: ReadonlySet<Obstruction['kind']> = new Set([
  'stack',
  'electrical-panel',
  'meter',
  'water-heater',
  'furnace',
  'stair',
]);

function givenTwice(wall: Wall, length: Length, layout: Layout): readonly (readonly [Obstruction, Obstruction])[] {
  const things = wall.obstructions.filter((each) => ONE_OF_A_KIND.has(each.kind) && each.stretch);
  const tolerance = toleranceOf(layout.rules) * 4;
  const byPlace = new Map<string, Obstruction[]>();
  const bucket = (station: number): number => Math.round(station / (tolerance * 2));
  for (const each of things) {
    const key = `${each.kind} ${bucket(each.stretch?.from ?? 0)}`;
    byPlace.set(key, [...(byPlace.get(key) ?? []), each]);
  }
  const pairs: (readonly [Obstruction, Obstruction])[] = [];
  const order = new Map(things.map((each, index) => [each, index]));
  for (const first of things) {
    const { stretch } = first;
    if (!stretch) continue;
    const mirrored = { from: minus(length, stretch.to), to: minus(length, stretch.from) };
    for (const step of [-1, 0, 1]) {
      for (const second of byPlace.get(`${first.kind} ${bucket(mirrored.from) + step}`) ?? []) {
        if ((order.get(second) ?? 0) <= (order.get(first) ?? 0) || !second.stretch) continue;
        const near = (a: Length, b: Length): boolean => magnitude(minus(a, b)) <= tolerance;
        if (near(second.stretch.from, mirrored.from) && near(second.stretch.to, mirrored.to))
          pairs.push([first, second]);
      }
    }
  }
  return pairs;
}
