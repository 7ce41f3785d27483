import { Uri, workspace } from 'vscode';
import {
  LanguageClient,
  type LanguageClientOptions,
  type ServerOptions,
  TransportKind,
} from 'vscode-languageclient/node';
import { commonOptions } from './server-ended.ts';
import { serverFlags } from './server-flags.ts';

/** The language server in a process of its own. */
export function createClient(extension: Uri): LanguageClient {
  const module = Uri.joinPath(extension, 'dist/server.mjs').fsPath;
  // Over its streams the server keeps the bytes of findings that stay; over the channel of a forked process each is written anew.
  const server: ServerOptions = {
    run: { module, transport: TransportKind.stdio, options: { execArgv: [...serverFlags] } },
    debug: {
      ...{ module, transport: TransportKind.stdio },
      options: { execArgv: [...serverFlags, '--nolazy', '--inspect=6009'] },
    },
  };
  const options: LanguageClientOptions = {
    ...commonOptions(extension, () => client),
    synchronize: { fileEvents: workspace.createFileSystemWatcher('**/*.sill') },
  };
  const client = new LanguageClient('sillwright', 'Sillwright', server, options);
  return client;
}
