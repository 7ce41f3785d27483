import type { Basis } from '../documents/basis.ts';
import type { LengthUnits, Stretch, ThingId } from '../model/layout.ts';
import type { Finding } from '../rules/finding.ts';
import { formatStation } from '../units/format-length.ts';
import { type Length, zero } from '../units/length.ts';
import { clipped } from './clipped.ts';
import type { DrawingScale } from './drawing-input.ts';
import { stretchOfFinding } from './finding-lane.ts';
import { lettered, textWidth } from './lettering.ts';
import { type Box, group, polyline, type Scene, type SceneNode, type XY } from './scene.ts';
import { heading, SHEET_MARGIN, watermark } from './sheet-furniture.ts';
import { type Block, basisBlocks, listsUnder } from './sheet-lists.ts';
import { type ShownPart, shownOf, wholeLength } from './shown-part.ts';
import type { FactCell } from './strings.ts';
import { endFlag, endFlagWidth, TAPE_HEIGHT, zeroFlag } from './tape.ts';
import { capHeights } from './tokens.ts';

/** A wall or a girder from the side: its drawing and its words, before either has a place on paper. */
export interface SideView {
  readonly thing: ThingId;
  /** `WALL F   WEST`. */
  readonly heading: string;
  readonly remarks: readonly string[];
  /** `Wall F west, inside elevation`. */
  readonly title: string;
  readonly house: string;
  readonly kind: 'Inside elevation' | 'Elevation';
  /** Said aloud. */
  readonly name: string;
  readonly scale: DrawingScale;
  /** On paper, from one end of what is drawn to the other, and what its words take beyond them. */
  readonly wide: number;
  readonly reach: { readonly left: number; readonly right: number };
  draw(place: SidePlace): DrawnSide;
  lists(drawn: DrawnSide, columnWidth: number): SideLists;
}
export interface SidePlace {
  /** Of the left end of what is drawn. */
  readonly left: number;
  readonly top: number;
  /** Words keep within. */
  readonly room: { readonly from: number; readonly to: number };
}
export interface DrawnSide {
  readonly nodes: readonly SceneNode[];
  readonly bottom: number;
  /** Top of what is true to scale. */
  readonly drawingTop: number;
  /** Facts too long for their stretch. */
  readonly leftover: readonly FactCell[];
}
export interface SideLists {
  readonly findings: readonly Block[];
  readonly legend: readonly Block[];
  readonly more: readonly Block[];
  readonly drill: readonly Block[];
}

/** A part of a wall or girder that is cut to fit its paper. */
export interface PartOf {
  readonly number: number;
  readonly count: number;
}
export const partWords = ({ number, count }: PartOf): string => `part ${number} of ${count}`;

export interface SideOptions {
  readonly scale: DrawingScale;
  /** Why it is not the usual scale, after the scale in words. */
  readonly whyReduced?: string | undefined;
  /** Where it is cut for its paper. */
  readonly cut?: { readonly shown: ShownPart; readonly part: PartOf };
}

export const isFirst = (part: PartOf | undefined): boolean => part === undefined || part.number === 1;
export const isLast = (part: PartOf | undefined): boolean => part === undefined || part.number === part.count;

/** What has no place on the wall is told on its first part. */
export function isOnPart(
  finding: Finding,
  length: Length,
  shown: ShownPart,
  part: PartOf | undefined,
  placeOf: (finding: Finding) => Stretch | undefined = stretchOfFinding,
): boolean {
  const place = placeOf(finding);
  if (!place || place.from < zero || place.from > length) return isFirst(part);
  const [from, to] = place.from <= place.to ? [place.from, place.to] : [place.to, place.from];
  return shownOf(shown, { from, to }) !== undefined;
}

export function partRemark(
  what: 'wall' | 'girder',
  part: PartOf,
  { from = zero, to }: ShownPart,
  length: Length,
  units: LengthUnits,
): string {
  const stretch = `${formatStation(from, units)} to ${formatStation(to ?? length, units)}`;
  return `The ${what} is too long for one sheet at this scale. This is ${partWords(part)}: ${stretch}. Neighbouring parts overlap, and stations run on from the ${what}'s own zero.`;
}

const LEAST_SHEET_WIDTH = 330;

/** A pane has lists of its own, and draws with every key. */
export type SheetFor = 'paper' | 'pane';

