import { intervalIndex } from '../fit/interval-index.ts';
import { whyWorthless } from '../fit/piece-anchors.ts';
import type { Connector } from '../hardware/connector.ts';
import { anchorDiameter, anchorsSill } from '../hardware/connector.ts';
import type { AngleRun, FoundAnchor, FoundationStretch, NewAnchor, SillPiece, Wall } from '../model/layout.ts';
import type { Reading } from '../model/reading.ts';
import type { Force } from '../units/force.ts';
import type { Length } from '../units/length.ts';
import { stressOf } from '../units/stress.ts';
import { connectorCapacity } from './capacity/hardware-capacity.ts';
import { sillBoltCapacity } from './capacity/sill-bolt.ts';
import { specificGravities, specificGravityOf } from './capacity/wood.ts';
import { formula } from './formula.ts';
import { section } from './publications.ts';
import type { Outcome, Trace, Traced } from './trace.ts';
import { computed, given, isRefused, leastOf, named, refused, withNotes } from './trace.ts';
import { count, factor, inch, pound, psi } from './trace-units.ts';

/** What one mark of the design, or one old anchor, brings along its wall. */
export interface CountedConnector {
  /** Old anchors without a name are called by their wall and order: `A found 2`. */
  readonly mark: string;
  readonly wall: string;
  readonly what: 'new anchor' | 'found anchor' | 'framing angles' | 'panel';
  readonly connector: string;
  /** The thing that findings name. */
  readonly thing: string;
  /** How many of them the mark stands for. */
  readonly count: number;
  /** Of one, along the wall, allowable. Refused: it counts for nothing, and why. */
  readonly capacity: Outcome<Force>;
  /** What the number does not cover. */
  readonly remarks: readonly string[];
}

export interface CapacityChoices {
  /** For sill boards whose species nobody knows; absent: the weakest that the table lists. */
  readonly gravityOfUnknownSpecies?: number;
}

/** Every anchor of a wall's sill, old and new, by the order of the file. */
export function anchorsOfWall(wall: Wall, choices: CapacityChoices = {}): readonly CountedConnector[] {
  const place = placesOf(wall);
  return [
    ...wall.anchors.flatMap((anchor) => newAnchorCapacity(wall, anchor, place, choices) ?? []),
    ...wall.foundAnchors.map((anchor, index) => foundAnchorCapacity(wall, anchor, index, place, choices)),
  ];
}

/** One new anchor; `undefined` for what does not fasten a sill to its foundation. */
export function anchorOfWall(wall: Wall, anchor: NewAnchor): CountedConnector | undefined {
  return newAnchorCapacity(wall, anchor, placesOf(wall), {});
}

/** The framing angles between floor and sill (or top plate) of a wall. */
export function anglesOfWall(wall: Wall): readonly CountedConnector[] {
  return wall.angles.map((run) => ({
    mark: run.name,
    wall: wall.name,
    what: 'framing angles',
    connector: run.connectorName,
    thing: run.id,
    count: run.stations.length,
    capacity: angleCapacity(run),
    remarks: run.lacking.length > 0 ? [`not all of them have a place: ${run.lacking.join(', ')}`] : [],
  }));
}

/** What the connectors add up to, those that have no number left out. `undefined` where none has one. */
export function capacityOf(connectors: readonly CountedConnector[]): Traced<Force> | undefined {
  const groups = new Map<string, { readonly each: Traced<Force>; count: number }>();
  for (const { capacity, count: pieces } of connectors) {
    if (isRefused(capacity) || pieces === 0) continue;
    const key = `${capacity.number} ${capacity.meaning}`;
    const group = groups.get(key);
    if (group) group.count += pieces;
    else groups.set(key, { each: capacity, count: pieces });
  }
  if (groups.size === 0) return undefined;
  const inputs: Trace[] = [];
  const terms = [...groups.values()].map(({ each, count: pieces }, index) => {
    const n = index + 1;
    inputs.push(given(`n_${n}`, `how many: ${each.meaning}`, count, pieces), named(`R_${n}`, each.meaning, each));
    return `n_${n} * R_${n}`;
  });
  const meaning = 'capacity counted, allowable-stress level';
  if (groups.size > MOST_TERMS) {
    const sum = [...groups.values()].reduce((all, group) => all + group.each.number * group.count, 0);
    return given('R_link', `${meaning}: ${groups.size} kinds of connector added`, pound, pound.to(sum));
  }
  return computed('R_link', meaning, pound, formula(terms.join(' + ')), inputs, section('statics', '', 'published'));
}
/** A longer sum is not read by anyone. */
const MOST_TERMS = 40;

