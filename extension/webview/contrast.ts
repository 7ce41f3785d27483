/** Red, green, blue, each 0 to 1. */
export type Colour = readonly [number, number, number];

/** `rgb(1, 2, 3)`, `rgba(…)` or `#rgb`, `#rrggbb`; `undefined` for anything else, and for what is mostly transparent. */
export function readColour(text: string): Colour | undefined {
  const parts = hexParts(text.trim()) ?? functionParts(text.trim());
  if (!parts || parts.some(Number.isNaN) || (parts[3] ?? 1) < 0.5) return undefined;
  return asColour(parts);
}

function hexParts(text: string): readonly number[] | undefined {
  const hex = /^#([0-9a-f]{3,4}|[0-9a-f]{6}|[0-9a-f]{8})$/i.exec(text)?.[1];
  const pairs = hex && (hex.length <= 4 ? [...hex].map((digit) => digit + digit) : hex.match(/../g));
  return pairs ? pairs.map((pair) => Number.parseInt(pair, 16) / 255) : undefined;
}

function functionParts(text: string): readonly number[] | undefined {
  const parts = /^rgba?\(([^)]+)\)$/.exec(text)?.[1]?.split(/[\s,/]+/);
  return parts?.map((part, at) => (at < 3 ? Number(part) / 255 : Number(part)));
}

/** Relative luminance and contrast as WCAG 2.2 defines them. */
export function contrast(a: Colour, b: Colour): number {
  const [lighter, darker] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (lighter + 0.05) / (darker + 0.05);
}

/** The colour itself where it stands out enough from the ground, else the nearest shade of it that does. */
export function readableOn(ground: Colour, colour: Colour, least: number): Colour {
  if (contrast(ground, colour) >= least) return colour;
  const towards: Colour = luminance(ground) > 0.18 ? [0, 0, 0] : [1, 1, 1];
  let near = 0;
  let far = 1;
  for (let round = 0; round < 12; round += 1) {
    const middle = (near + far) / 2;
    if (contrast(ground, mix(colour, towards, middle)) >= least) far = middle;
    else near = middle;
  }
  return mix(colour, towards, far);
}

export function writeColour(colour: Colour): string {
  return `#${colour
    .map((part) =>
      Math.round(part * 255)
        .toString(16)
        .padStart(2, '0'),
    )
    .join('')}`;
}

function luminance(colour: Colour): number {
  const [red, green, blue] = colour.map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * (red ?? 0) + 0.7152 * (green ?? 0) + 0.0722 * (blue ?? 0);
}

function mix(a: Colour, b: Colour, share: number): Colour {
  return asColour(a.map((part, at) => part + ((b[at] ?? 0) - part) * share)) ?? a;
}

function asColour([red, green, blue]: readonly number[]): Colour | undefined {
  return red === undefined || green === undefined || blue === undefined ? undefined : [red, green, blue];
}
