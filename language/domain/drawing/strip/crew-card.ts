import type { LengthUnits } from '../../model/layout.ts';
import { formatStation } from '../../units/format-length.ts';
import { markEnds } from '../elevation-new.ts';
import { lettered, plainText, shortened, textWidth, wrapText } from '../lettering.ts';
import type { PlacedAnchor } from '../placed-mark.ts';
import {
  boxBetween,
  group,
  line,
  rect,
  type SceneNode,
  type Stroke,
  strokes,
  type TextShape,
  type XY,
} from '../scene.ts';
import { diagonals } from '../strokes.ts';
import { markFrame } from '../symbols.ts';
import { capHeights } from '../tokens.ts';
import type { CardLine, CardWords } from './card-words.ts';
import { tickBox } from './flowing-text.ts';

/** One mark for the crew: what to drill where, how far it may slide, and two fields to fill in. */
export interface CrewCard {
  readonly height: number;
  /** `height`: that of the highest card of the strip. */
  draw(at: XY, height: number): SceneNode;
}

const PADDING = 1.5;
const FRAME_HEIGHT = 6.2;
const TICK_BOX = 6.2;
const FIELD_HEIGHT = 7.2;
const LINE_GAP = 1;
const UNDER_FRAME = 1.5;
const UNDER_STATION = 1.7;

export function crewCard(
  placed: PlacedAnchor,
  words: CardWords,
  spoken: string,
  width: number,
  units: LengthUnits,
): CrewCard {
  const inner = width - 2 * PADDING;
  const station = fitted(formatStation(placed.station, units), inner);
  const { place } = words;
  const isBeside = place !== undefined && station.width + 2 + textWidth(place, 'detail') <= inner;
  const frame = markBox(plainText(placed.name), inner - TICK_BOX - 1.4);
  const besideMark = inner - frame.width - TICK_BOX - 2.6;
  const isNamed = textWidth(words.connector, 'detail') <= besideMark;
  const said: readonly CardLine[] = [
    ...(isNamed ? [] : [{ text: words.connector, size: 'detail' } as const]),
    ...(place === undefined || isBeside ? [] : [{ text: place, size: 'detail' } as const]),
    ...words.lines,
  ];
  const rows = said.flatMap((entry) => {
    // A size smaller reads better than a station torn in two.
    const isWide = entry.size === 'label' && !entry.heavy && textWidth(entry.text, 'label') > inner;
    const size = isWide ? 'detail' : entry.size;
    return wrapText(entry.text, inner, size).map((text): CardLine => ({ ...entry, size, text }));
  });
  const top = PADDING + FRAME_HEIGHT + UNDER_FRAME + capHeights['strip-station'] + UNDER_STATION;
  const height = top + rows.reduce((sum, { size }) => sum + capHeights[size] + LINE_GAP, 0) + 0.8 + FIELD_HEIGHT;
  return {
    height,
    draw: (at, of) =>
      drawCard({ placed, words, spoken, frame, isNamed, station, rows, isBeside, top }, { at, width, height: of }),
  };
}

interface Content {
  readonly placed: PlacedAnchor;
  readonly words: CardWords;
  readonly spoken: string;
  readonly frame: MarkBox;
  readonly isNamed: boolean;
  readonly station: Fitted;
  readonly rows: readonly CardLine[];
  readonly isBeside: boolean;
  readonly top: number;
}

