import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withEdits } from '../../../language/domain/fixes/apply-in-memory.ts';
import type { Layout, NewAnchor, Wall } from '../../../language/domain/model/layout.ts';
import { checkLayout } from '../../../language/domain/rules/check-layout.ts';
import type { Finding } from '../../../language/domain/rules/finding.ts';
import type { Length } from '../../../language/domain/units/length.ts';
import {
  inches,
  NANOMETRES_PER_INCH,
  NANOMETRES_PER_MILLIMETRE,
  nanometres,
  zero,
} from '../../../language/domain/units/length.ts';
import * as make from '../../support/build-layout.ts';

/** Walls as they come: boards, things in the way, anchors put down anywhere, some of them in the concrete already. */
const quarter = (count: number): Length => nanometres((count * NANOMETRES_PER_INCH) / 4);

const share = fc.integer({ min: 0, max: 1000 }).map((each) => each / 1000);

const scene = fc.record({
  usual: fc.constantFrom('bolt' as const, 'plate' as const, 'flat' as const),
  boards: fc.array(fc.integer({ min: 60, max: 900 }), { minLength: 1, maxLength: 3 }),
  anchors: fc.array(
    fc.record({
      // From the anchor before, in quarters of an inch; the row starts again when it runs off the wall.
      after: fc.oneof(fc.integer({ min: 20, max: 400 }), fc.constantFrom(40, 48, 160, 192)),
      kind: fc.constantFrom(
        'usual' as const,
        'usual' as const,
        'usual' as const,
        'usual' as const,
        'plate' as const,
        'big' as const,
      ),
      state: fc.constantFrom<NewAnchor['state']>('planned', 'planned', 'planned', 'installed', 'omitted', 'failed'),
    }),
    { maxLength: 12 },
  ),
  found: fc.array(share, { maxLength: 2 }),
  things: fc.array(
    fc.record({
      at: share,
      wide: fc.integer({ min: 4, max: 120 }),
      kind: fc.constantFrom(
        'vent' as const,
        'window' as const,
        'pipe' as const,
        'gas-pipe' as const,
        'conduit' as const,
      ),
    }),
    { maxLength: 4 },
  ),
  setBack: fc.constantFrom(0, 3, 3, 8, 'unknown' as const),
  headroom: fc.constantFrom(40, 100, 'unknown' as const),
  studs: fc.boolean(),
  storeys: fc.constantFrom(1, 2, 3),
  units: fc.constantFrom('feet-inches' as const, 'metric' as const),
});
type Scene = typeof scene extends fc.Arbitrary<infer Value> ? Value : never;

function built(say: Scene): Layout {
  const total = quarter(say.boards.reduce((sum, each) => sum + each, 0));
  let from: Length = zero;
  const pieces = say.boards.map((long, index) => {
    const to = nanometres(from + quarter(long));
    const board = make.piece(from, to, {
      name: `F${index + 1}`,
      setBack: make.level(say.setBack === 'unknown' ? 'unknown' : quarter(say.setBack)),
      headroom: make.level(say.headroom === 'unknown' ? 'unknown' : quarter(say.headroom)),
    });
    from = to;
    return board;
  });
  const place = (share: number): Length => nanometres(Math.round((share * total) / quarter(1)) * quarter(1));
  let reached: number = 0;
  const kinds = {
    bolt: make.bolt(),
    big: make.bolt('bolt-big', inches(0.625)),
    plate: make.plate(),
    flat: make.plate('flat', { kind: 'side-plate', fits: [make.fits('set-back', zero, inches(0.125))] }),
  };
  const wall = make.wall({
    length: total,
    pieces,
    cripples: say.studs ? [make.cripple(zero, total)] : [],
    obstructions: say.things.map((each, index) =>
      make.obstruction(each.kind, place(each.at), nanometres(place(each.at) + quarter(each.wide)), {
        name: `T${index}`,
      }),
    ),
    anchors: say.anchors
      .map((each, index) => {
        reached = (reached + quarter(each.after)) % total;
        return make.newAnchor(
          `F-${index + 1}`,
          nanometres(reached),
          kinds[each.kind === 'usual' ? say.usual : each.kind],
          { state: each.state },
        );
      })
      .sort((a, b) => (a.station ?? 0) - (b.station ?? 0)),
    foundAnchors: say.found.map((at, index) => make.foundAnchor(place(at), { name: `X${index}` })),
  });
  const shop = make.ruleSet('shop', [
    make.limit('gas-clear', 'at-least 6"'),
    make.limit('power-clear', 'at-least 12"'),
    make.limit('side-room', 'at-least 20"'),
  ]);
  return make.house({
    walls: [wall],
    connectors: Object.values(kinds),
    ruleSets: [shop, make.existingBuilding],
    storeys: say.storeys,
    units: say.units,
  });
}

const isError = (finding: Finding): boolean => finding.severity === 'error' || finding.severity === 'stop';
const place = (finding: Finding): string =>
  `${finding.rule} ${finding.thing} ${finding.piece} ${finding.station} ${/(left|right) end/.exec(finding.message)?.[1]}`;

function wallOf(layout: Layout): Wall {
  const [wall] = layout.walls;
  if (!wall) throw new Error('no wall');
  return wall;
}

