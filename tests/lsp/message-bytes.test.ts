import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Diagnostic } from 'vscode-languageserver';
import { messageEncoder } from '../../server/src/stdio-connection.ts';

/** What an editor reads is what was to be said, however much of it was copied from the message before. */

const said = Array.from(
  { length: 12 },
  (_, line): Diagnostic => ({
    range: { start: { line, character: 0 }, end: { line, character: 4 } },
    message: `${'gap '.repeat(line)}of 5'-6½" at №${line} 🏠`,
  }),
);

it('a list of findings arrives as it was sent, whatever was sent before it', () => {
  const list = fc.array(fc.constantFrom(...said), { maxLength: 14 });
  fc.assert(
    fc.property(
      fc.array(fc.record({ uri: fc.constantFrom('a', 'ä'), diagnostics: list }), { minLength: 2 }),
      (sent) => {
        const encode = messageEncoder();
        for (const [version, { uri, diagnostics }] of sent.entries()) {
          const params = { uri, version, diagnostics };
          const message = { jsonrpc: '2.0', method: 'textDocument/publishDiagnostics', params };
          expect(JSON.parse(new TextDecoder().decode(encode(message)))).toEqual(message);
        }
      },
    ),
    { numRuns: 300 },
  );
});
