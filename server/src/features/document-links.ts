import type { DocumentLink } from 'vscode-languageserver';
import { cutBlocks } from '../../../language/syntax/cut.ts';
import { type Feature, rangeOf } from '../context.ts';

/** The path of a `use` opens the file that it means. */
export const documentLinks: Feature = {
  capabilities: { documentLinkProvider: {} },
  register(context) {
    context.connection.onDocumentLinks(({ textDocument }) =>
      context.guarded<DocumentLink[]>('linking used files', [], () => {
        const document = context.documents.get(textDocument.uri);
        if (!document) return [];
        return cutBlocks(document.getText()).flatMap((block): DocumentLink[] => {
          if (block.word !== 'use') return [];
          const path = /^(\s*use[ \t]+)"([^"\r\n]*)"/im.exec(block.text);
          const [, before = '', written = ''] = path ?? [];
          if (!path || written === '') return [];
          const target = context.files.resolve(document.uri, written);
          if ('refused' in target) return [];
          const start = block.start + path.index + before.length + 1;
          const range = rangeOf(document, start, start + written.length);
          return [{ range, target: target.file, tooltip: `Open ${written}` }];
        });
      }),
    );
    return undefined;
  },
};
