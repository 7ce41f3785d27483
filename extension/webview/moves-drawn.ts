import type { ConnectorMoves, MoveBoard } from '../../language/protocol/moves.ts';
import type { StationAxis } from '../../language/protocol/preview.ts';
import type { Box } from './boxes.ts';
import type { Gap, Standing } from './move-steps.ts';
import { cautionWords, fitWords, gapLength, stationWords } from './move-words.ts';

const svgSpace = 'http://www.w3.org/2000/svg';
const NANOMETRES_PER_MILLIMETRE = 1_000_000;

/** Where to draw: the drawing's own units, and what a pixel is in them. */
export interface MoveStage {
  readonly axis: StationAxis;
  readonly pixel: number;
  /** What a person can see of the drawing. */
  readonly sight: Box;
}

export function xOf({ zero, scale }: StationAxis, station: number): number {
  return zero + (station / NANOMETRES_PER_MILLIMETRE) * scale;
}
export function stationOf({ zero, scale }: StationAxis, x: number): number {
  return ((x - zero) / scale) * NANOMETRES_PER_MILLIMETRE;
}

/** Of the drawings' graphic language: an open bar 4.8 mm high between hatched stretches, over the tape. */
const BAR = 4.8;
const OVER_THE_TAPE = 0.9;
const HATCH = 2;
const ROW = 15;
const MOST_ROWS = 4;
const LONGEST_NAME = 44;

/**
 * Where a connector may stand: open bars, solid along their foot where the distances are kept too, dashed where nobody
 * measured, hatched and named where something is in the way. Returns how high it reaches.
 */
export function drawWindows(layer: SVGGElement, { boards }: ConnectorMoves, stage: MoveStage): number {
  const { axis, pixel } = stage;
  const top = axis.tape - OVER_THE_TAPE - BAR;
  const plate = shape(layer, 'rect', 'plate');
  for (const board of boards) drawBoard(layer, board, stage, top);
  const names = boards.flatMap(({ blocked }) =>
    blocked.map(({ from, to, words }) => ({
      middle: (xOf(axis, from) + xOf(axis, to)) / 2,
      text: nameOf(words),
    })),
  );
  const left = Math.min(...boards.map(({ from }) => xOf(axis, from)));
  const right = Math.max(...boards.map(({ to }) => xOf(axis, to)));
  const rows = placeNames(layer, names, top, stage, { left, right });
  const reach = top - (rows === 0 ? 3 : rows * ROW + 7) * pixel;
  box(plate, { x: left, y: reach, width: right - left, height: axis.tape - 0.2 - reach });
  return reach;
}

function drawBoard(layer: SVGGElement, board: MoveBoard, { axis, pixel }: MoveStage, top: number): void {
  const bar = (name: string, from: number, to: number, y = top, height = BAR): void => {
    const x = xOf(axis, from);
    const width = Math.max(xOf(axis, to) - x, 2 * pixel);
    box(shape(layer, 'rect', name), { x, y, width, height });
  };
  for (const { from, to } of board.blocked) {
    bar('blocked-stretch', from, to);
    shape(layer, 'path', 'hatch').setAttribute('d', hatched(xOf(axis, from), xOf(axis, to), top));
  }
  for (const { from, to } of board.unmeasured) bar('unmeasured-stretch', from, to);
  for (const { from, to } of board.clear) bar('window', from, to);
  for (const { from, to } of board.kept) bar('kept', from, to, top + BAR - 1.5, 1.5);
  for (const station of board.best) {
    const x = xOf(axis, station);
    const y = top + 1.5;
    shape(layer, 'path', 'best').setAttribute('d', `M${x} ${y - 1.1}L${x + 1.1} ${y}L${x} ${y + 1.1}L${x - 1.1} ${y}Z`);
  }
}

/** Lines at 45° that end at the edges. */
function hatched(left: number, right: number, top: number): string {
  const lines: string[] = [];
  for (let foot = left + HATCH / 2; foot < right + BAR; foot += HATCH) {
    const from = Math.min(foot, right);
    const to = Math.max(foot - BAR, left);
    if (from > to) lines.push(`M${from} ${top + BAR - (foot - from)}L${to} ${top + BAR - (foot - to)}`);
  }
  return lines.join('');
}

function nameOf(words: readonly string[]): string {
  const [first = 'no room', ...others] = words;
  const name = first.length > LONGEST_NAME ? `${first.slice(0, LONGEST_NAME - 1)}…` : first;
  return others.length === 0 ? name : `${name} +${others.length} more`;
}

/** Over the bars, in as many rows as it takes up to four; what finds no room is left to the words under the drawing. */
function placeNames(
  layer: SVGGElement,
  names: readonly { readonly middle: number; readonly text: string }[],
  top: number,
  { pixel, sight }: MoveStage,
  wall: { readonly left: number; readonly right: number },
): number {
  const least = Math.max(sight.x, wall.left) + 2 * pixel;
  const most = Math.min(sight.x + sight.width, wall.right) - 2 * pixel;
  const reached: number[] = [];
  for (const { middle, text } of names.toSorted((a, b) => a.middle - b.middle)) {
    if (middle < least - ROW * pixel || middle > most + ROW * pixel) continue;
    const words = lettering(layer, 'stretch-name', text, [middle, top], pixel);
    const half = (words.getComputedTextLength() * pixel) / 2;
    const centre = Math.max(least + half, Math.min(most - half, middle));
    const row = firstRow(reached, centre - half);
    if (row === undefined) {
      words.remove();
      continue;
    }
    reached[row] = centre + half + 8 * pixel;
    const y = top - (row * ROW + 6) * pixel;
    words.setAttribute('transform', `translate(${centre} ${y}) scale(${pixel})`);
    const leader = shape(layer, 'path', 'name-leader');
    leader.setAttribute('d', `M${middle} ${top}L${centre} ${y + 2 * pixel}`);
    layer.insertBefore(leader, words);
  }
  return reached.length;
}

