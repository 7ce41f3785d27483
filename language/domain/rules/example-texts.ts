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

/** A house of which only the head matters: its one wall has no sill, and so wants no anchors. */
export function shell(say: {
  readonly rules?: string;
  /** Lines of the house block. */
  readonly house?: readonly string[];
  readonly foundation?: string;
  /** More lines of the wall. */
  readonly wall?: readonly string[];
  /** Blocks after it. */
  readonly after?: readonly string[];
}): string {
  return [
    'layout "Example"',
    `  rules ${say.rules ?? 'existing-building'}`,
    '',
    'house',
    ...(say.house ?? ['storeys 2']).map((line) => `  ${line}`),
    '',
    `wall F length 14'-0"`,
    `  foundation ${say.foundation ?? `thick 8" showing 18" top 0" sound`}`,
    '  no sill',
    ...(say.wall ?? []).map((line) => `  ${line}`),
    ...(say.after ?? []),
    '',
  ].join('\n');
}

/** Anchors that keep every limit on the board of `demo`. */
export const sound: readonly string[] = [`0'-10"`, `4'-8"`, `8'-8"`, `11'-2"`, `13'-2"`];

/** Two walls that meet at a corner, bolts or plates all along both; only the two at the corner differ. */
export function cornerDemo(say: {
  /** Of the last anchor of the first wall. */
  readonly left: string;
  /** Of the first anchor of the second wall. */
  readonly right: string;
  readonly connector: string;
  readonly setBack: string;
  /** Boards without limits on their ends: a rule set of its own. */
  readonly free?: boolean;
}): string {
  const sill = `size 2x6 set-back ${say.setBack} headroom 25-1/8"`;
  const between = [`4'-6"`, `8'-3"`, `12'-0"`, `15'-9"`];
  const anchors = (wall: string, stations: readonly string[]): readonly string[] =>
    stations.map((station, index) => `  anchor ${wall}-${index + 1} ${say.connector} at ${station}`);
  return [
    'layout "Example"',
    `  rules ${say.free ? 'corner-example' : 'existing-building'}`,
    '',
    ...(say.free
      ? [
          'ruleset corner-example',
          '  source "example" common-practice',
          `    limit anchor-spacing at-most 6'-0"`,
          `    limit end-distance at-least 3" at-most 12"`,
          '',
        ]
      : []),
    'house',
    '  storeys 2',
    '',
    `wall A length 20'-0"`,
    '  foundation thick 8" showing 18" top 0"',
    `  sill A1 ${sill}`,
    '',
    `wall B length 20'-0"`,
    '  foundation thick 8" showing 18" top 0"',
    `  sill B1 ${sill}`,
    '',
    'work on A',
    ...anchors('A', [`1'-0"`, ...between, say.left]),
    '',
    'work on B',
    ...anchors('B', [say.right, ...between, `19'-0"`]),
    '',
  ].join('\n');
}

/** Four bare walls; on purpose nothing is said of what stands on them. */
export function houseDemo(lengths: readonly string[], turn?: 'left'): string {
  return [
    'layout "Example"',
    '  rules existing-building',
    '',
    'house',
    '  storeys 1',
    '',
    ...lengths.flatMap((length, index) => [
      `wall ${'ABCD'[index] ?? 'E'}${turn ? ` turn ${turn}` : ''} length ${length}`,
      '  no sill',
      '',
    ]),
  ].join('\n');
}

/** A cripple wall with a panel at either end, and bolts that keep clear of its studs and of its panels. */
export function panelDemo(say: {
  /** Name, place and more words; the panel at the right end is added. */
  readonly panels: readonly string[];
  /** More lines of the wall. */
  readonly found?: readonly string[];
  /** Of the bolts, from the inner edge of the sill; the rest stand clear of the panels. */
  readonly offsets?: readonly string[];
  /** The way into the crawl space. */
  readonly access?: string;
}): string {
  const board = 'plywood 15/32" nails 8d edge 4" field 12" nailers 2x4 nails 4 16d vent-holes 2-1/2" top-and-bottom';
  const stations = [`0'-10"`, `4'-8"`, `7'-4"`, `10'-0"`, `13'-0 1/2"`];
  const panels = [...say.panels, `F-P9 9'-4" to 14'-0" flat-block 2x4`];
  return [
    'layout "Example"',
    '  rules existing-building',
    '',
    'house',
    '  storeys 2',
    ...(say.access === undefined
      ? []
      : ['', `space crawl-north crawl from (0", 0") to (14'-0", -20'-0") clear-height 30" access ${say.access}`]),
    '',
    `wall F faces north from (0", 0") length 14'-0"`,
    '  foundation thick 8" showing 18" top 0"',
    '  sill F1 size 1-5/8" x 5-5/8" set-back 3/4" headroom 25-1/8"',
    '  cripple height 30" stud-height 25-1/8" studs size 1-5/8" x 3-5/8" spaced 16" first 0" ledge 2" double plate',
    ...(say.found ?? []).map((line) => `  ${line}`),
    '',
    'work on F',
    ...stations.map(
      (at, index) => `  anchor F-${index + 1} bolt-half at ${at} offset ${say.offsets?.[index] ?? '3-1/2"'}`,
    ),
    ...panels.map((each) => `  panel ${each} ${board}`),
    '',
  ].join('\n');
}

/** Bolts of one kind on a board; `connector` says what they are. */
export function boltDemo(connector: string): string {
  return [
    demo({ anchors: sound, sill: 'size 2x6 set-back 3/4" headroom 25-1/8"', connectors: ['own-bolt'] }).trimEnd(),
    '',
    'connector own-bolt through-bolt',
    '  demo',
    `  ${connector}`,
    '  into concrete 1 adhesive-rod size 1/2" x 8-1/2" hole 5/8" hole-depth 4" edge 1-3/4"',
    '',
  ].join('\n');
}

/** The house of `demo` with a girder on one post, and work on it. */
export function girderDemo(found: string, work: string, size = '6x6'): string {
  return [
    demo({ anchors: sound }),
    `girder G size 6x8 from (0", 0") to (12'-0", 0")`,
    `  post P1 ${size} at 6'-0" ${found}`,
    '',
    ...(work === '' ? [] : [`work on G\n${work}`]),
  ].join('\n');
}
