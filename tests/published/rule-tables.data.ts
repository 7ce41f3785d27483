/**
 * What published rule sets for old and new wood houses say of scope, anchors, washers and floor framing, side by side,
 * in our own words: numbers, not wording. Entered a second time, apart from the shipped rule sets, to check those.
 */
export interface RuleTableCell {
  readonly ruleSet: PublishedRuleSet;
  /** As the shipped rule sets call it, where they have it. */
  readonly subject: string;
  /** Storeys above; absent: any. */
  readonly storeys?: number;
  /** Diameter of the anchor; absent: any. */
  readonly bolt?: string;
  /** Length of the board; absent: any. */
  readonly piece?: Piece;
  /** Other conditions, each with the value to ask for: `nail 8d`, `heavy`; what is no condition of a shipped limit is a remark. */
  readonly where?: string;
  /** As a limit would say it, `at-most 6'-0"`; or in words, where it is no number. */
  readonly value: string;
  readonly mark: Mark;
  readonly source: string;
}

export type PublishedRuleSet =
  /** Existing-building code, appendix chapter A3, 2018 and 2021 numbering. */
  | 'existing-building'
  /** International Residential Code: new houses. */
  | 'new-house'
  /** International Building Code, section 2308, with the wood design standard that it names. */
  | 'new-building'
  /** Los Angeles municipal code, division 92, and its standard plan. */
  | 'los-angeles'
  /** Bay Area standard plan set A, 2008. */
  | 'bay-area'
  /** Portland, Oregon, residential seismic strengthening. */
  | 'portland';

/** `secondary-text`: found in a study text about the rule set, not in the rule set. */
export type Mark = 'published' | 'from-memory' | 'recalled' | 'secondary-text';

export type Piece = 'twelve-feet-and-more' | 'six-to-twelve-feet' | 'thirty-inches-to-six-feet' | 'under-thirty-inches';

