import { describe, expect, it } from 'vitest';
import type { Wall } from '../../language/domain/model/layout.ts';
import { knownValue, profileAt } from '../../language/domain/model/reading.ts';
import { nanometres } from '../../language/domain/units/length.ts';
import { analyse } from '../support/analyse.ts';
import type { HouseFacts, WallFacts } from '../support/houses/facts.ts';
import { MILLIMETRE } from '../support/houses/facts.ts';
import { houseOf } from '../support/houses/house.ts';
import { manyHouses, patience } from '../support/houses/many-houses.ts';
import { readLayout } from '../support/read-layout.ts';

describe('a random house', () => {
  it('is the same for the same seed, and another for another', () => {
    expect(houseOf(7, { design: true })).toEqual(houseOf(7, { design: true }));
    expect(houseOf(7).text).not.toBe(houseOf(8).text);
  });

  it(
    'is legal when it is designed: no finding is an error or a stop',
    () => {
      for (const { text, facts } of manyHouses(150, 5_000, { design: true })) {
        const grave = analyse(text).findings.filter(({ severity }) => severity === 'error' || severity === 'stop');
        expect({ seed: facts.seed, grave: grave.map(({ rule, message }) => `${rule}: ${message}`) }).toEqual({
          seed: facts.seed,
          grave: [],
        });
      }
    },
    patience,
  );

  it(
    'is read without a problem, as it was built',
    () => {
      for (const { text, facts } of manyHouses(200, 5_000)) {
        const { layout, problems } = readLayout(text);
        expect({ seed: facts.seed, problems: problems.map(({ message }) => message) }).toEqual({
          seed: facts.seed,
          problems: [],
        });
        const perimeter = layout.walls.filter((wall) => wall.role === 'perimeter');
        expect({ seed: facts.seed, walls: perimeter.map(asRead) }).toEqual({
          seed: facts.seed,
          walls: facts.walls.map(asBuilt),
        });
        expect(outlineError(perimeter, facts)).toBeLessThanOrEqual(MILLIMETRE / 1000);
      }
    },
    patience,
  );

  it('comes in every form', () => {
    const text = Array.from({ length: 200 }, (_, seed) => houseOf(seed, { design: true }).text).join('\n');
    const forms = [
      ...['half-lap', 'scarf', 'step', 'corner', 'gap', 'double', 'cripple', 'trimmers every-opening', 'turn left'],
      ...['turn 45°', 'turn -45°', 'interior', 'from right', 'units metric', 'face inside', 'adjusted', 'unknown'],
      ...[
        'assume',
        'told',
        'scaled',
        'vent',
        'window',
        'door',
        'hatch',
        'chimney',
        'pipe',
        'gas-pipe',
        'stack',
        'conduit',
      ],
      ...[
        'duct',
        'flue',
        'electrical-panel',
        'meter',
        'water-heater',
        'furnace',
        'stair',
        'obstruction',
        'rot',
        'crack',
      ],
      ...['joists into', 'joists parallel', 'girder', 'space', 'line', 'typical', 'panel', 'angles', 'record', 'issue'],
      ...['bolt-half', 'flat-plate', 'stepped-plate-s', 'stepped-plate-l', ' mm', ' cm', "'-", '″'],
    ];
    expect(forms.filter((form) => !text.includes(form))).toEqual([]);
  });
});

function asBuilt(wall: WallFacts): unknown {
  return {
    name: wall.name,
    length: wall.length,
    adjusted: wall.adjusted,
    pieces: wall.pieces.map(({ name, from, to, setBack, headroom, joint }) => ({
      name,
      from,
      to,
      setBack,
      headroom,
      joint: joint === 'hole' ? 'none' : joint,
    })),
    tops: wall.runs.map(({ from, to, top, grade }) => ({ from, to, top, grade })),
    obstructions: wall.obstructions.map(({ kind, name, from, to, off }) => ({ kind, name, from, to, off })),
    defects: wall.defects.map(({ kind, from, to }) => ({ kind, from, to })),
    foundAnchors: wall.foundAnchors,
    anchors: wall.anchors.map(({ mark, connector, station }) => ({ mark, connector, station })),
    panels: wall.panels,
  };
}

function asRead(wall: Wall): unknown {
  const at = (profile: Parameters<typeof profileAt>[0] | undefined, station: number): number | undefined =>
    profile && knownValue(profileAt(profile, nanometres(station)));
  let unnamed = 0;
  return {
    name: wall.name,
    length: wall.length,
    adjusted: knownValue(wall.adjusted) ?? wall.length,
    pieces: wall.pieces.map((piece) => {
      const isUnnamed = piece.name === `${wall.name}(${unnamed + 1})`;
      unnamed += isUnnamed ? 1 : 0;
      const { from, to, joint } = piece;
      return {
        name: isUnnamed ? undefined : piece.name,
        from,
        to,
        setBack: [at(piece.setBack, from), at(piece.setBack, to)],
        headroom: [at(piece.headroom, from), at(piece.headroom, to)],
        joint,
      };
    }),
    tops: wall.foundation.map(({ from, to, top, grade }) => ({
      from,
      to,
      top: [at(top, from), at(top, to)],
      grade: at(grade, from),
    })),
    obstructions: wall.obstructions.map(({ kind, name, stretch, off }) => ({
      kind,
      name,
      from: stretch?.from,
      to: stretch?.to,
      off: knownValue(off),
    })),
    defects: wall.defects.map(({ kind, stretch }) => ({ kind, from: stretch?.from, to: stretch?.to })),
    foundAnchors: wall.foundAnchors.map(({ name, station, size }) => ({ name, station, size: knownValue(size) })),
    anchors: wall.anchors.map(({ name, connectorName, station }) => ({
      mark: name,
      connector: connectorName,
      station,
    })),
    panels: wall.panels.map(({ name, stretch }) => ({ mark: name, from: stretch?.from, to: stretch?.to })),
  };
}

/** The greatest distance between a corner as built and as read, in nanometres. */
function outlineError(walls: readonly Wall[], facts: HouseFacts): number {
  return Math.max(
    ...facts.vertices.map(({ x, y }, index) => {
      const from = walls[index]?.plan?.from;
      return from ? Math.max(Math.abs(from.x - x), Math.abs(from.y - y)) : Number.POSITIVE_INFINITY;
    }),
  );
}
