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

/** A leader goes with the label behind it. */
export function sortLeaders(drawing: Element): void {
  for (const leader of drawing.querySelectorAll('g[data-role="leader"]')) {
    const layer = leader.nextElementSibling?.getAttribute('data-layer') ?? '';
    if ((leader.getAttribute('data-layer') ?? '') !== layer) leader.setAttribute('data-layer', layer);
  }
}
