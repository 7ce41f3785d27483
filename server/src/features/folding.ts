import { type FoldingRange, FoldingRangeKind } from 'vscode-languageserver';
import { cutBlocks } from '../../../language/syntax/cut.ts';
import type { Feature } from '../context.ts';

/** A block folds to its heading, a run of comment lines to its first. */
export const folding: Feature = {
  capabilities: { foldingRangeProvider: true },
  register(context) {
    context.connection.onFoldingRanges(({ textDocument }) =>
      context.guarded<FoldingRange[]>('folding', [], () => {
        const text = context.documents.get(textDocument.uri)?.getText();
        return text === undefined ? [] : foldsOf(text);
      }),
    );
    return undefined;
  },
};

export function foldsOf(text: string): FoldingRange[] {
  const folds: FoldingRange[] = [];
  let line = 0;
  for (const block of cutBlocks(text)) {
    const lines = block.text.split(/\r\n|\n|\r/);
    const isLast = block.start + block.text.length === text.length;
    // A block ends with its line break, behind which the next one starts.
    const count = isLast ? lines.length : lines.length - 1;
    const heading = lines.findIndex((each) => each.trim() !== '' && !/^\s*\/\//.test(each));
    let end = count - 1;
    while (end > 0 && isEmptyOrComment(lines[end])) end -= 1;
    if (block.kind !== 'preamble' && heading >= 0 && end > heading) {
      folds.push({ startLine: line + heading, endLine: line + end });
    }
    for (const run of commentRuns(lines.slice(0, count))) {
      folds.push({ startLine: line + run.from, endLine: line + run.to, kind: FoldingRangeKind.Comment });
    }
    line += count;
  }
  return folds;
}

function isEmptyOrComment(line: string | undefined): boolean {
  return line === undefined || /^\s*(\/\/.*)?$/.test(line);
}

function commentRuns(lines: readonly string[]): readonly { readonly from: number; readonly to: number }[] {
  const runs: { from: number; to: number }[] = [];
  for (const [index, line] of lines.entries()) {
    if (!/^\s*\/\//.test(line)) continue;
    const last = runs.at(-1);
    if (last && last.to === index - 1) last.to = index;
    else runs.push({ from: index, to: index });
  }
  return runs.filter(({ from, to }) => to > from);
}
