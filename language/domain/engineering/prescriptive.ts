import type { Length } from '../units/length.ts';
import { feet, inches } from '../units/length.ts';
import { formula } from './formula.ts';
import type { Section } from './publications.ts';
import { section } from './publications.ts';
import type { Input, Traced } from './trace.ts';
import { asInput, computed, fromTable, given, greatestOf } from './trace.ts';
import { count, factor, foot } from './trace-units.ts';

/*
 * What prescriptive texts print, and the arithmetic on it. Checks take their limits from the rule sets in force; this
 * second reading exists to test those rule sets against, and to work the counts and lengths that the texts imply.
 */

export type Storeys = 1 | 2 | 3;

/** Sill anchorage of an existing house by storeys above. IEBC Table A304.3.1 (from memory). */
export const existingHouseAnchorage: Readonly<
  Record<Storeys, readonly { readonly bolt: Length; readonly spacing: Length }[]>
> = {
  1: [{ bolt: inches(0.5), spacing: feet(6) }],
  2: [
    { bolt: inches(0.5), spacing: feet(4) },
    { bolt: inches(0.625), spacing: feet(6) },
  ],
  3: [{ bolt: inches(0.625), spacing: feet(4) }],
};

/** Share of each wall line to be braced. `heavy`: cement plaster walls and tile roof over 6 psf. IEBC Table A304.3.1 (from memory). */
export const bracingShares: Readonly<Record<Storeys, { readonly heavy: number; readonly other: number }>> = {
  1: { heavy: 0.5, other: 0.4 },
  2: { heavy: 0.7, other: 0.5 },
  3: { heavy: 1, other: 0.8 },
};

/** Anchors of pieces under 12 ft: 6 ft and up, 30 in to 6 ft, shorter. IEBC Table A304.3.2 (recalled). */
export const shortPieceAnchors: Readonly<
  Record<
    Storeys,
    {
      readonly sixFeetUp: readonly { readonly bolt: Length | undefined; readonly anchors: number }[];
      readonly thirtyInchesUp: number;
      readonly shorter: number;
    }
  >
> = {
  1: { sixFeetUp: [{ bolt: undefined, anchors: 3 }], thirtyInchesUp: 2, shorter: 1 },
  2: {
    sixFeetUp: [
      { bolt: inches(0.5), anchors: 4 },
      { bolt: inches(0.625), anchors: 3 },
    ],
    thirtyInchesUp: 2,
    shorter: 1,
  },
  3: { sixFeetUp: [{ bolt: undefined, anchors: 4 }], thirtyInchesUp: 2, shorter: 1 },
};

const anchorageTable = section('IEBC A3', 'Table A304.3.1', 'from-memory');

/** Fewest bolts of one sill piece of 12 ft or more: ends within the end distance, gaps within the spacing. Studs and obstructions may ask for more. */
export function fewestBolts(piece: Input<Length>, spacing: Input<Length>, endDistance: Input<Length>): Traced<number> {
  const inputs = [
    asInput('L', 'length of the sill piece', foot, piece),
    asInput('s', 'largest spacing', foot, spacing, { section: anchorageTable }),
    asInput('e', 'largest distance of the first bolt from an end', foot, endDistance, {
      section: section('IEBC A3', 'A304.3.2', 'from-memory'),
    }),
  ];
  return computed('n', 'fewest bolts', count, formula('ceil(max(0, L - 2 * e) / s) + 1'), inputs, anchorageTable);
}

