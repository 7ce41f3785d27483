import { spawnSync } from 'node:child_process';
import { existsSync, rmSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import process from 'node:process';
import { buildCli } from '../../scripts/build.ts';
import { freshFolder, root } from './folders.ts';

// Built once in each process of tests, so that no test speaks of yesterday's program and two never build over each other.
const built = freshFolder('cli');
const program = join(built, 'sillwright.js');
await buildCli(built);
process.on('exit', () => rmSync(built, { recursive: true, force: true }));

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

/** Runs the command as users get it: bundled, in a process of its own. */
export function runBuilt(
  words: readonly string[],
  { node = process.execPath, cwd = root, environment = {}, shellPipe }: RunOptions = {},
): Ran {
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
