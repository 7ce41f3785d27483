/** Of an opening tag, by name. */
export function attributesOf(open: string): ReadonlyMap<string, string> {
  return new Map(
    [...open.matchAll(/([\w:-]+)="([^"]*)"/g)].map(([, name = '', value = '']) => [
      name,
      value.replace(/&(amp|lt|gt|quot|#39);/g, decoded),
    ]),
  );
}

/** Those that the drawings are written with. */
const decoded = (entity: string): string =>
  ({ '&amp;': '&', '&lt;': '<', '&gt;': '>', '&quot;': '"', '&#39;': "'" })[entity] ?? entity;
