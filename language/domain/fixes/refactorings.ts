import { lapAt } from '../fit/laps.ts';
import type { Layout, SillPiece, Wall } from '../model/layout.ts';
import type { Fix } from '../rules/finding.ts';
import { formatExactStation, formatStation } from '../units/format-length.ts';
import type { Length } from '../units/length.ts';
import { midpoint, minus } from '../units/length.ts';
import { insertAnchors } from './anchor-fixes.ts';
import { withEdits } from './apply-in-memory.ts';
import type { ThingEdit } from './edit.ts';

/** Changes that a person asks for, not mends of a finding. Each gives the edits, or nothing where it cannot be done. */

/**
 * Stations read from the wrong end: a list of what stands on a wall goes from `s` to `L - s`. Boards and foundation stay.
 * New work is read anew only as long as none of it is in the wall.
 */
export function flipStations(layout: Layout, wall: Wall, list: StationList): readonly Fix[] {
  const { length } = wall;
  if (length === undefined) return [];
  const flipped = (station: Length): Length => minus(length, station);
  const write = (station: Length): string => formatExactStation(station, layout.title.units);
  const edits: ThingEdit[] = [];
  if (list === 'old-anchors') {
    for (const each of wall.foundAnchors) {
      if (each.station !== undefined)
        edits.push({ kind: 'replace-text', span: each.stationSource, text: write(flipped(each.station)) });
    }
  } else if (list === 'things') {
    for (const each of wall.obstructions) {
      if (!each.stretch) continue;
      const { from, to } = each.stretch;
      const middle = midpoint(flipped(to), flipped(from));
      // Written by its middle and its width, or from edge to edge.
      const text = each.byMiddle ? write(middle) : `${write(flipped(to))} to ${write(flipped(from))}`;
      edits.push({ kind: 'replace-text', span: each.placeSource, text });
    }
  } else {
    // What is drilled stays where it is.
    if (wall.anchors.some((each) => each.state !== 'planned')) return [];
    for (const each of wall.anchors) {
      if (each.station !== undefined)
        edits.push({ kind: 'set-station', anchor: each.id, station: flipped(each.station) });
    }
    for (const each of wall.panels) {
      if (!each.stretch) continue;
      const text = `${write(flipped(each.stretch.to))} to ${write(flipped(each.stretch.from))}`;
      edits.push({ kind: 'replace-text', span: each.stretchSource, text });
    }
  }
  return edits.length === 0
    ? []
    : [
        {
          title: `Read ${listWords[list]} of wall ${wall.name} from the other end (s becomes ${write(length)} - s)`,
          trust: 'by-hand',
          edits,
        },
      ];
}

export type StationList = 'old-anchors' | 'things' | 'new-work';
export const stationLists: readonly StationList[] = ['old-anchors', 'things', 'new-work'];
const listWords: Readonly<Record<StationList, string>> = {
  'old-anchors': 'the old anchors',
  things: 'the openings and things in the way',
  'new-work': 'the new work',
};

/** One board becomes two that meet at a station. */
export function splitSillAt(layout: Layout, wall: Wall, station: Length, joint: 'butt' | 'step'): readonly Fix[] {
  const piece = wall.pieces.find((each) => each.from < station && station < each.to);
  if (!piece) return [];
  const at = formatStation(station, layout.title.units);
  return [
    {
      title: `End sill ${piece.name} at ${at} and begin another board there`,
      trust: 'by-hand',
      edits: [
        {
          kind: 'insert-survey-line',
          wall: wall.id,
          text: `break at ${formatExactStation(station, layout.title.units)} ${joint}`,
        },
      ],
    },
  ];
}

/** Boards that `break` lines cut, each written as a `sill` line of its own. */
export function spellOutBreaks(wall: Wall): readonly Fix[] {
  const lines = new Set<number>();
  const isCut = wall.pieces.some((piece) => {
    if (piece.layer !== 'survey') return false;
    const before = lines.size;
    return lines.add(piece.source.start).size === before;
  });
  return isCut
    ? [
        {
          title: `Write the boards of wall ${wall.name} that \`break\` cuts as \`sill\` lines`,
          trust: 'review',
          edits: [{ kind: 'spell-out-breaks', wall: wall.id }],
        },
      ]
    : [];
}

/** The end anchors on both sides of a joint, where they are missing. */
export function anchorJoint(layout: Layout, wall: Wall, left: SillPiece, right: SillPiece): readonly Fix[] {
  const first = insertAnchors(layout, wall, left, { kind: 'end', side: 'right' })[0];
  const between = first ? withEdits(layout, first.edits) : layout;
  const wallBetween = between.walls.find((each) => each.id === wall.id) ?? wall;
  const second = insertAnchors(between, wallBetween, right, { kind: 'end', side: 'left' })[0];
  const edits = [...(first?.edits ?? []), ...(second?.edits ?? [])];
  if (edits.length === 0) return [];
  return [{ title: `Add the end anchors at the joint of ${left.name} and ${right.name}`, trust: 'review', edits }];
}

/** Boards of a wall that meet, overlap or face each other over a gap, from left to right. */
export function jointsOf(wall: Wall): readonly { readonly left: SillPiece; readonly right: SillPiece }[] {
  const pieces = wall.pieces.toSorted((a, b) => a.from - b.from || a.to - b.to);
  return pieces.flatMap((right, index) => {
    const left = pieces[index - 1];
    return left && (right.from >= left.to || lapAt(wall, left, 'right')) ? [{ left, right }] : [];
  });
}
