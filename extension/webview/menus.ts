import { html, nothing, type TemplateResult } from 'lit-html';
import { itemByKey } from './next-by-key.ts';

/** A button of the toolbar that opens a list. */
export interface Menu {
  readonly id: string;
  readonly label: string | TemplateResult;
  /** Said instead of the label. */
  readonly name?: string;
  readonly groups: readonly MenuGroup[];
}
export interface MenuGroup {
  readonly title?: string;
  readonly items: readonly MenuItem[];
}
export interface MenuItem {
  readonly label: string;
  /** Under the label. */
  readonly remark?: string;
  /** Of a choice: whether it is made. */
  readonly isChosen?: boolean;
  /** One of its group can be chosen, or each by itself. */
  readonly choice?: 'one' | 'each';
  readonly choose: () => void;
}

const roles = { one: 'menuitemradio', each: 'menuitemcheckbox' } as const;

export function menuView({ id, label, name, groups }: Menu): TemplateResult {
  return html`<button
      type="button"
      class="opens"
      id=${`${id}-button`}
      aria-haspopup="menu"
      aria-label=${name ?? nothing}
      popovertarget=${id}
    >
      ${label}<span aria-hidden="true"> ▾</span>
    </button>
    <div class="menu" id=${id} popover role="menu" aria-labelledby=${`${id}-button`} @toggle=${place} @keydown=${move}>
      ${groups.map(
        (
          { title, items },
          at,
        ) => html`<div class=${at > 0 ? 'further' : ''} role="group" aria-label=${title ?? nothing}>
          ${title === undefined ? nothing : html`<p>${title}</p>`}
          ${items.map(({ label: words, remark, isChosen, choice, choose }) => {
            const press = (event: Event): void => {
              choose();
              // Several of a list are switched one after the other.
              if (choice !== 'each') menuOf(event)?.hidePopover();
            };
            return html`<button
              type="button"
              tabindex="-1"
              role=${choice ? roles[choice] : 'menuitem'}
              aria-checked=${isChosen === undefined ? nothing : String(isChosen)}
              @click=${press}
            >
              <span class="tick" aria-hidden="true">${isChosen ? '✓' : ''}</span>
              <span>${words}${remark === undefined ? nothing : html`<small>${remark}</small>`}</span>
            </button>`;
          })}
        </div>`,
      )}
    </div>`;
}

function menuOf({ currentTarget }: Event): HTMLElement | undefined {
  const menu = currentTarget instanceof Element ? currentTarget.closest<HTMLElement>('[popover]') : null;
  return menu ?? undefined;
}

/** Under its button, within the page; the focus goes to what is chosen. */
export function place(event: Event): void {
  const menu = event.currentTarget;
  if (!(menu instanceof HTMLElement) || !menu.matches(':popover-open')) return;
  const button = document.getElementById(`${menu.id}-button`)?.getBoundingClientRect();
  if (!button) return;
  const { width } = menu.getBoundingClientRect();
  menu.style.left = `${Math.max(4, Math.min(button.left, window.innerWidth - width - 4))}px`;
  menu.style.top = `${button.bottom + 2}px`;
  menu.style.maxHeight = `${Math.max(120, window.innerHeight - button.bottom - 10)}px`;
  const chosen = menu.querySelector<HTMLElement>('[role="menuitemradio"][aria-checked="true"]');
  (chosen ?? menu.querySelector<HTMLElement>('button') ?? menu).focus();
}

function move(event: KeyboardEvent): void {
  const menu = event.currentTarget;
  if (!(menu instanceof HTMLElement)) return;
  const items = [...menu.querySelectorAll<HTMLElement>('button')];
  const at = items.indexOf(document.activeElement as HTMLElement);
  const next = itemByKey(items, at, event.key);
  if (event.key === 'Tab') menu.hidePopover();
  else if (next) {
    next.focus();
    event.preventDefault();
  }
  // Escape closes the list, and leads back to the text only when nothing is open.
  event.stopPropagation();
}
