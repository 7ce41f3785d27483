import { lexBlock } from '../../language/syntax/lex-block.ts';

/** The comments of a text in order, without the space round them. */
export function commentsOf(text: string): readonly string[] {
  return lexBlock(text)
    .hidden.filter((token) => token.image.startsWith('//'))
    .map((token) => token.image.trim());
}