export interface PrescriptiveBracing {
  readonly total: Traced<Length>;
  readonly leastPanel: Traced<Length>;
  /** One at each end. */
  readonly panels: number;
  /** Where two least panels are longer than the share asks. */
  readonly totalWithEnds: Traced<Length>;
}
/** Bracing of one wall line of an existing house. IEBC Table A304.3.1, A304.4.2 (from memory): share of the length, panels of twice their height and 48 in at least, one at each end. */
export function prescriptiveBracing(
  wall: Input<Length>,
  storeys: Storeys,
  heavy: boolean,
  crippleHeight: Input<Length>,
): PrescriptiveBracing {
  const L = asInput('L', 'length of the wall line', foot, wall);
  const h = asInput('h', 'height of the cripple wall', foot, crippleHeight);
  const share = fromTable(
    'r',
    heavy ? 'braced share, heavy' : 'braced share',
    factor,
    bracingShares[storeys][heavy ? 'heavy' : 'other'],
    anchorageTable,
  );
  const source = section('IEBC A3', 'A304.4.2', 'from-memory');
  const total = computed('L_b', 'bracing that the share asks', foot, formula('r * L'), [share, L], anchorageTable);
  const leastPanel = computed('L_p', 'least panel', foot, formula('max(2 * h, 4)'), [h], source);
  const panels = given('n_p', 'panels, one at each end', count, 2, { section: source });
  const byEnds = computed('L_e', 'least panels together', foot, formula('n_p * L_p'), [panels, leastPanel], source);
  return {
    total,
    leastPanel,
    panels: panels.value,
    totalWithEnds: greatestOf('L_t', 'bracing of the line', foot, [total, byEnds], source),
  };
}

/** Cripple-wall bracing of new houses: 1.15 times the storey above (R602.10.9, recalled), 1.5 times where an interior line has no foundation (R602.10.9.1, found). IRC 2009. */
export function newHouseCrippleBracing(
  required: Input<Length>,
  interiorLineWithoutFoundation: boolean,
): Traced<Length> {
  const multiple = interiorLineWithoutFoundation ? 1.5 : 1.15;
  const source = interiorLineWithoutFoundation
    ? section('IRC 2009', 'R602.10.9.1', 'published')
    : section('IRC 2009', 'R602.10.9', 'recalled');
  const inputs = [
    asInput('L', 'bracing of the storey above', foot, required),
    fromTable('r', 'cripple-wall multiple', factor, multiple, source),
  ];
  return computed('L_c', 'bracing of the cripple wall', foot, formula('r * L'), inputs, source);
}

/** Spacing of cripple-wall panels of new houses in the 2009 printing, ft (recalled; it differs by edition). */
export const newHouseCripplePanelSpacingFeet = 18;

/** A figure as a text prints it: a number, several, a yes or no, or a fact in words. */
export type Figure = number | boolean | readonly number[] | Statement | { readonly [name: string]: Figure };
/** A fact that is no number. Another wording agrees if it mentions the same things and no other number. */
export interface Statement {
  readonly statement: string;
  readonly mentions: readonly string[];
}
const fact = (statement: string, ...mentions: readonly string[]): Statement => ({ statement, mentions });

export interface PrintedFigures {
  readonly section: Section;
  readonly figures: Readonly<Record<string, Figure>>;
}

const squareWasher = [0.229, 3, 3];

