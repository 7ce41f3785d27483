import type { Layout, ThingId, Wall } from '../model/layout.ts';
import type { ClosingError } from '../model/outline.ts';
import { adjustByLength, traverse } from '../model/outline.ts';
import { knownValue } from '../model/reading.ts';
import { goesRound, outlineOf, perimeterOf } from '../model/taped-outline.ts';
import { mostLength } from '../rulesets/compare.ts';
import { limitFor } from '../rulesets/limit-for.ts';
import { formatLength } from '../units/format-length.ts';
import type { Length } from '../units/length.ts';
import type { ThingEdit } from './edit.ts';
import { tapeStep } from './tape-step.ts';

/** How the outline closes, and how its error would be spread over the walls. The taped lengths stay whatever happens. */
export interface Closing {
  /** As the tape has it. `undefined` where a length is missing. */
  readonly taped: ClosingError | undefined;
  /** With the adjusted lengths that the text gives. */
  readonly adjusted: ClosingError | undefined;
  readonly proposal: ClosingProposal;
}
export type ClosingProposal =
  /** With its adjusted lengths the outline closes. */
  | { readonly kind: 'closed' }
  | {
      readonly kind: 'spread';
      readonly walls: readonly SpreadWall[];
      readonly closing: ClosingError;
      readonly edits: readonly ThingEdit[];
    }
  /** Why not, in words to follow "cannot be spread:". */
  | { readonly kind: 'cannot-spread'; readonly reason: string };
export interface SpreadWall {
  readonly wall: ThingId;
  readonly name: string;
  readonly taped: Length | undefined;
  readonly before: Length;
  readonly after: Length;
  /** Why its length stays, where it does. */
  readonly kept: string | undefined;
}

/**
 * Spreads the closing error by length (`adjustByLength`), always from the tape, on marks that a tape has. A wall on which
 * something is installed, drilled or issued keeps its length: people measure from what stands. An error that no tape
 * explains is not spread: it would hide a wall that was misread.
 * @param anew also where the adjusted lengths close already, as after taping a wall again
 */
export function closingOf(layout: Layout, { anew = false }: { readonly anew?: boolean } = {}): Closing {
  const taped = traverse(outlineOf(layout, 'taped')).closing;
  const adjusted = traverse(outlineOf(layout, 'adjusted')).closing;
  return { taped, adjusted, proposal: proposalFor(layout, taped, adjusted, anew) };
}

/** The edits that close the outline; none where it closes, or where its error cannot be spread. */
export function closingEdits(layout: Layout): readonly ThingEdit[] {
  const { proposal } = closingOf(layout);
  return proposal.kind === 'spread' ? proposal.edits : [];
}

function proposalFor(
  layout: Layout,
  taped: ClosingError | undefined,
  adjusted: ClosingError | undefined,
  anew: boolean,
): ClosingProposal {
  const cannot = (reason: string): ClosingProposal => ({ kind: 'cannot-spread', reason });
  const walls = perimeterOf(layout);
  const nameless = walls.find(
    (wall) => knownValue(wall.taped) === undefined && knownValue(wall.adjusted) === undefined,
  );
  if (nameless) return cannot(`wall ${nameless.name} has no length yet`);
  if (!goesRound(layout)) return cannot('the walls do not go all the way round yet');
  if (adjusted?.closes && !anew) return { kind: 'closed' };
  const blunder = limitFor(layout.rules, 'closing-blunder', {});
  const most = blunder.kind === 'limit' ? mostLength(blunder.limit)?.reach : undefined;
  if (taped && most !== undefined && taped.length > most) {
    const { units } = layout.title;
    return cannot(
      `${formatLength(taped.length, units)} is more than the ${formatLength(most, units)} that a tape explains: a wall was misread, or a corner is not square`,
    );
  }
  const drilled = drilledWalls(layout);
  const kept = new Map(
    walls.flatMap((wall, index) => {
      const why = keptBecause(layout, wall, drilled);
      return why === undefined ? [] : [[index, why] as const];
    }),
  );
  const outline = outlineOf(layout, 'taped');
  const input = {
    ...outline,
    walls: outline.walls.map((each, index) => {
      const wall = walls[index];
      return kept.has(index) && wall ? { ...each, length: planLength(wall) } : each;
    }),
  };
  const spread = adjustByLength(input, { step: tapeStep(layout.title.units), fixed: new Set(kept.keys()) });
  if (spread.kind === 'cannot-adjust') return cannot(spread.reason);
  const changes = walls.flatMap((wall, index): readonly SpreadWall[] => {
    const before = planLength(wall);
    const after = spread.lengths[index];
    if (before === undefined || after === undefined) return [];
    return [{ wall: wall.id, name: wall.name, taped: knownValue(wall.taped), before, after, kept: kept.get(index) }];
  });
  const edits = changes.flatMap(({ wall, before, after }): readonly ThingEdit[] =>
    before === after ? [] : [{ kind: 'set-adjusted', wall, length: after }],
  );
  return edits.length === 0 && spread.closing.closes
    ? { kind: 'closed' }
    : { kind: 'spread', walls: changes, closing: spread.closing, edits };
}

const planLength = (wall: Wall): Length | undefined => knownValue(wall.adjusted) ?? knownValue(wall.taped);

/** Why a wall's length stays as it is. */
function keptBecause(layout: Layout, wall: Wall, drilled: ReadonlySet<string>): string | undefined {
  if (knownValue(wall.taped) === undefined) return 'nobody taped it';
  const work = [...wall.anchors, ...wall.panels, ...wall.ties];
  if (work.some((each) => each.state === 'installed' || each.state === 'failed')) return 'work is installed on it';
  if (drilled.has(wall.name.toLowerCase())) return 'a hole is drilled in it';
  const marks = work.length + wall.angles.length + wall.remedies.length;
  if (layout.issues.length > 0 && marks > 0) return 'its work was issued';
  return undefined;
}

/** Where a hole was drilled and given up, in lower case. */
function drilledWalls({ record }: Layout): ReadonlySet<string> {
  const names = record.flatMap((day) =>
    day.events.flatMap((event) => (event.kind === 'dead-hole' && event.on ? [event.on.name.toLowerCase()] : [])),
  );
  return new Set(names);
}
