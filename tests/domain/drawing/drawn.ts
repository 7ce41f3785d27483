import type { Basis } from '../../../language/domain/documents/basis.ts';
import { drawElevation } from '../../../language/domain/drawing/elevation.ts';
import { drawGirder } from '../../../language/domain/drawing/girder.ts';
import { textBox } from '../../../language/domain/drawing/lettering.ts';
import { drawPlan } from '../../../language/domain/drawing/plan.ts';
import type { Box, Group, Scene, SceneNode, TextShape, XY } from '../../../language/domain/drawing/scene.ts';
import { walkScene } from '../../../language/domain/drawing/scene.ts';
import { boundsOf } from '../../../language/domain/drawing/scene-bounds.ts';
import type { Girder, Layout, Wall } from '../../../language/domain/model/layout.ts';
import type { Checked } from '../../../language/domain/rules/checked.ts';
import type { Finding } from '../../../language/domain/rules/finding.ts';
import type { Length } from '../../../language/domain/units/length.ts';
import { createProjectReader } from '../../../language/syntax/project.ts';
import { exampleHost, readLayout } from '../../support/read-layout.ts';

/** Of its own, so that a drawing test does not hang on the wording of another part. */
export const testBasis: Basis = {
  rules: 'Existing-building code appendix, chapter A3, 2021',
  label: 'prescriptive - not engineered',
  stopped: false,
  demo: true,
  counts: { stops: 0, errors: 3, warnings: 2, infos: 1, notChecked: 4, assumed: 6 },
  lines: [
    '3 errors under Existing-building code appendix, chapter A3, 2021; 4 not checked for want of measurements; 6 assumed.',
    'An aid to drafting and checking, not engineering; it does not show that the house is safe.',
    'Local code, the building official and licensed professionals decide.',
  ],
};

export const nothingFound: Checked = { findings: [], notChecked: [] };

export function mapleLayout(): Layout {
  return createProjectReader(exampleHost).read('maple-designed.sill').layout;
}

export function wallOf(layout: Layout, name: string): Wall {
  const wall = layout.walls.find((each) => each.name === name);
  if (!wall) throw new Error(`no wall ${name}`);
  return wall;
}

export function elevationOf(
  layout: Layout,
  name: string,
  options: {
    readonly findings?: readonly Finding[];
    readonly basis?: Basis;
    readonly units?: Layout['title']['units'];
    /** The mark of an anchor of the wall. */
    readonly windows?: string;
  } = {},
): Scene {
  const wall = wallOf(layout, name);
  const anchor = wall.anchors.find((each) => each.name === options.windows);
  return drawElevation({
    layout,
    wall,
    ...(anchor ? { windows: { anchor } } : {}),
    checked: { findings: options.findings ?? [], notChecked: [] },
    basis: options.basis ?? testBasis,
    ...(options.units ? { units: options.units } : {}),
  });
}

export function girderOf(layout: Layout, name = 'GD'): Girder {
  const girder = layout.girders.find((each) => each.name === name);
  if (!girder) throw new Error(`no girder ${name}`);
  return girder;
}

export function girderSceneOf(layout: Layout, findings: readonly Finding[] = [], units?: 'metric'): Scene {
  return drawGirder({
    layout,
    girder: girderOf(layout),
    checked: { findings, notChecked: [] },
    basis: testBasis,
    ...(units ? { units } : {}),
  });
}

export function planOf(layout: Layout, findings: readonly Finding[] = [], basis: Basis = testBasis): Scene {
  return drawPlan({ layout, checked: { findings, notChecked: [] }, basis });
}

export function finding(layout: Layout, wall: Wall, parts: Partial<Finding> = {}): Finding {
  return {
    rule: 'anchorage/gap-too-wide',
    severity: 'error',
    message: 'The gap is 4\'-3"; the rule set allows 4\'-0". Add an anchor between.',
    thing: undefined,
    layer: 'design',
    wall: wall.name,
    piece: undefined,
    station: undefined,
    stationTo: undefined,
    span: wall.source ?? layout.walls[0]?.source,
    related: [],
    citation: { text: 'Table A304.3.1', trust: 'recalled' },
    fixes: [],
    accepted: undefined,
    ...parts,
  };
}

export interface Placed<Node> {
  readonly node: Node;
  readonly within: readonly Group[];
}

