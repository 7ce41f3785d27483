/**
 * `npm run package`: builds the extension and packs it as sillwright-VERSION.vsix in the root of the repository. The same sources
 * give the same bytes wherever and whenever they are packed; `--check` packs them from another folder too, and fails where the two
 * differ, or where the package holds what the list of its files does not name.
 */
import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chmodSync, cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join, matchesGlob, relative } from 'node:path';
import process from 'node:process';
import { unzipSync } from 'fflate';
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
  for (const file of filesIn(extensionFolder)) chmodSync(join(extensionFolder, file), 0o644);
  execFileSync(process.execPath, [vsce, ...args], {
    cwd: extensionFolder,
    stdio: ['ignore', 'ignore', 'inherit'],
    // Where this is set the packer sorts the files and gives all of them its date, told in the zone of the machine.
    env: { ...process.env, SOURCE_DATE_EPOCH: String(dateOfEveryFile / 1000), TZ: 'UTC' },
  });
  return vsix;
}

/** Of every file in the package: not the date of packing, so that the same sources give the same bytes. */
const dateOfEveryFile = Date.UTC(2020, 0, 1);

function filesIn(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(relative(folder, entry.parentPath), entry.name));
}

/** What is wrong with the package; empty where nothing is. */
async function faultsOfPackage(): Promise<readonly string[]> {
  const own = readFileSync(await packageExtension());
  const elsewhere = mkdtempSync(join(tmpdir(), 'a folder of another name '));
  try {
    const faults = [...strangersIn(own), ...pathsIn(own)];
    const [here, there] = [own, readFileSync(packFrom(join(elsewhere, 'deeper')))].map(sha256);
    console.log(`packed here:      ${here}\npacked elsewhere: ${there}`);
    if (here !== there) faults.push('packed from another folder it has other bytes');
    return faults;
  } finally {
    rmSync(elsewhere, { recursive: true, force: true });
  }
}

/** Packs a copy of the sources, with the installed packages beside it. */
function packFrom(copy: string): string {
  const tracked = execFileSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard'], { cwd: root });
  const paths = tracked
    .toString()
    .split('\0')
    .filter((path) => path !== '' && existsSync(join(root, path)));
  for (const path of paths) {
    mkdirSync(dirname(join(copy, path)), { recursive: true });
    cpSync(join(root, path), join(copy, path));
  }
  cpSync(join(root, 'node_modules'), join(copy, 'node_modules'), { recursive: true, verbatimSymlinks: true });
  const said = execFileSync(process.execPath, [join(copy, 'scripts/package.ts')], { cwd: copy, encoding: 'utf8' });
  const vsix = /^packed (.+)$/m.exec(said)?.[1];
  if (vsix === undefined) throw new Error(`the copy was not packed:\n${said}`);
  return vsix;
}

/** Files that the list beside the manifest does not name; the packer adds two of its own and names three as it likes. */
function strangersIn(vsix: Uint8Array): string[] {
  const listed = readFileSync(join(extensionFolder, '.vscodeignore'), 'utf8').match(/(?<=^!).+$/gm) ?? [];
  const named = [...listed, 'readme.md', 'changelog.md', 'LICENSE.txt'].map((path) => `extension/${path}`);
  const allowed = [...named, 'extension.vsixmanifest', '[[]Content_Types].xml'];
  return Object.keys(unzipSync(vsix))
    .filter((name) => !allowed.some((pattern) => matchesGlob(name, pattern)))
    .map((name) => `${name} is in the package and not in the list of its files`);
}

/** Files that name the folder in which they were made. */
function pathsIn(vsix: Uint8Array): string[] {
  return Object.entries(unzipSync(vsix))
    .filter(([, bytes]) => Buffer.from(bytes).includes(root))
    .map(([name]) => `${name} names the folder ${root}`);
}

function sha256(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

if (import.meta.main) {
  if (process.argv.includes('--check')) {
    const faults = await faultsOfPackage();
    for (const fault of faults) console.error(fault);
    if (faults.length > 0) process.exitCode = 1;
  } else console.log(`packed ${await packageExtension()}`);
}
