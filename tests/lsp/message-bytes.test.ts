import { PassThrough, Writable } from 'node:stream';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Diagnostic, Message } from 'vscode-languageserver';
import { StreamMessageReader } from 'vscode-languageserver/node';
import { messageEncoder, messageWriter } from '../../server/src/stdio-connection.ts';

/** What an editor reads is what was to be said, however much of it was copied from the message before. */

const said = Array.from(
  { length: 12 },
  (_, line): Diagnostic => ({
    range: { start: { line, character: 0 }, end: { line, character: 4 } },
    message: `${'gap '.repeat(line)}of 5'-6½" at №${line} 🏠`,
  }),
);
const publication = (uri: string, version: number, diagnostics: readonly Diagnostic[]): Message =>
  ({ jsonrpc: '2.0', method: 'textDocument/publishDiagnostics', params: { uri, version, diagnostics } }) as Message;

function read(bytes: Uint8Array): unknown {
  const [, length, content = ''] =
    /^Content-Length: (\d+)\r\n\r\n(.*)$/s.exec(new TextDecoder('utf-8', { fatal: true }).decode(bytes)) ?? [];
  expect(new TextEncoder().encode(content)).toHaveLength(Number(length));
  return JSON.parse(content);
}

it('a list of findings arrives as it was sent, whatever was sent before it and however late that goes out', () => {
  const list = fc.array(fc.constantFrom(...said), { maxLength: 14 });
  const message = fc.record({ uri: fc.constantFrom('a', 'ä'), diagnostics: list, late: fc.boolean() });
  fc.assert(
    fc.property(fc.array(message, { minLength: 2 }), (sent) => {
      const encode = messageEncoder();
      const goingOut: { readonly bytes: Uint8Array; readonly message: Message }[] = [];
      for (const [version, { uri, diagnostics, late }] of sent.entries()) {
        const message = publication(uri, version, diagnostics);
        const { bytes, sent: done } = encode(message);
        expect(read(bytes)).toEqual(message);
        if (late) goingOut.push({ bytes, message });
        else done();
      }
      for (const { bytes, message } of goingOut) expect(read(bytes)).toEqual(message);
    }),
    { numRuns: 300 },
  );
});

it('findings go out in ASCII, which an editor reads fastest', () => {
  const { bytes } = messageEncoder()(publication('file:///a', 1, said));
  const list = Buffer.from(bytes);
  expect(list.every((byte) => byte < 0x80)).toBe(true);
});

it('messages arrive one after the other, each written at one go', async () => {
  const stream = new PassThrough();
  const writes: number[] = [];
  const counted = new Writable({
    write(chunk: Buffer, _, done) {
      writes.push(chunk.length);
      stream.write(chunk, done);
    },
  });
  const arrived: Message[] = [];
  new StreamMessageReader(stream).listen((message) => arrived.push(message));
  const writer = messageWriter(counted);
  const messages = [1, 2, 3].map((version) => publication('file:///a', version, said.slice(version)));
  const answer = { jsonrpc: '2.0', id: 1, result: 'ä' } as Message;
  await Promise.all([...messages, answer].map((message) => writer.write(message)));
  while (arrived.length < 4) await new Promise((resolve) => setImmediate(resolve));
  expect(arrived).toEqual([...messages, answer]);
  expect(writes).toHaveLength(4);
});

it('a write that fails is told, and ends nothing else', async () => {
  const broken = new Writable({ write: (_, __, done) => done(new Error('the editor is gone')) });
  const writer = messageWriter(broken);
  const told: string[] = [];
  writer.onError(([error]) => told.push(error.message));
  await expect(writer.write(publication('file:///a', 1, said))).rejects.toThrow('the editor is gone');
  expect(told).toContain('the editor is gone');
});