const scope: readonly RuleTableCell[] = [
  { ruleSet: 'existing-building', subject: 'storeys', value: 'at-most 3', mark: 'from-memory', source: 'A301.2' },
  {
    ruleSet: 'los-angeles',
    subject: 'storeys',
    value: 'at-most 3',
    mark: 'published',
    source: 'standard plan, general notes',
  },
  {
    ruleSet: 'bay-area',
    subject: 'storeys',
    value: 'at-most 2',
    mark: 'published',
    source: 'plan set A, who can use it',
  },
  { ruleSet: 'portland', subject: 'storeys', value: 'at-most 3', mark: 'published', source: 'criteria' },

  { ruleSet: 'existing-building', subject: 'dwellings', value: 'at-most 4', mark: 'from-memory', source: 'A301.2' },
  {
    ruleSet: 'los-angeles',
    subject: 'dwellings',
    value: 'at-most 4',
    mark: 'published',
    source: 'standard plan, general notes',
  },
  {
    ruleSet: 'bay-area',
    subject: 'dwellings',
    value: 'at-most 2',
    mark: 'published',
    source: 'plan set A, who can use it',
  },
  { ruleSet: 'portland', subject: 'dwellings', value: 'at-most 2', mark: 'published', source: 'criteria' },

  {
    ruleSet: 'existing-building',
    subject: 'cripple-overall',
    storeys: 1,
    value: `at-most 4'-0"`,
    mark: 'from-memory',
    source: 'A301.2, A304.4.1',
  },
  {
    ruleSet: 'existing-building',
    subject: 'cripple-overall',
    storeys: 2,
    value: `at-most 4'-0"`,
    mark: 'from-memory',
    source: 'A301.2, A304.4.1',
  },
  {
    ruleSet: 'los-angeles',
    subject: 'cripple-overall',
    storeys: 1,
    value: `at-most 48"`,
    mark: 'published',
    source: 'standard plan, general notes',
  },
  {
    ruleSet: 'los-angeles',
    subject: 'cripple-overall',
    storeys: 2,
    value: `at-most 48"`,
    mark: 'published',
    source: 'standard plan, general notes',
  },
  {
    ruleSet: 'bay-area',
    subject: 'cripple-overall',
    value: `under 4'-0"`,
    mark: 'published',
    source: 'plan set A, who can use it',
  },
  {
    ruleSet: 'portland',
    subject: 'cripple-overall',
    storeys: 1,
    value: `at-most 4'-0"`,
    mark: 'published',
    source: 'criteria',
  },
  {
    ruleSet: 'portland',
    subject: 'cripple-overall',
    storeys: 2,
    value: `at-most 4'-0"`,
    mark: 'published',
    source: 'criteria',
  },

  {
    ruleSet: 'existing-building',
    subject: 'cripple-overall',
    storeys: 3,
    value: `at-most 14"`,
    mark: 'from-memory',
    source: 'A301.2',
  },
  // The Los Angeles plan measures the stud, not the whole height.
  {
    ruleSet: 'los-angeles',
    subject: 'cripple-stud',
    storeys: 3,
    value: `at-most 14"`,
    mark: 'published',
    source: 'standard plan, general notes',
  },
  {
    ruleSet: 'portland',
    subject: 'cripple-overall',
    storeys: 3,
    value: `at-most 14"`,
    mark: 'published',
    source: 'criteria',
  },

  {
    ruleSet: 'los-angeles',
    subject: 'slope',
    value: 'at-most 33.3333 %',
    mark: 'published',
    source: 'standard plan, general notes',
  },
  {
    ruleSet: 'portland',
    subject: 'slope',
    value: 'at-most 33.3333 %',
    mark: 'published',
    source: 'criteria',
  },

  {
    ruleSet: 'existing-building',
    subject: 'perimeter-concrete',
    value: 'required',
    mark: 'published',
    source: 'A303.1',
  },
  {
    ruleSet: 'los-angeles',
    subject: 'perimeter-concrete',
    value: 'required',
    mark: 'published',
    source: 'standard plan, general notes',
  },
  {
    ruleSet: 'bay-area',
    subject: 'perimeter-concrete',
    where: 'chimney and porch aside',
    value: 'required',
    mark: 'published',
    source: 'plan set A, who can use it',
  },
  { ruleSet: 'portland', subject: 'perimeter-concrete', value: 'required', mark: 'published', source: 'criteria' },

  {
    ruleSet: 'existing-building',
    subject: 'foundation-gap',
    storeys: 1,
    value: `at-most 10'-0"`,
    mark: 'published',
    source: 'A303.1',
  },
  {
    ruleSet: 'los-angeles',
    subject: 'foundation-gap',
    storeys: 1,
    value: `at-most 10'-0"`,
    mark: 'published',
    source: '91.9203.1',
  },

  {
    ruleSet: 'los-angeles',
    subject: 'one-level-floors',
    value: 'required',
    mark: 'published',
    source: 'standard plan, general notes',
  },
  {
    ruleSet: 'bay-area',
    subject: 'veneer-height',
    value: `under 4'-0"`,
    mark: 'published',
    source: 'plan set A, who can use it',
  },
  {
    ruleSet: 'existing-building',
    subject: 'heavy',
    value: 'cement plaster walls together with a clay or concrete tile roof over 6 psf',
    mark: 'from-memory',
    source: 'Table A304.3.1',
  },

  {
    ruleSet: 'existing-building',
    subject: 'outside the scope',
    value: 'an engineer, for 75 % of the base shear of a new building',
    mark: 'from-memory',
    source: 'A301.3',
  },
  {
    ruleSet: 'los-angeles',
    subject: 'outside the scope',
    value: 'an engineer or architect, approved',
    mark: 'published',
    source: 'standard plan, general notes',
  },
  {
    ruleSet: 'bay-area',
    subject: 'outside the scope',
    value: 'an engineer',
    mark: 'published',
    source: 'plan set A, who can use it',
  },
  { ruleSet: 'portland', subject: 'outside the scope', value: 'an engineer', mark: 'recalled', source: 'criteria' },
  {
    ruleSet: 'existing-building',
    subject: 'excluded',
    value: 'pole buildings, slab on grade, group R-1, group R with more than 4 dwellings',
    mark: 'from-memory',
    source: 'A301.2',
  },
];

