import type { Basis } from '../documents/basis.ts';
import type { Girder, Layout, LengthUnits, NewAnchor, Wall } from '../model/layout.ts';
import type { Checked } from '../rules/checked.ts';
import type { KeptParts } from './kept-parts.ts';

export interface PlanInput {
  readonly layout: Layout;
  readonly checked: Checked;
  readonly basis: Basis;
  /** Those of the title block unless said. */
  readonly units?: LengthUnits;
}
export interface ElevationInput extends PlanInput {
  readonly wall: Wall;
  /** Shows where this anchor of the wall may stand, and what is in the way elsewhere. */
  readonly windows?: { readonly anchor: NewAnchor };
  /** Of a pane, which draws the wall again with every key. */
  readonly memory?: KeptParts;
}
export interface GirderInput extends PlanInput {
  readonly girder: Girder;
}

export interface DrawingScale {
  /** mm on paper of one true mm. */
  readonly paper: number;
  readonly words: string;
  /** The usual scale of this kind of drawing did not fit. */
  readonly reduced: boolean;
}

/** The scale of a kind of drawing, halved until `trueMillimetres` fit on `room` mm of paper; never an odd one. */
export function scaleFor(
  usual: { readonly imperial: number; readonly metric: number },
  units: LengthUnits,
  trueMillimetres: number,
  room: number,
): DrawingScale {
  const first = units === 'metric' ? usual.metric : usual.imperial;
  let ratio = first;
  while (trueMillimetres / ratio > room) ratio *= 2;
  return { paper: 1 / ratio, words: scaleInWords(ratio, units), reduced: ratio !== first };
}

/** `1/4" = 1'-0"  (1:48)`; a metric scale is the ratio alone. */
export function scaleInWords(ratio: number, units: LengthUnits): string {
  const inches = imperialWords[ratio];
  return units === 'metric' || inches === undefined ? `1:${ratio}` : `${inches} = 1'-0"  (1:${ratio})`;
}

const imperialWords: Readonly<Record<number, string>> = {
  8: '1-1/2"',
  12: '1"',
  24: '1/2"',
  32: '3/8"',
  48: '1/4"',
  96: '1/8"',
  192: '1/16"',
};
