import type { Basis } from '../../documents/basis.ts';
import { fingerprintOf, printFingerprint } from '../../documents/fingerprint.ts';
import type { Layout, LengthUnits, TitleFact } from '../../model/layout.ts';
import { lettered, plainText, shortened, textWidth, wrapText } from '../lettering.ts';
import { type Box, group, line, rect, type SceneNode } from '../scene.ts';
import { basisSentences, type Paragraph } from '../sheet-lists.ts';
import { capHeights } from '../tokens.ts';

/** What the title block of a sheet says beyond what all sheets of the house say (fields as ISO 7200 names them). */
export interface TitleOfSheet {
  readonly title: string;
  readonly scale: string;
  readonly units: LengthUnits;
  readonly number: number;
  readonly count: number;
}

export const TITLE_BLOCK = { width: 131.6, height: 104 } as const;

export interface HouseFields {
  readonly fields: readonly Field[];
  readonly basis: readonly Paragraph[];
}
interface Field {
  readonly name: string;
  readonly value: string;
  /** In eighths of the block's width and in rows. */
  readonly from: number;
  readonly to: number;
  readonly row: number;
}

export const notYetGiven = 'not yet given';

/** The fields that every sheet of a house shares; worked out once for all of them. */
export function houseFields(layout: Layout, basis: Basis): HouseFields {
  const { title } = layout;
  const fact = (name: TitleFact): string => title.facts.get(name) ?? notYetGiven;
  const issue = layout.issues[layout.issues.length - 1];
  const fingerprint = printFingerprint(fingerprintOf(layout));
  const since =
    issue?.fingerprint === undefined || sameFingerprint(issue.fingerprint, fingerprint)
      ? fingerprint
      : `${fingerprint}, not that of issue ${issue.number ?? ''} (${printFingerprint(bare(issue.fingerprint))})`;
  const code = title.facts.get('code');
  const field = (row: number, from: number, to: number, name: string, value: string): Field => ({
    name,
    value: plainText(value),
    from,
    to,
    row,
  });
  return {
    fields: [
      field(0, 0, 4, 'House', title.name ?? notYetGiven),
      field(0, 4, 8, 'Site address', fact('address')),
      field(1, 0, 4, 'Owner', fact('owner')),
      field(1, 4, 8, 'Jurisdiction, permit no.', `${fact('jurisdiction')}, ${fact('permit-number')}`),
      field(2, 0, 4, 'Code, rule set', code === undefined ? basis.rules : `${code}; ${basis.rules}`),
      field(2, 4, 6, 'Surveyed', dated(title.surveyed)),
      field(2, 6, 8, 'Prepared by', title.prepared?.by ?? notYetGiven),
      field(
        3,
        0,
        2,
        'Issue',
        issue ? [issue.number, issue.date].filter((each) => each !== undefined).join(', ') : notYetGiven,
      ),
      field(3, 2, 4, 'For', issue?.purpose ?? title.prepared?.purpose ?? notYetGiven),
      field(3, 4, 6, 'Fingerprint', since),
      field(3, 6, 8, 'Licence', fact('licence')),
    ],
    basis: [
      { text: `${basis.label}: ${basis.rules}`, size: 'least', heavy: true },
      ...basisSentences(basis).map((text): Paragraph => ({ text, size: 'least' })),
    ],
  };
}

const dated = (fact: Layout['title']['surveyed']): string =>
  fact ? [fact.date, fact.by].filter((part) => part !== undefined).join(', ') : notYetGiven;

const bare = (fingerprint: string): string => fingerprint.replace('-', '').toLowerCase();
const sameFingerprint = (a: string, b: string): boolean => bare(a) === bare(b);

const TITLE_HEIGHT = 17;
const ROW_HEIGHT = 10;
const EIGHTH = TITLE_BLOCK.width / 8;
const ROWS = 5;
const BASIS_TOP = TITLE_HEIGHT + ROWS * ROW_HEIGHT;
const BASIS_WIDTH = 93;
const SHEET_FIELD = 14;
const PAD = 1.6;
const LEAST_PITCH = 2.85;

/**
 * The title block at the lower right of a frame. What is too long for its field is given back, to be printed beside it:
 * nothing of it may be lost.
 */
export function titleBlock(frame: Box, { fields, basis }: HouseFields, layout: Layout, of: TitleOfSheet): TitleBlock {
  const x = frame.x + frame.width - TITLE_BLOCK.width;
  const y = frame.y + frame.height - TITLE_BLOCK.height;
  const [right, bottom] = [x + TITLE_BLOCK.width, y + TITLE_BLOCK.height];
  const all: readonly Field[] = [
    ...fields,
    { row: 4, from: 0, to: 4, name: 'Scale', value: of.scale },
    { row: 4, from: 4, to: 6, name: 'Units', value: of.units },
    { row: 4, from: 6, to: 8, name: 'Face', value: layout.title.face },
  ];
  const title = titleNodes(plainText(of.title), x, y);
  const drawn = all.map((field) => fieldNodes(field, x, y));
  const limits = basisNodes(basis, x, y + BASIS_TOP);
  const stampLeft = x + BASIS_WIDTH;
  const sheetTop = bottom - SHEET_FIELD;
  const number = lettered(`R${of.number}`, [stampLeft + PAD, bottom - 3.4], {
    size: 'sheet-heading',
    face: 'regular',
    heavy: true,
  });
  return {
    nodes: group([
      rect({ x, y, ...TITLE_BLOCK }, { stroke: { colour: 'ink', pen: 'P1' } }),
      ...title.nodes,
      ...drawn.flatMap(({ nodes }) => nodes),
      line([x, y + TITLE_HEIGHT], [right, y + TITLE_HEIGHT], { colour: 'ink', pen: 'P4' }),
      line([x, y + BASIS_TOP], [right, y + BASIS_TOP], { colour: 'ink', pen: 'P4' }),
      group(limits.nodes, { role: 'basis' }),
      line([stampLeft, y + BASIS_TOP], [stampLeft, bottom], { colour: 'ink', pen: 'P4' }),
      fieldName('Stamp', stampLeft, y + BASIS_TOP),
      line([stampLeft, sheetTop], [right, sheetTop], { colour: 'ink', pen: 'P2' }),
      fieldName('Sheet', stampLeft, sheetTop),
      number,
      lettered(`${of.number} of ${of.count}`, [right - PAD, bottom - 3.4], { size: 'label', anchor: 'end' }),
    ]),
    fieldsLeft: [...title.left, ...drawn.flatMap(({ left }) => left)],
    basisLeft: limits.left,
  };
}

