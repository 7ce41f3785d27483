import { lettered } from './lettering.ts';
import { circle, group, line, polygon, polyline, rect, type SceneNode, strokes, type XY } from './scene.ts';
import { cross, zigzag } from './strokes.ts';
import type { MarkState } from './symbols.ts';
import type { ColourToken } from './tokens.ts';

/**
 * Signs of the plan that run with their wall, however it is turned. Four corners go round: outer start, outer end, inner end, inner
 * start, seen along the wall.
 */
export type Corners = readonly [outerStart: XY, outerEnd: XY, innerEnd: XY, innerStart: XY];

const between = (a: XY, b: XY, share: number): XY => [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share];
const apart = (a: XY, b: XY): number => Math.hypot(b[0] - a[0], b[1] - a[1]);
/** A point by shares along the wall and inwards. */
const inside = ([a, b, c, d]: Corners, along: number, inwards: number): XY =>
  between(between(a, b, along), between(d, c, along), inwards);

// ---- found

/** Waves across the board, as in the elevation. */
export function softWoodPlan(board: Corners): SceneNode {
  const count = Math.max(2, Math.round(apart(board[0], board[1]) / 1.1));
  return group(
    Array.from({ length: count }, (_, index) => {
      const along = (index + 0.5) / count;
      return polyline(zigzag(inside(board, along, 0), inside(board, along, 1), 0.8, 0.22), {
        stroke: { colour: 'defect', pen: 'P3' },
      });
    }),
    { symbol: 'soft-wood' },
  );
}

export function splitPlan(board: Corners): SceneNode {
  return group(
    [
      polyline(zigzag(inside(board, 0, 0.5), inside(board, 1, 0.5), 1.4, 0.5), {
        stroke: { colour: 'defect', pen: 'P2' },
      }),
    ],
    { symbol: 'split' },
  );
}

/** Jagged through the concrete; a wide one is doubled. */
export function crackPlan(outer: XY, inner: XY, wide: boolean): SceneNode {
  const length = apart(outer, inner) || 1;
  const side: XY = [(-(inner[1] - outer[1]) / length) * 0.9, ((inner[0] - outer[0]) / length) * 0.9];
  const jagged = (shift: number): SceneNode =>
    polyline(
      zigzag(
        [outer[0] + side[0] * shift, outer[1] + side[1] * shift],
        [inner[0] + side[0] * shift, inner[1] + side[1] * shift],
        1.1,
        0.45,
      ),
      { stroke: { colour: 'defect', pen: 'P2' } },
    );
  return group(wide ? [jagged(-0.5), jagged(0.5)] : [jagged(0)], { symbol: 'crack' });
}

/** Straight, with two dots. */
export function coldJointPlan(outer: XY, inner: XY): SceneNode {
  return group(
    [
      line(outer, inner, { colour: 'defect', pen: 'P4' }),
      ...[0.3, 0.7].map((share) => circle(between(outer, inner, share), 0.5, { fill: 'defect' })),
    ],
    { symbol: 'cold-joint' },
  );
}

export function powerBoxPlan(box: Corners): SceneNode {
  const inset = 0.7;
  const along = Math.min(0.3, inset / Math.max(apart(box[0], box[1]), 0.1));
  const inwards = Math.min(0.3, inset / Math.max(apart(box[0], box[3]), 0.1));
  return group(
    [
      polygon(box, { fill: 'paper', stroke: { colour: 'power', pen: 'P1' } }),
      polygon(
        [
          inside(box, along, inwards),
          inside(box, 1 - along, inwards),
          inside(box, 1 - along, 1 - inwards),
          inside(box, along, 1 - inwards),
        ],
        { stroke: { colour: 'power', pen: 'P4' } },
      ),
      polyline([inside(box, 0.42, 0.85), inside(box, 0.54, 0.4), inside(box, 0.46, 0.6), inside(box, 0.58, 0.15)], {
        stroke: { colour: 'power', pen: 'P4' },
      }),
    ],
    { symbol: 'power' },
  );
}

/** A movable thing shows its corners only: it may stand elsewhere tomorrow. What nobody measured of it is dashed. */
export function thingPlan(box: Corners, measured: boolean, movable: boolean): SceneNode {
  if (!movable) {
    const outline = polygon(box, {
      fill: 'paper',
      stroke: measured ? { colour: 'water', pen: 'P3' } : { colour: 'water', pen: 'P2', line: 'not-recorded' },
    });
    return group([measured ? outline : group([outline], { symbol: 'not-recorded' })], { symbol: 'thing-in-the-way' });
  }
  const corners = box.map((corner, index) => {
    const [before, after] = [box[(index + 3) % 4] ?? corner, box[(index + 1) % 4] ?? corner];
    const toward = (other: XY): XY => between(corner, other, Math.min(0.33, 1.8 / Math.max(apart(corner, other), 0.1)));
    return polyline([toward(before), corner, toward(after)], { stroke: { colour: 'water', pen: 'P3' } });
  });
  const far: SceneNode[] = measured
    ? []
    : [
        group([line(inside(box, 0.2, 1), inside(box, 0.8, 1), { colour: 'water', pen: 'P2', line: 'not-recorded' })], {
          symbol: 'not-recorded',
        }),
      ];
  return group([polygon(box, { fill: 'paper' }), ...corners, ...far], { symbol: 'thing-in-the-way' });
}

