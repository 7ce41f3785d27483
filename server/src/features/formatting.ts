import type { TextEdit } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { FormatOptions } from '../../../language/syntax/format.ts';
import { type Feature, rangeOf, type ServerContext } from '../context.ts';

/** One edit for each line that changes, so that the caret and the folds stay where they are. */
export const formatting: Feature = {
  capabilities: {
    documentFormattingProvider: true,
    documentRangeFormattingProvider: true,
    documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n' },
  },
  register(context) {
    context.connection.onDocumentFormatting(({ textDocument }) => formatted(context, textDocument.uri, () => ({})));
    context.connection.onDocumentRangeFormatting(({ textDocument, range }) =>
      formatted(context, textDocument.uri, (document) => ({
        range: { start: document.offsetAt(range.start), end: document.offsetAt(range.end) },
      })),
    );
    // A new line was begun: the one that was left takes its form.
    context.connection.onDocumentOnTypeFormatting(({ textDocument, position }) =>
      formatted(context, textDocument.uri, (document) => {
        if (position.line === 0) return undefined;
        const start = document.offsetAt({ line: position.line - 1, character: 0 });
        const end = document.offsetAt({ line: position.line, character: 0 });
        return { range: { start, end: Math.max(start, end - 1) } };
      }),
    );
    return undefined;
  },
};

/** @param optionsOf what to format of the text; `undefined` for nothing */
async function formatted(
  context: ServerContext,
  uri: string,
  optionsOf: (document: TextDocument) => FormatOptions | undefined,
): Promise<TextEdit[]> {
  const { formatSheet } = await import('../../../language/syntax/format.ts');
  return context.guarded<TextEdit[]>('formatting', [], () => {
    const document = context.documents.get(uri);
    const options = document && optionsOf(document);
    if (!document || !options) return [];
    const { changes } = formatSheet(document.getText(), options);
    return changes.map(({ start, end, text }) => ({ range: rangeOf(document, start, end), newText: text }));
  });
}
