import type { InlayHint } from 'vscode-languageserver';
import { type Feature, presentState } from '../context.ts';

/** The gap to the next anchor, the length of a board, the count of a wall's anchors; off until a person wants them. */
export const inlayHints: Feature = {
  capabilities: { inlayHintProvider: true },
  register(context) {
    context.connection.languages.inlayHint.on(async ({ textDocument, range }) => {
      if (!context.settings().showHints) return [];
      const { hintsOf } = await import('../hints-of.ts');
      return context.guarded<InlayHint[]>('making hints', [], () => {
        const state = presentState(context, textDocument.uri);
        if (!state) return [];
        const { analysis, document } = state;
        return hintsOf(analysis, document, document.offsetAt(range.start), document.offsetAt(range.end));
      });
    });
    return {
      settingsChanged() {
        if (context.client().workspace?.inlayHint?.refreshSupport === true)
          context.connection.languages.inlayHint.refresh();
      },
    };
  },
};
