import type { ThingEdit } from '../fixes/edit.ts';
import { nextMarks } from '../fixes/next-mark.ts';
import type { Layout, NewAnchor, ThingId, Wall } from '../model/layout.ts';
import type { Length } from '../units/length.ts';
import { useOfPlanned } from './board-case.ts';
import type { LayoutPlacement, ProposedAnchor } from './place-layout.ts';

/** A proposed anchor with the mark that it gets. */
export interface MarkedAnchor {
  readonly anchor: ProposedAnchor;
  readonly mark: string;
  /** The proposal that it takes the place of, and its mark from. */
  readonly replaces: NewAnchor | undefined;
}

export interface PlacementEdits {
  readonly edits: readonly ThingEdit[];
  /** By board (its thing), from left to right. */
  readonly marks: ReadonlyMap<ThingId, readonly MarkedAnchor[]>;
  /** Proposals that go. */
  readonly removed: readonly NewAnchor[];
}

/**
 * The placement as edits. A proposal that can serve keeps its mark and its line; only what is left over is taken out, and
 * only what is new gets a new mark. Boards without a placement keep what they have.
 */
export function placementEdits(layout: Layout, placement: LayoutPlacement): PlacementEdits {
  const edits: ThingEdit[] = [];
  const marks = new Map<ThingId, readonly MarkedAnchor[]>();
  const removed: NewAnchor[] = [];
  const taken = new Set<string>();
  for (const wall of layout.walls) {
    const boards = placement.boards.flatMap((board) =>
      board.wall === wall && board.outcome === 'placed' ? [board] : [],
    );
    const pairs = boards.map(({ board, anchors }) => ({ board, ...paired(board.movable, anchors) }));
    const fresh = pairs.reduce((sum, { matches }) => sum + matches.filter(({ old }) => !old).length, 0);
    const newMarks = freshMarks(layout, wall, fresh, taken);
    const gone = new Set(pairs.flatMap(({ spare }) => spare));
    removed.push(...gone);
    const staying = wall.anchors.filter((anchor) => !gone.has(anchor));
    const stationOf = new Map<NewAnchor, Length>();
    for (const { matches } of pairs) for (const { old, anchor } of matches) if (old) stationOf.set(old, anchor.station);
    for (const { board, matches } of pairs) {
      const own: MarkedAnchor[] = [];
      for (const { anchor, old } of matches) {
        const mark = old?.name ?? newMarks.shift();
        if (mark === undefined) continue;
        own.push({ anchor, mark, replaces: old });
        if (old) edits.push(...changes(old, anchor));
        else edits.push(insertion(wall, staying, stationOf, anchor, mark));
      }
      marks.set(board.piece.id, own);
    }
    for (const anchor of gone) edits.push({ kind: 'remove-anchor', anchor: anchor.id });
  }
  return { edits, marks, removed };
}

interface Pairing {
  readonly matches: readonly { readonly anchor: ProposedAnchor; readonly old: NewAnchor | undefined }[];
  readonly spare: readonly NewAnchor[];
}

/**
 * Which proposal serves for which new anchor, in order along the board: as many as can, then with the fewest changed
 * connectors, then with the shortest way to move. One with a note or a photo is the last to go.
 */
