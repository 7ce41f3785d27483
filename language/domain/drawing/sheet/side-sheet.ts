import { inMillimetres, type Length, millimetres } from '../../units/length.ts';
import { type Box, group } from '../scene.ts';
import { boundsOf } from '../scene-bounds.ts';
import type { Block } from '../sheet-lists.ts';
import { type DrawnSide, type SideLists, type SideOptions, type SideView, sideDescription } from '../side-view.ts';
import { COLUMN_GAP } from './columns.ts';
import { cutInParts, type SidePart } from './cut-places.ts';
import { drawingBlocks, type SmallDrawing } from './drawing-blocks.ts';
import {
  columnsFrom,
  finishSheet,
  type HouseSheets,
  type OpenSheet,
  openSheet,
  ruleAcross,
  ruleDown,
  type SheetDraft,
  type SheetWords,
} from './page.ts';
import { frameOf, type Paper, paperFor, type SheetSizeName, scaleOn, sheetSizes } from './sheet-sizes.ts';
import type { Stream } from './streams.ts';

/** A wall or a girder that wants sheets. */
export interface SideSubject {
  /** `wall-F`. */
  readonly name: string;
  readonly what: 'wall' | 'girder';
  readonly length: Length;
  /** Where it may be cut, in order: ends of boards and steps, or posts and splices. */
  readonly cutPlaces: readonly Length[];
  view(options: SideOptions): SideView;
  /** Those of a part, or all. */
  schedules(cut: SideOptions['cut'], columnWidth: number): readonly Block[];
  /** Sections through a part of it, or through all of it, true to their own scale. */
  sections(cut: SideOptions['cut']): readonly SmallDrawing[];
}

/** More sheets than this for one wall are a worse read than the next scale down. */
const MOST_PARTS = 6;
const MOST_HALVINGS = 3;

export function sideSheets(house: HouseSheets, subject: SideSubject, size: SheetSizeName): readonly SheetDraft[] {
  const laid = layOut(house, subject, size);
  return laid.parts.flatMap((part) => sheetOf(house, subject, part));
}

interface LaidPart {
  readonly sheet: OpenSheet;
  readonly view: SideView;
  readonly cut: SideOptions['cut'];
  readonly drawn: DrawnSide;
  readonly placing: Placing;
}
/** The drawing across the sheet with its lists below, or beside the title block and as deep as the sheet. */
type Placing = 'above' | 'beside';

interface Attempt {
  readonly paper: Paper;
  readonly scale: SideOptions['scale'];
  readonly whyReduced: string | undefined;
}

/** True scale always: parts first, then the next usual scale, then larger paper, at last paper of its own size. */
function layOut(
  house: HouseSheets,
  subject: SideSubject,
  size: SheetSizeName,
): { readonly parts: readonly LaidPart[] } {
  const asked = sheetSizes[size];
  for (const name of [size, ...asked.larger]) {
    const paper = sheetSizes[name];
    const halvings = name === size ? MOST_HALVINGS : 0;
    for (let halved = 0; halved <= halvings; halved++) {
      const scale = scaleOn('side', house.units, paper, halved);
      const whyReduced =
        halved > 0
          ? `reduced: at a larger one the ${subject.what} takes more than ${MOST_PARTS} sheets`
          : name !== size
            ? `on ${paper.words}: the ${subject.what} does not fit on ${asked.words}`
            : paper.small
              ? `one step down for ${paper.words}`
              : undefined;
      for (const placing of ['above', 'beside'] as const) {
        const parts = inParts(house, subject, { paper, scale, whyReduced }, placing);
        if (parts) return { parts };
      }
    }
  }
  return { parts: [onItsOwnPaper(house, subject)] };
}

function inParts(
  house: HouseSheets,
  subject: SideSubject,
  attempt: Attempt,
  placing: Placing,
): readonly LaidPart[] | undefined {
  const whole = placePart(house, subject, attempt, placing, undefined);
  if (whole.excess <= 0) return whole.laid && [whole.laid];
  // What the words beside the wall take is known only when a part is laid out: come nearer step by step.
  let most = inMillimetres(subject.length) - whole.excess / attempt.scale.paper;
  for (let round = 0; round < 8 && most > 0; round++) {
    const parts = cutInParts(subject.length, subject.cutPlaces, millimetres(Math.floor(most)));
    if (!parts || parts.length > MOST_PARTS) return undefined;
    const placed = parts.map((part) => placePart(house, subject, attempt, placing, part));
    const excess = Math.max(...placed.map((each) => each.excess));
    if (excess <= 0) {
      const laid = placed.flatMap((each) => each.laid ?? []);
      return laid.length === placed.length ? laid : undefined;
    }
    most = Math.min(most, longest(parts, subject.length)) - excess / attempt.scale.paper - 1;
  }
  return undefined;
}

const longest = (parts: readonly SidePart[], length: Length): number =>
  Math.max(...parts.map(({ shown: { from = 0, to = length } }) => inMillimetres((to - from) as Length)));

interface PlacedPart {
  /** mm that it is too wide, or too deep. */
  readonly excess: number;
  readonly tooDeep: number;
  /** Where it is neither. */
  readonly laid: LaidPart | undefined;
}