describe('every fix', () => {
  it('takes its finding away, adds no error, moves nothing that is in the wall, and lands on a mark of the tape', () => {
    fc.assert(
      fc.property(scene, (say) => {
        const layout = built(say);
        const before = checkLayout(layout);
        const known = new Set(before.findings.filter(isError).map(place));
        for (const finding of before.findings) {
          for (const fix of finding.fixes) {
            expect(fix.trust).toBe(finding.rule === 'anchorage/old-anchor-overcounted' ? 'safe' : 'review');
            const after = checkLayout(withEdits(layout, fix.edits));
            const left = after.findings.filter(isError);
            expect(left.map(place)).not.toContain(place(finding));
            expect(left.length, fix.title).toBeLessThanOrEqual(
              before.findings.filter(isError).length - (isError(finding) ? 1 : 0),
            );
            // What is left was there before; a gap may be measured anew from an anchor that moved.
            for (const each of left) {
              if (!known.has(place(each)))
                expect(before.findings.map((other) => `${other.rule} ${other.piece}`)).toContain(
                  `${each.rule} ${each.piece}`,
                );
            }
            expect(after.notChecked.length).toBeLessThanOrEqual(before.notChecked.length);
            const step = layout.title.units === 'metric' ? NANOMETRES_PER_MILLIMETRE : NANOMETRES_PER_INCH / 16;
            for (const edit of fix.edits) {
              if (edit.kind === 'insert-anchor' || edit.kind === 'set-station') expect(edit.station % step).toBe(0);
              if (edit.kind === 'set-station' || edit.kind === 'set-connector') {
                const moved = wallOf(layout).anchors.find((anchor) => anchor.id === edit.anchor);
                expect(moved?.state).toBe('planned');
              }
              if (edit.kind === 'insert-anchor') {
                expect(wallOf(layout).anchors.map((anchor) => anchor.name)).not.toContain(edit.mark);
              }
            }
          }
        }
      }),
      { numRuns: 300 },
    );
  });
});

describe('on a sound board with one thing wrong', () => {
  /** Plates from 10-1/2 in to 10-1/2 in of the ends, at most 44 in apart; two storeys. */
  const board = fc.record({
    gaps: fc.array(fc.integer({ min: 30, max: 44 }), { minLength: 4, maxLength: 7 }),
    seed: fc.nat(),
  });
  const stationsOf = (gaps: readonly number[]): readonly Length[] => {
    const row: Length[] = [inches(10.5)];
    for (const gap of gaps) row.push(nanometres((row[row.length - 1] ?? zero) + inches(gap)));
    return row;
  };
  const mended = (wall: Wall, rule: string): void => {
    const layout = make.house({ walls: [wall], connectors: [make.plate()] });
    const findings = checkLayout(layout).findings.filter(isError);
    expect(findings.map((each) => each.rule)).toContain(rule);
    for (const finding of findings.filter((each) => each.rule === rule)) {
      expect(finding.fixes.length, finding.message).toBeGreaterThan(0);
      const [fix] = finding.fixes;
      const after = checkLayout(withEdits(layout, fix?.edits ?? []));
      expect(after.findings.filter(isError).length, fix?.title).toBeLessThan(findings.length);
    }
  };
  const rowOf = (gaps: readonly number[]) => {
    const stations = stationsOf(gaps);
    return { stations, long: nanometres((stations[stations.length - 1] ?? zero) + inches(10.5)) };
  };

  it('a missing anchor can be put in', () => {
    fc.assert(
      fc.property(board, ({ gaps, seed }) => {
        const { stations, long } = rowOf(gaps);
        const gone = 1 + (seed % (stations.length - 2));
        mended(make.boardWith(long, stations.toSpliced(gone, 1), make.plate()), 'anchorage/gap-too-wide');
      }),
      { numRuns: 60 },
    );
  });

  it('an end anchor too far in or too near can be moved, or one added', () => {
    fc.assert(
      fc.property(board, fc.integer({ min: 2, max: 20 }), ({ gaps }, by) => {
        const { stations, long } = rowOf(gaps);
        const [first, ...rest] = stations;
        if (first === undefined) throw new Error('no anchor');
        mended(make.boardWith(long, [nanometres(first + inches(by)), ...rest], make.plate()), 'anchorage/end-too-far');
        mended(
          make.boardWith(long, [nanometres(first - inches(Math.min(by, 10))), ...rest], make.plate()),
          'anchorage/end-too-near',
        );
      }),
      { numRuns: 60 },
    );
  });

  it('an anchor over an opening can be moved past it', () => {
    fc.assert(
      fc.property(
        board,
        fc.integer({ min: 6, max: 24 }),
        fc.integer({ min: 0, max: 100 }),
        ({ gaps, seed }, wide, share) => {
          const { stations, long } = rowOf(gaps);
          const hit = stations[1 + (seed % (stations.length - 2))] ?? zero;
          const from = nanometres(hit - Math.round((inches(wide) * share) / 100));
          const vent = make.obstruction('vent', from, nanometres(from + inches(wide)), { name: 'V1' });
          mended(make.boardWith(long, stations, make.plate(), { obstructions: [vent] }), 'clearance/no-concrete-here');
        },
      ),
      { numRuns: 60 },
    );
  });

  it('a bare board can be anchored whole, in the end windows and within the spacing', () => {
    fc.assert(
      fc.property(fc.integer({ min: 10, max: 400 }), (long) => {
        mended(make.boardWith(inches(long), [], make.plate()), 'load-path/wall-line-forgotten');
      }),
      { numRuns: 60 },
    );
  });
});
