import { copyFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import process from 'node:process';
import { afterAll, describe, expect, it } from 'vitest';
import { runBuilt } from '../cli/built-command.ts';
import { examples, freshFolder, root } from '../cli/folders.ts';
import { run } from '../cli/in-process.ts';

const folder = freshFolder('bad-input');
afterAll(() => rmSync(folder, { recursive: true }));
/** The long proofs leave nothing out. */
const long = Boolean(process.env.SILLWRIGHT_LONG);

const example = readFileSync(join(examples, 'maple-surveyed.sill'));
const first = readFileSync(join(examples, 'first-wall.sill'), 'utf8');
copyFileSync(join(examples, 'maple-surveyed.sill'), join(folder, 'maple-surveyed.sill'));

function file(name: string, content: string | Uint8Array): string {
  writeFileSync(join(folder, name), content);
  return relative(root, join(folder, name)).replaceAll('\\', '/');
}

interface Case {
  readonly name: string;
  readonly content: string | Uint8Array;
  /** Of `check`. */
  readonly code: 0 | 1 | 2;
  /** What it says, findings and complaints alike. */
  readonly says: RegExp;
  /** `fix` and `format` will not touch it; otherwise only its findings stand against it. */
  readonly refused: boolean;
}

const utf16 = (text: string, mark: boolean): Uint8Array =>
  Buffer.concat([Buffer.from(mark ? [0xff, 0xfe] : []), Buffer.from(text, 'utf16le')]);

const cases: readonly Case[] = [
  { name: 'an empty file', content: '', code: 0, says: /0 errors under no rule set chosen/, refused: false },
  { name: 'only white space', content: ' \n\t\n', code: 0, says: /0 errors under no rule set chosen/, refused: false },
  {
    name: 'only a comment',
    content: '// nothing yet',
    code: 0,
    says: /0 errors under no rule set chosen/,
    refused: false,
  },
  {
    name: 'binary',
    content: new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0x00]),
    code: 2,
    says: /not text|not UTF-8/,
    refused: true,
  },
  {
    name: 'random bytes',
    content: Uint8Array.from({ length: 4096 }, (_, index) => (index * 7919 + 13) % 251),
    code: 2,
    says: /not text|not UTF-8/,
    refused: true,
  },
  {
    name: 'UTF-16 with a mark',
    content: utf16(first, true),
    code: 2,
    says: /UTF-16 text; save it as UTF-8/,
    refused: true,
  },
  {
    name: 'UTF-16 without a mark',
    content: utf16(first, false),
    code: 2,
    says: /UTF-16 text; save it as UTF-8/,
    refused: true,
  },
  {
    name: 'half a surrogate pair',
    content: Buffer.from([0x2f, 0x2f, 0xed, 0xa0, 0x80]),
    code: 2,
    says: /byte 2 \(0xED, on line 1\)/,
    refused: true,
  },
  { name: 'a byte order mark', content: `\uFEFF${first}`, code: 0, says: /0 errors/, refused: false },
  { name: 'CR LF', content: first.replaceAll('\n', '\r\n'), code: 0, says: /0 errors/, refused: false },
  { name: 'CR', content: first.replaceAll('\n', '\r'), code: 0, says: /0 errors/, refused: false },
  {
    name: 'zero bytes in text',
    content: first.replace('north', 'no\0rth'),
    code: 2,
    says: /not text: byte \d+ is zero/,
    refused: true,
  },
  {
    name: 'five megabytes on one line',
    content: `wall A note "${'x'.repeat(5_000_000)}"`,
    code: 1,
    says: /too long/,
    refused: true,
  },
  {
    name: 'five megabytes of digits',
    content: `wall A length ${'7'.repeat(5_000_000)}`,
    code: 1,
    says: /too long/,
    refused: true,
  },
  {
    name: '20 000 nested braces',
    content: `wall A\n${'{'.repeat(20_000)}\n${'}'.repeat(20_000)}\n`,
    code: 1,
    says: /:2:1/,
    refused: true,
  },
  {
    name: '20 000 lines of braces',
    content: `wall A\n${'{\n'.repeat(20_000)}${'}\n'.repeat(20_000)}`,
    code: 1,
    says: /:2:1/,
    refused: true,
  },
  {
    name: 'two walls of one name',
    content: `${first}\nwall A length 3'\n`,
    code: 1,
    says: /two walls called A/,
    refused: false,
  },
  { name: 'two marks of one name', content: first.replace('A-2', 'A-1'), code: 1, says: /A-1/, refused: false },
  {
    name: 'a file that is not there',
    content: `use "none.sill"\n${first}`,
    code: 1,
    says: /:1:5 language\/missing-file/,
    refused: true,
  },
  {
    name: 'a folder in place of a file',
    content: `use "folder"\n${first}`,
    code: 1,
    says: /it is a folder/,
    refused: true,
  },
  {
    name: 'a file outside its folder',
    content: `use "../../package.json"\n${first}`,
    code: 1,
    says: /outside the folder/,
    refused: true,
  },
  {
    name: 'a file in a strange encoding',
    content: `use "utf16.sill"\n${first}`,
    code: 1,
    says: /UTF-16/,
    refused: true,
  },
  { name: 'itself', content: `use "it.sill"\n${first}`, code: 1, says: /leads back/, refused: true },
  { name: 'an open string', content: first.replace('set in?"', 'set in?'), code: 1, says: /not closed/, refused: true },
  {
    name: 'a misspelt heading',
    content: first.replace('wall A', 'wal A'),
    code: 1,
    says: /did you mean `wall`/,
    refused: true,
  },
  {
    name: 'names that colour the terminal',
    content: first.replaceAll('A-1', '"\u001b[31mA\u202e-1"'),
    code: 0,
    says: /0 errors/,
    refused: false,
  },
];