function placePart(
  house: HouseSheets,
  subject: SideSubject,
  { paper, scale, whyReduced }: Attempt,
  placing: Placing,
  cut: SidePart | undefined,
): PlacedPart {
  const view = subject.view({ scale, whyReduced, ...(cut ? { cut } : {}) });
  const sheet = openSheet(paper, house, view);
  const { room, grid, titleBlock } = sheet;
  const last = grid.lefts[grid.lefts.length - 1] ?? room.x;
  const width = placing === 'above' ? room.width : Math.min(last, titleBlock.x) - COLUMN_GAP - room.x;
  const depth = placing === 'above' ? titleBlock.y - 6 : room.y + room.height;
  const natural = view.reach.left + view.wide + view.reach.right;
  const excess = natural - width;
  // Drawing is what costs: first whether it fits across.
  if (excess > 0) return { excess, tooDeep: 0, laid: undefined };
  const left = room.x + view.reach.left - excess / 2;
  const drawn = view.draw({ left, top: room.y + 5, room: { from: room.x, to: room.x + width } });
  const tooDeep = drawn.bottom - depth;
  return { excess, tooDeep, laid: tooDeep > 0 ? undefined : { sheet, view, cut, drawn, placing } };
}

/** What fits on no sheet that is sold gets one as large as it needs to be. */
function onItsOwnPaper(house: HouseSheets, subject: SideSubject): LaidPart {
  const scale = scaleOn('side', house.units, { small: false }, MOST_HALVINGS);
  const whyReduced = `on paper of its own size: no sheet holds this ${subject.what}`;
  let paper = paperFor({ width: 560, height: 420 });
  for (;;) {
    const { laid, excess, tooDeep } = placePart(house, subject, { paper, scale, whyReduced }, 'above', undefined);
    if (laid) return laid;
    paper = paperFor({
      width: frameOf(paper).width + Math.max(0, excess),
      height: frameOf(paper).height + Math.max(0, tooDeep),
    });
  }
}

function sheetOf(house: HouseSheets, subject: SideSubject, laid: LaidPart): readonly SheetDraft[] {
  const { sheet, view, cut, drawn, placing } = laid;
  const { frame, room, grid } = sheet;
  const sections = subject.sections(cut);
  const drawnAll = { ...drawn, nodes: [...drawn.nodes, ...sections.flatMap(({ nodes }) => nodes)] };
  const lists = view.lists(drawnAll, grid.width);
  const schedules = subject.schedules(cut, grid.width);
  const listTop = drawn.bottom + 7;
  const lastColumn = grid.lefts[grid.lefts.length - 1] ?? room.x;
  const columns =
    placing === 'above'
      ? columnsFrom(sheet, listTop)
      : [
          ...columnsFrom(sheet, listTop, { to: lastColumn - 1 }),
          ...columnsFrom(sheet, room.y + 5, { from: lastColumn }),
        ];
  const words: SheetWords = {
    name: cut ? `${subject.name}-part-${cut.part.number}` : subject.name,
    of: view.thing,
    heading: view.heading,
    remarks: view.remarks,
    title: view.title,
    description: sideDescription(view, house.basis),
    scale: view.scale.words,
  };
  const below: Box = { ...room, y: drawn.bottom + 4, height: room.y + room.height - drawn.bottom - 4 };
  return finishSheet(house, sheet, words, {
    nodes: [group(drawn.nodes, { role: 'wall', thing: view.thing, name: view.name })],
    watermark: { box: below.height > 70 ? below : room },
    rules: [
      ruleAcrossOf(laid, drawn.bottom + 3.5),
      ...(placing === 'beside' ? [ruleDown(sheet, lastColumn - COLUMN_GAP / 2, frame.y + frame.height)] : []),
    ],
    columns,
    streams: streamsOf(lists, schedules, drawingBlocks('Sections', sections, grid.width), columns.length),
    regions: {
      drawing: boundsOf(drawn.nodes) ?? room,
      lists: below,
    },
  });
}

/** From left to right schedules, findings, legend and sections, each in a column of its own while there are enough; drilling last. */
function streamsOf(
  { findings, more, legend, drill }: SideLists,
  schedules: readonly Block[],
  sections: readonly Block[],
  columns: number,
): readonly Stream[] {
  const most = Math.max(0, columns - 2);
  let next = 0;
  const inOrder = (blocks: readonly Block[], worth: number): Stream => {
    const stream = { blocks, worth, prefer: Math.min(next, most) };
    if (blocks.length > 0) next += 1;
    return stream;
  };
  const streams = [inOrder(schedules, 2), inOrder([...findings, ...more], 3), inOrder(legend, 4)];
  return [
    ...streams,
    { blocks: sections, worth: 1, prefer: streams[2]?.prefer ?? most },
    { blocks: drill, worth: 5, prefer: 'last' },
  ];
}

function ruleAcrossOf({ sheet, placing }: LaidPart, y: number) {
  if (placing === 'above') return ruleAcross(sheet, y);
  const { frame, grid, room } = sheet;
  const to = (grid.lefts[grid.lefts.length - 1] ?? room.x) - COLUMN_GAP / 2;
  return ruleAcross({ ...sheet, frame: { ...frame, width: to - frame.x } }, y);
}
