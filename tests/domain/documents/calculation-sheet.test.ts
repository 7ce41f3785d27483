import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { CalculationLine, LinkName } from '../../../language/domain/documents/calculation-line.ts';
import type { CalculationOptions, CalculationSheet } from '../../../language/domain/documents/calculation-sheet.ts';
import { calculationSheet } from '../../../language/domain/documents/calculation-sheet.ts';
import { calculationSheetToHtml } from '../../../language/domain/documents/calculation-sheet-html.ts';
import { columnsOf } from '../../../language/domain/documents/text-layout.ts';
import {
  calculationSheetToJson,
  calculationSheetToText,
} from '../../../language/domain/documents/write-calculation-sheet.ts';
import { isRefused } from '../../../language/domain/engineering/trace.ts';
import { typesetMath } from '../../../server/src/cli/typeset-math.ts';
import { analyse } from '../../support/analyse.ts';
import { examplesFolder } from '../../support/read-layout.ts';
import { done } from '../engineering/support.ts';

/** 40 by 30 ft, two storeys, 0.2 of 80 psf over 1,200 sq ft: 19,200 lb, half of it to each side. */
const square = (
  more = '',
  facts = 'seismic\n  coefficient 0.2\nweights\n  whole-house 80 psf',
): string => `layout "Square"
  rules existing-building
  face outside
house
  storeys 2
${facts}
typical
  foundation concrete thick 8" showing 20" top 0" strength 2500 psi sound
  sill size 1-1/2" x 5-1/2" species douglas-fir set-back 0" headroom 30"
wall A faces north from (0", 30'-0") length 40'-0"
  foundation
  sill A1
  anchor O1 1/2" at 20'-0" cast-in sound embed 7" credit full
  anchor O2 1/2" at 22'-0" cast-in sound embed 7" credit half
  anchor O3 1/2" at 24'-0" cast-in sound embed unknown credit full
  anchor O4 1/2" at 26'-0" cast-in sound embed 7"
  anchor O5 1/2" at 28'-0" cast-in heavy-rust embed 7" credit full
wall B turn right length 30'-0"
wall C turn right length 40'-0"
wall D turn right length 30'-0"
connector plate side-plate
  report "report 7"
  capacity along-wall 1200 lb allowable
connector weak-bolt through-bolt
  report "report 8"
  into concrete 1 adhesive-rod size 1/2" x 10" hole 5/8" hole-depth 7"
  capacity along-wall 5000 lb allowable
connector secret side-plate
  capacity along-wall unknown allowable
${more}`;
const anchors = `work on A
  anchor A-1 plate at 1'-0"
  anchor A-2 plate at 5'-0"
  anchor A-3 plate at 9'-0"
  anchor A-4 weak-bolt at 13'-0"
  anchor A-5 secret at 15'-0"
  anchor A-6 nobody at 17'-0"
record 2026-06-10
  omitted A-3 because "stone"
`;
const maple = readFileSync(join(examplesFolder, 'maple-designed.sill'), 'utf8');
const surveyed = readFileSync(join(examplesFolder, 'maple-surveyed.sill'), 'utf8');

function sheetOf(text: string | Readonly<Record<string, string>>, options?: CalculationOptions): CalculationSheet {
  const { layout, checked, basis } = analyse(text);
  return calculationSheet(layout, checked, basis, options);
}
const mapleSheet = (options?: CalculationOptions) =>
  sheetOf({ 'main.sill': maple, 'maple-surveyed.sill': surveyed }, options);
function lineOf(sheet: CalculationSheet, name: string): CalculationLine {
  const line = sheet.lines.find((each) => each.name === name);
  if (!line) throw new Error(`no line ${name}`);
  return line;
}
function linkOf(line: CalculationLine, name: LinkName) {
  const link = line.links.find((each) => each.name === name);
  if (!link) throw new Error(`no link ${name}`);
  return link;
}
const html = (sheet: CalculationSheet): string => calculationSheetToHtml(sheet, typesetMath);

