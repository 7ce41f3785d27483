/** What the parser library's generator makes of our grammar. */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { generate } from 'langium-cli';

const root = join(import.meta.dirname, '..');

export interface LibraryModules {
  /** Types of the tree, with a table of them, and the terminals. */
  readonly ast: string;
  /** Gives the grammar as the library's objects. */
  readonly grammar: string;
}

/**
 * Reads and checks the grammar too: it throws where that has mistakes. The generator writes into a folder of its own, since it asks
 * before it writes next to files that it does not know.
 */
export async function modulesOfLibrary(): Promise<LibraryModules> {
  const language = join(root, 'language');
  const cache = join(root, '.cache');
  mkdirSync(cache, { recursive: true });
  const scratch = mkdtempSync(join(cache, 'generate-'));
  try {
    const config = JSON.parse(readFileSync(join(language, 'langium-config.json'), 'utf8'));
    for (const each of config.languages) each.grammar = relative(scratch, join(language, each.grammar));
    const file = join(scratch, 'langium-config.json');
    writeFileSync(file, JSON.stringify(config));
    if (!(await generate({ file }))) throw new Error('the grammar has mistakes: see above');
    const written = (name: string) => readFileSync(join(scratch, config.out, name), 'utf8');
    return { ast: written('ast.ts'), grammar: written('grammar.ts') };
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}
