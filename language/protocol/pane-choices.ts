/** What a person chose in the pane of one file: kept with that file, read back from where others may have written. */
export interface PaneChoices {
  readonly units: PaneUnits;
  readonly hidden: readonly Layer[];
}

export type PaneUnits = 'as-written' | 'feet-inches' | 'metric';
export const paneUnits: readonly PaneUnits[] = ['as-written', 'feet-inches', 'metric'];

export type Layer =
  | 'found'
  | 'in-the-way'
  | 'zones'
  | 'framing'
  | 'new'
  | 'panels'
  | 'dimensions'
  | 'findings'
  | 'texture';
export const layers: readonly Layer[] = [
  'found',
  'in-the-way',
  'zones',
  'framing',
  'new',
  'panels',
  'dimensions',
  'findings',
  'texture',
];

/** Without them a drawing shows less danger than there is: the pane says in words that they are hidden. */
export const layersOfSafety: readonly Layer[] = ['in-the-way', 'zones', 'findings'];

export const everythingAsWritten: PaneChoices = { units: 'as-written', hidden: [] };

export function readChoices(value: unknown): PaneChoices {
  const { units, hidden } = (typeof value === 'object' && value !== null ? value : {}) as Partial<
    Record<keyof PaneChoices, unknown>
  >;
  return {
    units: paneUnits.find((each) => each === units) ?? 'as-written',
    hidden: Array.isArray(hidden) ? layers.filter((layer) => hidden.includes(layer)) : [],
  };
}
