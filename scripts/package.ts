/** `npm run package`: builds the extension and packs it as sillwright-VERSION.vsix in the root of the repository. */
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import process from 'node:process';
import { buildExtension, extensionFolder } from './build.ts';

const root = join(import.meta.dirname, '..');

/** The path of the .vsix. */
export async function packageExtension(): Promise<string> {
  await buildExtension();
  const { version } = JSON.parse(readFileSync(join(extensionFolder, 'package.json'), 'utf8')) as { version: string };
  const vsix = join(root, `sillwright-${version}.vsix`);
  const vsce = createRequire(import.meta.url).resolve('@vscode/vsce/vsce');
  // Bundled already, so no dependencies; without an answer to read, a missing repository address only warns.
  const args = [
    'package',
    '--no-dependencies',
    '--allow-missing-repository',
    '--no-rewrite-relative-links',
    '-o',
    vsix,
  ];
  execFileSync(process.execPath, [vsce, ...args], { cwd: extensionFolder, stdio: ['ignore', 'ignore', 'inherit'] });
  return vsix;
}

if (import.meta.main) console.log(`packed ${await packageExtension()}`);