function drawCard(
  { placed, words, spoken, frame, isNamed, station, rows, isBeside, top }: Content,
  { at: [x, y], width, height }: { readonly at: XY; readonly width: number; readonly height: number },
): SceneNode {
  const { state } = placed;
  const omitted = state === 'omitted';
  const left = x + PADDING;
  const right = x + width - PADDING;
  const box = boxBetween(x, y, x + width, y + height);
  const stationBaseline = y + PADDING + FRAME_HEIGHT + UNDER_FRAME + capHeights['strip-station'];
  const stateRoom = right - TICK_BOX - 1 - (left + frame.width + 1.4);
  const nodes: SceneNode[] = [
    // No fill: the watermark of demo values shows through.
    rect(box, { stroke: edgeOf(state) }),
    // Behind the words, so that they can still be read.
    ...(omitted ? [strokes(diagonals(box), { colour: 'stale', pen: 'P4' })] : []),
    group(
      markFrame(
        frame.text,
        [left + frame.width / 2, y + PADDING + FRAME_HEIGHT / 2],
        { width: frame.width, height: FRAME_HEIGHT },
        markEnds(placed.connector),
        // Tick and cross stand in the box of the card.
        { proposed: placed.proposed, state: omitted ? 'omitted' : 'planned' },
        frame.size,
      ),
      { role: 'mark' },
    ),
    ...tickBox(
      { x: right - TICK_BOX, y: y + PADDING, width: TICK_BOX, height: TICK_BOX },
      state === 'installed' ? 'ticked' : state === 'planned' ? 'open' : 'crossed',
    ),
    group([stationText(station, [left, stationBaseline], omitted)], { role: 'station' }),
  ];
  const besideX = left + frame.width + 1.3;
  if (isNamed) nodes.push(lettered(words.connector, [besideX, y + PADDING + 2.3], { size: 'detail' }));
  if (words.state !== undefined && stateRoom > 6) {
    nodes.push(
      lettered(shortened(words.state, stateRoom, 'detail'), [besideX, y + PADDING + 5.7], {
        size: 'detail',
        colour: state === 'failed' ? 'error' : state === 'installed' ? 'good' : 'ink',
        heavy: state === 'failed' || omitted,
      }),
    );
  }
  if (isBeside && words.place !== undefined)
    nodes.push(lettered(words.place, [right, stationBaseline], { size: 'detail', anchor: 'end' }));
  let baseline = y + top;
  for (const { text, size, heavy, colour } of rows) {
    baseline += capHeights[size];
    nodes.push(lettered(text, [left, baseline], { size, colour: colour ?? 'ink', ...(heavy ? { heavy } : {}) }));
    baseline += LINE_GAP;
  }
  if (!omitted) nodes.push(...fields(words, box));
  return group(nodes, { role: 'card', thing: placed.id, name: spoken });
}

function edgeOf(state: PlacedAnchor['state']): Stroke {
  if (state === 'omitted') return { colour: 'ink', pen: 'P3', line: 'omitted' };
  return { colour: 'ink', pen: state === 'installed' ? 'P3' : 'P1' };
}

/** What the crew writes: with a marker, on a laminated strip. */
function fields({ embedGot, torque }: CardWords, box: ReturnType<typeof boxBetween>): readonly SceneNode[] {
  const bottom = box.y + box.height;
  const top = bottom - FIELD_HEIGHT;
  const middle = box.x + box.width * 0.42;
  const field = (label: string, value: string | undefined, left: number): readonly SceneNode[] => [
    lettered(label, [left + 1, top + 0.8 + capHeights.least], { size: 'least', colour: 'ink2' }),
    ...(value === undefined
      ? []
      : [lettered(value, [left + 1, bottom - 1.1], { size: 'label', colour: 'good', heavy: true })]),
  ];
  return [
    line([box.x, top], [box.x + box.width, top], { colour: 'ink', pen: 'P4' }),
    line([middle, top], [middle, bottom], { colour: 'ink', pen: 'P4' }),
    ...field('embed got', embedGot, box.x),
    ...field('initials, torque', torque, middle),
  ];
}

interface MarkBox {
  readonly text: string;
  readonly width: number;
  readonly size: 'strip-mark' | 'mark' | 'plan-mark';
}

/** The largest lettering in which the mark stands whole; a mark is never cut where any does. */
function markBox(mark: string, room: number): MarkBox {
  for (const size of ['strip-mark', 'mark', 'plan-mark'] as const) {
    const width = Math.max(11, textWidth(mark, size, 'regular') + 4.4);
    if (width <= room) return { text: mark, width, size };
  }
  return { text: shortened(mark, room - 4.4, 'plan-mark', 'regular'), width: room, size: 'plan-mark' };
}

interface Fitted {
  readonly text: string;
  readonly face: 'regular' | 'narrow';
  readonly capHeight: number;
  readonly width: number;
}

/** Wide lettering, else narrow, else narrow and a little lower: a station is never cut. */
function fitted(text: string, room: number): Fitted {
  const capHeight = capHeights['strip-station'];
  for (const face of ['regular', 'narrow'] as const) {
    const width = textWidth(text, 'strip-station', face);
    if (width <= room) return { text, face, capHeight, width };
  }
  const width = textWidth(text, 'strip-station', 'narrow');
  return { text, face: 'narrow', capHeight: (capHeight * room) / width, width: room };
}

function stationText({ text, face, capHeight, width }: Fitted, at: XY, omitted: boolean): TextShape {
  const shape = lettered(text, at, { size: 'strip-station', face, heavy: !omitted, struck: omitted });
  return capHeight === capHeights['strip-station'] ? shape : { ...shape, capHeight, width };
}
