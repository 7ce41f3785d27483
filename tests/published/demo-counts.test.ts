import { describe, expect, it } from 'vitest';
import { writeEdits } from '../../language/analysis.ts';
import { applyChanges } from '../../language/syntax/write-edit.ts';
import { analyse } from '../support/analyse.ts';
import { MAIN } from '../support/memory-host.ts';

// Existing-building code appendix, chapter A3, Tables A304.3.1 and A304.3.2: from memory (the short boards: confirm in the
// adopted copy). How many anchors the demo house takes, board by board, were nothing in the way and nothing there already:
// ceil((length - 2 x 12 in) / spacing) + 1 for boards of 12 ft and more, the count table for shorter ones; two storeys on every line.
const boards: readonly (readonly [name: string, length: string, halfInch: number, fiveEighths: number])[] = [
  ['A1', `16'-0"`, 5, 4],
  ['A2', `12'-6"`, 4, 3],
  ['A3', `6'-1"`, 4, 3],
  ['B1', `12'-3"`, 4, 3],
  ['C1', `6'-1"`, 4, 3],
  ['D1', `3'-6"`, 2, 2],
  ['D2', `16'-1"`, 5, 4],
  ['E1', `13'-11"`, 4, 3],
  ['E2', `14'-3"`, 5, 4],
  ['F1', `9'-7"`, 4, 3],
  ['F2', `10'-9"`, 4, 3],
  ['F3', `16'-0"`, 5, 4],
];

/** One board alone on its wall, with nothing in the way. */
const houseOf = (board: string, length: string, bolt: string, anchors = ''): string => `layout "Counts"
  rules existing-building

house
  storeys 2

connector rod through-bolt
  demo
  body 3" wide 3" tall 0.229" thick
  into concrete 1 adhesive-rod size ${bolt} x 8-1/2" hole 5/8" hole-depth 4" edge 1-3/4"

wall W length ${length}
  foundation concrete thick 8" showing 18" top 0" grade 8"
  sill ${board} size 1-5/8" x 5-5/8" set-back 0" headroom 30"

work on W
${anchors}`;

/** The anchors that the tool itself proposes for the bare board. */
function proposed(board: string, length: string, bolt: string): readonly string[] {
  const analysis = analyse(houseOf(board, length, bolt));
  const bare = analysis.findings.find((finding) => finding.rule === 'load-path/wall-line-forgotten');
  const fix = bare?.fixes.find((each) =>
    each.edits.every((edit) => edit.kind === 'insert-anchor' && edit.connector === 'rod'),
  );
  if (!fix) throw new Error(`no fix for ${board}`);
  const written = writeEdits(analysis, fix.edits);
  if (written.kind !== 'changes') throw new Error(written.reason);
  const text = applyChanges(
    analysis.text,
    written.changes.filter((change) => change.file === MAIN),
  );
  return text.split('\n').filter((line) => line.startsWith('  anchor'));
}

describe.each([
  ['1/2" at 4 ft', `1/2"`, 2, 50],
  ['5/8" at 6 ft', `5/8"`, 3, 39],
] as const)('the demo house in anchors of %s', (_words, bolt, column, total) => {
  it.each(boards)('board %s, %s long', (board, length, ...counts) => {
    const wanted = counts[column - 2];
    const anchors = proposed(board, length, bolt);
    expect(anchors).toHaveLength(wanted ?? 0);
    const errors = (lines: readonly string[]) =>
      analyse(houseOf(board, length, bolt, lines.join('\n'))).findings.filter(
        (finding) => finding.severity === 'error',
      );
    expect(errors(anchors)).toEqual([]);
    // One fewer is never enough, whichever is left out.
    for (const left of anchors) expect(errors(anchors.filter((line) => line !== left))).not.toEqual([]);
  });

  it(`takes ${total} in all`, () => {
    expect(boards.reduce((sum, [board, length]) => sum + proposed(board, length, bolt).length, 0)).toBe(total);
  });
});
