import type { Layout, Wall } from '../model/layout.ts';
import { lengthThatCloses } from '../model/outline.ts';
import { outlineOf, perimeterOf } from '../model/taped-outline.ts';
import type { Fix } from '../rules/finding.ts';
import { formatExact, formatLength } from '../units/format-length.ts';
import type { Length } from '../units/length.ts';
import { closingEdits } from './closing.ts';

/** In a longer outline nobody looks for the one wall that was misread by trying them all. */
const MOST_WALLS = 60;

/** A wall that would close the outline if it alone had been misread, and the length that it would have. */
export function misreadWalls(layout: Layout): readonly { readonly wall: Wall; readonly length: Length }[] {
  const walls = perimeterOf(layout);
  if (walls.length > MOST_WALLS) return [];
  const outline = outlineOf(layout, 'taped');
  return walls.flatMap((wall, index) => {
    const length = lengthThatCloses(outline, index);
    return length === undefined || wall.taped?.kind !== 'known' ? [] : [{ wall, length }];
  });
}

export function closingFixes(layout: Layout): readonly Fix[] {
  const edits = closingEdits(layout);
  return [
    ...(edits.length === 0
      ? []
      : [{ title: 'Spread the closing error over the walls by length', trust: 'review' as const, edits }]),
    ...misreadWalls(layout).flatMap(({ wall, length }): readonly Fix[] =>
      wall.taped?.kind === 'known' && wall.adjusted === undefined
        ? [
            {
              title: `Take wall ${wall.name} as ${formatLength(length, layout.title.units)}; tape it again`,
              trust: 'by-hand',
              edits: [
                {
                  kind: 'replace-text',
                  span: wall.taped.source,
                  text: `assume ${formatExact(length, layout.title.units)}`,
                },
              ],
            },
          ]
        : [],
    ),
  ];
}
