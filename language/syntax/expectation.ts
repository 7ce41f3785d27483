import type { TokenType } from 'chevrotain';
import { AbstractParserErrorMessageProvider } from 'langium';

/** Makes the parser's own messages carry only the names of the tokens that it could have read; ours are in `explain.ts`. */
export class ExpectationProvider extends AbstractParserErrorMessageProvider {
  override buildMismatchTokenMessage({ expected }: { expected: TokenType }): string {
    return expected.name;
  }

  override buildNotAllInputParsedMessage(): string {
    return '';
  }

  override buildNoViableAltMessage({ expectedPathsPerAlt }: { expectedPathsPerAlt: TokenType[][][] }): string {
    return firstTokens(expectedPathsPerAlt.flat());
  }

  override buildEarlyExitMessage({ expectedIterationPaths }: { expectedIterationPaths: TokenType[][] }): string {
    return firstTokens(expectedIterationPaths);
  }
}

/** The names that such a message carries. */
export function expectedTokens(message: string): readonly string[] {
  return message === '' ? [] : message.split(' ');
}

function firstTokens(paths: readonly TokenType[][]): string {
  return [...new Set(paths.flatMap((path) => path[0]?.name ?? []))].join(' ');
}
