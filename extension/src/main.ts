import type { ExtensionContext } from 'vscode';
import { activateWith } from './activate.ts';
import { createClient } from './client-node.ts';

/** On a desktop or a remote machine. */
export async function activate(context: ExtensionContext): Promise<void> {
  await activateWith(context, createClient(context.extensionUri));
}

export { deactivate } from './activate.ts';
