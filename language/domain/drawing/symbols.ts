import { lettered } from './lettering.ts';
import type { Box, SceneNode, Stroke, SymbolName, XY } from './scene.ts';
import { boxBetween, circle, group, line, polygon, polyline, rect, strokes } from './scene.ts';
import { cross, diagonals, hatch, zigzag } from './strokes.ts';
import { type ColourToken, capHeights, type Pen } from './tokens.ts';

/** Every sign that a drawing uses, drawn in one place: plan, elevation and legend call the same functions. */

// ---- marks of new work

export type MarkEnds = 'square' | 'round' | 'unknown';
export interface MarkState {
  readonly proposed: boolean;
  readonly state: 'planned' | 'installed' | 'omitted' | 'failed';
  /** On papers that left the office: it stays as it is. */
  readonly issued?: boolean;
}

/** A mark in its frame, centred: square ends for a plate, round ends for a bolt; solid is set by hand, open is proposed. */
export function markFrame(
  text: string,
  centre: XY,
  box: { readonly width: number; readonly height: number },
  ends: MarkEnds,
  state: MarkState,
  size: 'mark' | 'plan-mark' | 'strip-mark',
): readonly SceneNode[] {
  const frame: Box = {
    x: centre[0] - box.width / 2,
    y: centre[1] - box.height / 2,
    width: box.width,
    height: box.height,
  };
  const rounded = ends === 'round' ? box.height / 2 : 0;
  const omitted = state.state === 'omitted';
  const solid = !omitted && !state.proposed && ends !== 'unknown';
  const cap = capHeights[size];
  return [
    rect(frame, {
      fill: solid ? 'new' : 'paper',
      stroke: omitted
        ? { colour: 'ink2', pen: 'P3', line: 'omitted' }
        : { colour: 'new', pen: 'P3', ...(ends === 'unknown' ? { line: 'not-recorded' } : {}) },
      ...(rounded > 0 ? { rounded } : {}),
    }),
    lettered(text, [centre[0], centre[1] + cap / 2], {
      size,
      face: 'regular',
      anchor: 'middle',
      colour: omitted ? 'ink2' : solid ? 'ontop' : 'new',
      struck: omitted,
    }),
    ...(state.state === 'installed' ? [tick([frame.x + frame.width, frame.y])] : []),
    ...(state.issued ? [issuedBar(frame)] : []),
    ...(state.state === 'failed'
      ? [
          group([strokes(cross([frame.x + frame.width, frame.y], 1.1), { colour: 'error', pen: 'P1' })], {
            symbol: 'failed',
          }),
        ]
      : []),
  ];
}

/** Issued, and not to be moved. */
function issuedBar(frame: Box): SceneNode {
  const y = frame.y + frame.height + 0.75;
  return group([line([frame.x + 0.6, y], [frame.x + frame.width - 0.6, y], { colour: 'new', pen: 'P2' })], {
    symbol: 'issued',
  });
}

/** Done: over the corner of a frame. */
export function tick([x, y]: XY): SceneNode {
  return group(
    [
      polyline(
        [
          [x - 1.7, y - 0.3],
          [x - 0.5, y + 0.9],
          [x + 1.5, y - 2.1],
        ],
        { stroke: { colour: 'good', pen: 'cut' } },
      ),
    ],
    { symbol: 'installed' },
  );
}

// ---- new connectors in elevation

export interface PlateGlyph {
  readonly body: Box;
  /** Level of the top of concrete, where a stepped body bends over it; a flat one has no line. */
  readonly step: number | undefined;
  readonly concreteHoles: readonly XY[];
  readonly sillHoles: readonly XY[];
}

