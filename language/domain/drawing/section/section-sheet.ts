import type { LengthUnits } from '../../model/layout.ts';
import type { ElevationInput, PlanInput } from '../drawing-input.ts';
import { elevationLegend } from '../elevation-legend.ts';
import { plainText } from '../lettering.ts';
import { moved } from '../moved.ts';
import { group, type Scene, type SceneNode } from '../scene.ts';
import { heading, SHEET_MARGIN, watermark } from '../sheet-furniture.ts';
import { basisBlocks, drillBlocks, legendBlocks, listsUnder, symbolsUsed } from '../sheet-lists.ts';
import { sectionsOf, type WallSection } from './wall-sections.ts';

const WIDTH = 410;
const GAP = 8;

/** All sections of some walls on one loose sheet, with its legend, its basis and what holds before any hole. */
export function drawSections(input: PlanInput & { readonly walls: readonly ElevationInput['wall'][] }): Scene {
  const { layout, checked, basis, walls } = input;
  const units: LengthUnits = input.units ?? layout.title.units;
  const sections = walls.flatMap((wall) => sectionsOf({ layout, checked, basis, units, wall }));
  const names = walls.map(({ name }) => plainText(name)).join(', ');
  const title = `${walls.length === 1 ? 'WALL' : 'WALLS'} ${names}   SECTIONS`;
  const remark =
    'One section for each way in which concrete, sill, floor and connector come together. Short heavy dashes: not recorded, drawn at a likely place.';
  const head = heading(title, [remark], basis, WIDTH);
  const rows = rowsOf(sections);
  let top = head.bottom + 6;
  const drawing: SceneNode[] = [];
  for (const row of rows) {
    let left = SHEET_MARGIN;
    for (const section of row) {
      drawing.push(...moved(section.nodes, [left, top]));
      left += section.width + GAP;
    }
    top += Math.max(...row.map(({ height }) => height)) + GAP;
  }
  const lists = listsUnder(top, WIDTH, SHEET_MARGIN, (columnWidth) => [
    ...legendBlocks(elevationLegend(units), symbolsUsed(drawing), columnWidth),
    ...drillBlocks(columnWidth, []),
    ...basisBlocks(basis, columnWidth),
  ]);
  const height = Math.ceil(lists.top + lists.height + SHEET_MARGIN);
  return {
    width: WIDTH,
    height,
    title: `Sections, wall ${names}, ${plainText(layout.title.name ?? 'untitled layout')}`,
    description: `${sections.map(({ spoken }) => spoken).join('; ')}. ${basis.label}. ${basis.lines.join(' ')}`,
    nodes: [
      ...watermark(basis, {
        x: SHEET_MARGIN,
        y: head.bottom,
        width: WIDTH - 2 * SHEET_MARGIN,
        height: height - head.bottom - SHEET_MARGIN,
      }),
      ...head.nodes,
      group(drawing, { role: 'wall', name: `sections of wall ${names}` }),
      ...lists.nodes,
    ],
    regions: {
      heading: { x: 0, y: 0, width: WIDTH, height: head.bottom },
      drawing: { x: 0, y: head.bottom, width: WIDTH, height: top - head.bottom },
      lists: { x: 0, y: lists.top - 3, width: WIDTH, height: height - lists.top + 3 },
    },
  };
}

function rowsOf(sections: readonly WallSection[]): readonly (readonly WallSection[])[] {
  const rows: WallSection[][] = [];
  let used = Number.POSITIVE_INFINITY;
  for (const section of sections) {
    if (used + section.width > WIDTH - 2 * SHEET_MARGIN) {
      rows.push([]);
      used = 0;
    }
    rows[rows.length - 1]?.push(section);
    used += section.width + GAP;
  }
  return rows;
}