describe('bracing panels on the sheet', () => {
  const cripple = `wall A faces north from (0", 30'-0") length 40'-0"
  foundation
  sill A1
  cripple height 30"
`;
  const panelsOn = (lines: string) => {
    const text = square(`work on A\n${lines}`).replace(
      /wall A faces north[^\n]*\n {2}foundation\n {2}sill A1\n/,
      cripple,
    );
    const link = linkOf(lineOf(sheetOf(text), 'A'), 'panels, cripple wall');
    const each = Object.fromEntries(
      link.connectors.map(({ mark, capacity, remarks }) => [
        mark,
        isRefused(capacity) ? capacity.reason : { lb: Number(capacity.number.toPrecision(9)), remarks },
      ]),
    );
    return { link, each };
  };
  const COMMON = 'its nails are taken for common ones: box nails and sinkers carry less';
  // The lightest species of NDS 2018 Table 12.3.3A (from memory) has G 0.36.
  const framing = 1 - (0.5 - 0.36);

  it('count by the nailing table, half of the nominal shear, less for light framing and slender panels', () => {
    const { link, each } = panelsOn(`  panel A-P1 0" to 8'-0" plywood 15/32" nails 8d edge 4" field 12" height 30"
  panel A-P2 10'-0" to 14'-0" OSB 7/16" nails 8d edge 6" field 12" height 30"
  panel A-P3 20'-0" to 21'-0" plywood 15/32" nails 10d edge 2" field 12" height 30"
`);
    // SDPWS 2015 Table 4.3A: 760, 480 and 1540 plf; 4.3.3 divides by 2; 4.3.4.2 at 30 in on 12 in: 1.25 - 0.125 x 2.5 (from memory).
    const lb = [380 * framing * 8, 240 * framing * 4, 770 * framing * (1.25 - 0.125 * 2.5)].map((number) =>
      Number(number.toPrecision(9)),
    );
    expect(each).toEqual({
      'A-P1': { lb: lb[0], remarks: [COMMON] },
      'A-P2': { lb: lb[1], remarks: [COMMON] },
      'A-P3': { lb: lb[2], remarks: [COMMON] },
    });
    expect(done(link.capacity).number).toBeCloseTo(
      lb.reduce((sum, number) => sum + number, 0),
      4,
    );
    expect(done(link.share).number).toBeCloseTo(9600 / done(link.capacity).number, 9);
  });

  it('fall back to the weaker row of the table where their own is not in it, and say so', () => {
    const { each } = panelsOn(`  panel A-P1 0" to 8'-0" plywood 1/2" nails 8d edge 5" field 12" height 30"
`);
    expect(each).toEqual({
      'A-P1': {
        lb: Number((260 * framing * 8).toPrecision(9)),
        remarks: [
          COMMON,
          'its edge nails are counted at 6 in, the next wider spacing of the table',
          'its board is counted as one of 15/32 in',
        ],
      },
    });
  });

  it('count for nothing where something is missing or the table ends, with the reason', () => {
    const { link, each } = panelsOn(`  panel A-P1 0" to 8'-0" plywood 15/32" nails 8d edge 8" field 12" height 30"
  panel A-P2 10'-0" to 18'-0" plywood 15/32" height 30"
  panel A-P3 20'-0" to 28'-0" plywood 15/32" nails 8d edge 4" field 12" height 60"
  panel A-P4 30'-0" to 30'-8" plywood 15/32" nails 8d edge 4" field 12" height 30"
  panel A-P5 32'-0" to 36'-0" plywood 1/4" nails 8d edge 4" field 12" height 30"
`);
    expect(each).toEqual({
      'A-P1': 'its edge nails are more than 6 in apart: the table ends there',
      'A-P2': 'its nails are not given',
      'A-P3':
        'it is higher than a sheet is wide, and no block is given behind the joint: the table is for blocked panels',
      'A-P4': '30 in high on 8 in is 3.75 to 1; over 3.5 to 1 a panel counts for nothing',
      'A-P5': 'the table has no board so thin for 8d common nails',
    });
    expect(link.share).toMatchObject({ reason: 'no capacity is counted' });
    expect(link).toMatchObject({ counted: 0, notCounted: 5 });
  });
});

