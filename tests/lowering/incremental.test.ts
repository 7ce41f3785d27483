import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Project } from '../../language/syntax/project.ts';
import { createProjectReader } from '../../language/syntax/project.ts';
import { exampleHost } from '../support/read-layout.ts';

const main = 'maple-designed.sill';
const textOf = (file: string): string => {
  const answer = exampleHost.read(file);
  if ('missing' in answer) throw new Error(answer.missing);
  return answer.text;
};

/** A project with every place as an absolute one: what a reader of it sees. */
function seen(project: Project): unknown {
  const plain = (value: unknown, depth = 0): unknown => {
    if (depth > 40) throw new Error('too deep');
    if (value instanceof Map) return [...value].map(([key, each]) => [key, plain(each, depth + 1)]);
    if (value instanceof Set) return [...value];
    if (Array.isArray(value)) return value.map((each) => plain(each, depth + 1));
    if (typeof value !== 'object' || value === null) return value;
    if ('block' in value && 'start' in value && 'end' in value) return project.locate(value as never) ?? 'built in';
    return Object.fromEntries(
      Object.entries(value)
        .filter(([key]) => key !== 'sourceMap')
        .map(([key, each]) => [key, plain(each, depth + 1)]),
    );
  };
  return { layout: plain(project.layout), problems: plain(project.problems) };
}

describe('reading a file again after an edit', () => {
  it('gives what reading it afresh gives', () => {
    const snippets = [
      '',
      ' ',
      '\n',
      'wall',
      "  anchor Z-1 bolt-half at 3'\n",
      '12',
      "'",
      '"',
      "\nwall Z length 9'\n",
      'typical\n  sill set-back 3"\n',
      '//',
      'to',
    ];
    const edit = fc.record({
      at: fc.nat({ max: 1_000_000 }),
      length: fc.nat({ max: 40 }),
      text: fc.constantFrom(...snippets),
      file: fc.constantFrom(main, 'maple-surveyed.sill'),
    });
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 6 }), (edits) => {
        const texts = new Map([main, 'maple-surveyed.sill'].map((file) => [file, textOf(file)]));
        const host = {
          ...exampleHost,
          read: (file: string) => {
            const text = texts.get(file);
            return text === undefined ? exampleHost.read(file) : { text };
          },
        };
        const reader = createProjectReader(host);
        reader.read(main);
        for (const { at, length, text, file } of edits) {
          const before = texts.get(file) ?? '';
          const start = at % (before.length + 1);
          texts.set(file, before.slice(0, start) + text + before.slice(start + length));
          reader.read(main);
        }
        expect(seen(reader.read(main))).toEqual(seen(createProjectReader(host).read(main)));
      }),
      { numRuns: 60, seed: 20_260_611 },
    );
  });

  it('keeps every wall that the edit does not touch', () => {
    const texts = new Map([[main, textOf(main)]]);
    const reader = createProjectReader({
      ...exampleHost,
      read: (file) => (texts.has(file) ? { text: texts.get(file) ?? '' } : exampleHost.read(file)),
    });
    const before = reader.read(main).layout;
    texts.set(main, textOf(main).replace(`F-8     stepped-plate-s at 19'-6"`, `F-8     stepped-plate-s at 19'-5"`));
    const after = reader.read(main).layout;
    const changed = after.walls.filter((wall, index) => wall !== before.walls[index]).map((wall) => wall.name);
    expect(changed).toEqual(['F']);
    expect(after.connectors).toBe(before.connectors);
    expect(after.rules).toBe(before.rules);
  });
});
