import morphdom from 'morphdom';
import type { DrawingPart, FocusPart, ThingName } from '../../language/protocol/preview.ts';
import { readDrawing } from './read-drawing.ts';

/** A drawing in the pane: shows and patches an SVG, marks what is under the cursor, and is walked by mouse and keyboard. */
export interface DrawingView {
  readonly element: HTMLElement;
  show(part: DrawingPart, focus: FocusPart): void;
  zoom(by: 'in' | 'out' | 'fit'): void;
  /** In drawing order, each once. */
  things(): readonly ThingName[];
}

export interface DrawingOptions {
  readonly label: string;
  readonly select: (thing: ThingName) => void;
  /** Wider than the pane and scrolled to the thing under the cursor; else the whole drawing fits. */
  readonly follows: boolean;
}

const svgSpace = 'http://www.w3.org/2000/svg';
/** Pixels for a millimetre of paper. */
const zoomSteps = [1.4, 2, 2.6, 3.2, 4, 5.2, 7];
const firstZoom = 3;
/** Pixels; text below is dropped. A letter of the key map is never smaller. */
const leastTextSize = 8;
const letterSize = 11;
/** Pixels for a millimetre of paper at which the marks of a plan can be read. */
const leastScaleOfPlan = 2.4;

export function createDrawingView({ label, select, follows }: DrawingOptions): DrawingView {
  const element = document.createElement('div');
  element.className = `drawing ${follows ? 'follows' : 'fits'}`;
  element.tabIndex = 0;
  element.setAttribute('role', 'group');
  element.setAttribute('aria-label', label);
  const stage = document.createElement('div');
  stage.className = 'stage';
  const empty = document.createElement('p');
  empty.className = 'hint';
  const overlay = document.createElementNS(svgSpace, 'svg');
  overlay.setAttribute('class', 'overlay');
  overlay.setAttribute('aria-hidden', 'true');
  let drawing: SVGSVGElement | undefined;
  let shown: DrawingPart | undefined;
  let here: FocusPart | undefined;
  let zoomStep: number | undefined = follows ? firstZoom : undefined;
  stage.append(overlay);
  element.append(empty, stage);

  function show(part: DrawingPart, focus: FocusPart): void {
    if (shown?.svg !== part.svg) patch(part);
    const moved = here?.thing !== focus.thing || here.wall !== focus.wall || shown?.view.join() !== part.view.join();
    shown = part;
    here = focus;
    empty.textContent = part.empty;
    empty.hidden = part.svg !== '';
    stage.hidden = part.svg === '';
    size();
    mark();
    if (moved && follows) keepInSight();
  }

  function patch(part: DrawingPart): void {
    const next = part.svg === '' ? undefined : readDrawing(part.svg);
    if (!next) {
      drawing?.remove();
      drawing = undefined;
    } else if (drawing) {
      morphdom(drawing, next, { getNodeKey: keyOf });
    } else {
      drawing = next;
      stage.prepend(drawing);
    }
  }

  /** Small, the plan is a key map: walls and what stands on them, with large letters, and nothing too small to read. */
  let isKeyMap = false;
  let view: Box = { x: 0, y: 0, width: 1, height: 1 };

  function size(): void {
    if (!shown) return;
    const [x, y, width, height] = shown.view;
    isKeyMap = !follows && element.clientWidth / width < leastScaleOfPlan;
    element.classList.toggle('key-map', isKeyMap);
    view = (isKeyMap && keyMapBox()) || { x, y, width, height };
    const box = `${view.x} ${view.y} ${view.width} ${view.height}`;
    for (const each of [drawing, overlay]) each?.setAttribute('viewBox', box);
    const scale = zoomStep === undefined ? undefined : (zoomSteps[zoomStep] ?? 1);
    stage.style.width = scale === undefined ? '100%' : `${Math.round(view.width * scale)}px`;
    stage.style.aspectRatio = `${view.width} / ${view.height}`;
    dropSmallText();
  }

  function keyMapBox(): Box | undefined {
    const walls = drawing && joined(wallsOf(drawing).map((wall) => wall.getBBox()));
    if (!walls) return undefined;
    // The letters need room, and the room makes the drawing smaller: solved for both at once.
    const letters = 4.4 * letterSize;
    const { width, height } = room();
    const across = walls.width / Math.max(1, width - letters);
    const down = walls.height / Math.max(1, height - letters);
    return grown(walls, (letters / 2) * Math.max(across, down));
  }

  /** What the page gives the drawing, in pixels. */
  function room(): { readonly width: number; readonly height: number } {
    const most = Number.parseFloat(getComputedStyle(stage).maxHeight);
    return { width: Math.max(1, stage.clientWidth), height: Number.isNaN(most) ? Number.POSITIVE_INFINITY : most };
  }

  /** A pixel in millimetres of paper, where the stage shows this much of it. */
  function pixelOf(box: Box): number {
    const { width, height } = room();
    return Math.max(box.width / width, box.height / height);
  }

  /** Text that nobody can read is dropped, not shrunk. */
  function dropSmallText(): void {
    if (!drawing) return;
    const scale = 1 / pixelOf(view);
    for (const text of drawing.querySelectorAll('text')) {
      text.classList.toggle('too-small', Number(text.getAttribute('font-size')) * scale < leastTextSize);
    }
  }

  /** A band through everything that shows the thing, and a frame round the wall. */
  function mark(): void {
    overlay.replaceChildren();
    if (!here || !shown) return;
    const { y, height } = view;
    if (!follows) frame('wall-here', boxOf(here.wall));
    if (isKeyMap && drawing) letterWalls(drawing);
    const box = here.thing === here.wall ? undefined : boxOf(here.thing);
    if (!box) return;
    if (follows) frame('band', { ...grown(box, 1), y, height });
    else frame('thing-here', grown(box, 2));
  }

  function frame(name: string, box: Box | undefined): void {
    if (!box) return;
    const rect = document.createElementNS(svgSpace, 'rect');
    rect.setAttribute('class', name);
    for (const side of ['x', 'y', 'width', 'height'] as const) rect.setAttribute(side, String(box[side]));
    overlay.append(rect);
  }

  /** The letter of each wall outside it, in a ring as on paper; that of the wall in sight is solid. */
  function letterWalls(of: SVGSVGElement): void {
    const walls = wallsOf(of).map((wall) => ({ name: nameOf(wall), box: wall.getBBox() }));
    const house = joined(walls.map(({ box }) => box));
    if (!house) return;
    const pixel = pixelOf(view);
    for (const { name, box } of walls) {
      const letter = document.createElementNS(svgSpace, 'g');
      letter.setAttribute('class', name === here?.wall ? 'letter here' : 'letter');
      letter.dataset.thing = name;
      const [x, y] = outside(box, house, 1.3 * letterSize * pixel);
      letter.setAttribute('transform', `translate(${x} ${y}) scale(${pixel})`);
      const ring = document.createElementNS(svgSpace, 'circle');
      ring.setAttribute('r', String(letterSize * 0.82));
      const text = document.createElementNS(svgSpace, 'text');
      text.setAttribute('font-size', String(letterSize));
      text.setAttribute('dy', '0.36em');
      text.textContent = name.slice('wall:'.length);
      letter.append(ring, text);
      overlay.append(letter);
    }
  }

  /** Of the thing itself, without its label, mark and findings where it is drawn apart from them. */
  function boxOf(thing: ThingName): Box | undefined {
    if (thing === '' || !drawing) return undefined;
    const groups = groupsOf(drawing, thing);
    const itself = groups.filter((group) => group.dataset.role === 'thing' || group.dataset.role === 'wall');
    return joined((itself.length > 0 ? itself : groups).map((group) => group.getBBox()));
  }

  /** The thing stays in the middle third: the eye finds it where it looked before. */
  function keepInSight(): void {
    const box = here && boxOf(here.thing === '' ? here.wall : here.thing);
    if (!box || !shown || here?.thing === here?.wall) return;
    const scale = stage.clientWidth / view.width;
    const middle = (box.x + box.width / 2 - view.x) * scale;
    const third = element.clientWidth / 3;
    // Near an end of the wall the end itself is worth more than the middle.
    const left = middle < 2 * third ? 0 : middle - element.clientWidth / 2;
    const at = middle - element.scrollLeft;
    if (at >= third && at <= 2 * third && left > 0) return;
    element.scrollTo({ left, behavior: movesAtOnce() ? 'instant' : 'smooth' });
  }

  function hover(thing: ThingName | undefined): void {
    overlay.querySelector('.hover')?.remove();
    if (thing !== undefined && !thing.startsWith('wall:')) frame('hover', boxOf(thing));
  }

  let pressed: { readonly x: number; readonly y: number } | undefined;
  stage.addEventListener('pointerdown', ({ clientX, clientY }) => {
    pressed = { x: clientX, y: clientY };
  });
  stage.addEventListener('click', ({ target, clientX, clientY }) => {
    // A drag of a few pixels is a drag.
    if (pressed && Math.hypot(clientX - pressed.x, clientY - pressed.y) > 4) return;
    const thing = thingOf(target);
    if (thing !== undefined) select(thing);
  });
  stage.addEventListener('pointerover', ({ target }) => hover(thingOf(target)));
  stage.addEventListener('pointerleave', () => hover(undefined));
  element.addEventListener('focusin', ({ target }) => {
    const thing = thingOf(target);
    overlay.querySelector('.focused')?.remove();
    if (thing !== undefined) frame('focused', boxOf(thing));
  });
  element.addEventListener('focusout', () => overlay.querySelector('.focused')?.remove());
  element.addEventListener('keydown', (event) => {
    const thing = thingOf(document.activeElement);
    if (event.key === 'Enter' && thing !== undefined) select(thing);
    else if (!drawing || !walk(drawing, event.key)) return;
    event.preventDefault();
  });

  new ResizeObserver(() => {
    size();
    mark();
  }).observe(element);

  return {
    element,
    show,
    zoom(by) {
      const at = zoomStep ?? 0;
      zoomStep = by === 'fit' ? undefined : Math.max(0, Math.min(zoomSteps.length - 1, at + (by === 'in' ? 1 : -1)));
      size();
      mark();
      keepInSight();
    },
    things: () => (drawing ? [...new Set(named(drawing).map(nameOf))] : []),
  };
}

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

