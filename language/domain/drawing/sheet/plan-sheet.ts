import type { PlanInput } from '../drawing-input.ts';
import { lettered } from '../lettering.ts';
import { northArrow, type PlanView, planDescription, planView, scaleBar } from '../plan.ts';
import { type Box, group, type SceneNode } from '../scene.ts';
import { boundsOf } from '../scene-bounds.ts';
import { TAPE_HEIGHT } from '../tape.ts';
import { COLUMN_GAP } from './columns.ts';
import {
  columnsFrom,
  finishSheet,
  type HouseSheets,
  type OpenSheet,
  openSheet,
  ruleDown,
  type SheetBody,
  type SheetDraft,
  type SheetWords,
} from './page.ts';
import { type Paper, paperFor, type SheetSizeName, scaleOn, sheetSizes } from './sheet-sizes.ts';

/** Scale bar and north arrow under the house. */
const FURNITURE = 32;
const PLAN_WATERMARK = 25;
const MOST_HALVINGS = 3;

interface Attempt {
  readonly paper: Paper;
  readonly scale: ReturnType<typeof scaleOn>;
  readonly whyReduced: string | undefined;
}

/**
 * The plan at the left, its lists in the columns beside and under it. A house too large for a sheet that nobody asked for takes the next
 * larger one, else the next usual scale, and says so.
 */
export function planSheets(
  house: HouseSheets,
  input: PlanInput,
  size: SheetSizeName,
  isAsked: boolean,
): readonly SheetDraft[] {
  for (const attempt of attempts(house, size, isAsked)) {
    const view = planView(input, attempt);
    const sheet = openSheet(attempt.paper, house, view);
    const widths = zoneWidths(sheet, view);
    if (widths.length === 0) continue;
    for (const [index, width] of widths.entries()) {
      const drafts = planOn(house, sheet, view, attempt, width);
      // As few columns beside it as hold the lists; more only where that saves a sheet.
      if (drafts.length === 1 || index === widths.length - 1) return drafts;
    }
  }
  const scale = scaleOn('plan', house.units, { small: false }, MOST_HALVINGS);
  const why = 'on paper of its own size: no sheet holds this house';
  const view = planView(input, { scale, whyReduced: why });
  const paper = paperFor({ width: view.bounds.width + 2 * 150, height: view.bounds.height + FURNITURE + 90 });
  const sheet = openSheet(paper, house, view);
  return planOn(house, sheet, view, { paper, scale, whyReduced: why }, view.bounds.width + 12);
}

function attempts(house: HouseSheets, size: SheetSizeName, isAsked: boolean): readonly Attempt[] {
  const asked = sheetSizes[size];
  const tooLarge = `the house does not fit on ${asked.words} at the usual one`;
  const here = (halved: number): Attempt => ({
    paper: asked,
    scale: scaleOn('plan', house.units, asked, halved),
    whyReduced: halved > 0 ? `reduced: ${tooLarge}` : asked.small ? `one step down for ${asked.words}` : undefined,
  });
  const larger = asked.larger.map((name): Attempt => {
    const paper = sheetSizes[name];
    return {
      paper,
      scale: scaleOn('plan', house.units, paper),
      whyReduced: `on ${paper.words}: the house does not fit on ${asked.words}`,
    };
  });
  const reduced = Array.from({ length: MOST_HALVINGS }, (_, index) => here(index + 1));
  return [here(0), ...(isAsked ? [...reduced, ...larger] : [...larger, ...reduced])];
}

/** What the house may take across: all but one column of the grid, all but two, … as long as it fits. */
function zoneWidths(sheet: OpenSheet, { bounds }: PlanView): readonly number[] {
  const { room, grid, titleBlock } = sheet;
  if (bounds.height + FURNITURE + 8 > room.height) return [];
  const widths: number[] = [];
  for (let columns = 1; columns <= grid.lefts.length; columns++) {
    const left = grid.lefts[grid.lefts.length - columns] ?? room.x;
    const width = (columns === 1 ? Math.min(left, titleBlock.x) : left) - COLUMN_GAP - room.x;
    if (width < Math.max(bounds.width + 6, 120)) break;
    widths.push(width);
  }
  return widths;
}

function planOn(
  house: HouseSheets,
  sheet: OpenSheet,
  view: PlanView,
  { scale }: Attempt,
  width: number,
): readonly SheetDraft[] {
  const { room, grid, frame } = sheet;
  const { bounds } = view;
  const top = room.y + 6;
  const drawn = view.draw([room.x + (width - bounds.width) / 2 - bounds.x, top - bounds.y]);
  const under = Math.max(top + bounds.height, bottomOf(drawn.nodes)) + 7;
  const furniture = [
    ...scaleBar([room.x + 4, under + 4], house.units, scale),
    ...northArrow([room.x + width - 14, under + 6]),
    ...(drawn.unnamed.length > 0
      ? [
          lettered(`+${drawn.unnamed.length} in the list`, [room.x + 4, under + 4 + TAPE_HEIGHT + 6], {
            size: 'detail',
            colour: 'ink2',
          }),
        ]
      : []),
  ];
  const zoneBottom = under + 25;
  const lists = view.lists({ nodes: [...drawn.nodes, ...furniture], unnamed: drawn.unnamed }, grid.width);
  const zoneRight = room.x + width + COLUMN_GAP / 2;
  const beside = columnsFrom(sheet, room.y + 6, { from: room.x + width + COLUMN_GAP - 6 });
  const below = columnsFrom(sheet, zoneBottom + 4, { to: zoneRight });
  const box: Box = { x: room.x, y: top, width, height: Math.max(60, bounds.height) };
  const words: SheetWords = {
    name: 'plan',
    of: 'plan',
    heading: view.heading,
    remarks: view.remarks,
    title: view.title,
    description: planDescription(view, house.basis),
    scale: scale.words,
  };
  const body: SheetBody = {
    nodes: [group([...drawn.nodes, ...furniture], { role: 'wall', name: view.name })],
    watermark: { box, tallest: PLAN_WATERMARK },
    rules: [ruleDown(sheet, zoneRight, frame.y + frame.height)],
    columns: [...beside, ...below],
    streams: [
      { blocks: lists.findings, prefer: 0, worth: 3 },
      { blocks: [...lists.legend, ...lists.drill], prefer: beside.length - 1, worth: 4 },
      { blocks: lists.more, ...(below.length > 0 ? { prefer: beside.length } : {}), worth: 2 },
    ],
    regions: { drawing: { ...box, height: zoneBottom - top } },
  };
  return finishSheet(house, sheet, words, body);
}

function bottomOf(nodes: readonly SceneNode[]): number {
  const bounds = boundsOf(nodes);
  return bounds ? bounds.y + bounds.height : 0;
}
