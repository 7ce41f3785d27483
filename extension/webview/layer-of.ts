import type { Layer } from '../../language/protocol/pane-choices.ts';

/** What a group of a drawing says of itself. */
export interface DrawnGroup {
  /** `anchor` of `F/anchor:F-8`; empty where the group shows no thing. */
  readonly kind: string;
  readonly role: string;
  readonly symbol: string;
}

/** The layer that a group is switched with; `undefined` for what is always shown: concrete, boards, tape, zero flag, watermark. */
export function layerOf({ kind, role, symbol }: DrawnGroup): Layer | undefined {
  return bySymbol[symbol] ?? byRole[role] ?? byKind[kind];
}

const bySymbol: Readonly<Partial<Record<string, Layer>>> = {
  'warning-zone': 'zones',
  'unknown-service': 'zones',
};

const byRole: Readonly<Partial<Record<string, Layer>>> = {
  finding: 'findings',
  texture: 'texture',
  dimension: 'dimensions',
  row: 'dimensions',
  level: 'dimensions',
};

const named = (layer: Layer, kinds: readonly string[]): readonly (readonly [string, Layer])[] =>
  kinds.map((kind) => [kind, layer] as const);
const byKind: Readonly<Partial<Record<string, Layer>>> = Object.fromEntries([
  ...named('new', ['anchor', 'hold-down', 'strap', 'tie', 'angles', 'cap', 'base']),
  ...named('panels', ['panel']),
  ...named('found', [...['found-anchor', 'rot', 'split', 'crack', 'cold-joint', 'notch', 'insects', 'spall']]),
  ...named('in-the-way', [
    ...['vent', 'window', 'door', 'hatch', 'chimney', 'pipe', 'gas-pipe', 'stack', 'conduit', 'duct', 'flue'],
    ...['electrical-panel', 'meter', 'water-heater', 'furnace', 'stair', 'obstruction'],
  ]),
  ...named('framing', ['cripple', 'joists', 'joist', 'blocking', 'rim', 'stud', 'studs']),
]);