export function sidePlate(glyph: PlateGlyph, state: MarkState): SceneNode {
  const { body } = glyph;
  if (state.state === 'omitted') return omittedBox(body);
  const right = body.x + body.width;
  const bottom = body.y + body.height;
  const nodes: SceneNode[] = [];
  if (state.proposed) {
    nodes.push(
      rect(body, { fill: 'paper', stroke: { colour: 'new', pen: 'P2' } }),
      polygon(
        [
          [right, body.y],
          [right, bottom],
          [body.x, bottom],
        ],
        { fill: 'new' },
      ),
    );
  } else {
    nodes.push(rect(body, { fill: 'new', stroke: { colour: 'new', pen: 'P2' } }));
  }
  if (glyph.step !== undefined) {
    // Light on the solid part, dark on the open one.
    const turn = state.proposed ? body.x + body.width * (1 - (glyph.step - body.y) / body.height) : body.x + 0.4;
    if (state.proposed) nodes.push(line([body.x + 0.4, glyph.step], [turn, glyph.step], { colour: 'new', pen: 'P3' }));
    nodes.push(line([turn, glyph.step], [right - 0.4, glyph.step], { colour: 'ontop', pen: 'P3' }));
  }
  // The solid half lies right of and below the diagonal from the upper right corner to the lower left.
  const onSolid = ([x, y]: XY): boolean =>
    !state.proposed || (x - body.x) / body.width + (y - body.y) / body.height >= 1;
  const hole = (radius: number) => (at: XY) =>
    circle(at, radius, onSolid(at) ? { fill: 'ontop' } : { fill: 'paper', stroke: { colour: 'new', pen: 'P5' } });
  nodes.push(...glyph.concreteHoles.map(hole(0.62)), ...glyph.sillHoles.map(hole(0.26)));
  if (state.state === 'failed') nodes.push(strokes(diagonals(body), { colour: 'ontop', pen: 'P1' }));
  return group(nodes, { symbol: state.proposed ? 'side-plate-proposed' : 'side-plate-by-hand' });
}

export interface BoltGlyph {
  readonly x: number;
  /** Top of the sill: the washer lies on it. */
  readonly sillTop: number;
  readonly foot: number;
  readonly footKnown: boolean;
  readonly washer: number;
}

export function bolt(glyph: BoltGlyph, state: MarkState): SceneNode {
  const { x, sillTop, foot } = glyph;
  const washer = Math.max(glyph.washer, 2.4);
  const top = sillTop - 3;
  if (state.state === 'omitted') return omittedBox(boxBetween(x - 2.2, top, x + 2.2, foot));
  const rodStroke: Stroke = { colour: 'new', pen: 'rod', ...(glyph.footKnown ? {} : { line: 'not-recorded' }) };
  const nodes: SceneNode[] = [];
  if (state.proposed) {
    const middle = (sillTop + foot) / 2;
    nodes.push(
      rect(boxBetween(x - 0.5, top, x + 0.5, middle), { fill: 'paper', stroke: { colour: 'new', pen: 'P5' } }),
      line([x, middle], [x, foot], rodStroke),
      rect(boxBetween(x - washer / 2, sillTop - 0.8, x, sillTop), {
        fill: 'paper',
        stroke: { colour: 'new', pen: 'P5' },
      }),
      rect(boxBetween(x, sillTop - 0.8, x + washer / 2, sillTop), {
        fill: 'new',
        stroke: { colour: 'new', pen: 'P5' },
      }),
      rect(boxBetween(x - 0.9, sillTop - 1.9, x + 0.9, sillTop - 0.8), {
        fill: 'paper',
        stroke: { colour: 'new', pen: 'P5' },
      }),
    );
  } else {
    nodes.push(
      line([x, top], [x, foot], rodStroke),
      rect(boxBetween(x - washer / 2, sillTop - 0.8, x + washer / 2, sillTop), { fill: 'new' }),
      rect(boxBetween(x - 0.95, sillTop - 2, x + 0.95, sillTop - 0.8), { fill: 'new' }),
    );
  }
  nodes.push(line([x - 1.1, foot], [x + 1.1, foot], { colour: 'new', pen: 'P1' }));
  if (state.state === 'failed') {
    nodes.push(
      group([strokes(cross([x, (sillTop + foot) / 2], 1.7), { colour: 'error', pen: 'P1' })], { symbol: 'failed' }),
    );
  }
  return group(nodes, { symbol: state.proposed ? 'bolt-proposed' : 'bolt-by-hand' });
}

/** A mark whose connector nobody described: its place is known, its size is not. */
export function unknownConnector(body: Box): SceneNode {
  return group(
    [
      rect(body, { stroke: { colour: 'new', pen: 'P2', line: 'not-recorded' } }),
      lettered('?', [body.x + body.width / 2, body.y + body.height / 2 + 1.2], {
        size: 'label',
        face: 'regular',
        anchor: 'middle',
        colour: 'new',
      }),
    ],
    { symbol: 'connector-unknown' },
  );
}

export function omittedBox(body: Box): SceneNode {
  return group(
    [
      rect(body, { stroke: { colour: 'ink2', pen: 'P4', line: 'omitted' } }),
      strokes(diagonals(body), { colour: 'ink', pen: 'cut' }),
    ],
    { symbol: 'omitted' },
  );
}

// ---- new connectors in plan

