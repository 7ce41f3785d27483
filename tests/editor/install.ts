import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { delimiter, join } from 'node:path';

export interface EditorInstallation {
  /** VS Code's own server, run by Node. */
  readonly serverMain: string;
  /** Where the packages are. */
  readonly modules: string;
  readonly chromium: string;
}

const here = import.meta.dirname;
const cache = join(here, '../../.cache/editor');

/** Installs what the tests drive, once for each lock file: VS Code's server from npm, Chromium from the system's packages. */
export function installEditor(log: (line: string) => void): EditorInstallation {
  const folder = installPackages(log);
  const modules = join(folder, 'node_modules');
  return {
    serverMain: join(modules, 'code-server/lib/vscode/out/server-main.js'),
    modules,
    chromium: installChromium(log),
  };
}

/**
 * Installed into a fresh folder and renamed when complete, so that two runs side by side and a broken install are both
 * harmless. `--ignore-scripts`: the install scripts would build or download parts that the tests do not need.
 */
function installPackages(log: (line: string) => void): string {
  const lock = readFileSync(join(here, 'package-lock.json'));
  const folder = join(cache, createHash('sha256').update(lock).digest('hex').slice(0, 16));
  if (existsSync(join(folder, 'complete'))) return folder;

  log('installing the editor (once for this lock file) …');
  mkdirSync(cache, { recursive: true });
  const fresh = mkdtempSync(join(cache, 'installing-'));
  for (const file of ['package.json', 'package-lock.json']) cpSync(join(here, file), join(fresh, file));
  npm(fresh, ['ci']);
  const vscode = join(fresh, 'node_modules/code-server/lib/vscode');
  // `npm ci` refuses the shipped shrinkwrap for one entry that it lacks; `npm install` keeps to the rest of it.
  npm(vscode, ['install', '--omit=dev']);
  npm(join(vscode, 'extensions'), ['install', '--omit=dev']);
  for (const unused of ['extensions/copilot', 'node_modules/@github', 'node_modules/@microsoft/mxc-sdk']) {
    rmSync(join(vscode, unused), { recursive: true, force: true });
  }
  writeFileSync(join(fresh, 'complete'), '');
  try {
    renameSync(fresh, folder);
  } catch (error) {
    if (!existsSync(join(folder, 'complete'))) {
      rmSync(folder, { recursive: true, force: true });
      renameSync(fresh, folder);
    } else {
      rmSync(fresh, { recursive: true, force: true });
      log(`another run installed it first (${String(error)})`);
    }
  }
  return folder;
}

function npm(folder: string, args: readonly string[]): void {
  const windows = process.platform === 'win32';
  execFileSync(
    windows ? 'npm.cmd' : 'npm',
    [...args, '--ignore-scripts', '--no-audit', '--no-fund', '--loglevel=error'],
    {
      cwd: folder,
      stdio: ['ignore', 'ignore', 'inherit'],
      shell: windows,
    },
  );
}

const chromiumNames = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable'];

function installChromium(log: (line: string) => void): string {
  const found = findChromium();
  if (found) return found;
  const isRoot = process.getuid?.() === 0;
  if (!onPath('apt-get') || !isRoot) {
    throw new Error(
      'No Chromium found. Install it (Debian: apt-get install chromium fonts-dejavu-core) or set CHROMIUM to its path.',
    );
  }
  log('installing Chromium and a font from the system packages …');
  const quiet = { stdio: ['ignore', 'ignore', 'inherit'] as ['ignore', 'ignore', 'inherit'] };
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  execFileSync('apt-get', ['update', '-qq'], { ...quiet, env });
  execFileSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium', 'fonts-dejavu-core'], {
    ...quiet,
    env,
  });
  const installed = findChromium();
  if (!installed) throw new Error('apt-get installed Chromium, but it is not on the PATH');
  return installed;
}

function findChromium(): string | undefined {
  const named = process.env.CHROMIUM;
  if (named && existsSync(named)) return named;
  for (const name of chromiumNames) {
    const path = onPath(name);
    if (path) return path;
  }
  return undefined;
}

function onPath(name: string): string | undefined {
  const folders = (process.env.PATH ?? '').split(delimiter);
  return folders.map((folder) => join(folder, name)).find((path) => existsSync(path));
}
