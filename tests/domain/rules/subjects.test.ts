import { beforeEach, describe, expect, it, vi } from 'vitest';

const asked = vi.hoisted(() => new Set<string>());
vi.mock('../../../language/domain/rulesets/limit-for.ts', async (original) => {
  const real = await original<typeof import('../../../language/domain/rulesets/limit-for.ts')>();
  return {
    ...real,
    limitFor: (...call: Parameters<typeof real.limitFor>) => {
      asked.add(call[1]);
      return real.limitFor(...call);
    },
  };
});

import { fitSubjects } from '../../../language/domain/fit/footprint.ts';
import { rules } from '../../../language/domain/rules/registry.ts';
import { nothingHeard, runRule } from '../../../language/domain/rules/run-rule.ts';
import { inches, zero } from '../../../language/domain/units/length.ts';
import * as make from '../../support/build-layout.ts';

const askedByAny = new Set<string>();
const nothing = { openQuestions: [], crashes: [], acceptances: [] };

describe.each(rules.map((rule) => [rule.id, rule] as const))('%s', (_id, rule) => {
  beforeEach(() => asked.clear());

  it('reads no limit on a subject that it does not declare', () => {
    for (const stations of [[], [3, 20, 90], [11, 60, 100, 145, 189]]) {
      for (const long of [20, 50, 100, 200]) {
        const plate = make.plate('plate', { fits: [make.fits('set-back', inches(2), inches(3))] });
        const wall = make.boardWith(inches(long), stations.filter((each) => each < long).map(inches), plate, {
          obstructions: [
            make.obstruction('vent', inches(50), inches(62)),
            make.obstruction('gas-pipe', inches(95), inches(96)),
          ],
          defects: [make.defect('rot', inches(120), inches(130))],
          foundation: [make.foundation(zero, inches(long), { material: long === 50 ? 'brick' : 'concrete' })],
        });
        const layout = make.house({ walls: [wall] });
        const [piece] = wall.pieces;
        const [stretch] = wall.foundation;
        const subjects = {
          house: [{ layout }],
          wall: [{ wall }],
          piece: piece ? [{ wall, piece }] : [],
          foundation: stretch ? [{ wall, stretch }] : [],
          anchor: wall.anchors.map((anchor) => ({ wall, anchor, connector: plate })),
        };
        for (const subject of subjects[rule.on]) {
          const site = {
            subject,
            wall,
            piece,
            id: 'x',
            source: wall.source,
            station: undefined,
            layer: 'survey' as const,
          };
          const heard = nothingHeard();
          runRule(rule, layout, [site], nothing, heard);
          expect(heard.crashes).toEqual([]);
        }
      }
    }
    // Where a connector fits is asked in one place for all reasons at once; a rule declares those that it speaks of.
    const declared = new Set([...Object.keys(rule.subjects), ...Object.keys(fitSubjects)]);
    expect([...asked].filter((subject) => !declared.has(subject))).toEqual([]);
    for (const subject of asked) askedByAny.add(subject);
  });
});

it('hears what the rules ask for', () => {
  expect([...askedByAny]).toEqual(expect.arrayContaining(['end-distance', 'anchor-spacing', 'side-room']));
});
