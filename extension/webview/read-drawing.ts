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
export const isHarmless = (name: string): boolean =>
  /^[\w:-]+$/.test(name) && !name.startsWith('on') && !name.endsWith('href');

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
 * ticks of a tape come first in it, north is told by its name. The style could ask for it by `:has()` and `+`; but each patch would then have most of the drawing
 * styled anew, at half of its cost.
 *
 * @param elements those that are new or other than before; all others keep what they have.
 */
export function sortByOthers(elements: Iterable<Element>): void {
  for (const element of elements) {
    switch (element.getAttribute('data-role')) {
      case 'leader':
        set(element, 'data-layer', layerOfLabel(element.nextElementSibling));
        break;
      case 'finding':
        set(element, 'data-kind', element.querySelector('g[data-symbol]')?.getAttribute('data-symbol'));
        break;
      case 'tape':
        for (const path of element.querySelectorAll(':scope > path'))
          set(path, 'data-ticks', path.previousElementSibling?.localName === 'rect' ? 'inches' : undefined);
        break;
      case null:
        // By name, but not in the style: each name that changes would then have its element styled anew, a finding's too.
        set(element, 'data-kind', element.getAttribute('aria-label') === 'north is up' ? 'north' : undefined);
        break;
    }
  }
}

/** Behind leaders that stand for themselves come others: they are not theirs. */
function layerOfLabel(label: Element | null): string | null | undefined {
  return label?.getAttribute('data-role') === 'leader' ? undefined : label?.getAttribute('data-layer');
}

function set(element: Element, name: string, value: string | null | undefined): void {
  if ((element.getAttribute(name) ?? '') === (value ?? '')) return;
  if (value) element.setAttribute(name, value);
  else element.removeAttribute(name);
}
