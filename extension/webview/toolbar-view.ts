import { html, nothing, type TemplateResult } from 'lit-html';
import { type Layer, layersOfSafety, type PaneChoices, type PaneUnits } from '../../language/protocol/pane-choices.ts';
import type { PictureForm, PreviewParts, ThingName } from '../../language/protocol/preview.ts';
import { keysView } from './keys-view.ts';
import { type MenuItem, menuView } from './menus.ts';

export interface ToolbarModel {
  readonly parts: PreviewParts;
  readonly choices: PaneChoices;
  readonly choose: (choices: PaneChoices) => void;
  /** Shows another wall or girder, the cursor staying where it is. */
  readonly look: (thing: ThingName) => void;
  readonly write: (what: 'schedules' | 'drawings') => void;
  readonly writePicture: (of: 'plan' | 'elevation', form: PictureForm) => void;
}

/** One stop of the Tab key; inside, the arrow keys go from button to button. */
export function toolbarView(model: ToolbarModel): TemplateResult {
  const { parts, choices } = model;
  const unitsOf: Readonly<Record<PaneUnits, string>> = {
    'as-written': 'as written',
    'feet-inches': 'feet, inches',
    metric: 'mm',
  };
  return html`<div class="toolbar" role="toolbar" aria-label="Layout" @keydown=${moveInToolbar} @focusin=${keepStop}>
    ${parts.header.subjects.length === 0 ? nothing : menuView({ ...subjectMenu(model), id: 'subjects' })}
    ${menuView({
      id: 'layers',
      label: choices.hidden.length > 0 ? `Layers: ${choices.hidden.length} hidden` : 'Layers',
      groups: [{ items: layerItems(model) }],
    })}
    ${menuView({
      id: 'units',
      label: choices.units === 'as-written' ? 'Units' : `Units: ${unitsOf[choices.units]}`,
      groups: [
        {
          items: (Object.keys(unitsOf) as PaneUnits[]).map((units) => ({
            label: unitsOf[units],
            choice: 'one',
            isChosen: choices.units === units,
            choose: () => model.choose({ ...choices, units }),
          })),
        },
      ],
    })}
    ${menuView({ id: 'export', label: 'Export', groups: exportGroups(model) })}
    ${keysView()}
  </div>`;
}

/** Of a large house its list of walls is long: it is made again only where one of these is another. */
export const toolbarHangsOn = ({ parts: { header, elevation, plan }, choices }: ToolbarModel): unknown[] => [
  ...[header.subjects, header.wall, elevation.wall, choices],
  ...[elevation.picture === null, plan.picture === null],
];

function subjectMenu({ parts, look }: ToolbarModel) {
  const { subjects, wall } = parts.header;
  const label = html`<span class="wall">${wall === '' ? 'Walls' : wall}</span>`;
  const items = subjects.map(({ thing, name }) => ({
    label: name,
    choice: 'one' as const,
    isChosen: thing === parts.elevation.wall,
    choose: () => look(thing),
  }));
  return { label, name: `Wall or girder: ${wall}`, groups: [{ items }] };
}

export const layerNames: Readonly<Record<Layer, string>> = {
  new: 'New connectors',
  panels: 'New panels',
  found: 'Found anchors and defects',
  'in-the-way': 'Openings and services',
  zones: 'Warning zones',
  framing: 'Framing',
  dimensions: 'Dimensions and rows',
  findings: 'Findings',
  texture: 'Textures',
};

function layerItems({ choices, choose }: ToolbarModel): readonly MenuItem[] {
  const { hidden } = choices;
  return [
    ...(Object.keys(layerNames) as Layer[]).map((layer) => ({
      label: layerNames[layer],
      choice: 'each' as const,
      isChosen: !hidden.includes(layer),
      choose: () =>
        choose({
          ...choices,
          hidden: hidden.includes(layer) ? hidden.filter((each) => each !== layer) : [...hidden, layer],
        }),
    })),
    { label: 'Show everything', choose: () => choose({ ...choices, hidden: [] }) },
  ];
}

/** What is hidden is said, and what safety hangs on is said loudly. */
export function hiddenView({ parts, choices, choose }: ToolbarModel): TemplateResult | typeof nothing {
  const { hidden } = choices;
  if (hidden.length === 0) return nothing;
  const grave = hidden.filter((layer) => layersOfSafety.includes(layer));
  const { counts } = parts.header;
  const found = counts.stops + counts.errors + counts.warnings;
  const words = (layer: Layer): string =>
    layer === 'findings' && found > 0 ? `findings (${found})` : layerNames[layer].toLowerCase();
  return html`<p class=${`hidden-layers${grave.length > 0 ? ' grave' : ''}`}>
    <span>
      ${grave.length > 0 ? html`<strong>Hidden, though there: ${grave.map(words).join(', ')}.</strong>` : nothing}
      ${
        hidden.length > grave.length
          ? `Hidden: ${hidden
              .filter((layer) => !grave.includes(layer))
              .map(words)
              .join(', ')}.`
          : nothing
      }
    </span>
    <button type="button" class="small" @click=${() => choose({ ...choices, hidden: [] })}>Show everything</button>
  </p>`;
}

function exportGroups({ parts, write, writePicture }: ToolbarModel) {
  const forms: readonly (readonly [PictureForm, string])[] = [
    ['svg', 'SVG'],
    ['png-150', 'PNG, 150 dpi'],
    ['png-300', 'PNG, 300 dpi'],
  ];
  const pictures = (of: 'plan' | 'elevation'): readonly MenuItem[] =>
    forms.map(([form, label]) => ({ label: `${label} …`, choose: () => writePicture(of, form) }));
  return [
    ...(parts.elevation.picture === null
      ? []
      : [{ title: `${parts.header.wall}, as on paper`, items: pictures('elevation') }]),
    ...(parts.plan.picture === null ? [] : [{ title: 'Plan, as on paper', items: pictures('plan') }]),
    {
      title: 'All of the house',
      items: [
        { label: 'Schedules …', choose: () => write('schedules') },
        { label: 'Drawings …', choose: () => write('drawings') },
      ],
    },
  ];
}

function moveInToolbar(event: KeyboardEvent): void {
  const bar = event.currentTarget;
  if (!(bar instanceof HTMLElement) || (event.key !== 'ArrowRight' && event.key !== 'ArrowLeft')) return;
  const stops = stopsOf(bar);
  const at = stops.indexOf(document.activeElement as HTMLElement);
  stops[(at + (event.key === 'ArrowRight' ? 1 : -1) + stops.length) % stops.length]?.focus();
  event.preventDefault();
  event.stopPropagation();
}

/** The Tab key comes back to where it left. */
function keepStop({ currentTarget, target }: FocusEvent): void {
  if (!(currentTarget instanceof HTMLElement)) return;
  const stops = stopsOf(currentTarget);
  const here = stops.find((stop) => stop === target);
  if (here) for (const stop of stops) stop.tabIndex = stop === here ? 0 : -1;
}

const stopsOf = (bar: HTMLElement): readonly HTMLElement[] => [...bar.querySelectorAll<HTMLElement>('.opens')];

/** After each drawing: one of the buttons is a stop, not each of them. */
export function settleStops(root: ParentNode): void {
  const bar = root.querySelector<HTMLElement>('.toolbar');
  const stops = bar ? stopsOf(bar) : [];
  if (stops.filter(({ tabIndex }) => tabIndex === 0).length === 1) return;
  stops.forEach((stop, index) => {
    stop.tabIndex = index === 0 ? 0 : -1;
  });
}
