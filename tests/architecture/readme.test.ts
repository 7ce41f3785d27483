import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { runCommandLine } from '../../server/src/cli/run.ts';
import { analyse } from '../support/analyse.ts';
import { read, root } from './sources.ts';

const readme = read('README.md');

describe('the README', () => {
  it('shows a wall that can be read in full and is clean of errors', () => {
    const [, text = ''] = /```\n(layout [\s\S]*?)```/.exec(readme) ?? [];
    const { findings, layout } = analyse(text);
    expect(layout.walls[0]?.anchors).toHaveLength(4);
    // It assumes the strength of the concrete, and says so.
    expect(findings.map(({ severity, rule }) => `${severity} ${rule}`)).toEqual(['info geometry/assumption-live']);
  });

  it('names only commands that there are', async () => {
    const commands = [...readme.matchAll(/sillwright -- ([\w-]+)/g)].map(([, command = '']) => command);
    expect(commands.length).toBeGreaterThan(5);
    for (const command of commands) {
      const code = await runCommandLine([command, '--help'], { out: () => undefined, err: () => undefined }, {});
      expect({ command, code }).toEqual({ command, code: 0 });
    }
  });

  it('leads nowhere that is not there', () => {
    const links = [...readme.matchAll(/\]\(([^)]+)\)/g)]
      .map(([, link = '']) => link)
      .filter((link) => !/^https?:/.test(link));
    expect(links.filter((link) => !existsSync(join(root, link)))).toEqual([]);
  });

  it('defers to those who decide', () => {
    expect(readme).toContain('Local code, the building official and licensed professionals decide.');
    expect(readme).toContain('Connector values come from the evaluation report of the product bought.');
    expect(readme).toContain('Retrofit lowers risk; it does not prevent damage.');
  });
});
