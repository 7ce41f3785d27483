import type { PropertyPart } from './grammar-parts.ts';
import type { TreeNode, TreePart } from './tree.ts';

/** Columns and comments stand on multiples of this, so that a longer name seldom moves its neighbours. */
export const columnStep = 4;

/** A part of a line that may stand below the same part of the line above. */
export interface Column {
  /** Parts of two lines are the same where this is; the first also says of what kind the line is. */
  readonly signature: string;
  readonly text: string;
}

/**
 * The parts of a line: its word, its name, its place, each attribute. None for lines of free text.
 * @param textOf the canonical text between two offsets.
 */
export function columnsOf(item: TreeNode, textOf: (start: number, end: number) => string): readonly Column[] {
  if (neverLinedUp.has(item.$type)) return [];
  const parts = partsOf(item);
  const kind = facts.has(item.$type) ? 'fact' : item.$type;
  const grouped = titleFacts.includes(item.$type) ? joinAll(parts) : kind === 'fact' ? joinValue(parts) : parts;
  const most = wordAndValue.has(item.$type) ? 2 : grouped.length;
  const columns = grouped.map(({ signature, start, end }, index) => ({
    signature: index === 0 ? kind : index < most ? signature : `${item.$type} rest ${start}`,
    text: textOf(start, end),
  }));
  return columns.filter((column) => column.text !== '');
}

/** Free texts, and lines of which one is seldom like the next. */
const neverLinedUp: ReadonlySet<string> = new Set([
  ...[
    'NoteLine',
    'PhotoLine',
    'AskLine',
    'Acceptance',
    'AbsentLine',
    'NoWork',
    'Discovered',
    'Diagonal',
    'LimitSource',
  ],
  ...['DemoLine', 'ReportLine', 'Fits', 'Body', 'Drop', 'Fastener', 'Holes', 'Capacity', 'MetalLine', 'ToolLine'],
]);

/** Key and value; they line up with each other whatever the key. */
const titleFacts = ['TitleText', 'UnitsFact', 'FaceFact', 'RulesFact', 'DateFact', 'InspectionFact', 'SheetsFact'];
const facts: ReadonlySet<string> = new Set([
  ...titleFacts,
  ...['HouseFact', 'HouseWords', 'SeismicFact', 'SeismicWord', 'WeightFact'],
]);

/** Only the first two parts line up: behind them stand long texts, or prices that are read one by one. */
const wordAndValue: ReadonlySet<string> = new Set(['Price', 'Labour', 'Rate', 'Factor', 'Allowance']);

interface Part {
  readonly signature: string;
  readonly start: number;
  readonly end: number;
}

function partsOf(item: TreeNode): readonly Part[] {
  const parts: Part[] = [];
  // Words of the grammar between the parts belong to the part behind them: `at` to the station.
  let wordsStart: number | undefined;
  let behindFlag = false;
  for (const part of item.$parts) {
    const last = parts.at(-1);
    if (!last) parts.push({ signature: item.$type, start: part.start, end: part.end });
    else if (!part.property) {
      // `as planned` is one word in two.
      if (behindFlag) parts.splice(-1, 1, { ...last, end: part.end });
      else wordsStart ??= part.start;
    } else {
      const signature = signatureOf(part.property, part);
      const start = wordsStart ?? part.start;
      wordsStart = undefined;
      if (part.property.as === 'item' && last.signature === signature && isList(part.property.property)) {
        parts.splice(-1, 1, { ...last, end: part.end });
      } else parts.push({ signature, start, end: part.end });
    }
    behindFlag = part.property?.as === 'flag';
  }
  const last = parts.at(-1);
  if (last && wordsStart !== undefined) parts.splice(-1, 1, { ...last, end: item.$end });
  return parts;
}

/** Attributes are told apart by what they are; all else by the property. */
function signatureOf({ property, as }: PropertyPart, { node }: TreePart): string {
  if (isList(property) || as !== 'item' || !node) return property;
  const key = 'key' in node ? node.key : 'comparison' in node ? node.comparison : '';
  return `${node.$type} ${key}`;
}

/** Properties that hold several things of one kind in one place of the line: `A-2, A-3`. */
function isList(feature: string): boolean {
  return !['attributes', 'tags', 'bounds'].includes(feature);
}

/** Word, value, tags: what stands between word and tags is the value. */
function joinValue(parts: readonly Part[]): readonly Part[] {
  const [word, ...rest] = parts;
  const tag = rest.findIndex((part) => part.signature.includes('Tag'));
  const value = tag < 0 ? rest : rest.slice(0, tag);
  const [first] = value;
  const last = value.at(-1);
  if (!word || !first || !last) return parts;
  return [word, { signature: 'value', start: first.start, end: last.end }, ...(tag < 0 ? [] : rest.slice(tag))];
}

/** Word and all the rest: the values of a title block are long texts. */
function joinAll(parts: readonly Part[]): readonly Part[] {
  const [word, first] = parts;
  const last = parts.at(-1);
  return word && first && last ? [word, { signature: 'value', start: first.start, end: last.end }] : parts;
}

/** The texts of the lines of a run, with the leading columns that all of them have below each other. */
export function lineUp(lines: readonly (readonly Column[])[]): readonly string[] {
  const [first] = lines;
  if (!first) return [];
  let shared = 0;
  while (shared < first.length && lines.every((line) => line[shared]?.signature === first[shared]?.signature)) shared++;
  let texts = lines.map(() => '');
  for (let column = 0; column < shared; column++) {
    texts = texts.map((text, index) => text + (lines[index]?.[column]?.text ?? ''));
    const longest = texts.reduce((most, text) => Math.max(most, text.length), 0);
    const next = (Math.floor(longest / columnStep) + 1) * columnStep;
    texts = texts.map((text, index) => ((lines[index]?.length ?? 0) > column + 1 ? text.padEnd(next) : text));
  }
  return texts.map(
    (text, index) =>
      text +
      (lines[index] ?? [])
        .slice(shared)
        .map((column) => column.text)
        .join(' '),
  );
}
