import { render } from 'lit-html';
import { applyUpdate, type PreviewState, readShowMessage, type ViewMessage } from '../../language/protocol/preview.ts';
import { createDrawingView } from './drawing-view.ts';
import { paneView, wallAfter } from './pane-view.ts';
import { keepReadable } from './theme.ts';

interface EditorApi {
  postMessage(message: ViewMessage): void;
  setState(state: { readonly uri: string }): void;
}
declare function acquireVsCodeApi(): EditorApi;

const editor = acquireVsCodeApi();
const root = document.getElementById('pane');
const layout = document.body.dataset.layout ?? '';
// The editor gives this back when it restores the pane after a reload.
editor.setState({ uri: layout });

const select = (thing: string): void => editor.postMessage({ type: 'select', thing });
const plan = createDrawingView({ label: 'Plan', select, follows: false });
const elevation = createDrawingView({ label: 'Elevation', select, follows: true });

let state: PreviewState | undefined;
let isDue = false;

window.addEventListener('message', (event: MessageEvent<unknown>) => {
  const message = readShowMessage(event.data);
  if (!message || message.update.uri !== layout) return;
  const next = applyUpdate(state, message.update);
  if (next === 'old') return;
  if (next === 'gap') return editor.postMessage({ type: 'resync' });
  state = next;
  if (isDue) return;
  isDue = true;
  requestAnimationFrame(draw);
});

function draw(): void {
  isDue = false;
  if (!state || !root) return;
  const { parts } = state;
  render(paneView({ parts, plan: plan.element, elevation: elevation.element, select, zoom: elevation.zoom }), root);
  plan.show(parts.plan, parts.focus);
  elevation.show(parts.elevation, parts.focus);
  root.removeAttribute('aria-busy');
  editor.postMessage({ type: 'shown', sequence: state.sequence });
}

document.addEventListener('keydown', (event) => {
  if (event.key === 'Escape') editor.postMessage({ type: 'leave' });
  else if (event.key === 'F8') nextFinding(event.shiftKey ? -1 : 1);
  else if ((event.key === 'PageDown' || event.key === 'PageUp') && isInDrawing(event.target)) {
    const wall = state && wallAfter(state.parts, plan.things(), event.key === 'PageDown' ? 1 : -1);
    if (wall !== undefined) select(wall);
  } else return;
  event.preventDefault();
});

function isInDrawing(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest('.drawing') !== null;
}

function nextFinding(step: 1 | -1): void {
  const all = [...document.querySelectorAll<HTMLElement>('.findings button')];
  const at = all.indexOf(document.activeElement as HTMLElement);
  all[(at + step + all.length) % all.length]?.focus();
}

keepReadable();
editor.postMessage({ type: 'resync' });
