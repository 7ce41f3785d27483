/**
 * Writes what the grammar gives: its rules as data and the types of the tree (`language/generated`), and the colouring of the
 * editor (`syntaxes`). `--check` writes nothing and fails where a committed file is not what the grammar gives.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import process from 'node:process';
import { astModule, type GrammarJson, rulesModule } from './grammar-modules.ts';
import { type LibraryModules, modulesOfLibrary } from './library-generator.ts';

const root = join(import.meta.dirname, '..');
const check = process.argv.includes('--check');

const stale: string[] = [];
const { grammar, terminals } = readGrammar(await modulesOfLibrary());
put('language/generated/rules.ts', rulesModule(grammar, terminals));
put('language/generated/ast.ts', astModule(grammar));
// Read only now: the colouring takes its words from the rules that were just written.
const { textMateGrammar } = await import('./textmate-grammar.ts');
put('syntaxes/sillwright.tmLanguage.json', `${JSON.stringify(textMateGrammar(), undefined, 2)}\n`);

if (stale.length > 0) {
  console.error(`${stale.join(', ')}: not what the grammar gives. Run \`npm run generate\`.`);
  process.exit(1);
}

/** The grammar as the library's generator reads it, and its terminals as it makes patterns of them. */
function readGrammar(modules: LibraryModules): { readonly grammar: GrammarJson; readonly terminals: string } {
  const json = /loadGrammarFromJson\('(.*)'\)/s.exec(modules.grammar)?.[1]?.replace(/\\(.)/g, '$1');
  const terminals = /export const SillwrightTerminals = \{\n(.*?)^\};/ms.exec(modules.ast)?.[1];
  if (json === undefined || terminals === undefined)
    throw new Error('the generator writes its grammar in another way than before');
  return { grammar: JSON.parse(json), terminals };
}

function put(path: string, text: string): void {
  const file = join(root, path);
  // A checkout may have turned the line breaks.
  const same = readText(file)?.replaceAll('\r\n', '\n') === text.replaceAll('\r\n', '\n');
  if (same) return;
  if (check) stale.push(path);
  else {
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
    console.log(`wrote ${path}`);
  }
}

function readText(file: string): string | undefined {
  try {
    return readFileSync(file, 'utf8');
  } catch {
    return undefined;
  }
}
