import type { Analysis } from '../../language/analysis.ts';
import type {
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
import type { FileId, FileSpan } from '../../language/domain/model/source.ts';

/** A thing of the layout with what it belongs to, told apart by its kind. */
export type PlacedThing =
  | { readonly kind: 'wall'; readonly thing: Wall; readonly wall: Wall }
  | { readonly kind: 'anchor'; readonly thing: NewAnchor; readonly wall: Wall }
  | { readonly kind: 'found-anchor'; readonly thing: FoundAnchor; readonly wall: Wall }
  | { readonly kind: 'piece'; readonly thing: SillPiece; readonly wall: Wall }
  | { readonly kind: 'obstruction'; readonly thing: Obstruction; readonly wall: Wall }
  | { readonly kind: 'defect'; readonly thing: Defect; readonly wall: Wall }
  | { readonly kind: 'part'; readonly thing: Thing; readonly wall: Wall }
  | { readonly kind: 'girder'; readonly thing: Girder; readonly wall: undefined }
  | { readonly kind: 'post'; readonly thing: Post; readonly wall: undefined }
  | { readonly kind: 'post-hardware'; readonly thing: PostHardware; readonly wall: undefined }
  | { readonly kind: 'other'; readonly thing: Thing; readonly wall: undefined };

/** Everything that has a line of its own, walls before their parts. */
export function* thingsOf(layout: Layout): Generator<PlacedThing> {
  for (const wall of layout.walls) {
    yield { kind: 'wall', thing: wall, wall };
    for (const thing of wall.pieces) yield { kind: 'piece', thing, wall };
    for (const thing of wall.obstructions) yield { kind: 'obstruction', thing, wall };
    for (const thing of wall.defects) yield { kind: 'defect', thing, wall };
    for (const thing of wall.foundAnchors) yield { kind: 'found-anchor', thing, wall };
    for (const thing of wall.anchors) yield { kind: 'anchor', thing, wall };
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
  for (const girder of layout.girders) {
    yield { kind: 'girder', thing: girder, wall: undefined };
    for (const post of girder.posts) {
      yield { kind: 'post', thing: post, wall: undefined };
      for (const thing of post.hardware) yield { kind: 'post-hardware', thing, wall: undefined };
    }
  }
  for (const thing of [...layout.lines, ...layout.spaces]) yield { kind: 'other', thing, wall: undefined };
}

export function findThing(layout: Layout, id: string): PlacedThing | undefined {
  for (const placed of thingsOf(layout)) if (placed.thing.id === id) return placed;
  return undefined;
}

export interface UnderCursor {
  /** The thing whose line the cursor is on. */
  readonly on: PlacedThing | undefined;
  /** The wall whose block the cursor is in, also on a blank line, a note or a comment. */
  readonly wall: Wall | undefined;
}

/** A place in a file, and the line that it is on. */
export interface CursorSpot {
  readonly offset: number;
  readonly lineStart: number;
  readonly lineEnd: number;
}

/** What the cursor is on: the smallest thing around it, else what else is said on its line. */
export function underCursor(analysis: Analysis, file: FileId, spot: CursorSpot): UnderCursor {
  let around: Found | undefined;
  let onLine: Found | undefined;
  let before: { readonly wall: Wall | undefined; readonly start: number } | undefined;
  for (const placed of thingsOf(analysis.layout)) {
    const place = analysis.locate(placed.thing.source);
    if (!place || place.file !== file) continue;
    if (place.start <= spot.offset && spot.offset <= place.end && isSmaller(place, around?.place)) {
      around = { placed, place };
    }
    if (place.start <= spot.lineEnd && place.end >= spot.lineStart && isSmaller(place, onLine?.place)) {
      onLine = { placed, place };
    }
    if (place.start <= spot.offset && place.start > (before?.start ?? -1)) {
      before = { wall: placed.wall, start: place.start };
    }
  }
  for (const wall of analysis.layout.walls) {
    for (const { headingSource } of wall.workBlocks) {
      const place = analysis.locate(headingSource);
      if (place?.file !== file || place.start > spot.offset || place.start <= (before?.start ?? -1)) continue;
      before = { wall, start: place.start };
    }
  }
  const on = (around ?? onLine)?.placed;
  return { on, wall: on ? on.wall : before?.wall };
}

interface Found {
  readonly placed: PlacedThing;
  readonly place: FileSpan;
}

function isSmaller(place: FileSpan, than: FileSpan | undefined): boolean {
  return !than || place.end - place.start <= than.end - than.start;
}
