import type { Host } from './host.ts';
import { poll } from './window.ts';

/** Of the editor in front; empty where there is none. */
export function textOf(host: Host): Promise<string> {
  return host.call((vscode) => vscode.window.activeTextEditor?.document.getText() ?? '');
}

export function textOfFile(host: Host, name: string): Promise<string> {
  return host.call(
    (vscode, wanted) =>
      vscode.workspace.textDocuments.find((document) => document.uri.path.endsWith(wanted))?.getText() ?? '',
    name,
  );
}

/** Counts from 1. */
export async function lineOf(host: Host, pattern: RegExp): Promise<number> {
  let line = 0;
  const find = async (): Promise<boolean> => {
    line = (await textOf(host)).split('\n').findIndex((text) => pattern.test(text)) + 1;
    return line > 0;
  };
  // While the focus goes from pane to text there is no active editor for a moment.
  await poll(find, `a line like ${pattern} in the text in front`);
  return line;
}

export function caretLine(host: Host): Promise<number> {
  return host.call((vscode) => (vscode.window.activeTextEditor?.selection.active.line ?? -1) + 1);
}
