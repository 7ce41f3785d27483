import { Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type DrawingsAnswer, drawingsRequest, type LayoutParams } from '../../language/protocol/requests.ts';
import { type LayoutInFront, nameOf, refuse } from './layout-in-front.ts';

/** Writes the plan and every elevation of the text as it stands as SVG files into a folder of the user's choice. */
export async function writeDrawings(client: BaseLanguageClient, inFront: LayoutInFront): Promise<void> {
  const layout = inFront();
  if (!layout) return refuse('Open a .sill file first: the drawings are those of the layout in front.');
  const params: LayoutParams = { uri: layout.toString() };
  const answer = await client.sendRequest<DrawingsAnswer>(drawingsRequest, params);
  if (answer.kind === 'refused') return refuse(answer.reason);

  const [folder] =
    (await window.showOpenDialog({
      title: 'Write Drawings',
      openLabel: 'Write here',
      canSelectFiles: false,
      canSelectFolders: true,
      canSelectMany: false,
      defaultUri: Uri.joinPath(layout, '..'),
    })) ?? [];
  if (!folder) return;
  const stem = nameOf(layout).replace(/\.sill$/i, '');
  const targets = answer.sheets.map(({ name, svg }) => ({
    uri: Uri.joinPath(folder, `${stem}-${fileName(name)}.svg`),
    svg,
  }));
  if (!(await mayReplace(targets.map(({ uri }) => uri)))) return;
  try {
    for (const { uri, svg } of targets) await workspace.fs.writeFile(uri, new TextEncoder().encode(svg));
  } catch (error) {
    return refuse(`The drawings were not all written: ${error instanceof Error ? error.message : String(error)}`);
  }
  void window.showInformationMessage(`${targets.length} drawings written into ${nameOf(folder)}.`);
}

/** Names may hold what a file name may not. */
function fileName(name: string): string {
  return name.replace(/[^\p{L}\p{N}_-]+/gu, '-');
}

async function mayReplace(targets: readonly Uri[]): Promise<boolean> {
  const there: string[] = [];
  for (const target of targets) if (await isThere(target)) there.push(nameOf(target));
  if (there.length === 0) return true;
  const keep = { label: 'Keep them', detail: 'Nothing is written.' };
  const replace = { label: 'Replace them', detail: there.join(', ') };
  const placeHolder = `${there.length} of these drawings are there already. Replace them?`;
  return (
    (await window.showQuickPick([keep, replace], { title: 'Write Drawings', placeHolder, ignoreFocusOut: true })) ===
    replace
  );
}

async function isThere(target: Uri): Promise<boolean> {
  try {
    await workspace.fs.stat(target);
    return true;
  } catch {
    return false;
  }
}
