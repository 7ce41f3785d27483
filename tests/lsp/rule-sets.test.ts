import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createAnalyser } from '../../language/analysis.ts';
import {
  type CompareRuleSetsAnswer,
  type CompareRuleSetsParams,
  compareRuleSetsRequest,
  type RuleSetsAnswer,
  ruleSetsRequest,
} from '../../language/protocol/requests.ts';
import { type EditorClient, fileUri, startServerHere } from './editor-client.ts';

const example = readFileSync(join(import.meta.dirname, '../../examples/first-wall.sill'), 'utf8');
const uri = fileUri('house.sill');
const ours = `use "town.sill"\n${example.replace('rules       existing-building', 'rules       existing-building, our-town')}`;
const town = `ruleset our-town "Our town, sheet 4"
  source "Town sheet 4" published
    limit anchor-spacing at-most 3'-0"
`;

let editor: EditorClient;
beforeAll(async () => {
  const readFromDisk = (file: string) =>
    file === fileUri('town.sill') ? { text: town } : { missing: 'there is no such file' };
  editor = await startServerHere({ createAnalyser, readFromDisk });
  editor.open(uri, ours);
  await editor.publication(uri);
});
afterAll(() => editor.stop());

const compare = (...choices: readonly (readonly string[])[]): Promise<CompareRuleSetsAnswer> =>
  editor.connection.sendRequest(compareRuleSetsRequest, { uri, choices });

describe('the rule sets of a layout', () => {
  it('are those that ship and those of its files, with their titles, and those that it names in order', async () => {
    const answer: RuleSetsAnswer = await editor.connection.sendRequest(ruleSetsRequest, { uri });
    if (answer.kind === 'refused') throw new Error(answer.reason);
    expect(answer.chosen).toEqual(['existing-building', 'our-town']);
    expect(answer.inSight).toContainEqual({ name: 'our-town', title: 'Our town, sheet 4' });
    expect(answer.inSight.map(({ name }) => name)).toEqual(expect.arrayContaining(['new-house', 'existing-building']));
  });

  it('are set side by side on the text as it is in the editor', async () => {
    const before = await compare(['existing-building'], ['existing-building', 'our-town']);
    editor.change(uri, `anchor  A-3 flat-plate  at 10'-8"`, `anchor  A-3 flat-plate  at 11'-9"`);
    const after = await compare(['existing-building'], ['existing-building', 'our-town']);
    if (before.kind === 'refused' || after.kind === 'refused') throw new Error('refused');
    expect(before.text).toContain('A = existing-building: Existing-building code appendix, chapter A3, 2021');
    expect(before.text).toMatch(/^anchorage\/gap-too-wide .*no limit +error: at most 3'-0" \(Town sheet 4\)/m);
    expect(before.text).not.toMatch(/^anchorage\/gap-too-wide .*at most 6'-0"/m);
    expect(after.text).not.toBe(before.text);
    expect(after.text).toMatch(/^anchorage\/gap-too-wide .*error: at most 6'-0"/m);
    expect(after.text).toContain('it does not show that the house is safe');
    expect(after.text).not.toContain('file:');
  });

  it('are those of other files of the workspace too, which are used for their rule sets and nothing else', async () => {
    const county = `wall A length 3'-0"\n\nruleset county "County sheet"\n  source "County 9" published\n    limit anchor-spacing at-most 2'-0"\n\nhouse\n  storeys 3\n`;
    const others = [{ uri: fileUri('elsewhere/county.sill'), text: county }];
    const list: RuleSetsAnswer = await editor.connection.sendRequest(ruleSetsRequest, { uri, others });
    if (list.kind === 'refused') throw new Error(list.reason);
    expect(list.inSight).toContainEqual({
      name: 'county',
      title: 'County sheet',
      from: fileUri('elsewhere/county.sill'),
    });
    const choices = [['existing-building'], ['existing-building', 'county']];
    const params: CompareRuleSetsParams = { uri, choices, others };
    const answer: CompareRuleSetsAnswer = await editor.connection.sendRequest(compareRuleSetsRequest, params);
    if (answer.kind === 'refused') throw new Error(answer.reason);
    expect(answer.text).toMatch(/^anchorage\/gap-too-wide .*at most 2'-0" \(County 9\)/m);
    // Nothing of its house and its wall comes along.
    expect(answer.text).not.toMatch(/duplicate|language\//);
    expect(answer.text).not.toContain('storeys 3');
  });

  it('of one name are those that the layout has in sight', async () => {
    const others = [{ uri: fileUri('elsewhere/town.sill'), text: town.replace('sheet 4', 'sheet 5') }];
    const list: RuleSetsAnswer = await editor.connection.sendRequest(ruleSetsRequest, { uri, others });
    if (list.kind === 'refused') throw new Error(list.reason);
    expect(list.inSight.filter(({ name }) => name === 'our-town')).toEqual([
      { name: 'our-town', title: 'Our town, sheet 4' },
    ]);
  });

  it('are refused with a reason where there is one alone, or one that is not there', async () => {
    expect(await compare(['existing-building'])).toEqual({ kind: 'refused', reason: expect.stringContaining('two') });
    const answer = await compare(['existing-building'], ['their-town']);
    expect(answer).toEqual({ kind: 'refused', reason: 'No rule set their-town is in sight of this file.' });
  });
});
