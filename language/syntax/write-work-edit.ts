import type { WorkEdit } from '../domain/fixes/work-edit.ts';
import type { Panel } from '../domain/model/design.ts';
import type { Layout, NewAnchor } from '../domain/model/layout.ts';
import type { SourceSpan } from '../domain/model/source.ts';
import { formatExact, formatExactStation } from '../domain/units/format-length.ts';
import type { Length } from '../domain/units/length.ts';
import { printName } from './print/name.ts';
import type { TextChange } from './text-change.ts';
import type { EditedSource } from './write-edit.ts';

/** An edit of planned work as one change of text, or in words why there is no place for it. */
export function changeForWorkEdit(
  source: EditedSource,
  edit: Exclude<WorkEdit, { kind: 'relocate' }>,
): { readonly span: SourceSpan; readonly file: string; readonly change: TextChange } | { readonly reason: string } {
  const { layout } = source;
  const { units } = layout.title;
  const at = (span: SourceSpan | undefined, make: (text: string, start: number, end: number) => TextChange) => {
    const place = span && source.locate(span);
    const text = place && source.textOf(place.file);
    if (!span || !place || text === undefined) return { reason: 'this does not stand in a text that can be changed' };
    return { span, file: place.file, change: make(text, place.start, place.end) };
  };
  const behind = (span: SourceSpan | undefined, words: string) =>
    at(span, (_text, _start, end) => ({ start: end, end, text: ` ${words}` }));
  const station = (length: Length): string => formatExactStation(length, units);
  switch (edit.kind) {
    case 'set-right-angle-drill':
      return behind(anchorOf(layout, edit.anchor)?.stationSource, 'right-angle-drill');
    case 'set-offset': {
      const anchor = anchorOf(layout, edit.anchor);
      const offset = formatExact(edit.offset, units);
      if (!anchor?.offset) return behind(anchor?.stationSource, `offset ${offset}`);
      return at(anchor.offset.source, (_text, start, end) => ({ start, end, text: offset }));
    }
    case 'add-hardware':
      return behind(anchorOf(layout, edit.anchor)?.stationSource, `with ${printName(edit.hardware)}`);
    case 'drop-hardware': {
      const anchor = anchorOf(layout, edit.anchor);
      const added = anchor?.withHardware?.find((each) => each.name === edit.hardware);
      return at(added?.source, (text, start, end) => {
        const word = /(?:^|[ \t]+)with[ \t]+$/.exec(text.slice(0, start));
        return { start: word ? word.index : start, end, text: '' };
      });
    }
    case 'set-panel-stretch': {
      const { from, to } = edit.stretch;
      const panel = panelOf(layout, edit.panel);
      return at(panel?.stretchSource, (_text, start, end) => ({
        start,
        end,
        text: `${station(from)} to ${station(to)}`,
      }));
    }
    case 'add-flat-block':
      return behind(panelOf(layout, edit.panel)?.stretchSource, 'flat-block 2x4');
    case 'insert-panel': {
      const like = panelOf(layout, edit.like);
      return at(like?.source, (text, start, end) => {
        const { from, to } = edit.stretch;
        const line = like ? linesLike(source, like, text.slice(start, end), start) : undefined;
        const words = line ?? ((name: string, place: string) => `panel ${name} ${place}`);
        const lineEnd = endOfLine(text, end);
        const lineBreak = text.includes('\r\n') ? '\r\n' : '\n';
        const written = words(printName(edit.mark), `${station(from)} to ${station(to)}`);
        return { start: lineEnd, end: lineEnd, text: `${lineBreak}  ${written}` };
      });
    }
  }
}

/** The panel's own line with another name and another place; its board, nails and notes stay. */
function linesLike(
  source: EditedSource,
  like: Panel,
  text: string,
  start: number,
): ((name: string, place: string) => string) | undefined {
  const name = source.locate(like.nameSource);
  const place = source.locate(like.stretchSource);
  if (!name || !place) return undefined;
  return (mark, stretch) =>
    text.slice(0, name.start - start) +
    mark +
    text.slice(name.end - start, place.start - start) +
    stretch +
    text.slice(place.end - start).trimEnd();
}

function endOfLine(text: string, from: number): number {
  let index = from;
  // A statement's span may take in the line break behind it.
  while (index > 0 && /\s/.test(text[index - 1] ?? '')) index -= 1;
  while (index < text.length && text[index] !== '\n' && text[index] !== '\r') index += 1;
  return index;
}

function anchorOf(layout: Layout, id: string): NewAnchor | undefined {
  for (const wall of layout.walls) {
    const anchor = wall.anchors.find((each) => each.id === id);
    if (anchor) return anchor;
  }
  return undefined;
}

function panelOf(layout: Layout, id: string): Panel | undefined {
  for (const wall of layout.walls) {
    const panel = wall.panels.find((each) => each.id === id);
    if (panel) return panel;
  }
  return undefined;
}
