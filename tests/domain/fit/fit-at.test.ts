import { describe, expect, it } from 'vitest';
import { clearIntervals, fitAt } from '../../../language/domain/fit/clear-intervals.ts';
import type { FitCase } from '../../../language/domain/fit/fit-case.ts';
import type { Connector } from '../../../language/domain/hardware/connector.ts';
import type { Wall } from '../../../language/domain/model/layout.ts';
import { degrees } from '../../../language/domain/model/layout.ts';
import type { RuleSet } from '../../../language/domain/rulesets/rule-set.ts';
import type { Length } from '../../../language/domain/units/length.ts';
import { inches, nanometres, zero } from '../../../language/domain/units/length.ts';
import * as make from '../../support/build-layout.ts';

const at = make.length;

function caseOn(
  wall: Wall,
  connector: Connector,
  ruleSets: readonly RuleSet[] = [],
  others: readonly Wall[] = [],
): FitCase {
  const layout = make.house({ walls: [wall, ...others], connectors: [connector], ruleSets });
  return { layout, wall, piece: wall.pieces[0], connector };
}
const board = (say: Partial<Omit<Wall, 'length' | 'pieces'>> = {}): Wall =>
  make.wall({ length: at(`20'-0"`), pieces: [make.piece(zero, at(`20'-0"`))], ...say });
const reasonsAt = (fitCase: FitCase, station: string): readonly string[] =>
  fitAt(fitCase, at(station)).blocked.map((each) => each.reason);
const edges = (fitCase: FitCase, reason: string): readonly (readonly [Length, Length])[] =>
  clearIntervals(fitCase)
    .blocked.filter((each) => each.reason === reason)
    .map((each) => [each.from, each.to] as const);

describe('an opening in the foundation', () => {
  const vent = make.obstruction('vent', at(`5'-0"`), at(`6'-4"`), { name: 'V4' });

  it('rules a plate out as far as its holes keep their edge distance: 2 in of offset and 3 in of concrete', () => {
    const fitCase = caseOn(board({ obstructions: [vent] }), make.plate());
    expect(edges(fitCase, 'no-concrete')).toEqual([[at(`4'-7"`), at(`6'-9"`)]]);
    expect(fitAt(fitCase, at(`4'-7"`)).blocked).toEqual([]);
    expect(fitAt(fitCase, nanometres(at(`4'-7"`) + 1)).blocked.map((each) => each.words)).toEqual([
      `vent V4 5'-0" to 6'-4"`,
    ]);
  });

  it('rules a bolt out by the edge distance of its hole', () => {
    expect(edges(caseOn(board({ obstructions: [vent] }), make.bolt()), 'no-concrete')).toEqual([
      [at(`4'-10 1/4"`), at(`6'-5 3/4"`)],
    ]);
  });

  it('takes the edge distance of the rule set where the connector gives none', () => {
    const connector = make.bolt('b', inches(0.5), { fasteners: [make.intoConcrete(1, inches(0.5), {})] });
    const shop = make.ruleSet('shop', [make.limit('opening-edge', 'at-least 2"')]);
    expect(edges(caseOn(board({ obstructions: [vent] }), connector, [shop]), 'no-concrete')).toEqual([
      [at(`4'-10"`), at(`6'-6"`)],
    ]);
  });

  it('leaves alone what it does not reach: a vent in the wall above the sill, a vent far below the hole', () => {
    const above = make.obstruction('vent', at(`5'-0"`), at(`6'-4"`), {
      zone: make.zone(inches(6), inches(14), 'above', 'top'),
    });
    const below = make.obstruction('vent', at(`5'-0"`), at(`6'-4"`), {
      zone: make.zone(inches(12), inches(20), 'below', 'top'),
    });
    expect(edges(caseOn(board({ obstructions: [above] }), make.plate()), 'no-concrete')).toEqual([]);
    expect(edges(caseOn(board({ obstructions: [above, below] }), make.bolt()), 'no-concrete')).toEqual([]);
  });

  it('keeps a plate off where its body would cross it, though its holes do not come near', () => {
    const low = make.obstruction('vent', at(`5'-0"`), at(`6'-4"`), {
      zone: make.zone(inches(6), inches(14), 'below', 'top'),
    });
    const connector = make.plate('p', {
      holes: [{ member: 'concrete', points: [{ x: zero, y: inches(2) }] }],
      fasteners: [make.intoConcrete(1, inches(0.5), { edge: inches(3) })],
    });
    const fitCase = caseOn(board({ obstructions: [low] }), connector);
    expect(edges(fitCase, 'no-concrete')).toEqual([]);
    expect(edges(fitCase, 'thing')).toEqual([[at(`4'-8"`), at(`6'-8"`)]]);
  });

  it('without a legible place makes the whole board uncertain, not clear', () => {
    const lost = { ...make.obstruction('vent', zero, zero, { name: 'V9' }), stretch: undefined };
    const fitCase = caseOn(board({ obstructions: [lost] }), make.plate());
    expect(clearIntervals(fitCase).sure).toEqual([]);
    expect(clearIntervals(fitCase).lacking.map((each) => each.wants)).toContain('place of vent V9 on wall F');
  });
});

