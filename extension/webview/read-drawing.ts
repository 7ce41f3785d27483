import { layerOf } from './layer-of.ts';
import { kindOf } from './things-drawn.ts';

const drawn = new Set([
  'svg',
  'g',
  'path',
  'rect',
  'circle',
  'line',
  'polyline',
  'polygon',
  'text',
  'tspan',
  'title',
  'desc',
]);

/** Reads an SVG text into this page; `undefined` for anything that is more than shapes and words. */
export function readDrawing(text: string): SVGSVGElement | undefined {
  const parsed = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement;
  if (!(parsed instanceof SVGSVGElement)) return undefined;
  for (const element of [parsed, ...parsed.querySelectorAll('*')]) {
    if (!drawn.has(element.localName)) return undefined;
    for (const { name } of element.attributes) if (!isHarmless(name)) return undefined;
  }
  // A tooltip with the name of the sheet on every shape would only be in the way.
  for (const title of parsed.querySelectorAll('title')) title.remove();
  sortIntoLayers(parsed);
  return document.importNode(parsed, true);
}

/** An attribute that neither runs anything nor fetches anything. */
export const isHarmless = (name: string): boolean => !name.startsWith('on') && !name.endsWith('href');

function sortIntoLayers(drawing: Element): void {
  for (const group of drawing.querySelectorAll('g')) {
    const [thing = '', role = '', symbol = ''] = ['thing', 'role', 'symbol'].map(
      (name) => group.getAttribute(`data-${name}`) ?? '',
    );
    const layer = layerOf({ kind: kindOf(thing), role, symbol });
    if (layer) group.setAttribute('data-layer', layer);
  }
}

/**
 * What hangs on another element, as attributes: a leader goes with the label behind it, a finding is of the kind of its sign, the inch
 * ticks of a tape come first in it. The style
 * could ask for it by `:has()` and `+`; but each patch would then have most of the drawing styled anew, at half of its cost.
 */
export function sortByOthers(drawing: Element): void {
  for (const leader of drawing.querySelectorAll('g[data-role="leader"]'))
    set(leader, 'data-layer', leader.nextElementSibling?.getAttribute('data-layer'));
  for (const finding of drawing.querySelectorAll('g[data-role="finding"]'))
    set(finding, 'data-kind', finding.querySelector('g[data-symbol]')?.getAttribute('data-symbol'));
  for (const ticks of drawing.querySelectorAll('g[data-role="tape"] > rect + path')) set(ticks, 'data-ticks', 'inches');
}

function set(element: Element, name: string, value: string | null | undefined): void {
  if ((element.getAttribute(name) ?? '') !== (value ?? '')) element.setAttribute(name, value ?? '');
}
