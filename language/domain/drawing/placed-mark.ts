import type { Connector } from '../hardware/connector.ts';
import type { Tie } from '../model/design.ts';
import type { Layout, NewAnchor, PostHardware, ThingId } from '../model/layout.ts';
import type { AsBuilt, MarkState } from '../model/record.ts';
import type { Length } from '../units/length.ts';

/** What a drawing shows of a mark of new work, wherever it stands. */
export interface ShownMark {
  readonly id: ThingId;
  readonly name: string;
  /** What was put in, where the record names another than the design. */
  readonly connector: Connector | undefined;
  readonly proposed: boolean;
  readonly state: MarkState;
  /** On papers that left the office. */
  readonly issued: boolean;
}

/** A mark with its place in the drawing: what was built stands where it was built. */
export interface PlacedMark extends ShownMark {
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
  return {
    anchor,
    ...shownAnchor(anchor, layout),
    station,
    planned: anchor.station === station ? undefined : anchor.station,
    placeUnknown: anchor.asBuilt !== undefined && !anchor.asBuilt.asPlanned && anchor.asBuilt.station === undefined,
  };
}

export function shownAnchor(anchor: NewAnchor | Tie, layout: Layout): ShownMark {
  const { id, name, proposed, state, asBuilt } = anchor;
  const using = asBuilt?.using;
  const connector = (using && layout.connectors.get(using.name.toLowerCase())) ?? anchor.connector;
  return { id, name, connector, proposed, state, issued: isIssued(anchor, layout) };
}

/** A cap or base of a post. */
export function shownHardware(piece: PostHardware, layout: Layout): ShownMark {
  const { id, name, connector, proposed = false, state = 'planned' } = piece;
  return { id, name, connector, proposed, state, issued: isIssued(piece, layout) };
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