describe('a thing in front of the wall', () => {
  const shop = make.ruleSet('shop', [make.limit('side-room', 'at-least 20"')]);
  const pipe = (say: Parameters<typeof make.obstruction>[3]) =>
    make.obstruction('pipe', at(`5'-0"`), at(`5'-3"`), { name: 'P', ...say });

  it('is in the way of the plate itself when it stands nearer than the plate is thick', () => {
    const near = caseOn(board({ obstructions: [pipe({ off: make.known(inches(0.25)) })] }), make.plate(), [shop]);
    expect(edges(near, 'thing')).toEqual([[at(`4'-8"`), at(`5'-7"`)]]);
  });

  it('is in the way of the drill when it stands further off, and not at all beyond the room to drill', () => {
    const off = (distance: Length) =>
      caseOn(board({ obstructions: [pipe({ off: make.known(distance) })] }), make.plate(), [shop]);
    expect(reasonsAt(off(inches(0.3125)), `5'-0"`)).toEqual(['side-room']);
    expect(reasonsAt(off(inches(19.9375)), `5'-0"`)).toEqual(['side-room']);
    expect(reasonsAt(off(inches(20)), `5'-0"`)).toEqual([]);
  });

  it('passes below or above the plate where its zone says so', () => {
    const zoned = (near: number, far: number, side: 'above' | 'below', datum: 'top' | 'joists' | 'soil') =>
      caseOn(
        board({ obstructions: [pipe({ zone: make.zone(inches(near), inches(far), side, datum) })] }),
        make.plate(),
        [shop],
      );
    // The plate reaches from 1-5/8 in above the concrete to 7-3/8 in below it.
    expect(reasonsAt(zoned(7.375, 12, 'below', 'top'), `5'-0"`)).toEqual([]);
    expect(reasonsAt(zoned(7.25, 12, 'below', 'top'), `5'-0"`)).toEqual(['thing']);
    expect(reasonsAt(zoned(1.625, 12, 'above', 'top'), `5'-0"`)).toEqual([]);
    // 18 in of concrete show: 10-5/8 in above the soil is 7-3/8 in below the top.
    expect(reasonsAt(zoned(0, 10.625, 'above', 'soil'), `5'-0"`)).toEqual([]);
    expect(reasonsAt(zoned(0, 10.6875, 'above', 'soil'), `5'-0"`)).toEqual(['thing']);
    // Without a cripple wall the joists sit on the sill, 1-5/8 in above the concrete.
    expect(reasonsAt(zoned(9, 14, 'below', 'joists'), `5'-0"`)).toEqual([]);
    expect(reasonsAt(zoned(8.9375, 14, 'below', 'joists'), `5'-0"`)).toEqual(['thing']);
  });

  it('reads joists from the top of the cripple wall where there is one', () => {
    const wall = board({
      cripples: [make.cripple(zero, at(`20'-0"`))],
      obstructions: [pipe({ zone: make.zone(inches(28), inches(40), 'below', 'joists') })],
    });
    expect(reasonsAt(caseOn(wall, make.plate(), [shop]), `5'-0"`)).toEqual(['thing']);
  });

  it('takes a single height as the middle of a pipe of known size', () => {
    const gas = make.obstruction('gas-pipe', at(`5'-0"`), at(`9'-0"`), {
      diameter: make.known(inches(0.75)),
      zone: make.zone(inches(14), undefined, 'below', 'top'),
    });
    const clear6 = make.ruleSet('shop', [make.limit('gas-clear', 'at-least 6"')]);
    const clear7 = make.ruleSet('shop', [make.limit('gas-clear', 'at-least 7"')]);
    // Its top is 13-5/8 in down; the plate ends 7-3/8 in down: 6-1/4 in between.
    expect(reasonsAt(caseOn(board({ obstructions: [gas] }), make.plate(), [clear6]), `7'-0"`)).toEqual([]);
    expect(reasonsAt(caseOn(board({ obstructions: [gas] }), make.plate(), [clear7]), `7'-0"`)).toEqual(['gas']);
  });

  it('cannot be told where nobody measured how far off it stands', () => {
    const fitCase = caseOn(board({ obstructions: [pipe({ off: make.unknown() })] }), make.plate(), [shop]);
    expect(fitAt(fitCase, at(`5'-0"`)).blocked).toEqual([]);
    expect(fitAt(fitCase, at(`5'-0"`)).lacking.map((each) => each.wants)).toEqual([
      `how far pipe P 5'-0" to 5'-3" stands off the wall`,
    ]);
  });

  it('well off the wall does not hinder drilling from above; at the wall it does', () => {
    const off = (distance: number) =>
      caseOn(board({ obstructions: [pipe({ off: make.known(inches(distance)) })] }), make.bolt(), [shop]);
    expect(reasonsAt(off(6), `5'-0"`)).toEqual([]);
    expect(reasonsAt(off(0), `5'-0"`)).toEqual(['thing']);
  });
});

