import type { Analysis } from '../../language/analysis.ts';
import type { Panel, Remedy, Tie } from '../../language/domain/model/design.ts';
import type {
  AngleRun,
  Defect,
  FoundAnchor,
  Girder,
  Layout,
  NewAnchor,
  Obstruction,
  Post,
  PostHardware,
  SillPiece,
  Thing,
  Wall,
} from '../../language/domain/model/layout.ts';
import type { Block, FileId } from '../../language/domain/model/source.ts';

/** A thing of the layout with what it belongs to, told apart by its kind. */
export type PlacedThing =
  | { readonly kind: 'wall'; readonly thing: Wall; readonly wall: Wall }
  | { readonly kind: 'anchor'; readonly thing: NewAnchor; readonly wall: Wall }
  | { readonly kind: 'found-anchor'; readonly thing: FoundAnchor; readonly wall: Wall }
  | { readonly kind: 'piece'; readonly thing: SillPiece; readonly wall: Wall }
  | { readonly kind: 'obstruction'; readonly thing: Obstruction; readonly wall: Wall }
  | { readonly kind: 'defect'; readonly thing: Defect; readonly wall: Wall }
  | { readonly kind: 'panel'; readonly thing: Panel; readonly wall: Wall }
  | { readonly kind: 'tie'; readonly thing: Tie; readonly wall: Wall }
  | { readonly kind: 'angles'; readonly thing: AngleRun; readonly wall: Wall }
  | { readonly kind: 'remedy'; readonly thing: Remedy; readonly wall: Wall | undefined; readonly girder?: Girder }
  | { readonly kind: 'part'; readonly thing: Thing; readonly wall: Wall }
  | { readonly kind: 'girder'; readonly thing: Girder; readonly wall: undefined; readonly girder: Girder }
  | { readonly kind: 'post'; readonly thing: Post; readonly wall: undefined; readonly girder: Girder }
  | { readonly kind: 'post-hardware'; readonly thing: PostHardware; readonly wall: undefined; readonly girder: Girder }
  | { readonly kind: 'other'; readonly thing: Thing; readonly wall: undefined };

/** Everything that has a line of its own, walls before their parts. */
export function* thingsOf(layout: Layout): Generator<PlacedThing> {
  for (const wall of layout.walls) yield* thingsOfWall(wall);
  for (const girder of layout.girders) yield* thingsOfGirder(girder);
  for (const thing of [...layout.lines, ...layout.spaces]) yield { kind: 'other', thing, wall: undefined };
}

function* thingsOfWall(wall: Wall): Generator<PlacedThing> {
  yield { kind: 'wall', thing: wall, wall };
  for (const thing of wall.pieces) yield { kind: 'piece', thing, wall };
  for (const thing of wall.obstructions) yield { kind: 'obstruction', thing, wall };
  for (const thing of wall.defects) yield { kind: 'defect', thing, wall };
  for (const thing of wall.foundAnchors) yield { kind: 'found-anchor', thing, wall };
  for (const thing of wall.anchors) yield { kind: 'anchor', thing, wall };
  for (const thing of wall.panels) yield { kind: 'panel', thing, wall };
  for (const thing of wall.ties) yield { kind: 'tie', thing, wall };
  for (const thing of wall.angles) yield { kind: 'angles', thing, wall };
  for (const thing of wall.remedies) yield { kind: 'remedy', thing, wall };
  const parts = [
    wall.foundation,
    wall.cripples,
    wall.joists,
    wall.irregularJoists,
    wall.studs,
    wall.rims,
    wall.blocking,
  ];
  for (const thing of parts.flat()) yield { kind: 'part', thing, wall };
}

function* thingsOfGirder(girder: Girder): Generator<PlacedThing> {
  yield { kind: 'girder', thing: girder, wall: undefined, girder };
  for (const post of girder.posts) {
    yield { kind: 'post', thing: post, wall: undefined, girder };
    for (const thing of post.hardware) yield { kind: 'post-hardware', thing, wall: undefined, girder };
  }
  for (const thing of girder.remedies ?? []) yield { kind: 'remedy', thing, wall: undefined, girder };
}

export const girderOf = (placed: PlacedThing): Girder | undefined => ('girder' in placed ? placed.girder : undefined);

export function findThing(layout: Layout, id: string): PlacedThing | undefined {
  for (const placed of thingsOf(layout)) if (placed.thing.id === id) return placed;
  return undefined;
}

