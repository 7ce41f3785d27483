import type { PlacementProblem } from '../../language/domain/placement/problem.ts';

/**
 * The best placement by trying all of them: every set of tape marks and kinds, held against the constraints one by one.
 * Written from the statement of the problem alone; shares nothing with the solver or its checker but the types. For tiny
 * problems whose pieces all see each other (or of one piece).
 */
export interface EveryPlacement {
  readonly cost: number;
  /** In whole steps; `undefined` where nothing that can move is placed. */
  readonly slack: number | undefined;
  readonly kinds: number;
  readonly pull: number;
  readonly stations: readonly number[];
  readonly names: readonly string[];
}

type Piece = PlacementProblem['pieces'][number];
type Offer = Piece['offers'][number];
type Limits = Offer['limits'];

interface Anchor {
  readonly x: number;
  readonly kind: string | undefined;
  readonly limits: Limits;
  readonly capacity: number;
  readonly drifts: boolean;
}

interface Row {
  readonly anchors: readonly Anchor[];
  readonly slack: number;
}

export function bestOfEvery(problem: PlacementProblem, total = 0): EveryPlacement | undefined {
  const rows = problem.pieces.map((piece) => legalRows(problem, piece));
  let best: EveryPlacement | undefined;
  const cost = new Map(problem.kinds.map((kind) => [kind.id, kind.cost]));
  const free = new Set(problem.pieces.flatMap((piece) => piece.fixed.map(({ kind }) => kind)));
  const extend = (index: number, chosen: readonly Row[], slack: number): void => {
    const piece = problem.pieces[index];
    if (piece === undefined) {
      const placed = chosen.flatMap((row, at) =>
        row.anchors
          .filter(({ kind }) => kind !== undefined)
          .map((anchor) => ({ ...anchor, preferred: listOf(problem.pieces[at]?.preferred) })),
      );
      if (placed.length < total) return;
      const names = placed.map(({ kind }) => kind ?? '');
      const candidate: EveryPlacement = {
        cost: names.reduce((sum, name) => sum + (cost.get(name) ?? 0), 0),
        slack: slack === Number.POSITIVE_INFINITY ? undefined : Math.floor(slack / problem.step),
        kinds: new Set(names.filter((name) => !free.has(name))).size,
        pull: placed.reduce(
          (sum, { x, preferred }) =>
            sum + Math.min(...preferred.map((p) => Math.abs(p - x)), ...(preferred.length === 0 ? [0] : [])),
          0,
        ),
        stations: placed.map(({ x }) => x),
        names,
      };
      if (best === undefined || isBetter(candidate, best)) best = candidate;
      return;
    }
    for (const row of rows[index] ?? []) {
      let slackSoFar = Math.min(slack, row.slack);
      const left = chosen.at(-1)?.anchors.at(-1);
      const right = row.anchors[0];
      if (left !== undefined && right !== undefined && problem.pieces[index - 1]?.joinsNext) {
        const room = gapRoom(problem, left, right, [problem.pieces[index - 1], piece]);
        if (room === undefined) continue;
        slackSoFar = Math.min(slackSoFar, room);
      }
      extend(index + 1, [...chosen, row], slackSoFar);
    }
  };
  extend(0, [], Number.POSITIVE_INFINITY);
  return best;
}

function listOf(preferred: Piece['preferred'] | undefined): readonly number[] {
  return preferred === undefined || preferred === 'evenly' ? [] : preferred;
}

/** Cheaper, then roomier, then fewer kinds, then nearer to the preferred stations, then the lesser lists. */
function isBetter(a: EveryPlacement, b: EveryPlacement): boolean {
  if (a.cost !== b.cost) return a.cost < b.cost;
  const room = (slack: number | undefined) => slack ?? Number.POSITIVE_INFINITY;
  if (room(a.slack) !== room(b.slack)) return room(a.slack) > room(b.slack);
  if (a.kinds !== b.kinds) return a.kinds < b.kinds;
  if (a.pull !== b.pull) return a.pull < b.pull;
  for (const [index, x] of a.stations.entries()) {
    const other = b.stations[index];
    if (other === undefined) return false;
    if (x !== other) return x < other;
  }
  if (a.stations.length !== b.stations.length) return a.stations.length < b.stations.length;
  return a.names.join('\n') < b.names.join('\n');
}

