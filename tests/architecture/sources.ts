import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import ts from 'typescript';

export const root = join(import.meta.dirname, '..', '..');

/** Files below a folder of the project, by their path from its root with `/` between. */
export function filesBelow(folder: string, matches: RegExp): readonly string[] {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && matches.test(entry.name))
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).split(sep).join('/'))
    .filter((path) => !path.includes('node_modules/') && !path.startsWith('extension/dist/'))
    .sort();
}

export function read(path: string): string {
  return readFileSync(join(root, path), 'utf8');
}

export interface Source {
  readonly path: string;
  readonly tree: ts.SourceFile;
  /** What it imports or re-exports, statically or on demand. */
  readonly imports: readonly string[];
}

export function sourceOf(path: string): Source {
  const text = read(path);
  return {
    path,
    tree: ts.createSourceFile(path, text, ts.ScriptTarget.ES2023, true),
    imports: ts.preProcessFile(text, true, true).importedFiles.map((imported) => imported.fileName),
  };
}

/** All nodes of a tree, parents before children. */
export function* nodesOf(node: ts.Node): Generator<ts.Node> {
  yield node;
  for (const child of node.getChildren()) yield* nodesOf(child);
}
