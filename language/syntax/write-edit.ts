import type { ThingEdit } from '../domain/fixes/edit.ts';
import type { Layout, NewAnchor, Wall } from '../domain/model/layout.ts';
import type { Block, FileId, FileSpan, SourceSpan } from '../domain/model/source.ts';
import { formatExactStation } from '../domain/units/format-length.ts';
import { formatSheet } from './format.ts';
import { printName } from './print.ts';
import type { TextChange } from './text-change.ts';

export interface EditedSource {
  readonly file: FileId;
  readonly layout: Layout;
  locate(span: SourceSpan): FileSpan | undefined;
  textOf(file: FileId): string | undefined;
}

/**
 * Edits of things as changes of text: one change for each block that they touch, so that one undo takes them back.
 * A block that was in canonical format stays so. Refused in words where the text has no place for an edit.
 */
export function writeThingEdits(
  source: EditedSource,
  edits: readonly ThingEdit[],
):
  | { readonly kind: 'changes'; readonly changes: readonly (TextChange & { readonly file: FileId })[] }
  | { readonly kind: 'refused'; readonly reason: string } {
  const pieces: { readonly file: FileId; readonly block: Block | undefined; readonly change: TextChange }[] = [];
  const appended = new Map<string, string[]>();
  for (const edit of edits) {
    if (edit.kind === 'insert-anchor' && !placeForAnchor(source.layout, edit)) {
      const wall = source.layout.walls.find((each) => each.id === edit.wall);
      if (!wall) return { kind: 'refused', reason: `no wall ${edit.wall} any more` };
      appended.set(wall.name, [...(appended.get(wall.name) ?? []), anchorLine(source.layout, edit)]);
      continue;
    }
    const placed = changeFor(source, edit);
    if ('reason' in placed) return { kind: 'refused', reason: placed.reason };
    pieces.push(placed);
  }

  const changes: (TextChange & { readonly file: FileId })[] = [];
  const byBlock = new Map<Block | undefined, typeof pieces>();
  for (const piece of pieces) byBlock.set(piece.block, [...(byBlock.get(piece.block) ?? []), piece]);
  for (const [block, group] of byBlock) {
    const file = group[0]?.file;
    const text = file === undefined ? undefined : source.textOf(file);
    if (file === undefined || text === undefined) return { kind: 'refused', reason: 'the file is not open any more' };
    const written = changeOfBlock(
      source,
      block,
      group.map((piece) => piece.change),
      text,
    );
    if (written) changes.push({ file, ...written });
  }
  if (appended.size > 0) {
    const text = source.textOf(source.file);
    if (text === undefined) return { kind: 'refused', reason: 'the file is not open any more' };
    changes.push({ file: source.file, ...newWorkBlocks(text, appended) });
  }
  return {
    kind: 'changes',
    changes: changes.sort((a, b) => (a.file === b.file ? a.start - b.start : a.file < b.file ? -1 : 1)),
  };
}

/** Applies changes that do not overlap. */
export function applyChanges(text: string, changes: readonly TextChange[]): string {
  let result = '';
  let reached = 0;
  for (const change of changes.toSorted((a, b) => a.start - b.start || a.end - b.end)) {
    result += text.slice(reached, change.start) + change.text;
    reached = change.end;
  }
  return result + text.slice(reached);
}

type InsertAnchor = Extract<ThingEdit, { kind: 'insert-anchor' }>;

function changeFor(
  source: EditedSource,
  edit: ThingEdit,
): { readonly file: FileId; readonly block: Block; readonly change: TextChange } | { readonly reason: string } {
  const { layout } = source;
  const replace = (span: SourceSpan | undefined, text: string, what: string) => {
    const place = span && source.locate(span);
    if (!span || !place) return { reason: `${what} does not stand in a text that can be changed` };
    return { file: place.file, block: span.block, change: { start: place.start, end: place.end, text } };
  };
  switch (edit.kind) {
    case 'replace-text':
      return replace(edit.span, edit.text, 'this');
    case 'set-station': {
      const anchor = findAnchor(layout, edit.anchor);
      return replace(
        anchor?.stationSource,
        formatExactStation(edit.station, layout.title.units),
        `the station of ${anchor?.name ?? edit.anchor}`,
      );
    }
    case 'set-connector': {
      const anchor = findAnchor(layout, edit.anchor);
      return replace(
        anchor?.connectorSource,
        printName(edit.connector),
        `the connector of ${anchor?.name ?? edit.anchor}`,
      );
    }
    case 'insert-anchor': {
      const spot = placeForAnchor(layout, edit);
      const place = spot && source.locate(spot.below);
      const text = place && source.textOf(place.file);
      if (!spot || !place || text === undefined)
        return { reason: 'there is no `work on` block to write the anchor into' };
      const lineEnd = endOfLine(text, lastInkBefore(text, place.end));
      const line = `${lineBreakOf(text)}  ${anchorLine(layout, edit)}`;
      return { file: place.file, block: spot.below.block, change: { start: lineEnd, end: lineEnd, text: line } };
    }
  }
}