/** Along the wall from one end to the other, `side` to the left of that way; solid or lower half solid. */
export function platePlan(corners: readonly [XY, XY, XY, XY], state: MarkState): SceneNode {
  const [a, b, c, d] = corners;
  if (state.state === 'omitted') return omittedPlan(middle([a, c]));
  if (!state.proposed) {
    const nodes: SceneNode[] = [polygon([a, b, c, d], { fill: 'new', stroke: { colour: 'new', pen: 'P5' } })];
    if (state.state === 'failed')
      nodes.push(group([strokes(cross(middle([a, c]), 1.6), { colour: 'error', pen: 'P1' })], { symbol: 'failed' }));
    return group(nodes, { symbol: 'side-plate-by-hand' });
  }
  return group(
    [
      polygon([a, b, c, d], { fill: 'paper', stroke: { colour: 'new', pen: 'P4' } }),
      polygon([middle([a, b]), b, c, middle([c, d])], { fill: 'new' }),
    ],
    { symbol: 'side-plate-proposed' },
  );
}

const BOLT_RADIUS = 1.05;
export function boltPlan([x, y]: XY, state: MarkState): SceneNode {
  if (state.state === 'omitted') return omittedPlan([x, y]);
  if (!state.proposed) {
    const nodes: SceneNode[] = [circle([x, y], BOLT_RADIUS, { fill: 'new' })];
    if (state.state === 'failed')
      nodes.push(group([strokes(cross([x, y], 1.6), { colour: 'error', pen: 'P1' })], { symbol: 'failed' }));
    return group(nodes, { symbol: 'bolt-by-hand' });
  }
  return group(
    [
      circle([x, y], BOLT_RADIUS, { fill: 'paper', stroke: { colour: 'new', pen: 'P4' } }),
      {
        kind: 'path',
        steps: [
          { to: 'move', at: [x, y - BOLT_RADIUS] },
          { to: 'arc', at: [x, y + BOLT_RADIUS], radius: BOLT_RADIUS, clockwise: true },
          { to: 'close' },
        ],
        fill: 'new',
      },
    ],
    { symbol: 'bolt-proposed' },
  );
}

export function unknownPlan([x, y]: XY): SceneNode {
  return group([circle([x, y], 1.3, { fill: 'paper', stroke: { colour: 'new', pen: 'P3', line: 'not-recorded' } })], {
    symbol: 'connector-unknown',
  });
}

function omittedPlan(at: XY): SceneNode {
  return group(
    [
      circle(at, BOLT_RADIUS, { stroke: { colour: 'ink2', pen: 'P4', line: 'omitted' } }),
      strokes(cross(at, 1.5), { colour: 'ink', pen: 'cut' }),
    ],
    { symbol: 'omitted' },
  );
}

/** A bolt's dot in the square of the body that it holds. */
export function holdDownPlan([x, y]: XY, state: MarkState): SceneNode {
  if (state.state === 'omitted') return omittedPlan([x, y]);
  const body = boxBetween(x - 1.3, y - 1.3, x + 1.3, y + 1.3);
  return group(
    state.proposed
      ? [
          rect(body, { fill: 'paper', stroke: { colour: 'new', pen: 'P4' } }),
          rect({ ...body, x, width: 1.3 }, { fill: 'new' }),
        ]
      : [
          rect(body, { fill: 'new' }),
          circle([x, y], 0.5, { fill: 'ontop' }),
          ...(state.state === 'failed'
            ? [group([strokes(cross([x, y], 1.9), { colour: 'error', pen: 'P1' })], { symbol: 'failed' })]
            : []),
        ],
    { symbol: state.proposed ? 'hold-down-proposed' : 'hold-down' },
  );
}

/** Where the design had it. */
export function ghostPlan(corners: readonly XY[]): SceneNode {
  return group([polygon(corners, { stroke: { colour: 'new', pen: 'P4', line: 'ghost' } })], { symbol: 'moved' });
}

/** A bar with ticks at its ends; half open where the tool proposes it. */
export function panelPlan(from: XY, to: XY, state: MarkState): SceneNode {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  if (length === 0) return group([]);
  const side: XY = [-(to[1] - from[1]) / length, (to[0] - from[0]) / length];
  const end = ([x, y]: XY, reach: number): readonly [XY, XY] => [
    [x - side[0] * reach, y - side[1] * reach],
    [x + side[0] * reach, y + side[1] * reach],
  ];
  const ticks = strokes([end(from, 1.3), end(to, 1.3)], { colour: 'panel', pen: 'P3' });
  if (state.state === 'omitted') {
    return group(
      [
        line(from, to, { colour: 'ink2', pen: 'P4', line: 'omitted' }),
        strokes(cross(middle([from, to]), 1.5), { colour: 'ink', pen: 'cut' }),
      ],
      { symbol: 'omitted' },
    );
  }
  if (!state.proposed)
    return group([line(from, to, { colour: 'panel', pen: 'plan-panel' }), ticks], { symbol: 'panel' });
  const [a, b] = [end(from, 0.5), end(to, 0.5)];
  return group(
    [
      polygon([a[0], b[0], b[1], a[1]], { fill: 'paper', stroke: { colour: 'panel', pen: 'P5' } }),
      line(middle([from, to]), to, { colour: 'panel', pen: 'bar' }),
      ticks,
    ],
    { symbol: 'panel-proposed' },
  );
}

