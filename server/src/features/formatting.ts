import type { TextEdit } from 'vscode-languageserver';
import { type FormatOptions, formatSheet } from '../../../language/syntax/format.ts';
import { type Feature, rangeOf, type ServerContext } from '../context.ts';

/** One edit for each line that changes, so that the caret and the folds stay where they are. */
export const formatting: Feature = {
  capabilities: {
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n' },
  },
  register(context) {
    context.connection.onDocumentFormatting(({ textDocument }) => formatted(context, textDocument.uri, {}));
    context.connection.onDocumentRangeFormatting(({ textDocument, range }) => {
      const document = context.documents.get(textDocument.uri);
      if (!document) return [];
      const touched = { start: document.offsetAt(range.start), end: document.offsetAt(range.end) };
      return formatted(context, textDocument.uri, { range: touched });
    });
    // A new line was begun: the one that was left takes its form.
    context.connection.onDocumentOnTypeFormatting(({ textDocument, position }) => {
      const document = context.documents.get(textDocument.uri);
      if (!document || position.line === 0) return [];
      const start = document.offsetAt({ line: position.line - 1, character: 0 });
      const end = document.offsetAt({ line: position.line, character: 0 });
      return formatted(context, textDocument.uri, { range: { start, end: Math.max(start, end - 1) } });
    });
    return undefined;
  },
};

function formatted(context: ServerContext, uri: string, options: FormatOptions): TextEdit[] {
  return context.guarded<TextEdit[]>('formatting', [], () => {
    const document = context.documents.get(uri);
    if (!document) return [];
    const { changes } = formatSheet(document.getText(), options);
    return changes.map(({ start, end, text }) => ({ range: rangeOf(document, start, end), newText: text }));
  });
}
