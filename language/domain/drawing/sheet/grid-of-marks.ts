import { countOf } from '../../documents/text-layout.ts';
import type { Layout } from '../../model/layout.ts';
import type { MarkState } from '../../model/record.ts';
import { markEnds } from '../elevation-new.ts';
import { lettered, plainText, shortened, textWidth, wrapText } from '../lettering.ts';
import { group, line, type SceneNode, type SymbolName, type XY } from '../scene.ts';
import type { Block, Legend, LegendEntry } from '../sheet-lists.ts';
import { underHeading } from '../sheet-lists.ts';
import { markFrame } from '../symbols.ts';
import { capHeights } from '../tokens.ts';
import { isGirder, type MarkOwner, marksOfHouse } from './marks-of-house.ts';

const FRAME_HEIGHT = 4.6;
const PITCH = 8.4;
const LABEL = 46;
const BETWEEN = 2.6;
/** No block is taller. */
const MOST_LINES = 8;

/** Walls and girders as rows, their marks in order of station: one glance shows how far the work is. */
export function gridOfMarks(layout: Layout, width: number): readonly Block[] {
  const owners = marksOfHouse(layout);
  const total = owners.reduce((sum, { marks }) => sum + marks.length, 0);
  return underHeading(
    `Marks, wall by wall: ${total} in all`,
    width,
    owners.length === 0 ? [] : owners.flatMap((owner) => rowsOf(owner, width)),
  );
}

interface PlacedFrame {
  readonly mark: MarkOwner['marks'][number];
  readonly x: number;
  readonly width: number;
}

function rowsOf(owner: MarkOwner, width: number): readonly Block[] {
  const lines: PlacedFrame[][] = [[]];
  let used = 0;
  for (const mark of owner.marks) {
    const text = plainText(mark.name);
    const ticked = mark.state === 'installed' || mark.state === 'failed' ? 2 : 0;
    const wide = Math.min(width - LABEL - 4, Math.max(8, textWidth(text, 'mark', 'regular') + 3.6));
    if (used > 0 && used + wide + ticked > width - LABEL) {
      lines.push([]);
      used = 0;
    }
    lines[lines.length - 1]?.push({ mark, x: LABEL + used, width: wide });
    used += wide + ticked + BETWEEN;
  }
  const label = `${isGirder(owner) ? 'girder ' : ''}${plainText(owner.name)}${owner.label === undefined ? '' : `  ${plainText(owner.label)}`}`;
  const words = wrapText(stateWords(owner), LABEL - 3, 'least').slice(0, 3);
  const chunks = Array.from({ length: Math.ceil(lines.length / MOST_LINES) }, (_, index) =>
    lines.slice(index * MOST_LINES, (index + 1) * MOST_LINES),
  );
  return chunks.map((chunk, index): Block => {
    const isFirst = index === 0;
    const height = Math.max(chunk.length * PITCH + 2, isFirst ? 6 + words.length * 2.9 : 0);
    return {
      role: 'list',
      height,
      draw: ([x, y]) => [
        group(
          [
            lettered(shortened(label, LABEL - 3, 'label'), [x, y + 1.2 + capHeights.label], { size: 'label' }),
            ...(isFirst
              ? words.map((text, row) =>
                  lettered(text, [x, y + 4.4 + capHeights.least + row * 2.9], { size: 'least', colour: 'ink2' }),
                )
              : []),
            ...chunk.flatMap((frames, row) =>
              frames.map((frame) => markNode(frame, [x + frame.x + frame.width / 2, y + 4.2 + row * PITCH])),
            ),
            line([x, y + height - 0.6], [x + width, y + height - 0.6], { colour: 'rule', pen: 'P5' }),
          ],
          { thing: owner.id, name: `${label}: ${stateWords(owner)}` },
        ),
      ],
    };
  });
}

function markNode({ mark, width }: PlacedFrame, centre: XY): SceneNode {
  const ends = markEnds(mark.connector);
  const name = shortened(plainText(mark.name), width - 1.6, 'mark', 'regular');
  const nodes = markFrame(name, centre, { width, height: FRAME_HEIGHT }, ends, mark, 'mark');
  return group([group(nodes, { symbol: frameSymbol(mark), role: 'mark' })], {
    thing: mark.id,
    role: 'thing',
    name: `${plainText(mark.name)}, ${mark.state}${mark.placed ? '' : ', no place'}`,
  });
}

function frameSymbol({ connector, proposed, state }: MarkOwner['marks'][number]): SymbolName {
  if (state === 'omitted') return 'mark-omitted';
  const ends = markEnds(connector);
  if (ends === 'unknown') return 'connector-unknown';
  if (ends === 'round') return proposed ? 'mark-round-proposed' : 'mark-round';
  return proposed ? 'mark-square-proposed' : 'mark-square';
}

const stateNames: Readonly<Record<MarkState, string>> = {
  planned: 'to do',
  installed: 'installed',
  omitted: 'omitted',
  failed: 'failed',
};

function stateWords({ marks, noWork }: MarkOwner): string {
  if (marks.length === 0) return noWork === undefined ? 'no mark' : `no work: ${plainText(noWork)}`;
  const counts = (Object.keys(stateNames) as MarkState[]).flatMap((state) => {
    const count = marks.filter((mark) => mark.state === state).length;
    return count === 0 ? [] : [`${count} ${stateNames[state]}`];
  });
  const proposed = marks.filter((mark) => mark.proposed && mark.state === 'planned').length;
  const lost = marks.filter(({ placed }) => !placed).length;
  return [
    countOf(marks.length, 'mark'),
    ...(counts.length > 1 || marks.some(({ state }) => state !== 'planned') ? counts : ['all to do']),
    ...(proposed > 0 ? [`${proposed} proposed`] : []),
    ...(lost > 0 ? [`${lost} without a place`] : []),
  ].join(', ');
}

const entry = (caption: string, draw: LegendEntry['draw']): LegendEntry => ({ caption, draw });
const sample =
  (ends: Parameters<typeof markFrame>[3], state: Parameters<typeof markFrame>[4]): LegendEntry['draw'] =>
  (centre) =>
    markFrame('F-1', centre, { width: 10, height: FRAME_HEIGHT }, ends, state, 'mark');
const planned = { proposed: false, state: 'planned' } as const;

export const gridLegend: Legend = {
  'mark-square': entry('plate, set by hand', sample('square', planned)),
  'mark-square-proposed': entry('plate, proposed by the tool', sample('square', { ...planned, proposed: true })),
  'mark-round': entry('bolt or rod, set by hand', sample('round', planned)),
  'mark-round-proposed': entry('bolt or rod, proposed by the tool', sample('round', { ...planned, proposed: true })),
  'connector-unknown': entry('connector not known', sample('unknown', planned)),
  'mark-omitted': entry('omitted', sample('square', { proposed: false, state: 'omitted' })),
  installed: entry('installed', sample('square', { proposed: false, state: 'installed' })),
  failed: entry('failed its test', sample('square', { proposed: false, state: 'failed' })),
  issued: entry('bar: issued, stays as it is', sample('square', { ...planned, issued: true })),
};
