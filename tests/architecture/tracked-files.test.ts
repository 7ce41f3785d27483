import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { read, root } from './sources.ts';

const lock = JSON.parse(read('package-lock.json')) as { packages: Record<string, { resolved?: string }> };

describe('the lock file', () => {
  for (const name of [
    'vscode-languageserver',
    'vscode-languageserver-protocol',
    'vscode-languageserver-types',
    'vscode-jsonrpc',
  ]) {
    it(`has one copy of ${name}: two of them break quietly`, () => {
      const copies = Object.keys(lock.packages).filter((path) => path.endsWith(`node_modules/${name}`));
      expect(copies).toEqual([`node_modules/${name}`]);
    });
  }

  it('names no place that packages were fetched from', () => {
    expect(Object.values(lock.packages).filter((entry) => entry.resolved !== undefined)).toEqual([]);
  });
});

describe('the files in the repository', () => {
  // Put together here, so that this file does not find itself.
  const slash = '/';
  const forbidden = [
    /registry\.(npmjs|yarnpkg)/i,
    new RegExp(`${slash}(home|Users|root|work|tmp)${slash}[a-z0-9_.-]`, 'i'),
    /[A-Z]:\\\\?Users/i,
  ];

  it.runIf(existsSync(join(root, '.git')))(
    'name no package registry and no path of the machine they were written on',
    () => {
      const paths = execFileSync('git', ['ls-files', '-z', '--cached', '--others', '--exclude-standard'], {
        cwd: root,
        encoding: 'utf8',
      })
        .split('\0')
        .filter((path) => path !== '' && !/\.(png|vsix|ttf|woff2?)$/.test(path) && existsSync(join(root, path)));
      expect(paths.length).toBeGreaterThan(20);
      const faults = paths.flatMap((path) =>
        read(path)
          .split('\n')
          .flatMap((line, index) =>
            forbidden.some((pattern) => pattern.test(line))
              ? [`${path}:${index + 1}: ${line.trim().slice(0, 100)}`]
              : [],
          ),
      );
      expect(faults).toEqual([]);
    },
  );
});