function firstRow(reached: readonly number[], left: number): number | undefined {
  const free = reached.findIndex((end) => end <= left);
  if (free >= 0) return free;
  return reached.length < MOST_ROWS ? reached.length : undefined;
}

/** The connector in the hand: its line, the distances to its neighbours, its station and whether it may stand there. */
export function drawHeld(
  layer: SVGGElement,
  moves: ConnectorMoves,
  standing: Standing,
  stage: MoveStage,
  /** How high the windows reach, and the body of the connector. */
  { reach, body }: { readonly reach: number; readonly body: number },
): void {
  const { axis, pixel, sight } = stage;
  const x = xOf(axis, standing.station);
  const group = element('g', `held ${standing.fit}${standing.isKept === false ? ' not-kept' : ''}`);
  layer.append(group);
  const line = reach - 8 * pixel;
  shape(group, 'path', 'at').setAttribute('d', `M${x} ${body}V${axis.tape}`);
  for (const gap of [standing.left, standing.right]) if (gap) drawGap(group, moves, gap, x, line, stage);

  const label = element('g', 'station-label');
  group.append(label);
  const frame = shape(label, 'rect', 'frame');
  const station = lettering(label, 'station', `${moves.mark}  ${stationWords(moves, standing.station)}`, [0, 0], 1);
  const fit = lettering(label, 'fit', shortened(fitWords(standing)), [0, 0], 1);
  const caution = cautionWords(standing);
  const lines = [station, fit, ...(caution === '' ? [] : [lettering(label, 'caution', caution, [0, 0], 1)])];
  const width = Math.max(...lines.map((line) => line.getComputedTextLength())) + 20;
  const height = caution === '' ? 42 : 58;
  box(frame, { x: -width / 2, y: 0, width, height });
  for (const [index, at] of [19, 35, 51].entries()) lines[index]?.setAttribute('transform', `translate(0 ${at})`);
  const half = (width / 2 + 2) * pixel;
  const centre = Math.max(sight.x + half, Math.min(sight.x + sight.width - half, x));
  // Over the connector; where the window ends sooner, at its upper edge.
  const above = Math.max(sight.y + 2 * pixel, Math.min(body, line - 26 * pixel) - (height + 8) * pixel);
  label.setAttribute('transform', `translate(${centre} ${above}) scale(${pixel})`);
}

const LONGEST_FIT = 72;
const shortened = (words: string): string =>
  words.length > LONGEST_FIT ? `${words.slice(0, LONGEST_FIT - 1)}…` : words;

function drawGap(
  group: SVGGElement,
  moves: ConnectorMoves,
  gap: Gap,
  x: number,
  y: number,
  { axis, pixel, sight }: MoveStage,
): void {
  const other = xOf(axis, gap.station);
  const [left, right] = other < x ? [other, x] : [x, other];
  const own = element('g', `gap${gap.breaks ? ' broken' : ''}`);
  group.append(own);
  const tick = 4 * pixel;
  const ticks = [left, right].map((at) => `M${at - tick} ${y + tick}L${at + tick} ${y - tick}`).join('');
  shape(own, 'path', 'gap-line').setAttribute(
    'd',
    `M${left} ${y}H${right}${ticks}M${other} ${y - 2 * tick}V${axis.tape}`,
  );
  const plate = shape(own, 'rect', 'gap-plate');
  const words = lettering(own, 'gap-length', gapLength(moves, gap), [0, 0], pixel);
  const half = (words.getComputedTextLength() / 2 + 4) * pixel;
  // In the middle of what can be seen of it.
  const seen = [Math.max(left, sight.x), Math.min(right, sight.x + sight.width)] as const;
  const middle = (seen[0] + seen[1]) / 2;
  const centre = right - left < 2 * half ? (other < x ? x - half - tick : x + half + tick) : middle;
  box(plate, { x: centre - half, y: y - 19 * pixel, width: 2 * half, height: 15 * pixel });
  words.setAttribute('transform', `translate(${centre} ${y - 7 * pixel}) scale(${pixel})`);
}

function lettering(
  layer: SVGElement,
  name: string,
  text: string,
  [x, y]: readonly [number, number],
  pixel: number,
): SVGTextElement {
  const words = element('text', name);
  words.textContent = text;
  words.setAttribute('transform', `translate(${x} ${y}) scale(${pixel})`);
  layer.append(words);
  return words;
}

function shape<Name extends 'rect' | 'path'>(layer: SVGElement, name: Name, className: string) {
  const made = element(name, className);
  layer.append(made);
  return made;
}

function element<Name extends keyof SVGElementTagNameMap>(name: Name, className: string): SVGElementTagNameMap[Name] {
  const made = document.createElementNS(svgSpace, name);
  made.setAttribute('class', className);
  return made;
}

function box(rect: SVGElement, { x, y, width, height }: Box): void {
  rect.setAttribute('x', String(x));
  rect.setAttribute('y', String(y));
  rect.setAttribute('width', String(Math.max(0, width)));
  rect.setAttribute('height', String(Math.max(0, height)));
}
