import { crc32, deflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { readKept } from '../../extension/webview/kept-state.ts';
import { itemByKey, stopAfter } from '../../extension/webview/next-by-key.ts';
import { paperSize } from '../../extension/webview/paper-size.ts';
import { withResolution } from '../../extension/webview/png-resolution.ts';
import { spaced } from '../../extension/webview/spaced.ts';

describe('a list that is walked by keys', () => {
  const items = ['Wall A', 'Wall F west', 'Girder GD'].map((textContent) => ({ textContent }));
  const itemAfter = (at: number, key: string) => itemByKey(items, at, key)?.textContent;
  it('goes round, to its ends, and to a word that begins with the letter', () => {
    expect(itemAfter(2, 'ArrowDown')).toBe('Wall A');
    expect(itemAfter(0, 'ArrowUp')).toBe('Girder GD');
    expect(itemAfter(0, 'End')).toBe('Girder GD');
    expect(itemAfter(1, 'Home')).toBe('Wall A');
    expect(itemAfter(0, 'w')).toBe('Wall F west');
    expect(itemAfter(1, 'g')).toBe('Girder GD');
    expect(itemAfter(0, 'x')).toBeUndefined();
    expect(itemAfter(0, 'Tab')).toBeUndefined();
  });
});

describe('things that are walked by keys', () => {
  const stops = [
    { x: 0, row: 3 },
    { x: 10, row: 1 },
    { x: 20, row: 0 },
    { x: 30, row: 1 },
  ];
  it('follow by station, and to the nearest of the row above or below', () => {
    expect(stopAfter(stops, -1, 'ArrowRight')).toBe(stops[0]);
    expect(stopAfter(stops, 1, 'ArrowRight')).toBe(stops[2]);
    expect(stopAfter(stops, 0, 'ArrowLeft')).toBeUndefined();
    expect(stopAfter(stops, 2, 'ArrowDown')).toBe(stops[1]);
    expect(stopAfter(stops, 3, 'ArrowDown')).toBe(stops[0]);
    expect(stopAfter(stops, 2, 'ArrowUp')).toBeUndefined();
    expect(stopAfter(stops, 2, 'End')).toBe(stops[3]);
  });
});

describe('the voice of the pane', () => {
  it('speaks at once, then not before the pause is over, and then the newest only', () => {
    let now = 0;
    let timers: { readonly at: number; readonly run: () => void }[] = [];
    const said: string[] = [];
    const say = spaced((words) => said.push(`${now}: ${words}`), 2000, {
      now: () => now,
      later: (run, milliseconds) => timers.push({ at: now + milliseconds, run }),
    });
    const passTo = (time: number): void => {
      now = time;
      const due = timers.filter(({ at }) => at <= time);
      timers = timers.filter(({ at }) => at > time);
      for (const { run } of due) run();
    };
    say('1 error');
    passTo(300);
    say('2 errors');
    passTo(600);
    say('3 errors');
    passTo(2000);
    say('3 errors');
    passTo(4000);
    expect(said).toEqual(['0: 1 error', '2000: 3 errors']);
  });
});

describe('a picture', () => {
  it('is as large as its sheet says', () => {
    expect(
      paperSize('<svg xmlns="http://www.w3.org/2000/svg" width="610mm" height="457.2mm" viewBox="0 0 610 457.2">'),
    ).toEqual([610, 457.2]);
    expect(paperSize('<svg viewBox="0 0 1 1">')).toBeUndefined();
  });

  it('says how many dots an inch has, in a chunk that a reader of PNG accepts, right behind the header', () => {
    const png = new Uint8Array(smallPng());
    const printed = Buffer.from(withResolution(png, 300));
    expect(printed.length).toBe(png.length + 21);
    const at = 33;
    expect(printed.subarray(at + 4, at + 8).toString()).toBe('pHYs');
    // PNG, third edition, 11.3.4.3: dots in a metre both ways, unit 1. 300 dots an inch are 11811 a metre.
    expect([printed.readUInt32BE(at + 8), printed.readUInt32BE(at + 12), printed[at + 16]]).toEqual([11811, 11811, 1]);
    expect(printed.readUInt32BE(at + 17)).toBe(crc32(printed.subarray(at + 4, at + 17)));
    expect(printed.subarray(at + 21)).toEqual(Buffer.from(png.subarray(33)));
  });

  it('that is none stays as it is', () => {
    const text = new TextEncoder().encode('no picture at all, but long enough to be one');
    expect(withResolution(text, 150)).toBe(text);
  });
});

describe('what is kept of a pane', () => {
  const uri = 'file:///house.sill';
  const choices = { units: 'metric', hidden: ['texture'] };
  it('is its own only: that of another file, or of none, is not taken', () => {
    expect(
      readKept({ uri, choices, wall: 'wall:F', elevation: { scale: 4, left: 10, top: 0 } }, uri, undefined),
    ).toMatchObject({
      choices,
      wall: 'wall:F',
      elevation: { scale: 4, left: 10, top: 0 },
    });
    for (const other of [undefined, 3, { uri: 'file:///b.sill', choices }])
      expect(readKept(other, uri, undefined).choices).toEqual({ units: 'as-written', hidden: [] });
  });

  it('gives way to what was chosen for the file where the pane is new', () => {
    expect(readKept(undefined, uri, JSON.stringify(choices)).choices).toEqual(choices);
    expect(readKept(undefined, uri, '{').choices.hidden).toEqual([]);
  });
});

function smallPng(): Buffer {
  const chunk = (type: string, data: Buffer): Buffer => {
    const body = Buffer.concat([Buffer.from(type), data]);
    const whole = Buffer.alloc(8 + body.length);
    whole.writeUInt32BE(data.length, 0);
    body.copy(whole, 4);
    whole.writeUInt32BE(crc32(body), 4 + body.length);
    return whole;
  };
  const header = Buffer.from([0, 0, 0, 1, 0, 0, 0, 1, 8, 0, 0, 0, 0]);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    signature,
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(Buffer.from([0, 9]))),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}
