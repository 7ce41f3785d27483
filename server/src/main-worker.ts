import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { createAnalyser } from '../../language/analysis.ts';
import { startServer } from './start.ts';

/** Of a worker: what messages come and go through. */
declare const self: ConstructorParameters<typeof BrowserMessageReader>[0];

startServer(createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self)), {
  createAnalyser,
  readFromDisk: () => ({ missing: 'in a browser a file is read only while it is open' }),
});
