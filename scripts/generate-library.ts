/**
 * Writes the shipped rule sets and hardware (`language/library/**\/*.sill`) as one module of text, so that the language needs
 * no file system and no bundler trick to find them. `--check` fails where the committed module is not what the files give.
 */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import process from 'node:process';

const root = join(import.meta.dirname, '..');
const target = join(root, 'language/generated/library.ts');

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
const module = `// Written by scripts/generate-library.ts from language/library: edit the .sill files, not this.
/** Shipped files by name; a layout may use what is in them without \`use\`. */
export const libraryTexts: ReadonlyMap<string, string> = new Map([
${entries.join('\n')}
]);
`;

if (process.argv.includes('--check')) {
  let current = '';
  try {
    current = readFileSync(target, 'utf8');
  } catch {}
  if (current !== module) {
    console.error('language/generated/library.ts is not what language/library gives: run `npm run generate`.');
    process.exit(1);
  }
} else {
  writeFileSync(target, module);
}