function grown({ x, y, width, height }: Box, by: number): Box {
  return { x: x - by, y: y - by, width: width + 2 * by, height: height + 2 * by };
}

function joined(boxes: readonly Box[]): Box | undefined {
  if (boxes.length === 0) return undefined;
  const x = Math.min(...boxes.map((box) => box.x));
  const y = Math.min(...boxes.map((box) => box.y));
  const right = Math.max(...boxes.map((box) => box.x + box.width));
  const bottom = Math.max(...boxes.map((box) => box.y + box.height));
  return { x, y, width: right - x, height: bottom - y };
}

/** What is patched stays the same element, so that focus and scroll survive. */
function keyOf(node: Node): string {
  return node instanceof SVGElement ? (node.dataset.key ?? '') : '';
}

function named(drawing: SVGSVGElement): readonly SVGGElement[] {
  return [...drawing.querySelectorAll<SVGGElement>('g[data-thing]')];
}

/** Those of the outline: they alone have a string of dimensions. */
function wallsOf(drawing: SVGSVGElement): readonly SVGGElement[] {
  const walls = named(drawing).filter((group) => group.dataset.role === 'wall');
  const strung = new Set([...drawing.querySelectorAll<SVGGElement>('[data-role="dimension"][data-thing]')].map(nameOf));
  return walls.filter((wall) => strung.has(nameOf(wall)));
}

