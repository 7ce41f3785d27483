/**
 * Writes what the grammar gives: the parser module and the tree's types (`language/generated`), and the colouring of the
 * editor (`syntaxes`). `--check` writes nothing and fails where a committed file is not what the grammar gives.
 */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import process from 'node:process';
import { generate } from 'langium-cli';

const root = join(import.meta.dirname, '..');
const check = process.argv.includes('--check');

const stale: string[] = [];
const parserFiles = await generateParser();
for (const [path, text] of parserFiles) put(path, text);
// Read only now: the colouring takes its words from the parser module that was just written.
const { textMateGrammar } = await import('./textmate-grammar.ts');
put('syntaxes/sillwright.tmLanguage.json', `${JSON.stringify(textMateGrammar(), undefined, 2)}\n`);

if (stale.length > 0) {
  console.error(`${stale.join(', ')}: not what the grammar gives. Run \`npm run generate\`.`);
  process.exit(1);
}

/** By path from the root. Written beside the grammar first, since the generator asks before it writes next to files that it does not know. */
async function generateParser(): Promise<ReadonlyMap<string, string>> {
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
    return new Map([
      [`language/${config.out}/ast.ts`, written('ast.ts')],
      [`language/${config.out}/grammar.ts`, grammarModule(written('grammar.ts'))],
    ]);
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}

/**
 * The grammar as one text, for `language/syntax/grammar-from-json.ts`. Of the declared types the parser needs only the names;
 * they are in `ast.ts` in full, and without the rest the bundle of the server is 80 kB smaller.
 */
function grammarModule(module: string): string {
  const json = /loadGrammarFromJson\('(.*)'\)/s.exec(module)?.[1]?.replace(/\\(.)/g, '$1');
  if (json === undefined) throw new Error('the generator writes its grammar in another way than before');
  const grammar = JSON.parse(json);
  for (const each of grammar.interfaces) each.attributes = [];
  for (const each of grammar.types) each.type = { $type: 'SimpleType', primitiveType: 'string' };
  const head = module.slice(0, module.indexOf('*/') + 2);
  return `${head}\n\nexport const grammarText = ${JSON.stringify(JSON.stringify(grammar))};\n`;
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
