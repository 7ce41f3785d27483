import { holeFailsInWords } from '../../language/domain/documents/write-placement.ts';
import type { Layout, NewAnchor, Wall } from '../../language/domain/model/layout.ts';
import { holeFailsOf, slideOf } from '../../language/domain/place/crew-notes.ts';
import { formatLength } from '../../language/domain/units/format-length.ts';
import type { Fact } from './describe.ts';

/** For whoever stands with the drill at the wall: how far the anchor may slide, and where to go on if its hole fails. */
export function placeFacts(layout: Layout, wall: Wall, anchor: NewAnchor): readonly Fact[] {
  const { units } = layout.title;
  const room = slideOf(layout, wall, anchor);
  const next = room && holeFailsOf(layout, wall, anchor);
  const side = (length: NonNullable<typeof room>['left'], word: string) =>
    length === 0 ? `none ${word}` : `${formatLength(length, units)} ${word}`;
  return [
    ...(room
      ? [
          {
            name: 'may slide alone',
            text:
              room.left === 0 && room.right === 0
                ? 'not at all'
                : `${side(room.left, 'left')}, ${side(room.right, 'right')}`,
          },
        ]
      : []),
    ...(next ? [{ name: 'if its hole fails', text: holeFailsInWords(next, units) }] : []),
  ];
}
