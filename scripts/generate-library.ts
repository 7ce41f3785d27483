/**
 * Writes the shipped rule sets and hardware (`language/library/**\/*.sill`) as one module of text, so that the language needs
 * no file system and no bundler trick to find them; and the check values as another, which only `verify` loads.
 * `--check` fails where a committed module is not what the files give.
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import process from 'node:process';

const root = join(import.meta.dirname, '..');

const files = ['rulesets', 'hardware'].flatMap((folder) =>
  readdirSync(join(root, 'language/library', folder))
    .filter((name) => name.endsWith('.sill'))
    .sort()
    .map((name) => join(root, 'language/library', folder, name)),
);

const literal = (text: string): string => `\`${text.replace(/[\\`$]/g, '\\$&')}\``;
const entries = files.map((file) => {
  const text = readFileSync(file, 'utf8').replace(/\r\n/g, '\n');
  return `  ['${basename(file, '.sill')}', ${literal(text)}],`;
});
const library = `// Written by scripts/generate-library.ts from language/library: edit the .sill files, not this.
/** Shipped files by name; a layout may use what is in them without \`use\`. */
export const libraryTexts: ReadonlyMap<string, string> = new Map([
${entries.join('\n')}
]);
`;
const checkValues = JSON.parse(readFileSync(join(root, 'language/library/check-values.json'), 'utf8')) as unknown;
const values = `// Written by scripts/generate-library.ts from language/library/check-values.json: edit that, not this.
/** JSON: published and worked figures, each with its source, for \`verify values\`. */
export const checkValuesText = ${literal(JSON.stringify(checkValues))};
`;

const modules: readonly (readonly [path: string, text: string])[] = [
  ['language/generated/library.ts', library],
  ['language/generated/check-values.ts', values],
];
const stale = modules.filter(([path, text]) => current(path) !== text);
if (!process.argv.includes('--check')) for (const [path, text] of stale) writeFileSync(join(root, path), text);
else if (stale.length > 0) {
  const names = stale.map(([path]) => path).join(', ');
  console.error(`${names}: not what language/library gives. Run \`npm run generate\`.`);
  process.exit(1);
}

function current(path: string): string | undefined {
  try {
    return readFileSync(join(root, path), 'utf8');
  } catch {
    return undefined;
  }
}