export function anglesPlan(ticks: readonly (readonly [XY, XY])[]): SceneNode {
  return group([strokes(ticks, { colour: 'new', pen: 'P3' })], { symbol: 'framing-angle' });
}

/** Plates on a post, on one side or on both; a cap stands along the girder, a base across it. */
export function postPlatesPlan(
  bars: readonly (readonly [XY, XY])[],
  part: 'cap' | 'base',
  state: MarkState,
): SceneNode {
  const symbol: SymbolName =
    part === 'cap'
      ? state.proposed
        ? 'post-cap-proposed'
        : 'post-cap'
      : state.proposed
        ? 'post-base-proposed'
        : 'post-base';
  if (state.state === 'omitted') {
    return group(
      [
        strokes(bars, { colour: 'ink2', pen: 'P4', line: 'omitted' }),
        ...bars.map((bar) => strokes(cross(middle(bar), 1.1), { colour: 'ink', pen: 'P3' })),
      ],
      { symbol: 'omitted' },
    );
  }
  return group(
    state.proposed
      ? [
          strokes(bars, { colour: 'new', pen: 'P4' }),
          strokes(
            bars.map((bar) => [middle(bar), bar[1]] as const),
            { colour: 'new', pen: 'P1' },
          ),
        ]
      : [strokes(bars, { colour: 'new', pen: 'P1' })],
    { symbol },
  );
}

export function padPlan(corners: readonly XY[]): SceneNode {
  return group([polygon(corners, { fill: 'conc', stroke: { colour: 'new', pen: 'P2' } })], { symbol: 'new-pad' });
}

/** Props on both sides while work goes on. */
export function shoredPlan(left: readonly [XY, XY], right: readonly [XY, XY]): SceneNode {
  return group([strokes([left, right], { colour: 'new', pen: 'P3', line: 'omitted' })], { symbol: 'shored' });
}

export function removedPlan(at: XY): SceneNode {
  return group([strokes(cross(at, 1.9), { colour: 'ink', pen: 'cut' })], { symbol: 'removed-thing' });
}

export function relocatedPlan([x, y]: XY): SceneNode {
  return group(
    [
      line([x - 1.6, y + 1.6], [x + 1.6, y - 1.6], { colour: 'ink', pen: 'P2' }),
      polygon(
        [
          [x + 2.6, y - 2.6],
          [x + 2, y - 0.4],
          [x + 0.4, y - 2],
        ],
        { fill: 'ink' },
      ),
    ],
    { symbol: 'relocated-thing' },
  );
}

const middle = ([a, b]: readonly [XY, XY]): XY => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];

// ---- found anchors

export interface FoundState {
  readonly credit: 'none' | 'half' | 'full';
  /** `removed` stands for whatever holds no more: broken, split out, removed. */
  readonly rust: 'none' | 'light' | 'heavy';
  readonly bent: boolean;
  readonly loose: boolean;
  readonly removed: boolean;
}

function foundSymbol(state: FoundState): SymbolName {
  if (state.removed) return 'found-anchor-removed';
  if (state.rust === 'heavy') return 'found-anchor-heavy-rust';
  if (state.rust === 'light') return 'found-anchor-light-rust';
  if (state.bent) return 'found-anchor-bent';
  if (state.loose) return 'found-anchor-loose';
  if (state.credit === 'full') return 'found-anchor-credit';
  if (state.credit === 'half') return 'found-anchor-half-credit';
  return 'found-anchor';
}

