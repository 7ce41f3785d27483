import { html, nothing, type TemplateResult } from 'lit-html';
import { guard } from 'lit-html/directives/guard.js';
import type {
  FindingLine,
  FocusPart,
  FooterPart,
  PreviewCounts,
  PreviewParts,
  RangePart,
  SchedulePart,
  ScheduleSection,
  ThingName,
} from '../../language/protocol/preview.ts';
import { copyTable, fillClipboard } from './clipboard.ts';
import { tableToCopy } from './copy-table.ts';
import { countMark, findingMark } from './marks.ts';
import { type Mending, moveInFindings } from './mending.ts';
import { hiddenView, type ToolbarModel, toolbarHangsOn, toolbarView } from './toolbar-view.ts';

export interface PaneModel {
  readonly parts: PreviewParts;
  /** Those that the schedules are of: where nobody sees them they may be a frame behind. */
  readonly ofSchedules: PreviewParts;
  /** The drawings look after themselves; the page only gives them their place. */
  readonly plan: HTMLElement;
  readonly elevation: HTMLElement;
  readonly select: (thing: ThingName) => void;
  readonly zoom: (of: 'plan' | 'elevation', by: 'in' | 'out' | 'fit') => void;
  readonly toolbar: ToolbarModel;
  /** Speaks politely what a person who does not see the pane must hear. */
  readonly say: (words: string) => void;
  readonly mending: Pick<Mending, 'fixesOf'>;
  /** Where the connector under the cursor may stand. */
  readonly windows: { readonly isOn: boolean; readonly words: HTMLElement; readonly toggle: () => void };
}

/** The whole pane, from the header with its counts to the footer with its caution. */
export function paneView({
  parts,
  ofSchedules,
  plan,
  elevation,
  select,
  zoom,
  toolbar,
  say,
  mending,
  windows,
}: PaneModel): TemplateResult {
  const { header, notice, focus, footer } = parts;
  return html`
    <header>
      <h1>${header.house}</h1>
      ${guard(toolbarHangsOn(toolbar), () => toolbarView(toolbar))}
      ${header.mark === '' ? nothing : html`<p class="mark">${header.mark}</p>`}
      ${countsView(header.counts)}
      ${hiddenView(toolbar)}
    </header>
    <p class="notice" ?hidden=${notice.text === undefined}>${notice.text ?? ''}</p>
    <div class="overview">
      <section class="plan" aria-label="Plan">
        <div class="heading">
          <h2>Plan</h2>
          ${zoomView('Size of the plan', 'whole house', (by) => zoom('plan', by))}
        </div>
        ${plan}
      </section>
      <section class="focus" aria-label="Under the cursor" tabindex="0">${focusView(focus, select, mending)}</section>
    </div>
    <section class="elevation" aria-label="Elevation">
      <div class="heading">
        <h2>${parts.elevation.title}</h2>
        <button
          type="button"
          class="small windows"
          tabindex="-1"
          aria-pressed=${String(windows.isOn)}
          title="Show where the connector under the cursor may stand (W)"
          @click=${windows.toggle}
        >
          may stand
        </button>
        ${zoomView('Size of the elevation', parts.elevation.wall.startsWith('girder:') ? 'whole girder' : 'whole wall', (by) => zoom('elevation', by))}
      </div>
      ${windows.words} ${elevation}
    </section>
    ${guard(schedulesHangOn(ofSchedules), () => scheduleView(ofSchedules, select, say))}
    <p class="deferral">${footer.rest}</p>
    <footer class=${footer.stopped ? 'stopped' : ''}>
      <p>${footer.demo ? html`<strong class="demo">DEMO VALUES</strong>` : nothing} ${footer.always}</p>
    </footer>
  `;
}

/** By mouse; by keyboard the drawing itself has the keys. */
function zoomView(label: string, whole: string, zoom: (by: 'in' | 'out' | 'fit') => void): TemplateResult {
  return html`<div class="zoom" role="group" aria-label=${label}>
    <button type="button" tabindex="-1" title="Smaller (−)" aria-label="Smaller" @click=${() => zoom('out')}>−</button>
    <button type="button" tabindex="-1" title=${`${whole} (0)`} @click=${() => zoom('fit')}>${whole}</button>
    <button type="button" tabindex="-1" title="Larger (+)" aria-label="Larger" @click=${() => zoom('in')}>+</button>
  </div>`;
}

