import { window, workspace } from 'vscode';
import sample from '../../examples/first-wall.sill';
import newHouse from '../templates/new-house.sill';

interface Template {
  readonly label: string;
  readonly detail: string;
  readonly text: string;
}
const templates: readonly Template[] = [
  { label: 'New house', detail: 'The title block and one wall, everything still unknown', text: newHouse },
  { label: 'Example wall', detail: 'A small invented house, surveyed and laid out', text: sample },
];

/** Opens an unsaved layout that starts from a template. */
export async function newLayout(): Promise<void> {
  const chosen = await window.showQuickPick(templates, { title: 'New Layout', placeHolder: 'Start from what?' });
  if (!chosen) return;
  const document = await workspace.openTextDocument({ language: 'sillwright', content: chosen.text });
  await window.showTextDocument(document, { preview: false });
}
