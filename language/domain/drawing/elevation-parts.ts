import type { FoundAnchor, Stretch } from '../model/layout.ts';
import {
  concrete,
  concreteEnds,
  crippleWalls,
  defects,
  floor,
  foundAnchors,
  openings,
  services,
  sills,
  toolRoom,
  warningZones,
} from './elevation-found.ts';
import type { ElevationFrame } from './elevation-frame.ts';
import { newAnchor, stationLines } from './elevation-new.ts';
import { framingAngles, panels, sisterBoards } from './elevation-panels.ts';
import type { JoistEnd } from './framing.ts';
import type { PlacedAnchor } from './placed-mark.ts';
import type { SceneNode } from './scene.ts';

/** Draws a part of the wall, or hands on what was drawn of the same. */
export type KeepPart = (
  name: string,
  inputs: readonly unknown[],
  draw: (frame: ElevationFrame) => readonly SceneNode[],
) => readonly SceneNode[];

/** All that stands on a wall, true to scale and in drawing order: of an elevation, and of the strip that a crew takes along. */
export function elevationParts(
  frame: ElevationFrame,
  on: {
    readonly joists: readonly JoistEnd[];
    readonly unblocked: readonly Stretch[];
    readonly anchors: readonly PlacedAnchor[];
    readonly foundAnchors: readonly FoundAnchor[];
    /** Down to here go the lines that carry stations. */
    readonly tapeTop: number;
  },
  keep: KeepPart = (_, __, draw) => draw(frame),
): readonly SceneNode[] {
  const { joists, unblocked } = on;
  const room = toolRoom(frame);
  return [
    ...keep('concrete', [], concrete),
    ...keep('floor', [...joists, ...unblocked.flatMap(({ from, to }) => [from, to])], (ground) =>
      floor(ground, joists, unblocked),
    ),
    ...keep('cripple walls', [], crippleWalls),
    ...keep('sills', [], sills),
    ...keep('sister boards', [], sisterBoards),
    ...keep('ends of the concrete', [], concreteEnds),
    ...keep('warning zones', [], warningZones),
    ...keep('openings', [], openings),
    ...keep('panels', [], panels),
    ...keep('framing angles', [], framingAngles),
    stationLines(frame, on.anchors, on.tapeTop),
    ...on.anchors.flatMap((anchor) => keep(anchor.id, Object.values(anchor), (ground) => [newAnchor(ground, anchor)])),
    ...keep('defects', [], defects),
    ...keep('found anchors', on.foundAnchors, (ground) => foundAnchors(ground, on.foundAnchors)),
    ...keep('services', [room], (ground) => services(ground, room)),
  ];
}
