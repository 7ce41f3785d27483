import type { ExtensionContext } from 'vscode';
import { activateWith } from './activate.ts';
import { createClient } from './client-browser.ts';

/** In a browser, without any machine behind it. */
export async function activate(context: ExtensionContext): Promise<void> {
  await activateWith(context, createClient(context.extensionUri));
}

export { deactivate } from './activate.ts';
