import type { Basis } from '../documents/basis.ts';
import type { Checked } from '../rules/checked.ts';
import type { Finding } from '../rules/finding.ts';
import type { Citation } from '../rulesets/rule-set.ts';
import { lettered, plainText, shortened, textWidth, wrapText } from './lettering.ts';
import { markerWords, type NumberedFinding } from './numbered-findings.ts';
import type { Group, GroupRole, SceneNode, SymbolName, XY } from './scene.ts';
import { group, line, walkScene } from './scene.ts';
import { findingMarker } from './symbols.ts';
import { type ColourToken, capHeights, type TextSize } from './tokens.ts';

/** A piece of a column that is never torn. */
export interface Block {
  readonly role: GroupRole;
  readonly height: number;
  draw(at: XY): readonly SceneNode[];
  /** Stands before it where it starts a column or a sheet: the heading that it stands under. */
  readonly again?: Block;
  /** Only room between lists: it may be left out at the end of a column. */
  readonly blank?: true;
}

export interface Columns {
  readonly x: number;
  readonly y: number;
  readonly columns: number;
  readonly columnWidth: number;
  readonly gap: number;
}

/**
 * Flows blocks down the columns, in order, to the least height that they share. Returns one group for each role, in the
 * order in which the roles come up.
 */
export function flowBlocks(
  blocks: readonly Block[],
  into: Columns,
): { readonly nodes: readonly Group[]; readonly height: number } {
  const total = blocks.reduce((sum, block) => sum + block.height, 0);
  let low = blocks.reduce((most, block) => Math.max(most, block.height), total / into.columns);
  let high = total;
  for (let round = 0; round < 30 && high - low > 0.5; round++) {
    const middle = (low + high) / 2;
    if (columnsNeeded(blocks, middle) <= into.columns) high = middle;
    else low = middle;
  }
  const drawn = new Map<GroupRole, SceneNode[]>();
  let column = 0;
  let used = 0;
  let tallest = 0;
  for (const block of blocks) {
    if (used > 0 && used + block.height > high + 1e-6) {
      column++;
      used = 0;
    }
    const at: XY = [into.x + column * (into.columnWidth + into.gap), into.y + used];
    const nodes = drawn.get(block.role) ?? [];
    nodes.push(...block.draw(at));
    drawn.set(block.role, nodes);
    used += block.height;
    tallest = Math.max(tallest, used);
  }
  const nodes = [...drawn].map(([role, members]) =>
    group(members, { role, ...(role === 'list' ? { name: 'findings' } : {}) }),
  );
  return { nodes, height: tallest };
}

function columnsNeeded(blocks: readonly Block[], height: number): number {
  let columns = 1;
  let used = 0;
  for (const block of blocks) {
    if (used > 0 && used + block.height > height + 1e-6) {
      columns++;
      used = 0;
    }
    used += block.height;
  }
  return columns;
}

/** The lists under a drawing, in as many columns as the sheet has room for, with a line over them. */
export function listsUnder(
  bottom: number,
  width: number,
  margin: number,
  blocksFor: (columnWidth: number) => readonly Block[],
): { readonly nodes: readonly Group[]; readonly top: number; readonly height: number } {
  const inner = width - 2 * margin;
  const gap = 8;
  const columns = Math.max(1, Math.floor((inner + gap) / 128));
  const columnWidth = (inner - (columns - 1) * gap) / columns;
  const top = bottom + 5;
  const lists = flowBlocks(blocksFor(columnWidth), { x: margin, y: top, columns, columnWidth, gap });
  const over = line([margin, top - 3], [width - margin, top - 3], { colour: 'ink', pen: 'P2' });
  return { nodes: [group([over], { role: 'list' }), ...lists.nodes], top, height: lists.height };
}

const HEADING_HEIGHT = 9;

