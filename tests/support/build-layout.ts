import type { Connector, Fits } from '../../language/domain/hardware/connector.ts';
import type {
  CrippleStretch,
  Defect,
  FoundAnchor,
  FoundationStretch,
  Layout,
  LengthUnits,
  NewAnchor,
  Obstruction,
  SillPiece,
  Size,
  Thing,
  Wall,
  Zone,
} from '../../language/domain/model/layout.ts';
import { degrees, noTags } from '../../language/domain/model/layout.ts';
import type { Known, Profile, Reading, Unknown } from '../../language/domain/model/reading.ts';
import type { SourceSpan } from '../../language/domain/model/source.ts';
import type { Bound, Comparison, Limit, LimitValue, RuleSet } from '../../language/domain/rulesets/rule-set.ts';
import type { Length } from '../../language/domain/units/length.ts';
import { feet, inches, minus, nanometres, zero } from '../../language/domain/units/length.ts';
import { parseLength } from '../../language/domain/units/parse-length.ts';

/** Layouts made in code, for tests that make many of them or need exact lengths. What is left out gets a plain value. */

const block = { file: 'built', key: 'built' };
let places = 0;
/** A span of its own for each thing, so that tests can tell them apart. */
export function somewhere(): SourceSpan {
  places += 1;
  return { block, start: places, end: places + 1 };
}

/** `6'-4 1/2"` as a length. */
export function length(text: string): Length {
  const parsed = parseLength(text);
  if (parsed.kind !== 'length') throw new Error(`not a length: ${text}`);
  return parsed.length;
}

export function known<Value>(value: Value): Known<Value> {
  return { kind: 'known', value, quality: 'measured', typed: String(value), source: somewhere() };
}
export const unknown = (): Unknown => ({ kind: 'unknown', source: somewhere() });

export function level(value: Length | 'unknown'): Profile {
  return { points: [{ station: zero, value: value === 'unknown' ? unknown() : known(value) }] };
}
/** A straight line through readings. */
export function through(...points: readonly (readonly [station: Length, value: Length | 'unknown'])[]): Profile {
  return {
    points: points.map(([station, value]) => ({ station, value: value === 'unknown' ? unknown() : known(value) })),
  };
}

