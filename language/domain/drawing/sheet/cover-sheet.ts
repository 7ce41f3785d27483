import { plainText } from '../lettering.ts';
import { group } from '../scene.ts';
import { drillBlocks, legendBlocks, type Paragraph, symbolsUsed, textBlocks } from '../sheet-lists.ts';
import { COLUMN_GAP, pouredNodes } from './columns.ts';
import { gridLegend, gridOfMarks } from './grid-of-marks.ts';
import { type Fact, factBlocks, houseFacts, issueFacts } from './house-facts.ts';
import { columnsFrom, finishSheet, type HouseSheets, NO_SCALE, openSheet, type SheetDraft } from './page.ts';
import { type SheetSizeName, sheetSizes } from './sheet-sizes.ts';
import { pourByWorth } from './streams.ts';

const COVER = 'Cover: sheets, facts, marks';

/** Facts of the house, the list of the sheets behind it, and how far the work is, at one glance. */
export function coverSheets(house: HouseSheets, size: SheetSizeName, others: readonly Listed[]): readonly SheetDraft[] {
  // How many sheets the cover takes does not depend on the numbers in its list.
  const first = coverWith(house, size, others, 1);
  return first.length === 1 ? first : coverWith(house, size, others, first.length);
}

function coverWith(
  house: HouseSheets,
  size: SheetSizeName,
  others: readonly Listed[],
  own: number,
): readonly SheetDraft[] {
  const { layout, basis } = house;
  const paper = sheetSizes[size];
  const name = plainText(layout.title.name ?? 'untitled layout');
  const words = {
    name: 'cover',
    of: 'cover',
    heading: name.toUpperCase(),
    remarks: ['Tying the house to its foundation: survey, design and state of the work.'],
    title: COVER,
    description: `Cover of the sheets of ${name}. ${basis.label}. ${basis.lines.join(' ')}`,
    scale: NO_SCALE,
  };
  const sheet = openSheet(paper, house, words);
  const { grid, room } = sheet;
  const top = room.y + 5;
  const list = listOfSheets(others, own, paper.words);

  // The marks across all columns but two, if they fit there as a whole; else down the columns like any list.
  const across = Math.max(1, Math.min(grid.lefts.length - 1, grid.lefts.length > 3 ? grid.lefts.length - 2 : 2));
  const wide = across * grid.width + (across - 1) * COLUMN_GAP;
  const wideGrid = gridOfMarks(layout, wide);
  const gridHeight = wideGrid.reduce((sum, { height }) => sum + height, 0);
  const isWide = grid.lefts.length > 2 && top + gridHeight < sheet.titleBlock.y;
  const placedGrid = isWide
    ? pourByWorth([{ blocks: wideGrid, worth: 1 }], [{ x: room.x, y: top, width: wide, height: gridHeight }])
    : undefined;
  const marks = isWide ? [] : gridOfMarks(layout, grid.width);
  const used = symbolsUsed([
    ...(placedGrid ? pouredNodes(placedGrid) : []),
    ...marks.flatMap((block) => block.draw([0, 0])),
  ]);

  const right = room.x + wide + COLUMN_GAP - 1;
  const columns = isWide
    ? [...columnsFrom(sheet, top, { from: right }), ...columnsFrom(sheet, top + gridHeight + 4, { to: right })]
    : columnsFrom(sheet, top);
  const beside = isWide ? grid.lefts.length - across : grid.lefts.length;
  return finishSheet(house, sheet, words, {
    nodes: placedGrid ? [group(pouredNodes(placedGrid), { name: 'marks, wall by wall' })] : [],
    watermark: { box: room },
    rules: [],
    columns,
    streams: [
      { blocks: factBlocks('Sheets', list, grid.width), prefer: 0, worth: 5 },
      { blocks: factBlocks('The house', houseFacts(layout), grid.width), prefer: beside - 1, worth: 3 },
      { blocks: marks, worth: 2 },
      {
        blocks: legendBlocks(gridLegend, used, grid.width),
        ...(isWide ? { prefer: beside } : {}),
        worth: 4,
      },
      { blocks: drillBlocks(grid.width, []), prefer: beside - 1, worth: 4 },
      { blocks: factBlocks('Issues and record', issueFacts(layout), grid.width), worth: 1 },
      { blocks: textBlocks('How to read these sheets', howToRead, grid.width, 'legend'), worth: 0 },
    ],
    regions: { lists: room },
  });
}

type Listed = Pick<SheetDraft, 'title' | 'scale' | 'paper' | 'continues'>;

/** A drawing a row, with the numbers of all its sheets. */
function listOfSheets(others: readonly Listed[], own: number, usual: string): readonly Fact[] {
  const rows: { first: number; last: number; value: string }[] = [{ first: 1, last: own, value: COVER }];
  others.forEach(({ title, scale, paper, continues }, index) => {
    const number = own + 1 + index;
    const before = rows[rows.length - 1];
    if (continues && before) {
      before.last = number;
      return;
    }
    const parts = [
      title,
      ...(scale === NO_SCALE ? [] : [scale.replace('  ', ' ')]),
      ...(paper.words === usual ? [] : [`on ${paper.words}`]),
    ];
    rows.push({ first: number, last: number, value: parts.join(', ') });
  });
  return rows.map(({ first, last, value }) => ({
    name: first === last ? `R${first}` : `R${first} to R${last}`,
    value,
  }));
}

const howToRead: readonly Paragraph[] = [
  'Every wall is read from its left end, standing inside and facing it: station 0 is there, and stations stay with the tape.',
  'Above the floor line stands what was found, below the tape what is built.',
  'Open: found. Solid: new, set by hand. Half solid: proposed by the tool. Crossed: omitted or taken out.',
  'A mark in a frame with square ends is a plate, with round ends a bolt or a rod.',
  'Short heavy dashes: an edge that nobody measured.',
  'Print at 100 %: the tape on each sheet is true to its scale and says what a ruler must show.',
].map((text): Paragraph => ({ text, size: 'label' }));
