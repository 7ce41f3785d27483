import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import process from 'node:process';
import { beforeAll, describe, expect, it } from 'vitest';
import { createOnigScanner, createOnigString, loadWASM } from 'vscode-oniguruma';
import { type IGrammar, INITIAL, parseRawGrammar, Registry } from 'vscode-textmate';
import { cutBlocks } from '../../language/syntax/cut.ts';
import { lexBlock } from '../../language/syntax/lex-block.ts';
import { textMateGrammar } from '../../scripts/textmate-grammar.ts';
import { samples } from './support.ts';

const root = join(import.meta.dirname, '../..');

describe('the generated files', () => {
  it('are what the grammar gives', () => {
    const output = execFileSync(process.execPath, ['scripts/generate.ts', '--check'], { cwd: root, encoding: 'utf8' });
    expect(output).not.toContain('wrote');
  });

  it('include the colouring of the editor', () => {
    const committed = JSON.parse(readFileSync(join(root, 'syntaxes/sillwright.tmLanguage.json'), 'utf8'));
    expect(committed).toEqual(JSON.parse(JSON.stringify(textMateGrammar())));
  });
});

let grammar: IGrammar;

beforeAll(async () => {
  const wasm = createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm');
  await loadWASM(new Uint8Array(readFileSync(wasm)).buffer);
  const registry = new Registry({
    onigLib: Promise.resolve({ createOnigScanner, createOnigString }),
    loadGrammar: async () => parseRawGrammar(JSON.stringify(textMateGrammar()), 'sillwright.json'),
  });
  const loaded = await registry.loadGrammar('source.sillwright');
  if (!loaded) throw new Error('the colouring cannot be loaded');
  grammar = loaded;
});

interface Coloured {
  readonly start: number;
  readonly end: number;
  readonly text: string;
  readonly scope: string;
}

function coloured(text: string): readonly Coloured[] {
  const result: Coloured[] = [];
  let state = INITIAL;
  let offset = 0;
  for (const line of text.split('\n')) {
    const { tokens, ruleStack } = grammar.tokenizeLine(line, state);
    state = ruleStack;
    for (const { startIndex, endIndex, scopes } of tokens) {
      const own = line.slice(startIndex, endIndex);
      const scope = (scopes[1] ?? '').replace(/\.sillwright$/, '');
      result.push({ start: offset + startIndex, end: offset + startIndex + own.length, text: own, scope });
    }
    offset += line.length + 1;
  }
  return result;
}

/** `text` and scope of what is coloured on a line. */
const colours = (line: string): readonly (readonly string[])[] =>
  coloured(line)
    .filter(({ text, scope }) => scope !== '' && text.trim() !== '')
    .map(({ text, scope }) => [text, scope]);