/** An open rod with an open ring on top: what was found, never solid. */
export function foundAnchor(
  glyph: { readonly x: number; readonly sillTop: number; readonly foot: number; readonly footKnown: boolean },
  state: FoundState,
): SceneNode {
  const { x, sillTop, foot } = glyph;
  const radius = 1.25;
  const ring: XY = [x, sillTop - 1.2 - radius - (state.loose ? 0.8 : 0)];
  const rodTop = sillTop - 1.2;
  const half = 0.35;
  const kink = state.bent ? 1.1 : 0;
  const bend = (rodTop + foot) / 2;
  const side = (offset: number): SceneNode =>
    polyline(
      [
        [x + offset, rodTop],
        [x + offset, bend],
        [x + offset + kink, foot],
      ],
      { stroke: { colour: 'found', pen: 'P4', ...(glyph.footKnown ? {} : { line: 'hidden' as const }) } },
    );
  return group(
    [
      side(-half),
      side(half),
      ...(glyph.footKnown
        ? [line([x - half + kink, foot], [x + half + kink, foot], { colour: 'found', pen: 'P4' })]
        : []),
      ...ringWithCredit(ring, radius, state.credit),
      ...slashes(state.rust, [x, rodTop + 1.6], 1.5),
      ...(state.removed ? [strokes(cross(ring, 1.7), { colour: 'ink', pen: 'P2' })] : []),
    ],
    { symbol: foundSymbol(state) },
  );
}

export function foundAnchorPlan(at: XY, state: FoundState): SceneNode {
  return group(
    [
      ...ringWithCredit(at, 1.05, state.credit),
      ...slashes(state.rust, at, 1.7),
      ...(state.removed ? [strokes(cross(at, 1.6), { colour: 'ink', pen: 'P2' })] : []),
    ],
    { symbol: foundSymbol(state) },
  );
}

function ringWithCredit([x, y]: XY, radius: number, credit: FoundState['credit']): readonly SceneNode[] {
  const ring = circle([x, y], radius, { fill: 'paper', stroke: { colour: 'found', pen: 'P3' } });
  if (credit === 'none') return [ring];
  if (credit === 'full') return [ring, circle([x, y], radius * 0.45, { fill: 'found' })];
  return [
    ring,
    {
      kind: 'path',
      steps: [
        { to: 'move', at: [x, y - radius] },
        { to: 'arc', at: [x, y + radius], radius, clockwise: true },
        { to: 'close' },
      ],
      fill: 'found',
    },
  ];
}

function slashes(rust: FoundState['rust'], [x, y]: XY, reach: number): readonly SceneNode[] {
  if (rust === 'none') return [];
  const slash = (offset: number): readonly [XY, XY] => [
    [x - reach * 0.8, y + reach * 0.5 + offset],
    [x + reach * 0.8, y - reach * 0.5 + offset],
  ];
  return [strokes(rust === 'light' ? [slash(0)] : [slash(-0.55), slash(0.55)], { colour: 'defect', pen: 'P4' })];
}

// ---- openings and things in the way, in elevation

export interface Edges {
  readonly top: boolean;
  readonly bottom: boolean;
}

/** A box whose head or foot nobody measured: those edges in short heavy dashes. */
function openingOutline(box: Box, recorded: Edges, colour: ColourToken, pen: Pen): readonly SceneNode[] {
  const { x, y } = box;
  const right = x + box.width;
  const bottom = y + box.height;
  const edge = (from: XY, to: XY, known: boolean): SceneNode =>
    known
      ? line(from, to, { colour, pen })
      : group([line(from, to, { colour, pen: 'P2', line: 'not-recorded' })], { symbol: 'not-recorded' });
  return [
    edge([x, y], [x, bottom], true),
    edge([right, y], [right, bottom], true),
    edge([x, y], [right, y], recorded.top),
    edge([x, bottom], [right, bottom], recorded.bottom),
  ];
}

export function vent(box: Box, recorded: Edges): SceneNode {
  const louvres = [1, 2, 3, 4].map((index): readonly [XY, XY] => {
    const y = box.y + (box.height * index) / 5;
    return [
      [box.x + 0.8, y],
      [box.x + box.width - 0.8, y],
    ];
  });
  return group(
    [
      rect(box, { fill: 'paper' }),
      strokes(louvres, { colour: 'ink2', pen: 'P4' }),
      ...openingOutline(box, recorded, 'ink', 'P2'),
    ],
    {
      symbol: 'vent',
    },
  );
}

export function glazing(box: Box, recorded: Edges): SceneNode {
  const inset = Math.min(1.6, box.width / 4, box.height / 4);
  const inner = boxBetween(
    box.x + inset,
    box.y + inset,
    box.x + box.width - inset,
    box.y + box.height - (recorded.bottom ? inset : 0),
  );
  const size = Math.min(inner.width, inner.height) * 0.32;
  const glass = [-1, 0, 1].map((index): readonly [XY, XY] => {
    const x = inner.x + inner.width / 2 + index * size * 0.4;
    const y = inner.y + inner.height * 0.42;
    const reach = index === 0 ? size / 2 : size / 3;
    return [
      [x - reach, y + reach],
      [x + reach, y - reach],
    ];
  });
  return group(
    [
      rect(box, { fill: 'paper' }),
      polyline(
        [
          [inner.x, inner.y + inner.height],
          [inner.x, inner.y],
          [inner.x + inner.width, inner.y],
          [inner.x + inner.width, inner.y + inner.height],
        ],
        { stroke: { colour: 'ink2', pen: 'P4' } },
      ),
      strokes(glass, { colour: 'ink3', pen: 'P4' }),
      ...openingOutline(box, recorded, 'ink', 'P2'),
    ],
    { symbol: 'window' },
  );
}

