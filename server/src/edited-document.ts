import type { Range, TextDocumentContentChangeEvent, TextDocumentsConfiguration } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { TextInPieces } from '../../language/syntax/text-in-pieces.ts';
import { lineAt, startOfLine, textInPieces, withPart } from '../../language/syntax/text-in-pieces.ts';

/** One state of a file that is open in the editor. An edit makes another of it, and copies no more than it touches. */
export interface EditedDocument extends TextDocument {
  readonly inPieces: TextInPieces;
}

/** For the library's list of open documents. */
export const editedDocuments: TextDocumentsConfiguration<EditedDocument> = {
  create: (uri, languageId, version, content) => documentOf({ uri, languageId, version }, textInPieces(content)),
  update(document, changes, version) {
    const { uri, languageId } = document;
    return documentOf({ uri, languageId, version }, changes.reduce(withChange, document).inPieces);
  },
};

function documentOf(
  { uri, languageId, version }: Pick<TextDocument, 'uri' | 'languageId' | 'version'>,
  inPieces: TextInPieces,
): EditedDocument {
  const lineCount = (inPieces.firstLines.at(-1) ?? 0) + 1;
  /** Where a line begins, and where the next one does; past either end of the text they are that end. */
  const endsOf = (line: number): { readonly start: number; readonly next: number } => {
    if (line < 0) return { start: 0, next: 0 };
    const { length } = inPieces;
    return { start: startOfLine(inPieces, line) ?? length, next: startOfLine(inPieces, line + 1) ?? length };
  };
  return {
    ...{ uri, languageId, version, inPieces, lineCount },
    getText(range) {
      if (!range) return inPieces.toString();
      const { start, end } = offsetsOf(this, range);
      return inPieces.slice(start, end);
    },
    positionAt(offset) {
      const within = Math.max(0, Math.min(offset, inPieces.length));
      const { line, start } = lineAt(inPieces, within);
      return { line, character: beforeLineBreak(inPieces, start, within) - start };
    },
    offsetAt({ line, character }) {
      const { start, next } = endsOf(line);
      return beforeLineBreak(inPieces, start, Math.min(start + Math.max(0, character), next));
    },
    getLineRange(asked) {
      const line = Math.max(0, Math.min(asked, lineCount - 1));
      const { start, next } = endsOf(line);
      const character = asked < 0 ? 0 : beforeLineBreak(inPieces, start, next) - start;
      return { start: { line, character: 0 }, end: { line, character } };
    },
    getEOLCharacters(line) {
      const { start, next } = endsOf(line);
      return inPieces.slice(beforeLineBreak(inPieces, start, next), next);
    },
  };
}

function withChange(document: EditedDocument, change: TextDocumentContentChangeEvent): EditedDocument {
  if (!('range' in change)) return documentOf(document, textInPieces(change.text));
  const { start, end } = offsetsOf(document, change.range);
  return documentOf(document, withPart(document.inPieces, start, end, change.text));
}

function offsetsOf(document: TextDocument, range: Range): { readonly start: number; readonly end: number } {
  const [start, end] = [document.offsetAt(range.start), document.offsetAt(range.end)];
  return { start: Math.min(start, end), end: Math.max(start, end) };
}

/** No place lies within or behind the line break of its line. */
function beforeLineBreak(text: TextInPieces, lineStart: number, offset: number): number {
  const line = text.slice(Math.max(lineStart, offset - '\r\n'.length), offset);
  return offset - (/[\r\n]*$/.exec(line)?.[0].length ?? 0);
}
