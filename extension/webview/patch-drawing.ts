import { attributesOf, type Piece, pairPieces, piecesOf } from './drawing-pieces.ts';
import { isHarmless, readDrawing, sortLeaders } from './read-drawing.ts';

/** A drawing on its stage, with the text that it was made of. */
export interface Drawn {
  readonly element: SVGSVGElement;
  readonly pieces: Piece | undefined;
}

/**
 * Makes the drawing on the stage that of the text. What did not change is not read, not made and not laid out again, and what is
 * about the same thing stays the same element, so that focus survives.
 */
export function patchDrawing(before: Drawn | undefined, stage: HTMLElement, svg: string): Drawn | undefined {
  const pieces = svg === '' ? undefined : piecesOf(svg);
  if (before?.pieces && pieces && patch(before.element, before.pieces, pieces)) {
    sortLeaders(before.element);
    return { element: before.element, pieces };
  }
  const element = svg === '' ? undefined : readDrawing(svg);
  before?.element.remove();
  if (!element) return undefined;
  stage.prepend(element);
  sortLeaders(element);
  return { element, pieces };
}

/** False where the page and the text have drifted apart, or the text holds more than a drawing may: it is then read as a whole. */
function patch(element: Element, before: Piece, now: Piece): boolean {
  if (before.text === now.text) return true;
  const old = [...element.children];
  if (old.length !== before.children.length) return false;
  if (before.open !== now.open) takeAttributes(element, before, now);
  const pairs = pairPieces(before.children, now.children);
  const kept = new Set(pairs.flatMap((from) => (from === undefined ? [] : [old[from]])));
  for (const child of old) if (!kept.has(child)) child.remove();
  const fresh = made(now.children.filter((_, at) => pairs[at] === undefined));
  if (!fresh) return false;
  let place = element.firstElementChild;
  for (const [at, piece] of now.children.entries()) {
    const from = pairs[at];
    const was = from === undefined ? undefined : before.children[from];
    const child = from === undefined ? fresh.shift() : old[from];
    if (!child || (was && !patch(child, was, piece))) return false;
    if (child === place) place = place.nextElementSibling;
    else element.insertBefore(child, place);
  }
  return true;
}

/** All at once: to read a text costs more than what is in it. */
function made(pieces: readonly Piece[]): Element[] | undefined {
  if (pieces.length === 0) return [];
  const text = pieces.map((piece) => piece.text).join('');
  const around = readDrawing(`<svg xmlns="http://www.w3.org/2000/svg">${text}</svg>`);
  return around && around.children.length === pieces.length ? [...around.children] : undefined;
}

/** Those of the text only: what the pane itself has set on the element stays, and the part that is in sight too. */
function takeAttributes(element: Element, before: Piece, now: Piece): void {
  const [old, next] = [attributesOf(before.open), attributesOf(now.open)];
  for (const name of old.keys()) if (!next.has(name)) element.removeAttribute(name);
  for (const [name, value] of next) {
    if (name !== 'viewBox' && old.get(name) !== value && isHarmless(name)) element.setAttribute(name, value);
  }
}
