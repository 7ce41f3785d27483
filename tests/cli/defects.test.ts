import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { exitCodeOf } from '../../server/src/cli/open-layout.ts';
import { runCommandLine } from '../../server/src/cli/run.ts';
import { analyse } from '../support/analyse.ts';
import { examples } from './folders.ts';

/** A terminal that fails as none of ours should. */
function brokenTerminal() {
  let err = '';
  return {
    out: (): void => {
      throw new TypeError('cannot read the shape of nothing');
    },
    err: (text: string): void => {
      err += text;
    },
    said: () => err,
  };
}

describe('a defect of ours', () => {
  const words = ['check', join(examples, 'first-wall.sill')];

  it('ends in 3, is owned up to, and shows no stack', async () => {
    const terminal = brokenTerminal();
    expect(await runCommandLine(words, terminal, {})).toBe(3);
    expect(terminal.said()).toContain('a defect of Sillwright, not of your file: cannot read the shape of nothing');
    expect(terminal.said()).not.toMatch(/^\s+at /m);
  });

  it('shows where it lies when asked, by option or environment', async () => {
    for (const [more, environment] of [
      [['--trace'], {}],
      [[], { SILLWRIGHT_TRACE: '1' }],
    ] as const) {
      const terminal = brokenTerminal();
      expect(await runCommandLine([...words, ...more], terminal, environment)).toBe(3);
      expect(terminal.said()).toMatch(/^\s+at /m);
    }
  });
});

describe('a check that broke off', () => {
  it('counts as a defect of ours, whatever the others found', () => {
    const analysis = analyse('wall A length 3\n');
    const crashed = { rule: 'internal/rule-crashed' } as const;
    expect(exitCodeOf(analysis)).toBe(1);
    expect(exitCodeOf({ ...analysis, findings: [...analysis.findings, crashed] })).toBe(3);
  });
});
