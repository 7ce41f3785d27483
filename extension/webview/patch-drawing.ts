import { type Piece, type PieceGroup, pairPieces, svgOf } from '../../language/protocol/picture.ts';
import { longestRising } from './longest-rising.ts';
import { changedAttributes, pairShapes, shapeOf } from './opening-tag.ts';
import { isHarmless, readDrawing, sortByOthers } from './read-drawing.ts';

/** A drawing on its stage, with the picture that it was made of. */
export interface Drawn {
  readonly element: SVGSVGElement;
  readonly picture: PieceGroup;
}

/** What a patch did to a drawing, so that nobody looks through all of it to find out. */
export interface Changes {
  /** Elements that were made, and those that were taken out, each with all in it. */
  readonly made: readonly Element[];
  readonly gone: readonly Element[];
  /** Elements that stayed, with something in them or of their own that is another. */
  readonly changed: readonly Element[];
  /** All of which something may be another: changed, before another neighbour, or made, with all in them. */
  readonly touched: readonly Element[];
}

/**
 * Makes the drawing on the stage that of the picture. What did not change is not read, not made and not laid out again, and what is
 * about the same thing stays the same element, so that focus survives.
 *
 * @returns without `changes` where all of it was made anew.
 */
export function patchDrawing(
  before: Drawn | undefined,
  stage: HTMLElement,
  picture: PieceGroup | null,
): { readonly drawn: Drawn; readonly changes?: Changes } | undefined {
  const changes = before && picture ? patch(before, picture) : undefined;
  if (before && picture && changes) return { drawn: { element: before.element, picture }, changes };
  const element = picture ? readDrawing(svgOf(picture)) : undefined;
  before?.element.remove();
  if (!element || !picture) return undefined;
  stage.prepend(element);
  sortByOthers(element.querySelectorAll('g'));
  return { drawn: { element, picture } };
}

/** What is to be done to one element of the page, found before anything is touched. */
interface Task {
  readonly element: Element;
  readonly before: PieceGroup;
  readonly now: PieceGroup;
  /** For each of the present pieces the place of its element before, or `undefined` where it is made. */
  readonly places: readonly (number | undefined)[];
  /** Groups and shapes in it that are other than before. */
  readonly within: readonly (Task | ShapeTask)[];
}
/** A shape or a text that is nearly the one of before: to set what differs takes a fourth of the time of making it anew. */
interface ShapeTask {
  readonly element: Element;
  readonly before: string;
  readonly now: string;
}

/** `undefined` where the page and the picture have drifted apart, or there is more in it than a drawing may hold: it is then read as a whole. */
function patch({ element, picture }: Drawn, now: PieceGroup): Changes | undefined {
  const done: Done = { gone: [], changed: [], followers: [] };
  const fresh: Piece[] = [];
  const task = picture === now ? undefined : taskFor(element, picture, now, fresh);
  const made = picture === now ? [] : task && elementsOf(fresh);
  if (!made) return undefined;
  if (task) carryOut(task, made.values(), done);
  const { gone, changed, followers } = done;
  const touched = [...changed, ...followers, ...made.flatMap((each) => [each, ...each.querySelectorAll('*')])];
  sortByOthers(touched);
  return { made, gone, changed, touched };
}

function taskFor(element: Element, before: PieceGroup, now: PieceGroup, fresh: Piece[]): Task | undefined {
  const old = element.children;
  if (old.length !== before.pieces.length) return undefined;
  const places = pairShapes(before.pieces, now.pieces, pairPieces(before.pieces, now.pieces));
  const within: (Task | ShapeTask)[] = [];
  for (const [at, piece] of now.pieces.entries()) {
    const from = places[at];
    if (from === undefined) {
      fresh.push(piece);
      continue;
    }
    const was = before.pieces[from];
    if (was === piece) continue;
    const child = old[from];
    if (child === undefined || was === undefined) return undefined;
    const inside =
      typeof was === 'object' && typeof piece === 'object'
        ? taskFor(child, was, piece, fresh)
        : shapeTask(child, was, piece);
    if (!inside) return undefined;
    within.push(inside);
  }
  return { element, before, now, places, within };
}

const shapeTask = (element: Element, before: Piece, now: Piece): ShapeTask | undefined =>
  typeof before === 'string' && typeof now === 'string' ? { element, before, now } : undefined;

/** All at once: to read a text costs more than what is in it. */
function elementsOf(pieces: readonly Piece[]): Element[] | undefined {
  if (pieces.length === 0) return [];
  const around = readDrawing(`<svg xmlns="http://www.w3.org/2000/svg">${pieces.map(svgOf).join('')}</svg>`);
  return around && around.children.length === pieces.length ? [...around.children] : undefined;
}

interface Done {
  readonly gone: Element[];
  readonly changed: Element[];
  /** Before another neighbour than they were. */
  readonly followers: Element[];
}

/** @param made in the order in which they were asked for: from group to group, those within a group before those behind it. */
function carryOut(
  { element, before, now, places, within }: Task,
  made: Iterator<Element, undefined>,
  done: Done,
): void {
  done.changed.push(element);
  if (before.open !== now.open) takeAttributes(element, before.open, now.open);
  const isInPlace = places.length === before.pieces.length && places.every((place, at) => place === at);
  if (isInPlace) {
    for (const task of within) carryOutOne(task, made, done);
    return;
  }
  const old = [...element.children];
  const tasks = new Map(within.map((task) => [task.element, task]));
  const present = places.flatMap((place): Element[] => {
    const child = place === undefined ? made.next().value : old[place];
    const task = child && tasks.get(child);
    if (task) carryOutOne(task, made, done);
    return child ? [child] : [];
  });
  const kept = new Set(present);
  for (const child of old) {
    if (kept.has(child)) continue;
    child.remove();
    done.gone.push(child);
  }
  // Most of what stays is in the order in which it was: only the rest is taken out and put in again, for that is laid out anew.
  const staying = longestRising(places);
  let next: Element | null = null;
  for (let at = present.length - 1; at >= 0; at -= 1) {
    const child: Element | undefined = present[at];
    if (!child) continue;
    if (!staying.has(at)) element.insertBefore(child, next);
    if (next !== (old[(places[at] ?? -2) + 1] ?? null)) done.followers.push(child);
    next = child;
  }
}

function carryOutOne(task: Task | ShapeTask, made: Iterator<Element, undefined>, done: Done): void {
  if ('within' in task) {
    carryOut(task, made, done);
    return;
  }
  const [was, is] = [shapeOf(task.before), shapeOf(task.now)];
  if (!was || !is) return;
  done.changed.push(task.element);
  if (was.open !== is.open) takeAttributes(task.element, was.open, is.open);
  if (was.words !== is.words) task.element.textContent = is.words;
}

/** Those of the text only: what the pane itself has set on the element stays, and the part that is in sight too. */
function takeAttributes(element: Element, before: string, now: string): void {
  for (const [name, value] of changedAttributes(before, now)) {
    if (name === 'viewBox' || !isHarmless(name)) continue;
    if (value === undefined) element.removeAttribute(name);
    else element.setAttribute(name, value);
  }
}
