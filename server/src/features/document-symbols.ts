import { type DocumentSymbol, SymbolKind } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis } from '../../../language/analysis.ts';
import type { SourceSpan } from '../../../language/domain/model/source.ts';
import { type Feature, presentState, rangeOf } from '../context.ts';
import { type PlacedThing, thingsOf } from '../things.ts';

/** The outline: walls with what is on them, the work on each, girders, then connectors and rule sets of this file. */
export const documentSymbols: Feature = {
  capabilities: { documentSymbolProvider: true },
  register(context) {
    context.connection.onDocumentSymbol(({ textDocument }) =>
      context.guarded<DocumentSymbol[]>('making the outline', [], () => {
        const state = presentState(context, textDocument.uri);
        return state ? outlineOf(state.analysis, state.document) : [];
      }),
    );
    return undefined;
  },
};

function outlineOf(analysis: Analysis, document: TextDocument): DocumentSymbol[] {
  const { layout } = analysis;
  const heads: DocumentSymbol[] = [];
  /** By the text of the block that they head, to put each thing below its heading. */
  const headByBlock = new Map<string, DocumentSymbol>();

  function symbol(name: string, detail: string, kind: SymbolKind, span: SourceSpan): DocumentSymbol | undefined {
    const place = analysis.locate(span);
    if (!place || place.file !== document.uri) return undefined;
    const range = rangeOf(document, place.start, place.end);
    return { name: name === '' ? 'unnamed' : name, detail, kind, range, selectionRange: range, children: [] };
  }
  function addHead(name: string, detail: string, kind: SymbolKind, span: SourceSpan | undefined): void {
    const head = span && symbol(name, detail, kind, span);
    if (!span || !head) return;
    heads.push(head);
    headByBlock.set(span.block.key, head);
  }

  addHead(layout.title.name ?? 'layout', 'layout', SymbolKind.File, layout.title.source);
  addHead('house', '', SymbolKind.Property, layout.house.source);
  for (const wall of layout.walls) {
    addHead(`wall ${wall.name}`, wall.label ?? '', SymbolKind.Class, wall.source);
    for (const block of wall.workBlocks) addHead(`work on ${wall.name}`, '', SymbolKind.Module, block.headingSource);
  }
  for (const girder of layout.girders) addHead(`girder ${girder.name}`, '', SymbolKind.Class, girder.source);
  for (const line of layout.lines) addHead(`line ${line.name}`, '', SymbolKind.Interface, line.source);
  for (const space of layout.spaces)
    addHead(`space ${space.name}`, space.kind ?? '', SymbolKind.Namespace, space.source);
  for (const each of layout.connectors.values()) {
    addHead(`connector ${each.name}`, each.kind.replaceAll('-', ' '), SymbolKind.Struct, each.source);
  }
  for (const set of layout.rules.chosen)
    addHead(`ruleset ${set.name}`, set.title ?? '', SymbolKind.Package, set.source);

  for (const placed of thingsOf(layout)) {
    if (placed.kind === 'wall' || placed.kind === 'girder' || placed.kind === 'other') continue;
    const head = headByBlock.get(placed.thing.source.block.key);
    const child = symbol(nameOf(placed), wordOf(placed), symbolKinds[placed.kind], placed.thing.source);
    if (head && child) head.children?.push(child);
  }
  for (const head of heads) coverChildren(head);
  return heads.sort(byPlace);
}

const symbolKinds: Readonly<Record<Exclude<PlacedThing['kind'], 'wall' | 'girder' | 'other'>, SymbolKind>> = {
  anchor: SymbolKind.Event,
  tie: SymbolKind.Event,
  angles: SymbolKind.Event,
  panel: SymbolKind.Struct,
  remedy: SymbolKind.Operator,
  'found-anchor': SymbolKind.Event,
  piece: SymbolKind.Field,
  obstruction: SymbolKind.Object,
  defect: SymbolKind.Key,
  part: SymbolKind.Property,
  post: SymbolKind.Constructor,
  'post-hardware': SymbolKind.Event,
};

/** `F/vent:V4` is called `vent V4`. */
function nameOf(placed: PlacedThing): string {
  const word = (placed.thing.id.split('/').pop() ?? '').split(':')[0]?.replaceAll('-', ' ') ?? '';
  return [word, placed.thing.name].filter(Boolean).join(' ');
}

function wordOf(placed: PlacedThing): string {
  if (placed.kind === 'anchor' || placed.kind === 'tie' || placed.kind === 'angles')
    return placed.thing.connectorName ?? '';
  if (placed.kind === 'obstruction') return placed.thing.label ?? '';
  return '';
}

/** The editor asks that a symbol's range holds those below it. */
function coverChildren(head: DocumentSymbol): void {
  const children = [...(head.children ?? [])].sort(byPlace);
  head.children = children;
  for (const { range } of children) {
    const { end } = head.range;
    if (range.end.line > end.line || (range.end.line === end.line && range.end.character > end.character)) {
      head.range = { start: head.range.start, end: range.end };
    }
  }
}

function byPlace(a: DocumentSymbol, b: DocumentSymbol): number {
  return a.range.start.line - b.range.start.line || a.range.start.character - b.range.start.character;
}
