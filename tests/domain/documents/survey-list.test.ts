import { describe, expect, it } from 'vitest';
import { createAnalyser } from '../../../language/analysis.ts';
import type { SurveyList } from '../../../language/domain/documents/survey-list.ts';
import { placeOfItem, surveyListOf } from '../../../language/domain/documents/survey-list.ts';
import {
  surveyListToCsv,
  surveyListToJson,
  surveyListToText,
} from '../../../language/domain/documents/write-survey-list.ts';
import { analyse } from '../../support/analyse.ts';
import { exampleHost } from '../../support/read-layout.ts';

const demo = createAnalyser(exampleHost).analyse('maple-designed.sill');
const list = surveyListOf(demo.layout, demo.checked);
const listOf = (text: string): SurveyList => {
  const { layout, checked } = analyse(text);
  return surveyListOf(layout, checked);
};
const rows = (each: SurveyList) =>
  each.groups.flatMap((group) =>
    group.items.map((item) => [group.title, item.kind, item.what, placeOfItem(item, each.units), item.given]),
  );

describe('the survey list of the demo house', () => {
  it('goes round the walls as they are walked, then inside, then speaks of the whole house', () => {
    const titles = list.groups.map((group) => group.title);
    const order = [
      'Wall B (east of bump-out)',
      'Wall D (east)',
      'Wall E (south, street side)',
      'Wall G (old outside wall)',
      'Wall K (basement wall, west)',
      'Wall L (basement wall, north)',
      'Girder GD',
      'Space crawl-north',
      'Space crawl-west',
      'The house',
    ];
    expect(titles.filter((title) => order.includes(title))).toEqual(order);
    expect(titles.at(-1)).toBe('The house');
  });

  it('has every unknown, every assumed value and every question of the layout, once each', () => {
    const items = list.groups.flatMap((group) => group.items);
    const of = (kind: string) =>
      items
        .filter((item) => item.kind === kind)
        .map((item) => item.what)
        .toSorted();
    expect(of('unknown')).toEqual(demo.layout.unknowns.map((leaning) => leaning.what).toSorted());
    expect(of('not-measured')).toEqual(demo.layout.assumptions.map((leaning) => leaning.what).toSorted());
    expect(of('question')).toEqual(demo.layout.questions.map((question) => question.text).toSorted());
    expect(of('unknown').length).toBeGreaterThan(12);
    expect(of('question')).toHaveLength(3);
  });

  it('says where along the wall, and how many checks wait', () => {
    expect(rows(list)).toContainEqual([
      'Wall E (south, street side)',
      'unknown',
      'embed of old anchor X3',
      `at 27'-3"`,
      'unknown',
    ]);
    expect(rows(list)).toContainEqual([
      'Wall D (east)',
      'unknown',
      'nails of rim of wall D',
      `0'-0" to 24'-1"`,
      'unseen',
    ]);
    expect(rows(list)).toContainEqual([
      'The house',
      'not-measured',
      'concrete strength of foundation, typical',
      '',
      'assume 2000 psi',
    ]);
    const waits = list.groups.flatMap((group) => group.items).reduce((sum, item) => sum + item.checks, 0);
    expect(waits).toBe(demo.checked.notChecked.length);
  });
});