/** A heading over a rule. */
function headingBlock(title: string, width: number, role: GroupRole): Block {
  return {
    role,
    height: HEADING_HEIGHT,
    draw: ([x, y]) => [
      lettered(shortened(title, width, 'block-heading', 'regular'), [x, y + capHeights['block-heading']], {
        size: 'block-heading',
        face: 'regular',
      }),
      line([x, y + 5.4], [x + width, y + 5.4], { colour: 'ink', pen: 'P3' }),
    ],
  };
}

/** Two blocks as one that is never torn. */
export function stacked(first: Block, second: Block): Block {
  return {
    role: second.role,
    height: first.height + second.height,
    draw: ([x, y]) => [...first.draw([x, y]), ...second.draw([x, y + first.height])],
  };
}

export interface Paragraph {
  readonly text: string;
  readonly size: TextSize;
  readonly colour?: ColourToken;
  readonly heavy?: boolean;
}

/** A block with more lines than this is several: no column may be too short for one. */
const MOST_LINES = 24;

/** Wrapped text, as a rule one block. */
export function paragraphBlocks(paragraph: Paragraph, width: number, role: GroupRole): readonly Block[] {
  const lines = wrapText(plainText(paragraph.text), width, paragraph.size);
  return inChunks(lines).map((chunk) => linesBlock(chunk, paragraph, role));
}

function inChunks<Item>(items: readonly Item[]): readonly (readonly Item[])[] {
  const chunks = Array.from({ length: Math.max(1, Math.ceil(items.length / MOST_LINES)) }, (_, index) =>
    items.slice(index * MOST_LINES, (index + 1) * MOST_LINES),
  );
  return chunks;
}

function linesBlock(lines: readonly string[], paragraph: Omit<Paragraph, 'text'>, role: GroupRole, indent = 0): Block {
  const pitch = capHeights[paragraph.size] * 1.62;
  return {
    role,
    height: lines.length * pitch + 1.4,
    draw: ([x, y]) =>
      lines.map((text, index) =>
        lettered(text, [x + indent, y + capHeights[paragraph.size] + index * pitch], {
          size: paragraph.size,
          colour: paragraph.colour ?? 'ink',
          ...(paragraph.heavy ? { heavy: true } : {}),
        }),
      ),
  };
}

export function textBlocks(
  title: string,
  paragraphs: readonly Paragraph[],
  width: number,
  role: GroupRole,
): readonly Block[] {
  return underHeading(title, width, [
    ...paragraphs.flatMap((paragraph) => paragraphBlocks(paragraph, width, role)),
    spacer(role),
  ]);
}

/** The wall's or the house's findings with their numbers, then what could not be checked. */
export function findingBlocks(
  title: string,
  findings: readonly NumberedFinding[],
  notChecked: Checked['notChecked'],
  width: number,
): readonly Block[] {
  const blocks = findings.flatMap((entry) => findingBlocksOf(entry, width));
  if (findings.length === 0) {
    blocks.push(
      ...paragraphBlocks(
        {
          text: 'No finding here. That is a count under the rule set below, nothing more.',
          size: 'detail',
          colour: 'ink2',
        },
        width,
        'list',
      ),
    );
  }
  if (notChecked.length > 0) {
    const wants = [...new Set(notChecked.map((entry) => entry.wants))];
    const counts = `Not checked for want of measurements: ${notChecked.length}.`;
    blocks.push(
      ...paragraphBlocks(
        { text: `${counts} Wanted: ${wants.join('; ')}.`, size: 'detail', colour: 'ink2' },
        width,
        'list',
      ),
    );
  }
  return underHeading(title, width, [...blocks, spacer('list')]);
}