/** Of a scene by kind, walked once however many checks look at it. */
interface Sorted {
  readonly texts: readonly Placed<TextShape>[];
  readonly groups: readonly Placed<Group>[];
  readonly shapes: readonly Placed<Exclude<SceneNode, Group | TextShape>>[];
}
const sortedScenes = new WeakMap<Scene, Sorted>();
function sorted(scene: Scene): Sorted {
  const before = sortedScenes.get(scene);
  if (before) return before;
  const texts: Placed<TextShape>[] = [];
  const groups: Placed<Group>[] = [];
  const shapes: Placed<Exclude<SceneNode, Group | TextShape>>[] = [];
  for (const { node, within } of walkScene(scene.nodes)) {
    if (node.kind === 'group') groups.push({ node, within });
    else if (node.kind !== 'text') shapes.push({ node, within });
    else if (!within.some((group) => group.role === 'watermark')) texts.push({ node, within });
  }
  const found = { texts, groups, shapes };
  sortedScenes.set(scene, found);
  return found;
}

/** All text but the watermark, which stands behind everything on purpose. */
export function textsOf(scene: Scene): readonly Placed<TextShape>[] {
  return sorted(scene).texts;
}

export function groupsOf(scene: Scene, want: (group: Group) => boolean): readonly Placed<Group>[] {
  return sorted(scene).groups.filter(({ node }) => want(node));
}

/** Finding markers of the drawing, and their neighbours in the list. */
export function markersOf(scene: Scene): readonly Box[] {
  return groupsOf(scene, (group) => group.symbol !== undefined && severities.has(group.symbol))
    .filter(({ within }) => !within.some((group) => group.role === 'legend'))
    .flatMap(({ node }) => boundsOf(node.nodes) ?? []);
}
const severities: ReadonlySet<string> = new Set(['stop', 'error', 'warning', 'info', 'accepted']);

const lettered: ReadonlySet<string> = new Set(['connector-unknown', 'gas-pipe', 'unknown-service']);

/** Shrunk by what printing and rounding may blur. */
export function tight(box: Box, by = 0.05): Box {
  return { x: box.x + by, y: box.y + by, width: box.width - 2 * by, height: box.height - 2 * by };
}

/** Pairs of texts that lie on each other, and texts under a marker that is not theirs. In words, for the message of a failing test. */
export function collisions(scene: Scene): readonly string[] {
  const texts = textsOf(scene)
    .filter(({ node }) => node.text !== '')
    .map(({ node, within }) => ({
      text: node.text,
      node,
      box: tight(textBox(node)),
      marker: within.some((group) => group.role === 'finding'),
      // The letter of a sign stands where its thing stands, and so may two things in one place.
      sign: within.some((group) => group.symbol !== undefined && lettered.has(group.symbol)),
    }));
  const found: string[] = [];
  const sorted = [...texts].sort((a, b) => a.box.x - b.box.x);
  sorted.forEach((one, index) => {
    for (let next = index + 1; next < sorted.length; next++) {
      const other = sorted[next];
      if (!other || other.box.x >= one.box.x + one.box.width) break;
      if (meets(one.box, other.box) && textsMeet(one.node, other.node) && !(one.sign && other.sign))
        found.push(`"${one.text}" and "${other.text}" at ${one.box.x.toFixed(1)}, ${one.box.y.toFixed(1)}`);
    }
  });
  const markers = markersOf(scene);
  for (const { text, box, marker } of texts) {
    if (!marker) for (const sign of markers) if (meets(box, tight(sign))) found.push(`"${text}" under a marker`);
  }
  markers.forEach((one, index) => {
    for (const other of markers.slice(index + 1))
      if (meets(tight(one), tight(other))) found.push(`two markers at ${one.x.toFixed(1)}, ${one.y.toFixed(1)}`);
  });
  return found;
}

/** For texts that are turned: the axes of each part two boxes that do not meet (separating axis theorem). */
function textsMeet(a: TextShape, b: TextShape): boolean {
  const [one, other] = [cornersOf(a), cornersOf(b)];
  return [a.turned ?? 0, b.turned ?? 0].every((turned) => {
    const angle = (turned * Math.PI) / 180;
    return [
      [Math.cos(angle), Math.sin(angle)],
      [-Math.sin(angle), Math.cos(angle)],
    ].every(([x = 0, y = 0]) => {
      const along = (corners: readonly XY[]) => corners.map((corner) => corner[0] * x + corner[1] * y);
      const [first, second] = [along(one), along(other)];
      return Math.max(...first) > Math.min(...second) && Math.max(...second) > Math.min(...first);
    });
  });
}

/** Of the text itself, turned as it is. */
function cornersOf(text: TextShape): readonly XY[] {
  const { x, y, width, height } = tight(textBox(upright(text)));
  return [
    [x, y],
    [x + width, y],
    [x + width, y + height],
    [x, y + height],
  ].map(([px = 0, py = 0]) => turnedAbout(text.at, [px, py], text.turned ?? 0));
}

