import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { nodeParts } from './node-parts.ts';
import { startServer } from './start.ts';

startServer(createConnection(ProposedFeatures.all), nodeParts);