/** Where no hole may go; where nobody knows whether it is gas or power, with question marks. */
export function warningZonePlan(box: Corners, hatched: SceneNode, colour: ColourToken, isUnknown: boolean): SceneNode {
  const length = apart(box[0], box[1]);
  const count = isUnknown ? Math.max(1, Math.floor(length / 20)) : 0;
  const marks = Array.from({ length: count }, (_, index): SceneNode => {
    const [x, y] = inside(box, (index + 0.25) / count, 0.5);
    return lettered('?', [x, y + 1.2], { size: 'label', face: 'regular', anchor: 'middle', colour, halo: true });
  });
  return group([hatched, polygon(box, { stroke: { colour, pen: 'P2', line: 'zone-edge' } }), ...marks], {
    symbol: isUnknown ? 'unknown-service' : 'warning-zone',
  });
}

// ---- new

/** A flat bar with a hole at each end. */
export function strapPlan(bar: Corners, state: MarkState): SceneNode {
  const middle = inside(bar, 0.5, 0.5);
  if (state.state === 'omitted') {
    return group(
      [
        polygon(bar, { stroke: { colour: 'ink2', pen: 'P4', line: 'omitted' } }),
        strokes(cross(middle, 1.5), { colour: 'ink', pen: 'cut' }),
      ],
      { symbol: 'omitted' },
    );
  }
  const hole = (along: number): SceneNode => circle(inside(bar, along, 0.5), 0.26, { fill: 'ontop' });
  if (!state.proposed) {
    return group(
      [
        polygon(bar, { fill: 'new', stroke: { colour: 'new', pen: 'P5' } }),
        ...[0.1, 0.3, 0.7, 0.9].map(hole),
        ...(state.state === 'failed'
          ? [group([strokes(cross(middle, 1.6), { colour: 'error', pen: 'P1' })], { symbol: 'failed' })]
          : []),
      ],
      { symbol: 'strap' },
    );
  }
  return group(
    [
      polygon(bar, { fill: 'paper', stroke: { colour: 'new', pen: 'P4' } }),
      polygon([inside(bar, 0.5, 0), bar[1], bar[2], inside(bar, 0.5, 1)], { fill: 'new' }),
      ...[0.7, 0.9].map(hole),
    ],
    { symbol: 'strap-proposed' },
  );
}

const WASHER_HALF = 1.75;

/** The plate under the nut of an old anchor, from above; the anchor's ring is drawn on it. */
export function newWasherPlan([x, y]: XY): SceneNode {
  return group(
    [
      rect(
        { x: x - WASHER_HALF, y: y - WASHER_HALF, width: 2 * WASHER_HALF, height: 2 * WASHER_HALF },
        { fill: 'paper', stroke: { colour: 'new', pen: 'P2' } },
      ),
    ],
    { symbol: 'new-washer' },
  );
}

/** New wood standing on the sill, cut: heavy outline and one diagonal. */
export function addedStudPlan(stud: Corners, proposed: boolean): SceneNode {
  const [outerStart, outerEnd, innerEnd, innerStart] = stud;
  return group(
    [
      polygon(stud, { fill: 'wood', stroke: { colour: 'new', pen: 'P2' } }),
      proposed
        ? polygon([outerEnd, innerEnd, innerStart], { fill: 'new' })
        : line(outerStart, innerEnd, { colour: 'new', pen: 'P4' }),
    ],
    { symbol: proposed ? 'added-stud-proposed' : 'added-stud' },
  );
}

/** Behind a panel, between its bar and the studs. */
export function flatBlockPlan(from: XY, to: XY): SceneNode {
  return group([line(from, to, { colour: 'new', pen: 'P2', line: 'behind-panel' })], { symbol: 'flat-block' });
}

/** An old board that comes out and that no new one replaces. */
export function removedBoardPlan(board: Corners): SceneNode {
  return group(
    [
      polygon(board, { stroke: { colour: 'ink2', pen: 'P4', line: 'omitted' } }),
      line(board[3], board[1], { colour: 'ink2', pen: 'P4' }),
    ],
    { symbol: 'removed-wood' },
  );
}
