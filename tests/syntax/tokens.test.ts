import { describe, expect, it } from 'vitest';
import { terminals } from '../../language/generated/rules.ts';
import { lexBlock } from '../../language/syntax/lex-block.ts';

/** The kinds of the tokens of a text, comments and strays too. */
function kinds(text: string): readonly string[] {
  const { tokens, hidden } = lexBlock(text);
  return [...tokens, ...hidden].sort((a, b) => a.start - b.start).map((token) => token.kind);
}

describe('lengths are one token in every spelling', () => {
  it.each([
    // feet and inches
    ...[
      `12'-3 1/2"`,
      `12'-3-1/2"`,
      `12' 3 1/2"`,
      `12' 3-1/2"`,
      `12'-3"`,
      `12'3"`,
      `12'-0"`,
      `12' - 3"`,
      `12'-3 1/2`,
      `12' 3-1/2`,
    ],
    ...[`12'-11 15/16"`, `12'-½"`, `12'-3½"`, `12' 3 ½"`, `12'-1/2"`, `12'-3.5"`, `-2'-4 3/8"`, `−2'-4 3/8"`, `+3'-0"`],
    ...[
      '3′-4½″',
      '3’-4½”',
      `3′ 4 1/2″`,
      '12 ft 3 in',
      '12 feet 3 inches',
      '1 foot 1 inch',
      '12ft 3in',
      `12 ft 3 1/2 in`,
      `12 ft. 3 in.`,
    ],
    ...[`12'-3 1/2''`, `12′-3′′`, `12’-3’’`, `12'–3"`, `12'—3"`, `12'-3 1⁄2"`],
    // feet
    ...[`12'`, `12.5'`, '12 ft', '12 feet', '12′', '12’'],
    // inches
    ...[
      '42"',
      '3-1/2"',
      '3 1/2"',
      '3½"',
      '½"',
      '1/2"',
      '40.5in',
      '42 in',
      '42 inches',
      `42''`,
      '42″',
      '42”',
      '-5-7/8"',
      '5/8"',
      '1/3"',
    ],
    // metric
    ...['1067 mm', '1067mm', '106.7 cm', '1.067m', '1.067 m', '-12 mm'],
    // as phones and caps lock write them
    ...['12 Ft 3 In', '12 FEET', '42 IN', '1067 MM', '1.067 M'],
  ])('%s', (text) => {
    expect(kinds(text)).toEqual(['LENGTH']);
  });

  it('and what is behind them is left alone', () => {
    expect(kinds(`9' 6x6`)).toEqual(['LENGTH', 'NOMINAL']);
    expect(kinds(`4' 16d`)).toEqual(['LENGTH', 'PENNY']);
    expect(kinds(`3' 2x4 note`)).toEqual(['LENGTH', 'NOMINAL', 'note']);
    expect(kinds(`12' "label"`)).toEqual(['LENGTH', 'STRING']);
    expect(kinds(`3'-1" from right`)).toEqual(['LENGTH', 'from', 'right']);
    expect(kinds(`1/2" x 4-1/2"`)).toEqual(['LENGTH', 'x', 'LENGTH']);
    expect(kinds(`4 mm2`)).toEqual(['NUMBER', 'ID']);
    expect(kinds(`at 3' 1/2" sound`)).toEqual(['at', 'LENGTH', 'sound']);
  });
});

describe('a length that is being typed is one token at the end of its line', () => {
  it.each([`12'-`, `12'-3 1/`, `12' 3 1`, `12'-3-`, `12'-1/`])('%s', (text) => {
    expect(kinds(text)).toEqual(['HALF_LENGTH']);
    expect(kinds(`anchor X4 1/2" at ${text}\n  sill F1`).slice(0, 6)).toEqual([
      'anchor',
      'ID',
      'LENGTH',
      'at',
      'HALF_LENGTH',
      'NL',
    ]);
  });
});

