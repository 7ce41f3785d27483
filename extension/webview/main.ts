import { render } from 'lit-html';
import type { PaneChoices } from '../../language/protocol/pane-choices.ts';
import {
  type AnswerMessage,
  applyUpdate,
  type PreviewParts,
  type PreviewState,
  type RenderMessage,
  readAnswerMessage,
  readRenderMessage,
  readShowMessage,
  type ThingName,
  type ViewMessage,
} from '../../language/protocol/preview.ts';
import { createMover } from './drag.ts';
import { createDrawingView } from './drawing-view.ts';
import { type KeptState, readKept } from './kept-state.ts';
import { createLiveRegion, LEAST_PAUSE } from './live-region.ts';
import { createMending } from './mending.ts';
import { paneView, schedulesHangOn, subjectAfter } from './pane-view.ts';
import { pictureOf } from './picture-of.ts';
import { spokenState } from './spoken-state.ts';
import { keepReadable } from './theme.ts';
import { settleStops } from './toolbar-view.ts';
import { afterFrame, createUnseen } from './unseen.ts';

interface EditorApi {
  postMessage(message: ViewMessage): void;
  getState(): unknown;
  /** The editor gives it back when it shows the pane again, and after a reload. */
  setState(state: KeptState): void;
}
declare function acquireVsCodeApi(): EditorApi;

const editor = acquireVsCodeApi();
const root = document.getElementById('pane');
const layout = document.body.dataset.layout ?? '';
const kept = readKept(editor.getState(), layout, document.body.dataset.choices);
const live = createLiveRegion();
document.body.append(live.element);

const select = (thing: ThingName): void => editor.postMessage({ type: 'select', thing });
const look = (thing: ThingName): void => editor.postMessage({ type: 'look', thing });
const plan = createDrawingView({ label: 'Plan', select, follows: false, moved: keepSoon });
const elevation = createDrawingView({ label: 'Elevation', select, follows: true, moved: keepSoon });
const mover = createMover({
  view: elevation.element,
  ask: (thing) => editor.postMessage({ type: 'moves', thing }),
  move: (thing, station, revision) => editor.postMessage({ type: 'move', thing, station, revision }),
  say: sayAnswer,
});
const mending = createMending({
  elevation: elevation.element,
  plan: plan.element,
  select,
  ask: (revision, findings) => editor.postMessage({ type: 'fixes', revision, findings }),
  mend: (revision, finding, fix) => editor.postMessage({ type: 'mend', revision, finding, fix }),
  say: sayAnswer,
  redraw: drawSoon,
});

let { choices, windows = false } = kept;
let state: PreviewState | undefined;
let isDue = false;
let isDrawn = false;
let isPlanDrawn = false;
let drawnAt = Number.NEGATIVE_INFINITY;
const schedules = createUnseen();
let ofSchedules: PreviewParts | undefined;
let areSchedulesDue = false;
/** Of a screen that shows sixty in a second. */
const FRAME = 1000 / 60;

window.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
  const rendering = readRenderMessage(data);
  if (rendering) return void sendPicture(rendering);
  const answer = readAnswerMessage(data);
  if (answer) return hear(answer);
  const message = readShowMessage(data);
  if (!message || message.update.uri !== layout) return;
  const next = applyUpdate(state, message.update);
  if (next === 'old') return;
  if (next === 'gap') return resync();
  state = next;
  drawSoon();
});

function hear(message: AnswerMessage): void {
  if (message.type === 'moves') mover.movesCame(message.thing, message.answer);
  else if (message.type === 'moved') mover.moveEnded(message.thing, message.answer);
  else if (message.type === 'fixes') mending.fixesCame(message.answer);
  else mending.mendEnded(message.answer);
}

function resync(): void {
  const wall = state?.parts.elevation.wall ?? kept.wall;
  editor.postMessage({ type: 'resync', ...(wall === undefined ? {} : { wall }) });
}

/** At once, so that no frame is waited for; what comes while it was just drawn waits for the next frame, and is drawn with it. */
function drawSoon(): void {
  if (isDue) return;
  isDue = true;
  const isQuiet = performance.now() - drawnAt > 2 * FRAME && document.visibilityState === 'visible';
  if (isQuiet) queueMicrotask(draw);
  else requestAnimationFrame(draw);
}

function draw(): void {
  isDue = false;
  if (!state || !root) return;
  const { parts } = state;
  drawPage(root, parts, canSchedulesWait(parts) ? (ofSchedules ?? parts) : parts);
  settleStops(root);
  plan.show(parts.plan, parts.focus, parts.notice.stale);
  plan.wait(parts.notice.planIsDue);
  elevation.show(parts.elevation, parts.focus, parts.notice.stale);
  for (const mark of [plan.measure(), elevation.measure()]) mark();
  mover.show(parts);
  mending.show(parts);
  root.removeAttribute('aria-busy');
  sayState(parts);
  if (!isDrawn) restore(parts.elevation.wall);
  isDrawn = true;
  // Of a large house it comes later than the rest.
  if (!isPlanDrawn && (parts.plan.picture || !parts.notice.planIsDue)) {
    isPlanDrawn = true;
    if (kept.plan) plan.restore(kept.plan);
  }
  drawnAt = performance.now();
  editor.postMessage({ type: 'shown', sequence: state.sequence });
}

