import type { ConnectorMoves, EditAnswer, MovesAnswer } from '../../language/protocol/moves.ts';
import type { PreviewParts, StationAxis, ThingName } from '../../language/protocol/preview.ts';
import { snapped, standingAt, stepped } from './move-steps.ts';
import { standingWords, stationWords, windowsWords } from './move-words.ts';
import { drawHeld, drawWindows, type MoveStage, stationOf, xOf } from './moves-drawn.ts';
import { LEAST_DRAG } from './pan-zoom.ts';
import { kindOf, thingOf } from './things-drawn.ts';

/** Connectors in the hand of a person: they are dragged along their wall, or led by keys, and where they may stand is shown. */
export interface Mover {
  /** What may be said under the drawing: where a connector may stand, why another stays. */
  readonly words: HTMLElement;
  show(parts: PreviewParts): void;
  movesCame(thing: ThingName, answer: MovesAnswer): void;
  moveEnded(thing: ThingName, answer: EditAnswer): void;
  /** Whether the windows of the thing under the cursor are shown though nobody points at it. */
  showAlways(isOn: boolean): void;
}

export interface MoverOptions {
  /** The window with the elevation. */
  readonly view: HTMLElement;
  /** Where may it stand? Answered by `movesCame`. */
  readonly ask: (thing: ThingName) => void;
  /** Writes a new station; answered by `moveEnded`. */
  readonly move: (thing: ThingName, station: number, revision: number) => void;
  readonly say: (words: string) => void;
}

const svgSpace = 'http://www.w3.org/2000/svg';
/** Pixels within which a good place draws the connector to itself. */
const REACH = 9;
/** Milliseconds that the pointer rests on a connector before its windows come up. */
const REST = 140;
/** What is new work along a wall, and may be asked about. */
const asked = new Set(['anchor', 'hold-down', 'strap', 'angles']);

interface Held {
  readonly thing: ThingName;
  readonly by: 'pointer' | 'keys';
  moves: ConnectorMoves;
  revision: number;
  /** Before it was taken hold of. */
  readonly start: number;
  station: number;
  /** From the pointer to the connector's middle, so that it does not jump. */
  readonly grip: number;
  /** Where the pointer wants it. */
  wanted: number;
  /** On other texts than before: its answer is on its way. */
  isStale: boolean;
}

