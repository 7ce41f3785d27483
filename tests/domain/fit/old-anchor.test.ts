import { expect, it } from 'vitest';
import { clearIntervals } from '../../../language/domain/fit/clear-intervals.ts';
import type { Connector } from '../../../language/domain/hardware/connector.ts';
import type { FoundAnchor } from '../../../language/domain/model/layout.ts';
import type { Length } from '../../../language/domain/units/length.ts';
import { inches, zero } from '../../../language/domain/units/length.ts';
import * as make from '../../support/build-layout.ts';

const at = make.length;

function blocked(old: Partial<FoundAnchor>, connector: Connector): readonly (readonly [Length, Length])[] {
  const wall = make.wall({
    length: at(`20'-0"`),
    pieces: [make.piece(zero, at(`20'-0"`))],
    foundAnchors: [make.foundAnchor(at(`10'-0"`), { name: 'X1', ...old })],
  });
  const layout = make.house({ walls: [wall], connectors: [connector] });
  return clearIntervals({ layout, wall, piece: wall.pieces[0], connector })
    .blocked.filter(({ reason }) => reason === 'old-anchor')
    .map(({ from, to }) => [from, to] as const);
}

it('a new bolt keeps its washer off the nut of an old one: half of 3 in, and the 1/2 in that a 1/2 in nut reaches', () => {
  expect(blocked({ size: make.known(inches(0.5)) }, make.bolt())).toEqual([[at(`9'-10"`), at(`10'-2"`)]]);
});

it('an old anchor that nobody measured is taken for 5/8 in', () => {
  expect(blocked({ size: undefined }, make.bolt())).toEqual([[at(`9'-9 7/8"`), at(`10'-2 1/8"`)]]);
});

it("one that comes out is in nobody's way, and a plate on the face passes below each", () => {
  expect(blocked({ states: ['to-be-removed'] }, make.bolt())).toEqual([]);
  expect(blocked({}, make.plate())).toEqual([]);
});