/** Demand over capacity counted, a plain number. */
export function shareOfCapacity(demand: Traced<Force>, capacity: Traced<Force>): Outcome<number> {
  if (!(capacity.number > 0)) return refused('no capacity is counted');
  return computed(
    'u',
    'demand over the capacity counted',
    factor,
    formula('V_line / R_link'),
    [named('V_line', demand.meaning, demand), named('R_link', capacity.meaning, capacity)],
    section('statics', '', 'published'),
  );
}

/** The softest and the densest wood of the table: the bounds of a species that nobody knows. */
export const gravityBounds = {
  least: Math.min(...Object.values(specificGravities)),
  greatest: Math.max(...Object.values(specificGravities).filter((gravity) => gravity <= 0.55)),
} as const;

interface Places {
  pieceAt(station: Length): SillPiece | undefined;
  foundationAt(station: Length): FoundationStretch | undefined;
}
function placesOf(wall: Wall): Places {
  const pieces = intervalIndex(wall.pieces);
  const foundation = intervalIndex(wall.foundation);
  return {
    pieceAt: (station) => pieces.overlapping(station - 1, station + 1)[0],
    foundationAt: (station) => foundation.overlapping(station - 1, station + 1)[0],
  };
}

function newAnchorCapacity(
  wall: Wall,
  anchor: NewAnchor,
  places: Places,
  choices: CapacityChoices,
): CountedConnector | undefined {
  const { connector, station } = anchor;
  if (connector && !anchorsSill(connector.kind)) return undefined;
  const row = {
    mark: anchor.name,
    wall: wall.name,
    what: 'new anchor' as const,
    connector: connector?.name ?? anchor.connectorName ?? 'none named',
    thing: anchor.id,
    count: 1,
  };
  const without = (reason: string): CountedConnector => ({ ...row, capacity: refused(reason), remarks: [] });
  if (anchor.state === 'omitted') return without('the record says that it was omitted');
  if (anchor.state === 'failed') return without('the record says that its test failed');
  if (!connector) return without('its connector is in no file in sight');
  if (station === undefined) return without('it has no place');
  const piece = places.pieceAt(station);
  if (!piece) return without('no sill board at its station');

  const reported = connectorCapacity(connector, 'along-wall', speciesOf(piece));
  if (isRefused(reported)) return { ...row, capacity: reported, remarks: [] };
  const remarks = [...speciesRemark(connector, piece), ...shimRemark(anchor)];
  if (connector.kind !== 'through-bolt') return { ...row, capacity: reported, remarks };
  const wood = boltThroughSill(
    piece,
    places.foundationAt(station),
    anchorDiameter(connector),
    embedmentOf(anchor, connector),
    choices,
  );
  if (isRefused(wood))
    return { ...row, capacity: reported, remarks: [...remarks, `wood against bolt not worked: ${wood.reason}`] };
  const smaller = leastOf('R', `capacity of ${connector.name}, report and wood against bolt`, pound, [reported, wood]);
  return { ...row, capacity: smaller, remarks };
}

function foundAnchorCapacity(
  wall: Wall,
  anchor: FoundAnchor,
  index: number,
  places: Places,
  choices: CapacityChoices,
): CountedConnector {
  const row = {
    mark: anchor.name ?? `${wall.name} found ${index + 1}`,
    wall: wall.name,
    what: 'found anchor' as const,
    connector: anchor.kind ?? 'bolt',
    thing: anchor.id,
    count: 1,
  };
  const without = (reason: string): CountedConnector => ({ ...row, capacity: refused(reason), remarks: [] });
  const worthless = whyWorthless(anchor);
  if (worthless !== undefined) return without(`it is worth nothing: ${worthless}`);
  if (anchor.credit === 'none') return without('the file gives it no credit');
  if (anchor.station === undefined) return without('it has no place');
  const piece = places.pieceAt(anchor.station);
  if (!piece) return without('no sill board at its station');
  if (anchor.size?.kind !== 'known') return without('its diameter is not known');
  if (anchor.embed?.kind !== 'known') return without('its embedment is not known');
  const embedment = given('l_m', 'embedment of the bolt found', inch, anchor.embed.value, {
    quality: anchor.embed.quality,
  });
  const whole = boltThroughSill(piece, places.foundationAt(anchor.station), anchor.size.value, embedment, choices);
  if (isRefused(whole)) return { ...row, capacity: whole, remarks: [] };
  const remarks = anchor.states
    .filter((state) => state !== 'sound')
    .map((state) => `found with ${state.replace('-', ' ')}`);
  if (anchor.credit === 'full') return { ...row, capacity: whole, remarks };
  const half = computed('R_half', 'half credit, as the file gives it', pound, formula("0.5 * Z'"), [whole], undefined);
  return { ...row, capacity: half, remarks };
}