function countsView(counts: PreviewCounts): TemplateResult {
  const shown = [
    { severity: 'stop', count: counts.stops, one: 'stop', many: 'stops' },
    { severity: 'error', count: counts.errors, one: 'error', many: 'errors' },
    { severity: 'warning', count: counts.warnings, one: 'warning', many: 'warnings' },
    { severity: 'info', count: counts.infos, one: 'note', many: 'notes' },
    { severity: 'accepted', count: counts.accepted, one: 'accepted', many: 'accepted' },
  ] as const;
  return html`<ul class="counts" aria-label="Findings" tabindex="0">
    ${shown
      .filter(({ severity, count }) => count > 0 || severity === 'error')
      .map(
        ({ severity, count, one, many }) =>
          html`<li class=${count === 0 ? 'none' : severity}>${countMark(severity)} ${count} ${count === 1 ? one : many}</li>`,
      )}
    <li class="rest">${counts.notChecked} not checked, ${counts.assumed} assumed</li>
  </ul>`;
}

function focusView(
  focus: FocusPart,
  select: (thing: ThingName) => void,
  mending: Pick<Mending, 'fixesOf'>,
): TemplateResult {
  return html`
    <h2>Under the cursor${focus.line > 0 ? `, line ${focus.line}` : ''}</h2>
    ${focus.source === '' ? nothing : html`<p class="source">${focus.source}</p>`}
    ${
      focus.thing === ''
        ? html`<p class="hint">Put the cursor on a wall, a board or an anchor to see it here.</p>`
        : html`<p class="thing">
            ${focus.mark === '' ? nothing : html`<span class="frame">${focus.mark}</span>`}
            <span class="station">${focus.station}</span>
            <span class="summary">${focus.summary}</span>
          </p>`
    }
    <dl>
      ${focus.facts.map(({ name, text }) => html`<div><dt>${name}</dt><dd>${text}</dd></div>`)}
    </dl>
    ${focus.range === null ? nothing : rangeView(focus.range)}
    ${findingsView(focus, select, mending)}
  `;
}

/** The board from end to end: open where the connector fits, hatched where something is in the way, named below. */
function rangeView(range: RangePart): TemplateResult {
  // Set as a property, not as an attribute: the page's policy takes no style from markup.
  const share = (part: number): string => `${(part * 100).toFixed(2)}%`;
  const words = [...new Set(range.parts.filter(({ kind }) => kind !== 'clear').map((part) => part.words))];
  return html`<div class="range" role="img" aria-label=${`board from ${range.from} to ${range.to}; in the way: ${words.join('; ') || 'nothing'}`}>
    <div class="bar">
      ${range.parts.map(
        ({ kind, from, to, words: title }) =>
          html`<span class=${kind} title=${title} .style=${`left: ${share(from)}; width: ${share(to - from)}`}></span>`,
      )}
      <span class="at" .style=${`left: ${share(range.at)}`}></span>
    </div>
    <span>${range.from}</span><span>${range.to}</span>
  </div>`;
}

function findingsView(
  focus: FocusPart,
  select: (thing: ThingName) => void,
  mending: Pick<Mending, 'fixesOf'>,
): TemplateResult | typeof nothing {
  if (focus.findings.length === 0) return nothing;
  return html`
    <h3>Findings on this ${focus.wall.startsWith('girder:') ? 'girder' : 'wall'}</h3>
    <ul class="findings" @keydown=${moveInFindings}>
      ${focus.findings.map((finding) => findingView(finding, finding.thing === focus.thing, select, mending))}
      ${focus.more > 0 ? html`<li class="more">and ${focus.more} more, in the Problems panel</li>` : nothing}
    </ul>
  `;
}

function findingView(
  finding: FindingLine,
  here: boolean,
  select: (thing: ThingName) => void,
  mending: Pick<Mending, 'fixesOf'>,
): TemplateResult {
  const where = finding.line > 0 ? `line ${finding.line}` : '';
  return html`<li class=${`${finding.severity}${here ? ' here' : ''}`}>
    <button type="button" class="finding" tabindex="-1" ?disabled=${finding.thing === ''} @click=${() => select(finding.thing)}>
      ${findingMark(finding.severity)}
      <span class="message">${finding.message}</span>
      <span class="rule">${finding.rule} ${where}</span>
    </button>
    ${mending.fixesOf(finding)}
  </li>`;
}

/** Of a long wall they are the most of the page: they are made again only where one of these is another. */
export const schedulesHangOn = ({ schedule, focus, footer }: PreviewParts): unknown[] => [
  schedule,
  focus.thing,
  footer,
];