/** A point beside a wall, on the side away from the middle of the house. */
function outside(wall: Box, house: Box, by: number): readonly [number, number] {
  const x = wall.x + wall.width / 2;
  const y = wall.y + wall.height / 2;
  if (wall.width >= wall.height) return [x, y < house.y + house.height / 2 ? wall.y - by : wall.y + wall.height + by];
  return [x < house.x + house.width / 2 ? wall.x - by : wall.x + wall.width + by, y];
}

function groupsOf(drawing: SVGSVGElement, thing: ThingName): readonly SVGGElement[] {
  return named(drawing).filter((group) => nameOf(group) === thing);
}

function nameOf(group: SVGElement): ThingName {
  return group.dataset.thing ?? '';
}

function thingOf(target: EventTarget | null): ThingName | undefined {
  const group = target instanceof Element ? target.closest<SVGElement>('[data-thing]') : null;
  return group ? nameOf(group) : undefined;
}

/** Left and right by station, up and down between rows of things, Home and End to the ends of the wall. */
function walk(drawing: SVGSVGElement, key: string): boolean {
  const stops = [...drawing.querySelectorAll<SVGGElement>('g[data-thing][tabindex]')].map((group) => {
    const { x, y, width, height } = group.getBoundingClientRect();
    return { group, x: x + width / 2, y: y + height / 2, row: rowOf(nameOf(group)) };
  });
  const byStation = stops.toSorted((a, b) => a.x - b.x || a.y - b.y);
  const at = byStation.findIndex(({ group }) => group === document.activeElement);
  const now = byStation[at];
  const next = ((): (typeof byStation)[number] | undefined => {
    switch (key) {
      case 'ArrowRight':
        return byStation[at + 1];
      case 'ArrowLeft':
        return at < 0 ? byStation.at(-1) : byStation[at - 1];
      case 'Home':
        return byStation[0];
      case 'End':
        return byStation.at(-1);
      case 'ArrowUp':
      case 'ArrowDown':
        return now ? nearestInRow(byStation, now, key === 'ArrowDown' ? 1 : -1) : byStation[0];
      default:
        return undefined;
    }
  })();
  next?.group.focus();
  return next !== undefined;
}

interface Stop {
  readonly group: SVGGElement;
  readonly x: number;
  readonly row: number;
}

function nearestInRow<S extends Stop>(stops: readonly S[], now: S, step: 1 | -1): S | undefined {
  const rows = [...new Set(stops.map(({ row }) => row))].sort((a, b) => a - b);
  const row = rows[rows.indexOf(now.row) + step];
  const inRow = stops.filter((stop) => stop.row === row);
  return inRow.sort((a, b) => Math.abs(a.x - now.x) - Math.abs(b.x - now.x))[0];
}

/** Found things, new work, boards; the rest below. */
function rowOf(thing: ThingName): number {
  const kind = thing.split('/').pop()?.split(':')[0] ?? '';
  if (kind === 'anchor') return 1;
  if (kind === 'sill') return 3;
  return kind === 'panel' ? 2 : 0;
}

function movesAtOnce(): boolean {
  const asked = document.body.classList.contains('vscode-reduce-motion');
  return asked || window.matchMedia('(prefers-reduced-motion: reduce)').matches;
}
