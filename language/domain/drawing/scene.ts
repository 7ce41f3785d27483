import type { ThingId } from '../model/layout.ts';
import type { ColourToken, LineType, Pen, TextSize } from './tokens.ts';

/**
 * A drawing as plain data: shapes in mm on paper, x right and y down, in drawing order. Groups say which thing of the
 * layout they show and how to say it aloud; no shape knows a colour, a pen width or a font, only their tokens.
 */
export interface Scene {
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly description: string;
  readonly nodes: readonly SceneNode[];
  /** Parts of the sheet, for a pane that shows one of them. */
  readonly regions: Readonly<Partial<Record<Region, Box>>>;
}
export type Region = 'heading' | 'drawing' | 'lists';

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export type SceneNode = Group | Shape;

export interface Group {
  readonly kind: 'group';
  readonly nodes: readonly SceneNode[];
  /** The thing that this group shows; a pane finds things by it. */
  readonly thing?: ThingId;
  readonly role?: GroupRole;
  /** In full words, for a person who hears the drawing. */
  readonly name?: string;
  /** Says nothing to a person who hears the drawing: textures, ticks, leaders, a second picture of a thing. */
  readonly hidden?: boolean;
  /** The entry of the legend that explains it. */
  readonly symbol?: SymbolName;
}

export type GroupRole =
  | 'wall'
  | 'thing'
  | 'finding'
  | 'mark'
  | 'station'
  | 'card'
  | 'found-label'
  | 'dimension'
  | 'level'
  | 'row'
  | 'tape'
  | 'tray'
  | 'list'
  | 'legend'
  | 'basis'
  | 'heading'
  | 'watermark'
  | 'texture'
  | 'leader';

/** What a legend can explain. */
export type SymbolName =
  | 'side-plate-by-hand'
  | 'side-plate-proposed'
  | 'bolt-by-hand'
  | 'bolt-proposed'
  | 'connector-unknown'
  | 'installed'
  | 'omitted'
  | 'failed'
  | 'moved'
  | 'issued'
  | 'hold-down'
  | 'hold-down-proposed'
  | 'strap'
  | 'strap-proposed'
  | 'framing-angle'
  | 'framing-angle-proposed'
  | 'panel'
  | 'panel-proposed'
  | 'nailer'
  | 'flat-block'
  | 'added-stud'
  | 'added-stud-proposed'
  | 'sister-board'
  | 'replaced-wood'
  | 'removed-wood'
  | 'new-washer'
  | 'post-cap'
  | 'post-cap-proposed'
  | 'post-base'
  | 'post-base-proposed'
  | 'new-post'
  | 'new-pad'
  | 'shored'
  | 'legal-window'
  | 'blocked-stretch'
  | 'unmeasured-stretch'
  | 'found-anchor'
  | 'found-anchor-half-credit'
  | 'found-anchor-credit'
  | 'found-anchor-light-rust'
  | 'found-anchor-heavy-rust'
  | 'found-anchor-bent'
  | 'found-anchor-loose'
  | 'found-anchor-removed'
  | 'new-sill'
  | 'joint'
  | 'soft-wood'
  | 'split'
  | 'crack'
  | 'cold-joint'
  | 'vent'
  | 'window'
  | 'door'
  | 'chimney'
  | 'pipe'
  | 'gas-pipe'
  | 'power'
  | 'flue'
  | 'thing-in-the-way'
  | 'removed-thing'
  | 'relocated-thing'
  | 'remedied-defect'
  | 'warning-zone'
  | 'unknown-service'
  | 'block-found'
  | 'block-new'
  | 'block-proposed'
  | 'block-missing'
  | 'not-recorded'
  | 'outside-soil'
  | 'level'
  | 'step'
  | 'stem-wall'
  | 'girder'
  | 'post'
  | 'pier'
  | 'splice'
  | 'leaning'
  | 'thickness-change'
  | 'interior-wall'
  | 'station-zero'
  | 'mark-square'
  | 'mark-square-proposed'
  | 'mark-round'
  | 'mark-round-proposed'
  | 'mark-omitted'
  | 'stop'
  | 'error'
  | 'warning'
  | 'info'
  | 'accepted';

