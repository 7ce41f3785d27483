import { Uri, window } from 'vscode';
import {
  type BaseLanguageClient,
  CloseAction,
  type CloseHandlerResult,
  ErrorAction,
  type ErrorHandler,
  type LanguageClientOptions,
} from 'vscode-languageclient';

/** Where the server ends by itself it is started again once; then a person decides. */
export function onceMore(client: () => BaseLanguageClient | undefined): ErrorHandler {
  let endings = 0;
  return {
    error: () => ({ action: ErrorAction.Continue }),
    closed(): CloseHandlerResult {
      endings += 1;
      if (endings === 1) {
        const message = 'The Sillwright server ended and was started again.';
        return { action: CloseAction.Restart, message, handled: true };
      }
      void offerLog();
      return { action: CloseAction.DoNotRestart, handled: true };
    },
  };

  async function offerLog(): Promise<void> {
    const [again, log] = ['Start It Again', 'Show the Log'];
    const message =
      'The Sillwright server ended twice, so it was left off. Your text is untouched; findings and drawings are of the last moment that it ran.';
    const chosen = await window.showErrorMessage(message, again, log);
    if (chosen === log) client()?.outputChannel.show();
    if (chosen !== again) return;
    endings = 0;
    const ended = client();
    if (ended) await restart(ended);
  }
}

/** What both ways of running the server have in common. The pages of the rules are packed with the extension. */
export function commonOptions(
  extension: Uri,
): Pick<LanguageClientOptions, 'documentSelector' | 'initializationOptions'> {
  return {
    documentSelector: [{ language: 'sillwright' }],
    initializationOptions: { rulePages: Uri.joinPath(extension, 'docs/rules').toString() },
  };
}

export async function restart(client: BaseLanguageClient): Promise<void> {
  if (client.isRunning()) await client.stop();
  await client.start();
}
