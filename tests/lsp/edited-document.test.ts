import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { isSameText, sharedEnds, textInPieces } from '../../language/syntax/text-in-pieces.ts';
import { editedDocuments } from '../../server/src/edited-document.ts';

/** Held against the document of the protocol's own library, which keeps one string. */

const word = fc.constantFrom(
  'wall A 10\n',
  'x',
  '\n',
  '\r',
  '\r\n',
  '',
  '½',
  '🏠',
  `${'long '.repeat(300)}\r\n`,
  'end',
);
const text = (most: number): fc.Arbitrary<string> => fc.array(word, { maxLength: most }).map((words) => words.join(''));
const position = fc.record({ line: fc.integer({ min: -1, max: 60 }), character: fc.integer({ min: -1, max: 1_600 }) });
const change = fc.oneof(
  { weight: 8, arbitrary: fc.record({ range: fc.record({ start: position, end: position }), text: text(6) }) },
  { weight: 1, arbitrary: fc.record({ text: text(20) }) },
);

describe('a document in pieces', () => {
  it('is, after any edits, what one of one string is', () => {
    fc.assert(
      fc.property(text(40), fc.array(fc.array(change, { maxLength: 3 }), { maxLength: 8 }), (first, edits) => {
        let ours = editedDocuments.create('a', 'sillwright', 1, first);
        let theirs = TextDocument.create('a', 'sillwright', 1, first);
        for (const [index, changes] of edits.entries()) {
          const before = ours;
          const textBefore = before.getText();
          ours = editedDocuments.update(ours, changes, index + 2);
          // Theirs loses count of its lines by an edit behind the last of them, so it is made anew after each change.
          for (const change of changes) {
            const now = TextDocument.update(theirs, [change], index + 2).getText();
            theirs = TextDocument.create('a', 'sillwright', index + 2, now);
          }
          const now = theirs.getText();
          expect(ours.inPieces.slice(3, 5_000)).toBe(now.slice(3, 5_000));
          expect(ours.getText()).toBe(now);
          expect([ours.version, ours.lineCount]).toEqual([index + 2, theirs.lineCount]);
          for (const offset of [-1, 0, 1, 7, 4_095, 4_096, now.length - 1, now.length, now.length + 1]) {
            const place = theirs.positionAt(offset);
            expect(ours.positionAt(offset)).toEqual(place);
            for (const character of [-1, 0, place.character, place.character + 1, 2_000]) {
              const there = { line: place.line, character };
              expect(ours.offsetAt(there)).toBe(theirs.offsetAt(there));
            }
          }
          for (const line of [-1, 0, 1, theirs.lineCount - 1, theirs.lineCount]) {
            expect(ours.getLineRange(line)).toEqual(theirs.getLineRange(line));
            expect(ours.getEOLCharacters(line)).toBe(theirs.getEOLCharacters(line));
          }
          // A state that somebody still looks at stays as it was.
          expect(before.getText()).toBe(textBefore);
          const { start, end } = sharedEnds(before.inPieces, ours.inPieces);
          expect(textBefore.slice(0, start)).toBe(now.slice(0, start));
          expect(textBefore.slice(textBefore.length - end)).toBe(now.slice(now.length - end));
          if (isSameText(before.inPieces, ours.inPieces)) expect(now).toBe(textBefore);
        }
      }),
      { numRuns: process.env.SILLWRIGHT_LONG ? 10_000 : 300 },
    );
  });

  it('knows what an edit left alone without a look at it', () => {
    const line = 'wall A 10 ft\n';
    const before = textInPieces(line.repeat(10_000));
    const after = editedDocuments.update(
      editedDocuments.create('a', 'sillwright', 1, line.repeat(10_000)),
      [{ range: { start: { line: 5_000, character: 5 }, end: { line: 5_000, character: 6 } }, text: 'Bay' }],
      2,
    );
    const again = editedDocuments.update(
      after,
      [{ range: { start: { line: 5_000, character: 5 }, end: { line: 5_000, character: 8 } }, text: 'C' }],
      3,
    );
    expect(before.pieces.length).toBeGreaterThan(20);
    expect(again.inPieces.pieces.length).toBe(after.inPieces.pieces.length);
    const kept = again.inPieces.pieces.filter((piece) => after.inPieces.pieces.includes(piece));
    expect(kept.length).toBeGreaterThanOrEqual(again.inPieces.pieces.length - 3);
    const at = 5_000 * line.length + 'wall '.length;
    expect(sharedEnds(after.inPieces, again.inPieces)).toEqual({ start: at, end: 10_000 * line.length - at - 1 });
  });
});