describe('a survey list', () => {
  const wall = `layout "L" rules existing-building
house
  storeys 1
wall A length 16'-0"
  foundation concrete sound thick 6" showing 20" top 0"
`;
  it('goes from left to right along a wall, whatever the order of the text', () => {
    const each = listOf(`${wall}  sill A1 to 8'-0" set-back 0" headroom 25"
  sill A2 to end set-back unknown headroom 25" corner
  vent V1 10'-0" to 11'-0" off unknown
  vent V2 2'-0" to 3'-0" off assume 2"
`);
    const own = rows(each).filter(([title, kind]) => title === 'Wall A' && kind !== 'missing');
    expect(own.map(([, kind, what, place]) => [kind, what, place])).toEqual([
      ['not-measured', 'stand-off of vent V2 on wall A', `2'-0" to 3'-0"`],
      ['unknown', 'set-back of sill A2', `8'-0" to 16'-0"`],
      ['unknown', 'stand-off of vent V1 on wall A', `10'-0" to 11'-0"`],
    ]);
  });

  it('has what a check lacks and nobody wrote, with the checks that wait', () => {
    const each = listOf(`${wall}  sill A1 corner\nwork on A\n  anchor A-1 flat-plate at 2'-0"\n`);
    const missing = each.groups.flatMap((group) => group.items.filter((item) => item.kind === 'missing'));
    expect(missing.map((item) => item.what)).toContain('set-back of sill A1');
    for (const item of missing) expect(item.checks).toBeGreaterThan(0);
  });

  it('counts a check beside the unknown that it waits for, not twice', () => {
    const each = listOf(
      `${wall}  sill set-back unknown headroom 25" corner\nwork on A\n  anchor A-1 flat-plate at 2'-0"\n`,
    );
    const setBacks = each.groups.flatMap((group) => group.items.filter((item) => item.what.startsWith('set-back')));
    expect(setBacks).toMatchObject([{ kind: 'unknown', what: 'set-back of sill of wall A' }]);
    expect(setBacks[0]?.checks).toBeGreaterThan(0);
  });

  it('lists what stands in the design under its wall', () => {
    const each = listOf(
      `${wall}  sill A1 set-back 0" headroom 25" corner\nwork on A\n  anchor A-1 bolt-half at 2'-0" embed unknown\n  ask "which washer"\n`,
    );
    const own = rows(each).filter(([title, kind]) => title === 'Wall A' && kind !== 'missing');
    expect(own.map(([, kind, , place]) => [kind, place])).toContainEqual(['unknown', `at 2'-0"`]);
    expect(own.map(([, kind, what]) => [kind, what])).toContainEqual(['question', 'which washer']);
  });

  it('says so where nothing is open, and still defers to those who decide', () => {
    const text = surveyListToText({ ...list, groups: [] }, () => undefined);
    expect(text).toContain('Nothing is written down as not known, asked or assumed');
    expect(text).toContain('Local code, the building official and licensed professionals decide.');
  });
});

describe('as text, JSON and CSV', () => {
  const find = () => ({ file: 'a/maple.sill', line: 7 });
  it('counts what there is to do, with room to write', () => {
    const text = surveyListToText(list, find);
    const items = list.groups.flatMap((group) => group.items);
    const measure = items.filter((item) => item.kind === 'unknown' || item.kind === 'missing').length;
    const confirm = items.filter((item) => item.kind === 'not-measured').length;
    expect(text).toContain(`${measure} to measure or look at, ${confirm} to confirm, 3 questions.`);
    expect(text).toContain('maple.sill:7');
    for (const line of list.basis.lines) expect(text).toContain(line);
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(112);
  });

  it('holds the same items in JSON', () => {
    const json = JSON.parse(surveyListToJson(list, find));
    expect(json.schemaVersion).toBe(1);
    expect(json.groups.map((group: { title: string }) => group.title)).toEqual(list.groups.map((group) => group.title));
    const wallE = json.groups.find((group: { wall: string }) => group.wall === 'E');
    expect(wallE.items[0]).toMatchObject({
      kind: 'unknown',
      what: 'embed of old anchor X3',
      from: { text: `27'-3"`, nm: 8305800000 },
      file: 'a/maple.sill',
      line: 7,
    });
    expect(json.basis.lines).toEqual(list.basis.lines);
  });

  it('holds the same items in CSV, and no formula', () => {
    const evil = listOf(`house\n  storeys 1\n  ask "=cmd()"\n`);
    expect(surveyListToCsv(evil, find).split('\r\n')[1]).toMatch(/^The house,ask,'=cmd\(\),/);
    const csv = surveyListToCsv(list, find);
    expect(csv.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
    const records = csv.split('\r\n');
    const items = list.groups.flatMap((group) => group.items);
    expect(records.slice(1, items.length + 1).every((record) => record.includes('a/maple.sill,7,'))).toBe(true);
    expect(records.find((record) => record.includes('embed of old anchor X3'))).toBe(
      `"Wall E (south, street side)",measure,embed of old anchor X3,"at 27'-3""",unknown,0,a/maple.sill,7,`,
    );
  });
});
