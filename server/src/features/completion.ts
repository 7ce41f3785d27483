import { type CompletionItem, CompletionTriggerKind } from 'vscode-languageserver';
import { type Feature, presentState } from '../context.ts';

/** What may stand at the caret: names that make sense there, clear places for an anchor, units, then the words of the language. */
export const completion: Feature = {
  capabilities: { completionProvider: { triggerCharacters: [' ', ','] } },
  register(context) {
    context.connection.onCompletion(async ({ textDocument, position, context: trigger }) => {
      // Loaded when somebody first asks: it brings the solver along, for the stations of anchors.
      const [{ caretAt }, { itemsFor }] = await Promise.all([
        import('../completion/caret.ts'),
        import('../completion/items-for.ts'),
      ]);
      return context.guarded<CompletionItem[]>('looking for what may follow', [], () => {
        const state = presentState(context, textDocument.uri);
        if (!state) return [];
        const { analysis, document } = state;
        const offset = document.offsetAt(position);
        const caret = caretAt(analysis, document.getText(), offset);
        if (!caret) return [];
        const wasAsked = trigger?.triggerKind !== CompletionTriggerKind.TriggerCharacter;
        const start = document.positionAt(offset - caret.typed.prefix.length);
        const snippets = context.client().textDocument?.completion?.completionItem?.snippetSupport === true;
        const items = itemsFor(analysis, caret, { snippets, wasAsked });
        return items.map(({ insertText, ...item }) => ({
          ...item,
          textEdit: { range: { start, end: position }, newText: insertText ?? item.label },
        }));
      });
    });
    return undefined;
  },
};
