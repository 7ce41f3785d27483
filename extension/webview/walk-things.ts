import { stopAfter } from './next-by-key.ts';
import { kindOf, nameOf } from './things-drawn.ts';

/** The thing that a key leads to: left and right by station, up and down between rows, Home and End to the ends of the wall. */
export function nextByKey(drawing: SVGSVGElement, key: string): SVGGElement | undefined {
  const stops = [...drawing.querySelectorAll<SVGGElement>('g[tabindex]')].flatMap((group) => {
    const { x, y, width, height } = group.getBoundingClientRect();
    // What a layer hides has no place, and is no stop.
    if (width === 0 && height === 0) return [];
    return [{ group, x: x + width / 2, y: y + height / 2, row: rowOf(kindOf(nameOf(group))) }];
  });
  const byStation = stops.toSorted((a, b) => a.x - b.x || a.y - b.y);
  const at = byStation.findIndex(({ group }) => group === document.activeElement);
  return stopAfter(byStation, at, key)?.group;
}

const newWork = new Set(['anchor', 'hold-down', 'strap', 'tie', 'angles', 'cap', 'base']);

/** From the top down: found things, new work, panels, boards. */
function rowOf(kind: string): number {
  if (newWork.has(kind)) return 1;
  if (kind === 'panel') return 2;
  return kind === 'sill' ? 3 : 0;
}
