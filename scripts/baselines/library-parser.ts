import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { LangiumParser } from 'langium';
import { createServicesForGrammar } from 'langium/grammar';
import { languageMetaData, parserServices } from './library-services.ts';

/** The parser library's own parser of our grammar, to hold our trees against. */
export async function libraryParser(): Promise<LangiumParser> {
  const { parser } = await createServicesForGrammar({
    grammar: grammarAsOneText(),
    parserConfig: { maxLookahead: 1 },
    languageMetaData,
    module: { parser: parserServices },
  });
  return parser.LangiumParser;
}

function grammarAsOneText(): string {
  const folder = join(import.meta.dirname, '../../language/grammar');
  const texts = readdirSync(folder).map((name) => readFileSync(join(folder, name), 'utf8'));
  const heads = texts.filter((text) => text.startsWith('grammar '));
  const others = texts.filter((text) => !text.startsWith('grammar '));
  return [...heads, ...others].join('\n').replaceAll(/^import .*$/gm, '');
}
