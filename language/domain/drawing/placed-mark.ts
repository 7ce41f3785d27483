import type { Connector } from '../hardware/connector.ts';
import type { Tie } from '../model/design.ts';
import type { Layout, NewAnchor, Wall } from '../model/layout.ts';
import type { AsBuilt, MarkState } from '../model/record.ts';
import type { Length } from '../units/length.ts';

/** A mark of new work with its place in the drawing: what was built stands where it was built. */
export interface PlacedMark {
  readonly id: string;
  readonly name: string;
  /** What was put in, where the record names another than the design. */
  readonly connector: Connector | undefined;
  readonly proposed: boolean;
  readonly state: MarkState;
  /** On papers that left the office. */
  readonly issued: boolean;
  readonly station: Length;
  /** The design's place, where it was built at another. */
  readonly planned: Length | undefined;
  /** Built, and nobody wrote down where: drawn at the design's place, and says so. */
  readonly placeUnknown: boolean;
}

export interface PlacedAnchor extends PlacedMark {
  readonly anchor: NewAnchor | Tie;
}

export function placedAnchor(anchor: NewAnchor | Tie, layout: Layout): PlacedAnchor | undefined {
  const station = drawnStation(anchor);
  if (station === undefined) return undefined;
  const using = anchor.asBuilt?.using;
  return {
    anchor,
    id: anchor.id,
    name: anchor.name,
    connector: (using && layout.connectors.get(using.name.toLowerCase())) ?? anchor.connector,
    proposed: anchor.proposed,
    state: anchor.state,
    issued: isIssued(anchor, layout),
    station,
    planned: anchor.station === station ? undefined : anchor.station,
    placeUnknown: anchor.asBuilt !== undefined && !anchor.asBuilt.asPlanned && anchor.asBuilt.station === undefined,
  };
}

/** Where a mark stands in the drawing: as built where the record says, else as designed. */
export function drawnStation(mark: {
  readonly station: Length | undefined;
  readonly asBuilt?: AsBuilt;
}): Length | undefined {
  return mark.asBuilt?.station ?? mark.station;
}

/** Marks that are still to be built stay as they are once a set with them was issued; placement leaves them alone too. */
export function isIssued({ state }: { readonly state?: MarkState }, layout: Layout): boolean {
  return layout.issues.length > 0 && (state ?? 'planned') === 'planned';
}

const asBuiltWalls = new WeakMap<Wall, Wall>();

/** The wall with its new anchors where they were built, for what is measured between them. */
export function wallAsBuilt(wall: Wall): Wall {
  const before = asBuiltWalls.get(wall);
  if (before) return before;
  const isAsDesigned = wall.anchors.every((anchor) => drawnStation(anchor) === anchor.station);
  const built = isAsDesigned
    ? wall
    : { ...wall, anchors: wall.anchors.map((anchor) => ({ ...anchor, station: drawnStation(anchor) })) };
  asBuiltWalls.set(wall, built);
  return built;
}