export function doorway(box: Box, recorded: Edges): SceneNode {
  return group(
    [
      rect(box, { fill: 'paper' }),
      strokes(diagonals(box), { colour: 'ink2', pen: 'P5' }),
      ...openingOutline(box, recorded, 'ink', 'P2'),
    ],
    {
      symbol: 'door',
    },
  );
}

export function chimney(box: Box): SceneNode {
  const lines = [...hatch(box, 2.6), ...hatch(box, 2.6, 0.3)];
  return group(
    [
      rect(box, { fill: 'paper' }),
      strokes(lines, { colour: 'ink2', pen: 'P5' }),
      rect(box, { stroke: { colour: 'ink', pen: 'P2' } }),
    ],
    {
      symbol: 'chimney',
    },
  );
}

/** Upright or lying, true width, with its axis; a thing whose ends nobody measured shows them in short heavy dashes. */
export function pipe(box: Box, recorded: Edges, colour: ColourToken = 'water'): SceneNode {
  const upright = box.height >= box.width;
  const axis: readonly [XY, XY] = upright
    ? [
        [box.x + box.width / 2, box.y],
        [box.x + box.width / 2, box.y + box.height],
      ]
    : [
        [box.x, box.y + box.height / 2],
        [box.x + box.width, box.y + box.height / 2],
      ];
  return group(
    [
      // Where nobody measured how far it reaches, what lies behind shows through.
      ...(recorded.top && recorded.bottom ? [rect(box, { fill: 'paper' })] : []),
      ...openingOutline(box, recorded, colour, 'P3'),
      line(axis[0], axis[1], { colour, pen: 'P5', line: 'chain' }),
    ],
    { symbol: 'pipe' },
  );
}

/** A line broken by the letter G. */
export function gasLine(from: XY, to: XY): SceneNode {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const count = Math.max(1, Math.floor(length / 9));
  const at = (share: number): XY => [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share];
  const reach = length === 0 ? 0 : 1.4 / length;
  const segments: (readonly [XY, XY])[] = [];
  let start = 0;
  const letters: SceneNode[] = [];
  for (let index = 0; index < count; index++) {
    const centre = (index + 0.5) / count;
    if (centre - reach > start) segments.push([at(start), at(centre - reach)]);
    start = centre + reach;
    const [x, y] = at(centre);
    letters.push(
      lettered('G', [x, y + 0.9], { size: 'least', face: 'regular', anchor: 'middle', colour: 'gas', halo: true }),
    );
  }
  if (start < 1) segments.push([at(start), at(1)]);
  return group([strokes(segments, { colour: 'gas', pen: 'P2' }), ...letters], { symbol: 'gas-pipe' });
}

export function powerBox(box: Box, recorded: Edges): SceneNode {
  const inset = Math.min(1.2, box.width / 5, box.height / 5);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const size = Math.min(box.width * 0.3, box.height * 0.2, 4);
  return group(
    [
      rect(box, { fill: 'paper' }),
      ...openingOutline(box, recorded, 'power', 'P1'),
      rect(boxBetween(box.x + inset, box.y + inset, box.x + box.width - inset, box.y + box.height - inset), {
        stroke: { colour: 'power', pen: 'P4' },
      }),
      polyline(
        [
          [x + size * 0.35, y - size],
          [x - size * 0.45, y + size * 0.15],
          [x + size * 0.45, y - size * 0.15],
          [x - size * 0.35, y + size],
        ],
        { stroke: { colour: 'power', pen: 'P3' } },
      ),
    ],
    { symbol: 'power' },
  );
}

export function flueLine(from: XY, to: XY): SceneNode {
  return group([line(from, to, { colour: 'flue', pen: 'flue', line: 'flue' })], { symbol: 'flue' });
}

/** Stand-off round a service: hatched, so that it reads without colour. */
export function warningZone(box: Box, colour: ColourToken): SceneNode {
  return group(
    [strokes(hatch(box, 3.2), { colour, pen: 'P5' }), rect(box, { stroke: { colour, pen: 'P2', line: 'zone-edge' } })],
    { symbol: 'warning-zone' },
  );
}

