import type { SelectionRange } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import { cutBlocks } from '../../../language/syntax/cut.ts';
import { lexBlock, splitLines } from '../../../language/syntax/lex-block.ts';
import { type Feature, rangeOf } from '../context.ts';

/** Growing the selection: the word, its line with what carries it on, the block, the file. */
export const selectionRanges: Feature = {
  capabilities: { selectionRangeProvider: true },
  register(context) {
    context.connection.onSelectionRanges(({ textDocument, positions }) =>
      context.guarded<SelectionRange[]>('growing the selection', [], () => {
        const document = context.documents.get(textDocument.uri);
        if (!document) return [];
        return positions.map((position) => selectionAt(document, document.offsetAt(position)));
      }),
    );
    return undefined;
  },
};

interface Stretch {
  readonly start: number;
  readonly end: number;
}

function selectionAt(document: TextDocument, offset: number): SelectionRange {
  const text = document.getText();
  const wider: Stretch[] = [{ start: 0, end: text.length }];
  const block = cutBlocks(text).findLast(({ start }) => start <= offset);
  if (block) {
    wider.push({ start: block.start, end: block.start + block.text.trimEnd().length });
    const { tokens } = lexBlock(block.text);
    for (const line of splitLines(tokens)) {
      const [first, last] = [line[0], line.at(-1)];
      if (!first || !last) continue;
      wider.push({
        start: block.start + first.start,
        end: block.start + last.end,
      });
      for (const token of line) {
        wider.push({
          start: block.start + token.start,
          end: block.start + token.end,
        });
      }
    }
  }
  let selection: SelectionRange | undefined;
  let last: Stretch | undefined;
  const around = wider
    .filter(({ start, end }) => start <= offset && offset <= end)
    .sort((a, b) => b.end - b.start - (a.end - a.start));
  for (const stretch of around) {
    if (last && (stretch.start < last.start || stretch.end > last.end)) continue;
    if (last && stretch.start === last.start && stretch.end === last.end) continue;
    selection = { range: rangeOf(document, stretch.start, stretch.end), ...(selection ? { parent: selection } : {}) };
    last = stretch;
  }
  return selection ?? { range: rangeOf(document, offset, offset) };
}
