import { type QuickPickItem, Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  type CheckAllParams,
  type CountsOfLayout,
  checkAllRequest,
  type LayoutCounts,
} from '../../language/protocol/requests.ts';
import { refuse } from './layout-in-front.ts';

/** Checks every layout of the workspace and lists them, worst first; the choice opens. */
export async function checkWorkspace(client: BaseLanguageClient): Promise<void> {
  const files = await workspace.findFiles('**/*.sill', '**/node_modules/**');
  if (files.length === 0) return refuse('There is no .sill file in this workspace.');
  const params: CheckAllParams = { uris: files.map((file) => file.toString()) };
  const checked = await client.sendRequest<readonly LayoutCounts[]>(checkAllRequest, params);
  const rows = checked
    .filter(({ reason }) => reason !== 'no wall in it')
    .sort((a, b) => weight(b.counts) - weight(a.counts) || (a.uri < b.uri ? -1 : 1))
    .map((each): QuickPickItem & { readonly uri: string } => ({
      uri: each.uri,
      label: workspace.asRelativePath(Uri.parse(each.uri)),
      description: each.counts ? countsInWords(each.counts) : (each.reason ?? ''),
    }));
  if (rows.length === 0) return refuse('No .sill file of this workspace has a wall in it.');
  const title = `${rows.length} layouts checked. An aid to checking: for each, it does not show that the house is safe.`;
  const chosen = await window.showQuickPick(rows, {
    title,
    placeHolder: 'Worst first. Which one to open?',
    matchOnDescription: true,
  });
  if (chosen) await window.showTextDocument(Uri.parse(chosen.uri), { preview: false });
}

/** One stop weighs more than any number of errors, and so on down. */
function weight(counts: CountsOfLayout | undefined): number {
  if (!counts) return Number.POSITIVE_INFINITY;
  return counts.stops * 1e9 + counts.errors * 1e6 + counts.warnings * 1e3 + counts.notChecked;
}

function countsInWords({ stops, errors, warnings, notChecked, assumed }: CountsOfLayout): string {
  return [
    count(stops, 'stop'),
    count(errors, 'error'),
    count(warnings, 'warning'),
    `${notChecked} not checked`,
    `${assumed} assumed`,
  ].join(', ');
}

export function count(number: number, word: string): string {
  return `${number} ${word}${number === 1 ? '' : 's'}`;
}
