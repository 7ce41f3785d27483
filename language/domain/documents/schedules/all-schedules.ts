import { type KeptParts, keptOr } from '../../drawing/kept-parts.ts';
import { foundOn } from '../../fit/found-on.ts';
import type { Girder, Layout, LengthUnits, Wall } from '../../model/layout.ts';
import type { Checked } from '../../rules/checked.ts';
import type { Basis } from '../basis.ts';
import { type FindSlide, findingsByThing, type Schedule, scheduleOf } from '../schedule.ts';
import { angleTable } from './angle-table.ts';
import { blockTable } from './block-table.ts';
import { connectorTable } from './connector-table.ts';
import { panelTable } from './panel-table.ts';
import { postTable } from './post-table.ts';
import { recordTable } from './record-table.ts';
import { remedyTable } from './remedy-table.ts';
import { stockTable } from './stock-table.ts';
import type { FindLine, ScheduleName, ScheduleTable } from './table.ts';
import { tieTable } from './tie-table.ts';
import { workTable } from './work-table.ts';

export interface Schedules {
  readonly house: string;
  readonly units: LengthUnits;
  readonly basis: Basis;
  /** All of them, empty ones too, in the order of `scheduleNames`. */
  readonly tables: readonly ScheduleTable[];
}

/** Every schedule of a house, or those asked for. Without `findSlide` nothing is said of how far an anchor may slide. */
export function schedulesOf(
  layout: Layout,
  checked: Checked,
  findLine: FindLine,
  { only, findSlide }: { readonly only?: readonly ScheduleName[]; readonly findSlide?: FindSlide } = {},
): Schedules {
  const schedule = scheduleOf(
    layout,
    checked,
    only === undefined || only.includes('connectors') ? findSlide : undefined,
  );
  const findings = findingsByThing(checked);
  const makers: Readonly<Record<ScheduleName, (of: Schedule) => ScheduleTable>> = {
    connectors: (of) => connectorTable(of, findLine),
    panels: () => panelTable(layout, findings, findLine),
    ties: () => tieTable(layout, findings, findLine),
    posts: () => postTable(layout, checked, findings, findLine),
    angles: () => angleTable(layout, findLine),
    blocks: () => blockTable(layout, findLine),
    remedies: () => remedyTable(layout, findLine),
    record: () => recordTable(layout, findLine),
    stock: (of) => stockTable(layout, of),
    work: (of) => workTable(layout, of),
  };
  return {
    house: schedule.house,
    units: schedule.units,
    basis: schedule.basis,
    tables: (Object.keys(makers) as ScheduleName[])
      .filter((name) => only === undefined || only.includes(name))
      .map((name) => makers[name](schedule)),
  };
}

/**
 * The schedules of one wall beside that of its connectors.
 *
 * @param memory of a pane, which asks with every key: a table is made again only where something in one of them is another
 */
export function tablesOfWall(
  layout: Layout,
  wall: Wall,
  checked: Checked,
  findLine: FindLine,
  memory?: KeptParts,
): readonly ScheduleTable[] {
  const findings = findingsByThing(checked);
  const make = (): readonly ScheduleTable[] => {
    const alone: Layout = { ...layout, walls: [wall], girders: [] };
    return [
      panelTable(alone, findings, findLine),
      tieTable(alone, findings, findLine),
      angleTable(alone, findLine),
      blockTable(alone, findLine),
      remedyTable(alone, findLine),
    ];
  };
  if (!memory) return make();
  // A thing that was read anew and says the same may stand on another line.
  const { panels, ties, angles, remedies, noWork, blocking, studs } = wall;
  const places = [...panels, ...ties, ...angles, ...remedies, ...blocking, ...studs, ...(noWork ? [noWork] : [])]
    .map(({ source }) => findLine(source))
    .flatMap((place) => [place?.file, place?.line]);
  const counts = [...panels, ...ties].map(({ id }) => findings.get(id));
  const drawn = memory.wall?.id === wall.id ? memory.wall : wall;
  const { title, house, connectors, rules, record, issues, spaces } = layout;
  const inputs = [
    ...[title.units, house, connectors, rules, record, issues, spaces],
    ...[...foundOn(drawn), drawn.panels, drawn.ties, drawn.angles, drawn.remedies, drawn.noWork],
    ...[...places, '', ...counts],
  ];
  return keptOr(memory, 'schedules', inputs, { layout, findingsOn: findings }, make);
}

/** Of one girder, as `tablesOfWall`. */
export function tablesOfGirder(
  layout: Layout,
  girder: Girder,
  checked: Checked,
  findLine: FindLine,
): readonly ScheduleTable[] {
  const alone: Layout = { ...layout, walls: [], girders: [girder] };
  return [postTable(alone, checked, findingsByThing(checked), findLine), remedyTable(alone, findLine)];
}