describe('colouring', () => {
  it.each([
    [
      'wall F "west" turn right length 36\'-4 3/8"  // found',
      [
        ['wall', 'keyword.control.block'],
        ['F', 'entity.name.section'],
        ['"', 'string.quoted.double'],
        ['west', 'string.quoted.double'],
        ['"', 'string.quoted.double'],
        ['turn', 'variable.parameter.attribute'],
        ['right', 'variable.parameter.attribute'],
        ['length', 'variable.parameter.attribute'],
        [`36'-4 3/8"`, 'constant.numeric.length'],
        ['// found', 'comment.line.double-slash'],
      ],
    ],
    [
      `  anchor  X1  1/2"    at 16'-0"   heavy-rust loss over 25 % credit none`,
      [
        ['anchor', 'storage.type.line'],
        ['X1', 'variable.other.mark'],
        ['1/2"', 'constant.numeric.length'],
        ['at', 'keyword.operator.word'],
        [`16'-0"`, 'constant.numeric.length'],
        ['heavy-rust', 'support.constant'],
        ['loss', 'variable.parameter.attribute'],
        ['over', 'keyword.operator.word'],
        ['25', 'constant.numeric.quantity'],
        ['%', 'keyword.other.unit'],
        ['credit', 'variable.parameter.attribute'],
        ['none', 'constant.language.unknown'],
      ],
    ],
    [
      'Work On GD',
      [
        ['Work', 'keyword.control.block'],
        ['On', 'keyword.operator.word'],
        ['GD', 'entity.name.section'],
      ],
    ],
    [
      '    + note "a \\" b" strength assume 2000 psi',
      [
        ['    +', 'punctuation.separator.continuation'],
        ['note', 'variable.parameter.attribute'],
        ['"', 'string.quoted.double'],
        ['a ', 'string.quoted.double'],
        ['\\"', 'string.quoted.double'],
        [' b', 'string.quoted.double'],
        ['"', 'string.quoted.double'],
        ['strength', 'variable.parameter.attribute'],
        ['assume', 'storage.modifier.quality'],
        ['2000', 'constant.numeric.quantity'],
        ['psi', 'keyword.other.unit'],
      ],
    ],
    [
      '  accept anchorage/end-too-far because "so" dated 2026-04-30',
      [
        ['accept', 'storage.type.line'],
        ['anchorage/end-too-far', 'support.constant.rule'],
        ['because', 'keyword.operator.word'],
        ['"', 'string.quoted.double'],
        ['so', 'string.quoted.double'],
        ['"', 'string.quoted.double'],
        ['dated', 'variable.parameter.attribute'],
        ['2026-04-30', 'constant.numeric.date'],
      ],
    ],
    ['  {', [['{', 'invalid.illegal.bracket']]],
  ])('%s', (line, expected) => {
    expect(colours(line)).toEqual(expected);
  });

  it('ends an open text with its line', () => {
    expect(
      coloured('  note "abc\n  sill F1')
        .filter(({ text }) => text === 'sill')
        .map(({ scope }) => scope),
    ).toEqual(['storage.type.line']);
  });

  it('does not read a name that begins like a keyword as one', () => {
    expect(colours('  sill sill-plate set-backs walled').slice(1)).toEqual([
      ['sill-plate', 'variable.other.name'],
      ['set-backs', 'variable.other.name'],
      ['walled', 'variable.other.name'],
    ]);
  });
});

const scopeOfToken: Readonly<Record<string, string | undefined>> = {
  COMMENT: 'comment.line.double-slash',
  DATE: 'constant.numeric.date',
  NOMINAL: 'constant.numeric.size',
  PENNY: 'constant.numeric.nail',
  MONEY: 'constant.numeric.money',
  LENGTH: 'constant.numeric.length',
  QUANTITY: 'constant.numeric.quantity',
  NUMBER: 'constant.numeric',
  RULE_ID: 'support.constant.rule',
  STRING: 'string.quoted.double',
};

describe.each(samples)('$path', ({ text }) => {
  it('is coloured as it is read', () => {
    const byStart = new Map(coloured(text).map((each) => [each.start, each]));
    for (const block of cutBlocks(text)) {
      const { tokens, hidden } = lexBlock(block.text);
      for (const token of [...tokens, ...hidden]) {
        const scope = scopeOfToken[token.kind];
        if (scope === undefined) continue;
        const colour = byStart.get(block.start + token.start);
        expect([token.image, colour?.scope]).toEqual([token.image, scope]);
        if (scope === 'constant.numeric.length') expect(colour?.text).toBe(token.image);
      }
    }
  });

  it('has each block word and each line word in its own colour', () => {
    for (const { start, text: own } of coloured(text).filter(({ scope }) => scope === 'keyword.control.block')) {
      expect(cutBlocks(text).some((block) => block.word === own.toLowerCase() && start >= block.start)).toBe(true);
    }
    const headings = cutBlocks(text).filter(({ kind }) => kind === 'block').length;
    expect(coloured(text).filter(({ scope }) => scope === 'keyword.control.block')).toHaveLength(headings);
  });
});
