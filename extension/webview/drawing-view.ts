import type { DrawingPart, FocusPart, ThingName } from '../../language/protocol/preview.ts';
import { type Box, grown, joined } from './boxes.ts';
import { keptBoxes } from './kept-boxes.ts';
import { drawLetter, keyMapBox, LEAST_SCALE_OF_PLAN, type LetterPlace, letterPlaces } from './key-map.ts';
import { detailOf } from './level-of-detail.ts';
import { createMarkStrip, endWords } from './mark-strip.ts';
import { createPanZoom, LEAST_DRAG } from './pan-zoom.ts';
import { type Drawn, patchDrawing } from './patch-drawing.ts';
import { showTextAt, wordsLeftOut, wordsOfZones } from './show-text.ts';
import { followed, type Room, type Sight } from './sight.ts';
import { nameOf, thingOf, thingsDrawn } from './things-drawn.ts';
import { nextByKey } from './walk-things.ts';

/** A drawing in the pane: shows and patches an SVG, marks what is under the cursor, and is walked by mouse and keyboard. */
export interface DrawingView {
  readonly element: HTMLElement;
  /** @param stale things that the present text says otherwise than they are drawn. */
  show(part: DrawingPart, focus: FocusPart, stale: readonly ThingName[]): void;
  /**
   * Measures where the thing under the cursor is now; what is returned marks it. All drawings of the page are shown, then measured,
   * then marked: to measure between two changes would have the page laid out for each.
   */
  measure(): () => void;
  /** What is drawn is that of the text before. */
  wait(isBehind: boolean): void;
  zoom(by: 'in' | 'out' | 'fit'): void;
  sight(): Sight;
  restore(sight: Sight): void;
}

export interface DrawingOptions {
  readonly label: string;
  readonly select: (thing: ThingName) => void;
  /** Larger than its window and scrolled to the thing under the cursor; else the whole drawing fits. */
  readonly follows: boolean;
  /** The sight is another one. */
  readonly moved: () => void;
}

const svgSpace = 'http://www.w3.org/2000/svg';
/** Pixels for a millimetre of paper at which every label of an elevation can be read. */
const FIRST_SCALE = 3.8;
/** In a low window the place and the station of a connector are worth more than the smallest words. */
const FIRST_SCALE_WHERE_LOW = 3.2;
const LOW = 760;
/** Below, the marks of an elevation are too small, and stand in a strip below it. */
const LEAST_SCALE_OF_MARKS = 3.04;