function paired(movable: readonly NewAnchor[], anchors: readonly ProposedAnchor[]): Pairing {
  const olds = movable.filter((old) => old.connector !== undefined).toSorted(byStation);
  const alike = (old: NewAnchor, anchor: ProposedAnchor) =>
    old.connector !== undefined && useOfPlanned(old, old.connector).id === anchor.use.id;
  // The line of a proposal that is set in another way says so in words that no edit of a station or a name reaches.
  const canServe = (old: NewAnchor, anchor: ProposedAnchor) =>
    old.offset === undefined &&
    old.embed === undefined &&
    (alike(old, anchor) || (isPlain(old) && !anchor.use.rightAngleDrill && anchor.use.shim === undefined));
  const best: Score[][] = [];
  for (let i = olds.length; i >= 0; i -= 1) {
    best[i] = [];
    for (let j = anchors.length; j >= 0; j -= 1) (best[i] ?? [])[j] = bestFrom(i, j);
  }
  const matches: { anchor: ProposedAnchor; old: NewAnchor | undefined }[] = [];
  const spare: NewAnchor[] = movable.filter((old) => old.connector === undefined);
  let i = 0;
  let j = 0;
  while (i < olds.length || j < anchors.length) {
    const old = olds[i];
    const anchor = anchors[j];
    const step = best[i]?.[j]?.step;
    if (step === 'match' && old && anchor) {
      matches.push({ anchor, old });
      i += 1;
      j += 1;
    } else if (step === 'spare' && old) {
      spare.push(old);
      i += 1;
    } else {
      if (anchor) matches.push({ anchor, old: undefined });
      j += 1;
    }
  }
  return { matches, spare };

  function bestFrom(i: number, j: number): Score {
    const old = olds[i];
    const anchor = anchors[j];
    const options: Score[] = [];
    if (old && anchor && canServe(old, anchor)) {
      options.push(
        plusScore(best[i + 1]?.[j + 1], 'match', {
          lost: 0,
          changed: alike(old, anchor) ? 0 : 1,
          moved: Math.abs((old.station ?? 0) - anchor.station),
        }),
      );
    }
    if (old)
      options.push(plusScore(best[i + 1]?.[j], 'spare', { lost: isWrittenOn(old) ? 1.5 : 1, changed: 0, moved: 0 }));
    if (anchor) options.push(plusScore(best[i]?.[j + 1], 'new', { lost: 1, changed: 0, moved: 0 }));
    return options.toSorted((a, b) => a.lost - b.lost || a.changed - b.changed || a.moved - b.moved)[0] ?? noScore;
  }
}

interface Score {
  readonly step: 'match' | 'spare' | 'new' | undefined;
  readonly lost: number;
  readonly changed: number;
  readonly moved: number;
}
const noScore: Score = { step: undefined, lost: 0, changed: 0, moved: 0 };

function plusScore(rest: Score = noScore, step: Score['step'], own: Omit<Score, 'step'>): Score {
  return { step, lost: rest.lost + own.lost, changed: rest.changed + own.changed, moved: rest.moved + own.moved };
}

const isPlain = (old: NewAnchor): boolean => !old.rightAngleDrill && old.shim === undefined;
const isWrittenOn = ({ tags }: NewAnchor): boolean => tags.notes.length > 0 || tags.photos.length > 0;
const byStation = (a: NewAnchor, b: NewAnchor): number => (a.station ?? 0) - (b.station ?? 0);

function changes(old: NewAnchor, { station, use }: ProposedAnchor): ThingEdit[] {
  const edits: ThingEdit[] = [];
  if (old.station !== station) edits.push({ kind: 'set-station', anchor: old.id, station });
  if (old.connector !== use.connector)
    edits.push({ kind: 'set-connector', anchor: old.id, connector: use.connector.name });
  return edits;
}

/** Below the last line that stays and stands further left. */
function insertion(
  wall: Wall,
  staying: readonly NewAnchor[],
  moved: ReadonlyMap<NewAnchor, Length>,
  { station, use }: ProposedAnchor,
  mark: string,
): ThingEdit {
  let after: NewAnchor | undefined;
  let furthest = Number.NEGATIVE_INFINITY;
  for (const anchor of staying) {
    const at = moved.get(anchor) ?? anchor.station;
    if (at === undefined || at > station || at < furthest) continue;
    after = anchor;
    furthest = at;
  }
  return {
    kind: 'insert-anchor',
    wall: wall.id,
    mark,
    connector: use.connector.name,
    station,
    after: after?.id,
    ...(use.rightAngleDrill ? { rightAngleDrill: true } : {}),
    ...(use.shim === undefined ? {} : { shim: use.shim }),
  };
}

/** Two walls may share a prefix: what one took is not free for the other. */
function freshMarks(layout: Layout, wall: Wall, count: number, taken: Set<string>): string[] {
  const marks = nextMarks(layout, wall, count + taken.size).filter((mark) => !taken.has(mark.toLowerCase()));
  const own = marks.slice(0, count);
  for (const mark of own) taken.add(mark.toLowerCase());
  return own;
}
