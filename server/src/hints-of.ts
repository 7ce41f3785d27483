import { type InlayHint, InlayHintKind } from 'vscode-languageserver';
import type { TextDocument } from 'vscode-languageserver-textdocument';
import type { Analysis } from '../../language/analysis.ts';
import { gapInWords, scheduleOf } from '../../language/domain/documents/schedule.ts';
import type { SourceSpan } from '../../language/domain/model/source.ts';
import { formatLength } from '../../language/domain/units/format-length.ts';
import { minus } from '../../language/domain/units/length.ts';

/** The hints between two offsets of a document. */
export function hintsOf(analysis: Analysis, document: TextDocument, from: number, to: number): InlayHint[] {
  const { layout } = analysis;
  const { units } = layout.title;
  const hints: InlayHint[] = [];
  const add = (span: SourceSpan, label: string | undefined, tooltip: string): void => {
    const place = analysis.locate(span);
    if (label === undefined || place?.file !== document.uri || place.end < from || place.start > to) return;
    hints.push({
      position: document.positionAt(place.end),
      label,
      tooltip,
      kind: InlayHintKind.Type,
      paddingLeft: true,
    });
  };
  const rows = new Map(scheduleOf(layout, analysis.checked).rows.map((row) => [row.mark, row]));
  for (const wall of layout.walls) {
    const counted = wall.anchors.filter(({ state }) => state !== 'omitted' && state !== 'failed').length;
    if (counted > 0) add(wall.nameSource, `${counted} new anchors`, 'New anchors on this wall that are not left out');
    for (const piece of wall.pieces) {
      if (piece.name === undefined) continue;
      add(piece.source, formatLength(minus(piece.to, piece.from), units), `Length of sill board ${piece.name}`);
    }
    for (const anchor of wall.anchors) {
      const gap = gapInWords(rows.get(anchor.name)?.gapRight, units);
      if (gap !== undefined && anchor.stationSource)
        add(anchor.stationSource, `→ ${gap}`, 'To the next anchor on its right, or to the end of the board');
    }
  }
  return hints;
}
