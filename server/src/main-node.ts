import process from 'node:process';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { nodeParts } from './node-parts.ts';
import { startServer } from './start.ts';
import { stdioConnection } from './stdio-connection.ts';

const overStdio = process.argv.includes('--stdio');
startServer(overStdio ? stdioConnection() : createConnection(ProposedFeatures.all), nodeParts);
