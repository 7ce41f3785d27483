import { mkdirSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import process from 'node:process';
import fc from 'fast-check';
import { afterAll, describe, expect, it } from 'vitest';
import { createFolderHost } from '../../server/src/cli/folder-host.ts';
import { readTextFile } from '../../server/src/cli/read-text-file.ts';
import { freshFolder } from './folders.ts';

const folder = freshFolder('reading');
afterAll(() => rmSync(folder, { recursive: true }));

let files = 0;
function fileWith(bytes: Uint8Array | string): string {
  files += 1;
  const path = join(folder, `file-${files}.sill`);
  writeFileSync(path, bytes);
  return path;
}
const readBytes = (...bytes: number[]) => readTextFile(fileWith(Uint8Array.from(bytes)));

describe('reading a file', () => {
  it('takes UTF-8, and remembers a byte order mark without counting it as text', () => {
    expect(readTextFile(fileWith('wall süd 北 😀'))).toEqual({
      kind: 'text',
      text: 'wall süd 北 😀',
      byteOrderMark: false,
    });
    expect(readTextFile(fileWith('\uFEFFwall A'))).toEqual({ kind: 'text', text: 'wall A', byteOrderMark: true });
    expect(readTextFile(fileWith(''))).toEqual({ kind: 'text', text: '', byteOrderMark: false });
  });

  it('keeps a byte order mark that stands further on', () => {
    expect(readTextFile(fileWith('a\uFEFFb'))).toMatchObject({ text: 'a\uFEFFb' });
  });

  it('says at which byte a file stops being UTF-8, and on which line', () => {
    const latin1 = Buffer.concat([Buffer.from('wall A\nwall s'), Buffer.from([0xfc]), Buffer.from('d\n')]);
    expect(readTextFile(fileWith(latin1))).toEqual({
      kind: 'refused',
      reason: 'it is not UTF-8 text: byte 13 (0xFC, on line 2) starts no character; save it as UTF-8',
    });
  });

  // Unicode Standard, table 3-7: well-formed UTF-8 byte sequences.
  it.each([
    ['a lone continuation byte', [0x41, 0x80], 1],
    ['an overlong slash', [0xc0, 0xaf], 0],
    ['an overlong three-byte form', [0x41, 0xe0, 0x80, 0x80], 1],
    ['half a surrogate pair', [0x41, 0x42, 0xed, 0xa0, 0x80], 2],
    ['beyond the last code point', [0xf4, 0x90, 0x80, 0x80], 0],
    ['a character that breaks off at the end', [0x41, 0xe5, 0x8c], 1],
    ['a byte that never occurs', [0xc3, 0xbc, 0xff], 2],
  ])('refuses %s', (_name, bytes, at) => {
    expect(readBytes(...bytes)).toMatchObject({ kind: 'refused', reason: expect.stringContaining(`byte ${at} `) });
  });

  it('refuses exactly what the strict decoder of the platform refuses', () => {
    const strict = new TextDecoder('utf-8', { fatal: true });
    fc.assert(
      fc.property(fc.uint8Array({ minLength: 1, maxLength: 24 }), (bytes) => {
        if (bytes.includes(0) || (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff))
          return;
        let expected: string | undefined;
        try {
          expected = strict.decode(bytes);
        } catch {}
        const answer = readTextFile(fileWith(bytes));
        expect(answer.kind === 'text' ? answer.text : undefined).toBe(expected);
      }),
      { numRuns: 300 },
    );
  });

  it('knows UTF-16 with and without its mark', () => {
    const words = 'wall A "north"\n';
    const little = Buffer.from(words, 'utf16le');
    const big = Buffer.from(little).swap16();
    for (const bytes of [
      little,
      big,
      Buffer.concat([Buffer.from([0xff, 0xfe]), little]),
      Buffer.concat([Buffer.from([0xfe, 0xff]), big]),
    ]) {
      expect(readTextFile(fileWith(bytes))).toEqual({ kind: 'refused', reason: 'it is UTF-16 text; save it as UTF-8' });
    }
  });

  it('refuses what is no text', () => {
    expect(readBytes(0x50, 0x4b, 0x03, 0x04, 0x0a, 0x00, 0x41)).toEqual({
      kind: 'refused',
      reason: 'it is not text: byte 5 is zero',
    });
  });

  it('refuses folders, missing files and odd names in plain words', () => {
    expect(readTextFile(folder)).toMatchObject({ reason: 'it is a folder; name a .sill file in it' });
    expect(readTextFile(join(folder, 'no such.sill'))).toMatchObject({ reason: 'there is no such file or folder' });
    expect(readTextFile(join(fileWith('x'), 'below'))).toMatchObject({ reason: 'a part of its path is not a folder' });
    expect(readTextFile('a\0b')).toMatchObject({ reason: 'its name holds a zero byte' });
    expect(readTextFile(join(folder, 'x'.repeat(5000)))).toMatchObject({ reason: 'its name is too long' });
  });

  it.skipIf(process.platform === 'win32')('refuses what is neither file nor folder, without waiting for it', () => {
    expect(readTextFile('/dev/zero')).toMatchObject({ reason: 'it is not a plain file' });
  });

  it('refuses a file far larger than any layout', () => {
    expect(readTextFile(fileWith(new Uint8Array(33 * 1024 * 1024)))).toMatchObject({
      reason: 'it has 33 MB; a layout of more than 32 MB is not read',
    });
  });
});

describe('the folder that a layout may use', () => {
  const inner = join(folder, 'job');
  mkdirSync(join(inner, 'parts'), { recursive: true });
  const main = join(inner, 'main.sill');
  writeFileSync(main, '');
  writeFileSync(join(inner, 'parts', 'hardware.sill'), 'connector x side-plate\n');
  writeFileSync(join(folder, 'outside.sill'), '');
  const host = () => createFolderHost(main, '');

  it('is that of the file, and what lies below it', () => {
    const { file } = host().resolve(main, 'parts/hardware.sill') as { file: string };
    expect(file).toBe(join(inner, 'parts', 'hardware.sill'));
    expect(host().read(file)).toEqual({ text: 'connector x side-plate\n' });
    expect(host().resolve(file, '../main.sill')).toEqual({ file: main });
  });

  it.each(['../outside.sill', 'parts/../../outside.sill', '..', '.'])('is not left by %s', (path) => {
    expect(host().resolve(main, path)).toEqual({ refused: 'it lies outside the folder of main.sill; copy it in' });
  });

  it.each(['/etc/passwd', 'C:/x.sill', 'file:///x.sill', 'a\\b.sill', '', 'a\0b'])('is not left by %j', (path) => {
    expect(host().resolve(main, path)).toHaveProperty('refused');
  });

  it.skipIf(process.platform === 'win32')('is not left through a link', () => {
    symlinkSync('../outside.sill', join(inner, 'link.sill'));
    symlinkSync('..', join(inner, 'up'));
    expect(host().resolve(main, 'link.sill')).toHaveProperty('refused');
    expect(host().resolve(main, 'up/outside.sill')).toHaveProperty('refused');
  });

  it.skipIf(process.platform === 'win32')('knows one file under two names as one', () => {
    symlinkSync('parts', join(inner, 'same'));
    symlinkSync('main.sill', join(inner, 'self.sill'));
    const files = host();
    expect(files.resolve(main, 'same/hardware.sill')).toEqual(files.resolve(main, './parts//hardware.sill'));
    expect(files.resolve(main, 'self.sill')).toEqual({ file: main });
  });

  it('names files from where the user stands', () => {
    const near = relative(process.cwd(), main);
    expect(createFolderHost(near, '').resolve(near, 'parts/hardware.sill')).toEqual({
      file: relative(process.cwd(), join(inner, 'parts', 'hardware.sill')),
    });
  });

  it('says why a file cannot be read', () => {
    const files = host();
    const { file } = files.resolve(main, 'missing.sill') as { file: string };
    expect(files.read(file)).toEqual({ missing: 'there is no such file or folder' });
  });
});
