import { html, nothing, render, type TemplateResult } from 'lit-html';
import type { EditAnswer } from '../../language/protocol/moves.ts';
import type {
  FindingLine,
  FindingsPart,
  FixesAnswer,
  FixesOfFinding,
  FixLine,
  PreviewParts,
  ThingName,
} from '../../language/protocol/preview.ts';
import { findingMark } from './marks.ts';

/** Findings mended from the pane: in the list, and at their markers in the drawings. */
export interface Mending {
  show(parts: PreviewParts): void;
  /** The ways to mend a finding, as buttons; nothing where there are none, or before they are known. */
  fixesOf(line: FindingLine): TemplateResult | typeof nothing;
  fixesCame(answer: FixesAnswer): void;
  mendEnded(answer: EditAnswer): void;
}

export interface MendingOptions {
  /** The windows with the drawings, whose markers open their finding. */
  readonly elevation: HTMLElement;
  readonly plan: HTMLElement;
  readonly ask: (revision: number, findings: readonly number[]) => void;
  readonly mend: (revision: number, finding: number, fix: number) => void;
  readonly select: (thing: ThingName) => void;
  readonly say: (words: string) => void;
  /** Something is known now that was not. */
  readonly redraw: () => void;
}

/** Milliseconds without a change of the text before the fixes of what is in sight are looked for: it is work. */
const QUIET = 250;

export function createMending({ elevation, plan, ask, mend, select, say, redraw }: MendingOptions): Mending {
  let findings: FindingsPart = { wall: '', revision: -1, lines: [] };
  let isPlanBehind = false;
  let listed: readonly FindingLine[] = [];
  const known = new Map<number, FixesOfFinding>();
  const asked = new Set<number>();
  let quiet: ReturnType<typeof setTimeout> | undefined;
  let pinned: { readonly view: HTMLElement; readonly line: FindingLine } | undefined;
  let isSent = false;

  const callout = document.createElement('div');
  callout.className = 'menu pinned';
  callout.id = 'pinned';
  callout.setAttribute('popover', '');
  callout.setAttribute('role', 'dialog');
  callout.tabIndex = -1;
  document.body.append(callout);
  callout.addEventListener('toggle', () => {
    if (!callout.matches(':popover-open')) pinned = undefined;
  });
  callout.addEventListener('keydown', (event) => {
    if (event.key === 'ArrowDown' || event.key === 'ArrowUp') step(callout, event);
    // Escape closes it, and leads back to the text only when nothing is open.
    event.stopPropagation();
  });
  document.addEventListener('scroll', () => placeCallout(), { passive: true });
  for (const view of [elevation, plan]) {
    view.addEventListener('scroll', () => placeCallout(), { passive: true });
    view.addEventListener('click', ({ target }) => {
      const marker = target instanceof Element ? target.closest<SVGElement>('[data-role="finding"]') : null;
      if (marker) pin(view, marker);
    });
    view.addEventListener(
      'keydown',
      (event) => {
        const marker = document.activeElement;
        if (event.key !== 'Enter' || !(marker instanceof SVGElement) || marker.dataset.role !== 'finding') return;
        // Going to the text would take the keys away from the words.
        event.preventDefault();
        event.stopPropagation();
        pin(view, marker);
      },
      { capture: true },
    );
  }

  function pin(view: HTMLElement, marker: SVGElement): void {
    const line = view === plan ? lineInPlan(marker) : lineInElevation(marker);
    if (!line) return;
    pinned = { view, line };
    want([line.finding]);
    drawCallout();
    callout.showPopover();
    placeCallout();
    (callout.querySelector('button') ?? callout).focus();
    say(line.message);
  }

  /** In a drawing that is kept while a line is half typed a number may be that of another finding: then it opens nothing. */
  function lineInElevation(marker: SVGElement): FindingLine | undefined {
    const said = saidBy(marker);
    return findings.lines.find(({ number, thing }) => number === said?.number && thing === said.thing);
  }

  /** The markers of a plan are those of every finding of the house; what they do not say comes with the ways to mend it. */
  function lineInPlan(marker: SVGElement): FindingLine | undefined {
    const said = isPlanBehind ? undefined : saidBy(marker);
    return said && { ...said, rule: '', line: 0, finding: said.number - 1 };
  }

  /** Beside its marker, within the page; gone where the marker is out of sight. */
  function placeCallout(): void {
    const line = pinnedLine();
    if (!pinned || !line || !callout.matches(':popover-open')) return;
    const { view } = pinned;
    const markers = [...view.querySelectorAll<SVGElement>('[data-role="finding"]')];
    const at = markers.find((each) => saidBy(each)?.number === line.number)?.getBoundingClientRect();
    const around = view.getBoundingClientRect();
    if (!at || at.right < around.left || at.left > around.right || at.bottom < 0 || at.top > window.innerHeight) {
      callout.hidePopover();
      return;
    }
    const { width, height } = callout.getBoundingClientRect();
    const below = at.bottom + 6;
    callout.style.left = `${Math.max(4, Math.min(at.left - 12, window.innerWidth - width - 4))}px`;
    callout.style.top = `${below + height < window.innerHeight ? below : Math.max(4, at.top - height - 6)}px`;
  }

  function pinnedLine(): FindingLine | undefined {
    if (!pinned) return undefined;
    const { view, line } = pinned;
    if (view !== plan) return findings.lines.find(({ finding }) => finding === line.finding);
    const about = known.get(line.finding);
    if (!about) return line;
    // The plan is kept while a line is half typed: there the number is that of another finding.
    return about.words === line.message ? { ...line, rule: about.rule, line: about.line } : undefined;
  }

  function drawCallout(): void {
    const line = pinnedLine();
    if (!line) {
      callout.hidePopover();
      return;
    }
    callout.setAttribute('aria-label', `Finding ${line.number}`);
    const where = line.line > 0 ? `Go to line ${line.line}` : 'Go to its line';
    const go = (): void => {
      callout.hidePopover();
      select(line.thing);
    };
    render(
      html`<div class=${`finding ${line.severity}`}>
        <p class="message">${findingMark(line.severity)} <b>${line.number}</b> ${line.message}</p>
        <p class="rule">
          ${line.rule}
          ${line.thing === '' ? nothing : html`<button type="button" class="small go" tabindex="-1" @click=${go}>${where}</button>`}
        </p>
        ${known.has(line.finding) ? fixesOf(line) : html`<p class="hint">Looking for a way to mend it …</p>`}
        ${known.get(line.finding)?.fixes.length === 0 ? html`<p class="hint">Nothing here mends it: change the text.</p>` : nothing}
      </div>`,
      callout,
    );
  }

  function want(numbers: readonly number[]): void {
    const fresh = numbers.filter((each) => !asked.has(each) && !known.has(each));
    if (fresh.length === 0) return;
    for (const each of fresh) asked.add(each);
    ask(findings.revision, fresh);
  }

  function fixesOf(line: FindingLine): TemplateResult | typeof nothing {
    const fixes = known.get(line.finding)?.fixes ?? [];
    if (fixes.length === 0) return nothing;
    return html`<ul class="fixes" aria-label="Ways to mend it">
      ${fixes.map(
        ({ title, trust }, index) => html`<li>
          <button type="button" class="fix" tabindex="-1" data-trust=${trust} @click=${() => choose(line.finding, index)}>
            <span>${title}</span>${trustWords[trust] === '' ? nothing : html` <small>${trustWords[trust]}</small>`}
          </button>
        </li>`,
      )}
    </ul>`;
  }

  function choose(finding: number, fix: number): void {
    if (isSent) return;
    isSent = true;
    mend(findings.revision, finding, fix);
  }

  return {
    show(parts) {
      const isNew = parts.findings.revision !== findings.revision || parts.findings.wall !== findings.wall;
      const before = findings.revision;
      findings = parts.findings;
      // Of a plan that is behind the text the numbers are those of other findings.
      isPlanBehind = parts.notice.planIsDue;
      listed = parts.focus.findings;
      if (isNew && findings.revision !== before) {
        known.clear();
        asked.clear();
        // Another text may have other findings by these numbers. (Asked of one that is shut, the page is laid out to hear so.)
        if (pinned) callout.hidePopover();
      }
      clearTimeout(quiet);
      quiet = setTimeout(() => want(listed.map(({ finding }) => finding)), QUIET);
    },
    fixesOf,
    fixesCame(answer) {
      if (answer.revision !== findings.revision) return;
      for (const each of answer.fixes) {
        asked.delete(each.finding);
        known.set(each.finding, each);
      }
      if (pinned !== undefined) {
        drawCallout();
        placeCallout();
      }
      redraw();
    },
    mendEnded(answer) {
      isSent = false;
      callout.hidePopover();
      say(answer.kind === 'done' ? answer.words : `Nothing was changed: ${answer.reason}.`);
    },
  };
}

