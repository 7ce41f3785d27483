import { describe, expect, it } from 'vitest';
import { rememberingTexts } from '../../language/domain/recent-texts.ts';

describe('work that is remembered by its text', () => {
  it('is done once for each short text, also where nothing comes of it', () => {
    const done: string[] = [];
    const lengthOf = rememberingTexts((text) => {
      done.push(text);
      return text === '' ? undefined : text.length;
    });
    expect([lengthOf('5"'), lengthOf('5"'), lengthOf(''), lengthOf('')]).toEqual([2, 2, undefined, undefined]);
    expect(done).toEqual(['5"', '']);
  });

  it('forgets those that nobody asked for lately, and does not keep long ones', () => {
    const done = new Map<string, number>();
    const ask = rememberingTexts((text) => {
      done.set(text, (done.get(text) ?? 0) + 1);
      return text;
    });
    ask('first');
    for (let each = 0; each < 5_000; each += 1) {
      expect(ask(String(each))).toBe(String(each));
      ask('held');
    }
    ask('first');
    expect([done.get('first'), done.get('held')]).toEqual([2, 1]);
    const long = '5'.repeat(100);
    expect([ask(long), ask(long)]).toEqual([long, long]);
    expect(done.get(long)).toBe(2);
  });
});
