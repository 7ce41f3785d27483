import type { Analysis } from '../../language/analysis.ts';
import { findingsByThing } from '../../language/domain/documents/schedule.ts';
import { angleTable } from '../../language/domain/documents/schedules/angle-table.ts';
import { panelTable } from '../../language/domain/documents/schedules/panel-table.ts';
import { postTable } from '../../language/domain/documents/schedules/post-table.ts';
import { remedyTable } from '../../language/domain/documents/schedules/remedy-table.ts';
import type { ScheduleTable, TableRow } from '../../language/domain/documents/schedules/table.ts';
import { tieTable } from '../../language/domain/documents/schedules/tie-table.ts';
import { countOf } from '../../language/domain/documents/text-layout.ts';
import type { Remedy } from '../../language/domain/model/design.ts';
import type { AngleRun, Girder, Layout, LengthUnits, Post, Wall } from '../../language/domain/model/layout.ts';
import { formatStation } from '../../language/domain/units/format-length.ts';
import type { Length } from '../../language/domain/units/length.ts';
import type { Description, Fact } from './describe.ts';
import type { PlacedThing } from './things.ts';

type ByTable = Extract<PlacedThing, { kind: 'panel' | 'tie' | 'angles' | 'remedy' }>;

/** New work as its schedule has it: the same words in the hover, under the cursor and on the sheet. */
export function describeByTable({ layout, checked }: Analysis, placed: ByTable): Description {
  const { units } = layout.title;
  const findings = findingsByThing(checked);
  switch (placed.kind) {
    case 'panel': {
      const { thing, wall } = placed;
      const table = panelTable(only(layout, { ...wall, panels: [thing] }), findings, noPlace);
      return described(thing.name, placeOf(thing.stretch, units), 'bracing panel', factsOf(table, table.rows[0]));
    }
    case 'tie': {
      const { thing, wall } = placed;
      const table = tieTable(only(layout, { ...wall, ties: [thing] }), findings, noPlace);
      const station = thing.asBuilt?.station ?? thing.station;
      return described(thing.name, stationOf(station, units), thing.kind, factsOf(table, table.rows[0]));
    }
    case 'angles':
      return describeAngles(layout, placed.wall, placed.thing);
    case 'remedy': {
      const { thing } = placed;
      const alone = placed.wall
        ? only(layout, { ...withoutReason(placed.wall), remedies: [thing] })
        : { ...layout, walls: [], girders: placed.girder ? [withRemedy(placed.girder, thing)] : [] };
      const table = remedyTable(alone, noPlace);
      return described(thing.name ?? '', '', thing.verb, factsOf(table, table.rows[0]));
    }
  }
}

/** The row of a post in its schedule: what was found at head and foot, what is put there, and whether it fits. */
export function factsOfPost({ layout, checked }: Analysis, girder: Girder, post: Post): readonly Fact[] {
  const alone = { ...layout, walls: [], girders: [{ ...girder, posts: [post] }] };
  const table = postTable(alone, checked, findingsByThing(checked), noPlace);
  return factsOf(table, table.rows[0]);
}

function describeAngles(layout: Layout, wall: Wall, run: AngleRun): Description {
  const { units } = layout.title;
  const [first] = run.stations;
  const last = run.stations.at(-1);
  const table = angleTable(only(layout, { ...wall, angles: [run] }), noPlace);
  // One row for each angle: what differs from one to the next is not a fact of the run.
  const facts = factsOf(table, table.rows[0]).filter(
    ({ name, text }) => name !== 'bay' && factsOfEvery(table, name).every((other) => other === text),
  );
  const station =
    first === undefined || last === undefined
      ? 'no place'
      : first === last
        ? formatStation(first, units)
        : `${formatStation(first, units)} to ${formatStation(last, units)}`;
  return described(run.name, station, countOf(run.stations.length, 'framing angle'), [
    ...facts,
    ...(run.lacking.length > 0 ? [{ name: 'not all placed', text: `for want of: ${run.lacking.join('; ')}` }] : []),
  ]);
}

const described = (mark: string, station: string, summary: string, facts: readonly Fact[]): Description => ({
  ...{ mark, station, summary, facts },
});

const only = (layout: Layout, wall: Wall): Layout => ({ ...layout, walls: [wall], girders: [] });
const noPlace = (): undefined => undefined;

function withoutReason(wall: Wall): Wall {
  return { ...wall, noWork: undefined };
}

function withRemedy({ noWork: _, ...girder }: Girder, remedy: Remedy): Girder {
  return { ...girder, remedies: [remedy] };
}

/** What the heading or the place says already, and what a pane has elsewhere. */
const saidElsewhere: ReadonlySet<string> = new Set([
  ...['mark', 'wall', 'girder', 'post', 'station', 'stationMm', 'from', 'to', 'line', 'findings', 'kind'],
]);

function factsOf({ columns }: ScheduleTable, row: TableRow | undefined): readonly Fact[] {
  if (!row) return [];
  return columns.flatMap(({ key, heading }, at) => {
    const text = row.cells[at]?.text ?? '';
    return heading === undefined || text === '' || saidElsewhere.has(key)
      ? []
      : [{ name: heading.toLowerCase(), text }];
  });
}

function factsOfEvery({ columns, rows }: ScheduleTable, name: string): readonly string[] {
  const at = columns.findIndex(({ heading }) => heading?.toLowerCase() === name);
  return rows.map(({ cells }) => cells[at]?.text ?? '');
}

function placeOf(stretch: { readonly from: Length; readonly to: Length } | undefined, units: LengthUnits): string {
  return stretch ? `${formatStation(stretch.from, units)} to ${formatStation(stretch.to, units)}` : 'no place';
}

function stationOf(station: Length | undefined, units: LengthUnits): string {
  return station === undefined ? 'no place' : formatStation(station, units);
}
