import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '../..');
const read = (path: string): string => readFileSync(join(root, path), 'utf8');
const readJson = <Shape>(path: string): Shape => JSON.parse(read(path)) as Shape;

interface Manifest {
  readonly name: string;
  readonly publisher: string;
  readonly version: string;
  readonly engines: { readonly vscode: string };
  readonly activationEvents: readonly string[];
  readonly main: string;
  readonly contributes: {
    readonly commands: readonly { readonly command: string; readonly title: string; readonly category: string }[];
    readonly walkthroughs: readonly {
      readonly steps: readonly { readonly description: string; readonly media: { readonly markdown: string } }[];
    }[];
    readonly configuration: { readonly properties: Readonly<Record<string, { readonly markdownDescription: string }>> };
  };
}
const manifest = readJson<Manifest>('extension/package.json');
const sources = readdirSync(join(root, 'extension/src'))
  .map((name) => read(`extension/src/${name}`))
  .join('\n');

describe('the manifest of the extension', () => {
  it('has the version of the repository, and the floor of the editor that the types are for', () => {
    const own = readJson<{ readonly version: string; readonly devDependencies: Readonly<Record<string, string>> }>(
      'package.json',
    );
    expect(manifest.version).toBe(own.version);
    expect(manifest.engines.vscode).toBe(`^${own.devDependencies['@types/vscode']}`);
  });

  it('is awake only for layouts and for what it is asked itself', () => {
    expect(manifest.activationEvents).toEqual(['onLanguage:sillwright', 'onWebviewPanel:sillwright.layout']);
  });

  it('declares the commands that the code registers, and no other', () => {
    const registered = [...sources.matchAll(/registerCommand\(\s*'([^']+)'/g)].map(([, name]) => name);
    expect(registered.sort()).toEqual(manifest.contributes.commands.map(({ command }) => command).sort());
    for (const { title, category } of manifest.contributes.commands)
      expect(`${category}: ${title}`).toMatch(/^Sillwright: [A-Z]/);
  });

  it('declares the settings that the code reads, each with a plain description', () => {
    const layout = [...sources.matchAll(/settings\(\)\.get\('([^']+)'/g)].map(
      ([, name]) => `sillwright.layout.${name}`,
    );
    const declared = manifest.contributes.configuration.properties;
    // The client library reads the trace setting by itself.
    // The server reads the hints' switch.
    const elsewhere = ['sillwright.showHints', 'sillwright.trace.server'];
    expect(Object.keys(declared).sort()).toEqual([...layout, ...elsewhere].sort());
    for (const { markdownDescription } of Object.values(declared)) expect(markdownDescription).toMatch(/^[A-Z].*\.$/);
  });
});

describe('the walkthrough', () => {
  it('leads through commands that there are, with words for each step', () => {
    const own = new Set(manifest.contributes.commands.map(({ command }) => command));
    const steps = manifest.contributes.walkthroughs.flatMap((each) => each.steps);
    expect(steps.length).toBeGreaterThan(3);
    for (const { description, media } of steps) {
      const commands = [...description.matchAll(/\(command:([\w.]+)(?:\?[^)]*)?\)/g)].map(([, name = '']) => name);
      expect(commands).not.toEqual([]);
      for (const command of commands) expect(command.startsWith('workbench.') || own.has(command), command).toBe(true);
      expect(existsSync(join(root, 'extension', media.markdown)), media.markdown).toBe(true);
      expect(read('extension/.vscodeignore')).toContain(`!${media.markdown}`);
    }
  });
});

describe('what is packed', () => {
  it('is an allow-list: nothing else can slip into the .vsix', () => {
    const [first, ...allowed] = read('extension/.vscodeignore').trim().split('\n');
    expect(first).toBe('**');
    // The parts of the server have names that the bundler makes; each rule has its page.
    const loose = allowed.filter((line) => !line.startsWith('!') || line.includes('*'));
    expect(loose.sort()).toEqual(['!dist/server/*.mjs', '!docs/rules/*/*.md']);
    expect(allowed).toContain(`!${manifest.main.replace('./', '')}`);
  });
});
