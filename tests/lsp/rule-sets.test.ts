import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createAnalyser } from '../../language/analysis.ts';
import {
  type CompareRuleSetsAnswer,
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

  it('are refused with a reason where there is one alone, or one that is not there', async () => {
    expect(await compare(['existing-building'])).toEqual({ kind: 'refused', reason: expect.stringContaining('two') });
    const answer = await compare(['existing-building'], ['their-town']);
    expect(answer).toEqual({ kind: 'refused', reason: 'No rule set their-town is in sight of this file.' });
  });
});
