import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Layout, Wall } from '../../../language/domain/model/layout.ts';
import { noTags } from '../../../language/domain/model/layout.ts';
import { checkLayout } from '../../../language/domain/rules/check-layout.ts';
import { inches, nanometres, zero } from '../../../language/domain/units/length.ts';
import * as make from '../../support/build-layout.ts';

/** Results of a wall are kept while nothing that they rest on changes: checking after an edit must equal checking afresh. */

const connectors = [make.bolt(), make.plate()];
const long = inches(168);

function wallNamed(name: string, thick: number, stations: readonly number[]): Wall {
  return make.wall({
    name,
    length: long,
    pieces: [make.piece(zero, long, { name: `${name}1` })],
    foundation: [make.foundation(zero, long, { thick: make.level(inches(thick)) })],
    anchors: stations.map((station, index) =>
      make.newAnchor(`${name}-${index + 1}`, inches(station), connectors[1] ?? make.plate()),
    ),
  });
}

const edit = fc.oneof(
  fc.record({ kind: fc.constant('thick' as const), wall: fc.nat(3), value: fc.integer({ min: 6, max: 14 }) }),
  fc.record({
    kind: fc.constant('anchors' as const),
    wall: fc.nat(3),
    value: fc.array(fc.integer({ min: 0, max: 168 }), { maxLength: 6 }),
  }),
  fc.record({ kind: fc.constant('storeys' as const), value: fc.integer({ min: 1, max: 3 }) }),
  fc.record({
    kind: fc.constant('line' as const),
    wall: fc.nat(3),
    value: fc.constantFrom('anchorage' as const, undefined),
    storeys: fc.integer({ min: 1, max: 3 }),
  }),
  fc.record({ kind: fc.constant('spacing' as const), value: fc.integer({ min: 20, max: 72 }) }),
  fc.record({ kind: fc.constant('units' as const), value: fc.constantFrom('metric' as const, 'feet-inches' as const) }),
  fc.record({ kind: fc.constant('turn' as const), wall: fc.nat(3), value: fc.constantFrom(90, 45, -90) }),
);
type Edit = typeof edit extends fc.Arbitrary<infer Value> ? Value : never;

function edited(layout: Layout, change: Edit): Layout {
  const withWall = (index: number, make: (wall: Wall) => Wall): Layout => ({
    ...layout,
    walls: layout.walls.map((wall, at) => (at === index ? make(wall) : wall)),
  });
  switch (change.kind) {
    case 'thick':
      return withWall(change.wall, (wall) => ({
        ...wall,
        foundation: [make.foundation(zero, long, { thick: make.level(inches(change.value)) })],
      }));
    case 'anchors':
      return withWall(change.wall, (wall) => ({
        ...wall,
        anchors: wallNamed(
          wall.name,
          8,
          change.value.toSorted((a, b) => a - b),
        ).anchors,
      }));
    case 'storeys':
      return { ...layout, house: { ...layout.house, storeys: make.known(change.value) } };
    case 'line': {
      const wall = layout.walls[change.wall];
      const line = {
        id: `line:${wall?.name}`,
        name: `line ${wall?.name}`,
        source: make.somewhere(),
        tags: noTags,
        walls: [{ name: wall?.name ?? '', source: make.somewhere() }],
        storeys: make.known(change.storeys),
        exempt: change.value && { from: change.value, reason: 'porch' },
      };
      return { ...layout, lines: [line] };
    }
    case 'spacing': {
      const own = make.ruleSet('test', [
        ...make.existingBuilding.limits.filter((each) => each.subject !== 'anchor-spacing'),
        make.limit('anchor-spacing', `at-most ${change.value}"`),
      ]);
      return { ...layout, rules: { chosen: [own], limits: own.limits } };
    }
    case 'units':
      return { ...layout, title: { ...layout.title, units: change.value } };
    case 'turn':
      return withWall(change.wall, (wall) => ({ ...wall, turn: (change.value * 1_000_000) as Wall['turn'] }));
  }
}

const said = (layout: Layout) => {
  const { findings, notChecked } = checkLayout(layout);
  return {
    findings: findings.map((each) => `${each.severity} ${each.rule} ${each.wall} ${each.station} ${each.message}`),
    notChecked,
  };
};
/** The same layout in walls that nobody has seen before. */
const afresh = (layout: Layout): Layout => ({ ...layout, walls: layout.walls.map((wall) => ({ ...wall })) });

it('checking again after an edit says what checking afresh says', () => {
  const start = make.house({
    walls: ['A', 'B', 'C', 'D'].map((name) => wallNamed(name, 8, [12, 58, 104, 150])),
    connectors,
    ruleSets: [make.existingBuilding],
  });
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: 6 }), (edits) => {
      let layout = start;
      for (const each of edits) {
        layout = edited(layout, each);
        expect(said(layout)).toEqual(said(afresh(layout)));
      }
    }),
  );
});

it('a thicker neighbour is felt round the corner, where the last anchor of the wall stands', () => {
  const walls = ['A', 'B', 'C', 'D'].map((name) => wallNamed(name, 6, [nanometres(11), 56, 102, 157].map(Number)));
  const before = make.house({ walls, connectors });
  const after = edited(before, { kind: 'thick', wall: 1, value: 8 });
  const hits = (layout: Layout) =>
    checkLayout(layout)
      .findings.filter((each) => each.rule === 'clearance/plate-hits-thing')
      .map((each) => each.thing);
  expect(hits(before)).not.toContain('F/anchor:A-4');
  expect(hits(after)).toContain('F/anchor:A-4');
});