export interface UnderCursor {
  /** The thing whose line the cursor is on. */
  readonly on: PlacedThing | undefined;
  /** The wall whose block the cursor is in, also on a blank line, a note or a comment. */
  readonly wall: Wall | undefined;
  /** The girder whose block the cursor is in. */
  readonly girder: Girder | undefined;
}

/** A place in a file, and the line that it is on. */
export interface CursorSpot {
  readonly offset: number;
  readonly lineStart: number;
  readonly lineEnd: number;
}

/** What the cursor is on: the smallest thing around it, else what else is said on its line. */
export function underCursor(analysis: Analysis, file: FileId, spot: CursorSpot): UnderCursor {
  const { layout } = analysis;
  const startOf = startsIn(analysis, file);
  const block = analysis.blocksOf(file)?.blocks.findLast((each) => (startOf(each) ?? 0) <= spot.offset);
  const owners = block ? ownersOf(block, layout) : [];
  // In the block of a wall nothing else has a line: the rest of a large house need not be looked through.
  const here = lookedUp(thingsOfOwners(owners), owners, startOf, spot);
  const isInIt = block && here.before && here.before.start >= (startOf(block) ?? 0);
  const { on, before } = isInIt ? here : lookedUp(thingsOf(layout), ownersIn(layout), startOf, spot);
  return on ? { on, wall: on.wall, girder: girderOf(on) } : { on, wall: before?.wall, girder: before?.girder };
}

type StartOf = (block: Block) => number | undefined;

interface LookedUp {
  readonly on: PlacedThing | undefined;
  /** Whose line is the last one that begins before the place. */
  readonly before:
    | { readonly wall: Wall | undefined; readonly girder: Girder | undefined; readonly start: number }
    | undefined;
}

function lookedUp(
  things: Iterable<PlacedThing>,
  owners: Iterable<Owner>,
  startOf: StartOf,
  spot: CursorSpot,
): LookedUp {
  let around: Found | undefined;
  let onLine: Found | undefined;
  let before: LookedUp['before'];
  for (const placed of things) {
    const { source } = placed.thing;
    const startOfBlock = startOf(source.block);
    if (startOfBlock === undefined) continue;
    const [start, end] = [startOfBlock + source.start, startOfBlock + source.end];
    const length = end - start;
    if (start <= spot.offset && spot.offset <= end && length <= (around?.length ?? length)) {
      around = { placed, length };
    }
    if (start <= spot.lineEnd && end >= spot.lineStart && length <= (onLine?.length ?? length)) {
      onLine = { placed, length };
    }
    if (start <= spot.offset && start > (before?.start ?? -1)) {
      before = { wall: placed.wall, girder: girderOf(placed), start };
    }
  }
  for (const { wall, girder } of owners) {
    for (const { headingSource } of (wall ?? girder).workBlocks ?? []) {
      const start = (startOf(headingSource.block) ?? Number.POSITIVE_INFINITY) + headingSource.start;
      if (start > spot.offset || start <= (before?.start ?? -1)) continue;
      before = { wall, girder, start };
    }
  }
  return { on: (around ?? onLine)?.placed, before };
}

type Owner =
  | { readonly wall: Wall; readonly girder: undefined }
  | { readonly wall: undefined; readonly girder: Girder };

const ownersIn = ({ walls, girders }: Layout): readonly Owner[] => [
  ...walls.map((wall) => ({ wall, girder: undefined })),
  ...girders.map((girder) => ({ wall: undefined, girder })),
];

/** Whose block it is: their own, or one of `work on` them. */
const ownersOf = (block: Block, layout: Layout): readonly Owner[] =>
  ownersIn(layout).filter(({ wall, girder }) => {
    const { source, workBlocks = [] } = wall ?? girder;
    return source.block === block || workBlocks.some((work) => work.source.block === block);
  });

function* thingsOfOwners(owners: readonly Owner[]): Generator<PlacedThing> {
  for (const { wall, girder } of owners) yield* wall ? thingsOfWall(wall) : thingsOfGirder(girder);
}

interface Found {
  readonly placed: PlacedThing;
  readonly length: number;
}

/** Where the blocks of a file begin in it; `undefined` for one of another file. Looked up once for the many things of a block. */
function startsIn(analysis: Analysis, file: FileId): StartOf {
  const starts = new Map<Block, number | undefined>();
  return (block) => {
    if (!starts.has(block)) {
      const place = analysis.locate({ block, start: 0, end: 0 });
      starts.set(block, place?.file === file ? place.start : undefined);
    }
    return starts.get(block);
  };
}
