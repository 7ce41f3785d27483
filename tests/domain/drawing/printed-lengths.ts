import type { Scene } from '../../../language/domain/drawing/scene.ts';
import { wallAsBuilt } from '../../../language/domain/fit/as-built.ts';
import { anchorsOf } from '../../../language/domain/fit/piece-anchors.ts';
import type { Layout, Wall } from '../../../language/domain/model/layout.ts';
import { textsOf } from './drawn.ts';

/** A printed length in true mm: `3'-4 1/2"`, `12-1/2"`, `7/8"`, `1067`, `1067 mm`; `undefined` for any other text. */
export function printedLength(text: string): number | undefined {
  const metric = /^(\d+)(?: mm)?$/.exec(text);
  if (metric) return Number(metric[1]);
  const found = /^(?:(\d+)'-)?(?:(\d+)(?:[ -](?=\d+\/))?)?(?:(\d+)\/(\d+))?"$/.exec(text);
  if (!found) return undefined;
  const [feet, inches, over, under] = found.slice(1).map((part) => (part === undefined ? 0 : Number(part)));
  return ((feet ?? 0) * 12 + (inches ?? 0) + (over ?? 0) / (under || 1)) * 25.4;
}

/** Gaps as printed against the exact differences of stations; the schedule has what a full row drops. */
export function gapFaults(scene: Scene, layout: Layout, wall: Wall): readonly string[] {
  const { units } = layout.title;
  const built = wallAsBuilt(layout, wall);
  const exact = built.pieces
    .flatMap((piece) => {
      const counted = anchorsOf(built, piece).map(({ station }) => station as number);
      if (counted.length === 0) return [];
      const stops = [piece.from, ...counted, piece.to];
      return stops.slice(1).map((stop, index) => (stop - (stops[index] ?? 0)) / 1e6);
    })
    .sort((a, b) => a - b);
  const printed = textsOf(scene)
    .filter(({ within }) => within.some((group) => group.name?.startsWith('gaps between anchors')))
    .map(({ node }) => printedLength(node.text))
    .sort((a, b) => (a ?? 0) - (b ?? 0));
  if (printed.includes(undefined)) return ['a gap is no length'];
  if (printed.length > exact.length) return [`${printed.length} gaps are printed, there are ${exact.length}`];
  // Half of what a length is printed to.
  const blur = (units === 'metric' ? 1 : 25.4 / 16) / 2 + 1e-6;
  if (printed.length === exact.length)
    return printed.flatMap((value, index) =>
      Math.abs((value ?? 0) - (exact[index] ?? 0)) > blur
        ? [`a gap of ${exact[index]} mm is printed as ${value} mm`]
        : [],
    );
  return printed.flatMap((value) =>
    exact.some((length) => Math.abs((value ?? 0) - length) <= blur) ? [] : [`no gap is ${value} mm`],
  );
}
