import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

const tests = join(import.meta.dirname, '../..');

/** Tests that draw or name findings themselves: neither those here, nor those that run over the whole registry. */
const written: readonly { readonly file: string; readonly text: string }[] = readdirSync(tests, {
  recursive: true,
  encoding: 'utf8',
})
  .map((file) => file.replaceAll('\\', '/'))
  .filter((file) => file.endsWith('.test.ts') && !file.startsWith('properties/defects/'))
  .map((file) => ({ file: `tests/${file}`, text: readFileSync(join(tests, file), 'utf8') }));

/** The test files that name a rule: in quotes, or drawn under a text. */
export function testsNaming(rule: string): readonly string[] {
  return written
    .filter(({ text }) => text.includes(`'${rule}'`) || text.includes(` ${rule}\n`))
    .map(({ file }) => file);
}
