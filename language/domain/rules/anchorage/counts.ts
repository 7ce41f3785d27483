import { anchorsOf } from '../../fit/piece-anchors.ts';
import type { Asked } from '../../fit/piece-requirements.ts';
import { countAsked, diametersOn } from '../../fit/piece-requirements.ts';
import type { Layout, SillPiece, Wall } from '../../model/layout.ts';

export interface Shortage {
  readonly has: number;
  readonly asked: Extract<Asked<number>, { kind: 'asked' }>;
}

/** How many anchors a short board lacks of those that the table asks for; `undefined` where it lacks none. */
export function shortageOf(layout: Layout, wall: Wall, piece: SillPiece): Shortage | undefined {
  const has = anchorsOf(wall, piece).length;
  const asked = countAsked(layout, wall, piece, diametersOn(wall, piece));
  return asked.kind === 'asked' && has < asked.value ? { has, asked } : undefined;
}

export const countIsShort = (layout: Layout, wall: Wall, piece: SillPiece): boolean =>
  shortageOf(layout, wall, piece) !== undefined;