function upright({ turned: _, ...text }: TextShape): TextShape {
  return text;
}

function turnedAbout([cx, cy]: XY, [x, y]: XY, turned: number): XY {
  const angle = (turned * Math.PI) / 180;
  const [dx, dy] = [x - cx, y - cy];
  return [cx + dx * Math.cos(angle) - dy * Math.sin(angle), cy + dx * Math.sin(angle) + dy * Math.cos(angle)];
}

export function meets(a: Box, b: Box): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

/** Texts crossed by a heavy line: pens P1 and P2. */
export function crossedTexts(scene: Scene): readonly string[] {
  const near = segmentIndex(
    sorted(scene).shapes.flatMap(({ node, within }) =>
      within.some((group) => group.role === 'legend' || group.role === 'list') ? [] : heavySegments(node),
    ),
  );
  return textsOf(scene).flatMap(({ node, within }) => {
    if (within.some((group) => group.role === 'finding' || (group.symbol !== undefined && lettered.has(group.symbol))))
      return [];
    const box = tight(textBox(upright(node)), 0.1);
    const local = (point: XY): XY => turnedAbout(node.at, point, -(node.turned ?? 0));
    return near(textBox(node)).some(([from, to]) => crosses(local(from), local(to), box)) ? [node.text] : [];
  });
}

type Segment = readonly [XY, XY];
const CELL = 16;

/** Looks up in a grid which segments may touch a box. */
function segmentIndex(segments: readonly Segment[]): (box: Box) => readonly Segment[] {
  const cells = new Map<number, Segment[]>();
  const keysOf = (left: number, top: number, right: number, bottom: number): readonly number[] => {
    const keys: number[] = [];
    for (let column = Math.floor(left / CELL); column <= Math.floor(right / CELL); column++)
      for (let row = Math.floor(top / CELL); row <= Math.floor(bottom / CELL); row++) keys.push(column * 1e6 + row);
    return keys;
  };
  for (const segment of segments) {
    const [[x1, y1], [x2, y2]] = segment;
    for (const key of keysOf(Math.min(x1, x2), Math.min(y1, y2), Math.max(x1, x2), Math.max(y1, y2))) {
      const members = cells.get(key);
      if (members) members.push(segment);
      else cells.set(key, [segment]);
    }
  }
  return ({ x, y, width, height }) => keysOf(x, y, x + width, y + height).flatMap((key) => cells.get(key) ?? []);
}

function heavySegments(node: SceneNode): readonly (readonly [XY, XY])[] {
  if (node.kind === 'group' || node.kind === 'text' || node.kind === 'circle') return [];
  const pen = node.stroke?.pen;
  if (pen !== 'P1' && pen !== 'P2') return [];
  switch (node.kind) {
    case 'line':
      return [[node.from, node.to]];
    case 'polyline':
      return node.points.slice(1).map((point, index) => [node.points[index] ?? point, point] as const);
    case 'rect':
      return [
        [
          [node.x, node.y],
          [node.x + node.width, node.y],
        ],
        [
          [node.x, node.y + node.height],
          [node.x + node.width, node.y + node.height],
        ],
        [
          [node.x, node.y],
          [node.x, node.y + node.height],
        ],
        [
          [node.x + node.width, node.y],
          [node.x + node.width, node.y + node.height],
        ],
      ];
    case 'path':
      return node.steps.flatMap((step, index): readonly (readonly [XY, XY])[] => {
        const before = node.steps[index - 1];
        return step.to === 'line' && before && before.to !== 'close' ? [[before.at, step.at]] : [];
      });
  }
}

/** Liang and Barsky's clip of a segment to a box. */
function crosses([x1, y1]: XY, [x2, y2]: XY, box: Box): boolean {
  let [enter, leave] = [0, 1];
  for (const [p, q] of [
    [x1 - x2, x1 - box.x],
    [x2 - x1, box.x + box.width - x1],
    [y1 - y2, y1 - box.y],
    [y2 - y1, box.y + box.height - y1],
  ] as const) {
    if (p === 0) {
      if (q < 0) return false;
    } else if (p < 0) enter = Math.max(enter, q / p);
    else leave = Math.min(leave, q / p);
  }
  return enter < leave;
}

export function wordsOf(scene: Scene): string {
  return textsOf(scene)
    .map(({ node }) => node.text)
    .join(' ')
    .replace(/\s+/g, ' ');
}

export function read(text: string): Layout {
  return readLayout(text).layout;
}

export const paperOf = (length: Length, ratio: number): number => length / 1e6 / ratio;
