import { AstUtils } from 'langium';
import { describe, expect, it } from 'vitest';
import { lexBlock } from '../../language/syntax/lex-block.ts';
import { leavesOf, nodesOf, placeOf, type TreeNode } from '../../language/syntax/tree.ts';
import { libraryParser } from '../../scripts/baselines/library-parser.ts';
import { houseOf } from '../support/houses/house.ts';
import { plain, problemsOf, readSheet, samples } from './support.ts';

const library = await libraryParser();

describe.each(samples)('$path', ({ text }) => {
  const read = readSheet(text);

  it('is read without a problem', () => {
    expect(problemsOf(text)).toEqual([]);
  });

  it("gives the same trees as the parser library's own parser of the grammar", () => {
    const whole = library.parse(text);
    expect(whole.parserErrors).toEqual([]);
    expect(plain(whole.value)).toEqual({
      $type: 'Sheet',
      blocks: read.flatMap(({ tree }) => (tree ? [plain(tree)] : [])),
    });
  });

  it('keeps in each node the place of its text', () => {
    const { value } = library.parse(text);
    const inLibrary = [...AstUtils.streamAst(value)]
      .slice(1)
      .map(({ $type, $cstNode }) => [$type, $cstNode?.offset, $cstNode?.end]);
    const ours = read.flatMap(({ cut, tree }) =>
      tree ? [...nodesOf(tree)].map(({ $type, $start, $end }) => [$type, $start + cut.start, $end + cut.start]) : [],
    );
    // The library counts the line breaks behind a block to it.
    const blockTypes = new Set<unknown>(read.map(({ tree }) => tree?.$type));
    const startsOnly = (places: (string | number | undefined)[][]) =>
      places.map(([type, start, end]) => (blockTypes.has(type) ? [type, start] : [type, start, end]));
    expect(startsOnly(ours)).toEqual(startsOnly(inLibrary));
  });

  it('keeps in each node all that stands in it, in the order of the text', () => {
    for (const { cut, tree } of read) {
      for (const node of tree ? nodesOf(tree) : []) {
        expect([node.$parts[0]?.start, node.$parts.at(-1)?.end]).toEqual([node.$start, node.$end]);
        const children = Object.entries(node).flatMap(([key, value]) => (key.startsWith('$') ? [] : value));
        const held = node.$parts.flatMap((part) => part.node ?? []);
        expect(children.filter((child) => typeof child === 'object' && child !== null)).toHaveLength(held.length);
      }
      const words = lexBlock(cut.text).tokens.filter(({ kind }) => kind !== 'NL');
      const leaves = tree ? [...leavesOf(tree)].map(({ start, end }) => [start, end]) : [];
      expect(leaves).toEqual(words.map(({ start, end }) => [start, end]));
    }
  });

  it.each([
    ['CR LF', '\r\n'],
    ['CR', '\r'],
  ])('gives the same trees with %s line breaks', (_, lineBreak) => {
    const turned = readSheet(text.replaceAll('\n', lineBreak));
    expect(turned.map(({ problems }) => problems)).toEqual(read.map(() => []));
    expect(turned.map(({ tree }) => plain(tree))).toEqual(read.map(({ tree }) => plain(tree)));
  });

  it('gives the same trees with a byte-order mark', () => {
    const marked = readSheet(`\uFEFF${text}`);
    expect(marked.flatMap(({ problems }) => problems)).toEqual([]);
    expect(marked.flatMap(({ tree }) => (tree ? [plain(tree)] : []))).toEqual(
      read.flatMap(({ tree }) => (tree ? [plain(tree)] : [])),
    );
  });

  it('gives the same trees whatever the indentation', () => {
    const flat = readSheet(text.replaceAll(/^[ \t]+/gm, ''));
    const deep = readSheet(text.replaceAll(/^(?=[^\r\n])/gm, '\t   '));
    const trees = read.flatMap(({ tree }) => (tree ? [plain(tree)] : []));
    expect(flat.flatMap(({ tree }) => (tree ? [plain(tree)] : []))).toEqual(trees);
    expect(deep.flatMap(({ tree }) => (tree ? [plain(tree)] : []))).toEqual(trees);
  });
});

