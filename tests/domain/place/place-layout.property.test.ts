import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitAt } from '../../../language/domain/fit/clear-intervals.ts';
import { withEdits } from '../../../language/domain/fixes/apply-in-memory.ts';
import type { Layout } from '../../../language/domain/model/layout.ts';
import { fitCaseOf } from '../../../language/domain/place/connector-uses.ts';
import { slideOf } from '../../../language/domain/place/crew-notes.ts';
import { type BoardPlacement, placeLayout } from '../../../language/domain/place/place-layout.ts';
import { placementEdits } from '../../../language/domain/place/placement-edits.ts';
import { checkLayout } from '../../../language/domain/rules/check-layout.ts';
import type { Finding } from '../../../language/domain/rules/finding.ts';
import {
  inches,
  type Length,
  NANOMETRES_PER_INCH,
  NANOMETRES_PER_MILLIMETRE,
  nanometres,
} from '../../../language/domain/units/length.ts';
import { built, scene, wallOf } from './random-house.ts';

const runs = process.env.SILLWRIGHT_LONG ? 20 : 1;
const place = (layout: Layout, slip = 0) =>
  placeLayout({ layouts: [layout], scope: { kind: 'house' }, slip: nanometres(slip), unexplained: true });
type Placed = Extract<BoardPlacement, { readonly outcome: 'placed' }>;
const placedOf = (boards: readonly BoardPlacement[]): readonly Placed[] =>
  boards.flatMap((board) => (board.outcome === 'placed' ? [board] : []));

/** Errors on a board that are not between anchors which were there before and their surroundings. */
function errorsOfOurs(layout: Layout, board: Placed): readonly Finding[] {
  const kept = new Set(board.board.kept.map(({ id }) => id));
  const keptAt = new Set(board.board.kept.map(({ station }) => station));
  return checkLayout(layout).findings.filter(
    ({ rule, severity, piece, thing, stationTo }) =>
      (rule.startsWith('anchorage/') || rule.startsWith('clearance/')) &&
      (severity === 'error' || severity === 'stop') &&
      piece === board.piece.name &&
      !(thing !== undefined && kept.has(thing) && (stationTo === undefined || keptAt.has(stationTo))),
  );
}

describe('a placement on any wall', () => {
  it('leaves no error of its own on a board that could be laid out, and touches nothing that stands', () => {
    let placed = 0;
    fc.assert(
      fc.property(scene, (say) => {
        const layout = built(say);
        const placement = place(layout);
        const { edits, removed } = placementEdits(layout, placement);
        const after = withEdits(layout, edits);
        for (const board of placedOf(placement.boards)) {
          placed += 1;
          expect(errorsOfOurs(after, board).map(({ message }) => message)).toEqual([]);
          for (const { station, use } of board.anchors) {
            const fit = fitAt(fitCaseOf(layout, board.wall, board.piece, use), station);
            expect(fit).toEqual({ blocked: [], lacking: [] });
            const step = say.units === 'metric' ? NANOMETRES_PER_MILLIMETRE : NANOMETRES_PER_INCH / 16;
            expect(station % step).toBe(0);
          }
        }
        for (const anchor of wallOf(layout).anchors) {
          if (anchor.proposed && anchor.state === 'planned') continue;
          expect(wallOf(after).anchors).toContain(anchor);
        }
        for (const anchor of removed) expect(anchor.proposed && anchor.state === 'planned').toBe(true);
        const marks = wallOf(after).anchors.map(({ name }) => name);
        expect(new Set(marks).size).toBe(marks.length);
      }),
      { numRuns: 250 * runs },
    );
    expect(placed).toBeGreaterThan(100 * runs);
  });

  it('wants nothing more once it is made, and is the same whatever the tool had proposed before', () => {
    fc.assert(
      fc.property(scene, (say) => {
        const layout = built(say);
        const first = place(layout);
        const after = withEdits(layout, placementEdits(layout, first).edits);
        const again = place(after);
        const { edits } = placementEdits(after, again);
        expect(edits).toEqual([]);
        const listOf = ({ boards }: typeof first) =>
          placedOf(boards).map(({ piece, anchors }) => [
            piece.name,
            ...anchors.map(({ station, use }) => `${use.id} ${station}`),
          ]);
        expect(listOf(again)).toEqual(listOf(first));
      }),
      { numRuns: 80 * runs },
    );
  });
});

