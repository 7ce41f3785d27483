import { holeDepth } from '../../fit/blocked-by-concrete.ts';
import { howSet } from '../../fit/fit-case.ts';
import { pieceAt } from '../../fit/piece-anchors.ts';
import { anchorsSill } from '../../hardware/connector.ts';
import type { Panel } from '../../model/design.ts';
import type { Layout, NewAnchor, Wall } from '../../model/layout.ts';
import { knownValue } from '../../model/reading.ts';
import { type Length, plus, zero } from '../../units/length.ts';
import type { PlacedAnchor } from '../placed-mark.ts';
import { sillThickness } from '../wall-shape.ts';

/** One hole, or several alike, as a crew sets its drill for it. */
export interface Drilling {
  readonly way: 'down' | 'into-face';
  readonly holes: number;
  /** Of the bit into concrete; `undefined` where the hardware gives none. */
  readonly bit: Length | undefined;
  /** The tape flag on the bit, from `measuredFrom`; `undefined` where a part of it is not known. */
  readonly depth: Length | undefined;
  readonly measuredFrom: 'nailer' | 'sill' | 'concrete';
  /** From the bottom of the hole up. */
  readonly parts: readonly DepthPart[];
  /** Of a plate on the face: what the flag moves by where the plate is on when it is drilled. */
  readonly throughPlate: Length | undefined;
}
export interface DepthPart {
  readonly of: 'concrete' | 'sill' | 'nailer';
  /** `undefined`: nobody measured it, or the hardware does not say. */
  readonly deep: Length | undefined;
}

/** `undefined` where nothing is drilled into concrete, or nobody described the connector. */
export function drillingOf(layout: Layout, wall: Wall, placed: PlacedAnchor): Drilling | undefined {
  const { connector, anchor, station } = placed;
  const fastener = connector?.fasteners.find(({ member }) => member === 'concrete');
  if (!connector || !fastener) return undefined;
  const piece = pieceAt(wall, station);
  // Another kind of fastener than the connector's own wants a hole of its own, which its maker gives.
  const another = anchor.withHardware?.some(({ fastenerKind }) => fastenerKind !== undefined) === true;
  const concrete = another || anchor.embed?.kind === 'unknown' ? undefined : depthInConcrete();
  const bit = another ? undefined : fastener.hole;
  const inConcrete: DepthPart = { of: 'concrete', deep: concrete };
  if (connector.kind !== 'through-bolt' && connector.kind !== 'hold-down') {
    return {
      way: 'into-face',
      holes: fastener.count,
      bit,
      depth: concrete,
      measuredFrom: 'concrete',
      parts: [inConcrete],
      throughPlate: connector.body?.thick,
    };
  }
  const sill = piece && sillThickness(piece);
  // The bracket of a hold-down stands on the sill itself, beside its stud.
  const panel = anchorsSill(connector.kind) ? panelWithNailer(wall, station) : undefined;
  const parts: readonly DepthPart[] = [
    inConcrete,
    { of: 'sill', deep: sill?.known ? sill.thick : undefined },
    ...(panel ? [{ of: 'nailer', deep: nailerOf(panel) } as const] : []),
  ];
  return {
    way: 'down',
    holes: fastener.count,
    bit,
    depth: sumOf(parts),
    measuredFrom: panel ? 'nailer' : 'sill',
    parts,
    throughPlate: undefined,
  };

  function depthInConcrete(): Length | undefined {
    if (!connector) return undefined;
    return holeDepth({ layout, wall, piece, connector, ...howSet(anchor as NewAnchor) });
  }
}

/** The panel whose nailer a bolt goes through: it covers the bolt's station, unless it says that it stops clear of the bolts. */
function panelWithNailer(wall: Wall, station: Length): Panel | undefined {
  return wall.panels.find(
    ({ stretch, state, nailers }) =>
      stretch !== undefined &&
      state !== 'omitted' &&
      stretch.from <= station &&
      station <= stretch.to &&
      nailers !== undefined &&
      nailers !== 'none' &&
      !nailers.clear,
  );
}

const nailerOf = ({ nailers }: Panel): Length | undefined =>
  nailers && nailers !== 'none' ? knownValue(nailers.size?.thick) : undefined;

function sumOf(parts: readonly DepthPart[]): Length | undefined {
  return parts.reduce<Length | undefined>(
    (sum, { deep }) => (sum === undefined || deep === undefined ? undefined : plus(sum, deep)),
    zero,
  );
}
