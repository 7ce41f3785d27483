import type { Box, SceneNode, Stroke, SymbolName, XY } from './scene.ts';
import { boxBetween, circle, group, line, polygon, polyline, rect, strokes } from './scene.ts';
import { diagonals, dots, hatch } from './strokes.ts';
import type { MarkState } from './symbols.ts';
import { omittedBox } from './symbols.ts';

/** Signs of what is built beside plates and bolts. Solid is new, split is proposed by the tool, crossed is not there. */

// ---- bodies of metal

/** Solid, or its right and lower half alone where the tool proposes it. */
export function newBody(body: Box, proposed: boolean): readonly SceneNode[] {
  if (!proposed) return [rect(body, { fill: 'new', stroke: { colour: 'new', pen: 'P4' } })];
  const right = body.x + body.width;
  const bottom = body.y + body.height;
  return [
    rect(body, { fill: 'paper', stroke: { colour: 'new', pen: 'P4' } }),
    polygon(
      [
        [right, body.y],
        [right, bottom],
        [body.x, bottom],
      ],
      { fill: 'new' },
    ),
  ];
}

function failedCross(body: Box): SceneNode {
  return strokes(diagonals(body), { colour: 'ontop', pen: 'P2' });
}

export interface HoldDownGlyph {
  readonly body: Box;
  readonly foot: number;
  readonly footKnown: boolean;
  readonly screws: number;
}

/** A body against its stud, and the rod that ties it into the concrete. */
export function holdDown({ body, foot, footKnown, screws }: HoldDownGlyph, state: MarkState): SceneNode {
  if (state.state === 'omitted') return omittedBox(boxBetween(body.x, body.y, body.x + body.width, foot));
  const x = body.x + body.width / 2;
  const bottom = body.y + body.height;
  const rows = Math.min(7, Math.max(2, Math.ceil(screws / 2)));
  const holes = Array.from({ length: rows }, (_, row) => body.y + (body.height * (row + 0.6)) / (rows + 0.8)).flatMap(
    (y): XY[] => [
      [x - body.width * 0.22, y],
      [x + body.width * 0.22, y],
    ],
  );
  const onSolid = ([hx, hy]: XY): boolean =>
    !state.proposed || (hx - body.x) / body.width + (hy - body.y) / body.height >= 1;
  return group(
    [
      line([x, bottom - 1], [x, foot], { colour: 'new', pen: 'rod', ...(footKnown ? {} : { line: 'not-recorded' }) }),
      line([x - 1.1, foot], [x + 1.1, foot], { colour: 'new', pen: 'P1' }),
      ...newBody(body, state.proposed),
      ...holes.map((at) =>
        circle(at, 0.3, onSolid(at) ? { fill: 'ontop' } : { fill: 'paper', stroke: { colour: 'new', pen: 'P5' } }),
      ),
      ...(state.state === 'failed' ? [failedCross(body)] : []),
    ],
    { symbol: state.proposed ? 'hold-down-proposed' : 'hold-down' },
  );
}

/** A bar with holes across a joint of the plates. */
export function strap(body: Box, state: MarkState): SceneNode {
  if (state.state === 'omitted') return omittedBox(body);
  const y = body.y + body.height / 2;
  const count = Math.max(2, Math.min(12, Math.floor(body.width / 2)));
  const holes = Array.from({ length: count }, (_, index): XY => [body.x + (body.width * (index + 0.5)) / count, y]);
  return group(
    [
      ...newBody(body, state.proposed),
      ...holes.map((at) => circle(at, Math.min(0.32, body.height / 4), { fill: 'ontop' })),
      ...(state.state === 'failed' ? [failedCross(body)] : []),
    ],
    { symbol: state.proposed ? 'strap-proposed' : 'strap' },
  );
}

export const ANGLE_HEIGHT = 1.5;

