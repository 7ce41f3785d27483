import type { ThingEdit } from '../domain/fixes/edit.ts';
import type { Layout, NewAnchor, SillPiece, Wall } from '../domain/model/layout.ts';
import type { Block, FileId, FileSpan, SourceSpan } from '../domain/model/source.ts';
import { formatExact, formatExactStation } from '../domain/units/format-length.ts';
import type { Length } from '../domain/units/length.ts';
import { formatSheet } from './format.ts';
import { printName } from './print/name.ts';
import { stationLike } from './print/station-like.ts';
import type { TextChange } from './text-change.ts';
import { changeForWorkEdit } from './write-work-edit.ts';

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
    if (isInsertion(edit) && !placeForLine(source.layout, edit)) {
      const wall = source.layout.walls.find((each) => each.id === edit.wall);
      if (!wall) return { kind: 'refused', reason: `no wall ${edit.wall} any more` };
      appended.set(wall.name, [...(appended.get(wall.name) ?? []), lineOf(source.layout, edit)]);
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

type Insertion = Extract<ThingEdit, { kind: InsertionKind }>;
type InsertionKind = 'insert-anchor' | 'insert-angles' | 'insert-blocking' | 'relocate' | 'replace-sill';

const INSERTIONS: ReadonlySet<string> = new Set<InsertionKind>([
  'insert-anchor',
  'insert-angles',
  'insert-blocking',
  'relocate',
  'replace-sill',
]);
const isInsertion = (edit: ThingEdit): edit is Insertion => INSERTIONS.has(edit.kind);

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
    case 'set-adjusted': {
      const wall = layout.walls.find((each) => each.id === edit.wall);
      const words = formatExact(edit.length, layout.title.units);
      if (!wall?.taped || wall.adjusted) {
        return replace(wall?.adjusted?.source, words, `the adjusted length of wall ${wall?.name ?? edit.wall}`);
      }
      const place = source.locate(wall.taped.source);
      const text = place && source.textOf(place.file);
      if (!place || text === undefined) {
        return { reason: `the length of wall ${wall.name} does not stand in a text that can be changed` };
      }
      // The face that the length was read on stands between the two.
      const face = /^(?:[ \t]|(?:\r\n|\n|\r)[ \t]*\+)+(?:outside|inside)\b/.exec(
        text.slice(place.end, place.end + 200),
      );
      const at = place.end + (face?.[0].length ?? 0);
      return {
        file: place.file,
        block: wall.taped.source.block,
        change: { start: at, end: at, text: ` adjusted ${words}` },
      };
    }
    case 'set-station': {
      const anchor = findAnchor(layout, edit.anchor);
      const place = anchor?.stationSource && source.locate(anchor.stationSource);
      const words = place && source.textOf(place.file)?.slice(place.start, place.end);
      const { units } = layout.title;
      return replace(
        anchor?.stationSource,
        words === undefined || anchor?.station === undefined
          ? formatExactStation(edit.station, units)
          : stationLike({ words, station: anchor.station }, edit.station, units),
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
    case 'remove-anchor': {
      const anchor = findAnchor(layout, edit.anchor);
      const place = anchor && source.locate(anchor.source);
      const text = place && source.textOf(place.file);
      if (!anchor || !place || text === undefined)
        return { reason: `${anchor?.name ?? edit.anchor} does not stand in a text that can be changed` };
      return { file: place.file, block: anchor.source.block, change: removalOf(text, place) };
    }
    case 'set-credit': {
      const anchor = layout.walls.flatMap((wall) => wall.foundAnchors).find((each) => each.id === edit.anchor);
      const place = anchor && source.locate(anchor.source);
      const line = place && source.textOf(place.file)?.slice(place.start, place.end);
      const credit = line === undefined ? null : /\bcredit(\s+)(?:half|full)\b/.exec(line);
      if (!anchor || !place || !credit)
        return { reason: `no credit of ${anchor?.name ?? edit.anchor} stands in a text that can be changed` };
      const start = place.start + credit.index;
      const text = `credit${credit[1]}${edit.credit}`;
      return { file: place.file, block: anchor.source.block, change: { start, end: start + credit[0].length, text } };
    }
    case 'spell-out-breaks':
      return breaksSpeltOut(source, edit.wall);
    case 'add-words':
    case 'insert-survey-line': {
      const span = edit.kind === 'add-words' ? edit.span : layout.walls.find((each) => each.id === edit.wall)?.source;
      const place = span && source.locate(span);
      const text = place && source.textOf(place.file);
      if (!span || !place || text === undefined) return { reason: `there is no place to write \`${edit.text}\`` };
      const ink = lastInkBefore(text, place.end);
      const end = edit.kind === 'add-words' ? ink : endOfLine(text, ink);
      const lead = edit.kind === 'add-words' ? ' ' : `${lineBreakOf(text)}  `;
      return { file: place.file, block: span.block, change: { start: end, end, text: lead + edit.text } };
    }
    case 'set-value': {
      const anchor = findAnchor(layout, edit.anchor);
      const written = anchor?.[edit.key]?.source;
      const value = formatExact(edit.value, layout.title.units);
      if (written) return replace(written, value, `the ${edit.key} of ${anchor?.name ?? edit.anchor}`);
      const after = anchor?.stationSource && source.locate(anchor.stationSource);
      if (!anchor?.stationSource || !after)
        return { reason: `${anchor?.name ?? edit.anchor} does not stand in a text that can be changed` };
      const change = { start: after.end, end: after.end, text: ` ${edit.key} ${value}` };
      return { file: after.file, block: anchor.stationSource.block, change };
    }
    case 'insert-anchor':
    case 'insert-angles':
    case 'insert-blocking':
    case 'replace-sill':
    case 'relocate': {
      const spot = placeForLine(layout, edit);
      const place = spot && source.locate(spot.below);
      const text = place && source.textOf(place.file);
      if (!spot || !place || text === undefined) return { reason: 'there is no `work on` block to write into' };
      const lineEnd = endOfLine(text, lastInkBefore(text, place.end));
      const line = `${lineBreakOf(text)}  ${lineOf(layout, edit)}`;
      return { file: place.file, block: spot.below.block, change: { start: lineEnd, end: lineEnd, text: line } };
    }
    default: {
      const written = changeForWorkEdit(source, edit);
      return 'reason' in written ? written : { ...written, block: written.span.block };
    }
  }
}

/** Below the anchor that it follows, or at the end of the wall's last `work on` block. */
function placeForLine(layout: Layout, edit: Insertion): { readonly below: SourceSpan } | undefined {
  const wall = layout.walls.find((each) => each.id === edit.wall);
  const after = edit.kind === 'insert-anchor' && edit.after !== undefined ? findAnchor(layout, edit.after) : undefined;
  if (after) return { below: after.source };
  const block = wall?.workBlocks[wall.workBlocks.length - 1];
  if (!wall || !block) return undefined;
  if (edit.kind !== 'insert-anchor') return { below: block.source };
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

function lineOf(layout: Layout, edit: Insertion): string {
  const { units } = layout.title;
  const show = (station: Length): string => formatExactStation(station, units);
  switch (edit.kind) {
    case 'insert-anchor': {
      const shim = edit.shim === undefined ? '' : ` shim ${formatExact(edit.shim, units)}`;
      const drill = edit.rightAngleDrill ? ' right-angle-drill' : '';
      return `anchor ${printName(edit.mark)} ${printName(edit.connector)} at ${show(edit.station)}${shim}${drill} proposed`;
    }
    case 'insert-angles':
      return `angles ${printName(edit.mark)} ${printName(edit.connector)} at ${edit.stations.map(show).join(', ')} proposed`;
    case 'insert-blocking':
      return `blocking bays ${edit.bays.join(', ')} proposed`;
    case 'relocate':
      return `relocate ${printName(edit.name)}`;
    case 'replace-sill': {
      const board = layout.walls.flatMap((wall) => wall.pieces).find((each) => each.id === edit.piece);
      return `replace sill ${printName(board?.name ?? '')} ${show(edit.from)} to ${show(edit.to)} treated`;
    }
  }
}

/** The whole line where nothing else stands on it; else the statement, and what follows it stays. */
function removalOf(text: string, { start, end }: { readonly start: number; readonly end: number }): TextChange {
  const ink = lastInkBefore(text, end);
  const lineEnd = endOfLine(text, ink);
  if (text.slice(ink, lineEnd).trim() !== '') return { start, end: ink + blanksAt(text, ink), text: '' };
  const lineStart = Math.max(text.lastIndexOf('\n', start - 1), text.lastIndexOf('\r', start - 1)) + 1;
  const after = text.startsWith('\r\n', lineEnd) ? lineEnd + 2 : Math.min(text.length, lineEnd + 1);
  return { start: lineStart, end: after, text: '' };
}

function blanksAt(text: string, from: number): number {
  let index = from;
  while (text[index] === ' ' || text[index] === '\t') index += 1;
  return index - from;
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

const JOINT_WORDS = /\s+(?:butt|half-lap|scarf|step|corner)\b(?:\s+[\d-]\S*)?(?:\s+gap\s+\S+)?/;

/** Sill lines for the parts of each board that is cut, in place of the board's own line and of the `break` lines. */
function breaksSpeltOut(
  source: EditedSource,
  id: string,
): { readonly file: FileId; readonly block: Block; readonly change: TextChange } | { readonly reason: string } {
  const { layout } = source;
  const wall = layout.walls.find((each) => each.id === id);
  const place = wall && source.locate(wall.source);
  const text = place && source.textOf(place.file);
  if (!wall || !place || text === undefined)
    return { reason: `wall ${id} does not stand in a text that can be changed` };
  const parts = new Map<number, SillPiece[]>();
  for (const piece of wall.pieces) {
    if (piece.layer !== 'survey') return { reason: 'a board of the design lies among them' };
    parts.set(piece.source.start, [...(parts.get(piece.source.start) ?? []), piece]);
  }
  const changes: TextChange[] = [];
  let cuts = 0;
  for (const pieces of parts.values()) {
    const [first] = pieces;
    const line = first && pieces.length > 1 ? source.locate(first.source) : undefined;
    if (!first || !line) continue;
    cuts += pieces.length - 1;
    const lines = linesOfParts(source, text.slice(line.start, line.end), line.start, pieces);
    if (!lines) return { reason: `sill ${first.name} slopes or goes on over several lines: write its parts by hand` };
    changes.push({ start: line.start, end: line.end, text: lines.join(`${lineBreakOf(text)}  `) });
  }
  const breaks = [...text.slice(place.start, place.end).matchAll(/^[ \t]*break\s+at\b[^\r\n]*(?:\r?\n)?/gm)];
  if (breaks.length !== cuts) return { reason: 'a `break` line cuts nothing; mend its station first' };
  for (const each of breaks) {
    const start = place.start + each.index;
    const comment = /\/\/[^\r\n]*(?:\r?\n)?/.exec(each[0])?.[0];
    changes.push({ start, end: start + each[0].length, text: comment === undefined ? '' : `  ${comment}` });
  }
  const end = Math.max(place.end, ...changes.map((each) => each.end));
  const shift = place.start;
  const before = text.slice(shift, end);
  const after = applyChanges(
    before,
    changes.map((each) => ({ ...each, start: each.start - shift, end: each.end - shift })),
  );
  return { file: place.file, block: wall.source.block, change: { start: shift, end, text: after } };
}

function linesOfParts(
  source: EditedSource,
  line: string,
  lineStart: number,
  pieces: readonly SillPiece[],
): readonly string[] | undefined {
  const [first] = pieces;
  const { units } = source.layout.title;
  const spot = first?.placeSource && source.locate(first.placeSource);
  const word = /^sill\s+("[^"]*"|\S+)/.exec(line)?.[1] ?? '';
  const isNamed = first !== undefined && [first.name, `"${first.name}"`].includes(word);
  const rest = spot
    ? line.slice(spot.end - lineStart)
    : line.slice(isNamed ? line.indexOf(word) + word.length : 'sill'.length);
  // A value that slopes along the board would have to be shared out among its parts.
  if (/[\r\n]|\sto\s/.test(rest)) return undefined;
  const ownJoint = JOINT_WORDS.exec(rest)?.[0] ?? '';
  const words = rest.replace(JOINT_WORDS, '').trim();
  return pieces.map((piece, index) => {
    const name = isNamed ? ` ${printName(piece.name)}` : '';
    const length = piece.jointLength?.kind === 'known' ? ` ${piece.jointLength.typed}` : '';
    const gap = piece.gap?.kind === 'known' ? ` gap ${piece.gap.typed}` : '';
    const joint = index === pieces.length - 1 ? ownJoint : ` ${piece.joint}${length}${gap}`;
    const at = `${formatExactStation(piece.from, units)} to ${formatExactStation(piece.to, units)}`;
    return `sill${name} ${at}${words === '' ? '' : ` ${words}`}${joint}`;
  });
}
