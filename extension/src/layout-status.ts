import { type Command, type Disposable, LanguageStatusSeverity, languages, window } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type CountsOfLayout, type LayoutState, layoutState } from '../../language/protocol/requests.ts';
import { count } from './check-workspace.ts';
import { isOff } from './not-running.ts';

/**
 * Beside the name of the language in the status bar: the counts of the layout in front, and the rule sets in force. Two rows, since the
 * editor cuts a long one off.
 */
export function createLayoutStatus(client: BaseLanguageClient): Disposable {
  const states = new Map<string, LayoutState>();
  const counts = languages.createLanguageStatusItem('sillwright.counts', { language: 'sillwright' });
  counts.name = 'Sillwright: Findings';
  counts.command = { command: 'sillwright.restartServer', title: 'Restart' };
  const rules = languages.createLanguageStatusItem('sillwright.rules', { language: 'sillwright' });
  rules.name = 'Sillwright: Rule Sets';

  const show = (): void => {
    const uri = window.activeTextEditor?.document.uri.toString();
    const state = uri === undefined || isOff(client) ? undefined : states.get(uri);
    // On both: the editor sets a tick before a row without one, which beside a rule set would say too much.
    counts.severity = severityOf(client, state);
    rules.severity = counts.severity;
    counts.text = isOff(client)
      ? 'Not running: nothing is checked'
      : state?.counts
        ? inWords(state.counts)
        : 'Not checked yet';
    rules.text = state ? `Under ${shortened(state.rules)}` : 'Rule sets: not read yet';
    if (state) rules.command = { ...compare, tooltip: `${state.rules}. ${state.label}` };
  };
  const hearing = client.onNotification(layoutState, (state: LayoutState) => {
    states.set(state.uri, state);
    show();
  });
  const running = client.onDidChangeState(() => {
    states.clear();
    show();
  });
  const watching = window.onDidChangeActiveTextEditor(show);
  show();
  return {
    dispose() {
      for (const each of [counts, rules, hearing, running, watching]) each.dispose();
    },
  };
}

const compare: Command = { command: 'sillwright.compareRuleSets', title: 'Compare' };

function severityOf(client: BaseLanguageClient, state: LayoutState | undefined): LanguageStatusSeverity {
  const { stops = 0, errors = 0, warnings = 0, notChecked = 0 } = state?.counts ?? {};
  if (isOff(client) || stops + errors > 0) return LanguageStatusSeverity.Error;
  return !state || warnings + notChecked > 0 ? LanguageStatusSeverity.Warning : LanguageStatusSeverity.Information;
}

/** What there is; errors are counted where there is none too. */
function inWords({ stops, errors, warnings, notChecked, assumed }: CountsOfLayout): string {
  const found = [
    ...(stops > 0 ? [count(stops, 'stop')] : []),
    count(errors, 'error'),
    ...(warnings > 0 ? [count(warnings, 'warning')] : []),
    ...(notChecked > 0 ? [`${notChecked} not checked`] : []),
    ...(assumed > 0 ? [`${assumed} assumed`] : []),
  ].join(', ');
  return stops + errors === 0 ? `${found}; an aid, not a proof` : found;
}

function shortened(words: string): string {
  return words.length <= longest ? words : `${words.slice(0, longest - 1)}…`;
}
const longest = 52;