/** A slim box across the plate line, with its fold. */
export function framingAngle(from: number, to: number, y: number, proposed: boolean): SceneNode {
  const body = boxBetween(from, y - ANGLE_HEIGHT / 2, to, y + ANGLE_HEIGHT / 2);
  return group(
    [
      ...newBody(body, proposed),
      line([from + 0.3, y], [to - 0.3, y], { colour: proposed ? 'new' : 'ontop', pen: proposed ? 'P5' : 'P4' }),
    ],
    { symbol: proposed ? 'framing-angle-proposed' : 'framing-angle' },
  );
}

/** A plate under the nut of an old anchor. */
export function newWasher(x: number, under: number, width: number): SceneNode {
  return group([rect(boxBetween(x - width / 2, under - 0.8, x + width / 2, under), { fill: 'new' })], {
    symbol: 'new-washer',
  });
}

/** Where the design had it, beside what was built elsewhere. */
export function plannedGhost(body: Box): SceneNode {
  return group([rect(body, { stroke: { colour: 'new', pen: 'P4', line: 'ghost' } })], { symbol: 'moved' });
}

// ---- bracing panels

export interface PanelGlyph {
  /** Round the panel, from its upper left corner clockwise. */
  readonly outline: readonly XY[];
  readonly edgeNails: readonly XY[];
  readonly fieldNails: readonly XY[];
  readonly ventHoles: readonly { readonly at: XY; readonly radius: number }[];
}

export function bracingPanel(glyph: PanelGlyph, state: MarkState): SceneNode {
  const { outline } = glyph;
  if (state.state === 'omitted') return omittedPanel(outline);
  const nails = [...glyph.edgeNails, ...glyph.fieldNails];
  return group(
    [
      polygon(state.proposed ? lowerRight(outline) : outline, { fill: 'panelfill' }),
      polygon(outline, {
        stroke: state.proposed ? { colour: 'panel', pen: 'P2', line: 'zone-edge' } : { colour: 'panel', pen: 'P1' },
      }),
      group([{ kind: 'path', steps: dots(nails), stroke: { colour: 'panel', pen: 'nail', ends: 'round' } }], {
        role: 'texture',
        hidden: true,
      }),
      ...glyph.ventHoles.map(({ at, radius }) =>
        circle(at, radius, { fill: 'paper', stroke: { colour: 'panel', pen: 'P3' } }),
      ),
      ...(state.state === 'failed'
        ? [group([strokes(crossOver(outline), { colour: 'error', pen: 'P1' })], { symbol: 'failed' })]
        : []),
    ],
    { symbol: state.proposed ? 'panel-proposed' : 'panel' },
  );
}

function omittedPanel(outline: readonly XY[]): SceneNode {
  return group(
    [
      polygon(outline, { stroke: { colour: 'ink2', pen: 'P4', line: 'omitted' } }),
      strokes(crossOver(outline), { colour: 'ink', pen: 'cut' }),
    ],
    { symbol: 'omitted' },
  );
}

function extremes(outline: readonly XY[]): Box {
  const xs = outline.map(([x]) => x);
  const ys = outline.map(([, y]) => y);
  return boxBetween(Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys));
}
const crossOver = (outline: readonly XY[]): readonly (readonly [XY, XY])[] => diagonals(extremes(outline));

function lowerRight(outline: readonly XY[]): readonly XY[] {
  const { x, y, width, height } = extremes(outline);
  return [
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ];
}

/** A block on the sill behind a panel, between two studs. */
export function nailer(box: Box): SceneNode {
  return group([rect(box, { stroke: { colour: 'new', pen: 'P4', line: 'behind-panel' } })], { symbol: 'nailer' });
}

/** The backing of a horizontal joint of a panel. */
export function flatBlock(box: Box): SceneNode {
  const stroke: Stroke = { colour: 'new', pen: 'P4', line: 'behind-panel' };
  return group([rect(box, { stroke }), line([box.x, box.y + box.height], [box.x + box.width, box.y], stroke)], {
    symbol: 'flat-block',
  });
}

// ---- wood

