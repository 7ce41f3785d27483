import { runCommandLine } from '../../server/src/cli/run.ts';

export interface Answer {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** The command in this process: the same program without the cost of a new one. */
export async function run(...words: string[]): Promise<Answer> {
  let out = '';
  let err = '';
  const terminal = {
    out: (text: string): void => {
      out += text;
    },
    err: (text: string): void => {
      err += text;
    },
  };
  const code = await runCommandLine(words, terminal, {});
  return { code, out, err };
}
