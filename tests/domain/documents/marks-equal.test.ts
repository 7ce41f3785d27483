import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { SaxesParser } from 'saxes';
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../../language/analysis.ts';
import { writeSchedule } from '../../../language/domain/documents/write-schedule.ts';
import { drawElevation } from '../../../language/domain/drawing/elevation.ts';
import { drawPlan } from '../../../language/domain/drawing/plan.ts';
import { sceneToSvg } from '../../../language/domain/drawing/svg.ts';
import { formatExactStation } from '../../../language/domain/units/format-length.ts';
import { inches, plus } from '../../../language/domain/units/length.ts';
import { analyse } from '../../support/analyse.ts';
import { manyHouses, patience } from '../../support/houses/many-houses.ts';
import { MAIN } from '../../support/memory-host.ts';

/** Marks and stations as a person reads them on paper: from the bytes of the drawing and of the schedule, not from the model. */

const example = (name: string): string =>
  readFileSync(join(import.meta.dirname, '..', '..', '..', 'examples', name), 'utf8');

interface Station {
  readonly text: string;
}
interface Row {
  readonly mark: string;
  readonly wall: string;
  readonly station: Station | null;
}
interface Written {
  readonly rows: readonly Row[];
  readonly ties: readonly Row[];
  readonly panels: readonly { readonly mark: string; readonly wall: string; readonly length: Station | null }[];
  readonly angles: readonly Row[];
}

function expectEqualMarks(analysis: Analysis): number {
  const { layout, checked, basis } = analysis;
  const written: Written = JSON.parse(writeSchedule(layout, checked, () => undefined, { form: 'json' }));
  const girders = new Set(layout.girders.map(({ name }) => name));
  const onWalls = [...written.rows, ...written.ties].filter(({ wall }) => !girders.has(wall));
  const placed = onWalls.filter(({ station }) => station);

  const plan = marksIn(sceneToSvg(drawPlan({ layout, checked, basis }), { colours: 'paper' }));
  expect(plan.map(({ mark }) => mark).sort()).toEqual(placed.map(({ mark }) => mark).sort());

  let compared = 0;
  for (const wall of layout.walls) {
    const scene = drawElevation({ layout, checked, basis, wall });
    if (!scene) continue;
    const drawn = marksIn(sceneToSvg(scene, { colours: 'paper' }));
    const here = (row: { readonly wall: string }): boolean => row.wall === wall.name;
    expect(
      drawn
        .filter(({ station }) => station !== undefined)
        .map(({ mark, station }) => `${mark} ${station}`)
        .sort(),
    ).toEqual(
      placed
        .filter(here)
        .map(({ mark, station }) => `${mark} ${station?.text}`)
        .sort(),
    );
    const others = drawn.filter(({ station }) => station === undefined).map(({ mark }) => mark);
    const panels = written.panels.filter(here).filter(({ length }) => length);
    const runs = new Map<string, number>();
    for (const { mark, station } of written.angles.filter(here)) {
      const run = mark.replace(/\.\d+$/, '');
      if (station) runs.set(run, (runs.get(run) ?? 0) + 1);
    }
    expect(others.map((text) => text.replace(/( of .*)$/, '')).sort()).toEqual(
      [
        ...panels.map(({ mark, length }) => `${mark}  ${length?.text}`),
        ...[...runs].map(([mark, angles]) => `${mark}  ${angles}`),
      ].sort(),
    );
    compared += drawn.length;
  }
  return compared;
}

/** Texts of role `mark`, each with the text of role `station` of the same thing. */
function marksIn(svg: string): readonly { readonly mark: string; readonly station: string | undefined }[] {
  const marks = new Map<string, { mark: string | undefined; station: string | undefined }>();
  const open: { thing: string | undefined; role: string | undefined }[] = [];
  let text = '';
  const parser = new SaxesParser();
  parser.on('opentag', ({ name, attributes }) => {
    const above = open.at(-1);
    open.push({
      thing: attributes['data-thing'] ?? above?.thing,
      role: attributes['data-role'] ?? above?.role,
    });
    if (name === 'text') text = '';
  });
  parser.on('text', (part) => {
    // Spaces that a drawing must not fold are no-break ones.
    text += part.replaceAll('\u00A0', ' ');
  });
  parser.on('closetag', ({ name }) => {
    const here = open.pop();
    if (name !== 'text' || here?.thing === undefined) return;
    const own = marks.get(here.thing) ?? { mark: undefined, station: undefined };
    if (here.role === 'mark') marks.set(here.thing, { ...own, mark: text });
    if (here.role === 'station') marks.set(here.thing, { ...own, station: text });
  });
  parser.write(svg).close();
  return [...marks.values()].flatMap(({ mark, station }) => (mark === undefined ? [] : [{ mark, station }]));
}

/** The first anchor of each wall, built an inch further right than designed. */
function builtElsewhere(text: string): string {
  const { layout } = analyse(text);
  const lines = layout.walls.flatMap((wall) => {
    const anchor = wall.anchors.find(({ state, station }) => state === 'planned' && station !== undefined);
    if (anchor?.station === undefined) return [];
    const at = formatExactStation(plus(anchor.station, inches(1)), layout.title.units);
    return [`  installed ${anchor.name} at ${at} because "a bar in the way"`];
  });
  return lines.length === 0 ? text : [text.trimEnd(), 'record 2026-07-01', ...lines, ''].join('\n');
}

describe('marks and stations in drawing and schedule', () => {
  it('are the same in the example that is being built, installed work where it was built', () => {
    const analysis = analyse({
      [MAIN]: example('maple-designed.sill'),
      'maple-surveyed.sill': example('maple-surveyed.sill'),
    });
    expect(expectEqualMarks(analysis)).toBeGreaterThanOrEqual(30);
  });

  it('are the same in the example that is only designed', () => {
    expect(expectEqualMarks(analyse(example('first-wall.sill')))).toBeGreaterThanOrEqual(16);
  });

  it(
    'are the same in houses of every sort, as designed and with work built elsewhere',
    () => {
      let compared = 0;
      for (const { text } of manyHouses(30, 1000)) {
        compared += expectEqualMarks(analyse(text));
        compared += expectEqualMarks(analyse(builtElsewhere(text)));
      }
      expect(compared).toBeGreaterThan(1000);
    },
    patience,
  );
});