const spacing: readonly RuleTableCell[] = [
  ...anchorTable('existing-building', 'from-memory', 'Table A304.3.1'),
  ...anchorTable('los-angeles', 'recalled', 'Table 92-A'),
  // Found without naming storeys in a study text; two and three storeys as in the appendix, recalled.
  { ...spaced('portland', 1, '1/2"', `6'-0"`, 'secondary-text', 'study text on codes of the Pacific Northwest') },
  ...anchorTable('portland', 'recalled', 'prescriptive method').filter((cell) => cell.storeys !== 1),
  { ...spaced('new-house', 1, '1/2"', `6'-0"`, 'published', 'R403.1.6') },
  { ...spaced('new-house', 2, '1/2"', `6'-0"`, 'published', 'R403.1.6') },
  {
    ...spaced('new-house', 3, '1/2"', `4'-0"`, 'from-memory', 'R403.1.6.1'),
    where: 'seismic design category D0 to D2',
  },
  { ...spaced('new-building', 1, '1/2"', `6'-0"`, 'from-memory', '2308.3') },
  { ...spaced('new-building', 2, '1/2"', `6'-0"`, 'from-memory', '2308.3') },
  { ...spaced('new-building', 3, '1/2"', `4'-0"`, 'from-memory', '2308.3') },
  {
    ruleSet: 'new-building',
    subject: 'anchor-diameter',
    where: 'design-category E',
    value: 'at-least 5/8"',
    mark: 'from-memory',
    source: '2308.3',
  },
];

const ends: readonly RuleTableCell[] = [
  {
    ruleSet: 'existing-building',
    subject: 'embedment',
    where: 'set after the concrete',
    value: `by the anchor's approval`,
    mark: 'published',
    source: 'A304.3.1',
  },
  {
    ruleSet: 'new-house',
    subject: 'embedment',
    where: 'cast-in',
    value: 'at-least 7"',
    mark: 'published',
    source: 'R403.1.6',
  },
  {
    ruleSet: 'new-building',
    subject: 'embedment',
    where: 'cast-in',
    value: 'at-least 7"',
    mark: 'from-memory',
    source: '2308.3',
  },

  {
    ruleSet: 'existing-building',
    subject: 'end-distance',
    value: 'at-least 9" at-most 12"',
    mark: 'from-memory',
    source: 'A304.3.2',
  },
  {
    ruleSet: 'new-house',
    subject: 'end-distance',
    bolt: '1/2"',
    value: 'at-least 3-1/2" at-most 12"',
    mark: 'published',
    source: 'R403.1.6 (seven diameters)',
  },
  {
    ruleSet: 'new-house',
    subject: 'end-distance',
    bolt: '5/8"',
    value: 'at-least 4-3/8" at-most 12"',
    mark: 'published',
    source: 'R403.1.6 (seven diameters)',
  },
  {
    ruleSet: 'new-building',
    subject: 'end-distance',
    value: 'at-least 4" at-most 12"',
    mark: 'from-memory',
    source: '2308.3',
  },

  { ruleSet: 'new-house', subject: 'piece-count', value: 'at-least 2', mark: 'published', source: 'R403.1.6' },
  { ruleSet: 'new-building', subject: 'piece-count', value: 'at-least 2', mark: 'from-memory', source: '2308.3' },
  {
    ruleSet: 'existing-building',
    subject: 'anchor-apart',
    value: 'at-least 12"',
    mark: 'recalled',
    source: 'A304.3.2, exception',
  },
  { ruleSet: 'existing-building', subject: 'bay-centre', value: 'required', mark: 'from-memory', source: 'A304.3.2' },
  {
    ruleSet: 'new-house',
    subject: 'middle-third',
    value: 'required',
    mark: 'from-memory',
    source: 'R403.1.6, 2015 and later',
  },
  {
    ruleSet: 'existing-building',
    subject: 'end-window-past-obstruction',
    value: 'allowed',
    mark: 'from-memory',
    source: 'A304.3.2',
  },

  short(1, undefined, 'six-to-twelve-feet', 3),
  short(1, undefined, 'thirty-inches-to-six-feet', 2),
  short(1, undefined, 'under-thirty-inches', 1),
  short(2, '1/2"', 'six-to-twelve-feet', 4),
  short(2, '5/8"', 'six-to-twelve-feet', 3),
  short(2, undefined, 'thirty-inches-to-six-feet', 2),
  short(2, undefined, 'under-thirty-inches', 1),
  short(3, undefined, 'six-to-twelve-feet', 4),
  short(3, undefined, 'thirty-inches-to-six-feet', 2),
  short(3, undefined, 'under-thirty-inches', 1),

  {
    ruleSet: 'existing-building',
    subject: 'splice',
    value: 'each board is a sill of its own with its own end anchors',
    mark: 'from-memory',
    source: 'A304.3.2',
  },
  {
    ruleSet: 'new-house',
    subject: 'step-first-anchor',
    where: `step-height 4'-0 1/16"`,
    value: `is 1'-0"`,
    mark: 'published',
    source: 'R602.11.2',
  },
  {
    ruleSet: 'new-house',
    subject: 'step-second-anchor',
    where: `step-height 4'-0 1/16"`,
    value: `is 3'-0"`,
    mark: 'published',
    source: 'R602.11.2',
  },
  {
    ruleSet: 'new-house',
    subject: 'top-plate-lap',
    where: `step-height 4'-0 1/16"`,
    value: `at-least 4'-0"`,
    mark: 'published',
    source: 'R602.11.2',
  },
  {
    ruleSet: 'new-house',
    subject: 'bolted-as-braced',
    where: `step-height 4'-0 1/16"`,
    value: `at-least 8'-0"`,
    mark: 'published',
    source: 'R602.11.2',
  },
];

