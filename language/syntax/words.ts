/**
 * The words that start a block, each with the grammar rules that read its heading and its lines.
 * The one list of block words: the cutter, the parser and a test against the grammar use it.
 */
export const blocks = {
  use: { rule: 'Use', lineRule: undefined },
  layout: { rule: 'TitleBlock', lineRule: 'TitleItem' },
  house: { rule: 'House', lineRule: 'HouseItem' },
  line: { rule: 'ResistanceLine', lineRule: 'ResistanceLineItem' },
  typical: { rule: 'Typical', lineRule: 'TypicalItem' },
  seismic: { rule: 'Seismic', lineRule: 'SeismicItem' },
  weights: { rule: 'Weights', lineRule: 'WeightItem' },
  space: { rule: 'Space', lineRule: 'SpaceItem' },
  wall: { rule: 'Wall', lineRule: 'WallItem' },
  girder: { rule: 'Girder', lineRule: 'GirderItem' },
  work: { rule: 'Work', lineRule: 'WorkItem' },
  record: { rule: 'DayRecord', lineRule: 'DayRecordItem' },
  issue: { rule: 'Issue', lineRule: 'IssueItem' },
  connector: { rule: 'Connector', lineRule: 'ConnectorItem' },
  ruleset: { rule: 'RuleSet', lineRule: 'RuleSetItem' },
  prices: { rule: 'Prices', lineRule: 'PriceItem' },
} as const;

export type BlockWord = keyof typeof blocks;
export const blockWords: readonly BlockWord[] = Object.keys(blocks) as BlockWord[];

export function isBlockWord(word: string): word is BlockWord {
  return Object.hasOwn(blocks, word);
}

/**
 * The words that start a line under a heading. A word at the left edge that is neither of these nor a block word is
 * a misspelt heading. The one list of line words: a test compares it with the grammar.
 */
export const lineWords: ReadonlySet<string> = new Set([
  // under any heading
  ...['accept', 'ask', 'by', 'dated', 'no', 'note', 'photo'],
  // layout
  ...['address', 'code', 'face', 'jurisdiction', 'licence', 'owner', 'permit-number', 'prepared', 'rules', 'scale'],
  ...['sheets', 'special-inspection', 'surveyed', 'units'],
  // house, seismic, weights, space, line
  ...['area', 'diagonal', 'dwellings', 'floor-underside', 'floors', 'inside-finish', 'roof', 'siding', 'slope', 'soil'],
  ...['storeys', 'veneer', 'year', 'coefficient', 'design-category', 'importance', 'r', 'sd1', 'sds', 'site-class'],
  ...['ceiling', 'exterior-walls', 'floor', 'partitions', 'upper-floor', 'whole-house'],
  ...['access', 'basement', 'clear-height', 'crawl', 'from', 'garage', 'porch', 'slab', 'exempt', 'walls'],
  // typical, wall
  ...[
    'faces',
    'interior',
    'length',
    'turn',
    'blocking',
    'break',
    'cripple',
    'foundation',
    'grade',
    'headroom',
    'joist',
  ],
  ...['joists', 'rim', 'set-back', 'side-room', 'sill', 'stud', 'chimney', 'door', 'hatch', 'vent', 'window'],
  ...['conduit', 'duct', 'electrical-panel', 'flue', 'furnace', 'gas-pipe', 'meter', 'obstruction', 'pipe', 'stack'],
  ...['stair', 'water-heater', 'cold-joint', 'crack', 'insects', 'notch', 'rot', 'spall', 'split', 'anchor'],
  // girder
  ...['post', 'rests', 'size', 'spans', 'splice', 'underside'],
  // work on
  ...[
    'angles',
    'base',
    'cap',
    'grout',
    'hold-down',
    'pad',
    'panel',
    'relocate',
    'remove',
    'repair',
    'replace',
    'shore',
  ],
  ...['sister', 'strap', 'washer'],
  // record, issue
  ...['dead-hole', 'discovered', 'inspected', 'installed', 'omitted', 'tested', 'changed', 'fingerprint'],
  // connector, prices, ruleset
  ...['body', 'capacity', 'demo', 'drop', 'fits', 'holes', 'into', 'metal', 'report', 'tool'],
  ...['allowance', 'factor', 'labour', 'price', 'rate', 'limit', 'source'],
]);
