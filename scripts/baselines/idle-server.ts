/** A language server that does nothing but answer: what an edit costs at the least. */
import { createConnection, ProposedFeatures, TextDocumentSyncKind, TextDocuments } from 'vscode-languageserver/node';
import { TextDocument } from 'vscode-languageserver-textdocument';

const connection = createConnection(ProposedFeatures.all);
const documents = new TextDocuments(TextDocument);
connection.onInitialize(() => ({
  capabilities: { textDocumentSync: TextDocumentSyncKind.Incremental, hoverProvider: true },
}));
// Answered when it is taken back: how long that takes at the least.
connection.onHover(
  (_, token) =>
    new Promise((resolve) => {
      if (token.isCancellationRequested) resolve(null);
      token.onCancellationRequested(() => resolve(null));
    }),
);
documents.onDidChangeContent(({ document: { uri, version } }) => {
  void connection.sendDiagnostics({ uri, version, diagnostics: [] });
});
documents.listen(connection);
connection.listen();