function legalRows(problem: PlacementProblem, piece: Piece): Row[] {
  const { step } = problem;
  const marks: { x: number; kinds: Anchor[] }[] = [];
  for (let x = Math.ceil(piece.from / step) * step; x <= piece.to; x += step) {
    const kinds = piece.offers.flatMap((offer): Anchor[] => {
      const isSpot = (['left', 'right'] as const).some((end) => spotAt(problem, piece, end) === x);
      if (!stands(isSpot ? { ...problem, slip: 0 } : problem, piece, offer, x)) return [];
      const capacity = problem.kinds.find(({ id }) => id === offer.kind)?.capacity ?? 0;
      return [{ x, kind: offer.kind, limits: offer.limits, capacity, drifts: true }];
    });
    if (kinds.length > 0) marks.push({ x, kinds });
  }
  const fixed = piece.fixed
    .filter(({ counts }) => counts)
    .map(({ station, limits, drifts }): Anchor => ({ x: station, kind: undefined, limits, capacity: 0, drifts }));
  const given = piece.fixed.reduce((sum, { capacity }) => sum + capacity, 0);
  const rows: Row[] = [];
  const choose = (from: number, placed: readonly Anchor[]): void => {
    const anchors = [...fixed, ...placed].sort((a, b) => a.x - b.x);
    const slack = rowSlack(problem, piece, anchors);
    const strength = anchors.reduce((sum, { capacity }) => sum + capacity, given);
    const wanted = Math.max(1, ...anchors.map(({ limits }) => limits.count));
    if (slack !== undefined && strength >= piece.demand && anchors.length >= wanted) rows.push({ anchors, slack });
    for (let index = from; index < marks.length; index += 1) {
      for (const anchor of marks[index]?.kinds ?? []) choose(index + 1, [...placed, anchor]);
    }
  };
  choose(0, []);
  return rows;
}

/** Room that the row keeps to every limit; `undefined` where it breaks one. */
function rowSlack(problem: PlacementProblem, piece: Piece, row: readonly Anchor[]): number | undefined {
  const { slip } = problem;
  let slack = Number.POSITIVE_INFINITY;
  const first = row[0];
  const last = row.at(-1);
  if (first === undefined || last === undefined) return undefined;
  for (const end of ['left', 'right'] as const) {
    const anchor = end === 'left' ? first : last;
    const far = end === 'left' ? anchor.x - piece.from : piece.to - anchor.x;
    const spot = exceptionDistance(problem, piece, end);
    if (spot !== undefined) {
      if (far > spot) return undefined;
      continue;
    }
    if (anchor.limits[end].most === undefined) continue;
    const room = (anchor.limits[end].most ?? 0) - far - (anchor.kind === undefined ? 0 : slip);
    if (room < 0) return undefined;
    if (anchor.kind !== undefined && !pinned(problem, piece, row, anchor)) slack = Math.min(slack, room);
  }
  for (const [index, anchor] of row.entries()) {
    const left = row[index - 1];
    if (left !== undefined) {
      const room = gapRoom(problem, left, anchor, [piece]);
      if (room === undefined) return undefined;
      slack = Math.min(slack, room);
    }
    if (anchor.kind === undefined || pinned(problem, piece, row, anchor)) continue;
    const offer = piece.offers.find(({ kind }) => kind === anchor.kind);
    if (offer === undefined) return undefined;
    slack = Math.min(slack, roomAround(piece, offer, anchor.x) - slip);
    slack = Math.min(
      slack,
      anchor.x - piece.from - anchor.limits.left.least - slip,
      piece.to - anchor.x - anchor.limits.right.least - slip,
    );
  }
  return slack;
}

function gapRoom(
  problem: PlacementProblem,
  left: Anchor,
  right: Anchor,
  pieces: readonly (Piece | undefined)[],
): number | undefined {
  const gap = right.x - left.x;
  const least = Math.max(left.limits.minGap, right.limits.minGap);
  const greatest = Math.min(left.limits.maxGap ?? 1e12, right.limits.maxGap ?? 1e12);
  if (left.kind === undefined && right.kind === undefined)
    return gap <= greatest ? Number.POSITIVE_INFINITY : undefined;
  const drift = problem.slip * ((left.drifts ? 1 : 0) + (right.drifts ? 1 : 0));
  const room = Math.min(gap - least, greatest - gap) - drift;
  if (room < 0) return undefined;
  const still = (anchor: Anchor, piece: Piece | undefined) =>
    anchor.kind === undefined ||
    (piece !== undefined &&
      (['left', 'right'] as const).some((end) => {
        const spot = exceptionDistance(problem, piece, end);
        return spot !== undefined && (end === 'left' ? anchor.x - piece.from : piece.to - anchor.x) === spot;
      }));
  const bothStill = still(left, pieces[0]) && still(right, pieces.at(-1));
  return bothStill ? Number.POSITIVE_INFINITY : room;
}