mkdirSync(join(folder, 'folder'));
writeFileSync(join(folder, 'utf16.sill'), utf16('connector x side-plate\n', true));

describe('check of a bad file', () => {
  it.each(cases)('$name: a located word about it, and no defect', async ({ content, code, says }) => {
    const path = file('it.sill', content);
    const answer = await run('check', path);
    expect(answer.err + answer.out).toMatch(says);
    expect(answer.code).toBe(code);
    expect(answer.err + answer.out).not.toContain('\u001b');
    if (code === 1) expect(answer.out).toContain('it.sill');
  });

  it('says nothing but JSON when asked for JSON', async () => {
    for (const { content, code } of cases) {
      const { out } = await run('check', file('it.sill', content), '--format', 'json');
      if (code === 2) expect(out).toBe('');
      else expect(() => JSON.parse(out)).not.toThrow();
    }
  });
});

describe('fix and format of a bad file', () => {
  it.each(cases)('$name: nothing is lost', async ({ content, refused }) => {
    const path = file('it.sill', content);
    const before = readFileSync(join(folder, 'it.sill'));
    const mended = await run('fix', path, '--write');
    if (refused) expect(mended.code).toBe(2);
    else expect(mended.code).toBeLessThan(2);
    if (refused) expect(readFileSync(join(folder, 'it.sill')).equals(before)).toBe(true);
  });

  it.each(cases.filter(({ content }) => typeof content !== 'string' || !content.includes('use "')))(
    '$name: format keeps every word or refuses',
    async ({ content, refused }) => {
      const path = file('it.sill', content);
      const before = readFileSync(join(folder, 'it.sill'));
      const formatted = await run('format', path, '--write');
      expect(formatted.code).toBe(refused ? 2 : 0);
      const after = readFileSync(join(folder, 'it.sill'));
      if (refused) expect(after.equals(before)).toBe(true);
      else expect(after.toString().replace(/\s/g, '')).toBe(before.toString().replace(/\s/g, ''));
    },
  );
});

describe('other commands on a bad file', () => {
  it('draw, schedule and refuse without a defect', async () => {
    for (const { content } of cases) {
      const path = file('it.sill', content);
      for (const words of [
        ['draw', path, '--plan'],
        ['draw', path, '--wall', 'A'],
        ['schedule', path, '--format', 'csv'],
        ['schedule', path],
      ]) {
        const answer = await run(...words);
        expect(answer.code, `${words[0]} ${answer.err}`).not.toBe(3);
      }
    }
  });
});

describe('circles', () => {
  it('of three files are found once, where they close', async () => {
    file('one.sill', 'use "two.sill"\n');
    file('two.sill', 'use "three.sill"\n');
    file('three.sill', 'use "./folder/../one.sill"\nuse "two.sill"\n');
    const { code, out } = await run('check', relative(root, join(folder, 'one.sill')));
    expect(code).toBe(1);
    expect(out.match(/language\/circular-use/g)).toHaveLength(2);
    expect(out).toContain('three.sill:1:5');
  });

  it('are none where two files use the same third', async () => {
    file('a.sill', 'use "b.sill"\nuse "c.sill"\n');
    file('b.sill', 'use "c.sill"\n');
    file('c.sill', '// shared\n');
    const { out } = await run('check', relative(root, join(folder, 'a.sill')));
    expect(out).not.toContain('circular');
  });

  it('a chain of 2 000 files is followed to its end', async () => {
    for (let index = 0; index < 2000; index += 1) file(`chain-${index}.sill`, `use "chain-${index + 1}.sill"\n`);
    const { code, out } = await run('check', relative(root, join(folder, 'chain-0.sill')));
    expect(code).toBe(1);
    expect(out).toContain('chain-1999.sill:1:5 language/missing-file');
  });
});

describe('a file that breaks off', () => {
  it('is answered by the built command as by a person: 0, 1 or 2, never 3', () => {
    const step = long ? 97 : 1009;
    for (let length = 0; length <= example.length; length += step) {
      const { code, signal, err } = runBuilt(['check', file('cut.sill', example.subarray(0, length))]);
      expect({ code, signal, err }).toMatchObject({ signal: null, err: '' });
      expect([0, 1]).toContain(code);
    }
  });

  it('in the middle of a character says at which byte', async () => {
    const bytes = Buffer.from(first.replace('north', 'nørth 北 😀'));
    for (let length = 0; length <= bytes.length; length += 1) {
      const cut = bytes.subarray(0, length);
      const broken = Buffer.from(cut.toString()).equals(cut) === false;
      if (!broken) continue;
      const { code, err } = await run('check', file('cut.sill', cut));
      expect(code).toBe(2);
      expect(err).toMatch(/is not UTF-8 text: byte \d+ \(0x[0-9A-F]{2}, on line \d+\)/);
    }
  });
});

describe('the built command on the worst of them', () => {
  it.each(cases.filter(({ name }) => /binary|megabytes on|nested|empty|UTF-16 with a/.test(name)))(
    '$name',
    ({ content, code }) => {
      const answer = runBuilt(['check', file('it.sill', content)]);
      expect(answer).toMatchObject({ code, signal: null });
    },
  );

  it.skipIf(process.platform === 'win32')('is not upset by a reader that leaves', () => {
    const path = file('it.sill', `wall A\n${'  sill\n'.repeat(20_000)}`);
    const { code, err } = runBuilt(['check', path, '--format', 'json'], { shellPipe: 'head -c 100' });
    expect(err).toBe('');
    expect(code).toBe(0);
  });
});