const washers: readonly RuleTableCell[] = [
  {
    ruleSet: 'existing-building',
    subject: 'washer-side',
    value: 'at-least 3"',
    mark: 'from-memory',
    source: 'A304.3.1',
  },
  {
    ruleSet: 'existing-building',
    subject: 'washer-thick',
    value: 'at-least 0.229"',
    mark: 'from-memory',
    source: 'A304.3.1',
  },
  {
    ruleSet: 'new-house',
    subject: 'washer-side',
    where: 'design category D0 to D2; townhouses in C',
    value: 'at-least 3"',
    mark: 'published',
    source: 'R602.11.1',
  },
  {
    ruleSet: 'new-house',
    subject: 'washer-thick',
    where: 'design category D0 to D2; townhouses in C',
    value: 'at-least 0.229"',
    mark: 'published',
    source: 'R602.11.1',
  },
  {
    ruleSet: 'new-building',
    subject: 'washer-side',
    value: 'at-least 3"',
    mark: 'published',
    source: '2305.3.11, 2006',
  },
  {
    ruleSet: 'new-building',
    subject: 'washer-thick',
    value: 'at-least 0.229"',
    mark: 'published',
    source: '2305.3.11, 2006',
  },
  { ruleSet: 'los-angeles', subject: 'plate-washer', value: 'required', mark: 'recalled', source: 'division 92' },

  {
    ruleSet: 'existing-building',
    subject: 'washer-slot-over',
    value: 'at-most 3/16"',
    mark: 'from-memory',
    source: 'A304.3.1',
  },
  {
    ruleSet: 'existing-building',
    subject: 'washer-slot-long',
    value: 'at-most 1-3/4"',
    mark: 'from-memory',
    source: 'A304.3.1',
  },
  {
    ruleSet: 'new-house',
    subject: 'washer-slot-over',
    value: 'at-most 3/16"',
    mark: 'from-memory',
    source: 'R602.11.1',
  },
  {
    ruleSet: 'new-house',
    subject: 'washer-slot-long',
    value: 'at-most 1-3/4"',
    mark: 'from-memory',
    source: 'R602.11.1',
  },
  {
    ruleSet: 'new-building',
    subject: 'washer-slot-over',
    value: 'at-most 3/16"',
    mark: 'published',
    source: '2305.3.11, 2006',
  },
  {
    ruleSet: 'new-building',
    subject: 'washer-slot-long',
    value: 'at-most 1-3/4"',
    mark: 'published',
    source: '2305.3.11, 2006',
  },

  {
    ruleSet: 'new-building',
    subject: 'washer-to-edge',
    where: 'nominal-shear 401 plf',
    value: 'at-most 1/2"',
    mark: 'from-memory',
    source: 'wood shear-wall standard, 2008 and later',
  },
  {
    ruleSet: 'new-building',
    subject: 'plain-washer',
    where: 'hold-downs-take-overturning, height-to-length 2, nominal-shear 980 plf',
    value: 'allowed',
    mark: 'from-memory',
    source: 'wood shear-wall standard',
  },
  {
    ruleSet: 'new-building',
    subject: 'three-inch-sill',
    where: 'allowable-shear 351 plf',
    value: 'required',
    mark: 'published',
    source: '2305.3.11, 2006',
  },
  {
    ruleSet: 'new-building',
    subject: 'two-inch-sill',
    where: 'doubled-bolts, allowable-shear 600 plf',
    value: 'allowed',
    mark: 'published',
    source: '2305.3.11, 2006',
  },
];