/** One block; a finding with a very long text goes on in more. */
function findingBlocksOf(entry: NumberedFinding, width: number): readonly Block[] {
  const { finding } = entry;
  const indent = 8.6 + Math.max(...Object.values(markerWords).map((word) => textWidth(word, 'least'))) + 2;
  const message = wrapText(plainText(finding.message), width - indent, 'label');
  const details = detailsOf(finding).flatMap((detail) => wrapText(plainText(detail), width - indent, 'least'));
  if (message.length + details.length <= MOST_LINES) return [findingBlock(entry, indent, message, details)];
  return [
    findingBlock(entry, indent, message.slice(0, MOST_LINES), []),
    ...inChunks(message.slice(MOST_LINES))
      .filter((lines) => lines.length > 0)
      .map((lines) => linesBlock(lines, { size: 'label' }, 'list', indent)),
    ...inChunks(details).map((lines) => linesBlock(lines, { size: 'least', colour: 'ink3' }, 'list', indent)),
  ];
}

function findingBlock(
  { number, finding, kind }: NumberedFinding,
  indent: number,
  message: readonly string[],
  details: readonly string[],
): Block {
  const pitch = capHeights.label * 1.6;
  const detailPitch = capHeights.least * 1.62;
  const height = Math.max(7.2, message.length * pitch + details.length * detailPitch + 2);
  return {
    role: 'list',
    height,
    draw: ([x, y]) => [
      group(
        [
          findingMarker(kind, number, [x + 3.4, y + 4.4]),
          lettered(markerWords[kind], [x + 8.6, y + capHeights.label], { size: 'least', colour: 'ink2' }),
          ...message.map((text, index) =>
            lettered(text, [x + indent, y + capHeights.label + index * pitch], { size: 'label' }),
          ),
          ...details.map((text, index) =>
            lettered(
              text,
              [x + indent, y + capHeights.label + (message.length - 1) * pitch + (index + 1) * detailPitch + 0.6],
              {
                size: 'least',
                colour: 'ink3',
              },
            ),
          ),
        ],
        {
          role: 'finding',
          name: `finding ${number}, ${markerWords[kind].toLowerCase()}: ${plainText(finding.message)}`,
          ...(finding.thing === undefined ? {} : { thing: finding.thing }),
        },
      ),
    ],
  };
}

function detailsOf(finding: Finding): readonly string[] {
  return [
    [finding.rule, ...(finding.citation ? [citationInWords(finding.citation)] : [])].join('   '),
    ...(finding.accepted === undefined ? [] : [`accepted: ${finding.accepted}`]),
  ];
}

/** A number that could not be read where it stands says so wherever it is used. */
function citationInWords({ text, trust }: Citation): string {
  switch (trust) {
    case 'recalled':
      return `${text} (recalled; confirm in your adopted copy)`;
    case 'from-memory':
      return `${text} (from memory)`;
    case 'common-practice':
      return text === 'common practice' ? 'common practice, no source' : `${text} (common practice, no source)`;
    case 'published':
      return text;
  }
}

export interface LegendEntry {
  readonly caption: string;
  /** Drawn about the middle of a field 16 mm wide and 8 mm high. */
  draw(centre: XY): readonly SceneNode[];
}
export type Legend = Readonly<Partial<Record<SymbolName, LegendEntry>>>;

/** The symbols that a drawing uses, in the order of the legend. */
export function symbolsUsed(nodes: readonly SceneNode[]): ReadonlySet<SymbolName> {
  const used = new Set<SymbolName>();
  for (const { node } of walkScene(nodes)) if (node.kind === 'group' && node.symbol) used.add(node.symbol);
  return used;
}

