import { woodEdge } from '../fit/blocked-by-concrete.ts';
import { howSet } from '../fit/fit-case.ts';
import { footprintOf } from '../fit/footprint.ts';
import { pieceAt } from '../fit/piece-anchors.ts';
import type { Layout, NewAnchor, Wall } from '../model/layout.ts';
import { knownValue, profileAt } from '../model/reading.ts';
import type { Fix } from '../rules/finding.ts';
import { formatLength } from '../units/format-length.ts';
import type { Length } from '../units/length.ts';
import { half, larger, minus, roundDownTo, roundTo, roundUpTo, smaller } from '../units/length.ts';
import { tapeStep } from './tape-step.ts';

/** A shim that fills the gap behind a flat plate. */
export function setShim(layout: Layout, anchor: NewAnchor, shim: Length): readonly Fix[] {
  return setValue(layout, anchor, 'shim', shim, (value) => `Put a ${value} shim behind ${anchor.name}`);
}

/** A deeper hole, and the rod to go with it. */
export function setEmbed(layout: Layout, anchor: NewAnchor, embed: Length): readonly Fix[] {
  return setValue(
    layout,
    anchor,
    'embed',
    embed,
    (value) => `Set ${anchor.name} ${value} deep: check the length of the rod`,
  );
}

/**
 * Shifts a bolt across the sill to where concrete and wood on either side are thick enough, as near to the middle of the board
 * as can be. Nothing where there is no such place, or a measurement is missing.
 * @param least concrete beside the bolt, where more is wanted than its report asks for
 */
export function setOffset(layout: Layout, wall: Wall, anchor: NewAnchor, least?: Length): readonly Fix[] {
  const { station, connector } = anchor;
  if (station === undefined || connector?.kind !== 'through-bolt') return [];
  const piece = pieceAt(wall, station);
  const stretch = wall.foundation.find((each) => each.from <= station && station <= each.to);
  if (!piece?.setBack || !stretch?.thick) return [];
  const setBack = knownValue(profileAt(piece.setBack, station));
  const thick = knownValue(profileAt(stretch.thick, station));
  const wide = knownValue(piece.size?.wide);
  if (setBack === undefined || thick === undefined || wide === undefined) return [];
  const fitCase = { layout, wall, piece, connector, ...howSet(anchor), offset: undefined };
  const wood = woodEdge(fitCase);
  const woodAsked = wood && wood.wants === undefined ? wood.asked : undefined;
  const { edge: own } = footprintOf(fitCase);
  const edge = least === undefined ? own : larger(least, own);
  const step = tapeStep(layout.title.units);
  const inner = minus(edge, setBack);
  const outer = minus(minus(thick, setBack), edge);
  const from = roundUpTo(woodAsked === undefined ? inner : larger(inner, woodAsked), step);
  const to = roundDownTo(woodAsked === undefined ? outer : smaller(outer, minus(wide, woodAsked)), step);
  if (from > to) return [];
  const offset = larger(from, smaller(to, roundTo(half(wide), step)));
  if (offset === knownValue(anchor.offset)) return [];
  if (anchor.state !== 'planned') return [];
  return [
    {
      title: `Set ${anchor.name} ${formatLength(offset, layout.title.units)} from the inner edge of the sill`,
      trust: 'review',
      edits: [{ kind: 'set-offset', anchor: anchor.id, offset }],
    },
  ];
}

function setValue(
  layout: Layout,
  anchor: NewAnchor,
  key: 'shim' | 'embed',
  value: Length,
  title: (value: string) => string,
): readonly Fix[] {
  if (anchor.state !== 'planned') return [];
  return [
    {
      title: title(formatLength(value, layout.title.units)),
      trust: 'review',
      edits: [{ kind: 'set-value', anchor: anchor.id, key, value }],
    },
  ];
}
