// Runs inside the editor's extension host as its "suite". It evaluates what the runner posts, with `vscode` in hand,
// and resolves when the runner says that it reached its end.
const http = require('node:http');
const vscode = require('vscode');

exports.run = () =>
  new Promise((resolve, reject) => {
    const token = process.env.SILLWRIGHT_BRIDGE_TOKEN;
    const server = http.createServer((request, response) => {
      if (request.headers['x-token'] !== token) return void response.writeHead(403).end();
      let body = '';
      request.on('data', (chunk) => (body += chunk));
      request.on('end', async () => {
        if (request.url === '/end') {
          response.end('{}');
          server.close();
          console.log(`suite end ${body}`);
          return resolve();
        }
        try {
          const { source, args } = JSON.parse(body);
          const value = await new Function('vscode', `return (${source})`)(vscode)(vscode, ...args);
          response.end(JSON.stringify({ value: value === undefined ? null : value }));
        } catch (error) {
          response.end(JSON.stringify({ error: String(error?.stack ?? error) }));
        }
      });
    });
    server.on('error', reject);
    server.listen(0, '127.0.0.1', () => console.log(`suite listening on ${server.address().port}`));
  });
