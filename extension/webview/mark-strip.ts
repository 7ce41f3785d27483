import type { ThingName } from '../../language/protocol/preview.ts';
import type { Box } from './boxes.ts';
import { placeInRows } from './cell-rows.ts';
import { LEAST_TEXT } from './level-of-detail.ts';
import { nameOf, type ThingsDrawn } from './things-drawn.ts';

/**
 * A wall seen whole in a narrow pane: its marks in the drawing are too small to read, and a mark is never left out. So they stand
 * below it, each near its place, with its station under it, in as many rows as it takes.
 */
export interface MarkStrip {
  readonly element: HTMLElement;
  show(things: ThingsDrawn, box: Box, scale: number, here: ThingName): void;
  hide(): void;
}

export function createMarkStrip(): MarkStrip {
  const element = document.createElement('div');
  element.className = 'mark-strip';
  element.setAttribute('aria-hidden', 'true');
  element.hidden = true;
  return {
    element,
    hide() {
      element.hidden = true;
    },
    show(things, box, scale, here) {
      element.hidden = false;
      const widthOf = measureIn(element);
      const marks = [...endsOf(things), ...marksOf(things)].toSorted((a, b) => a.at - b.at);
      const width = Math.floor(box.width * scale);
      const placed = placeInRows(
        marks.map(({ at, words, station }) => ({
          wanted: (at - box.x) * scale,
          width: Math.max(widthOf(words) + 12, widthOf(station)),
        })),
        width,
      );
      element.style.width = `${width}px`;
      element.style.height = `${rowHeight * (1 + Math.max(0, ...placed.map(({ row }) => row)))}px`;
      element.replaceChildren(
        ...marks.map(({ thing, words, station, kind }, index) => {
          const cell = document.createElement('span');
          cell.className = `cell ${kind}${thing !== '' && thing === here ? ' here' : ''}`;
          cell.dataset.thing = thing;
          cell.style.left = `${placed[index]?.left ?? 0}px`;
          cell.style.width = `${placed[index]?.width ?? 0}px`;
          cell.style.top = `${rowHeight * (placed[index]?.row ?? 0)}px`;
          const mark = document.createElement('b');
          mark.textContent = words;
          cell.append(mark, station);
          return cell;
        }),
      );
    },
  };
}

/** The flags at the ends of the tape: where it is hooked, and how long the wall is. */
function endsOf({ drawing }: ThingsDrawn): readonly Mark[] {
  return flagsOf(drawing).map((flag) => {
    const { x, width } = flag.getBBox();
    return { thing: '', words: flag.textContent?.trim() ?? '', station: '', kind: 'end', at: x + width / 2 };
  });
}

/** What they say, where there is no drawing to see them in. */
export const endWords = ({ drawing }: ThingsDrawn): readonly string[] =>
  flagsOf(drawing).map((flag) => flag.textContent?.trim() ?? '');

const flagsOf = (drawing: SVGSVGElement | undefined): readonly SVGGElement[] => [
  ...(drawing?.querySelectorAll<SVGGElement>('[data-role="tape"]:not(:has(> rect))') ?? []),
];

function measureIn(element: HTMLElement): (words: string) => number {
  const context = document.createElement('canvas').getContext('2d');
  if (!context) return (words) => words.length * 7;
  context.font = getComputedStyle(element).font;
  return (words) => Math.ceil(context.measureText(words).width);
}

/** Pixels: a mark and a station under it. */
const rowHeight = 2.9 * LEAST_TEXT;

interface Mark {
  readonly thing: ThingName;
  readonly words: string;
  readonly station: string;
  readonly kind: 'planned' | 'crossed' | 'end';
  /** The middle of the thing itself, in mm of paper. */
  readonly at: number;
}

function marksOf(things: ThingsDrawn): readonly Mark[] {
  return [...things.all()].flatMap((group): Mark[] => {
    const [words, station] = ['mark', 'station'].map((role) =>
      group.querySelector(`:scope > [data-role="${role}"] text`),
    );
    if (!words || !station) return [];
    const itself = [...things.of(nameOf(group))].find((each) => each.dataset.role === 'thing') ?? group;
    const { x, width } = itself.getBBox();
    return [
      {
        thing: nameOf(group),
        words: words.textContent ?? '',
        station: station.textContent ?? '',
        kind: station.hasAttribute('text-decoration') ? 'crossed' : 'planned',
        at: x + width / 2,
      },
    ];
  });
}
