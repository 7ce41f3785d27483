import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { appendFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { EditorInstallation } from './install.ts';

/** A VS Code server that runs, with folders of its own that vanish with it. */
export interface EditorServer {
  readonly port: number;
  readonly run: RunFolders;
  stop(): Promise<void>;
}

export interface RunFolders {
  readonly root: string;
  readonly extensions: string;
  readonly data: string;
  readonly server: string;
}

/** Fresh folders for one run: a short path, since sockets live below it. */
export function makeRunFolders(settings: Readonly<Record<string, unknown>>): RunFolders {
  const root = mkdtempSync(join(tmpdir(), 'sw-'));
  const folders = { root, extensions: join(root, 'exts'), data: join(root, 'data'), server: join(root, 'srv') };
  for (const folder of [folders.extensions, folders.server, join(folders.data, 'User'), join(root, 'home')]) {
    mkdirSync(folder, { recursive: true });
  }
  writeFileSync(join(folders.data, 'User/settings.json'), JSON.stringify(settings, undefined, 2));
  return folders;
}

/** Installs the packaged extension as a user would, and reads the installer's own word for it. */
export function installExtension(installation: EditorInstallation, run: RunFolders, vsix: string): void {
  const args = [installation.serverMain, '--accept-server-license-terms', ...folderArguments(run)];
  const output = execFileSync(process.execPath, [...args, '--install-extension', vsix], {
    env: environment(run),
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  if (!output.includes('was successfully installed')) throw new Error(`the editor did not take the .vsix:\n${output}`);
}

export async function startServer(
  installation: EditorInstallation,
  run: RunFolders,
  log: string,
): Promise<EditorServer> {
  const child = spawn(
    process.execPath,
    [
      installation.serverMain,
      ...['--host', '127.0.0.1', '--port', '0', '--without-connection-token', '--accept-server-license-terms'],
      // Without it a built VS Code ignores the test paths in the URL, and no test ever starts.
      ...['--enable-smoke-test-driver', '--telemetry-level', 'off', '--disable-workspace-trust'],
      ...folderArguments(run),
    ],
    // A process group of its own: the extension host and our language server end with it.
    { env: environment(run), detached: true, stdio: ['ignore', 'pipe', 'pipe'] },
  );
  const port = await listeningPort(child, log);
  return { port, run, stop: () => stopGroup(child) };
}

function listeningPort(child: ChildProcess, log: string): Promise<number> {
  return new Promise((resolve, reject) => {
    let output = '';
    const read = (chunk: Buffer): void => {
      appendFileSync(log, chunk);
      output += chunk.toString();
      const port = /Extension host agent listening on (\d+)/.exec(output)?.[1];
      if (port) resolve(Number(port));
    };
    child.stdout?.on('data', read);
    child.stderr?.on('data', read);
    child.on('error', reject);
    child.on('exit', (code) => reject(new Error(`the editor's server ended (${code}) before it listened:\n${output}`)));
  });
}

async function stopGroup(child: ChildProcess): Promise<void> {
  const group = child.pid;
  if (group === undefined || child.exitCode !== null) return;
  const ended = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  signal(group, 'SIGTERM');
  const timer = setTimeout(() => signal(group, 'SIGKILL'), 3000);
  await ended;
  clearTimeout(timer);
  // Children that outlived the server are still in its group.
  signal(group, 'SIGKILL');
}

function signal(group: number, name: NodeJS.Signals): void {
  try {
    process.kill(-group, name);
  } catch {
    // The group has ended by itself.
  }
}

export function removeRunFolders(run: RunFolders): void {
  rmSync(run.root, { recursive: true, force: true, maxRetries: 5 });
}

function folderArguments(run: RunFolders): string[] {
  return ['--server-data-dir', run.server, '--user-data-dir', run.data, '--extensions-dir', run.extensions];
}

function environment(run: RunFolders): NodeJS.ProcessEnv {
  const kept = Object.entries(process.env).filter(([name]) => !name.startsWith('VSCODE_') && name !== 'NODE_OPTIONS');
  const home = join(run.root, 'home');
  return { ...Object.fromEntries(kept), HOME: home, TMPDIR: home, XDG_RUNTIME_DIR: home };
}