export type Shape = LineShape | PolylineShape | RectShape | CircleShape | PathShape | TextShape;

export interface Stroke {
  readonly colour: ColourToken;
  readonly pen: Pen;
  readonly line?: LineType;
  readonly ends?: 'round';
}
interface Drawn {
  readonly stroke?: Stroke;
  readonly fill?: ColourToken;
}
export type XY = readonly [x: number, y: number];

export interface LineShape {
  readonly kind: 'line';
  readonly from: XY;
  readonly to: XY;
  readonly stroke: Stroke;
}
export interface PolylineShape extends Drawn {
  readonly kind: 'polyline';
  readonly points: readonly XY[];
  readonly closed: boolean;
}
export interface RectShape extends Drawn, Box {
  readonly kind: 'rect';
  readonly rounded?: number;
}
export interface CircleShape extends Drawn {
  readonly kind: 'circle';
  readonly centre: XY;
  readonly radius: number;
}
/** Many strokes that belong together: hatches, ticks, textures, arcs. */
export interface PathShape extends Drawn {
  readonly kind: 'path';
  readonly steps: readonly PathStep[];
}
export type PathStep =
  | { readonly to: 'move' | 'line'; readonly at: XY }
  | { readonly to: 'arc'; readonly at: XY; readonly radius: number; readonly clockwise: boolean }
  | { readonly to: 'close' };

export type TextFace = 'regular' | 'narrow';
export interface TextShape {
  readonly kind: 'text';
  /** One line; any text a person may have typed. */
  readonly text: string;
  /** On the baseline. */
  readonly at: XY;
  readonly anchor: 'start' | 'middle' | 'end';
  readonly size: TextSize;
  /** Instead of the cap height of its size: the watermark alone is fitted to its sheet. */
  readonly capHeight?: number;
  readonly face: TextFace;
  readonly colour: ColourToken;
  readonly heavy?: boolean;
  /** A band of the ground colour round the letters, for text on a texture. */
  readonly halo?: boolean;
  /** Struck through: what is not there any more. */
  readonly struck?: boolean;
  /** Degrees, clockwise, about `at`. */
  readonly turned?: number;
  /** In mm, from the table of font widths. */
  readonly width: number;
}

export function group(nodes: readonly SceneNode[], what: Omit<Group, 'kind' | 'nodes'> = {}): Group {
  return { kind: 'group', nodes, ...what };
}

export function line(from: XY, to: XY, stroke: Stroke): LineShape {
  return { kind: 'line', from, to, stroke };
}

export function polyline(points: readonly XY[], drawn: Drawn): PolylineShape {
  return { kind: 'polyline', points, closed: false, ...drawn };
}

export function polygon(points: readonly XY[], drawn: Drawn): PolylineShape {
  return { kind: 'polyline', points, closed: true, ...drawn };
}

export function rect(box: Box, drawn: Drawn & { readonly rounded?: number }): RectShape {
  return { kind: 'rect', x: box.x, y: box.y, width: box.width, height: box.height, ...drawn };
}

export function circle(centre: XY, radius: number, drawn: Drawn): CircleShape {
  return { kind: 'circle', centre, radius, ...drawn };
}

/** Separate strokes as one shape. */
export function strokes(segments: readonly (readonly [XY, XY])[], stroke: Stroke): PathShape {
  return {
    kind: 'path',
    steps: segments.flatMap(([from, to]): PathStep[] => [
      { to: 'move', at: from },
      { to: 'line', at: to },
    ]),
    stroke,
  };
}

export function boxBetween(left: number, top: number, right: number, bottom: number): Box {
  return { x: left, y: top, width: right - left, height: bottom - top };
}

/** Every node of a tree, in drawing order, with the groups that it stands in. */
export function* walkScene(
  nodes: readonly SceneNode[],
  within: readonly Group[] = [],
): Generator<{ readonly node: SceneNode; readonly within: readonly Group[] }> {
  for (const node of nodes) {
    yield { node, within };
    if (node.kind === 'group') yield* walkScene(node.nodes, [...within, node]);
  }
}
