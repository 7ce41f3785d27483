import type { Stretch } from '../model/layout.ts';
import type { Finding } from '../rules/finding.ts';
import { type Length, larger, midpoint, smaller, zero } from '../units/length.ts';
import type { ElevationFrame } from './elevation-frame.ts';
import { baysOf, type JoistEnd } from './framing.ts';
import { placeInRows } from './label-rows.ts';
import { lettered, plainText, textWidth } from './lettering.ts';
import { markerPriority, type NumberedFinding } from './numbered-findings.ts';
import { group, polyline, type SceneNode, type XY } from './scene.ts';
import { isShown, type ShownPart, shownOf, wholeLength } from './shown-part.ts';
import { findingMarker, MARKER_HEIGHT, markerWidth } from './symbols.ts';
import { capHeights } from './tokens.ts';

/** The lane of finding markers over a wall. Leaders of the labels above pass it, and markers step aside. */
export interface FindingLane {
  readonly markers: readonly {
    readonly entry: NumberedFinding;
    readonly centre: number;
    readonly row: number;
    readonly at: number;
  }[];
  readonly dropped: number;
  readonly rows: number;
  readonly height: number;
  readonly left: number;
  /** Where markers point: leaders pass the bay numbers there. */
  readonly posts: readonly number[];
}

const ROW_HEIGHT = MARKER_HEIGHT + 1.2;
const SLANT = 2.6;

export function placeFindings(
  findings: readonly NumberedFinding[],
  x: (station: Length) => number,
  length: Length,
  lane: {
    readonly from: number;
    readonly to: number;
    readonly posts: readonly number[];
    /** Where a finding stands; without it at the stations that it names. */
    placeOf?(finding: Finding): Stretch | undefined;
    readonly shown?: ShownPart;
  },
): FindingLane {
  const placeOf = lane.placeOf ?? stretchOfFinding;
  const placeable = findings
    .flatMap((entry) => {
      const place = placeOf(entry.finding);
      if (!place || place.from < zero || place.from > length) return [];
      const to = smaller(place.to, length);
      const ends = { from: smaller(place.from, to), to: larger(place.from, to) };
      const shown = shownOf(lane.shown ?? wholeLength, ends);
      // A gap is marked at its middle.
      return shown ? [{ entry, at: x(midpoint(shown.from, shown.to)) }] : [];
    })
    .sort((a, b) => a.at - b.at || a.entry.number - b.entry.number);
  const places = placeInRows(
    placeable.map(({ entry, at }) => ({
      wanted: at,
      width: markerWidth(entry.number),
      priority: markerPriority[entry.kind],
    })),
    { from: lane.from, to: lane.to, gap: 0.7, posts: lane.posts, clearOfPost: 0.8, mostRows: 3, farthestShift: 24 },
  );
  const markers = places.placed.flatMap(({ index, row, centre }) => {
    const place = placeable[index];
    return place ? [{ ...place, row, centre }] : [];
  });
  return {
    markers,
    dropped: places.dropped.length,
    rows: places.rows,
    height: markers.length === 0 ? 0 : places.rows * ROW_HEIGHT + SLANT,
    left: markers.reduce((least, { centre }) => Math.min(least, centre - 4), Number.POSITIVE_INFINITY),
    posts: markers.map(({ at }) => at),
  };
}

export function stretchOfFinding({ station, stationTo }: Finding): Stretch | undefined {
  return station === undefined ? undefined : { from: station, to: stationTo ?? station };
}

export function findingLaneNodes(
  lane: FindingLane,
  top: number,
  drawingTop: number,
  right: number,
): readonly SceneNode[] {
  const nodes = lane.markers.flatMap(({ entry, centre, row, at }): readonly SceneNode[] => {
    const tip = top + (lane.rows - row) * ROW_HEIGHT - 1.2;
    const last = top + lane.rows * ROW_HEIGHT - 1.2;
    // An upper marker's leader drops straight past the rows below.
    const bend = row === 0 ? last + SLANT : tip + 1.1;
    const path: XY[] = [
      [centre, tip],
      [at, bend],
      [at, drawingTop],
    ];
    const { finding, number, kind } = entry;
    return [
      group([polyline(path, { stroke: { colour: 'ink3', pen: 'P5' } })], { role: 'leader', hidden: true }),
      group([findingMarker(kind, number, [centre, tip])], {
        role: 'finding',
        name: `finding ${number}, ${kind}: ${plainText(finding.message)}`,
        ...(finding.thing === undefined ? {} : { thing: finding.thing }),
      }),
    ];
  });
  if (lane.dropped > 0) nodes.push(chip(`+${lane.dropped} in the list`, right, top - 0.6));
  return nodes;
}

/** A lane that had to drop something says how much. */
export function chip(text: string, right: number, top: number): SceneNode {
  return group([lettered(text, [right, top + capHeights.detail], { size: 'detail', anchor: 'end', colour: 'ink2' })], {
    role: 'found-label',
  });
}

/** Numbers of the joist bays, where they fit and no leader passes. */
export function bayNumbers(
  frame: ElevationFrame,
  joists: readonly JoistEnd[],
  baseline: number,
  posts: readonly number[],
): readonly SceneNode[] {
  const bays = baysOf(joists).filter(({ from, to }) => isShown(frame.shown, from) && isShown(frame.shown, to));
  const sorted = [...posts].sort((a, b) => a - b);
  let next = 0;
  const nodes = bays.flatMap((bay): readonly SceneNode[] => {
    const text = String(bay.number);
    const half = textWidth(text, 'least') / 2 + 0.6;
    const [from, to] = [frame.x(bay.from), frame.x(bay.to)];
    while (next < sorted.length && (sorted[next] ?? 0) < from - half) next++;
    let centre = (from + to) / 2;
    for (let index = next; index < sorted.length && (sorted[index] ?? 0) < to + half; index++) {
      const post = sorted[index] ?? 0;
      if (Math.abs(post - centre) < half) centre = post + half;
    }
    if (to - from < half * 2 || centre + half > to) return [];
    return [lettered(text, [centre, baseline], { size: 'least', anchor: 'middle', colour: 'ink3' })];
  });
  return [group(nodes, { role: 'row', hidden: true })];
}
