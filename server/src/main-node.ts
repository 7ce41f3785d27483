import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { createAnalyser } from '../../language/analysis.ts';
import { startServer } from './start.ts';

startServer(createConnection(ProposedFeatures.all), {
  createAnalyser,
  readFromDisk(uri) {
    if (!uri.startsWith('file:')) return { missing: 'files of this kind of folder are read only while they are open' };
    try {
      return { text: readFileSync(fileURLToPath(uri), 'utf8').replace(/^\uFEFF/, '') };
    } catch {
      return { missing: 'there is no such file' };
    }
  },
});