function scheduleView(
  parts: PreviewParts,
  select: (thing: ThingName) => void,
  say: (words: string) => void,
): TemplateResult {
  const { schedule, focus, footer } = parts;
  const heading = html`<h2>${schedule.title}</h2>`;
  if (schedule.sections.length === 0) {
    return html`<section class="schedule" aria-label=${schedule.title}>
      ${heading}
      <p class="hint">No new work on this wall yet.</p>
    </section>`;
  }
  return html`<section class="schedule" aria-label=${schedule.title}>
    <div class="heading">
      ${heading}
      <p class="copied"></p>
      <button
        type="button"
        class="copy"
        tabindex="-1"
        title="Copy as table (Ctrl+C)"
        @click=${(event: Event) => copyFrom(event, schedule, footer, say)}
      >
        Copy as table
      </button>
    </div>
    <div
      class="table"
      tabindex="0"
      role="group"
      aria-label=${schedule.title}
      aria-keyshortcuts="Control+C Meta+C"
      @keydown=${moveInTable}
      @copy=${(event: ClipboardEvent) => copyByKey(event, schedule, footer, say)}
    >
      ${schedule.sections.map((section) => sectionView(section, focus.thing, select))}
    </div>
  </section>`;
}

function sectionView(
  { title, columns, rows }: ScheduleSection,
  here: ThingName,
  select: (thing: ThingName) => void,
): TemplateResult {
  return html`<table>
    <caption>${title}</caption>
    <thead>
      <tr>${columns.map((name) => html`<th scope="col" data-column=${name}>${name}</th>`)}</tr>
    </thead>
    <tbody>
      ${rows.map(
        ({ thing, cells, crossed }) =>
          html`<tr
            tabindex="-1"
            class=${`${thing === here ? 'here' : ''} ${crossed ? 'crossed' : ''}`.trim()}
            aria-current=${thing === here ? 'true' : 'false'}
            data-row=${thing}
            @click=${() => select(thing)}
          >
            ${cells.map((cell, at) => html`<td data-column=${columns[at] ?? ''}>${cell}</td>`)}
          </tr>`,
      )}
    </tbody>
  </table>`;
}

type Say = (words: string) => void;

async function copyFrom({ currentTarget }: Event, schedule: SchedulePart, footer: FooterPart, say: Say): Promise<void> {
  const section = currentTarget instanceof HTMLElement ? currentTarget.closest('.schedule') : null;
  const isDone = await copyTable(tableToCopy(schedule, footer));
  sayCopied(section, isDone ? rowsIn(schedule) : undefined, say);
}

/** Nothing selected: the whole of it goes, as from the button. */
function copyByKey(event: ClipboardEvent, schedule: SchedulePart, footer: FooterPart, say: Say): void {
  if (document.getSelection()?.isCollapsed === false) return;
  const { currentTarget } = event;
  if (!fillClipboard(event, tableToCopy(schedule, footer))) return;
  sayCopied(currentTarget instanceof HTMLElement ? currentTarget.closest('.schedule') : null, rowsIn(schedule), say);
}

const rowsIn = ({ sections }: SchedulePart): number => sections.reduce((sum, { rows }) => sum + rows.length, 0);

/** Shown and read out, and gone with the next one. */
function sayCopied(section: Element | null, rows: number | undefined, say: Say): void {
  const words =
    rows === undefined
      ? 'Not copied: mark the table and copy it by the keys.'
      : `Copied ${rows === 1 ? '1 row' : `${rows} rows`} with the basis.`;
  const status = section?.querySelector('.copied');
  if (status) status.textContent = words;
  say(words);
}

/** Up and down from row to row, Enter to its line. */
function moveInTable(event: KeyboardEvent): void {
  const table = event.currentTarget;
  if (!(table instanceof HTMLElement)) return;
  const rows = [...table.querySelectorAll<HTMLElement>('tbody tr')];
  const at = rows.indexOf(document.activeElement as HTMLElement);
  const to: Readonly<Record<string, number>> = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: rows.length - 1 };
  if (event.key === 'Enter') rows[at]?.click();
  else if (to[event.key] === undefined) return;
  else rows[Math.max(0, Math.min(rows.length - 1, to[event.key] ?? 0))]?.focus();
  event.preventDefault();
  event.stopPropagation();
}

/** The wall or girder before or after the one in sight, round the list. */
export function subjectAfter({ header, elevation }: PreviewParts, step: 1 | -1): ThingName | undefined {
  const { subjects } = header;
  const at = subjects.findIndex(({ thing }) => thing === elevation.wall);
  return subjects[(at + step + subjects.length) % subjects.length]?.thing;
}
