import { type Piece, type PieceGroup, pairPieces, svgOf } from '../../language/protocol/picture.ts';
import { longestRising } from './longest-rising.ts';
import { attributesOf } from './opening-tag.ts';
import { isHarmless, readDrawing, sortByOthers } from './read-drawing.ts';

/** A drawing on its stage, with the picture that it was made of. */
export interface Drawn {
  readonly element: SVGSVGElement;
  readonly picture: PieceGroup;
}

/**
 * Makes the drawing on the stage that of the picture. What did not change is not read, not made and not laid out again, and what is
 * about the same thing stays the same element, so that focus survives.
 */
export function patchDrawing(
  before: Drawn | undefined,
  stage: HTMLElement,
  picture: PieceGroup | null,
): Drawn | undefined {
  if (before && picture && patch(before, picture)) {
    sortByOthers(before.element);
    return { element: before.element, picture };
  }
  const element = picture ? readDrawing(svgOf(picture)) : undefined;
  before?.element.remove();
  if (!element || !picture) return undefined;
  stage.prepend(element);
  sortByOthers(element);
  return { element, picture };
}

/** What is to be done to one element of the page, found before anything is touched. */
interface Task {
  readonly element: Element;
  readonly before: PieceGroup;
  readonly now: PieceGroup;
  /** For each of the present pieces its element, the group to patch, or `undefined` where it is made. */
  readonly children: readonly (Element | Task | undefined)[];
}

/** False where the page and the picture have drifted apart, or there is more in it than a drawing may hold: it is then read as a whole. */
function patch({ element, picture }: Drawn, now: PieceGroup): boolean {
  if (picture === now) return true;
  const fresh: Piece[] = [];
  const task = taskFor(element, picture, now, fresh);
  const made = task && elementsOf(fresh);
  if (!made) return false;
  carryOut(task, made.values());
  return true;
}

function taskFor(element: Element, before: PieceGroup, now: PieceGroup, fresh: Piece[]): Task | undefined {
  const old = element.children;
  if (old.length !== before.pieces.length) return undefined;
  const children: (Element | Task | undefined)[] = [];
  for (const [at, from] of pairPieces(before.pieces, now.pieces).entries()) {
    const piece = now.pieces[at];
    const was = from === undefined ? undefined : before.pieces[from];
    const child = from === undefined ? undefined : old[from];
    if (piece === undefined) return undefined;
    if (child === undefined) fresh.push(piece);
    if (child === undefined || was === piece || typeof was !== 'object' || typeof piece !== 'object') {
      children.push(child);
      continue;
    }
    const inside = taskFor(child, was, piece, fresh);
    if (!inside) return undefined;
    children.push(inside);
  }
  return { element, before, now, children };
}

/** All at once: to read a text costs more than what is in it. */
function elementsOf(pieces: readonly Piece[]): Element[] | undefined {
  if (pieces.length === 0) return [];
  const around = readDrawing(`<svg xmlns="http://www.w3.org/2000/svg">${pieces.map(svgOf).join('')}</svg>`);
  return around && around.children.length === pieces.length ? [...around.children] : undefined;
}

function carryOut(task: Task, made: Iterator<Element, undefined>): void {
  const { element, before, now, children } = task;
  if (before.open !== now.open) takeAttributes(element, before, now);
  const old = new Map([...element.children].map((child, at) => [child, at]));
  const present = children.flatMap((child): Element[] => {
    if (child instanceof Element) return [child];
    if (child) carryOut(child, made);
    const each = child?.element ?? made.next().value;
    return each ? [each] : [];
  });
  const kept = new Set(present);
  for (const child of old.keys()) if (!kept.has(child)) child.remove();
  // Most of what stays is in the order in which it was: only the rest is taken out and put in again, for that is laid out anew.
  const staying = longestRising(present.map((child) => old.get(child)));
  let next: Element | null = null;
  for (const [at, child] of [...present.entries()].reverse()) {
    if (!staying.has(at)) element.insertBefore(child, next);
    next = child;
  }
}

/** Those of the text only: what the pane itself has set on the element stays, and the part that is in sight too. */
function takeAttributes(element: Element, before: PieceGroup, now: PieceGroup): void {
  const [old, next] = [attributesOf(before.open), attributesOf(now.open)];
  for (const name of old.keys()) if (!next.has(name)) element.removeAttribute(name);
  for (const [name, value] of next) {
    if (name !== 'viewBox' && old.get(name) !== value && isHarmless(name)) element.setAttribute(name, value);
  }
}