describe('gas and power', () => {
  const shop = make.ruleSet('shop', [
    make.limit('gas-clear', 'at-least 6"'),
    make.limit('power-clear', 'at-least 12"'),
  ]);

  it('keep every hole of a plate away, at its own offset', () => {
    const riser = make.obstruction('gas-pipe', at(`5'-0"`), at(`5'-0 3/4"`), { name: 'GR' });
    const fitCase = caseOn(board({ obstructions: [riser] }), make.plate(), [shop]);
    expect(edges(fitCase, 'gas')).toEqual([[at(`4'-4"`), at(`5'-8 3/4"`)]]);
    expect(clearIntervals(fitCase).blocked.find((each) => each.reason === 'gas')?.service).toBe('gas');
  });

  it('a panel and a conduit keep 12 in, a meter of unknown kind both', () => {
    const things = [
      make.obstruction('electrical-panel', at(`5'-0"`), at(`6'-3"`)),
      make.obstruction('meter', at(`12'-0"`), at(`13'-0"`)),
    ];
    const fitCase = caseOn(board({ obstructions: things }), make.bolt(), [shop]);
    expect(edges(fitCase, 'power')).toEqual([
      [at(`4'-0"`), at(`7'-3"`)],
      [at(`11'-0"`), at(`14'-0"`)],
    ]);
    expect(edges(fitCase, 'gas')).toEqual([[at(`11'-6"`), at(`13'-6"`)]]);
  });
});

describe('the board itself', () => {
  it('carries the whole body: nothing straddles a joint', () => {
    const fitCase = caseOn(board(), make.plate());
    expect(clearIntervals(fitCase).clear).toEqual([{ from: inches(4), to: at(`19'-8"`) }]);
  });

  it('rules a plate out where the set-back leaves its range, where the rounded reading does', () => {
    const wall = make.wall({
      length: at(`20'-0"`),
      pieces: [make.piece(zero, at(`20'-0"`), { setBack: make.through([zero, inches(0)], [at(`20'-0"`), inches(2)]) })],
    });
    // 1/2 in at 5 ft, 1-1/2 in at 15 ft; 1 in 120, so half a nanometre of reading is 60 of station.
    const [stretch, ...others] = clearIntervals(caseOn(wall, make.plate())).clear;
    expect(others).toEqual([]);
    expect(at(`5'-0"`) - (stretch?.from ?? 0)).toBe(60);
    expect((stretch?.to ?? 0) - at(`15'-0"`)).toBe(59);
  });

  it('takes a shim off the set-back', () => {
    const wall = make.wall({
      length: at(`20'-0"`),
      pieces: [make.piece(zero, at(`20'-0"`), { setBack: make.level(inches(1.625)) })],
    });
    const plain = caseOn(wall, make.plate());
    expect(reasonsAt(plain, `5'-0"`)).toEqual(['set-back']);
    expect(reasonsAt({ ...plain, shim: make.known(inches(0.125)) }, `5'-0"`)).toEqual([]);
    expect(fitAt({ ...plain, shim: make.unknown() }, at(`5'-0"`)).lacking.map((each) => each.wants)).toEqual([
      'thickness of the shim on sill F1',
    ]);
  });

  it('says which reading is missing, along the part that it is missing for', () => {
    const wall = make.wall({
      length: at(`20'-0"`),
      pieces: [
        make.piece(zero, at(`20'-0"`), {
          setBack: make.through([zero, inches(1)], [at(`10'-0"`), inches(1)], [at(`20'-0"`), 'unknown']),
        }),
      ],
    });
    const fitCase = caseOn(wall, make.plate());
    expect(clearIntervals(fitCase).sure).toEqual([{ from: inches(4), to: at(`10'-0"`) }]);
    expect(fitAt(fitCase, at(`12'-0"`)).lacking.map((each) => each.wants)).toEqual(['set-back of sill F1']);
  });

  it('wants headroom for a straight drill, less for a right-angle one', () => {
    const shop = make.ruleSet('shop', [
      make.limit('headroom-bolt', 'at-least 24"', ['drill straight']),
      make.limit('headroom-bolt', 'at-least 12"', ['drill right-angle']),
    ]);
    const wall = (headroom: number) =>
      make.wall({
        length: at(`20'-0"`),
        pieces: [make.piece(zero, at(`20'-0"`), { headroom: make.level(inches(headroom)) })],
      });
    expect(reasonsAt(caseOn(wall(23.9375), make.bolt(), [shop]), `5'-0"`)).toEqual(['headroom']);
    expect(reasonsAt(caseOn(wall(24), make.bolt(), [shop]), `5'-0"`)).toEqual([]);
    expect(reasonsAt({ ...caseOn(wall(12), make.bolt(), [shop]), rightAngleDrill: true }, `5'-0"`)).toEqual([]);
    expect(reasonsAt({ ...caseOn(wall(11.9375), make.bolt(), [shop]), rightAngleDrill: true }, `5'-0"`)).toEqual([
      'headroom',
    ]);
  });
});