describe('the calculation sheet', () => {
  const sheet = sheetOf(square(anchors));
  const north = lineOf(sheet, 'A');
  const link = linkOf(north, 'anchors, sill to foundation');
  const each = Object.fromEntries(
    link.connectors.map(({ mark, capacity }) => [
      mark,
      isRefused(capacity) ? capacity.reason : Number(capacity.number.toPrecision(9)),
    ]),
  );

  it('gives each side of a square house half of the base shear', () => {
    expect(done(sheet.baseShear).number).toBeCloseTo(19_200, 6);
    expect(sheet.lines.map((line) => [line.name, Math.round(done(line.demand).number)])).toEqual([
      ['A', 9600],
      ['B', 9600],
      ['C', 9600],
      ['D', 9600],
    ]);
  });

  it('counts report values, and sill bolts by the yield limit where that is smaller', () => {
    expect(each).toMatchObject({ 'A-1': 1200, 'A-2': 1200 });
    // NDS 2018 Table 12E (from memory): 650 lb for 1/2 in through 1-1/2 in of Douglas fir; times 1.6 for earthquake.
    // The table is printed to 10 lb.
    expect(Math.abs(Number(each['A-4']) - 1.6 * 650)).toBeLessThan(8);
    expect(each.O1).toBe(each['A-4']);
    expect(Number(each.O2) * 2).toBeCloseTo(Number(each.O1), 4);
  });

  it('counts nothing that has no number, and says why', () => {
    expect(each).toMatchObject({
      'A-3': 'the record says that it was omitted',
      'A-5': 'the capacity of secret along wall is not known',
      'A-6': 'its connector is in no file in sight',
      O3: 'its embedment is not known',
      O4: 'the file gives it no credit',
      O5: 'it is worth nothing: heavy rust',
    });
    expect({ counted: link.counted, notCounted: link.notCounted }).toEqual({ counted: 5, notCounted: 6 });
    const text = calculationSheetToText(sheet).replace(/\s+/g, ' ');
    expect(text).toContain('A-5: not counted: the capacity of secret along wall is not known');
  });

  it('compares the demand with the sum of what is counted', () => {
    const sum = 2 * 1200 + (2.5 * 1.6 * (done(link.capacity).number - 2400)) / 4;
    expect(done(link.capacity).number).toBeCloseTo(sum, 6);
    expect(done(link.share).number).toBeCloseTo(9600 / done(link.capacity).number, 9);
    expect(calculationSheetToText(sheet)).toContain(
      `demand is ${Math.ceil((9600 / done(link.capacity).number) * 100)} % of the capacity counted: more than is counted`,
    );
  });

  it('another anchor adds its own capacity and nothing else', () => {
    const more = sheetOf(square(anchors.replace('record', '  anchor A-7 plate at 35\'-0"\nrecord')));
    const after = linkOf(lineOf(more, 'A'), 'anchors, sill to foundation');
    expect(done(after.capacity).number - done(link.capacity).number).toBeCloseTo(1200, 6);
    expect(done(lineOf(more, 'A').demand).number).toBeCloseTo(done(north.demand).number, 9);
  });

  it('says of a line without a cripple wall that there is none', () => {
    for (const line of sheet.lines)
      expect(linkOf(line, 'panels, cripple wall')).toMatchObject({
        present: false,
        share: { reason: 'none recorded' },
      });
  });

  it('takes the larger of the two ways to share the force, and says which', () => {
    const { lines } = mapleSheet();
    expect(lines.map(({ governs }) => governs)).toContain('with drag struts');
    expect(lines.map(({ governs }) => governs)).toContain('without drag struts');
    for (const line of lines) {
      const both = [done(line.withDragStruts).number, done(line.withoutDragStruts).number];
      expect(done(line.demand).number).toBe(Math.max(...both));
      const governing = line.governs === 'with drag struts' ? both[0] : both[1];
      expect(done(line.demand).number).toBe(governing);
    }
  });

  it('without a demand still shows what is counted, and compares nothing', () => {
    const without = sheetOf(square(anchors, 'weights\n  whole-house unknown'));
    const line = lineOf(without, 'A');
    expect(line.demand).toMatchObject({ kind: 'refused' });
    expect(done(linkOf(line, 'anchors, sill to foundation').capacity).number).toBeGreaterThan(2400);
    expect(linkOf(line, 'anchors, sill to foundation').share).toMatchObject({ kind: 'refused' });
    expect(without.unknowns[0]).toMatch(/^no demand: /);
    expect(without.ranking).toMatchObject({ kind: 'refused' });
  });

  it('takes the weakest wood where the species is not known, and names it as assumed', () => {
    const unknown = sheetOf(square(anchors).replace('species douglas-fir', 'species unknown'));
    const weaker = linkOf(lineOf(unknown, 'A'), 'anchors, sill to foundation');
    expect(done(weaker.capacity).number).toBeLessThan(done(link.capacity).number);
    expect(unknown.assumptions.map(({ meaning }) => meaning)).toContain(
      'specific gravity of a sill of unknown species: the least of the table',
    );
    if (unknown.ranking.kind === 'refused') throw new Error(unknown.ranking.reason);
    expect(unknown.ranking.ranking.ranking.map(({ name }) => name)).toEqual(['species of the sill']);
    expect(unknown.ranking.ranking.likely).toBeCloseTo(9600 / done(weaker.capacity).number, 9);
    expect(unknown.ranking.ranking.greatest).toBeCloseTo(unknown.ranking.ranking.likely, 9);
    expect(unknown.ranking.ranking.least).toBeLessThan(unknown.ranking.ranking.likely);
  });

  it('works no bolt in concrete whose strength nobody knows', () => {
    const unknown = sheetOf(square(anchors).replace('strength 2500 psi', 'strength unknown'));
    const rows = linkOf(lineOf(unknown, 'A'), 'anchors, sill to foundation').connectors;
    expect(rows.find(({ mark }) => mark === 'O1')?.capacity).toMatchObject({
      reason: 'the strength of the concrete is not known',
    });
    expect(rows.find(({ mark }) => mark === 'A-4')?.remarks).toEqual([
      'wood against bolt not worked: the strength of the concrete is not known',
    ]);
  });

  it('ranks what was assumed by what knowing it is worth', () => {
    const assumed = sheetOf(
      square(anchors, 'seismic\n  coefficient told 0.2\nweights\n  whole-house assume 80 psf'),
    ).ranking;
    if (assumed.kind === 'refused') throw new Error(assumed.reason);
    expect(assumed.ranking.ranking.map(({ name }) => name)).toEqual(['weight, whole house', 'coefficient']);
    expect(assumed.ranking.greatest / assumed.ranking.likely).toBeCloseTo(1.25 * 1.1, 9);
    expect(assumed.ranking.least / assumed.ranking.likely).toBeCloseTo(0.8 * 0.9, 9);
    expect(assumed.bounds.map(({ words }) => words)).toEqual([
      '0.2 told, 0.18 to 0.22',
      '80 psf assumed, 64 psf to 100 psf',
    ]);
  });

  it('its range is what the sheet itself gives at the bounds', () => {
    const at = (weight: string) =>
      linkOf(lineOf(sheetOf(square(anchors, `seismic\n  SDS 1.0\nweights\n  whole-house ${weight}`)), 'A'), link.name);
    const assumed = sheetOf(square(anchors, 'seismic\n  SDS 1.0\nweights\n  whole-house assume 80 psf')).ranking;
    if (assumed.kind === 'refused') throw new Error(assumed.reason);
    expect(assumed.ranking.least).toBeCloseTo(done(at('64 psf').share).number, 9);
    expect(assumed.ranking.likely).toBeCloseTo(done(at('80 psf').share).number, 9);
    expect(assumed.ranking.greatest).toBeCloseTo(done(at('100 psf').share).number, 9);
  });

  it('shows one line where one is asked for, whatever its case, and none where there is none of that name', () => {
    expect(mapleSheet({ line: 'WEST' }).lines.map(({ name }) => name)).toEqual(['west']);
    expect(mapleSheet({ line: 'up' })).toMatchObject({ lines: [] });
    expect(mapleSheet({ line: 'west' }).lineNames).toContain('north');
  });

  it('takes 75 percent only where that is chosen, and cautions of it', () => {
    const chosen = mapleSheet({ existingBuildingShare: true });
    expect(done(chosen.baseShear).number / done(mapleSheet().baseShear).number).toBeCloseTo(0.75, 9);
    expect(chosen.cautions.join(' ')).toContain('75 percent');
    expect(mapleSheet().cautions.join(' ')).not.toContain('75 percent');
  });

  it('counts by the rule of thumb nothing, and labels it', () => {
    const text = calculationSheetToText(mapleSheet()).replace(/\s+/g, ' ');
    expect(text).toContain('Contractor’s rule of thumb, for comparison only: whole house 17,567 lb');
    for (const line of mapleSheet().lines) expect(Math.round(done(line.demand).number)).not.toBe(8783);
  });
});

