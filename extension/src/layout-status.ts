import { type Disposable, LanguageStatusSeverity, languages, window } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type LayoutState, layoutState } from '../../language/protocol/requests.ts';
import { countsInWords } from './check-workspace.ts';

/** The rule set in force and the counts of the layout in front, beside the name of the language in the status bar. */
export function createLayoutStatus(client: BaseLanguageClient): Disposable {
  const states = new Map<string, LayoutState>();
  const item = languages.createLanguageStatusItem('sillwright.state', { language: 'sillwright' });
  item.name = 'Sillwright';
  item.command = { command: 'sillwright.restartServer', title: 'Restart' };

  const show = (): void => {
    const uri = window.activeTextEditor?.document.uri.toString();
    const state = uri === undefined ? undefined : states.get(uri);
    if (!state?.counts) {
      item.text = 'Sillwright';
      item.detail = 'not checked yet';
      item.severity = LanguageStatusSeverity.Information;
      return;
    }
    const { stops, errors, warnings } = state.counts;
    item.text = state.rules;
    item.detail = `${countsInWords(state.counts)}; ${state.label}`;
    item.severity =
      stops + errors > 0
        ? LanguageStatusSeverity.Error
        : warnings > 0
          ? LanguageStatusSeverity.Warning
          : LanguageStatusSeverity.Information;
  };
  const hearing = client.onNotification(layoutState, (state: LayoutState) => {
    states.set(state.uri, state);
    show();
  });
  const watching = window.onDidChangeActiveTextEditor(show);
  show();
  return {
    dispose() {
      for (const each of [item, hearing, watching]) each.dispose();
    },
  };
}