const sidePlates: readonly RuleTableCell[] = [
  {
    ruleSet: 'existing-building',
    subject: 'side-plate-capacity',
    value: 'at-least 900 lb',
    mark: 'published',
    source: 'A304.3.1',
  },
  {
    ruleSet: 'existing-building',
    subject: 'side-plate-as-bolt',
    value: 'is 1/2"',
    mark: 'from-memory',
    source: 'A304.3.1',
  },
  {
    ruleSet: 'bay-area',
    subject: 'side-plate-capacity',
    value: 'as listed for the device',
    mark: 'published',
    source: 'plan set A',
  },
  {
    ruleSet: 'existing-building',
    subject: 'expansion-cracks-face',
    value: 'not-allowed',
    mark: 'published',
    source: 'A304.3.1',
  },
  {
    ruleSet: 'existing-building',
    subject: 'unreinforced-masonry',
    value: 'not-allowed',
    mark: 'published',
    source: 'A304.2.2',
  },
  {
    ruleSet: 'existing-building',
    subject: 'new-concrete-strength',
    value: 'at-least 2500 psi',
    mark: 'recalled',
    source: 'A304.2',
  },
];

const floor: readonly RuleTableCell[] = [
  {
    ruleSet: 'existing-building',
    subject: 'joist-restraint',
    value: 'required',
    mark: 'published',
    source: 'A304.1.3',
  },
  {
    ruleSet: 'los-angeles',
    subject: 'joist-restraint',
    value: 'required',
    mark: 'published',
    source: '91.9204.1.3',
  },

  ...(['existing-building', 'los-angeles'] as const).flatMap((ruleSet): RuleTableCell[] => {
    const source = ruleSet === 'existing-building' ? 'A304.1.3' : '91.9204.1.3';
    return [
      { ruleSet, subject: 'blocked-bays', storeys: 1, value: 'at-least 50 %', mark: 'published', source },
      { ruleSet, subject: 'blocked-bays', storeys: 2, value: 'at-least 50 %', mark: 'published', source },
      { ruleSet, subject: 'blocked-bays', storeys: 3, value: 'at-least 100 %', mark: 'published', source },
      { ruleSet, subject: 'blocked-over-panel', storeys: 2, value: 'at-least 100 %', mark: 'published', source },
      { ruleSet, subject: 'blocked-over-panel', storeys: 3, value: 'at-least 100 %', mark: 'published', source },
      { ruleSet, subject: 'top-edge-nails', value: 'not-required', mark: 'published', source },
    ];
  }),

  {
    ruleSet: 'existing-building',
    subject: 'rim-nails',
    storeys: 2,
    where: 'nail 8d',
    value: 'at-most 6"',
    mark: 'published',
    source: 'A304.1.3',
  },
  {
    ruleSet: 'existing-building',
    subject: 'rim-nails',
    storeys: 3,
    where: 'nail 8d',
    value: 'at-most 6"',
    mark: 'published',
    source: 'A304.1.3',
  },
  {
    ruleSet: 'existing-building',
    subject: 'block-nails',
    storeys: 2,
    where: 'nail 8d',
    value: 'at-least 3',
    mark: 'published',
    source: 'A304.1.3',
  },
  {
    ruleSet: 'los-angeles',
    subject: 'rim-nails',
    storeys: 2,
    where: 'nail 8d',
    value: 'at-most 6"',
    mark: 'recalled',
    source: '91.9204.1.3',
  },
  {
    ruleSet: 'existing-building',
    subject: 'bottom-edge-nails',
    storeys: 1,
    value: 'not-required',
    mark: 'published',
    source: 'A304.1.3',
  },
  {
    ruleSet: 'existing-building',
    subject: 'angle-for-nails',
    value: 'required',
    mark: 'published',
    source: 'A304.1.3',
  },
  {
    ruleSet: 'los-angeles',
    subject: 'angle-for-nails',
    value: 'required',
    mark: 'recalled',
    source: '91.9204.1.3',
  },
  { ruleSet: 'existing-building', subject: 'common-nails', value: 'required', mark: 'from-memory', source: 'A304.1.3' },
  { ruleSet: 'los-angeles', subject: 'common-nails', value: 'required', mark: 'published', source: 'division 92' },
];