describe('random houses', () => {
  it.each([0, 1, 2, 3, 4, 5, 6, 7])("gives the trees of the parser library's own parser: house %i", (seed) => {
    const { text } = houseOf(seed, { design: true });
    const blocks = readSheet(text).flatMap(({ tree }) => (tree ? [plain(tree)] : []));
    expect(plain(library.parse(text).value)).toEqual({ $type: 'Sheet', blocks });
  });
});

describe('letter case', () => {
  const text = `wall Basement "West"
  Sill F1 To End SET-BACK 2" Headroom 9-1/2" Corner
  Vent Window at 3' Movable
  anchor R 1/2" at 3' j-bolt
seismic sds 1.0 r 6.5
  Site-Class d
`;

  it('is nothing for keywords and is kept for names', () => {
    expect(problemsOf(text)).toEqual([]);
    const [wall, seismic] = readSheet(text).map(({ tree }) => plain(tree));
    expect(wall).toMatchObject({
      name: 'Basement',
      label: 'West',
      items: [
        { $type: 'SillPiece', name: 'F1', attributes: [{ key: 'set-back' }, { key: 'headroom' }, { joint: 'corner' }] },
        { kind: 'vent', name: 'Window', attributes: [{ word: 'movable' }] },
        { $type: 'FoundAnchor', name: 'R', attributes: [{ kind: 'J-bolt' }] },
      ],
    });
    expect(seismic).toMatchObject({ items: [{ key: 'SDS' }, { key: 'R' }, { key: 'site-class', word: 'd' }] });
  });
});

describe('carrying a line on', () => {
  const inOneLine = readSheet('wall Z\n  sill A to 3\' butt note "y"\n').map(({ tree }) => plain(tree));

  it.each([
    ['at the left edge', 'wall Z\n  sill A\n+ to 3\' butt\n+ note "y"\n'],
    ['behind a comment', 'wall Z\n  sill A // first\n    + to 3\' // second\n    + butt note "y"\n'],
    ['behind blank lines and comments', 'wall Z\n  sill A\n\n  // between\n\n    + to 3\' butt note "y"\n'],
    ['with CR LF', 'wall Z\r\n  sill A\r\n    + to 3\' butt\r\n    + note "y"\r\n'],
  ])('works %s', (_, text) => {
    expect(problemsOf(text)).toEqual([]);
    expect(readSheet(text).map(({ tree }) => plain(tree))).toEqual(inOneLine);
  });

  it('works on a heading', () => {
    expect(readSheet('wall F "west"\n  + turn right\n  + length 3\'\n').map(({ tree }) => plain(tree))).toEqual(
      readSheet('wall F "west" turn right length 3\'\n').map(({ tree }) => plain(tree)),
    );
  });

  it('is not what a length with a plus means', () => {
    expect(problemsOf('wall Z\n  foundation thick 6" top\n  +3"\n')).toHaveLength(2);
  });
});

describe('the place of a property', () => {
  const text = `work on F
  anchor A-1 bolt-half at 0'-10" with washer-3
  anchor A-2 bolt-half at 4'-8"
  anchor A-3 bolt-haf foo at 8'-6"
`;

  it('is found on every line, those with a mistake too', () => {
    const tree = readSheet(text)[0]?.tree;
    if (tree?.$type !== 'Work') throw new Error('no work');
    const place = (node: TreeNode, property: string): string | undefined => {
      const found = placeOf(node, property);
      return found && text.slice(found.start, found.end);
    };
    expect(place(tree, 'on')).toBe('F');
    expect(tree.items.map((item) => ['name', 'connector', 'at'].map((property) => place(item, property)))).toEqual([
      ['A-1', 'bolt-half', `0'-10"`],
      ['A-2', 'bolt-half', `4'-8"`],
      ['A-3', 'bolt-haf', `8'-6"`],
    ]);
  });
});
