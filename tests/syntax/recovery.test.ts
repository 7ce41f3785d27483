import { describe, expect, it } from 'vitest';
import { linesOf } from '../../language/syntax/cut.ts';
import { lexBlock } from '../../language/syntax/lex-block.ts';
import { blockWords } from '../../language/syntax/words.ts';
import { plain, type ReadBlock, randomFrom, readSheet, samples } from './support.ts';

// A half-typed line hurts no other line and no other block: trials over every sample, the same in each run.

const trialsPerSample = 60;

interface Line {
  readonly start: number;
  readonly end: number;
  /** Without its line break. */
  readonly text: string;
}

/** The lines of a block as the grammar sees them: with those that carry them on. */
function logicalLines(text: string): readonly Line[] {
  const carriedOn = lexBlock(text).hidden.filter((token) => token.kind === 'CARRY_ON');
  const lines: Line[] = [];
  for (const { start, end } of linesOf(text)) {
    const last = lines.at(-1);
    const follows = carriedOn.some((token) => token.start < start && token.end > start);
    const from = last && follows ? last.start : start;
    if (last && follows) lines.pop();
    lines.push({ start: from, end, text: text.slice(from, end).replace(/[\r\n]+$/, '') });
  }
  return lines;
}

const holdsWords = (line: Line): boolean => /^\s*[^\s/]/.test(line.text);

/** The items of a block that stand outside a stretch of its text. */
function itemsOutside({ tree }: ReadBlock, start: number, end: number): readonly unknown[] {
  if (!tree || !('items' in tree)) return [];
  return tree.items.filter(({ $start, $end }) => $end <= start || $start >= end).map(plain);
}

