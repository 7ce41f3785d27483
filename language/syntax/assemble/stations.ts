import type { NameReference, Stretch } from '../../domain/model/layout.ts';
import { knownValue } from '../../domain/model/reading.ts';
import type { SourceSpan } from '../../domain/model/source.ts';
import type { Length } from '../../domain/units/length.ts';
import { half, minus, plus, sixteenth, zero } from '../../domain/units/length.ts';
import type { SpanDraft, StationDraft, WhereDraft } from '../drafts.ts';

/** Turns stations as written into distances from the wall's left end. */
export interface StationFinder {
  station(draft: StationDraft): Length | undefined;
  /** `previousEnd`: where a stretch written `to X` begins. */
  stretch(draft: SpanDraft, previousEnd: Length | undefined): Stretch | undefined;
  /** One stretch for a span, one for each station of `at`. */
  places(draft: WhereDraft): readonly { readonly stretch: Stretch | undefined; readonly source: SourceSpan }[];
}

export interface StationTrouble {
  readonly kind: 'no-length' | 'unresolved' | 'circular' | 'too-far' | 'backward' | 'unknown-place' | 'outside';
  readonly source: SourceSpan;
  readonly name?: string;
  /** For `outside`. */
  readonly station?: Length;
}

/** The edges of a named thing on the same wall; it may ask the finder in turn. */
export type EdgesOf = (name: string, finder: StationFinder) => Stretch | 'circular' | 'too-far' | undefined;

/**
 * @param length of the wall; `undefined` where nobody wrote it, then `end` and `from right` cannot be found
 */
export function createStationFinder(
  length: Length | undefined,
  edgesOf: EdgesOf,
  trouble: (trouble: StationTrouble) => void,
): StationFinder {
  const finder: StationFinder = {
    station(draft) {
      const station = stationOf(draft);
      // Two readings of one end differ by what a tape shows.
      if (station !== undefined && (station < -sixteenth || (length !== undefined && station > length + sixteenth)))
        trouble({ kind: 'outside', source: draft.source, station });
      return station;
    },
    stretch(draft, previousEnd) {
      const from = draft.from ? finder.station(draft.from) : previousEnd;
      const to = finder.station(draft.to);
      if (from === undefined || to === undefined) return undefined;
      if (to < from) {
        trouble({ kind: 'backward', source: draft.source });
        return { from: to, to: from };
      }
      return { from, to };
    },
    places(draft) {
      if (draft.kind === 'span') return [{ stretch: finder.stretch(draft.span, zero), source: draft.span.source }];
      // Of unknown width it is at least at its middle.
      const width = knownValue(draft.width) ?? zero;
      return draft.stations.map((each) => {
        const middle = finder.station(each);
        if (middle === undefined) return { stretch: undefined, source: each.source };
        const from = minus(middle, half(width));
        return { stretch: { from, to: plus(from, width) }, source: each.source };
      });
    },
  };

  function stationOf(draft: StationDraft): Length | undefined {
    switch (draft.kind) {
      case 'illegible':
        return undefined;
      case 'start':
        return zero;
      case 'end':
        if (length === undefined) trouble({ kind: 'no-length', source: draft.source });
        return length;
      case 'from-left': {
        const amount = knownValue(draft.amount);
        if (amount === undefined) trouble({ kind: 'unknown-place', source: draft.source });
        return amount;
      }
      case 'from-right': {
        const amount = knownValue(draft.amount);
        if (length === undefined) trouble({ kind: 'no-length', source: draft.source });
        return length === undefined || amount === undefined ? undefined : minus(length, amount);
      }
      case 'beside':
        return besideThing(draft.amount.kind === 'known' ? draft.amount.value : undefined, draft.side, draft.of);
    }
  }

  function besideThing(amount: Length | undefined, side: 'left' | 'right', of: NameReference): Length | undefined {
    if (amount === undefined) return undefined;
    const edges = edgesOf(of.name, finder);
    if (edges === 'circular' || edges === 'too-far' || edges === undefined) {
      trouble({ kind: edges ?? 'unresolved', source: of.source, name: of.name });
      return undefined;
    }
    return side === 'right' ? plus(edges.to, amount) : minus(edges.from, amount);
  }
  return finder;
}