/** Nobody knows what is in it: the same zone, with question marks. */
export function unknownServiceZone(box: Box, colour: ColourToken): SceneNode {
  const marks: SceneNode[] = [];
  const count = Math.max(1, Math.floor(box.height / 20));
  for (let index = 0; index < count; index++) {
    marks.push(
      lettered('?', [box.x + box.width / 2, box.y + (box.height * (index + 0.5)) / count + 1.2], {
        size: 'label',
        face: 'regular',
        anchor: 'middle',
        colour,
        halo: true,
      }),
    );
  }
  return group(
    [
      strokes(hatch(box, 3.2), { colour, pen: 'P5' }),
      rect(box, { stroke: { colour, pen: 'P2', line: 'zone-edge' } }),
      ...marks,
    ],
    {
      symbol: 'unknown-service',
    },
  );
}

export interface InTheWay {
  readonly movable?: boolean;
  /** Nearer to the wall than the tool needs. */
  readonly near?: boolean;
}

export function thingInTheWay(box: Box, recorded: Edges, { movable = false, near = false }: InTheWay = {}): SceneNode {
  const pen: Pen = near ? 'P1' : 'P3';
  if (!movable) return group(openingOutline(box, recorded, 'water', pen), { symbol: 'thing-in-the-way' });
  // Movable things show their corners only: they may stand elsewhere tomorrow.
  const reach = Math.min(3, box.width / 3, box.height / 3);
  const right = box.x + box.width;
  const bottom = box.y + box.height;
  const corner = (x: number, y: number, dx: number, dy: number): SceneNode =>
    polyline(
      [
        [x + dx * reach, y],
        [x, y],
        [x, y + dy * reach],
      ],
      { stroke: { colour: 'water', pen } },
    );
  return group(
    [
      corner(box.x, box.y, 1, 1),
      corner(right, box.y, -1, 1),
      corner(box.x, bottom, 1, -1),
      corner(right, bottom, -1, -1),
      ...(recorded.top && recorded.bottom
        ? []
        : [
            group(
              [
                ...(recorded.top
                  ? []
                  : [
                      line([box.x + reach, box.y], [right - reach, box.y], {
                        colour: 'water',
                        pen: 'P2',
                        line: 'not-recorded',
                      }),
                    ]),
                ...(recorded.bottom
                  ? []
                  : [
                      line([box.x + reach, bottom], [right - reach, bottom], {
                        colour: 'water',
                        pen: 'P2',
                        line: 'not-recorded',
                      }),
                    ]),
              ],
              { symbol: 'not-recorded' },
            ),
          ]),
    ],
    { symbol: 'thing-in-the-way' },
  );
}

// ---- wood and its defects

export function foundBlock(box: Box): SceneNode {
  return group(
    [
      rect(box, { fill: 'wood', stroke: { colour: 'woodln', pen: 'P4' } }),
      line([box.x, box.y + box.height], [box.x + box.width, box.y], { colour: 'woodln', pen: 'P4' }),
    ],
    { symbol: 'block-found' },
  );
}

/** Neither rim nor block, where one must be: an empty box, dashed. */
export function missingBlock(box: Box): SceneNode {
  const inset = Math.min(0.5, box.width / 4, box.height / 4);
  return group(
    [
      rect(boxBetween(box.x + inset, box.y + inset, box.x + box.width - inset, box.y + box.height - inset), {
        stroke: { colour: 'error', pen: 'P3', line: 'omitted' },
      }),
    ],
    { symbol: 'block-missing' },
  );
}

export function softWood(box: Box): SceneNode {
  const waves: SceneNode[] = [];
  for (let x = box.x + 0.55; x < box.x + box.width; x += 1.1) {
    waves.push(
      polyline(zigzag([x, box.y], [x, box.y + box.height], 0.55, 0.22), { stroke: { colour: 'defect', pen: 'P3' } }),
    );
  }
  return group([...waves, bracket(box, -1)], { symbol: 'soft-wood' });
}

export function splitWood(box: Box): SceneNode {
  const y = box.y + box.height / 2;
  return group(
    [
      polyline(zigzag([box.x, y], [box.x + box.width, y], 1.6, Math.max(0.4, box.height * 0.3)), {
        stroke: { colour: 'defect', pen: 'P2' },
      }),
      bracket(box, 1),
    ],
    { symbol: 'split' },
  );
}

