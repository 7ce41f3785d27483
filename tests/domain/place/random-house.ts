import * as fc from 'fast-check';
import type { Layout, NewAnchor, Wall } from '../../../language/domain/model/layout.ts';
import { inches, type Length, NANOMETRES_PER_INCH, nanometres, zero } from '../../../language/domain/units/length.ts';
import * as make from '../../support/build-layout.ts';

/** Houses of one wall as they come: boards that butt or overlap, things in the way, anchors set, proposed, in or failed. */
const quarter = (count: number): Length => nanometres((count * NANOMETRES_PER_INCH) / 4);
const share = fc.integer({ min: 0, max: 1000 }).map((each) => each / 1000);

export const scene = fc.record({
  boards: fc.array(fc.integer({ min: 60, max: 900 }), { minLength: 1, maxLength: 3 }),
  lap: fc.constantFrom(0, 0, 16, -40),
  anchors: fc.array(
    fc.record({
      after: fc.oneof(fc.integer({ min: 48, max: 600 }), fc.constantFrom(160, 192)),
      kind: fc.constantFrom('plate' as const, 'bolt' as const, 'flat' as const),
      state: fc.constantFrom<NewAnchor['state']>('planned', 'planned', 'planned', 'installed', 'omitted', 'failed'),
      proposed: fc.boolean(),
    }),
    { maxLength: 5 },
  ),
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
  rot: fc.option(share, { nil: undefined }),
  setBack: fc.constantFrom(0, 3, 3, 8, 'unknown' as const),
  headroom: fc.constantFrom(40, 60, 100, 'unknown' as const),
  studs: fc.boolean(),
  storeys: fc.constantFrom(1, 2, 3),
  units: fc.constantFrom('feet-inches' as const, 'metric' as const),
});
export type Scene = typeof scene extends fc.Arbitrary<infer Value> ? Value : never;

export function built(say: Scene): Layout {
  let reached = 0;
  const pieces = say.boards.map((long, index) => {
    const from = Math.max(0, index === 0 ? 0 : reached - say.lap);
    reached = from + long;
    return make.piece(quarter(from), quarter(reached), {
      name: `F${index + 1}`,
      id: `F/sill:F${index + 1}`,
      setBack: make.level(say.setBack === 'unknown' ? 'unknown' : quarter(say.setBack)),
      headroom: make.level(say.headroom === 'unknown' ? 'unknown' : quarter(say.headroom)),
    });
  });
  const total = quarter(reached);
  const place = (of: number): Length => quarter(Math.round(of * reached));
  const kinds = {
    bolt: make.bolt(),
    plate: make.plate(),
    flat: make.plate('flat', { kind: 'side-plate', fits: [make.fits('set-back', zero, inches(0.125))] }),
  };
  let at = 0;
  const wall = make.wall({
    length: total,
    pieces,
    cripples: say.studs ? [make.cripple(zero, total)] : [],
    obstructions: say.things.map((each, index) =>
      make.obstruction(each.kind, place(each.at), nanometres(place(each.at) + quarter(each.wide)), {
        name: `T${index}`,
      }),
    ),
    defects: say.rot === undefined ? [] : [make.defect('rot', place(say.rot), nanometres(place(say.rot) + inches(6)))],
    anchors: say.anchors
      .map((each, index) => {
        at = (at + each.after) % reached;
        return make.newAnchor(`F-${index + 1}`, quarter(at), kinds[each.kind], {
          state: each.state,
          proposed: each.proposed,
        });
      })
      .sort((a, b) => (a.station ?? 0) - (b.station ?? 0)),
  });
  const shop = make.ruleSet('shop', [
    make.limit('gas-clear', 'at-least 6"'),
    make.limit('power-clear', 'at-least 12"'),
    make.limit('side-room', 'at-least 20"'),
    make.limit('rot-clear', 'at-least 12"'),
    make.limit('headroom-bolt', 'at-least 12"', ['drill right-angle']),
  ]);
  return make.house({
    walls: [wall],
    connectors: Object.values(kinds),
    ruleSets: [shop, make.existingBuilding],
    storeys: say.storeys,
    units: say.units,
  });
}

export function wallOf(layout: Layout): Wall {
  const [wall] = layout.walls;
  if (!wall) throw new Error('no wall');
  return wall;
}
