import { SaxesParser } from 'saxes';

/** What stands in a drawing's SVG text, read back from it by a strict XML parser: mm on paper. */
export interface DrawnInSvg {
  /** Of every group that shows a thing: its symbols, each with the reach of its shapes along x. */
  readonly things: ReadonlyMap<string, readonly DrawnSign[]>;
  /** Vertical strokes of tapes, and the left ends of their outlines. */
  readonly tapes: readonly {
    readonly x0: number;
    readonly ticks: readonly number[];
    readonly wedges: readonly number[];
  }[];
  /** What the sheet says of its scale: `1:24` gives 24. */
  readonly ratio: number | undefined;
}
export interface DrawnSign {
  readonly symbol: string | undefined;
  readonly from: number;
  readonly to: number;
  /** Middles of its circles. */
  readonly circles: readonly number[];
}

interface Open {
  readonly thing: string | undefined;
  readonly symbol: string | undefined;
  readonly isTape: boolean;
  readonly isTexture: boolean;
}
interface Sign {
  symbol: string | undefined;
  from: number;
  to: number;
  circles: number[];
}

export function readDrawing(svg: string): DrawnInSvg {
  const open: Open[] = [];
  const things = new Map<string, Sign[]>();
  const tapes: { x0: number; ticks: number[]; wedges: number[] }[] = [];
  let ratio: number | undefined;
  let text = '';
  const parser = new SaxesParser();
  parser.on('error', (error) => {
    throw error;
  });
  parser.on('opentag', ({ name, attributes }) => {
    const value = (key: string): string => String(attributes[key] ?? '');
    if (name === 'g') {
      const isTape = value('data-role') === 'tape';
      if (isTape) tapes.push({ x0: Number.NaN, ticks: [], wedges: [] });
      const shows = value('data-role') === 'thing' || value('data-role') === 'wall';
      open.push({
        thing: shows && attributes['data-thing'] !== undefined ? value('data-thing') : undefined,
        symbol: attributes['data-symbol'] === undefined ? undefined : value('data-symbol'),
        isTape,
        // Dots of concrete and nails are no places, and many.
        isTexture: value('data-role') === 'texture' || open[open.length - 1]?.isTexture === true,
      });
      return;
    }
    text = '';
    if (name === 'text' || open[open.length - 1]?.isTexture) return;
    const xs = xsOf(name, value);
    if (xs.length === 0) return;
    const tape = open.some(({ isTape }) => isTape) ? tapes[tapes.length - 1] : undefined;
    if (tape) readTape(tape, name, value, xs);
    const depth = open.findLastIndex(({ thing }) => thing !== undefined);
    const thing = open[depth]?.thing;
    if (thing === undefined) return;
    const symbol = open.slice(depth + 1).find((each) => each.symbol !== undefined)?.symbol;
    const signs = things.get(thing) ?? [];
    if (signs.length === 0) things.set(thing, signs);
    let sign = signs.find((each) => each.symbol === symbol);
    if (!sign) {
      sign = { symbol, from: Number.POSITIVE_INFINITY, to: Number.NEGATIVE_INFINITY, circles: [] };
      signs.push(sign);
    }
    sign.from = Math.min(sign.from, ...xs);
    sign.to = Math.max(sign.to, ...xs);
    if (name === 'circle') sign.circles.push(Number(value('cx')));
  });
  parser.on('text', (more) => {
    text += more;
  });
  parser.on('closetag', ({ name }) => {
    if (name === 'g') open.pop();
    if (name === 'text' && ratio === undefined) {
      const said = /\b1:(\d+)\b/.exec(text)?.[1];
      if (said !== undefined) ratio = Number(said);
    }
    text = '';
  });
  parser.write(svg).close();
  return { things, tapes, ratio };
}

function xsOf(name: string, value: (key: string) => string): readonly number[] {
  switch (name) {
    case 'rect':
      return [Number(value('x')), Number(value('x')) + Number(value('width'))];
    case 'circle':
      return [Number(value('cx')) - Number(value('r')), Number(value('cx')) + Number(value('r'))];
    case 'path':
      return [...value('d').matchAll(/[ML](-?[\d.]+) -?[\d.]+/g)].map(([, x]) => Number(x));
    default:
      return [];
  }
}

function readTape(
  tape: { x0: number; ticks: number[]; wedges: number[] },
  name: string,
  value: (key: string) => string,
  xs: readonly number[],
): void {
  if (name === 'rect') tape.x0 = xs[0] ?? Number.NaN;
  if (name !== 'path') return;
  const path = value('d');
  if (path.endsWith('Z')) tape.wedges.push((Math.min(...xs) + Math.max(...xs)) / 2);
  else tape.ticks.push(...[...path.matchAll(/M(-?[\d.]+)/g)].map(([, x]) => Number(x)));
}