/** Below the anchor that it follows, or at the end of the wall's last `work on` block. */
function placeForAnchor(layout: Layout, edit: InsertAnchor): { readonly below: SourceSpan } | undefined {
  const wall = layout.walls.find((each) => each.id === edit.wall);
  const after = edit.after === undefined ? undefined : findAnchor(layout, edit.after);
  if (after) return { below: after.source };
  const block = wall?.workBlocks[wall.workBlocks.length - 1];
  if (!wall || !block) return undefined;
  const last = lastAnchorIn(wall, block.source.block);
  return { below: last?.source ?? block.headingSource };
}

function lastAnchorIn(wall: Wall, block: Block): NewAnchor | undefined {
  return wall.anchors
    .filter((anchor) => anchor.source.block === block)
    .reduce<NewAnchor | undefined>(
      (last, each) => (last && last.source.end > each.source.end ? last : each),
      undefined,
    );
}

function findAnchor(layout: Layout, id: string): NewAnchor | undefined {
  for (const wall of layout.walls) {
    const anchor = wall.anchors.find((each) => each.id === id);
    if (anchor) return anchor;
  }
  return undefined;
}

function anchorLine(layout: Layout, edit: InsertAnchor): string {
  return `anchor ${printName(edit.mark)} ${printName(edit.connector)} at ${formatExactStation(edit.station, layout.title.units)} proposed`;
}

function newWorkBlocks(text: string, anchors: ReadonlyMap<string, readonly string[]>): TextChange {
  const lineBreak = lineBreakOf(text);
  const end = lastInkBefore(text, text.length);
  const lineEnd = end === 0 ? 0 : endOfLine(text, end);
  const blocks = [...anchors].map(
    ([wall, lines]) =>
      formatSheet([`work on ${printName(wall)}`, ...lines.map((line) => `  ${line}`)].join(lineBreak)).text,
  );
  const lead = lineEnd === 0 ? '' : lineBreak + lineBreak;
  return { start: lineEnd, end: text.length, text: `${lead}${blocks.join(lineBreak + lineBreak)}${lineBreak}` };
}

/** One change for a block; where it was in canonical format before, it is afterwards. */
function changeOfBlock(
  source: EditedSource,
  block: Block | undefined,
  changes: readonly TextChange[],
  text: string,
): TextChange | undefined {
  const spot = block && source.locate({ block, start: 0, end: 0 });
  if (!spot) return changes[0];
  const start = spot.start;
  const end = Math.min(text.length, start + blockLength(block));
  const before = text.slice(start, end);
  let after = applyChanges(
    before,
    changes.map((change) => ({ start: change.start - start, end: change.end - start, text: change.text })),
  );
  if (formatSheet(before).changes.length === 0) after = applyChanges(after, formatSheet(after).changes);
  return trimmedChange(before, after, start);
}

/** The key of a block holds its text; see `readSheet`. */
function blockLength(block: Block): number {
  return 'text' in block && typeof block.text === 'string' ? block.text.length : block.key.length;
}

/** The smallest run of whole lines that differs. */
function trimmedChange(before: string, after: string, offset: number): TextChange | undefined {
  if (before === after) return undefined;
  let head = 0;
  while (head < before.length && head < after.length && before[head] === after[head]) head += 1;
  head = before.lastIndexOf('\n', head - 1) + 1;
  let tail = 0;
  while (
    tail < before.length - head &&
    tail < after.length - head &&
    before[before.length - 1 - tail] === after[after.length - 1 - tail]
  ) {
    tail += 1;
  }
  return { start: offset + head, end: offset + before.length - tail, text: after.slice(head, after.length - tail) };
}

const lineBreakOf = (text: string): string => (text.includes('\r\n') ? '\r\n' : '\n');

function lastInkBefore(text: string, end: number): number {
  let index = end;
  while (index > 0 && /\s/.test(text[index - 1] ?? '')) index -= 1;
  return index;
}

function endOfLine(text: string, from: number): number {
  let index = from;
  while (index < text.length && text[index] !== '\n' && text[index] !== '\r') index += 1;
  return index;
}
