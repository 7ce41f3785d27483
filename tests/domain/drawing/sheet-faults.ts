import type { Basis } from '../../../language/domain/documents/basis.ts';
import { textBox } from '../../../language/domain/drawing/lettering.ts';
import { type Box, type Group, type Scene, walkScene } from '../../../language/domain/drawing/scene.ts';
import { frameOf } from '../../../language/domain/drawing/sheet/sheet-sizes.ts';
import type { Sheet } from '../../../language/domain/drawing/sheet/sheets-of.ts';
import { TITLE_BLOCK } from '../../../language/domain/drawing/sheet/title-block.ts';
import { basisSentences } from '../../../language/domain/drawing/sheet-lists.ts';
import { capHeights } from '../../../language/domain/drawing/tokens.ts';
import { collisions, crossedTexts, meets, textsOf, tight, wordsOf } from './drawn.ts';

/** Where the title block must be: 131.6 x 104 mm at the lower right of the frame. */
export function titleBlockOf(scene: Scene): Box {
  const frame = frameOf(scene);
  const { width, height } = TITLE_BLOCK;
  return { x: frame.x + frame.width - width, y: frame.y + frame.height - height, width, height };
}

/** What is wrong with one sheet by itself, in words. */
export function faultsOfSheet({ name, scene }: Sheet, basis: Basis): readonly string[] {
  const frame = frameOf(scene);
  const block = titleBlockOf(scene);
  const texts = textsOf(scene).filter(({ node }) => node.text !== '');
  const lists = scene.regions.lists;
  const outside = texts.filter(({ node, within }) => !isGridReference(within) && !isIn(textBox(node), frame));
  const blockTexts = new Set(texts.filter(({ node }) => isIn(textBox(node), block)).map(({ node }) => node));
  const onBlock = texts.filter(({ node }) => !blockTexts.has(node) && meets(tight(textBox(node)), block));
  const listOverDrawing = texts.filter(
    ({ node, within }) =>
      lists !== undefined && name.includes('wall-') && isDrawing(within) && meets(tight(textBox(node), 0.3), lists),
  );
  const small = texts.filter(({ node }) => (node.capHeight ?? capHeights[node.size]) < 1.8);
  const all = wordsOf(scene);
  const first = basisSentences(basis)[0] ?? '';
  const must = [
    basis.label,
    'An aid to drafting and checking, not engineering; it does not show that the house is safe.',
    first.slice(0, 24),
    ...(basis.label === "for engineer's review" ? ["FOR ENGINEER'S REVIEW"] : []),
  ];
  const isMarked = [...walkScene(scene.nodes)].some(
    ({ node }) => node.kind === 'group' && node.role === 'watermark' && node.nodes.length > 0,
  );
  return [
    ...collisions(scene).map((each) => `collision: ${each}`),
    ...crossedTexts(scene).map((each) => `crossed: ${each}`),
    ...outside.map(({ node }) => `outside the frame: ${node.text}`),
    ...onBlock.map(({ node }) => `on the title block: ${node.text}`),
    ...(scene.regions.lists ? listOverDrawing.map(({ node }) => `drawing in the lists: ${node.text}`) : []),
    ...small.map(({ node }) => `too small: ${node.text}`),
    ...must.filter((words) => !all.includes(words)).map((words) => `does not say: ${words}`),
    ...(isMarked === basis.demo ? [] : ['DEMO VALUES where they do not belong, or not where they do']),
  ].map((fault) => `${name}: ${fault}`);
}

const isDrawing = (within: readonly Group[]): boolean => within.some(({ role }) => role === 'wall');

/** Numbers and letters in the margin are no words of the sheet. */
const isGridReference = (within: readonly Group[]): boolean =>
  within.length === 1 && within[0]?.hidden === true && within[0].role === undefined;

const isIn = (box: Box, around: Box): boolean =>
  box.x >= around.x &&
  box.y >= around.y &&
  box.x + box.width <= around.x + around.width &&
  box.y + box.height <= around.y + around.height;

/** What one drawing on one or more sheets uses and does not explain, or explains for nothing. */
export function legendFaults(sheets: readonly Sheet[]): readonly string[] {
  const faults: string[] = [];
  const drawings = new Map<string, Sheet[]>();
  for (const sheet of sheets) {
    const base = sheet.name.replace(/-continued(-\d+)?$/u, '');
    drawings.set(base, [...(drawings.get(base) ?? []), sheet]);
  }
  for (const [name, members] of drawings) {
    const [used, explained] = [new Set<string>(), new Set<string>()];
    for (const { scene } of members) {
      for (const { node, within } of walkScene(scene.nodes)) {
        if (node.kind !== 'group' || !node.symbol) continue;
        (within.some(({ role }) => role === 'legend') ? explained : used).add(node.symbol);
      }
    }
    faults.push(
      ...[...used].filter((symbol) => !explained.has(symbol)).map((symbol) => `${name}: not explained: ${symbol}`),
      ...[...explained]
        .filter((symbol) => !used.has(symbol))
        .map((symbol) => `${name}: explained for nothing: ${symbol}`),
    );
  }
  return faults;
}

export interface PlacedMarkOnSheet {
  readonly thing: string;
  readonly station: string;
  /** Where its leader leaves the tape. */
  readonly x: number;
}

/** Marks of the string under the tape, with the stations that are printed under them. */
export function marksOn(scene: Scene): readonly PlacedMarkOnSheet[] {
  const marks: PlacedMarkOnSheet[] = [];
  let leader: number | undefined;
  for (const { node } of walkScene(scene.nodes)) {
    if (node.kind !== 'group') continue;
    if (node.role === 'leader') {
      const [tick] = node.nodes;
      leader = tick?.kind === 'line' && tick.from[0] === tick.to[0] ? tick.from[0] : undefined;
    }
    if (node.thing === undefined || leader === undefined) continue;
    const station = node.nodes.find((each) => each.kind === 'group' && each.role === 'station');
    if (station?.kind !== 'group') continue;
    const [text] = station.nodes;
    if (text?.kind === 'text') marks.push({ thing: node.thing, station: text.text, x: leader });
  }
  return marks;
}
