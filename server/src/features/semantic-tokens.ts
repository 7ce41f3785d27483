import { type SemanticTokens, SemanticTokensBuilder } from 'vscode-languageserver';
import type { NameKind } from '../../../language/syntax/names.ts';
import { type Feature, presentState } from '../context.ts';
import { namesInFile } from '../name-places.ts';

const tokenTypes = ['class', 'struct', 'namespace', 'variable', 'property'] as const;
const typeOf: Readonly<Record<NameKind, (typeof tokenTypes)[number]>> = {
  wall: 'class',
  girder: 'class',
  line: 'class',
  space: 'class',
  connector: 'struct',
  'rule set': 'namespace',
  'price list': 'namespace',
  mark: 'variable',
  thing: 'property',
};
const modifiers = ['declaration'] as const;

/** Colours names by what they name; words and lengths are coloured without the server. */
export const semanticTokens: Feature = {
  capabilities: {
    semanticTokensProvider: {
      legend: { tokenTypes: [...tokenTypes], tokenModifiers: [...modifiers] },
      full: true,
      range: true,
    },
  },
  register(context) {
    const colour = (uri: string, from?: number, to?: number): SemanticTokens =>
      context.guarded<SemanticTokens>('colouring', { data: [] }, () => {
        const state = presentState(context, uri);
        if (!state) return { data: [] };
        const builder = new SemanticTokensBuilder();
        for (const { kinds, role, start, end } of namesInFile(state.analysis, uri)) {
          const [kind] = kinds;
          if (!kind || (from !== undefined && end < from) || (to !== undefined && start > to)) continue;
          const { line, character } = state.document.positionAt(start);
          builder.push(line, character, end - start, tokenTypes.indexOf(typeOf[kind]), role === 'declares' ? 1 : 0);
        }
        return builder.build();
      });
    context.connection.languages.semanticTokens.on(({ textDocument }) => colour(textDocument.uri));
    context.connection.languages.semanticTokens.onRange(({ textDocument, range }) => {
      const document = context.documents.get(textDocument.uri);
      if (!document) return { data: [] };
      return colour(textDocument.uri, document.offsetAt(range.start), document.offsetAt(range.end));
    });
    return undefined;
  },
};
