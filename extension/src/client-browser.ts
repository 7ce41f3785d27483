import { Uri } from 'vscode';
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  LanguageClient,
  type LanguageClientOptions,
  type MessageTransports,
} from 'vscode-languageclient/browser';
import { commonOptions } from './server-ended.ts';

/** Of the browser that the editor runs in. */
declare const Worker: new (url: string) => ConstructorParameters<typeof BrowserMessageReader>[0];

/** The language server in a worker beside the editor's own. It reads what is open, and nothing from a disk. */
export function createClient(extension: Uri): LanguageClient {
  const script = Uri.joinPath(extension, 'dist/server-worker.js').toString(true);
  // Made anew at every start. An editor in a browser puts a class of its own in place of `Worker`, so the client cannot
  // tell one by its class: it gets the two ends.
  const server = (): Promise<MessageTransports> => {
    const worker = new Worker(script);
    return Promise.resolve({ reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) });
  };
  const options: LanguageClientOptions = commonOptions(extension, () => client);
  const client = new LanguageClient('sillwright', 'Sillwright', server, options);
  return client;
}
