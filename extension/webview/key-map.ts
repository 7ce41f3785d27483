import type { ThingName } from '../../language/protocol/preview.ts';
import { type Box, joined } from './boxes.ts';
import type { KeptBoxes } from './kept-boxes.ts';
import { nameOf, type ThingsDrawn } from './things-drawn.ts';

/** Small, the plan is a key map: walls and what stands on them, with large letters, and nothing too small to read. */

/** Pixels for a millimetre of paper at which the marks of a plan can be read. */
export const LEAST_SCALE_OF_PLAN = 2.4;
/** Pixels; a letter of the key map is never smaller. */
const letterSize = 11;

export interface Room {
  /** Pixels. */
  readonly width: number;
  readonly height: number;
}

/** What of the plan is shown; `undefined` where no wall is drawn yet. */
export function keyMapBox(things: ThingsDrawn, boxes: KeptBoxes, { width, height }: Room): Box | undefined {
  const walls = joined(wallsOf(things).map(boxes.of));
  if (!walls) return undefined;
  // The letters need room, and the room makes the drawing smaller: solved for both at once.
  const letters = 4.4 * letterSize;
  const across = walls.width / Math.max(1, width - letters);
  const down = walls.height / Math.max(1, height - letters);
  const by = (letters / 2) * Math.max(across, down);
  return { x: walls.x - by, y: walls.y - by, width: walls.width + 2 * by, height: walls.height + 2 * by };
}

/** Where the letter of a wall stands. */
export interface LetterPlace {
  readonly wall: ThingName;
  readonly x: number;
  readonly y: number;
}

/** The letter of each wall outside it. */
export function letterPlaces(things: ThingsDrawn, boxes: KeptBoxes, pixel: number): readonly LetterPlace[] {
  const walls = wallsOf(things).map((wall) => ({ name: nameOf(wall), box: boxes.of(wall) }));
  const house = joined(walls.map(({ box }) => box));
  if (!house) return [];
  return walls.map(({ name, box }) => {
    const [x, y] = outside(box, house, 1.3 * letterSize * pixel);
    return { wall: name, x, y };
  });
}

/** In a ring as on paper; that of the wall in sight is solid. */
export function drawLetter({ wall, x, y }: LetterPlace, here: ThingName, pixel: number): SVGGElement {
  const letter = document.createElementNS(svgSpace, 'g');
  letter.setAttribute('class', wall === here ? 'letter here' : 'letter');
  letter.dataset.thing = wall;
  letter.setAttribute('transform', `translate(${x} ${y}) scale(${pixel})`);
  const ring = document.createElementNS(svgSpace, 'circle');
  ring.setAttribute('r', String(letterSize * 0.82));
  const text = document.createElementNS(svgSpace, 'text');
  text.setAttribute('font-size', String(letterSize));
  text.setAttribute('dy', '0.36em');
  text.textContent = wall.slice('wall:'.length);
  letter.append(ring, text);
  return letter;
}

const svgSpace = 'http://www.w3.org/2000/svg';

/** Those of the outline: they alone have a string of dimensions. */
function wallsOf(things: ThingsDrawn): readonly SVGGElement[] {
  const strung = new Set([...things.ofRole('dimension')].map(nameOf));
  return [...things.ofRole('wall')].filter((group) => strung.has(nameOf(group)));
}

/** A point beside a wall, on the side away from the middle of the house. */
export function outside(wall: Box, house: Box, by: number): readonly [number, number] {
  const x = wall.x + wall.width / 2;
  const y = wall.y + wall.height / 2;
  if (wall.width >= wall.height) return [x, y < house.y + house.height / 2 ? wall.y - by : wall.y + wall.height + by];
  return [x < house.x + house.width / 2 ? wall.x - by : wall.x + wall.width + by, y];
}
