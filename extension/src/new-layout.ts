import { window, workspace } from 'vscode';
import sample from '../../examples/first-wall.sill';
import newHouse from '../templates/new-house.sill';

interface Template {
  /** For the walkthrough, keybindings and scripts. */
  readonly name: 'empty' | 'example';
  readonly label: string;
  readonly detail: string;
  readonly text: string;
}
const templates: readonly Template[] = [
  {
    name: 'empty',
    label: 'New house',
    detail: 'The title block and one wall, everything still unknown',
    text: newHouse,
  },
  { name: 'example', label: 'Example house', detail: 'Small and invented, surveyed and laid out', text: sample },
];

/** Opens an unsaved layout that starts from a template; one that is named is not asked for. */
export async function newLayout(name?: unknown): Promise<void> {
  const named = templates.find((template) => template.name === name);
  const chosen =
    named ?? (await window.showQuickPick(templates, { title: 'New Layout', placeHolder: 'Start from what?' }));
  if (!chosen) return;
  const document = await workspace.openTextDocument({ language: 'sillwright', content: chosen.text });
  await window.showTextDocument(document, { preview: false });
}