export function createDrawingView({ label, select, follows, moved }: DrawingOptions): DrawingView {
  const element = document.createElement('div');
  element.className = `drawing ${follows ? 'follows' : 'fits'}`;
  element.tabIndex = 0;
  element.setAttribute('role', 'group');
  element.setAttribute('aria-label', label);
  element.setAttribute('aria-keyshortcuts', '+ - 0 ArrowLeft ArrowRight ArrowUp ArrowDown Home End PageUp PageDown F8');
  const stage = document.createElement('div');
  stage.className = 'stage';
  const empty = document.createElement('p');
  empty.className = 'hint';
  const strip = createMarkStrip();
  const zones = document.createElement('p');
  zones.className = 'zone-words';
  zones.hidden = true;
  const ends = document.createElement('p');
  ends.className = 'hint';
  ends.hidden = true;
  const overlay = document.createElementNS(svgSpace, 'svg');
  overlay.setAttribute('class', 'overlay');
  overlay.setAttribute('aria-hidden', 'true');
  const letters = document.createElementNS(svgSpace, 'g');
  overlay.append(letters);
  stage.append(overlay);
  element.append(empty, stage, strip.element, ends, zones);

  let drawn: Drawn | undefined;
  let drawing: SVGSVGElement | undefined;
  let things = thingsDrawn();
  const boxes = keptBoxes(
    () =>
      `${element.closest<HTMLElement>('[data-hides]')?.dataset.hides} ${element.classList.contains('key-map')} ${element.dataset.detail}`,
  );
  let shown: DrawingPart | undefined;
  let here: FocusPart | undefined;
  let staleHere = '';
  /** In mm of paper. */
  let tapeStart: number | undefined;
  /** Shown, and not yet measured and marked. */
  let due:
    | { readonly isElsewhere: boolean; readonly isOtherWall: boolean; readonly zeroBefore: number | undefined }
    | undefined;

  const panZoom = createPanZoom({
    window: element,
    stage,
    scale: follows ? (window.innerHeight < LOW ? FIRST_SCALE_WHERE_LOW : FIRST_SCALE) : 'fit',
    boxFor,
    scaled: settleAndMark,
    moved,
  });

  function show(part: DrawingPart, focus: FocusPart, stale: readonly ThingName[]): void {
    const isOther = shown?.picture !== part.picture || shown.view.join() !== part.view.join();
    const isElsewhere = here?.thing !== focus.thing || here.wall !== focus.wall;
    if (!isOther && !isElsewhere && staleHere === stale.join()) return;
    due = {
      isElsewhere: isElsewhere || due?.isElsewhere === true,
      isOtherWall: (here !== undefined && here.wall !== focus.wall) || due?.isOtherWall === true,
      zeroBefore: due ? due.zeroBefore : zeroPlace(),
    };
    if (shown?.picture !== part.picture) {
      take(patchDrawing(drawn, stage, part.picture));
    }
    shown = part;
    here = focus;
    empty.textContent = part.empty;
    empty.hidden = part.picture !== null;
    stage.hidden = part.picture === null;
    markStale(stale);
    if (!isOther) return;
    panZoom.lay();
    settle();
    tapeStart = startOfTape();
  }

  function take(patched: ReturnType<typeof patchDrawing>): void {
    drawn = patched?.drawn;
    drawing = drawn?.element;
    const changes = patched?.changes;
    if (!changes) {
      things = thingsDrawn(drawing);
      textsShownAt = undefined;
      return;
    }
    things.forget(changes.gone);
    things.takeIn(changes.made);
    boxes.forget(changes.changed);
    if (textsShownAt !== undefined) textsDue.push(...changes.touched);
  }

  /** Pixels for a millimetre of paper at which every text is shown, but for those that are due. */
  let textsShownAt: number | undefined;
  let textsDue: Element[] = [];
  function textsToShow(scale: number): Iterable<Element> {
    const due = textsShownAt === scale || !drawing ? textsDue : drawing.querySelectorAll('text, [data-role="leader"]');
    textsShownAt = scale;
    textsDue = [];
    return due;
  }

  function measure(): () => void {
    if (!due) return () => undefined;
    const { isElsewhere, isOtherWall, zeroBefore } = due;
    due = undefined;
    const mark = measureMarks();
    return () => {
      mark();
      // An edit that makes room for a label to the left must not move the wall under the eye.
      const zero = zeroPlace();
      if (follows && !isOtherWall && zero !== undefined && zeroBefore !== undefined && zero !== zeroBefore)
        element.scrollLeft += zero - zeroBefore;
      if (isElsewhere && follows) keepInSight(isOtherWall);
    };
  }

  function wait(isBehind: boolean): void {
    element.setAttribute('aria-busy', String(isBehind));
    // On the stage itself: to find it below an element that changed, the browser would walk through all of a large drawing.
    stage.classList.toggle('is-behind', isBehind);
  }

  function markStale(stale: readonly ThingName[]): void {
    if (staleHere === '' && stale.length === 0) return;
    staleHere = stale.join();
    for (const group of things.all()) group.classList.toggle('is-stale', stale.includes(nameOf(group)));
  }

  function startOfTape(): number | undefined {
    // As it is written: to ask for its box would have the drawing laid out.
    const band = follows ? drawing?.querySelector('[data-role="tape"] > rect') : null;
    return band ? Number(band.getAttribute('x')) : undefined;
  }

  /** Where the tape begins, in pixels from the left of the stage. */
  function zeroPlace(): number | undefined {
    return tapeStart === undefined ? undefined : (tapeStart - panZoom.box().x) * panZoom.scale();
  }

  function boxFor(isWhole: boolean, room: Room): Box {
    const [x, y, width, height] = shown?.view ?? [0, 0, 1, 1];
    const whole = { x, y, width, height };
    const isSmall = !follows && isWhole && room.width / width < LEAST_SCALE_OF_PLAN;
    return (isSmall && drawing && keyMapBox(things, boxes, room)) || whole;
  }

  /** Everything that hangs on the scale. */
  function settle(): void {
    const { x, y, width, height } = panZoom.box();
    // Set again, even to the same, it would have all of the drawing laid out anew.
    const viewBox = `${x} ${y} ${width} ${height}`;
    for (const each of [drawing, overlay])
      if (each?.getAttribute('viewBox') !== viewBox) each?.setAttribute('viewBox', viewBox);
    const scale = panZoom.scale();
    const isKeyMap = !follows && scale < LEAST_SCALE_OF_PLAN;
    element.classList.toggle('key-map', isKeyMap);
    element.dataset.detail = detailOf(scale * (shown?.inch ?? 1));
    // A key map has no text of the drawing at all.
    if (isKeyMap) textsShownAt = undefined;
    else if (drawing) showTextAt(textsToShow(scale), scale);
    const missing = drawing && !isKeyMap && follows ? wordsLeftOut(drawing) : [];
    const hasStrip = follows && scale < LEAST_SCALE_OF_MARKS && drawing !== undefined;
    element.classList.toggle('has-strip', hasStrip);
    // Of the plan's own markers only what is grave stands in a key map, large enough to be seen and hit.
    const marker = String(follows ? Math.max(1, 2 / scale) : isKeyMap ? Math.max(1, 1.5 / scale) : 1);
    if (element.style.getPropertyValue('--marker') !== marker) element.style.setProperty('--marker', marker);
    element.classList.toggle('has-large-markers', marker !== '1');
    if (hasStrip) strip.show(things, panZoom.box(), scale, here?.thing ?? '');
    else strip.hide();
    sayInWords(missing);
  }

  function settleAndMark(): void {
    settle();
    measureMarks()();
  }

  /** Warning zones that cannot be read in the drawing; in a pane too narrow for any drawing, all of them, and the ends of the wall. */
  function sayInWords(missing: readonly string[]): void {
    const isList = follows && drawing !== undefined && !stage.checkVisibility();
    const said = isList && drawing ? wordsOfZones(drawing) : missing;
    ends.textContent = isList ? `Stations run from ${endWords(things).join(' to ')}.` : '';
    ends.hidden = !isList;
    zones.hidden = said.length === 0 || !follows;
    zones.textContent = said.length > 0 ? `Warning zones: ${said.join(' ')}` : '';
  }

  /** A band through everything that shows the thing, and a frame round its mark and round the wall. */
  function measureMarks(): () => void {
    const wall = here && !follows ? boxOf(here.wall) : undefined;
    const box = here && here.thing !== here.wall ? boxOf(here.thing) : undefined;
    const isKeyMap = element.classList.contains('key-map') && drawing !== undefined;
    const pixel = 1 / panZoom.scale();
    const places = here && isKeyMap ? letterPlaces(things, boxes, pixel) : [];
    const marked =
      here && follows && box && !element.classList.contains('has-strip')
        ? [...things.of(here.thing)].find((group) => group.querySelector(':scope > [data-role="mark"]'))
        : undefined;
    const label = marked && grown(marked.getBBox(), 0.8);
    return () => {
      for (const name of ['hover', 'focused']) frame(name, undefined);
      const { wall: wallName = '', thing = '' } = here ?? {};
      showLetters(shown ? places : [], wallName, pixel);
      frame('wall-here', shown && wall);
      for (const cell of strip.element.children) {
        cell.classList.toggle('here', cell instanceof HTMLElement && cell.dataset.thing === thing);
      }
      const marks = here && shown ? box : undefined;
      frame('thing-here', marks && !follows ? grown(marks, 2) : undefined);
      const { y, height } = panZoom.box();
      // The band ends where the frame begins: its edges would strike the station through.
      const end = label && marks && label.y > marks.y ? label.y : y + height;
      frame('band', marks && follows ? { ...grown(marks, 1), y, height: end - y } : undefined);
      frame('mark-here', marks && follows ? label : undefined);
    };
  }

  const lettersDrawn = new Map<ThingName, { readonly element: SVGGElement; readonly as: string }>();
  /** Of a large house they are more than all that an edit changes: each is made again only where it stands elsewhere. */
  function showLetters(places: readonly LetterPlace[], here: ThingName, pixel: number): void {
    const gone = new Set(lettersDrawn.keys());
    for (const place of places) {
      gone.delete(place.wall);
      const as = `${place.x} ${place.y} ${pixel} ${place.wall === here}`;
      const known = lettersDrawn.get(place.wall);
      if (known?.as === as) continue;
      const letter = drawLetter(place, here, pixel);
      if (known) known.element.replaceWith(letter);
      else letters.append(letter);
      lettersDrawn.set(place.wall, { element: letter, as });
    }
    for (const wall of gone) {
      lettersDrawn.get(wall)?.element.remove();
      lettersDrawn.delete(wall);
    }
  }

  const frames = new Map<string, SVGRectElement>();
  /** One of each name, and the same from mark to mark: what stays where it is is not laid out again. */
  function frame(name: string, box: Box | undefined): void {
    const known = frames.get(name);
    if (!box) {
      known?.remove();
      frames.delete(name);
      return;
    }
    const rect = known ?? document.createElementNS(svgSpace, 'rect');
    for (const side of ['x', 'y', 'width', 'height'] as const) {
      const value = String(box[side]);
      if (rect.getAttribute(side) !== value) rect.setAttribute(side, value);
    }
    if (known) return;
    rect.setAttribute('class', name);
    frames.set(name, rect);
    if (name === 'wall-here') overlay.prepend(rect);
    else overlay.append(rect);
  }

  /** Of the thing itself, without its label, mark and findings where it is drawn apart from them. */
  function boxOf(thing: ThingName): Box | undefined {
    if (thing === '' || !drawing) return undefined;
    const groups = [...things.of(thing)].filter((group) => group.checkVisibility());
    const itself = groups.filter((group) => group.dataset.role === 'thing' || group.dataset.role === 'wall');
    return joined((itself.length > 0 ? itself : groups).map((group) => group.getBBox()));
  }

  /** Larger than it is drawn, standing on its point. */
  function boxOfMarker(marker: SVGGElement): Box {
    const { x, y, width, height } = marker.getBBox();
    const by = Number(element.style.getPropertyValue('--marker')) || 1;
    return { x: x - (width * (by - 1)) / 2, y: y - height * (by - 1), width: width * by, height: height * by };
  }

  /** In a window so wide; where no drawing was shown nothing was out of sight. */
  function isHereInSight(width: number): boolean {
    const box = here && here.thing !== here.wall ? boxOf(here.thing) : undefined;
    if (!box) return false;
    const middle = (box.x + box.width / 2 - panZoom.box().x) * panZoom.scale();
    return width === 0 || (middle >= element.scrollLeft && middle <= element.scrollLeft + width);
  }

  function keepInSight(isOtherWall: boolean): void {
    const box = here && here.thing !== here.wall ? boxOf(here.thing) : undefined;
    if (!box) {
      if (isOtherWall) element.scrollTo({ left: 0, top: 0, behavior: 'instant' });
      return;
    }
    const { x, y } = panZoom.box();
    const scale = panZoom.scale();
    // Where the eye looked on another wall says nothing about this one.
    const from = isOtherWall ? 0 : element.scrollLeft;
    const left = followed((box.x + box.width / 2 - x) * scale, from, element.clientWidth);
    const middle = (box.y + box.height / 2 - y) * scale;
    const isInSight = middle >= element.scrollTop && middle <= element.scrollTop + element.clientHeight;
    const top = isInSight ? element.scrollTop : middle - element.clientHeight / 2;
    if (left === element.scrollLeft && top === element.scrollTop) return;
    element.scrollTo({ left, top, behavior: movesAtOnce() ? 'instant' : 'smooth' });
  }

  function hover(thing: ThingName | undefined): void {
    frame('hover', thing === undefined || isSubject(thing) ? undefined : boxOf(thing));
  }

  let pressed: { readonly x: number; readonly y: number } | undefined;
  element.addEventListener(
    'pointerdown',
    ({ clientX, clientY }) => {
      pressed = { x: clientX, y: clientY };
    },
    { capture: true },
  );
  element.addEventListener('click', ({ target, clientX, clientY }) => {
    if (pressed && Math.hypot(clientX - pressed.x, clientY - pressed.y) > LEAST_DRAG) return;
    const thing = thingOf(target);
    if (thing !== undefined) select(thing);
  });
  stage.addEventListener('pointerover', ({ target }) => hover(thingOf(target)));
  stage.addEventListener('pointerleave', () => hover(undefined));
  element.addEventListener('focusin', ({ target }) => {
    const thing = thingOf(target);
    if (isMarker(target)) frame('focused', grown(boxOfMarker(target), 0.8));
    else frame('focused', thing === undefined ? undefined : boxOf(thing));
  });
  element.addEventListener('focusout', () => frame('focused', undefined));
  element.addEventListener('keydown', (event) => {
    const thing = thingOf(document.activeElement);
    if (event.key === 'Enter' && thing !== undefined) select(thing);
    else if (!panZoom.key(event)) {
      const next = drawing && !event.ctrlKey && !event.altKey ? nextByKey(drawing, event.key) : undefined;
      if (!next) return;
      next.focus();
    }
    event.preventDefault();
  });

  let roomBefore = '';
  /** 0 where no drawing was shown. */
  let widthBefore: number | undefined;
  new ResizeObserver(() => {
    // Its own height follows from the scale; only the room is news.
    const { width, height } = panZoom.room();
    if (`${width} ${height}` === roomBefore) return;
    const wasInSight = follows && widthBefore !== undefined && isHereInSight(widthBefore);
    [roomBefore, widthBefore] = [`${width} ${height}`, stage.checkVisibility() ? width : 0];
    panZoom.lay();
    settleAndMark();
    // What a person moved aside stays there; only what the other size would hide is followed.
    if (wasInSight && !isHereInSight(width)) keepInSight(false);
  }).observe(element);

  return {
    element,
    show,
    measure,
    wait,
    zoom: panZoom.zoom,
    sight: panZoom.sight,
    restore: panZoom.restore,
  };
}

/** Of a finding: it stands apart from the thing that it is about. */
const isMarker = (target: EventTarget | null): target is SVGGElement =>
  target instanceof SVGGElement && target.dataset.role === 'finding';

const isSubject = (thing: ThingName): boolean => thing.startsWith('wall:') || thing.startsWith('girder:');

function movesAtOnce(): boolean {
  const asked = document.body.classList.contains('vscode-reduce-motion');
  return asked || window.matchMedia('(prefers-reduced-motion: reduce)').matches;
}