function angleCapacity(run: AngleRun): Outcome<Force> {
  if (!run.connector) return refused('its connector is in no file in sight');
  if (run.stations.length === 0) return refused('none of them has a place');
  return connectorCapacity(run.connector, 'along-wall', undefined);
}

/** Wood against a bolt in concrete, by the yield limits. Refused with what is missing; never guessed but for the species. */
function boltThroughSill(
  piece: SillPiece,
  foundation: FoundationStretch | undefined,
  diameter: Length | undefined,
  embedment: Traced<Length> | undefined,
  choices: CapacityChoices,
): Outcome<Force> {
  if (diameter === undefined) return refused('its diameter is not known');
  if (!embedment) return refused('its embedment is not known');
  if (piece.double) return refused(`sill ${piece.name} is doubled, and the yield limits take one board`);
  const thick = piece.size?.thick;
  if (thick?.kind !== 'known') return refused(`the thickness of sill ${piece.name} is not known`);
  if (!foundation) return refused('no foundation is recorded at its station');
  if (foundation.material !== 'concrete') return refused(`the foundation is ${foundation.material}, not concrete`);
  const strength = foundation.strength?.kind === 'known' ? foundation.strength : undefined;
  const stress = strength && stressOf(strength.value);
  if (!strength || stress === undefined) return refused('the strength of the concrete is not known');
  const gravity = gravityOf(piece, choices);
  if (isRefused(gravity)) return gravity;
  return sillBoltCapacity({
    diameter,
    embedment,
    gravity,
    sillThick: given('l_s', `thickness of sill ${piece.name}`, inch, thick.value, { quality: thick.quality }),
    concrete: given("f'_c", 'compressive strength of the concrete', psi, stress, { quality: strength.quality }),
  });
}

/** The species of a board, where it is known. */
function speciesOf(piece: SillPiece): string | undefined {
  return piece.species === 'unknown' ? undefined : piece.species;
}

function gravityOf(piece: SillPiece, choices: CapacityChoices): Outcome<number> {
  const species = speciesOf(piece);
  if (species !== undefined)
    return (
      specificGravityOf(species) ?? refused(`no specific gravity is tabulated for ${species} (sill ${piece.name})`)
    );
  return given(
    'G',
    'specific gravity of a sill of unknown species: the least of the table',
    factor,
    choices.gravityOfUnknownSpecies ?? gravityBounds.least,
    { quality: 'assumed', section: section('NDS 2018', 'Table 12.3.3A', 'from-memory') },
  );
}

/** As the layout gives it, else the report's; a rod set in adhesive fills its hole. */
function embedmentOf(anchor: NewAnchor, connector: Connector): Traced<Length> | undefined {
  const reading: Reading<Length> | undefined = anchor.embed;
  if (reading?.kind === 'unknown') return undefined;
  if (reading) return given('l_m', 'embedment', inch, reading.value, { quality: reading.quality });
  const fastener = connector.fasteners.find((each) => each.member === 'concrete');
  if (fastener?.embed !== undefined) return given('l_m', 'embedment, from the hardware file', inch, fastener.embed);
  if (fastener?.kind !== 'adhesive-rod' || fastener.holeDepth === undefined) return undefined;
  const depth = given('l_m', 'embedment: the hole that the hardware file gives', inch, fastener.holeDepth);
  return withNotes(depth, 'a rod set in adhesive fills its hole');
}

function speciesRemark(connector: Connector, piece: SillPiece): readonly string[] {
  if (speciesOf(piece) !== undefined) return [];
  const listed = connector.capacities.filter(({ direction }) => direction === 'along-wall');
  if (listed.some(({ species }) => species === undefined)) return [];
  const names = listed.map(({ species }) => species).join(', ');
  return [`listed for ${names} only; the species of sill ${piece.name} is not known`];
}

function shimRemark({ shim }: NewAnchor): readonly string[] {
  if (!shim || (shim.kind === 'known' && shim.value === 0)) return [];
  return ['shimmed: look up in the report whether its value still holds'];
}
