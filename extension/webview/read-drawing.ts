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
    for (const { name } of element.attributes) if (name.startsWith('on') || name.endsWith('href')) return undefined;
  }
  // A tooltip with the name of the sheet on every shape would only be in the way.
  for (const title of parsed.querySelectorAll('title')) title.remove();
  nameThings(parsed);
  return document.importNode(parsed, true);
}

/** A key for each thing's group, the same from one drawing to the next: its name, its role, and which of its kind it is. */
function nameThings(drawing: Element): void {
  const counts = new Map<string, number>();
  for (const group of drawing.querySelectorAll<SVGElement>('[data-thing]')) {
    const name = `${group.getAttribute('data-thing')} ${group.getAttribute('data-role') ?? ''}`;
    const count = (counts.get(name) ?? 0) + 1;
    counts.set(name, count);
    group.setAttribute('data-key', `${name} ${count}`);
  }
}
