import { lettered, textWidth, wrapText } from '../lettering.ts';
import { group, rect, type SceneNode } from '../scene.ts';
import { type ColourToken, capHeights } from '../tokens.ts';

/** Words that run on behind each other, each with its colour, and with a box to tick where there is something to do. */
export interface Chunk {
  readonly text: string;
  readonly thing?: string | undefined;
  readonly box?: 'open' | 'ticked' | 'crossed' | undefined;
  readonly colour?: ColourToken;
  readonly heavy?: boolean;
  /** Starts a line of its own. */
  readonly newLine?: boolean;
}

export interface FlowingText {
  readonly height: number;
  nodes(x: number, top: number): readonly SceneNode[];
}

type Size = 'label' | 'detail' | 'least';
interface PlacedPart {
  readonly x: number;
  readonly line: number;
  readonly text: string;
  readonly chunk: Chunk;
  readonly boxed: boolean;
}

export function flowingText(chunks: readonly Chunk[], width: number, size: Size): FlowingText {
  const cap = capHeights[size];
  const pitch = cap * 1.5;
  const box = cap + 0.4;
  const between = cap * 0.9;
  const parts: PlacedPart[] = [];
  let line = 0;
  let used = 0;
  for (const chunk of chunks) {
    const lead = chunk.box ? box + 0.8 : 0;
    const whole = textWidth(chunk.text, size);
    const start = used === 0 ? 0 : used + between;
    if (start > 0 && (chunk.newLine || start + lead + whole > width)) {
      line++;
      used = 0;
    } else used = start;
    const lines = wrapText(chunk.text, width - lead, size);
    lines.forEach((text, index) => {
      if (index > 0) {
        line++;
        used = 0;
      }
      parts.push({ x: used + lead, line, text, chunk, boxed: chunk.box !== undefined && index === 0 });
      used += lead + textWidth(text, size);
    });
  }
  const count = parts.length === 0 ? 0 : line + 1;
  return {
    height: count * pitch,
    nodes: (left, top) =>
      parts.map(({ x, line: row, text, chunk, boxed }) => {
        const baseline = top + cap + row * pitch;
        const shape = lettered(text, [left + x, baseline], {
          size,
          colour: chunk.colour ?? 'ink',
          ...(chunk.heavy ? { heavy: true } : {}),
          ...(chunk.box === 'crossed' ? { struck: true } : {}),
        });
        if (!boxed || !chunk.box) return chunk.thing === undefined ? shape : group([shape], { thing: chunk.thing });
        const square = { x: left + x - box - 0.8, y: baseline - cap - 0.2, width: box, height: box };
        return group([...tickBox(square, chunk.box), shape], chunk.thing === undefined ? {} : { thing: chunk.thing });
      }),
  };
}

/** Open, ticked by the record, or crossed out. */
export function tickBox(
  box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
  state: 'open' | 'ticked' | 'crossed',
): readonly SceneNode[] {
  const { x, y, width, height } = box;
  const edge = rect(box, { fill: 'paper', stroke: { colour: 'ink', pen: width > 4 ? 'P2' : 'P4' } });
  const pen = width > 4 ? 'bar' : 'P3';
  if (state === 'open') return [edge];
  if (state === 'ticked') {
    return [
      edge,
      {
        kind: 'polyline',
        closed: false,
        points: [
          [x + width * 0.18, y + height * 0.52],
          [x + width * 0.42, y + height * 0.78],
          [x + width * 0.86, y + height * 0.16],
        ],
        stroke: { colour: 'good', pen },
      },
    ];
  }
  return [
    edge,
    {
      kind: 'path',
      steps: [
        { to: 'move', at: [x + width * 0.15, y + height * 0.15] },
        { to: 'line', at: [x + width * 0.85, y + height * 0.85] },
        { to: 'move', at: [x + width * 0.15, y + height * 0.85] },
        { to: 'line', at: [x + width * 0.85, y + height * 0.15] },
      ],
      stroke: { colour: 'ink', pen: width > 4 ? 'cut' : 'P3' },
    },
  ];
}