describe('studs', () => {
  it('keep a bolt half a stud and half a washer from their centres: 2-5/16 in for a full-size stud', () => {
    const fitCase = caseOn(board({ cripples: [make.cripple(zero, at(`20'-0"`))] }), make.bolt());
    expect(edges(fitCase, 'stud')).toContainEqual([at(`1'-1 11/16"`), at(`1'-6 5/16"`)]);
    expect(edges(caseOn(board({ cripples: [make.cripple(zero, at(`20'-0"`))] }), make.plate()), 'stud')).toEqual([]);
  });

  it('are cut in an opening, with one outside each jamb where trimmers stand at every opening', () => {
    const vent = make.obstruction('vent', at(`5'-0"`), at(`6'-4"`));
    const wall = board({ cripples: [make.cripple(zero, at(`20'-0"`))], obstructions: [vent] });
    const stations = edges(caseOn(wall, make.bolt()), 'stud').map(([from, to]) => (from + to) / 2);
    expect(stations).not.toContain(at(`5'-4"`));
    expect(stations).toContain(at(`4'-11 3/16"`));
    expect(stations).toContain(at(`6'-4 13/16"`));
  });

  it('at openings cannot be told where nobody knows of trimmers', () => {
    const vent = make.obstruction('vent', at(`5'-0"`), at(`6'-4"`));
    const wall = board({ cripples: [make.cripple(zero, at(`20'-0"`), { trimmers: 'unknown' })], obstructions: [vent] });
    expect(fitAt(caseOn(wall, make.bolt()), at(`4'-9"`)).lacking.map((each) => each.wants)).toEqual([
      'studs at the openings of the cripple wall on wall F',
    ]);
  });

  it('fall in with the row of the wall in a stretch that starts further right', () => {
    const wall = board({ cripples: [make.cripple(at(`10'-1"`), at(`20'-0"`))] });
    expect(edges(caseOn(wall, make.bolt()), 'stud')[0]).toEqual([at(`10'-5 11/16"`), at(`10'-10 5/16"`)]);
  });
});