export function legendBlocks(legend: Legend, used: ReadonlySet<SymbolName>, width: number): readonly Block[] {
  const names = (Object.keys(legend) as SymbolName[]).filter((name) => used.has(name));
  if (names.length === 0) return [];
  const across = width > 110 ? 2 : 1;
  const cell = width / across;
  const rows: Block[] = [];
  for (let start = 0; start < names.length; start += across) {
    const members = names.slice(start, start + across).map((name) => {
      const entry = legend[name];
      return { name, entry, lines: entry ? wrapText(entry.caption, cell - 22, 'detail') : [] };
    });
    const pitch = capHeights.detail * 1.5;
    const height = Math.max(9, ...members.map((member) => member.lines.length * pitch + 3));
    rows.push({
      role: 'legend',
      height,
      draw: ([x, y]) =>
        members.map(({ name, entry, lines }, index) => {
          const left = x + index * cell;
          const middle = y + height / 2 - 0.5;
          const firstBaseline = middle - ((lines.length - 1) * pitch) / 2 + capHeights.detail / 2;
          return group(
            [
              group(withoutSymbols(entry?.draw([left + 9, middle]) ?? []), { hidden: true }),
              ...lines.map((text, row) => lettered(text, [left + 20, firstBaseline + row * pitch], { size: 'detail' })),
            ],
            { symbol: name },
          );
        }),
    });
  }
  return underHeading('Legend', width, [...rows, spacer('legend')]);
}

/** A sample in the legend stands for its own entry only. */
function withoutSymbols(nodes: readonly SceneNode[]): readonly SceneNode[] {
  return nodes.map((node) =>
    node.kind === 'group' ? group(withoutSymbols(node.nodes), node.hidden ? { hidden: true } : {}) : node,
  );
}

/** What a person under a house must have read before the first hole. */
export const beforeAnyHole: readonly string[] = [
  'Locate gas, water, power, phone and oil lines on both sides of the wall. What is not located is not cleared: locate and expose both sides first.',
  'Shroud, vacuum and respirator against silica. Suspected asbestos or lead: stop, do not disturb.',
  'Two people in the crawl space, way out clear. Eye protection, firm stance, depth stop.',
  'Never drill post-tensioned concrete, nor hammer on brittle, leaning or cracked walls. Shoring by a competent person.',
];

export function drillBlocks(width: number, notes: readonly string[]): readonly Block[] {
  const blocks = textBlocks(
    'Before you drill',
    [
      ...beforeAnyHole.map((text): Paragraph => ({ text, size: 'label' })),
      ...notes.map((text): Paragraph => ({ text, size: 'detail', colour: 'ink2' })),
    ],
    width,
    'legend',
  );
  return together(blocks);
}

export function basisBlocks(basis: Basis, width: number): readonly Block[] {
  const blocks = textBlocks(
    'Basis and limits',
    [
      { text: `${basis.label}: ${basis.rules}`, size: 'label', heavy: true },
      ...basisSentences(basis).map((text): Paragraph => ({ text, size: 'detail' })),
    ],
    width,
    'basis',
  );
  return together(blocks);
}

/** The lines are broken for a page of text; a column breaks them anew, a sentence a paragraph. */
export function basisSentences({ lines }: Basis): readonly string[] {
  return lines.join(' ').split(/(?<=\.) (?=[A-Z0-9])/u);
}

/** Blocks under a heading that is torn from the first of them by nobody, and stands again over those that are. */
export function underHeading(title: string, width: number, blocks: readonly Block[]): readonly Block[] {
  const [first, ...rest] = blocks;
  if (!first) return [];
  const again = headingBlock(`${title}, continued`, width, first.role);
  return [
    stacked(headingBlock(title, width, first.role), first),
    ...rest.map((block) => (block.again ? block : { ...block, again })),
  ];
}

/** One block of several: what must be read in one piece. */
function together(blocks: readonly Block[]): readonly Block[] {
  const [first] = blocks;
  if (!first) return [];
  return [
    {
      role: first.role,
      height: blocks.reduce((sum, block) => sum + block.height, 0),
      draw: ([x, y]) => {
        let top = y;
        return blocks.flatMap((block) => {
          const nodes = block.draw([x, top]);
          top += block.height;
          return nodes;
        });
      },
    },
  ];
}

export function spacer(role: GroupRole): Block {
  return { role, height: 6, draw: () => [], blank: true };
}
