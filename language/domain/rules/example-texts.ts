/** A small house in which one thing can go wrong: one wall with one sill board, two storeys above, side plates on it. */
export function demo(say: {
  readonly anchors: readonly string[];
  /** One for each anchor; the rest take the first. */
  readonly connectors?: readonly string[];
  readonly length?: string;
  readonly foundation?: string;
  readonly sill?: string;
  /** More lines of the wall. */
  readonly found?: readonly string[];
  readonly rules?: string | undefined;
}): string {
  const [usual = 'stepped-plate-s'] = say.connectors ?? [];
  const rules = 'rules' in say ? say.rules : 'existing-building';
  const anchors = say.anchors.map(
    (station, index) => `  anchor F-${index + 1} ${say.connectors?.[index] ?? usual} at ${station}`,
  );
  return [
    'layout "Example"',
    ...(rules === undefined ? [] : [`  rules ${rules}`]),
    '',
    'house',
    '  storeys 2',
    '',
    `wall F length ${say.length ?? `14'-0"`}`,
    `  foundation ${say.foundation ?? `thick 8" showing 18" top 0"`}`,
    `  sill F1 ${say.sill ?? `size 2x6 set-back 3/4" headroom 11-1/8"`}`,
    ...(say.found ?? []).map((line) => `  ${line}`),
    ...(anchors.length === 0 ? [] : ['', 'work on F', ...anchors]),
    '',
  ].join('\n');
}

/** Anchors that keep every limit on the board of `demo`. */
export const sound: readonly string[] = [`0'-10"`, `4'-8"`, `8'-8"`, `11'-2"`, `13'-2"`];