describe('the concrete', () => {
  it('must show deep enough under the whole plate', () => {
    const wall = board({
      foundation: [
        make.foundation(zero, at(`10'-0"`), { showing: make.level(inches(8.9375)) }),
        make.foundation(at(`10'-0"`), at(`20'-0"`), { showing: make.level(inches(9)) }),
      ],
    });
    expect(clearIntervals(caseOn(wall, make.plate())).clear).toEqual([{ from: at(`10'-4"`), to: at(`19'-8"`) }]);
  });

  it('that is no concrete takes no anchor', () => {
    const wall = board({ foundation: [make.foundation(zero, at(`20'-0"`), { material: 'brick' })] });
    expect(reasonsAt(caseOn(wall, make.bolt()), `5'-0"`)).toEqual(['masonry']);
  });

  it('at a step wants edge distance on the high side and room on the low side', () => {
    const wall = board({
      foundation: [
        make.foundation(zero, at(`10'-0"`)),
        make.foundation(at(`10'-0"`), at(`20'-0"`), { top: make.level(inches(-14)) }),
      ],
    });
    expect(edges(caseOn(wall, make.plate()), 'step')).toEqual([[at(`9'-7"`), at(`10'-4"`)]]);
  });

  it('that nobody measured is not clear', () => {
    const wall = board({ foundation: [make.foundation(zero, at(`20'-0"`), { showing: undefined })] });
    expect(clearIntervals(caseOn(wall, make.plate())).sure).toEqual([]);
    expect(fitAt(caseOn(wall, make.plate()), at(`5'-0"`)).lacking.map((each) => each.wants)).toEqual([
      `concrete showing on wall F, 0'-0" to 20'-0"`,
    ]);
  });
});

describe('the neighbour at a corner', () => {
  const named = (name: string, thick: Length | 'unknown', turn: number): Wall =>
    make.wall({
      name,
      length: at(`20'-0"`),
      turn: degrees(turn),
      pieces: [make.piece(zero, at(`20'-0"`), { name: `${name}1` })],
      foundation: [make.foundation(zero, at(`20'-0"`), { thick: make.level(thick) })],
    });
  const clearOn = (first: Wall, second: Wall) => clearIntervals(caseOn(first, make.plate(), [], [second]));

  it('is as thick as its foundation where the stations are read outside', () => {
    const { clear, blocked } = clearOn(named('A', inches(8), 90), named('B', inches(6.25), 90));
    expect(clear).toEqual([{ from: inches(4), to: nanometres(at(`20'-0"`) - inches(10.25)) }]);
    expect(blocked.find((each) => each.reason === 'neighbour')?.words).toBe(
      'the concrete of wall B, 6-1/4" at the corner',
    );
  });

  it('is nowhere where the walls turn away from each other, or stations are read inside', () => {
    expect(clearOn(named('A', inches(8), 90), named('B', inches(6), -90)).clear).toEqual([
      { from: inches(4), to: at(`19'-8"`) },
    ]);
    expect(clearOn({ ...named('A', inches(8), 90), face: 'inside' }, named('B', inches(6), 90)).clear).toEqual([
      { from: inches(4), to: at(`19'-8"`) },
    ]);
  });

  it('reaches less far at a blunt corner and further at a sharp one', () => {
    // Where lines 8 in inside both outer faces cross: 8 tan 22.5° = 3.314 in at an inside angle of 135°, 8 / tan 22.5° = 19.314 in at one of 45°.
    for (const [turn, depth] of [
      [45, 8 * Math.tan(Math.PI / 8)],
      [135, 8 / Math.tan(Math.PI / 8)],
    ] as const) {
      const { clear } = clearOn(named('A', inches(8), 90), named('B', inches(8), turn));
      const end = at(`20'-0"`) - (clear[0]?.to ?? 0);
      expect(end).toBeGreaterThanOrEqual(inches(depth + 4));
      expect(end).toBeLessThan(inches(depth + 4.0001));
    }
  });

  it('of unknown thickness leaves the last foot uncertain', () => {
    const { sure, lacking } = clearOn(named('A', inches(8), 90), named('B', 'unknown', 90));
    expect(sure).toEqual([{ from: inches(4), to: at(`18'-8"`) }]);
    expect(lacking.map((each) => each.wants)).toEqual(['thickness of the foundation at the left end of wall B']);
  });

  it('does not hinder a bolt', () => {
    const first = named('A', inches(8), 90);
    expect(edges(caseOn(first, make.bolt(), [], [named('B', inches(6), 90)]), 'neighbour')).toEqual([]);
  });
});

describe('defects', () => {
  it('keep an anchor away as far as the rule set says', () => {
    const shop = make.ruleSet('shop', [make.limit('rot-clear', 'at-least 12"')]);
    const wall = board({ defects: [make.defect('rot', at(`5'-0"`), at(`6'-0"`))] });
    expect(edges(caseOn(wall, make.bolt(), [shop]), 'defect')).toEqual([[at(`3'-10 1/2"`), at(`7'-1 1/2"`)]]);
    expect(edges(caseOn(wall, make.bolt()), 'defect')).toEqual([[at(`4'-10 1/2"`), at(`6'-1 1/2"`)]]);
  });
});
