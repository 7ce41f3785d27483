import { Uri, workspace } from 'vscode';
import {
  LanguageClient,
  type LanguageClientOptions,
  type ServerOptions,
  TransportKind,
} from 'vscode-languageclient/node';
import { commonOptions, onceMore } from './server-ended.ts';

/** The language server in a process of its own. */
export function createClient(extension: Uri): LanguageClient {
  const module = Uri.joinPath(extension, 'dist/server.mjs').fsPath;
  const server: ServerOptions = {
    run: { module, transport: TransportKind.ipc },
    debug: { module, transport: TransportKind.ipc, options: { execArgv: ['--nolazy', '--inspect=6009'] } },
  };
  const options: LanguageClientOptions = {
    ...commonOptions(extension),
    synchronize: { fileEvents: workspace.createFileSystemWatcher('**/*.sill') },
    errorHandler: onceMore(() => client),
  };
  const client = new LanguageClient('sillwright', 'Sillwright', server, options);
  return client;
}