export function createMover({ view, ask, move, say }: MoverOptions): Mover {
  const layer = document.createElementNS(svgSpace, 'svg');
  layer.setAttribute('class', 'moves');
  layer.setAttribute('aria-hidden', 'true');
  const words = document.createElement('p');
  words.className = 'may-stand';

  let axis: StationAxis | null = null;
  let revision = -1;
  let here: ThingName = '';
  let always = false;
  const known = new Map<ThingName, MovesAnswer>();
  const waiting = new Set<ThingName>();
  let pointed: ThingName | undefined;
  let rest: ReturnType<typeof setTimeout> | undefined;
  let pressed: { readonly thing: ThingName; readonly x: number; readonly y: number; readonly id: number } | undefined;
  let held: Held | undefined;
  /** Steps by keys that wait for an answer, and whether the hand has left the key since. */
  let steps: { readonly direction: 1 | -1; readonly by: 'mark' | 'place' }[] = [];
  let stepsOf: ThingName = '';
  let isLetGo = false;
  let sent: { readonly thing: ThingName; readonly words: string; ghost: Held | undefined } | undefined;
  let focused: ThingName | undefined;
  /** In place of the windows, until a person points at another thing. */
  let said = '';
  let saidOf: ThingName | undefined;
  /** Drawn faint, as they are in the hand. */
  const lifted: SVGGElement[] = [];

  function want(thing: ThingName): MovesAnswer | undefined {
    const answer = known.get(thing);
    if (!answer && !waiting.has(thing)) {
      waiting.add(thing);
      ask(thing);
    }
    return answer;
  }

  function show(parts: PreviewParts): void {
    axis = parts.elevation.axis;
    here = parts.focus.thing;
    if (parts.findings.revision !== revision) {
      revision = parts.findings.revision;
      for (const [thing, answer] of known) if (answer.revision !== revision) known.delete(thing);
      if (sent) sent.ghost = undefined;
      if (held && held.revision !== revision) {
        held.isStale = true;
        want(held.thing);
      }
    }
    // A connector that was led past its neighbour is drawn anew: the keys stay with it.
    if (focused !== undefined && document.activeElement === document.body)
      groupOf(focused)?.focus({ preventScroll: true });
    draw();
  }

  function groupOf(thing: ThingName): SVGGElement | undefined {
    const groups = [...view.querySelectorAll<SVGGElement>('g[data-thing][tabindex]')];
    return groups.find((group) => group.dataset.thing === thing);
  }

  function movesCame(thing: ThingName, answer: MovesAnswer): void {
    waiting.delete(thing);
    // Of an older text than the one that is drawn: asked again.
    if (answer.revision >= 0 && answer.revision < revision) known.delete(thing);
    else known.set(thing, answer);
    if (!known.has(thing)) {
      want(thing);
      return;
    }
    if (held?.thing === thing && held.isStale) retake(held, answer);
    if (stepsOf === thing && steps.length > 0) takeSteps(thing);
    draw();
  }

  function retake(current: Held, answer: MovesAnswer): void {
    if (answer.kind === 'fixed') {
      letGo(`${answer.reason}; nothing was moved.`);
      return;
    }
    current.moves = answer.moves;
    current.revision = answer.revision;
    current.isStale = false;
    current.station =
      current.by === 'pointer'
        ? snapped(answer.moves, current.wanted, reach())
        : clamped(answer.moves, current.station);
  }

  // ---- the pointer

  const stage = view.querySelector<HTMLElement>('.stage');
  stage?.append(layer);
  stage?.addEventListener('pointerdown', (event) => {
    const thing = connectorAt(event.target);
    if (thing === undefined || event.button !== 0 || event.ctrlKey || event.metaKey || held) return;
    // The hand takes the connector, not the paper.
    event.preventDefault();
    // Escape must reach it, and the keys find it afterwards.
    groupOf(thing)?.focus({ preventScroll: true });
    pressed = { thing, x: event.clientX, y: event.clientY, id: event.pointerId };
    want(thing);
  });
  view.addEventListener('pointermove', (event) => {
    if (pressed) {
      if (event.buttons === 0) pressed = undefined;
      else if (Math.hypot(event.clientX - pressed.x, event.clientY - pressed.y) > LEAST_DRAG) take(pressed);
    }
    if (held?.by !== 'pointer') return;
    scrollAtEdge(event.clientX);
    held.wanted = stationAt(event.clientX) + held.grip;
    // Ctrl: every mark of the tape, drawn by nothing.
    if (!held.isStale) held.station = snapped(held.moves, held.wanted, event.ctrlKey ? 0 : reach());
    draw();
  });
  view.addEventListener('pointerup', () => {
    pressed = undefined;
    if (held?.by === 'pointer') commit();
  });
  for (const end of ['pointercancel', 'lostpointercapture'] as const) {
    view.addEventListener(end, () => {
      pressed = undefined;
      if (held?.by === 'pointer') letGo(`${held.moves.mark} stays where it was.`);
    });
  }

  function take({ thing, x, id }: NonNullable<typeof pressed>): void {
    pressed = undefined;
    const answer = want(thing);
    if (sent || !answer || answer.kind === 'fixed') {
      const reason = answer?.kind === 'fixed' ? answer.reason : 'The layout is still being read: try again';
      tell(sent ? 'The last move is not written yet.' : `${reason}.`);
      return;
    }
    const { moves } = answer;
    const grip = moves.station - stationAt(x);
    held = { ...heldAt(thing, answer.revision, moves), by: 'pointer', grip, wanted: moves.station };
    view.setPointerCapture(id);
    view.classList.add('is-moving');
  }

  const heldAt = (thing: ThingName, of: number, moves: ConnectorMoves) => ({
    ...{ thing, moves, revision: of, start: moves.station, station: moves.station, isStale: false },
  });

  stage?.addEventListener('pointerover', ({ target }) => pointAt(connectorAt(target)));
  stage?.addEventListener('pointerleave', () => pointAt(undefined));

  function pointAt(thing: ThingName | undefined): void {
    if (thing === pointed) return;
    pointed = thing;
    if (thing !== undefined && thing !== saidOf) said = '';
    clearTimeout(rest);
    view.classList.remove('may-move');
    rest = setTimeout(
      () => {
        if (pointed !== undefined) want(pointed);
        draw();
      },
      thing === undefined ? 0 : REST,
    );
  }

  // ---- keys

  view.addEventListener('focusin', ({ target }) => {
    focused = connectorAt(target);
    if (focused !== undefined) want(focused);
    draw();
  });
  view.addEventListener('focusout', ({ relatedTarget }) => {
    // An element that is drawn anew loses the focus to nobody.
    if (relatedTarget === null) return;
    focused = undefined;
    draw();
  });
  view.addEventListener(
    'keydown',
    (event) => {
      if (!event.altKey || event.ctrlKey || event.metaKey) return;
      const direction = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : undefined;
      const thing = focused ?? (asked.has(kindOf(here)) ? here : undefined);
      if (direction === undefined || thing === undefined || held?.by === 'pointer') return;
      // The editor and the browser have other plans with these keys.
      event.preventDefault();
      event.stopPropagation();
      if (held && held.thing !== thing) commit();
      if (stepsOf !== thing) steps = [];
      stepsOf = thing;
      isLetGo = false;
      steps.push({ direction, by: event.shiftKey ? 'place' : 'mark' });
      takeSteps(thing);
    },
    { capture: true },
  );
  document.addEventListener('keyup', (event) => {
    if (event.key !== 'Alt') return;
    isLetGo = true;
    if (held?.by !== 'keys') return;
    // Some systems open a menu.
    event.preventDefault();
    commit();
  });
  document.addEventListener(
    'keydown',
    (event) => {
      if (event.key !== 'Escape' || !(held || steps.length > 0)) return;
      event.preventDefault();
      event.stopImmediatePropagation();
      steps = [];
      letGo(held ? `${held.moves.mark} stays at ${stationWords(held.moves, held.start)}.` : '');
    },
    { capture: true },
  );
  window.addEventListener('blur', () => {
    steps = [];
    focused = undefined;
    if (held) letGo(`${held.moves.mark} stays where it was.`);
    else draw();
  });
  window.addEventListener('focus', () => {
    focused = connectorAt(document.activeElement);
    draw();
  });

  function takeSteps(thing: ThingName): void {
    if (sent || held?.isStale) return;
    if (!held) {
      const answer = want(thing);
      if (!answer) return;
      if (answer.kind === 'fixed') {
        steps = [];
        tell(`${answer.reason}.`);
        return;
      }
      held = { ...heldAt(thing, answer.revision, answer.moves), by: 'keys', grip: 0, wanted: answer.moves.station };
    }
    const { moves } = held;
    for (const { direction, by } of steps) held.station = stepped(moves, held.station, direction, by);
    steps = [];
    draw();
    tell(standingWords(moves, standingAt(moves, held.station)));
    reveal(held.station);
    if (isLetGo) commit();
  }

  // ---- the end of it

  function commit(): void {
    const done = held;
    if (!done) return;
    if (done.isStale) letGo(`The text was changed in the meantime: ${done.moves.mark} was not moved.`);
    else if (done.station === done.start) letGo('');
    else {
      // Its picture stays where it was let go until the text has it.
      sent = {
        thing: done.thing,
        words: standingWords(done.moves, standingAt(done.moves, done.station)),
        ghost: done,
      };
      held = undefined;
      view.classList.remove('is-moving');
      move(done.thing, done.station, done.revision);
    }
  }

  function letGo(reason: string): void {
    const of = held?.thing;
    held = undefined;
    view.classList.remove('is-moving');
    if (reason !== '') tell(reason, of);
    draw();
  }

  function moveEnded(thing: ThingName, answer: EditAnswer): void {
    const before = sent;
    sent = undefined;
    known.clear();
    waiting.clear();
    tell(
      answer.kind === 'done'
        ? [before?.words, answer.words].filter(Boolean).join('. ')
        : `Not moved: ${answer.reason}.`,
      thing,
    );
    if (steps.length > 0) takeSteps(stepsOf);
    else want(thing);
    draw();
  }

  function tell(what: string, of?: ThingName): void {
    said = what;
    saidOf = of;
    put(what);
    say(what);
  }

  /** One line, and all of it for the pointer that rests on it. */
  function put(what: string): void {
    if (words.textContent === what) return;
    words.textContent = what;
    words.title = what;
  }

  // ---- drawing

  function draw(): void {
    layer.replaceChildren();
    for (const group of lifted.splice(0)) group.classList.remove('is-lifted');
    const hand = held ?? sent?.ghost;
    const thing = pointed ?? focused ?? (always && asked.has(kindOf(here)) ? here : undefined);
    const answer = hand || thing === undefined ? undefined : want(thing);
    const moves = hand?.moves ?? answer?.moves ?? undefined;
    const mayMove = pointed === undefined ? undefined : known.get(pointed)?.kind;
    view.classList.toggle('may-move', mayMove === 'moves');
    view.classList.toggle('may-not-move', mayMove === 'fixed');
    const fixed = answer?.kind === 'fixed' ? `${answer.reason}.` : '';
    if (hand) put(standingWords(hand.moves, standingAt(hand.moves, hand.station)));
    else if (said !== '') put(said);
    else put([moves ? `${windowsWords(moves)}.` : '', fixed].filter(Boolean).join(' '));
    // Measuring makes the page lay itself out: not with every key of a person who moves nothing.
    const of = moves && stageNow();
    if (!of) return;
    const reached = drawWindows(layerGroup(), moves, of);
    if (!hand) return;
    const ghost = ghostOf(hand, of);
    layer.append(ghost);
    const { y, height } = ghost.getBBox();
    const body = height > 0 ? y : reached;
    drawHeld(layerGroup(), moves, standingAt(moves, hand.station), of, { reach: reached, body });
  }

  function layerGroup(): SVGGElement {
    const group = document.createElementNS(svgSpace, 'g');
    layer.append(group);
    return group;
  }

  /** The connector as it is drawn, at the place where the hand holds it. */
  function ghostOf({ thing, station, moves }: Held, { axis: on }: MoveStage): SVGGElement {
    const ghost = document.createElementNS(svgSpace, 'g');
    ghost.setAttribute('class', 'ghost');
    ghost.setAttribute('transform', `translate(${xOf(on, station) - xOf(on, moves.station)} 0)`);
    const groups = [...view.querySelectorAll<SVGGElement>('g[data-role="thing"][data-thing]')];
    for (const group of groups.filter((each) => each.dataset.thing === thing)) {
      const copy = group.cloneNode(true);
      group.classList.add('is-lifted');
      lifted.push(group);
      if (copy instanceof Element)
        for (const name of ['data-thing', 'data-key', 'tabindex']) copy.removeAttribute(name);
      ghost.append(copy);
    }
    return ghost;
  }

  function stageNow(): MoveStage | undefined {
    const drawing = view.querySelector<SVGSVGElement>('.stage > svg:not(.overlay, .moves)');
    const box = drawing?.viewBox.baseVal;
    if (!stage || !box || box.width <= 0 || !axis || stage.clientWidth === 0) return undefined;
    layer.setAttribute('viewBox', `${box.x} ${box.y} ${box.width} ${box.height}`);
    const pixel = Math.max(box.width / stage.clientWidth, box.height / Math.max(1, stage.clientHeight));
    const around = view.getBoundingClientRect();
    const own = stage.getBoundingClientRect();
    const left = Math.max(0, around.left - own.left);
    const top = Math.max(0, around.top - own.top);
    const sight = {
      x: box.x + left * pixel,
      y: box.y + top * pixel,
      width: Math.min(view.clientWidth, own.width) * pixel,
      height: Math.min(view.clientHeight, own.height) * pixel,
    };
    return { axis, pixel, sight };
  }

  function stationAt(clientX: number): number {
    const of = stageNow();
    const box = layer.viewBox.baseVal;
    const own = stage?.getBoundingClientRect();
    return of && own ? stationOf(of.axis, box.x + (clientX - own.left) * of.pixel) : 0;
  }

  function reach(): number {
    const of = stageNow();
    return of ? stationOf(of.axis, of.axis.zero + REACH * of.pixel) : 0;
  }

  /** What is led out of sight is followed. */
  function reveal(station: number): void {
    const of = stageNow();
    if (!of) return;
    const x = (xOf(of.axis, station) - layer.viewBox.baseVal.x) / of.pixel;
    const margin = 60;
    if (x < view.scrollLeft + margin) view.scrollLeft = x - margin;
    else if (x > view.scrollLeft + view.clientWidth - margin) view.scrollLeft = x - view.clientWidth + margin;
  }

  function scrollAtEdge(clientX: number): void {
    const { left, right } = view.getBoundingClientRect();
    if (clientX < left + 28) view.scrollLeft -= 14;
    else if (clientX > right - 28) view.scrollLeft += 14;
  }

  if (stage) new ResizeObserver(() => draw()).observe(stage);
  view.addEventListener('scroll', () => draw(), { passive: true });

  return {
    words,
    show,
    movesCame,
    moveEnded,
    showAlways(isOn) {
      always = isOn;
      draw();
    },
  };
}

function clamped({ boards }: ConnectorMoves, station: number): number {
  const least = Math.min(...boards.map(({ from }) => from));
  const most = Math.max(...boards.map(({ to }) => to));
  return Math.max(least, Math.min(most, station));
}

/** The connector that a shape shows: its body, its mark; not the findings about it. */
function connectorAt(target: EventTarget | null): ThingName | undefined {
  const thing = thingOf(target);
  const group = target instanceof Element ? target.closest<SVGElement>('[data-thing]') : null;
  if (thing === undefined || group?.dataset.role === 'finding' || !asked.has(kindOf(thing))) return undefined;
  return group?.closest('svg') ? thing : undefined;
}
