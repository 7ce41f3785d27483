import { describe, expect, it } from 'vitest';
import { findingsToJson, findingsToText } from '../../../language/domain/documents/findings-report.ts';
import type { Finding } from '../../../language/domain/rules/finding.ts';
import { toCheckedLayout } from '../../../server/src/cli/open-layout.ts';
import { analyse } from '../../support/analyse.ts';

const house = `layout "Test house"
  rules existing-building
house
  storeys 1
  soil unknown
  ask "which way do the joists run?"
typical
  foundation concrete thick 8" showing 20" top 0" sound strength assume 2000 psi
  sill size 1-1/2" x 5-1/2" set-back 0" headroom 30"
wall B "east" length 8'-0"
  foundation
  sill B1
wall A "north" length 20'-0"
  foundation
  sill A1
work on A
  accept anchorage/end-too-far on A-1 because "old nut in the way"
  anchor A-2 bolt-half at 18'-0"
  anchor A-1 bolt-half at 1'-6"
`;

const reportOf = (text: string) => toCheckedLayout(analyse(text));
const text = findingsToText(reportOf(house));

describe('the findings as text', () => {
  it('reads house first, then the walls as they are walked, down the tape', () => {
    const headings = text.split('\n').filter((line) => /^(House|Wall|Girder)/.test(line));
    expect(headings).toEqual(['House, rules and papers', 'Wall B "east"', 'Wall A "north"']);
    const wallA = text.slice(text.indexOf('Wall A'), text.indexOf('\nAssumed'));
    const stations = [...wallA.matchAll(/^ {2}(\d+)'-(\d+)"/gm)].map(
      ([, feet, inches]) => Number(feet) * 12 + Number(inches),
    );
    expect(stations.length).toBeGreaterThan(1);
    expect(stations).toEqual(stations.toSorted((a, b) => a - b));
  });

  it('says where, how grave, what, where it is written, which rule and what that rests on', () => {
    expect(text).toMatch(/^ {2}18'-0" {7}error {5}A-2/m);
    expect(text).toContain('main.sill:18:27 anchorage/end-too-far (A304.3.2)');
  });

  it('shows an accepted finding with its reason', () => {
    expect(text).toMatch(/^ {2}1'-6" {8}accepted {2}A-1/m);
    expect(text).toContain('accepted error, because: old nut in the way');
  });

  it('shouts a stop', () => {
    const report = reportOf(house);
    const stop = {
      rule: 'foundation/masonry-base',
      severity: 'stop',
      message: 'Brick.',
      wall: 'A',
      fixes: [],
    } as unknown as Finding;
    const stopped = findingsToText({
      ...report,
      placeOf: () => undefined,
      checked: { ...report.checked, findings: [stop] },
    });
    expect(stopped).toMatch(/^ +STOP {6}Brick\.$/m);
  });

  it('lists what was assumed, what is unknown and what to ask', () => {
    expect(text).toMatch(/^Assumed \(1\)\n {2}.*assume 2000 psi$/m);
    expect(text).toMatch(/^Unknown: go back and measure \(1\)\n {2}soil$/m);
    expect(text).toMatch(/^To ask or look at \(1\)\n {2}which way do the joists run\?$/m);
  });

  it('says which checks wait for which measurement', () => {
    const unknown = findingsToText(
      reportOf(house.replace('set-back 0"', 'set-back unknown').replace('A-2 bolt-half', 'A-2 flat-plate')),
    );
    expect(unknown).toMatch(
      /^Not checked for want of measurements \(\d+\)\n(?: {2,}.*\n)*? {2}set-back of sill A1: .*foundation\/set-back-out-of-range/m,
    );
  });

  it('ends in its basis', () => {
    const { basis } = reportOf(house);
    expect(text.trimEnd().endsWith(basis.lines.join('\n'))).toBe(true);
  });

  it('keeps to 110 columns and breaks no length apart', () => {
    for (const line of text.split('\n')) {
      expect(line.length).toBeLessThanOrEqual(110);
      expect(line).not.toMatch(/^\s*\d+\/\d+"/);
    }
  });

  it('lets no name write into the terminal', () => {
    expect(findingsToText(reportOf(house.replaceAll('A-2', '"\u001b[31mA-2"')))).not.toContain('\u001b');
  });
});

describe('the findings as JSON', () => {
  const document = JSON.parse(findingsToJson([reportOf(house)]));

  it('carries recalled and common-practice sources with their caution', () => {
    const short = house.replace('work on A', `work on B\n  anchor B-1 bolt-half at 0'-10"\nwork on A`);
    const sources = JSON.parse(findingsToJson([reportOf(short)])).findings.map(
      (finding: { source: string }) => finding.source,
    );
    expect(sources).toContain('Table A304.3.2, recalled; confirm in your adopted copy');
  });

  it('lists mends with how far each can be trusted', () => {
    const finding = document.findings.find((each: { fixes: unknown[] }) => each.fixes.length > 0);
    expect(finding.fixes[0]).toEqual({
      title: expect.any(String),
      trust: expect.stringMatching(/^(safe|review|by-hand)$/),
    });
  });

  it('does not work out mends for ever on a wall of thousands of boards', () => {
    const boards = Array.from({ length: 2000 }, (_, index) => `  sill S${index} to ${index + 1}'\n`).join('');
    const report = reportOf(`wall A length 2000'\n${boards}`);
    let asked = 0;
    const findings = Array.from({ length: 100 }, (_, index) => ({
      ...({ rule: 'anchorage/end-too-far', severity: 'error', message: `${index}`, wall: 'A' } as unknown as Finding),
      get fixes() {
        asked += 1;
        return [];
      },
    }));
    const large = JSON.parse(
      findingsToJson([{ ...report, placeOf: () => undefined, checked: { findings, notChecked: [] } }]),
    );
    expect(asked).toBeGreaterThan(0);
    expect(asked).toBeLessThan(50);
    expect(large.findings.at(0).fixes).toEqual([]);
    expect(large.findings.at(-1).fixes).toBeNull();
  });

  it('keeps an unknown apart from an assumption', () => {
    expect(document.assumed).toEqual([
      {
        file: 'main.sill',
        what: expect.any(String),
        typed: 'assume 2000 psi',
        quality: 'assumed',
        range: expect.any(Object),
      },
    ]);
  });

  it('has no rule set where none was chosen', () => {
    expect(JSON.parse(findingsToJson([reportOf('wall A\n')]))).toMatchObject({
      ruleSet: null,
      edition: 'no rule set chosen',
    });
  });

  it('is a document also of no layout at all', () => {
    expect(JSON.parse(findingsToJson([]))).toMatchObject({
      schemaVersion: 1,
      findings: [],
      notChecked: [],
      assumed: [],
    });
  });
});