/** New wood like a block: heavy outline and one diagonal; split where the tool proposes it. */
export function newWood(box: Box, proposed: boolean, symbol: SymbolName): SceneNode {
  return group(
    [
      rect(box, { fill: 'wood', stroke: { colour: 'new', pen: 'P2' } }),
      ...(proposed
        ? [
            polygon(
              [
                [box.x + box.width, box.y],
                [box.x + box.width, box.y + box.height],
                [box.x, box.y + box.height],
              ],
              { fill: 'new' },
            ),
          ]
        : [line([box.x, box.y + box.height], [box.x + box.width, box.y], { colour: 'new', pen: 'P3' })]),
    ],
    { symbol },
  );
}

/** Beside an old board, and in front of it: twice as dense as a new board. */
export function sisterBoard(box: Box): SceneNode {
  return group(
    [rect(box, { stroke: { colour: 'new', pen: 'P2' } }), strokes(hatch(box, 1.2), { colour: 'new', pen: 'P5' })],
    { symbol: 'sister-board' },
  );
}

/** Wood that comes out and that nothing replaces. */
export function removedWood(box: Box): SceneNode {
  return group(
    [
      rect(box, { stroke: { colour: 'ink2', pen: 'P4', line: 'omitted' } }),
      line([box.x, box.y + box.height], [box.x + box.width, box.y], { colour: 'ink2', pen: 'P4' }),
    ],
    { symbol: 'removed-wood' },
  );
}

// ---- what the design does to found things

/** Crossed: it will not be there any more. */
export function removedThing(box: Box): SceneNode {
  return group([strokes(diagonals(box), { colour: 'ink', pen: 'cut' })], { symbol: 'removed-thing' });
}

/** It goes elsewhere: an arrow out of its place. */
export function relocatedThing(box: Box): SceneNode {
  const [x, y] = [box.x + box.width / 2, box.y + Math.min(box.height / 2, 6)];
  return group(
    [
      rect(box, { stroke: { colour: 'ink', pen: 'P3', line: 'omitted' } }),
      polyline(
        [
          [x - 2.2, y + 2.2],
          [x + 2.2, y - 2.2],
        ],
        { stroke: { colour: 'ink', pen: 'P2' } },
      ),
      polygon(
        [
          [x + 3.2, y - 3.2],
          [x + 2.6, y - 0.7],
          [x + 0.7, y - 2.6],
        ],
        { fill: 'ink' },
      ),
    ],
    { symbol: 'relocated-thing' },
  );
}

/** A repaired crack, a rotten board that is replaced: the defect is as found, and a small cross says that it is seen to. */
export function remediedDefect(at: XY): SceneNode {
  return group(
    [
      circle(at, 1.5, { fill: 'paper', stroke: { colour: 'new', pen: 'P4' } }),
      polyline(
        [
          [at[0] - 0.8, at[1]],
          [at[0] - 0.2, at[1] + 0.6],
          [at[0] + 0.8, at[1] - 0.7],
        ],
        { stroke: { colour: 'new', pen: 'P3' } },
      ),
    ],
    { symbol: 'remedied-defect' },
  );
}

// ---- posts and girders

/** A plate on a post, solid; plates on both sides have a doubled edge. */
export function postPlate(body: Box, part: 'cap' | 'base', state: MarkState, bothSides: boolean): SceneNode {
  if (state.state === 'omitted') return omittedBox(body);
  const outer = { x: body.x - 0.7, y: body.y - 0.7, width: body.width + 1.4, height: body.height + 1.4 };
  const holes = [0.2, 0.8].flatMap((dx) =>
    [0.18, 0.82].map((dy): XY => [body.x + body.width * dx, body.y + body.height * dy]),
  );
  const onSolid = ([x, y]: XY): boolean =>
    !state.proposed || (x - body.x) / body.width + (y - body.y) / body.height >= 1;
  const symbols: Readonly<Record<'cap' | 'base', readonly [SymbolName, SymbolName]>> = {
    cap: ['post-cap', 'post-cap-proposed'],
    base: ['post-base', 'post-base-proposed'],
  };
  return group(
    [
      ...(bothSides ? [rect(outer, { stroke: { colour: 'new', pen: 'P4' } })] : []),
      ...newBody(body, state.proposed),
      ...holes.map((at) =>
        circle(at, 0.36, onSolid(at) ? { fill: 'ontop' } : { fill: 'paper', stroke: { colour: 'new', pen: 'P5' } }),
      ),
      ...(state.state === 'failed' ? [failedCross(body)] : []),
    ],
    { symbol: symbols[part][state.proposed ? 1 : 0] },
  );
}