/** The view on a sheet that is as large as it needs to be, with its lists under it; for a pane without them. */
export function looseSheet(view: SideView, basis: Basis, use: SheetFor): Scene {
  const { reach, wide } = view;
  const natural = reach.left + wide + reach.right + 2 * SHEET_MARGIN;
  const width = Math.ceil(Math.max(natural, LEAST_SHEET_WIDTH));
  const left = SHEET_MARGIN + reach.left + (width - natural) / 2;
  const head = heading(view.heading, view.remarks, basis, width);
  const drawn = view.draw({ left, top: head.bottom + 5, room: { from: SHEET_MARGIN, to: width - SHEET_MARGIN } });
  const lists = listsUnder(drawn.bottom, width, SHEET_MARGIN, (columnWidth) => {
    if (use === 'pane') return [];
    const { findings, legend, more, drill } = view.lists(drawn, columnWidth);
    return [...findings, ...legend, ...more, ...drill, ...basisBlocks(basis, columnWidth)];
  });
  const height = Math.ceil(lists.top + lists.height + SHEET_MARGIN);
  const behind: Box = {
    x: SHEET_MARGIN,
    y: drawn.drawingTop,
    width: width - 2 * SHEET_MARGIN,
    height: height - drawn.drawingTop - SHEET_MARGIN,
  };
  return {
    width,
    height,
    title: `${view.title}, ${view.house}`,
    description: sideDescription(view, basis),
    nodes: [
      ...watermark(basis, behind),
      ...head.nodes,
      group(drawn.nodes, { role: 'wall', thing: view.thing, name: view.name }),
      ...lists.nodes,
    ],
    regions: {
      heading: { x: 0, y: 0, width, height: head.bottom },
      drawing: {
        x: left - reach.left,
        y: head.bottom,
        width: wide + reach.left + reach.right,
        height: drawn.bottom + 1 - head.bottom,
      },
      lists: { x: 0, y: lists.top - 3, width, height: height - lists.top + 3 },
    },
  };
}

export function sideDescription({ kind, name }: Pick<SideView, 'kind' | 'name'>, basis: Basis): string {
  return `${kind} of ${name}. ${basis.label}. ${basis.lines.join(' ')}`;
}

// ---- the two ends of a tape

export interface TapeEnds {
  /** By compass, or what stands there in its place. */
  readonly zero: string;
  readonly far: string;
  /** The whole length. */
  readonly lengthText: string;
  readonly cutLeft: boolean;
  readonly cutRight: boolean;
}

/** What the words at the ends of a tape take beyond it. */
export function tapeEndsReach({ zero, far, lengthText, cutLeft, cutRight }: TapeEnds): SideView['reach'] {
  return {
    left: (cutLeft ? -8 : 4) + textWidth(zero, 'label'),
    right: (cutRight ? -8 : endFlagWidth(lengthText) - 8) + textWidth(far, 'label'),
  };
}

/** A flag where the tape starts and where it ends; where it is cut, where it goes on. */
export function tapeEnds(ends: TapeEnds, [left, top]: XY, right: number): readonly SceneNode[] {
  const baseline = top + TAPE_HEIGHT / 2 + capHeights.label / 2;
  const { zero, far, lengthText, cutLeft, cutRight } = ends;
  return [
    ...(cutLeft ? [] : [zeroFlag([left, top])]),
    ...(cutRight ? [] : [endFlag([right, top], lengthText)]),
    lettered(zero, [cutLeft ? left - 2.4 : left - 13, baseline], { size: 'label', anchor: 'end' }),
    lettered(far, [cutRight ? right + 2.4 : right + endFlagWidth(lengthText) + 2, baseline], { size: 'label' }),
  ];
}

/** What is drawn whole, without what lies beyond the ends that are cut. */
export function cutAtEnds(
  nodes: readonly SceneNode[],
  { cutLeft, cutRight }: TapeEnds,
  {
    left,
    right,
    top,
    bottom,
  }: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number },
): readonly SceneNode[] {
  if (!cutLeft && !cutRight) return nodes;
  return [
    ...clipped(nodes, {
      from: cutLeft ? left : Number.NEGATIVE_INFINITY,
      to: cutRight ? right : Number.POSITIVE_INFINITY,
    }),
    ...(cutLeft ? [breakLine(left, top, bottom)] : []),
    ...(cutRight ? [breakLine(right, top, bottom)] : []),
  ];
}

/** Thin, with a kink (ISO 128-2, 01.1.19): the wall goes on beyond it. */
function breakLine(x: number, top: number, bottom: number): SceneNode {
  // Over the tape, where nothing else stands.
  const middle = bottom - TAPE_HEIGHT - 3;
  return group(
    [
      polyline(
        [
          [x, top - 2],
          [x, middle - 2.4],
          [x - 1.4, middle - 1.2],
          [x + 1.4, middle + 1.2],
          [x, middle + 2.4],
          [x, bottom + 1.5],
        ],
        { stroke: { colour: 'ink', pen: 'P5' } },
      ),
    ],
    { hidden: true },
  );
}

/** Where the tape is cut, the part that has the rest of it, and the station. */
export function cutTapeEnds(
  { zero: first, far, lengthText }: Pick<TapeEnds, 'zero' | 'far' | 'lengthText'>,
  units: LengthUnits,
  cut: SideOptions['cut'],
): TapeEnds {
  const { from, to } = cut?.shown ?? wholeLength;
  const number = cut?.part.number ?? 1;
  return {
    zero: from === undefined ? first : `${formatStation(from, units)}, from part ${number - 1}`,
    far: to === undefined ? far : `${formatStation(to, units)}, on to part ${number + 1}`,
    lengthText,
    cutLeft: from !== undefined,
    cutRight: to !== undefined,
  };
}
