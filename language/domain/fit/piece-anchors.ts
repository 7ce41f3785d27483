import { anchorDiameter, anchorsSill } from '../hardware/connector.ts';
import type { FoundAnchor, NewAnchor, SillPiece, ThingId, Wall } from '../model/layout.ts';
import { knownValue } from '../model/reading.ts';
import type { SourceSpan } from '../model/source.ts';
import { recentOnly } from '../recent-only.ts';
import type { Length } from '../units/length.ts';

/** An anchor that counts for a board: in gaps, in numbers and at its ends. */
export interface CountedAnchor {
  readonly id: ThingId;
  /** `F-8`, or for a found one without a name `the found anchor`. */
  readonly words: string;
  readonly station: Length;
  /** Of the fastener into concrete. */
  readonly diameter: AnchorDiameter;
  /** `undefined`: found, so nothing moves it. */
  readonly planned: NewAnchor | undefined;
  readonly span: SourceSpan;
}
export type AnchorDiameter =
  | { readonly kind: 'known'; readonly diameter: Length; readonly plate: boolean }
  | { readonly kind: 'unknown'; readonly wants: string };

/**
 * The anchors that count for a board, in order of station: new ones but for those omitted or failed in a test, and found ones
 * with full credit that can bear it.
 *
 * An anchor belongs to the one board that it stands on. Where two boards overlap in a lap it goes through both, and counts for
 * the board whose end is further away: each board must be held by anchors of its own. On a butt joint it counts for the left one.
 */
export function anchorsOf(wall: Wall, piece: SillPiece): readonly CountedAnchor[] {
  return anchorsByPiece(wall).get(piece) ?? [];
}

/** The board that an anchor at this station belongs to; `undefined` where none lies there. */
export function pieceAt(wall: Wall, station: Length): SillPiece | undefined {
  let best: SillPiece | undefined;
  for (const piece of inOrder(wall.pieces)) {
    if (piece.from > station) break;
    if (piece.to < station) continue;
    if (!best || fromNearEnd(piece, station) > fromNearEnd(best, station)) best = piece;
  }
  return best;
}

const ordered = recentOnly<Wall['pieces'], readonly SillPiece[]>();

function inOrder(pieces: Wall['pieces']): readonly SillPiece[] {
  const inTheirOrder = ordered.get(pieces) ?? pieces.toSorted((a, b) => a.from - b.from || a.to - b.to);
  ordered.set(pieces, inTheirOrder);
  return inTheirOrder;
}

const known = recentOnly<Wall, ReadonlyMap<SillPiece, readonly CountedAnchor[]>>();

function anchorsByPiece(wall: Wall): ReadonlyMap<SillPiece, readonly CountedAnchor[]> {
  const before = known.get(wall);
  if (before) return before;
  const pieces = inOrder(wall.pieces);
  const byPiece = new Map<SillPiece, CountedAnchor[]>();
  // A sweep along the wall: boards that begin before the anchor and have not ended.
  let next = 0;
  let open: SillPiece[] = [];
  for (const anchor of countedOn(wall)) {
    while (next < pieces.length && (pieces[next]?.from ?? anchor.station) <= anchor.station) {
      const piece = pieces[next];
      if (piece) open.push(piece);
      next += 1;
    }
    open = open.filter((piece) => piece.to >= anchor.station);
    const owner = open.reduce<SillPiece | undefined>(
      (best, piece) => (best && fromNearEnd(best, anchor.station) >= fromNearEnd(piece, anchor.station) ? best : piece),
      undefined,
    );
    if (!owner) continue;
    const list = byPiece.get(owner);
    if (list) list.push(anchor);
    else byPiece.set(owner, [anchor]);
  }
  known.set(wall, byPiece);
  return byPiece;
}

function fromNearEnd(piece: SillPiece, station: Length): number {
  return Math.min(station - piece.from, piece.to - station);
}

function countedOn(wall: Wall): readonly CountedAnchor[] {
  const counted = [
    ...wall.anchors.flatMap((anchor) => countNew(anchor) ?? []),
    ...wall.foundAnchors.flatMap((anchor) => countFound(anchor) ?? []),
  ];
  return counted.sort((a, b) => a.station - b.station);
}

function countNew(anchor: NewAnchor): CountedAnchor | undefined {
  if (anchor.station === undefined || anchor.state === 'omitted' || anchor.state === 'failed') return undefined;
  const { connector } = anchor;
  if (connector && !anchorsSill(connector.kind)) return undefined;
  const diameter = connector && anchorDiameter(connector);
  return {
    id: anchor.id,
    words: anchor.name,
    station: anchor.station,
    diameter:
      connector && diameter !== undefined
        ? { kind: 'known', diameter, plate: connector.kind !== 'through-bolt' }
        : {
            kind: 'unknown',
            wants: connector ? `size of the anchor of connector ${connector.name}` : `connector of ${anchor.name}`,
          },
    planned: anchor,
    span: anchor.stationSource ?? anchor.source,
  };
}

const WORTHLESS: ReadonlySet<string> = new Set([
  'heavy-rust',
  'loose',
  'broken',
  'split-out',
  'to-be-removed',
  'abandoned',
  'failed',
]);
/** Of the section; more of it lost counts as heavy rust. Common practice, no source. */
const GREATEST_LOSS = 0.25;

/** Why a found anchor counts for nothing, whatever credit was written down for it. */
export function whyWorthless({ states, loss, nut }: FoundAnchor): string | undefined {
  const state = states.find((each) => WORTHLESS.has(each));
  if (state !== undefined) return state.replaceAll('-', ' ');
  if (nut === 'none') return 'no nut';
  const share = knownValue(loss?.share)?.amount ?? 0;
  return share > GREATEST_LOSS || (loss?.over && share === GREATEST_LOSS) ? 'section lost' : undefined;
}

function countFound(anchor: FoundAnchor): CountedAnchor | undefined {
  if (anchor.station === undefined || anchor.credit !== 'full' || whyWorthless(anchor) !== undefined) return undefined;
  const words = anchor.name ?? 'the found anchor';
  return {
    id: anchor.id,
    words,
    station: anchor.station,
    diameter:
      anchor.size?.kind === 'known'
        ? { kind: 'known', diameter: anchor.size.value, plate: false }
        : { kind: 'unknown', wants: `size of ${anchor.name ?? 'a found anchor'}` },
    planned: undefined,
    span: anchor.stationSource,
  };
}