/** Bracing, panels, holes and inspection: the rest of what the sets say, row by row. */
const bracing: readonly RuleTableCell[] = [
  ...shares('existing-building', 'from-memory', 'Table A304.3.1'),
  ...shares('los-angeles', 'recalled', 'Table 92-A'),
  ...rows('portland', 'secondary-text', 'study text on codes of the Pacific Northwest', [
    { subject: 'bracing-share', storeys: 1, value: 'at-least 40 %' },
    { subject: 'bracing-share', storeys: 2, value: 'at-least 50 %' },
    { subject: 'bracing-share', storeys: 3, value: 'at-least 80 %' },
    { subject: 'panel-thick', value: 'at-least 1/2"' },
    { subject: 'panel-plies', value: 'at-least 5' },
    { subject: 'panel-osb', value: 'not-allowed' },
    { subject: 'panel-edge-nails', where: 'nail 8d', value: 'at-most 4"' },
    { subject: 'panel-field-nails', where: 'nail 8d', value: 'at-most 12"' },
    { subject: 'common-nails', value: 'required' },
    { subject: 'end-distance', value: 'at-most 12"' },
  ]),
  ...rows('existing-building', 'from-memory', 'Table A304.3.1', [{ subject: 'bracing-ends', value: 'required' }]),
  ...rows('los-angeles', 'recalled', 'Table 92-A', [{ subject: 'bracing-ends', value: 'required' }]),
  ...rows('bay-area', 'published', 'plan set A, basis of design', [
    { subject: 'panel-shear', where: 'nail 8d, edge-nails 4"', value: 'is 380 plf' },
    { subject: 'response-modification', value: 'is 5.5' },
    { subject: 'redundancy', value: 'is 1' },
    { subject: 'near-source-factor', value: 'is 1.3' },
  ]),
  ...rows('new-house', 'recalled', 'R602.10', [
    { subject: 'cripple-bracing-factor', value: 'is 1.15' },
    { subject: 'panel-thick', value: 'at-least 3/8"' },
    { subject: 'panel-edge-nails', where: 'nail 8d', value: 'at-most 6"' },
    { subject: 'panel-field-nails', where: 'nail 8d', value: 'at-most 12"' },
    { subject: 'panel-joint-blocked', value: 'required' },
  ]),
  ...rows('new-house', 'published', 'R602.10.9.1, 2009', [
    { subject: 'cripple-bracing-factor', where: 'no-footing-below', value: 'is 1.5' },
  ]),
  ...rows('new-house', 'published', 'R602.10, 2009', [{ subject: 'panel-length', value: 'at-least 48"' }]),
  ...rows('new-building', 'from-memory', '2308', [
    { subject: 'cripple-bracing-factor', where: 'no-footing-below', value: 'is 1.5' },
    { subject: 'cripple-is-storey', where: 'stud-height 14-1/16"', value: 'required' },
  ]),
];