describe('a placement that promises slip', () => {
  it('stays legal when every hole drifts by as much as was promised, in any direction', () => {
    const wanted = process.env.SILLWRIGHT_LONG ? 10_000 : 500;
    let tried = 0;
    for (let seed = 1; tried < wanted; seed += 1) {
      const [say] = fc.sample(scene, { numRuns: 1, seed });
      if (!say) continue;
      // What stands there and is wrong already stays wrong: walls with proposals only.
      const layout = built({ ...say, anchors: [] });
      const slip = inches([0.25, 0.5][seed % 2] ?? 0.5);
      const placement = place(layout, slip);
      const boards = placedOf(placement.boards).filter(({ anchors }) => anchors.length > 0);
      if (boards.length === 0) continue;
      const { edits } = placementEdits(layout, placement);
      const after = withEdits(layout, edits);
      for (let turn = 0; turn < 10 && tried < wanted; turn += 1) {
        const drift = drifts(seed * 100 + turn, slip);
        const wall = wallOf(after);
        const onlySpots = new Set(
          boards.flatMap(({ anchors }) => anchors.filter((a) => a.onlySpot).map((a) => a.station)),
        );
        const moved = {
          ...after,
          walls: [
            {
              ...wall,
              anchors: wall.anchors.map((anchor) => {
                const { station } = anchor;
                // The one spot that an obstruction leaves has no room to promise, and says so.
                if (station === undefined || onlySpots.has(station)) return anchor;
                return { ...anchor, station: nanometres(station + drift()) };
              }),
            },
          ],
        };
        for (const board of boards) {
          expect(errorsOfOurs(moved, board).map(({ message }) => message)).toEqual([]);
        }
        tried += 1;
      }
    }
    expect(tried).toBe(wanted);
  });
});

/** Whole nanometres within the slip; one in three at its very end. */
function drifts(seed: number, slip: number): () => number {
  let state = seed >>> 0;
  const next = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  return () => {
    const way = next();
    if (way < 1 / 6) return -slip;
    if (way < 1 / 3) return slip;
    return Math.round((2 * next() - 1) * slip);
  };
}

describe('how far an anchor may slide alone', () => {
  it('is legal to its end, and one tape mark further on is not, to either side', () => {
    let looked = 0;
    fc.assert(
      fc.property(scene, (say) => {
        const layout = built({ ...say, anchors: [] });
        const placement = place(layout);
        const after = withEdits(layout, placementEdits(layout, placement).edits);
        const step = say.units === 'metric' ? NANOMETRES_PER_MILLIMETRE : NANOMETRES_PER_INCH / 16;
        // The checks forgive as much as a tape does: so much further, they must complain.
        const forgiven = NANOMETRES_PER_INCH / 16;
        for (const board of placedOf(placement.boards)) {
          for (const { station, onlySpot } of board.anchors) {
            const anchor = wallOf(after).anchors.find((each) => each.station === station);
            if (!anchor || onlySpot) continue;
            const room = slideOf(after, wallOf(after), anchor);
            expect(room).toBeDefined();
            if (!room) continue;
            const slid = (by: number): Layout => {
              const wall = wallOf(after);
              const anchors = wall.anchors.map((each) =>
                each === anchor ? { ...each, station: nanometres(station + by) } : each,
              );
              return {
                ...after,
                walls: [{ ...wall, anchors: anchors.sort((a, b) => (a.station ?? 0) - (b.station ?? 0)) }],
              };
            };
            looked += 1;
            expect(errorsOfOurs(slid(room.right), board)).toEqual([]);
            expect(errorsOfOurs(slid(-room.left), board)).toEqual([]);
            const isLegal = (by: number): boolean =>
              errorsOfOurs(slid(by), board).length === 0 && !isUnsure(slid(by), board, anchor.name);
            expect(isLegal(room.right + step + forgiven) && isLegal(room.right + step)).toBe(false);
            expect(isLegal(-room.left - step - forgiven) && isLegal(-room.left - step)).toBe(false);
          }
        }
      }),
      { numRuns: 60 * runs },
    );
    expect(looked).toBeGreaterThan(50 * runs);
  });
});

/** Fits, or is on its board, only as far as anybody measured. */
function isUnsure(layout: Layout, board: Placed, mark: string): boolean {
  const anchor = wallOf(layout).anchors.find(({ name }) => name === mark);
  if (anchor?.station === undefined || !anchor.connector) return true;
  if (anchor.station < board.piece.from || anchor.station > board.piece.to) return true;
  // Two too close together are a warning of the checks and a limit of the placement.
  const { station } = anchor;
  const isNear = (each: { readonly station: Length | undefined }) =>
    each.station !== undefined && each.station !== station && Math.abs(each.station - station) < inches(12);
  if (wallOf(layout).anchors.some(isNear)) return true;
  const { connector, shim, rightAngleDrill } = anchor;
  const fit = fitAt(
    { layout, wall: wallOf(layout), piece: board.piece, connector, shim, rightAngleDrill },
    anchor.station,
  );
  return fit.blocked.length > 0 || fit.lacking.length > 0;
}
