import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitAt } from '../../../language/domain/fit/clear-intervals.ts';
import { howSet } from '../../../language/domain/fit/fit-case.ts';
import { contains } from '../../../language/domain/fit/intervals.ts';
import { withEdits } from '../../../language/domain/fixes/apply-in-memory.ts';
import type { Layout, NewAnchor, Wall } from '../../../language/domain/model/layout.ts';
import { boardsOfMove, whyFixed } from '../../../language/domain/place/connector-moves.ts';
import { placeLayout } from '../../../language/domain/place/place-layout.ts';
import { placementEdits } from '../../../language/domain/place/placement-edits.ts';
import { checkLayout } from '../../../language/domain/rules/check-layout.ts';
import { formatStation } from '../../../language/domain/units/format-length.ts';
import type { Length } from '../../../language/domain/units/length.ts';
import { createProjectReader } from '../../../language/syntax/project.ts';
import { exampleHost, readLayout } from '../../support/read-layout.ts';
import { built, scene, wallOf } from './random-house.ts';

const runs = process.env.SILLWRIGHT_LONG ? 20 : 1;

/** What stops the building official and names this anchor, or one of its distances. */
function errorsAbout(layout: Layout, anchor: NewAnchor, station: Length): readonly string[] {
  return checkLayout(layout)
    .findings.filter(({ rule }) => rule.startsWith('anchorage/') || rule.startsWith('clearance/'))
    .filter(({ severity }) => severity === 'error' || severity === 'stop')
    .filter((each) => each.thing === anchor.id || each.station === station || each.stationTo === station)
    .map(({ message }) => message);
}

const example = (file: string): Layout => createProjectReader(exampleHost).read(file).layout;
const anchorIn = (layout: Layout, mark: string): { readonly wall: Wall; readonly anchor: NewAnchor } => {
  for (const wall of layout.walls) {
    const anchor = wall.anchors.find(({ name }) => name === mark);
    if (anchor) return { wall, anchor };
  }
  throw new Error(`no ${mark}`);
};

describe('where a connector may be moved', () => {
  it('calls kept only what leaves it without an error, and clear only where it surely fits', () => {
    let kept = 0;
    fc.assert(
      fc.property(scene, (say) => {
        // Laid out first: on a board that breaks a limit anyway hardly any place keeps all of them.
        const bare = built(say);
        const placement = placeLayout({ layouts: [bare], scope: { kind: 'house' }, unexplained: true });
        const layout = withEdits(bare, placementEdits(bare, placement).edits);
        const wall = wallOf(layout);
        const movable = wall.anchors.filter((each) => whyFixed(layout, each) === undefined);
        const anchor = movable[Math.floor(movable.length / 2)];
        if (!anchor?.connector) return;
        const { connector } = anchor;
        for (const board of boardsOfMove(layout, wall, anchor)) {
          const { piece, windows } = board;
          for (const { from, to } of windows.clear) {
            for (const station of [from, to]) {
              expect(fitAt({ layout, wall, piece, connector, ...howSet(anchor) }, station)).toEqual({
                blocked: [],
                lacking: [],
              });
            }
          }
          for (const { from, to } of board.kept) {
            for (const station of [from, to]) {
              if (!contains(board.counts, station)) continue;
              kept += 1;
              expect(contains(windows.clear, station)).toBe(true);
              const after = withEdits(layout, [{ kind: 'set-station', anchor: anchor.id, station }]);
              expect(errorsAbout(after, anchor, station)).toEqual([]);
            }
          }
        }
      }),
      { numRuns: 80 * runs },
    );
    expect(kept).toBeGreaterThan(20 * runs);
  });

  it('is judged by the others where they stand, and by the best place of a placement', () => {
    const layout = example('first-wall.sill');
    const { wall, anchor } = anchorIn(layout, 'A-2');
    const show = (at: Length): string => formatStation(at, 'feet-inches');
    const [board, ...others] = boardsOfMove(layout, wall, anchor);
    expect(others).toEqual([]);
    expect(board?.others.map(({ name, station }) => `${name} ${show(station)}`)).toEqual([
      `A-1 0'-11"`,
      `A-3 10'-8"`,
      `A-4 15'-1"`,
    ]);
    expect(board?.windows.clear.map(({ from, to }) => [show(from), show(to)])).toEqual([
      [`0'-10"`, `5'-7"`],
      [`7'-9"`, `15'-2"`],
    ]);
    // 6'-0" at most to either neighbour: Table A304.3.1 of the existing-building code appendix (recalled).
    expect(board?.kept.map(({ from, to }) => [show(from), show(to)])).toEqual([[`4'-8"`, `5'-7"`]]);
    expect(board?.best.map(show)).toEqual([`5'-1 1/2"`]);
  });

  it('is kept on no other board where its own would miss it', () => {
    const layout = example('first-wall.sill');
    const { wall, anchor } = anchorIn(layout, 'D-1');
    const [own, other] = boardsOfMove(layout, wall, anchor);
    expect(own?.kept.length).toBe(1);
    expect(other?.windows.clear.length).toBe(1);
    expect(other?.kept).toEqual([]);
  });

  it('is not asked of what is built, left out, failed or on papers that left the office', () => {
    const layout = example('maple-designed.sill');
    const why = (mark: string): string | undefined => whyFixed(layout, anchorIn(layout, mark).anchor);
    expect(why('F-5')).toMatch(/^F-5 is installed: .*record/);
    expect(why('F-4')).toMatch(/^F-4 was left out/);
    expect(why('F-11')).toMatch(/^F-11 is on issue 2, which has left the office/);
    expect(whyFixed({ ...layout, issues: [] }, anchorIn(layout, 'F-11').anchor)).toBeUndefined();
    const unknown = readLayout("wall A length 10'\n  sill size 2x6\nwork on A\n  anchor A-1 nobody at 1'-0\"").layout;
    expect(whyFixed(unknown, anchorIn(unknown, 'A-1').anchor)).toMatch(/connector of A-1 is not in sight/);
  });
});
