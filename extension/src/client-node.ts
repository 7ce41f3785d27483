import { Uri, workspace } from 'vscode';
import {
  LanguageClient,
  type LanguageClientOptions,
  type ServerOptions,
  TransportKind,
} from 'vscode-languageclient/node';

/** The language server in a process of its own. It is started again by itself if it ends; the command does so by hand. */
export function createClient(extension: Uri): LanguageClient {
  const module = Uri.joinPath(extension, 'dist/server.mjs').fsPath;
  const server: ServerOptions = {
    run: { module, transport: TransportKind.ipc },
    debug: { module, transport: TransportKind.ipc, options: { execArgv: ['--nolazy', '--inspect=6009'] } },
  };
  const options: LanguageClientOptions = {
    documentSelector: [{ language: 'sillwright' }],
    synchronize: { fileEvents: workspace.createFileSystemWatcher('**/*.sill') },
  };
  return new LanguageClient('sillwright', 'Sillwright', server, options);
}
