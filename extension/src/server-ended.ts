import { type Uri, window } from 'vscode';
import {
  type BaseLanguageClient,
  CloseAction,
  type CloseHandlerResult,
  ErrorAction,
  type ErrorHandler,
  type LanguageClientOptions,
} from 'vscode-languageclient';
import { linksToRules } from './rule-links.ts';

/** How often the server has ended by itself since a person last started it. */
let endings = 0;

/** Where the server ends by itself it is started again once; then a person decides. */
function onceMore(client: () => BaseLanguageClient | undefined): ErrorHandler {
  return {
    error: () => ({ action: ErrorAction.Continue }),
    closed(): CloseHandlerResult {
      endings += 1;
      if (endings === 1) {
        const message = 'The Sillwright server ended and was started again.';
        return { action: CloseAction.Restart, message, handled: true };
      }
      void offerLog();
      const message = 'The Sillwright server ended twice, so it was left off.';
      return { action: CloseAction.DoNotRestart, message, handled: true };
    },
  };

  async function offerLog(): Promise<void> {
    const [again, log] = ['Start It Again', 'Show the Log'];
    const message =
      'The Sillwright server ended twice, so it was left off. Your text is untouched, and nothing checks it until the server is started again.';
    const chosen = await window.showErrorMessage(message, again, log);
    const ended = client();
    if (chosen === log) ended?.outputChannel.show();
    if (chosen === again && ended) await restart(ended);
  }
}

/** What both ways of running the server have in common. */
export function commonOptions(
  extension: Uri,
  client: () => BaseLanguageClient | undefined,
): Pick<LanguageClientOptions, 'documentSelector' | 'errorHandler' | 'middleware'> {
  return {
    documentSelector: [{ language: 'sillwright' }],
    errorHandler: onceMore(client),
    middleware: linksToRules(extension, client),
  };
}

export async function restart(client: BaseLanguageClient): Promise<void> {
  endings = 0;
  if (client.isRunning()) await client.stop();
  await client.start();
}
