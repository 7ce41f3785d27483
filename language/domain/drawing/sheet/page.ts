import type { Basis } from '../../documents/basis.ts';
import type { Layout, LengthUnits } from '../../model/layout.ts';
import { type Box, line, type Scene, type SceneNode } from '../scene.ts';
import { headingIn, watermark } from '../sheet-furniture.ts';
import { type Block, type Paragraph, textBlocks } from '../sheet-lists.ts';
import { type ColumnGrid, columnAt, columnGrid, type Poured, pouredNodes } from './columns.ts';
import { sheetFrame } from './sheet-frame.ts';
import { frameOf, type Paper, paperFor } from './sheet-sizes.ts';
import { pourByWorth, type Stream } from './streams.ts';
import { type HouseFields, TITLE_BLOCK, type TitleBlock, titleBlock } from './title-block.ts';

/** What all sheets of a house share. */
export interface HouseSheets {
  readonly layout: Layout;
  readonly basis: Basis;
  readonly units: LengthUnits;
  readonly fields: HouseFields;
}

/** One sheet that lacks only its number. */
export interface SheetDraft {
  /** As in a file: `wall-F`, `wall-F-part-2`, `wall-F-continued`. */
  readonly name: string;
  /** What it shows: `cover`, `plan`, `wall:F`, `girder:GD`. */
  readonly of: string;
  readonly title: string;
  readonly scale: string;
  readonly paper: Paper;
  /** Lists of the sheet before it. */
  readonly continues: boolean;
  numbered(number: number, count: number): Scene;
}

export interface SheetWords {
  readonly name: string;
  readonly of: string;
  readonly heading: string;
  readonly remarks: readonly string[];
  /** In the title block. */
  readonly title: string;
  readonly description: string;
  readonly scale: string;
  readonly continues?: true;
}

export const NO_SCALE = 'no scale';

const PAD = 5;

/** A sheet with its frame, heading and title block, ready to take what is drawn on it. */
export interface OpenSheet {
  readonly paper: Paper;
  readonly frame: Box;
  /** Where anything may stand, under the heading; the title block lies in its lower right corner. */
  readonly room: Box;
  readonly titleBlock: Box;
  readonly grid: ColumnGrid;
  readonly heading: readonly SceneNode[];
}

export function openSheet(
  paper: Paper,
  { basis }: HouseSheets,
  words: Pick<SheetWords, 'heading' | 'remarks'>,
): OpenSheet {
  const frame = frameOf(paper);
  const [left, width] = [frame.x + PAD, frame.width - 2 * PAD];
  const head = headingIn({ x: left, y: frame.y + PAD, width }, words.heading, words.remarks, basis);
  const bottom = frame.y + frame.height - 4;
  return {
    paper,
    frame,
    room: { x: left, y: head.bottom, width, height: bottom - head.bottom },
    titleBlock: {
      x: frame.x + frame.width - TITLE_BLOCK.width,
      y: frame.y + frame.height - TITLE_BLOCK.height,
      ...TITLE_BLOCK,
    },
    grid: columnGrid({ x: left, width }),
    heading: head.nodes,
  };
}

/** Left edges of the grid that start at or after `from`, as columns from `top` down. */
export function columnsFrom(
  sheet: OpenSheet,
  top: number,
  { from, to }: { readonly from?: number; readonly to?: number } = {},
): readonly Box[] {
  const { grid, room, titleBlock: block } = sheet;
  return grid.lefts
    .filter(
      (left) => (from === undefined || left >= from - 0.01) && (to === undefined || left + grid.width <= to + 0.01),
    )
    .map((left) => columnAt(left, grid.width, top, room.y + room.height, block));
}

export interface SheetBody {
  readonly nodes: readonly SceneNode[];
  readonly watermark: { readonly box: Box; readonly tallest?: number };
  /** Lines between the zones. */
  readonly rules: readonly SceneNode[];
  readonly columns: readonly Box[];
  readonly streams: readonly Stream[];
  readonly regions: Scene['regions'];
}

/**
 * The sheet, and behind it as many more as its lists ask for. What finds no room in a field of the title block or in a column goes
 * on there: nothing is lost, nothing is made smaller.
 */