describe('what is written of the calculation sheet', () => {
  const hostile = sheetOf(
    square(anchors)
      .replace('layout "Square"', `layout "<script>alert(1)</script> & <img src=x onerror='a'> \u202e"`)
      .replace('report "report 7"', 'report "</td></table><b>"'),
  );

  it('never judges', () => {
    const said = 'it does not show that the house is safe';
    const verdict =
      /\b(safe|safely|compliant|compliance|passes|passed|no problems|certified|adequate|sufficient|OK)\b/i;
    for (const sheet of [mapleSheet(), sheetOf(square(anchors))]) {
      for (const written of [calculationSheetToText(sheet), html(sheet), calculationSheetToJson(sheet)]) {
        expect(written).toContain(said);
        expect(verdict.exec(written.replaceAll(said, ''))?.[0]).toBeUndefined();
      }
    }
  });

  it('as text fits 110 columns and holds its names as they are', () => {
    const text = calculationSheetToText(hostile);
    expect(Math.max(...text.split('\n').map(columnsOf))).toBeLessThanOrEqual(110);
    expect(text).toContain('<script>alert(1)</script>');
    expect(text).not.toContain('\u202e');
  });

  it('as a page shows hostile names and runs none of them', () => {
    const page = html(hostile);
    expect(page).not.toMatch(/<script|<img|<b>|<\/table><b|onerror='/i);
    expect(page).toContain('&#60;script&#62;');
    expect(page).not.toMatch(/<[^>]*\b(src|href)=|url\(|@import|https?:/i);
    expect(page).toContain("default-src 'none'");
  });

  it('as a page sets every formula, and none of them fails', () => {
    const page = html(sheetOf(square(anchors)));
    expect(page.match(/<math[ >]/g)?.length).toBe(page.match(/class="step"/g)?.length);
    expect(page).not.toMatch(/<merror|temml-error|\\mathrm|\\frac/);
    expect(page).toContain('<mfrac>');
  });

  it('writes DEMO VALUES across what rests on them, and across nothing else', () => {
    expect(html(mapleSheet())).toContain('<div class="watermark" aria-hidden="true"><span>DEMO VALUES</span>');
    expect(calculationSheetToText(mapleSheet())).toContain('\nDEMO VALUES - not for permit, purchase or building\n');
    expect(html(sheetOf(square(anchors)))).not.toContain('DEMO VALUES');
  });

  it('as JSON holds the same numbers, and null with a reason where there is none', () => {
    const sheet = sheetOf(square(anchors));
    const json = JSON.parse(calculationSheetToJson(sheet));
    expect(json.schemaVersion).toBe(1);
    expect(json.lines[0].demand.lb).toBeCloseTo(9600, 4);
    expect(json.lines[0].demand.kN).toBeCloseTo(42.703, 3);
    const [angles, panels, foundation] = json.lines[0].links;
    expect(angles).toMatchObject({ counted: 0, demandOverCapacity: null, capacity: { lb: null } });
    expect(panels).toMatchObject({ present: false, words: 'none recorded' });
    expect(foundation.demandOverCapacity * foundation.capacity.lb).toBeCloseTo(9600, 3);
    expect(foundation.connectors.find(({ mark }: { mark: string }) => mark === 'A-5').each).toEqual({
      lb: null,
      kN: null,
      reason: 'the capacity of secret along wall is not known',
    });
  });

  it('on a metric sheet gives kilonewtons before pounds', () => {
    const metric = calculationSheetToText(
      sheetOf(square(anchors).replace('  face outside', '  units metric\n  face outside')),
    );
    expect(metric).toContain('42.7 kN (9,600 lb)');
  });

  it('holds for the demo house with any of its lines left out: no crash, no wide line, no verdict on nothing', () => {
    const lines = maple.split('\n');
    fc.assert(
      fc.property(fc.uniqueArray(fc.nat(lines.length - 1), { minLength: 1, maxLength: 12 }), (left) => {
        const text = lines.filter((_, index) => !left.includes(index)).join('\n');
        const sheet = sheetOf({ 'main.sill': text, 'maple-surveyed.sill': surveyed });
        const written = calculationSheetToText(sheet);
        expect(Math.max(...written.split('\n').map(columnsOf))).toBeLessThanOrEqual(110);
        JSON.parse(calculationSheetToJson(sheet));
        for (const { demand, links } of sheet.lines) {
          for (const { capacity, share, connectors } of links) {
            const some = connectors.some((each) => !isRefused(each.capacity) && each.count > 0);
            expect(isRefused(capacity)).toBe(!some);
            if (isRefused(demand) || isRefused(capacity)) expect(isRefused(share)).toBe(true);
          }
        }
      }),
      { numRuns: 25 },
    );
  });
});