/** A fix that guesses at what somebody measured says so; so does one that wants a look. */
const trustWords: Readonly<Record<FixLine['trust'], string>> = {
  safe: '',
  review: 'wants a look',
  'by-hand': 'by hand: only for who was there',
};

/** From its name for a person who hears it: `finding 3, error: …`. */
function saidBy(marker: SVGElement): Pick<FindingLine, 'number' | 'severity' | 'message' | 'thing'> | undefined {
  const [, number, severity, message] =
    /^finding (\d+), (\w+): (.*)$/.exec(marker.getAttribute('aria-label') ?? '') ?? [];
  const known = severities.find((each) => each === severity);
  if (number === undefined || message === undefined || !known) return undefined;
  return { number: Number(number), severity: known, message, thing: marker.dataset.thing ?? '' };
}
const severities: readonly FindingLine['severity'][] = ['stop', 'error', 'warning', 'info', 'accepted'];

/** Up and down through the findings of a list and the ways to mend them. */
export function moveInFindings(event: KeyboardEvent): void {
  const list = event.currentTarget;
  if (list instanceof HTMLElement && (event.key === 'ArrowDown' || event.key === 'ArrowUp')) step(list, event);
}

function step(list: HTMLElement, event: KeyboardEvent): void {
  const buttons = [...list.querySelectorAll<HTMLButtonElement>('button:not(:disabled)')];
  const at = buttons.indexOf(document.activeElement as HTMLButtonElement);
  const next = buttons[at + (event.key === 'ArrowDown' ? 1 : -1)];
  if (!next) return;
  next.focus();
  event.preventDefault();
  event.stopPropagation();
}
