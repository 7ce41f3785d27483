import { type ClearIntervals, clearIntervals } from '../fit/clear-intervals.ts';
import type { Blocked, FitCase } from '../fit/fit-case.ts';
import { rangeThatFits } from '../fit/footprint.ts';
import { anchorsSill, type Connector, type ConnectorKind } from '../hardware/connector.ts';
import type { Layout, SillPiece, Wall } from '../model/layout.ts';
import { type Known, profileRange } from '../model/reading.ts';
import { mostLength } from '../rulesets/compare.ts';
import { limitFor } from '../rulesets/limit-for.ts';
import { type Length, minus, nanometres, roundDownTo, sixteenth, zero } from '../units/length.ts';

/** A connector in one of the ways in which it can be set: with the usual drill, with a right-angle drill, on a shim. */
export interface ConnectorUse {
  /** The same for the same use on any board. */
  readonly id: string;
  readonly connector: Connector;
  readonly rightAngleDrill: boolean;
  readonly shim: Length | undefined;
}

/** A use with what `fit` says of it on one board. */
export interface UseOnBoard {
  readonly use: ConnectorUse;
  readonly fits: ClearIntervals;
}

export interface BoardUses {
  /** They surely fit somewhere on the board. */
  readonly fitting: readonly UseOnBoard[];
  /** They fit nowhere on it, or nobody can tell; what is first in the way. */
  readonly unfit: readonly { readonly use: ConnectorUse; readonly why: string }[];
}

export interface SillConnectors {
  /** What placement chooses from. */
  readonly chosen: readonly Connector[];
  /** In sight, and not to be chosen unless nothing else works. */
  readonly others: readonly Connector[];
}

/**
 * The sill anchors that a house is laid out in. Where its own files describe some, the shipped ones, whose values are
 * invented, are left out of sight: they lie in every house.
 * @param only names, in whatever case: these, and the others as a way out
 */
export function sillConnectors(layout: Layout, only: readonly string[] = []): SillConnectors {
  const all = [...layout.connectors.values()].filter((connector) => anchorsSill(connector.kind));
  const own = all.filter((connector) => layout.sourceMap.locate(connector.source) !== undefined);
  const inSight = own.length > 0 ? own : all;
  if (only.length === 0) return { chosen: inSight, others: [] };
  const wanted = new Set(only.map((name) => name.toLowerCase()));
  return {
    chosen: all.filter((connector) => wanted.has(connector.name.toLowerCase())),
    others: inSight.filter((connector) => !wanted.has(connector.name.toLowerCase())),
  };
}

/**
 * The ways in which connectors go onto a board. A right-angle drill is thought of where the usual one has no headroom, a
 * shim where a flat plate wants a smaller set-back.
 */
export function usesOnBoard(layout: Layout, wall: Wall, piece: SillPiece, connectors: readonly Connector[]): BoardUses {
  const fitting: UseOnBoard[] = [];
  const unfit: BoardUses['unfit'][number][] = [];
  for (const connector of connectors) {
    const plain = onBoard(layout, wall, piece, useOf(connector));
    const usable = [plain, ...otherWays(layout, wall, piece, plain)].filter(({ fits }) => fits.sure.length > 0);
    fitting.push(...usable);
    if (usable.length === 0) unfit.push({ use: plain.use, why: whyNowhere(piece, plain.fits) });
  }
  return { fitting, unfit };
}

export function useOf(
  connector: Connector,
  { rightAngleDrill = false, shim }: { readonly rightAngleDrill?: boolean; readonly shim?: Length | undefined } = {},
): ConnectorUse {
  const drill = rightAngleDrill ? ' right-angle drill' : '';
  const shimmed = shim === undefined ? '' : ` shim ${shim}`;
  return { id: `${connector.name.toLowerCase()}${drill}${shimmed}`, connector, rightAngleDrill, shim };
}

export function fitCaseOf(layout: Layout, wall: Wall, piece: SillPiece, use: ConnectorUse): FitCase {
  const { connector, rightAngleDrill, shim } = use;
  const reading: Known<Length> | undefined =
    shim === undefined
      ? undefined
      : { kind: 'known', value: shim, quality: 'measured', typed: '', source: piece.source };
  return { layout, wall, piece, connector, rightAngleDrill, shim: reading };
}

/**
 * The order in which kinds are thought of where nothing but the kind tells two apart: down through the sill where there is
 * headroom, then plates on the face. Common practice, no source.
 */
export function preferenceOf({ connector, rightAngleDrill, shim }: ConnectorUse): number {
  return (
    KINDS.indexOf(connector.kind) * 4 + (rightAngleDrill ? 1 : 0) + (shim === undefined ? 0 : 2 * KINDS.length * 4)
  );
}
const KINDS: readonly ConnectorKind[] = ['through-bolt', 'side-plate', 'stepped-side-plate'];

function onBoard(layout: Layout, wall: Wall, piece: SillPiece, use: ConnectorUse): UseOnBoard {
  return { use, fits: clearIntervals(fitCaseOf(layout, wall, piece, use)) };
}

function otherWays(layout: Layout, wall: Wall, piece: SillPiece, { use, fits }: UseOnBoard): UseOnBoard[] {
  const { connector } = use;
  const isBlockedBy = (reason: Blocked['reason']) => fits.blocked.some((each) => each.reason === reason);
  if (connector.kind === 'through-bolt' && isBlockedBy('headroom')) {
    return [onBoard(layout, wall, piece, useOf(connector, { rightAngleDrill: true }))];
  }
  if (connector.kind === 'side-plate' && isBlockedBy('set-back')) {
    const shim = shimFor(layout, piece, connector);
    return shim === undefined ? [] : [onBoard(layout, wall, piece, useOf(connector, { shim }))];
  }
  return [];
}

/** What brings the plate to the sill over the whole board, if the rules in force allow a shim of that thickness. */
function shimFor(layout: Layout, piece: SillPiece, connector: Connector): Length | undefined {
  const answer = limitFor(layout.rules, 'set-back-shim', {});
  const most = answer.kind === 'limit' ? mostLength(answer.limit)?.reach : undefined;
  const range = rangeThatFits(connector, 'set-back');
  if (most === undefined || !range || !piece.setBack) return undefined;
  const setBack = profileRange(piece.setBack, piece.from, piece.to);
  if ('kind' in setBack || setBack.greatest.value > most) return undefined;
  const shim = roundDownTo(minus(setBack.least.value, range.least ?? zero), sixteenth);
  return shim > 0 ? shim : undefined;
}

function whyNowhere(piece: SillPiece, { blocked, lacking }: ClearIntervals): string {
  const covers = ({ from, to }: { readonly from: Length; readonly to: Length }) =>
    from < nanometres(piece.from + 1) && to > nanometres(piece.to - 1);
  const longest = <Part extends { readonly from: Length; readonly to: Length }>(parts: readonly Part[]) =>
    parts.toSorted((a, b) => b.to - b.from - (a.to - a.from))[0];
  const whole = blocked.find(covers);
  if (whole) return whole.words;
  const unknown = lacking.find(covers);
  if (unknown) return `${unknown.wants} not known`;
  return longest(blocked)?.words ?? (lacking[0] ? `${lacking[0].wants} not known` : 'no room');
}
