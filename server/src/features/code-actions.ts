import { CodeActionKind } from 'vscode-languageserver';
import { fixAllKind, rewriteKind } from '../actions/kinds.ts';
import type { Feature } from '../context.ts';

/**
 * Fixes for the findings in sight, and laying out what the caret is on. They are worked out anew on the present text, never
 * taken from the diagnostics that the editor sends along, so an edit never comes from an older text.
 */
export const codeActions: Feature = {
  capabilities: {
    codeActionProvider: {
      codeActionKinds: [CodeActionKind.QuickFix, rewriteKind, fixAllKind],
      resolveProvider: true,
    },
  },
  register(context) {
    // Loaded when the editor first asks: the first findings do not wait for it.
    context.connection.onCodeAction(async (params) => {
      const { actionsFor } = await import('../actions/actions-for.ts');
      return actionsFor(context, params);
    });
    context.connection.onCodeActionResolve(async (action) => {
      const { laidOut } = await import('../actions/actions-for.ts');
      return laidOut(context, action, true);
    });
    return undefined;
  },
};
