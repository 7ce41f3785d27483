import { lettered } from '../lettering.ts';
import { group, line, rect, type SceneNode, strokes, type XY } from '../scene.ts';
import { capHeights } from '../tokens.ts';
import { frameOf, type Paper } from './sheet-sizes.ts';

/** Frame, fields of the grid reference and centring marks (ISO 5457). */
export function sheetFrame(paper: Paper): SceneNode {
  const frame = frameOf(paper);
  const [right, bottom] = [frame.x + frame.width, frame.y + frame.height];
  const { across, down } = paper.fields;
  const columns = Array.from({ length: across }, (_, index) => frame.x + (frame.width * index) / across);
  const rows = Array.from({ length: down }, (_, index) => frame.y + (frame.height * index) / down);
  const ticks: (readonly [XY, XY])[] = [
    ...columns.slice(1).flatMap((x): (readonly [XY, XY])[] => [
      [
        [x, frame.y - FIELD],
        [x, frame.y],
      ],
      [
        [x, bottom],
        [x, bottom + FIELD],
      ],
    ]),
    ...rows.slice(1).flatMap((y): (readonly [XY, XY])[] => [
      [
        [frame.x - FIELD, y],
        [frame.x, y],
      ],
      [
        [right, y],
        [right + FIELD, y],
      ],
    ]),
  ];
  const middleOf = FIELD / 2 + 0.6;
  const name = (text: string, [x, y]: XY): SceneNode =>
    lettered(text, [x, y + capHeights.least / 2], { size: 'least', face: 'regular', anchor: 'middle', colour: 'ink2' });
  return group(
    [
      rect(frame, { stroke: { colour: 'ink', pen: 'P1' } }),
      strokes(ticks, { colour: 'ink2', pen: 'P5' }),
      ...columns.flatMap((x, index) => {
        const middle = x + frame.width / across / 2;
        const number = String(index + 1);
        return [name(number, [middle, frame.y - middleOf]), name(number, [middle, bottom + middleOf])];
      }),
      ...rows.flatMap((y, index) => {
        const middle = y + frame.height / down / 2;
        const letter = letters[index] ?? '';
        return [name(letter, [frame.x - middleOf, middle]), name(letter, [right + middleOf, middle])];
      }),
      ...centringMarks(paper),
    ],
    { hidden: true },
  );
}

const FIELD = 5;
/** Without I and O, which are read as numbers (ISO 5457). */
const letters = [...'ABCDEFGHJKLMNPQRSTUVWXYZ'];

/** In the middle of the trimmed sheet, from its edge to a little inside the frame. */
function centringMarks(paper: Paper): readonly SceneNode[] {
  const frame = frameOf(paper);
  const [right, bottom] = [frame.x + frame.width, frame.y + frame.height];
  const [x, y] = [paper.width / 2, paper.height / 2];
  const inside = 2;
  const marks: readonly (readonly [XY, XY])[] = [
    [
      [x, 0],
      [x, frame.y + inside],
    ],
    [
      [x, paper.height],
      [x, bottom - inside],
    ],
    [
      [0, y],
      [frame.x + inside, y],
    ],
    [
      [paper.width, y],
      [right - inside, y],
    ],
  ];
  return marks.map(([from, to]) => line(from, to, { colour: 'ink', pen: 'P1' }));
}
