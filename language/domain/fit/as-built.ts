import type { Connector } from '../hardware/connector.ts';
import type { Tie } from '../model/design.ts';
import type { Layout, NewAnchor, Wall } from '../model/layout.ts';
import type { Reading } from '../model/reading.ts';
import { knownValue } from '../model/reading.ts';

/**
 * A wall with its anchors and the rods of its hold-downs as the record says that they were built: at that station, with that connector,
 * that deep and that far from the edge. What it says nothing of is as designed; where all is, it is the wall itself. The station of
 * what was built otherwise is found at its line in the record.
 */
export function wallAsBuilt(layout: Layout, wall: Wall): Wall {
  const { connectors } = layout;
  const before = known.get(wall);
  if (before?.connectors === connectors) return before.built;
  const anchors = wall.anchors.map((anchor) => asBuilt(anchor, connectors));
  const ties = wall.ties.map((tie) => (tie.kind === 'hold-down' ? asBuilt(tie, connectors) : tie));
  const isAsDesigned =
    anchors.every((each, index) => each === wall.anchors[index]) &&
    ties.every((each, index) => each === wall.ties[index]);
  const built = isAsDesigned ? wall : { ...wall, anchors: anchors.sort(byStation), ties };
  known.set(wall, { connectors, built });
  return built;
}
const known = new WeakMap<Wall, { readonly connectors: Layout['connectors']; readonly built: Wall }>();

/** The same of a house; the layout itself where all is as designed. */
export function layoutAsBuilt(layout: Layout): Layout {
  const before = knownLayouts.get(layout);
  if (before) return before;
  const walls = layout.walls.map((wall) => wallAsBuilt(layout, wall));
  const built = walls.every((each, index) => each === layout.walls[index]) ? layout : { ...layout, walls };
  knownLayouts.set(layout, built);
  return built;
}
const knownLayouts = new WeakMap<Layout, Layout>();

function asBuilt<Mark extends NewAnchor | Tie>(mark: Mark, connectors: ReadonlyMap<string, Connector>): Mark {
  const { asBuilt: built } = mark;
  if (!built) return mark;
  const station = built.station ?? mark.station;
  const connector = (built.using && connectors.get(built.using.name.toLowerCase())) ?? mark.connector;
  const embed = changed(mark.embed, built.embed);
  const offset = changed(mark.offset, built.offset);
  if (station === mark.station && connector === mark.connector && embed === mark.embed && offset === mark.offset) {
    return mark;
  }
  return { ...mark, station, stationSource: built.source, connector, embed, offset };
}

/** What was built, where somebody measured it and it is not what was designed. */
function changed<Value>(designed: Reading<Value> | undefined, built: Reading<Value> | undefined): typeof designed {
  const value = knownValue(built);
  return value === undefined || value === knownValue(designed) ? designed : built;
}

const byStation = (a: NewAnchor, b: NewAnchor): number =>
  (a.station ?? Number.POSITIVE_INFINITY) - (b.station ?? Number.POSITIVE_INFINITY) || 0;