const panels: readonly RuleTableCell[] = [
  ...rows('existing-building', 'from-memory', 'A304.4.2', [
    { subject: 'panel-length', value: `at-least 4'-0"` },
    { subject: 'panel-per-height', value: 'at-least 2' },
    { subject: 'panels-alike', value: 'required' },
    { subject: 'panel-past-obstruction', value: 'allowed' },
  ]),
  ...rows('existing-building', 'from-memory', 'A304.4.1.1', [{ subject: 'panel-thick', value: 'at-least 15/32"' }]),
  ...rows('existing-building', 'from-memory', 'A304.4', [
    { subject: 'panel-edge-nails', where: 'nail 8d', value: 'at-most 4"' },
    { subject: 'panel-field-nails', where: 'nail 8d', value: `at-most 1'-0"` },
    { subject: 'panel-stud-nails', value: 'at-least 2' },
    { subject: 'nail-edge', value: 'at-least 1/2"' },
    { subject: 'nail-penetration', value: 'at-least 1-1/2"' },
    { subject: 'replacement-nail', value: 'at-most 2"' },
    { subject: 'panel-gap', value: 'at-least 1/8"' },
    { subject: 'panel-joint-blocked', value: 'required' },
  ]),
  ...rows('existing-building', 'recalled', 'A304.4', [
    { subject: 'added-stud-nails', where: 'nail 16d', value: 'at-most 8"' },
  ]),
  ...rows('existing-building', 'published', 'A304.4.3', [
    { subject: 'vent-hole', value: 'at-least 2" at-most 3"' },
    { subject: 'vent-hole-count', where: 'stud-height 17-15/16"', value: 'at-least 1' },
    { subject: 'vent-hole-count', where: 'stud-height 18"', value: 'at-least 2' },
    { subject: 'vent-hole-clear', value: 'at-least 1"' },
    { subject: 'vent-hole-edge', value: 'at-least 1"' },
    { subject: 'vent-hole-at-bolt', value: 'required' },
    { subject: 'vent-hole-at-block', value: 'required' },
  ]),
  ...rows('existing-building', 'recalled', 'A304.4.4', [
    { subject: 'vent-area-kept', value: 'required' },
    { subject: 'panel-at-vent', value: 'required' },
  ]),
  ...rows('los-angeles', 'published', 'standard plan, general notes', [
    { subject: 'sheathed-already', value: 'not-allowed' },
  ]),
];

