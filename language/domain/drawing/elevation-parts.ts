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
  warningZones,
} from './elevation-found.ts';
import type { ElevationFrame } from './elevation-frame.ts';
import { newAnchors } from './elevation-new.ts';
import { framingAngles, panels, sisterBoards } from './elevation-panels.ts';
import type { JoistEnd } from './framing.ts';
import type { PlacedAnchor } from './placed-mark.ts';
import type { SceneNode } from './scene.ts';

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
): readonly SceneNode[] {
  return [
    ...concrete(frame),
    ...floor(frame, on.joists, on.unblocked),
    ...crippleWalls(frame),
    ...sills(frame),
    ...sisterBoards(frame),
    ...concreteEnds(frame),
    ...warningZones(frame),
    ...openings(frame),
    ...panels(frame),
    ...framingAngles(frame),
    ...newAnchors(frame, on.anchors, on.tapeTop),
    ...defects(frame),
    ...foundAnchors(frame, on.foundAnchors),
    ...services(frame),
  ];
}