/** An existing or a new footing; its size is drawn as not recorded. */
export function pier(box: Box, isNew: boolean): SceneNode {
  const spread = box.width * 0.18;
  const outline: readonly XY[] = [
    [box.x + spread, box.y],
    [box.x + box.width - spread, box.y],
    [box.x + box.width, box.y + box.height],
    [box.x, box.y + box.height],
  ];
  return group(
    [
      polygon(outline, {
        fill: 'conc',
        stroke: isNew ? { colour: 'new', pen: 'P2' } : { colour: 'ink', pen: 'P2', line: 'not-recorded' },
      }),
      ...(isNew
        ? [
            strokes(hatch({ x: box.x + spread, y: box.y, width: box.width - 2 * spread, height: box.height }, 2.4), {
              colour: 'new',
              pen: 'P4',
            }),
          ]
        : []),
    ],
    { symbol: isNew ? 'new-pad' : 'pier' },
  );
}

/** Two slanting props beside a post. */
export function shoring(x: number, top: number, bottom: number, half: number): SceneNode {
  const prop = (side: 1 | -1): SceneNode =>
    polyline(
      [
        [x + side * (half + 2.5), top],
        [x + side * (half + 4.5), bottom],
        [x + side * (half + 2.9), bottom],
        [x + side * (half + 6.1), bottom],
      ],
      { stroke: { colour: 'new', pen: 'P3', line: 'omitted' } },
    );
  return group([prop(-1), prop(1)], { symbol: 'shored' });
}

/** Where two beams meet. */
export function beamSplice(x: number, top: number, bottom: number): SceneNode {
  return group(
    [
      rect(boxBetween(x - 0.3, top, x + 0.3, bottom), { fill: 'paper' }),
      strokes(
        [-0.3, 0.3].map((side): readonly [XY, XY] => [
          [x + side, top - 0.8],
          [x + side, bottom + 0.8],
        ]),
        { colour: 'ink', pen: 'P4' },
      ),
    ],
    { symbol: 'splice' },
  );
}

// ---- where a connector may stand

export const WINDOW_HEIGHT = 4.8;

export function legalWindow(from: number, to: number, top: number): SceneNode {
  // A single station is a window too.
  const least = 0.8;
  const wide = Math.max(to - from, least);
  const middle = (from + to) / 2;
  return group(
    [
      rect(boxBetween(middle - wide / 2, top, middle + wide / 2, top + WINDOW_HEIGHT), {
        fill: 'paper',
        stroke: { colour: 'good', pen: 'P1' },
      }),
    ],
    { symbol: 'legal-window' },
  );
}

export function blockedStretch(from: number, to: number, top: number): SceneNode {
  const box = boxBetween(from, top + 0.6, to, top + WINDOW_HEIGHT - 0.6);
  return group(
    [strokes(hatch(box, 2), { colour: 'ink2', pen: 'P3' }), rect(box, { stroke: { colour: 'ink2', pen: 'P5' } })],
    { symbol: 'blocked-stretch' },
  );
}

/** Nobody measured what would say whether it may stand here. */
export function unmeasuredStretch(from: number, to: number, top: number): SceneNode {
  return group(
    [
      rect(boxBetween(from, top + 0.6, to, top + WINDOW_HEIGHT - 0.6), {
        fill: 'paper',
        stroke: { colour: 'ink', pen: 'P2', line: 'not-recorded' },
      }),
    ],
    { symbol: 'unmeasured-stretch' },
  );
}