const papers: readonly RuleTableCell[] = [
  ...rows('existing-building', 'from-memory', 'A301.2', [
    { subject: 'pole-building', value: 'not-allowed' },
    { subject: 'slab-on-grade', value: 'not-allowed' },
  ]),
  ...rows('existing-building', 'from-memory', 'A301.3', [{ subject: 'engineered-base-shear', value: 'at-least 75 %' }]),
  ...rows('existing-building', 'published', 'A304.2.2', [{ subject: 'partial-foundation', value: 'not-allowed' }]),
  ...rows('existing-building', 'published', 'A304.3.1', [{ subject: 'snug-tight', value: 'required' }]),
  ...rows('existing-building', 'from-memory', 'A304.3.1', [
    { subject: 'plate-washer', value: 'required' },
    { subject: 'cut-washer', value: 'required' },
  ]),
  ...rows('existing-building', 'from-memory', 'A304.5', [
    { subject: 'special-inspection', value: 'not-required' },
    { subject: 'inspection-before-cover', value: 'required' },
  ]),
  ...rows('los-angeles', 'published', 'division 92', [
    { subject: 'inspection-before-concrete', value: 'required' },
    { subject: 'inspection-before-cover', value: 'required' },
  ]),
  ...rows('existing-building', 'published', 'A304.1.3', [
    { subject: 'bottom-edge-nails', storeys: 2, value: 'required' },
    { subject: 'bottom-edge-nails', storeys: 3, value: 'required' },
  ]),
  ...rows('new-house', 'published', 'R403.1.6', [{ subject: 'anchor-diameter', value: 'at-least 1/2"' }]),
  ...rows('new-house', 'published', 'R403.1.6 (seven diameters)', [
    { subject: 'end-distance', bolt: '3/4"', value: 'at-least 5-1/4" at-most 12"' },
  ]),
  ...rows('new-house', 'published', 'R602.11.1', [{ subject: 'plate-washer', value: 'required' }]),
  ...rows('new-house', 'from-memory', 'R602.11.1', [{ subject: 'cut-washer', value: 'required' }]),
  ...rows('new-building', 'from-memory', '2308.3', [{ subject: 'anchor-diameter', value: 'at-least 1/2"' }]),
  ...rows('new-building', 'published', '2305.3.11, 2006', [{ subject: 'plate-washer', value: 'required' }]),
];

export const ruleTables: readonly RuleTableCell[] = [
  ...bracing,
  ...panels,
  ...papers,
  ...scope,
  ...spacing,
  ...ends,
  ...washers,
  ...sidePlates,
  ...floor,
];

/** The appendix's table and those that follow it: boards of 12 ft and more. */
function anchorTable(ruleSet: PublishedRuleSet, mark: Mark, source: string): readonly RuleTableCell[] {
  return [
    spaced(ruleSet, 1, '1/2"', `6'-0"`, mark, source),
    spaced(ruleSet, 2, '1/2"', `4'-0"`, mark, source),
    spaced(ruleSet, 2, '5/8"', `6'-0"`, mark, source),
    spaced(ruleSet, 3, '5/8"', `4'-0"`, mark, source),
  ];
}

function shares(ruleSet: PublishedRuleSet, mark: Mark, source: string): readonly RuleTableCell[] {
  const table = [
    { storeys: 1, other: 40, heavy: 50 },
    { storeys: 2, other: 50, heavy: 70 },
    { storeys: 3, other: 80, heavy: 100 },
  ];
  return rows(
    ruleSet,
    mark,
    source,
    table.flatMap(({ storeys, other, heavy }) => [
      { subject: 'bracing-share', storeys, value: `at-least ${other} %` },
      { subject: 'bracing-share', storeys, where: 'heavy', value: `at-least ${heavy} %` },
    ]),
  );
}

function rows(
  ruleSet: PublishedRuleSet,
  mark: Mark,
  source: string,
  cells: readonly Omit<RuleTableCell, 'ruleSet' | 'mark' | 'source'>[],
): readonly RuleTableCell[] {
  return cells.map((cell) => ({ ruleSet, mark, source, ...cell }));
}

function spaced(
  ruleSet: PublishedRuleSet,
  storeys: number,
  bolt: string,
  most: string,
  mark: Mark,
  source: string,
): RuleTableCell {
  return {
    ruleSet,
    subject: 'anchor-spacing',
    storeys,
    bolt,
    piece: 'twelve-feet-and-more',
    value: `at-most ${most}`,
    mark,
    source,
  };
}

function short(storeys: number, bolt: string | undefined, piece: Piece, count: number): RuleTableCell {
  return {
    ruleSet: 'existing-building',
    subject: 'piece-count',
    storeys,
    ...(bolt === undefined ? {} : { bolt }),
    piece,
    value: `at-least ${count}`,
    mark: 'recalled',
    source: 'Table A304.3.2',
  };
}