/** Over (-1) or under (1) a box, from one end of a defect to the other. */
function bracket(box: Box, side: -1 | 1): SceneNode {
  const edge = side < 0 ? box.y : box.y + box.height;
  return polyline(
    [
      [box.x, edge + side * 0.5],
      [box.x, edge + side * 1.5],
      [box.x + box.width, edge + side * 1.5],
      [box.x + box.width, edge + side * 0.5],
    ],
    { stroke: { colour: 'defect', pen: 'P4' } },
  );
}

export function crackLine(x: number, top: number, bottom: number, wide: boolean): SceneNode {
  const path = zigzag([x, top], [x, bottom], 2.3, 0.7);
  return group(
    [
      polyline(path, { stroke: { colour: 'defect', pen: 'P2' } }),
      ...(wide
        ? [
            polyline(
              path.map(([px, py]): XY => [px + 0.9, py]),
              { stroke: { colour: 'defect', pen: 'P2' } },
            ),
          ]
        : []),
    ],
    { symbol: 'crack' },
  );
}

export function coldJoint(x: number, top: number, bottom: number): SceneNode {
  return group(
    [
      line([x, top], [x, bottom], { colour: 'defect', pen: 'P4' }),
      circle([x, top + (bottom - top) / 3], 0.5, { fill: 'defect' }),
      circle([x, top + ((bottom - top) * 2) / 3], 0.5, { fill: 'defect' }),
    ],
    { symbol: 'cold-joint' },
  );
}

// ---- levels and findings

/** A level sign: a triangle standing on its line, on the side of the margin that it belongs to. */
export function levelSign([x, y]: XY): SceneNode {
  return group(
    [
      polygon(
        [
          [x, y],
          [x - 1.4, y - 2.1],
          [x + 1.4, y - 2.1],
        ],
        { fill: 'paper', stroke: { colour: 'ink2', pen: 'P5' } },
      ),
    ],
    { symbol: 'level' },
  );
}

export type MarkerKind = 'stop' | 'error' | 'warning' | 'info' | 'accepted';
export const MARKER_HEIGHT = 5.2;

export function markerWidth(number: number): number {
  return number > 999 ? 7.6 : number > 99 ? 6.6 : 5.8;
}

/** A finding's sign with its number, standing with its point on `at`; without a point it stands on its lowest edge. */
export function findingMarker(kind: MarkerKind, number: number, at: XY): SceneNode {
  const [x, y] = at;
  const half = markerWidth(number) / 2;
  const top = y - MARKER_HEIGHT;
  const text = (baseline: number, colour: ColourToken): SceneNode =>
    lettered(String(number), [x, baseline], { size: 'least', anchor: 'middle', colour });
  switch (kind) {
    case 'stop':
      return group(
        [
          rect({ x: x - half + 0.3, y: top, width: 2 * half - 0.6, height: MARKER_HEIGHT }, { fill: 'stop' }),
          line([x - half + 1.1, y - 1.1], [x + half - 1.1, y - 1.1], { colour: 'ontop', pen: 'P1' }),
          text(y - 2.1, 'ontop'),
        ],
        { symbol: 'stop' },
      );
    case 'error':
      return group(
        [
          polygon(triangle(x, y, half), { fill: 'error', stroke: { colour: 'error', pen: 'P5' } }),
          text(y - 2.75, 'ontop'),
        ],
        {
          symbol: 'error',
        },
      );
    case 'warning':
      return group(
        [
          polygon(triangle(x, y, half), { fill: 'paper', stroke: { colour: 'warn', pen: 'P2' } }),
          text(y - 2.75, 'warn'),
        ],
        {
          symbol: 'warning',
        },
      );
    case 'info':
      return group(
        [circle([x, y - 2.5], 2.4, { fill: 'paper', stroke: { colour: 'info', pen: 'P3' } }), text(y - 1.6, 'info')],
        {
          symbol: 'info',
        },
      );
    case 'accepted':
      return group(
        [
          circle([x, y - 2.5], 2.4, { fill: 'paper', stroke: { colour: 'ink2', pen: 'P3' } }),
          // The slash leaves the number alone.
          strokes(
            [
              [
                [x - 2.3, y - 0.2],
                [x - 1.3, y - 1.2],
              ],
              [
                [x + 1.3, y - 3.8],
                [x + 2.3, y - 4.8],
              ],
            ],
            { colour: 'ink2', pen: 'P3' },
          ),
          text(y - 1.6, 'ink2'),
        ],
        { symbol: 'accepted' },
      );
  }
}

function triangle(x: number, y: number, half: number): readonly XY[] {
  return [
    [x, y],
    [x - half, y - MARKER_HEIGHT + 0.2],
    [x + half, y - MARKER_HEIGHT + 0.2],
  ];
}