function thing(wall: string, kind: string, name: string | undefined): Thing {
  return { id: `${wall}/${kind}:${name ?? `#${places}`}`, name, source: somewhere(), tags: noTags };
}

export function size(thick: Length, wide: Length): Size {
  return { nominal: undefined, thick: known(thick), wide: known(wide), long: undefined };
}
/** A full-size old 2x6. */
export const oldSill: Size = size(inches(1.625), inches(5.625));
export const oldStud: Size = size(inches(1.625), inches(3.625));

export function piece(from: Length, to: Length, say: Partial<SillPiece> = {}): SillPiece {
  const name = say.name ?? 'F1';
  return {
    ...thing('F', 'sill', name),
    name,
    wall: 'F',
    from,
    to,
    size: oldSill,
    setBack: level(inches(0.75)),
    headroom: level(inches(25)),
    joint: 'butt',
    jointLength: undefined,
    gap: undefined,
    treated: undefined,
    double: false,
    species: undefined,
    conditions: [],
    layer: 'survey',
    ...say,
  };
}

export function foundation(from: Length, to: Length, say: Partial<FoundationStretch> = {}): FoundationStretch {
  return {
    ...thing('F', 'foundation', undefined),
    from,
    to,
    material: 'concrete',
    materialSource: undefined,
    thick: level(inches(8)),
    showing: level(inches(18)),
    top: level(zero),
    grade: undefined,
    footing: undefined,
    strength: undefined,
    steel: undefined,
    conditions: [],
    ...say,
  };
}

export function cripple(from: Length, to: Length, say: Partial<CrippleStretch> = {}): CrippleStretch {
  return {
    ...thing('F', 'cripple', undefined),
    from,
    to,
    height: level(inches(30)),
    studHeight: level(inches(25.125)),
    ledge: undefined,
    studSize: oldStud,
    spaced: known(inches(16)),
    first: known(zero),
    plates: 'double',
    sheathing: undefined,
    trimmers: 'every-opening',
    conditions: [],
    ...say,
  };
}

export function obstruction(
  kind: Obstruction['kind'],
  from: Length,
  to: Length,
  say: Partial<Obstruction> = {},
): Obstruction {
  return {
    ...thing('F', kind, say.name),
    kind,
    label: undefined,
    stretch: { from, to },
    placeSource: somewhere(),
    zone: undefined,
    off: undefined,
    deep: undefined,
    diameter: undefined,
    hub: undefined,
    netArea: undefined,
    words: new Set(),
    ...say,
  };
}

export function zone(near: Length, far: Length | undefined, side: Zone['side'], datum: Zone['datum']): Zone {
  return { near: known(near), far: far === undefined ? undefined : known(far), side, datum };
}

export function defect(kind: Defect['kind'], from: Length, to: Length): Defect {
  return {
    ...thing('F', kind, undefined),
    kind,
    stretch: { from, to },
    width: undefined,
    depth: undefined,
    remedied: false,
  };
}

export function foundAnchor(station: Length, say: Partial<FoundAnchor> = {}): FoundAnchor {
  return {
    ...thing('F', 'found-anchor', say.name),
    station,
    stationSource: somewhere(),
    size: known(inches(0.5)),
    kind: undefined,
    states: [],
    loss: undefined,
    washer: undefined,
    nut: undefined,
    embed: undefined,
    offset: undefined,
    projects: undefined,
    credit: 'full',
    ...say,
  };
}

export function newAnchor(
  name: string,
  station: Length,
  connector: Connector,
  say: Partial<NewAnchor> = {},
): NewAnchor {
  return {
    ...thing('F', 'anchor', name),
    name,
    nameSource: somewhere(),
    connectorName: connector.name,
    connectorSource: somewhere(),
    connector,
    station,
    stationSource: somewhere(),
    embed: undefined,
    offset: undefined,
    shim: undefined,
    proposed: false,
    rightAngleDrill: false,
    state: 'planned',
    ...say,
  };
}

const plain: Omit<Connector, 'name' | 'kind' | 'source'> = {
  demo: true,
  report: 'none: invented values',
  fits: [],
  body: undefined,
  drop: undefined,
  fasteners: [],
  holes: [],
  capacities: [],
  metal: undefined,
  tools: [],
  notes: [],
};

export const fits = (subject: Fits['subject'], least: Length | undefined, most?: Length): Fits => ({
  subject,
  least,
  most,
  source: somewhere(),
});

/** A bolt down through the sill with a 3 in washer. Invented values. */
export function bolt(name = 'bolt-half', diameter = inches(0.5), say: Partial<Connector> = {}): Connector {
  return {
    ...plain,
    name,
    kind: 'through-bolt',
    source: somewhere(),
    fits: [fits('headroom', inches(24))],
    body: { wide: inches(3), tall: inches(3), thick: undefined },
    fasteners: [intoConcrete(1, diameter, { holeDepth: inches(4), edge: inches(1.75) })],
    ...say,
  };
}

/** A side plate 8 in wide with two holes 4 in apart. Invented values. */
export function plate(name = 'plate', say: Partial<Connector> = {}): Connector {
  return {
    ...plain,
    name,
    kind: 'stepped-side-plate',
    source: somewhere(),
    fits: [fits('set-back', inches(0.5), inches(1.5)), fits('showing', inches(9))],
    body: { wide: inches(8), tall: inches(9), thick: inches(0.3125) },
    fasteners: [intoConcrete(2, inches(0.5), { holeDepth: inches(4.75), edge: inches(3), apart: inches(4) })],
    ...say,
  };
}

export function intoConcrete(
  count: number,
  diameter: Length,
  say: { readonly holeDepth?: Length; readonly edge?: Length; readonly apart?: Length },
): Connector['fasteners'][number] {
  return {
    member: 'concrete',
    count,
    kind: 'adhesive-rod',
    diameter,
    penny: undefined,
    long: undefined,
    hole: undefined,
    holeDepth: say.holeDepth,
    embed: undefined,
    apart: say.apart,
    edge: say.edge,
    metal: undefined,
  };
}

export function wall(
  say: Partial<Omit<Wall, 'length' | 'pieces'>> & { readonly length: Length; readonly pieces: readonly SillPiece[] },
): Wall {
  const name = say.name ?? 'F';
  return {
    id: `wall:${name}`,
    name,
    label: undefined,
    role: 'perimeter',
    source: somewhere(),
    nameSource: somewhere(),
    tags: noTags,
    taped: known(say.length),
    adjusted: undefined,
    face: 'outside',
    turn: degrees(90),
    plan: undefined,
    storeys: [],
    foundation: [foundation(zero, say.length)],
    unplaced: [],
    cripples: [],
    joists: [],
    irregularJoists: [],
    studs: [],
    rims: [],
    blocking: [],
    sideRoom: undefined,
    obstructions: [],
    defects: [],
    foundAnchors: [],
    anchors: [],
    angles: [],
    panels: [],
    ties: [],
    remedies: [],
    absent: new Set(),
    noWork: undefined,
    accepted: [],
    workBlocks: [],
    ...say,
  };
}

export function house(say: {
  readonly walls: readonly Wall[];
  readonly connectors?: readonly Connector[];
  readonly ruleSets?: readonly RuleSet[];
  readonly storeys?: number | 'unknown' | undefined;
  readonly units?: LengthUnits;
  readonly more?: Partial<Layout>;
}): Layout {
  const ruleSets = say.ruleSets ?? [existingBuilding];
  const storeys: Reading<number> | undefined =
    say.storeys === 'unknown'
      ? unknown()
      : 'storeys' in say && say.storeys === undefined
        ? undefined
        : known(say.storeys ?? 2);
  return {
    title: {
      name: 'Built',
      units: say.units ?? 'feet-inches',
      face: 'outside',
      ruleSets: ruleSets.map((each) => ({ name: each.name, source: somewhere() })),
      facts: new Map(),
      surveyed: undefined,
      prepared: undefined,
      engineered: false,
      accepted: [],
      source: somewhere(),
    },
    house: {
      storeys,
      year: undefined,
      dwellings: undefined,
      area: undefined,
      slope: undefined,
      floorUnderside: undefined,
      words: new Map(),
      seismic: new Map(),
      seismicWords: new Map(),
      weights: new Map(),
      diagonals: [],
      source: somewhere(),
    },
    walls: say.walls,
    lines: [],
    girders: [],
    spaces: [],
    connectors: new Map((say.connectors ?? [bolt(), plate()]).map((each) => [each.name.toLowerCase(), each])),
    prices: [],
    record: [],
    issues: [],
    rules: { chosen: ruleSets, limits: ruleSets.flatMap((each) => each.limits) },
    questions: [],
    assumptions: [],
    unknowns: [],
    sourceMap: { locate: () => undefined },
    ...say.more,
  };
}

/** `limit('anchor-spacing', "at-most 4'-0\"", ['storeys is 2', 'bolt is 1/2"'])`. */
export function limit(
  subject: string,
  bounds: string,
  conditions: readonly string[] = [],
  say: Partial<Limit> = {},
): Limit {
  const verdict = ['required', 'not-required', 'allowed', 'not-allowed'].includes(bounds)
    ? (bounds as Limit['verdict'])
    : undefined;
  return {
    subject,
    bounds: verdict ? [] : readBounds(bounds),
    verdict,
    conditions: conditions.map((text) => {
      const [key = '', ...rest] = text.split(' ');
      const words = rest.join(' ');
      if (words === '') return { key, word: undefined, bounds: [] };
      if (!/^(at-least|at-most|over|under|is) /.test(words)) return { key, word: words, bounds: [] };
      return { key, word: undefined, bounds: readBounds(words) };
    }),
    otherwise: undefined,
    citation: { text: 'Table', trust: 'published' },
    notes: [],
    ruleSet: 'test',
    source: somewhere(),
    ...say,
  };
}

function readBounds(text: string): readonly Bound[] {
  return [...text.matchAll(/(at-least|at-most|over|under|is) (\S+)/g)].map(([, comparison, value]) => ({
    comparison: comparison as Comparison,
    value: readValue(value ?? ''),
  }));
}

function readValue(typed: string): LimitValue {
  if (/^\d+(\.\d+)?$/.test(typed)) return { kind: 'number', number: Number(typed), typed };
  return { kind: 'length', length: length(typed), typed };
}

export function ruleSet(name: string, limits: readonly Limit[]): RuleSet {
  return {
    name,
    title: name,
    notes: [],
    limits: limits.map((each) => ({ ...each, ruleSet: name })),
    source: somewhere(),
  };
}

/**
 * Anchorage tables for existing houses as they stand in the International Existing Building Code, appendix chapter A3 (2018,
 * 2021 numbering): Table A304.3.1 spacing and A304.3.2 end distances from memory, sure; Table A304.3.2 short boards from memory,
 * less sure.
 */
export const existingBuilding: RuleSet = ruleSet('test', [
  limit('anchor-spacing', `at-most 6'-0"`, ['storeys is 1', 'bolt is 1/2"', `piece at-least 12'-0"`]),
  limit('anchor-spacing', `at-most 4'-0"`, ['storeys is 2', 'bolt is 1/2"', `piece at-least 12'-0"`]),
  limit('anchor-spacing', `at-most 6'-0"`, ['storeys is 2', 'bolt is 5/8"', `piece at-least 12'-0"`]),
  limit('anchor-spacing', `at-most 4'-0"`, ['storeys is 3', 'bolt is 5/8"', `piece at-least 12'-0"`]),
  limit('end-distance', 'at-least 9" at-most 12"'),
  limit('anchor-apart', 'at-least 12"'),
  limit('end-window-past-obstruction', 'allowed', [], { citation: { text: 'A304.3.2, exception', trust: 'recalled' } }),
  ...[
    limit('piece-count', 'at-least 3', ['storeys is 1', `piece at-least 6'-0" under 12'-0"`]),
    limit('piece-count', 'at-least 4', ['storeys is 2', 'bolt is 1/2"', `piece at-least 6'-0" under 12'-0"`]),
    limit('piece-count', 'at-least 3', ['storeys is 2', 'bolt is 5/8"', `piece at-least 6'-0" under 12'-0"`]),
    limit('piece-count', 'at-least 4', ['storeys is 3', `piece at-least 6'-0" under 12'-0"`]),
    limit('piece-count', 'at-least 2', ['piece at-least 30" under 6\'-0"']),
    limit('piece-count', 'at-least 1', ['piece under 30"']),
  ].map((each): Limit => ({ ...each, citation: { text: 'Table A304.3.2', trust: 'recalled' } })),
]);

/** One wall with one board and anchors of one kind, two storeys above. */
export function boardWith(
  boardLength: Length,
  stations: readonly Length[],
  connector: Connector = plate(),
  say: Partial<Omit<Wall, 'length' | 'pieces'>> = {},
): Wall {
  return wall({
    length: boardLength,
    pieces: [piece(zero, boardLength)],
    anchors: stations.map((station, index) => newAnchor(`F-${index + 1}`, station, connector)),
    ...say,
  });
}

export const at = (footCount: number, inchCount = 0): Length => nanometres(feet(footCount) + inches(inchCount));
export const lessThan = (value: Length, by: Length): Length => minus(value, by);