/** The station of the one spot that an obstructed end leaves. */
function spotAt(problem: PlacementProblem, piece: Piece, end: 'left' | 'right'): number | undefined {
  const far = exceptionDistance(problem, piece, end);
  if (far === undefined) return undefined;
  return end === 'left' ? piece.from + far : piece.to - far;
}

/** It holds the one spot that an obstructed end leaves. */
function pinned(problem: PlacementProblem, piece: Piece, row: readonly Anchor[], anchor: Anchor): boolean {
  const isSpot = (end: 'left' | 'right', outermost: Anchor | undefined) =>
    outermost === anchor && exceptionDistance(problem, piece, end) !== undefined;
  return isSpot('left', row[0]) || isSpot('right', row.at(-1));
}

/** Where the exception for obstructed ends holds: how far from the end its anchor has to stand. */
function exceptionDistance(problem: PlacementProblem, piece: Piece, end: 'left' | 'right'): number | undefined {
  if (!piece.endWindowPastObstruction || piece.offers.length === 0) return undefined;
  const counted = piece.fixed.filter(({ counts }) => counts);
  const from = (x: number) => (end === 'left' ? x - piece.from : piece.to - x);
  if (counted.some(({ station, limits }) => from(station) <= (limits[end].most ?? 1e12))) return undefined;
  const things = piece.obstructions.filter(({ physical }) => physical);
  const marks: number[] = [];
  for (let x = Math.ceil(piece.from / problem.step) * problem.step; x <= piece.to; x += problem.step) marks.push(x);
  for (const offer of piece.offers) {
    const { least, most } = offer.limits[end];
    if (most === undefined) return undefined;
    const free = marks.some(
      (x) =>
        from(x) >= least + problem.slip &&
        from(x) <= most - problem.slip &&
        x - problem.slip >= piece.from &&
        x + problem.slip <= piece.to &&
        clearOf({ ...piece, obstructions: things }, offer.kind, x, problem.slip),
    );
    if (free) return undefined;
  }
  const spots = marks.filter((x) => piece.offers.some((offer) => stands({ ...problem, slip: 0 }, piece, offer, x)));
  const nearest = Math.min(1e12, ...spots.map(from), ...counted.map(({ station }) => from(station)));
  return nearest === 1e12 ? undefined : nearest;
}

function stands({ slip }: PlacementProblem, piece: Piece, { kind, limits, available }: Offer, x: number): boolean {
  const inside = x - piece.from >= limits.left.least + slip && piece.to - x >= limits.right.least + slip;
  return inside && roomAround(piece, { kind, limits, available }, x) >= slip && clearOf(piece, kind, x, slip);
}

function clearOf(piece: Piece, kind: string, x: number, slip: number): boolean {
  return piece.obstructions.every(({ blocks }) =>
    blocks.every(
      (block) =>
        (block.kind !== undefined && block.kind !== kind) ||
        block.from >= block.to ||
        block.to <= x - slip ||
        block.from >= x + slip,
    ),
  );
}

/** How far the kind may move from `x` without leaving its room or meeting an obstruction; negative where it may not stand. */
function roomAround(piece: Piece, offer: Offer, x: number): number {
  // Half units catch room between neighbouring whole numbers that no interval covers.
  const open = (at: number) =>
    offer.available.some((part) => part.from <= at && at <= part.to) &&
    at >= piece.from &&
    at <= piece.to &&
    piece.obstructions.every(({ blocks }) =>
      blocks.every(
        (block) => (block.kind !== undefined && block.kind !== offer.kind) || !(block.from < at && at < block.to),
      ),
    );
  if (!open(x)) return -1;
  let room = 0;
  while (open(x - room - 0.5) && open(x - room - 1) && open(x + room + 0.5) && open(x + room + 1)) room += 1;
  return room;
}
