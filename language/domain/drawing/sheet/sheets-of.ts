import type { Basis } from '../../documents/basis.ts';
import { findingsByThing, scheduleOf } from '../../documents/schedule.ts';
import type { Layout } from '../../model/layout.ts';
import type { Checked } from '../../rules/checked.ts';
import type { Scene } from '../scene.ts';
import { coverSheets } from './cover-sheet.ts';
import type { HouseSheets, SheetDraft } from './page.ts';
import { planSheets } from './plan-sheet.ts';
import { defaultSheetSize, type SheetSizeName } from './sheet-sizes.ts';
import { sideSheets } from './side-sheet.ts';
import { girderSubject, type SideInput, wallSubject } from './side-subjects.ts';
import { houseFields } from './title-block.ts';

export interface SheetsInput {
  readonly layout: Layout;
  readonly checked: Checked;
  readonly basis: Basis;
  /** Absent: 24 x 18 in, or A2 for a metric layout. */
  readonly size?: SheetSizeName;
}

export interface Sheet {
  /** As in a file: `cover`, `plan`, `wall-F`, `wall-F-part-2`, `wall-F-continued`, `girder-GD`. */
  readonly name: string;
  /** What it shows: `cover`, `plan`, `wall:F`, `girder:GD`. */
  readonly of: string;
  readonly scene: Scene;
}

/** The whole set, each sheet with its frame and title block: cover, plan, walls in order (in parts where they are long), girders. */
export function sheetsOf(input: SheetsInput): readonly Sheet[] {
  const { layout, checked, basis } = input;
  const size = input.size ?? defaultSheetSize(layout.title.units);
  const house: HouseSheets = { layout, basis, units: layout.title.units, fields: houseFields(layout, basis) };
  const schedule = scheduleOf(layout, checked);
  const findings = findingsByThing(checked);
  const side: SideInput = { layout, checked, basis, schedule, findings };
  const drawn: readonly SheetDraft[] = [
    ...(layout.walls.length > 0 ? planSheets(house, { layout, checked, basis }, size, input.size !== undefined) : []),
    ...layout.walls.flatMap((wall) => sideSheets(house, wallSubject(side, wall), size)),
    ...layout.girders.flatMap((girder) => sideSheets(house, girderSubject(side, girder), size)),
  ];
  const drafts = [...coverSheets(house, size, drawn), ...drawn];
  return drafts.map(({ name, of, numbered }, index) => ({ name, of, scene: numbered(index + 1, drafts.length) }));
}
