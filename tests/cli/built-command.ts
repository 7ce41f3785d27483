import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readdirSync, statSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import process from 'node:process';

export const root = join(import.meta.dirname, '..', '..');
export const examples = join(root, 'examples');
const program = join(root, 'dist', 'cli', 'sillwright.js');

export interface Ran {
  readonly code: number | null;
  readonly signal: string | null;
  readonly out: string;
  readonly err: string;
}

export interface RunOptions {
  readonly node?: string;
  readonly cwd?: string;
  readonly environment?: Readonly<Record<string, string>>;
  /** A command of the shell that reads what is written; the code is then that of the shell with `pipefail` off. */
  readonly shellPipe?: string;
}

/** Runs the command as users get it: the built file in a process of its own. */
export function runBuilt(
  words: readonly string[],
  { node = process.execPath, cwd = root, environment = {}, shellPipe }: RunOptions = {},
): Ran {
  requireFreshBuild();
  const options = {
    cwd,
    encoding: 'utf8' as const,
    env: { ...process.env, ...environment },
    maxBuffer: 256 * 1024 * 1024,
    timeout: 50_000,
  };
  const quoted = [node, program, ...words].map((word) => `'${word.replaceAll("'", `'\\''`)}'`).join(' ');
  const { status, signal, stdout, stderr, error } =
    shellPipe === undefined
      ? spawnSync(node, [program, ...words], options)
      : spawnSync('sh', ['-c', `${quoted} | ${shellPipe}`], options);
  if (error && signal === null) throw error;
  return { code: status, signal, out: stdout, err: stderr };
}

/** One Node for each major version found on the path, this one first. */
export function nodesOnPath(): readonly { readonly version: string; readonly node: string }[] {
  const found = new Map<string, { version: string; node: string }>();
  const candidates = [
    process.execPath,
    ...(process.env.PATH ?? '').split(delimiter).map((folder) => join(folder, 'node')),
  ];
  for (const node of candidates) {
    if (!existsSync(node)) continue;
    const version = spawnSync(node, ['--version'], { encoding: 'utf8' }).stdout?.trim() ?? '';
    const major = /^v(\d+)\./.exec(version)?.[1];
    if (major !== undefined && Number(major) >= 20 && !found.has(major)) found.set(major, { version, node });
  }
  return [...found.values()];
}

/** A new empty folder inside the clone. */
export function freshFolder(name: string): string {
  const parent = join(root, 'out', 'tests');
  mkdirSync(parent, { recursive: true });
  return mkdtempSync(join(parent, `${name}-`));
}

let checked = false;
/** An old build would let a test pass that fails on the sources. */
function requireFreshBuild(): void {
  if (checked) return;
  const built = existsSync(program) ? statSync(program).mtimeMs : 0;
  const newer = ['language', 'server/src/cli']
    .flatMap((folder) => readdirSync(join(root, folder), { recursive: true, withFileTypes: true }))
    .find((entry) => entry.isFile() && statSync(join(entry.parentPath, entry.name)).mtimeMs > built);
  if (newer) throw new Error(`dist/cli is older than ${newer.name}: run \`node scripts/build.ts cli\` first`);
  checked = true;
}
