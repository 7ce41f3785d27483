import type { Reading } from '../../domain/model/reading.ts';
import type * as ast from '../../generated/ast.ts';
import type { LowerContext } from './context.ts';

/**
 * Storeys above a house, a line or a wall. What cannot be read is not known: its problem has been told, and silence would be
 * told again as nobody having said a word.
 */
export function storeysOf(
  line: ast.WallStoreys | ast.LineStoreys,
  what: string,
  context: LowerContext,
): Reading<number> {
  const reading = context.count(line.storeys, what);
  if (reading?.kind === 'known' && reading.value < 0) {
    context.say('wrong-kind', `${reading.typed} is no number of storeys; write 1, 2 or 3.`, reading.source);
    return { kind: 'unknown', source: reading.source };
  }
  return reading ?? { kind: 'unknown', source: context.span(line) };
}