export interface TitleBlock {
  readonly nodes: SceneNode;
  /** Too long for their fields, in full. */
  readonly fieldsLeft: readonly Paragraph[];
  readonly basisLeft: readonly Paragraph[];
}

interface Drawn {
  readonly nodes: readonly SceneNode[];
  readonly left: readonly Paragraph[];
}

const inFull = (name: string, value: string): readonly Paragraph[] => [{ text: `${name}: ${value}`, size: 'detail' }];

const fieldName = (name: string, x: number, y: number): SceneNode =>
  lettered(name, [x + PAD, y + 1 + capHeights.least], { size: 'least', colour: 'ink3' });

function titleNodes(title: string, x: number, y: number): Drawn {
  const room = TITLE_BLOCK.width - 2 * PAD;
  const isShort = textWidth(title, 'sheet-heading', 'regular') <= room;
  const lines = isShort ? [title] : wrapText(title, room, 'block-heading', 'regular');
  const size = isShort ? 'sheet-heading' : 'block-heading';
  return {
    nodes: [
      fieldName('Title', x, y),
      ...lines
        .slice(0, 2)
        .map((text, index) =>
          lettered(text, [x + PAD, y + (isShort ? 13.2 : 8.8 + index * 5.4)], { size, face: 'regular' }),
        ),
    ],
    left: lines.length > 2 ? inFull('Title', title) : [],
  };
}

function fieldNodes({ name, value, from, to, row }: Field, left: number, top: number): Drawn {
  const x = left + from * EIGHTH;
  const y = top + TITLE_HEIGHT + row * ROW_HEIGHT;
  const room = (to - from) * EIGHTH - 2 * PAD;
  const edges: SceneNode[] = [
    ...(row === 0 ? [] : [line([x, y], [left + to * EIGHTH, y], { colour: 'ink', pen: 'P4' })]),
    ...(from === 0 ? [] : [line([x, y], [x, y + ROW_HEIGHT], { colour: 'ink', pen: 'P4' })]),
    fieldName(name, x, y),
  ];
  if (textWidth(value, 'label') <= room)
    return { nodes: [...edges, lettered(value, [x + PAD, y + 7.6], { size: 'label' })], left: [] };
  const lines = wrapText(value, room, 'least');
  const shown = lines.length > 2 ? [lines[0] ?? '', shortened(lines.slice(1).join(' '), room, 'least')] : lines;
  return {
    nodes: [
      ...edges,
      ...shown.map((text, index) => lettered(text, [x + PAD, y + 5.9 + index * 2.8], { size: 'least' })),
    ],
    left: lines.length > 2 ? inFull(name, value) : [],
  };
}

/** As many sentences as there is room for, run on; the others stand beside the block. */
function basisNodes([label, ...sentences]: readonly Paragraph[], x: number, y: number): Drawn {
  const width = BASIS_WIDTH - 2 * PAD;
  const most = Math.floor((TITLE_BLOCK.height - BASIS_TOP - 5.2) / LEAST_PITCH);
  const heads = label ? wrapText(plainText(label.text), width, 'least') : [];
  const linesOf = (count: number): readonly string[] =>
    wrapText(
      sentences
        .slice(0, count)
        .map(({ text }) => plainText(text))
        .join(' '),
      width,
      'least',
    );
  const fitsHead = heads.length <= most - 1;
  const room = most - (fitsHead ? heads.length : 0);
  let taken = fitsHead ? sentences.length : 0;
  // A line for the note that there is more.
  while (taken > 0 && linesOf(taken).length > room - (taken < sentences.length ? 1 : 0)) taken -= 1;
  const shown: readonly { readonly text: string; readonly heavy?: true; readonly colour?: 'ink2' }[] = [
    ...(fitsHead ? heads.map((text) => ({ text, heavy: true as const })) : []),
    ...linesOf(taken).map((text) => ({ text })),
    ...(taken < sentences.length || !fitsHead
      ? [{ text: 'More under "Basis and limits, continued".', colour: 'ink2' as const }]
      : []),
  ];
  return {
    nodes: [
      fieldName('Basis and limits of this sheet', x, y),
      ...shown.map(({ text, heavy, colour }, index) =>
        lettered(text, [x + PAD, y + 6.4 + index * LEAST_PITCH], {
          size: 'least',
          ...(heavy ? { heavy } : {}),
          ...(colour ? { colour } : {}),
        }),
      ),
    ],
    left: [...(fitsHead || !label ? [] : [label]), ...sentences.slice(taken)].map((sentence) => ({
      ...sentence,
      size: 'detail',
    })),
  };
}