describe('other quantities are one token each', () => {
  it.each([
    [
      'QUANTITY',
      ['2500 psi', '13.8 MPa', '45°', '-45°', '25 %', '25%', '1097 sq ft', '72 sq in', '45 ft-lb', '60 N·m', '60 N-m'],
    ],
    [
      'QUANTITY',
      [
        '80 psf',
        '150 pcf',
        '300 plf',
        '1 lb',
        '900 lbs',
        '1 kip',
        '3 kips',
        '3 kN',
        '3 kN/m',
        '12 kPa',
        '5 N',
        '80 kg/m2',
      ],
    ],
    ['QUANTITY', ['80 kg/m²', '80 kg', '101 m2', '101 m²', '35 min', '2 hours', '1 hour', '45 deg', '−3 ksi']],
    ['LOOSE', ['3-4 1/2', '1/2', '3 1/2', '3-4']],
    ['NUMBER', ['12', '-3', '−3', '1.00', '+2', '1924']],
    ['DATE', ['2026-06-11']],
    ['NOMINAL', ['2x6', '10x10']],
    ['PENNY', ['8d', '16d']],
    ['MONEY', ['$18', '$19.50', '€5', '£3.25']],
    ['RULE_ID', ['anchorage/end-too-far', 'load-path/nail-swap', 'anchorage/a3']],
    ['ID', ['A-1', 'F-P3', 'süd', 'F.X4', 'GD', 'my_town', 'plywood-15-32', 'ось', '北']],
    ['STRING', ['"4 in drain"', '“4" drain”', '"4\\" drain"', '""', '"a \\\\"']],
    ['OPEN_STRING', ['"abc', '“abc', '"abc \\"', '"']],
  ])('%s', (kind, texts) => {
    for (const text of texts) expect([text, ...kinds(text)]).toEqual([text, kind]);
  });
});

describe('keywords', () => {
  it('yield to a longer name', () => {
    expect(kinds('sill sills sill-plate sill2 set-back set-backs')).toEqual([
      'sill',
      'ID',
      'ID',
      'ID',
      'set-back',
      'ID',
    ]);
  });

  it('are known in any case', () => {
    expect(kinds('SILL Sill sds j-BOLT osb r')).toEqual(['sill', 'sill', 'SDS', 'J-bolt', 'OSB', 'R']);
  });
});

describe('the lexer', () => {
  it('ends a line at each line break, but not inside a line that is carried on', () => {
    expect(kinds('a\r\nb\rc\nd')).toEqual(['ID', 'NL', 'ID', 'NL', 'ID', 'NL', 'ID']);
    expect(lexBlock("sill A\n  // comment\n  + to 3'").tokens.map((token) => token.kind)).toEqual([
      'sill',
      'ID',
      'to',
      'LENGTH',
    ]);
  });

  it('hides comments, and nothing else behind a slash', () => {
    expect(kinds('a // b')).toEqual(['ID', 'COMMENT']);
    expect(kinds('a / b')).toEqual(['ID', 'STRAY', 'ID']);
  });

  it('leaves no character of the sixteen-bit range unread', () => {
    for (let start = 0; start < 0x10000; start += 0x400) {
      const text = Array.from({ length: 0x400 }, (_, index) => `${String.fromCharCode(start + index)} `).join('\n');
      const { tokens, hidden } = lexBlock(text);
      const seen = new Set([...tokens, ...hidden].flatMap((token) => rangeOf(token.start, token.end - 1)));
      const unread = Array.from(text, (_, index) => index).filter((index) => !seen.has(index));
      // Line breaks in front of a `+` are taken away on purpose.
      expect(
        unread
          .map((index) => text.charAt(index))
          .filter((character) => !/[\r\n]/.test(character) && !blank.test(character)),
      ).toEqual([]);
    }
  });

  const blank = new RegExp(terminals.BLANK.source);
  const rangeOf = (start: number, end = start): readonly number[] =>
    Array.from({ length: end - start + 1 }, (_, index) => start + index);
});
