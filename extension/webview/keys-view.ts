import { html, type TemplateResult } from 'lit-html';
import { place } from './menus.ts';

const keys: readonly (readonly [keys: string, what: string])[] = [
  ['Tab', 'to the next part of the pane'],
  ['← →', 'next thing along the wall'],
  ['↑ ↓', 'found, new, panels, boards'],
  ['Home End', 'ends of the wall'],
  ['Page Up/Down', 'wall before, wall after'],
  ['Enter', 'to its line in the text'],
  ['F8, Shift F8', 'next finding, finding before'],
  ['+ −', 'larger, smaller; also Ctrl and wheel'],
  ['0', 'all of it'],
  ['Shift ← → ↑ ↓', 'move the drawing; also drag'],
  ['Space', 'on by a page; held, drag anywhere'],
  ['Alt ← →', 'move a connector by a mark of the tape; let go of Alt to write it, Esc to leave it'],
  ['Alt Shift ← →', 'move it to the next place where it may stand'],
  ['drag a connector', 'good places draw it; Ctrl: every mark of the tape'],
  ['W', 'where it may stand: open bars, solid along the foot where distances are kept too'],
  ['Ctrl C', 'in the schedule: copy it as a table'],
  ['?', 'these keys'],
  ['Esc', 'back to the text'],
];

/** What the keys do, for who asks. */
export function keysView(): TemplateResult {
  return html`<button type="button" class="opens" id="keys-button" popovertarget="keys" aria-label="Keys" title="Keys (?)">
      ?
    </button>
    <div class="menu keys" id="keys" popover role="dialog" aria-label="Keys" tabindex="-1" @toggle=${place}>
      <table>
        <tbody>
          ${keys.map(([key, what]) => html`<tr><th scope="row">${key}</th><td>${what}</td></tr>`)}
        </tbody>
      </table>
    </div>`;
}