/** Single figures of prescriptive texts, by section. Inches, feet and counts as each name says. */
export const printedFigures: readonly PrintedFigures[] = [
  {
    section: section('IEBC A3', 'A301.2, A301.3, A304.4.1', 'from-memory'),
    figures: {
      max_stories: 3,
      max_cripple_ft: 4,
      max_cripple_in_3story: 14,
      max_units: 4,
      base_shear_fraction_alt_design: 0.75,
    },
  },
  {
    section: section('IEBC A3', 'A304.1.3', 'published'),
    figures: {
      rim_nominal_in: 2,
      blocks_1_2_story: fact('blocks in alternate joist spaces', 'alternate', 'joist'),
      blocks_3_story: fact('blocks in every joist space', 'every', 'joist'),
      toenail_8d_spacing_in: 6,
      toenails_per_block: 3,
    },
  },
  {
    section: section('IEBC A3', 'A304.3.1', 'published'),
    figures: {
      tighten: fact('snug tight once the adhesive has cured or the wedge is set', 'snug', 'adhesive', 'wedge'),
      alt_connection_min_shear_lb: 900,
      no_expansion_anchor_if_surface_cracks: true,
    },
  },
  {
    section: section('IEBC A3', 'A304.4.3', 'published'),
    figures: {
      hole_in: [2, 3],
      holes_per_stud_space: 2,
      clear_to_plates_in: 1,
      one_hole_if_stud_below_in: 18,
      clear_to_nailed_edge_in: 1,
    },
  },
  {
    section: section('Los Angeles standard plan', 'general notes', 'published'),
    figures: {
      max_cripple_in_1_2_story: 48,
      max_cripple_in_3_story: 14,
      max_units: 4,
      max_stories: 3,
      max_slope_h_to_v: [3, 1],
      foundation: fact('continuous concrete footing with stem wall', 'continuous', 'concrete'),
      floors_same_elevation: true,
    },
  },
  {
    section: section('Portland method', 'criteria', 'published'),
    figures: {
      max_stories: 3,
      max_cripple_ft_1_2: 4,
      max_cripple_in_3: 14,
      max_units: 2,
      max_slope_h_to_v: [3, 1],
      foundation: fact('continuous concrete', 'continuous', 'concrete'),
    },
  },
  {
    section: section('Portland method', 'seismic retrofit, prescriptive', 'published'),
    figures: {
      bolt_in: 0.5,
      max_spacing_ft: 6,
      end_max_in: 12,
      panel: fact('plywood, CDX, 1/2 in, 5 plies, not OSB', '1/2', '5', 'CDX', 'plywood', 'OSB'),
      coverage_pct: { '1 storey': 40, '2 storeys': 50, '3 storeys': 80 },
      nail: fact('8d common', '8d', 'common'),
      edge_in: 4,
      field_in: 12,
    },
  },
  {
    section: section('Bay Area plan set', 'who can use it', 'published'),
    figures: {
      max_units: 2,
      max_stories: 2,
      max_cripple_ft: 4,
      max_veneer_height_ft: 4,
      foundation: fact('continuous along the perimeter', 'continuous', 'perimeter'),
    },
  },
  {
    section: section('IRC 2021', 'R403.1.6', 'published'),
    figures: {
      bolt_in: 0.5,
      embed_in: 7,
      max_spacing_ft: 6,
      min_bolts_per_piece: 2,
      end_max_in: 12,
      end_min_diameters: 7,
    },
  },
  {
    section: section('IRC 2021', 'R403.1.6.1', 'from-memory'),
    figures: { max_spacing_ft_over_two_stories_SDC_D0_D2: 4 },
  },
  {
    section: section('IRC 2021', 'R602.11.1', 'published'),
    figures: {
      washer_in: squareWasher,
      applies: fact('design categories D0 to D2, and townhouses in C', 'D0', 'D2', 'townhouses', 'C'),
    },
  },
  {
    section: section('IRC 2021', 'R602.11.2', 'published'),
    figures: {
      applies_if_height_varies_over_ft: 4,
      min_bolted_length_counts_as_braced_ft: 8,
      top_plate_lap_ft: 4,
      bolts_from_step_ft: [1, 3],
    },
  },
  {
    section: section('Indiana residential code', 'R403.1.6.1', 'published'),
    figures: {
      plate_third: fact('in the middle third of the plate', 'middle'),
      embed_in: 7,
      min_concrete_around_bolt_in: 1.5,
      washer_min_x_hole: 2,
      corner_max_in: 12,
    },
  },
  {
    section: section('IBC 2021', '2308.3.1, 2308.3.2', 'from-memory'),
    figures: {
      bolt_in: 0.5,
      bolt_in_SDC_E: 0.625,
      embed_in: 7,
      max_spacing_ft: 6,
      max_spacing_ft_over_2_stories: 4,
      end_min_in: 4,
      end_max_in: 12,
    },
  },
  {
    section: section('Navy builder manual', 'figs 1-5, 1-6', 'published'),
    figures: { bolt_in: 0.5, embed_in_unreinforced: 15, embed_in_reinforced: 7, max_spacing_ft: 6, end_max_ft: 1 },
  },
  {
    section: section('IEBC A4', 'A405.2.1', 'published'),
    figures: { bolt_in: 0.75, spacing_in: 32, clip_spacing_in: 16 },
  },
  {
    section: section('San Francisco AB-107', 'A3.2.7', 'published'),
    figures: {
      existing_bolt_max_spacing_ft_wood_panel: 6,
      existing_bolt_max_spacing_ft_other: 10,
      min_bolts_per_segment: 2,
      bolt_diameter_in: [0.5, 0.75],
      sill_nominal_in: [2, 3],
      capacity_from: fact('NDS wood-to-concrete bolt table, 11E of old and now 12E', 'NDS', '12E'),
    },
  },
];

/** The plate washer of every sill anchor, thick by wide by long. IEBC Table A304.3.1 (from memory). */
export const squareWasherInches: readonly number[] = squareWasher;