interface Trial {
  readonly block: ReadBlock;
  /** The stretch of the block that the trial replaces. */
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

type Mutation = (block: ReadBlock, random: ReturnType<typeof randomFrom>) => Trial | undefined;

const bodyLines = (block: ReadBlock): readonly Line[] => {
  const [, ...body] = logicalLines(block.cut.text).filter(holdsWords);
  return body;
};

const nonsense = [
  'foo bar',
  'anchr 3 3 3',
  ') ( ,',
  'sill sill sill',
  "3' 4' 5'",
  '{ } [ ]',
  '" " "',
  'to to to',
  'at',
  '12 x',
  '§ $ %',
];
const wrongPlaces = [
  'at',
  'to',
  'from',
  'because',
  ',',
  '(',
  "3'",
  '"abc',
  '{',
  'size',
  'unknown',
  'assume',
  '8d',
  'x',
];

const mutations: Readonly<Record<string, Mutation>> = {
  'a line is cut short': (block, random) => {
    const lines = bodyLines(block);
    if (lines.length === 0) return undefined;
    const line = random.pick(lines);
    const indent = /^\s*/.exec(line.text)?.[0].length ?? 0;
    const kept = indent + 1 + random.below(line.text.length - indent);
    return { block, start: line.start, end: line.start + line.text.length, text: line.text.slice(0, kept) };
  },
  'the first half of a line is put in': (block, random) => {
    const lines = bodyLines(block);
    if (lines.length === 0) return undefined;
    const half = random.pick(lines).text;
    const before = random.pick(lines);
    return { block, start: before.start, end: before.start, text: `${half.slice(0, 3 + random.below(half.length))}\n` };
  },
  'a nonsense line is put in': (block, random) => {
    const lines = bodyLines(block);
    if (lines.length === 0) return undefined;
    const before = random.pick(lines);
    return { block, start: before.start, end: before.start, text: `  ${random.pick(nonsense)}\n` };
  },
  'a text is opened and not closed': (block, random) => {
    const lines = bodyLines(block).filter((line) => !line.text.includes('"'));
    if (lines.length === 0) return undefined;
    const line = random.pick(lines);
    const blanks = [...line.text.matchAll(/(?<=\S) /g)].map((match) => match.index);
    const at = blanks.length === 0 ? line.text.length : random.pick(blanks);
    return {
      block,
      start: line.start,
      end: line.start + line.text.length,
      text: `${line.text.slice(0, at)} "${line.text.slice(at + 1)}`,
    };
  },
  'a word is struck out': (block, random) => {
    const lines = bodyLines(block);
    if (lines.length === 0) return undefined;
    const line = random.pick(lines);
    const words = [...line.text.matchAll(/\S+/g)].slice(1);
    if (words.length === 0) return undefined;
    const word = random.pick(words);
    const text = line.text.slice(0, word.index) + line.text.slice(word.index + word[0].length);
    return { block, start: line.start, end: line.start + line.text.length, text };
  },
  'a word stands in the wrong place': (block, random) => {
    const lines = bodyLines(block);
    if (lines.length === 0) return undefined;
    const line = random.pick(lines);
    const words = [...line.text.matchAll(/\S+/g)].slice(1);
    if (words.length === 0) return undefined;
    const word = random.pick(words);
    const text = `${line.text.slice(0, word.index)}${random.pick(wrongPlaces)} ${line.text.slice(word.index)}`;
    return { block, start: line.start, end: line.start + line.text.length, text };
  },
  'a heading is cut short behind its word': (block, random) => {
    const heading = logicalLines(block.cut.text).find(holdsWords);
    if (!heading) return undefined;
    const word = /^\s*\S+/.exec(heading.text)?.[0].length ?? 0;
    const kept = word + random.below(heading.text.length - word + 1);
    return { block, start: heading.start, end: heading.start + heading.text.length, text: heading.text.slice(0, kept) };
  },
  'the sheet ends in the middle of a line': (block, random) => {
    const lines = bodyLines(block);
    if (lines.length === 0) return undefined;
    const line = random.pick(lines);
    const kept = 3 + random.below(line.text.length);
    return { block, start: line.start + Math.min(kept, line.text.length), end: block.cut.text.length, text: '' };
  },
};

describe.each(Object.entries(mutations))('when %s', (name, mutate) => {
  it.each(samples)('in $path, all other lines and blocks are read as before', ({ text, path }) => {
    const before = readSheet(text);
    const random = randomFrom(path.length * 7919 + name.length);
    const blocks = before.filter(({ cut }) => cut.kind === 'block');
    for (let trial = 0; trial < trialsPerSample; trial++) {
      const mutated = mutate(random.pick(blocks), random);
      if (!mutated) continue;
      const { block, start, end, text: written } = mutated;
      const at = block.cut.start + start;
      const sheet =
        text.slice(0, at) + written + (name.startsWith('the sheet ends') ? '' : text.slice(block.cut.start + end));
      const after = readSheet(sheet);
      const index = before.indexOf(block);
      const known = name.startsWith('the sheet ends') ? before.slice(0, index + 1) : before;
      const context = JSON.stringify({ written, line: block.cut.text.slice(start, end).slice(0, 80) });

      expect(
        after.map(({ cut }) => [cut.kind, cut.word]),
        context,
      ).toEqual(known.map(({ cut }) => [cut.kind, cut.word]));
      for (const [other, read] of known.entries()) {
        if (other !== index) expect(after[other]?.cut.text, context).toBe(read.cut.text);
      }
      const hurt = after[index];
      if (!hurt) throw new Error('the block is gone');
      const writtenEnd = start + written.length;
      const lineEnd = name.startsWith('the sheet ends') ? hurt.cut.text.length : writtenEnd;
      const lineStart = hurt.cut.text.lastIndexOf('\n', start - 1) + 1;
      expect(itemsOutside(hurt, lineStart, lineEnd), context).toEqual(itemsOutside(block, lineStart, end));
      // One mistake, one problem; characters that are no part of the language count one by one.
      const mistakes = hurt.problems.filter(({ code }) => !code.startsWith('stray'));
      expect(mistakes.length, context).toBeLessThanOrEqual(1);
      for (const problem of hurt.problems) {
        expect(problem.start, context).toBeGreaterThanOrEqual(lineStart);
        expect(problem.end, context).toBeLessThanOrEqual(Math.max(lineEnd, writtenEnd));
      }
    }
  });
});

describe('when a heading is misspelt', () => {
  it.each(samples)('in $path, its block is held back as one finding and all others are read as before', ({ text }) => {
    const before = readSheet(text);
    for (const [index, block] of before.entries()) {
      const { word, start, text: own } = block.cut;
      if (word === undefined) continue;
      const at = own.search(new RegExp(`^${word}\\b`, 'im'));
      const misspelt = `${word.slice(0, 1)}${word.slice(2)}`;
      if (at < 0 || blockWords.some((each) => each === misspelt)) continue;
      const after = readSheet(text.slice(0, start + at) + misspelt + text.slice(start + at + word.length));
      expect(after).toHaveLength(before.length);
      expect(after[index]?.cut.kind).toBe('unread');
      expect(after[index]?.problems.map(({ code, replacements }) => [code, replacements[0]?.text])).toEqual([
        ['unread-block', word],
      ]);
      for (const [other, read] of after.entries()) {
        if (other !== index) expect(read.cut.text).toBe(before[other]?.cut.text);
      }
    }
  });
});
