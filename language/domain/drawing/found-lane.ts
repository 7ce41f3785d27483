import type { Length } from '../units/length.ts';
import { type FoundLabel, labelWidth } from './elevation-labels.ts';
import { chip } from './finding-lane.ts';
import { placeLabels } from './label-rows.ts';
import { lettered } from './lettering.ts';
import { circle, group, polyline, type SceneNode, type XY } from './scene.ts';
import { fanHeight } from './strings.ts';
import { capHeights } from './tokens.ts';

/** Where the labels of what was found stand, and where their leaders pass the lanes below. */
export interface FoundLane {
  readonly labels: readonly {
    readonly index: number;
    readonly row: number;
    readonly centre: number;
    /** Where the leader leaves its label, and where it comes down to its thing. */
    readonly leader: number;
    readonly at: number;
  }[];
  readonly dropped: number;
  readonly rowCount: number;
  readonly fan: number;
  readonly pitch: number;
  readonly height: number;
  readonly left: number;
  readonly right: number;
  readonly posts: readonly number[];
}

/** A label that has to move further than this asks for a second row. */
const FARTHEST_LABEL = 12;

export function placeFoundLabels(
  labels: readonly Omit<FoundLabel, 'target'>[],
  x: (station: Length) => number,
  lane: { readonly from: number; readonly to: number },
  farthest: number = FARTHEST_LABEL,
): FoundLane {
  const wanted = separated(labels.map((label) => x(label.station)));
  const widths = labels.map(labelWidth);
  const placed = placeLabels(
    labels.map((label, index) => ({ wanted: wanted[index] ?? 0, width: widths[index] ?? 0, priority: label.priority })),
    { ...lane, gap: 3 },
    farthest,
  );
  const half = (order: number): number => (widths[placed.kept[order] ?? 0] ?? 0) / 2;
  const centreOf = (order: number): number => placed.centres[order] ?? 0;
  const members = placed.kept.map((index, order) => {
    const centre = centreOf(order);
    const row = placed.rows[order] ?? 0;
    const at = wanted[index] ?? centre;
    // A leader leaves its label as near to its thing as it can; an upper one passes between the two lower labels.
    const before =
      row === 1 && order > 0 && placed.rows[order - 1] === 0
        ? centreOf(order - 1) + half(order - 1) + 0.8
        : Number.NEGATIVE_INFINITY;
    const after =
      row === 1 && placed.rows[order + 1] === 0
        ? centreOf(order + 1) - half(order + 1) - 0.8
        : Number.POSITIVE_INFINITY;
    const from = Math.max(centre - half(order) + 1, before);
    const to = Math.min(centre + half(order) - 1, after);
    return { index, row, centre, at, leader: from > to ? centre : Math.min(Math.max(at, from), to) };
  });
  const shift = members.reduce((most, { leader, at }) => Math.max(most, Math.abs(leader - at)), 0);
  const fan = fanHeight(shift);
  const pitch = labels.some((label) => label.second !== undefined) ? 8.4 : 4.8;
  return {
    labels: members,
    dropped: placed.dropped.length,
    rowCount: placed.rowCount,
    fan,
    pitch,
    height: labels.length === 0 ? 0 : placed.rowCount * pitch + fan,
    left: members.reduce((least, { centre }, order) => Math.min(least, centre - half(order)), Number.POSITIVE_INFINITY),
    right: members.reduce((most, { centre }, order) => Math.max(most, centre + half(order)), Number.NEGATIVE_INFINITY),
    posts: members.map((member) => member.at),
  };
}

/** The same lane on a sheet whose wall starts further right. */
export function movedLane(lane: FoundLane, by: number): FoundLane {
  return {
    ...lane,
    labels: lane.labels.map((label) => ({
      ...label,
      centre: label.centre + by,
      leader: label.leader + by,
      at: label.at + by,
    })),
    left: lane.left + by,
    right: lane.right + by,
    posts: lane.posts.map((post) => post + by),
  };
}

/** Leaders that would lie on each other stand a little apart. */
function separated(wanted: readonly number[]): readonly number[] {
  const places: number[] = [];
  for (const place of wanted)
    places.push(Math.max(place, (places[places.length - 1] ?? Number.NEGATIVE_INFINITY) + 0.9));
  return places;
}

export function foundLaneNodes<Frame>(
  frame: Frame,
  labels: readonly FoundLabel<Frame>[],
  lane: FoundLane,
  top: number,
  right: number,
): readonly SceneNode[] {
  const rowsBottom = top + lane.rowCount * lane.pitch;
  const nodes = lane.labels.flatMap(({ index, row, centre, leader, at }): readonly SceneNode[] => {
    const label = labels[index];
    if (!label) return [];
    const labelTop = top + (lane.rowCount - 1 - row) * lane.pitch;
    const under = labelTop + capHeights.label + (label.second === undefined ? 0 : 1.5 + capHeights.detail) + 0.9;
    const [, targetY] = label.target(frame);
    const path: XY[] =
      Math.abs(leader - at) < 0.02
        ? [
            [at, under],
            [at, targetY],
          ]
        : [
            [leader, under],
            [leader, rowsBottom],
            [at, rowsBottom + lane.fan],
            [at, targetY],
          ];
    const left = centre - labelWidth(label) / 2 + 0.3;
    const what = {
      ...(label.thing === undefined ? {} : { thing: label.thing }),
      ...(label.zone === undefined ? {} : { symbol: label.zone }),
    };
    return [
      group(
        [polyline(path, { stroke: { colour: 'ink3', pen: 'P5' } }), circle([at, targetY], 0.45, { fill: 'ink2' })],
        {
          role: 'leader',
          hidden: true,
        },
      ),
      group(
        [
          lettered(label.first, [left, labelTop + capHeights.label], {
            size: 'label',
            colour: label.colour,
            heavy: label.heavy,
          }),
          ...(label.second === undefined
            ? []
            : [
                lettered(label.second, [left, labelTop + capHeights.label + 1.5 + capHeights.detail], {
                  size: 'detail',
                  colour: 'ink2',
                }),
              ]),
        ],
        { role: 'found-label', hidden: true, ...what },
      ),
    ];
  });
  if (lane.dropped > 0) nodes.push(chip(`+${lane.dropped} in schedule`, right, top - 3.4));
  return nodes;
}