function canSchedulesWait(parts: PreviewParts): boolean {
  const was = ofSchedules && schedulesHangOn(ofSchedules);
  return schedules.isUnseen() && schedulesHangOn(parts).some((part, at) => part !== was?.[at]);
}

/** The page round the drawings. */
function drawPage(root: HTMLElement, parts: PreviewParts, schedulesOf: PreviewParts): void {
  ofSchedules = schedulesOf;
  root.dataset.hides = choices.hidden.join(' ');
  render(
    paneView({
      parts,
      ofSchedules,
      plan: plan.element,
      elevation: elevation.element,
      select,
      zoom: (of, by) => (of === 'plan' ? plan : elevation).zoom(by),
      say: live.say,
      mending,
      windows: { isOn: windows, words: mover.words, toggle: toggleWindows },
      toolbar: {
        parts,
        choices,
        choose,
        look,
        write: (what) => editor.postMessage({ type: 'write', what }),
        writePicture: (of, form) => editor.postMessage({ type: 'write-picture', of, form }),
      },
    }),
    root,
  );
  // Among the page's parts: to ask for it below them would walk through both drawings.
  schedules.watch([...root.children].find((part) => part.classList.contains('schedule')) ?? null);
  if (ofSchedules === parts || areSchedulesDue) return;
  areSchedulesDue = true;
  afterFrame(() => {
    areSchedulesDue = false;
    if (state) drawPage(root, state.parts, state.parts);
  });
}

let stateSaid = '';
let answered = { words: '', at: Number.NEGATIVE_INFINITY };

/** What was said to a person who did something is not lost to what came of it. */
function sayState(parts: PreviewParts): void {
  const now = spokenState(parts);
  if (now === stateSaid) return;
  stateSaid = now;
  live.say(performance.now() - answered.at < LEAST_PAUSE ? `${answered.words} ${now}` : now);
}

function sayAnswer(words: string): void {
  answered = { words, at: performance.now() };
  live.say(words);
}

/** As it was when the pane was last in sight. */
function restore(wall: ThingName): void {
  if (kept.elevation) elevation.restore(kept.wall === wall ? kept.elevation : { ...kept.elevation, left: 0, top: 0 });
  if (kept.page !== undefined) document.scrollingElement?.scrollTo({ top: kept.page, behavior: 'instant' });
  keepNow();
}

function choose(next: PaneChoices): void {
  choices = next;
  editor.postMessage({ type: 'choose', choices });
  keepNow();
  drawSoon();
}

function toggleWindows(): void {
  windows = !windows;
  mover.showAlways(windows);
  keepNow();
  drawSoon();
}

let keeping: ReturnType<typeof setTimeout> | undefined;

/** Scrolling calls for it with every frame. */
function keepSoon(): void {
  keeping ??= setTimeout(keepNow, 200);
}

function keepNow(): void {
  clearTimeout(keeping);
  keeping = undefined;
  const wall = state?.parts.elevation.wall;
  const page = document.scrollingElement?.scrollTop;
  // Until it is drawn there is nothing to keep but what was kept before.
  const planNow = isPlanDrawn ? plan.sight() : kept.plan;
  const now = { uri: layout, choices, wall, plan: planNow, elevation: elevation.sight(), page, windows };
  editor.setState(isDrawn ? now : kept);
}

async function sendPicture(message: RenderMessage): Promise<void> {
  editor.postMessage({ type: 'rendered', picture: await pictureOf(message) });
}

document.addEventListener('keydown', (event) => {
  if (event.key === 'Escape') editor.postMessage({ type: 'leave' });
  else if (event.key === 'F8') nextFinding(event.shiftKey ? -1 : 1);
  else if (event.key === 'w' && isInDrawing(event.target)) toggleWindows();
  else if (event.key === '?') document.getElementById('keys')?.showPopover();
  else if ((event.key === 'PageDown' || event.key === 'PageUp') && isInDrawing(event.target)) {
    const next = state && subjectAfter(state.parts, event.key === 'PageDown' ? 1 : -1);
    if (next !== undefined) look(next);
  } else return;
  event.preventDefault();
});
document.addEventListener('scroll', keepSoon, { passive: true });

function isInDrawing(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest('.drawing') !== null;
}

function nextFinding(step: 1 | -1): void {
  const all = [...document.querySelectorAll<HTMLElement>('.findings button.finding')];
  const at = all.indexOf(document.activeElement as HTMLElement);
  all[at < 0 && step < 0 ? all.length - 1 : (at + step + all.length) % all.length]?.focus();
}

mover.showAlways(windows);
keepReadable();
keepNow();
resync();