export function finishSheet(
  house: HouseSheets,
  sheet: OpenSheet,
  words: SheetWords,
  body: SheetBody,
): readonly SheetDraft[] {
  // The fields that are too long do not depend on the number of the sheet.
  const left = leftOfTitleBlock(house, sheet, words);
  const streams = [...body.streams, { blocks: leftBlocks(left, sheet.grid.width), prefer: 'last' as const, worth: 1 }];
  const poured = pourByWorth(streams, body.columns);
  const scene = draftOf(house, sheet, words, {
    behind: watermark(house.basis, body.watermark.box, body.watermark.tallest),
    nodes: [...body.nodes, ...body.rules, ...pouredNodes(poured)],
    regions: body.regions,
  });
  return [scene, ...continued(house, sheet.paper, words, poured.rest)];
}

/** Sheets of lists only. */
function continued(
  house: HouseSheets,
  paper: Paper,
  words: SheetWords,
  blocks: readonly Block[],
): readonly SheetDraft[] {
  const sheets: SheetDraft[] = [];
  let rest = blocks;
  while (rest.length > 0) {
    const more: SheetWords = {
      ...words,
      name: `${words.name}-continued${sheets.length === 0 ? '' : `-${sheets.length + 1}`}`,
      heading: `${words.heading}, continued`,
      remarks: [],
      title: `${words.title}, continued`,
      scale: 'as noted',
      continues: true,
    };
    let sheet = openSheet(paper, house, more);
    let poured = pourOn(sheet, rest);
    if (poured.placed.length === 0) {
      // A block that no column of this paper holds gets paper that does.
      const tall = rest[0]?.height ?? 0;
      sheet = openSheet(paperFor({ width: sheet.frame.width, height: tall + TITLE_BLOCK.height + 120 }), house, more);
      poured = pourOn(sheet, rest);
      if (poured.placed.length === 0) break;
    }
    const { room } = sheet;
    sheets.push(
      draftOf(house, sheet, more, {
        behind: watermark(house.basis, room),
        nodes: pouredNodes(poured),
        regions: { lists: room },
      }),
    );
    rest = poured.rest;
  }
  return sheets;
}

function pourOn(sheet: OpenSheet, blocks: readonly Block[]): Poured {
  return pourByWorth([{ blocks, worth: 1 }], columnsFrom(sheet, sheet.room.y + 4));
}

function leftOfTitleBlock(
  house: HouseSheets,
  sheet: OpenSheet,
  words: SheetWords,
): Pick<TitleBlock, 'fieldsLeft' | 'basisLeft'> {
  return titleBlock(sheet.frame, house.fields, house.layout, { ...words, units: house.units, number: 1, count: 1 });
}

function leftBlocks(
  { fieldsLeft, basisLeft }: Pick<TitleBlock, 'fieldsLeft' | 'basisLeft'>,
  width: number,
): readonly Block[] {
  const section = (title: string, paragraphs: readonly Paragraph[]): readonly Block[] =>
    paragraphs.length === 0 ? [] : textBlocks(title, paragraphs, width, 'basis');
  return [...section('Basis and limits, continued', basisLeft), ...section('Title block in full', fieldsLeft)];
}

interface Drawn {
  readonly behind: readonly SceneNode[];
  readonly nodes: readonly SceneNode[];
  readonly regions: Scene['regions'];
}

function draftOf(house: HouseSheets, sheet: OpenSheet, words: SheetWords, drawn: Drawn): SheetDraft {
  const { paper, frame, room } = sheet;
  return {
    name: words.name,
    of: words.of,
    title: words.title,
    scale: words.scale,
    paper,
    continues: words.continues === true,
    numbered: (number, count) => ({
      width: paper.width,
      height: paper.height,
      title: `${words.title}, sheet ${number} of ${count}`,
      description: words.description,
      nodes: [
        ...drawn.behind,
        ...drawn.nodes,
        ...sheet.heading,
        sheetFrame(paper),
        titleBlock(frame, house.fields, house.layout, { ...words, units: house.units, number, count }).nodes,
      ],
      regions: { heading: { ...frame, height: room.y - frame.y }, ...drawn.regions },
    }),
  };
}

/** A line across the frame or down it, between two zones. */
export function ruleAcross({ frame }: OpenSheet, y: number): SceneNode {
  return line([frame.x, y], [frame.x + frame.width, y], { colour: 'ink', pen: 'P4' });
}

export function ruleDown(sheet: OpenSheet, x: number, bottom: number): SceneNode {
  return line([x, sheet.room.y + 2], [x, bottom], { colour: 'ink', pen: 'P4' });
}
