import {
  chmodSync,
  linkSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { afterAll, describe, expect, it } from 'vitest';
import { isSameFile, writeTextFile } from '../../server/src/cli/write-text-file.ts';
import { freshFolder } from './folders.ts';

const folder = freshFolder('writing');
afterAll(() => rmSync(folder, { recursive: true }));

const at = (name: string): string => join(folder, name);
const nothingKept = { keep: [] };

describe('writing a file', () => {
  it('makes it, or puts the new text in place of the old', () => {
    expect(writeTextFile(at('new.svg'), 'one', nothingKept)).toEqual({ kind: 'written' });
    expect(writeTextFile(at('new.svg'), 'two é', nothingKept)).toEqual({ kind: 'written' });
    expect(readFileSync(at('new.svg'), 'utf8')).toBe('two é');
  });

  it('leaves nothing else behind, also when it fails', () => {
    const before = readdirSync(folder);
    writeTextFile(at('new.svg'), 'three', nothingKept);
    writeTextFile(join(at('no folder'), 'x.svg'), 'x', nothingKept);
    expect(readdirSync(folder)).toEqual(before);
  });

  it('says in plain words why it cannot', () => {
    mkdirSync(at('folder'));
    expect(writeTextFile(at('folder'), 'x', nothingKept)).toEqual({
      kind: 'refused',
      reason: 'it is a folder; name a file in it',
    });
    expect(writeTextFile(join(at('nowhere'), 'x'), 'x', nothingKept)).toMatchObject({
      reason: 'there is no such file or folder',
    });
    expect(writeTextFile(join(at('new.svg'), 'x'), 'x', nothingKept)).toMatchObject({
      reason: 'a part of its path is not a folder',
    });
    expect(writeTextFile('a\0b', 'x', nothingKept)).toMatchObject({ reason: 'its name holds a zero byte' });
  });

  it('never writes over a file that was read', () => {
    writeFileSync(at('house.sill'), 'wall A');
    expect(writeTextFile(at('./house.sill'), 'x', { keep: [at('house.sill')] })).toMatchObject({
      kind: 'refused',
      reason: `it is the file that was read (${at('house.sill')})`,
    });
    linkSync(at('house.sill'), at('hard.svg'));
    expect(writeTextFile(at('hard.svg'), 'x', { keep: [at('house.sill')] })).toMatchObject({ kind: 'refused' });
    expect(readFileSync(at('house.sill'), 'utf8')).toBe('wall A');
  });
});

describe.skipIf(process.platform === 'win32')('writing where there are links and rights', () => {
  it('neither follows nor replaces a link', () => {
    writeFileSync(at('target.txt'), 'kept');
    symlinkSync('target.txt', at('link.txt'));
    symlinkSync('nothing there', at('dangling.txt'));
    for (const link of ['link.txt', 'dangling.txt']) {
      expect(writeTextFile(at(link), 'x', nothingKept)).toEqual({
        kind: 'refused',
        reason: 'it is a link; name the file itself',
      });
      expect(lstatSync(at(link)).isSymbolicLink()).toBe(true);
    }
    expect(readFileSync(at('target.txt'), 'utf8')).toBe('kept');
  });

  it('knows a file through a linked folder', () => {
    symlinkSync('.', at('here'));
    expect(isSameFile(at('here/target.txt'), at('target.txt'))).toBe(true);
    expect(isSameFile(at('new.svg'), at('target.txt'))).toBe(false);
  });

  it('leaves devices alone', () => {
    expect(writeTextFile('/dev/null', 'x', nothingKept)).toEqual({ kind: 'refused', reason: 'it is not a plain file' });
  });

  it('keeps the rights of the file', () => {
    writeFileSync(at('mine.sill'), 'x');
    chmodSync(at('mine.sill'), 0o640);
    writeTextFile(at('mine.sill'), 'y', nothingKept);
    expect(statSync(at('mine.sill')).mode & 0o777).toBe(0o640);
  });
});
