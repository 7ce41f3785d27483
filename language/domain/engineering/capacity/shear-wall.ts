import type { Trust } from '../../rulesets/rule-set.ts';
import type { Force, ForcePerLength } from '../../units/force.ts';
import { poundsPerFoot } from '../../units/force.ts';
import type { Length } from '../../units/length.ts';
import { inInches, zero } from '../../units/length.ts';
import { formula } from '../formula.ts';
import type { PublicationName, Section } from '../publications.ts';
import { section } from '../publications.ts';
import type { Input, Outcome, Trace, Traced } from '../trace.ts';
import { asInput, computed, fromTable, given, isRefused, refused } from '../trace.ts';
import { factor, foot, plf, pound } from '../trace-units.ts';

export type PanelGrade = 'structural I' | 'sheathing';
export type PanelThickness = '5/16' | '3/8' | '7/16' | '15/32' | '19/32';
export type PanelNail = '6d common' | '8d common' | '10d common';
/** Centre to centre of the nails at panel edges, inches. */
export type EdgeSpacing = 6 | 4 | 3 | 2;
export type LateralLoad = 'seismic' | 'wind';

/** One row of nailing: blocked wood structural panels, framing of G 0.50 or more, nominal unit shears in plf. */
export interface PanelRow {
  readonly grade: PanelGrade;
  readonly thickness: PanelThickness;
  readonly nail: PanelNail;
  readonly seismic: Readonly<Record<EdgeSpacing, number>>;
  readonly wind: Readonly<Record<EdgeSpacing, number>>;
}

/**
 * SDPWS 2008 and 2015 Table 4.3A, nominal unit shear capacity, as reproduced in a public permit record of the City of
 * Santa Ana, California. Three digits (860, 1460, 1205) are unreadable in the scan and were restored by the 1.4 ratio.
 */
export const panelRows: readonly PanelRow[] = [
  row('structural I', '5/16', '6d common', [400, 600, 780, 1020], [560, 840, 1090, 1430]),
  row('structural I', '3/8', '8d common', [460, 720, 920, 1220], [645, 1010, 1290, 1710]),
  row('structural I', '7/16', '8d common', [510, 790, 1010, 1340], [715, 1105, 1415, 1875]),
  row('structural I', '15/32', '8d common', [560, 860, 1100, 1460], [785, 1205, 1540, 2045]),
  row('structural I', '15/32', '10d common', [680, 1020, 1330, 1740], [950, 1430, 1860, 2435]),
  row('sheathing', '5/16', '6d common', [360, 540, 700, 900], [505, 755, 980, 1260]),
  row('sheathing', '3/8', '6d common', [400, 600, 780, 1020], [560, 840, 1090, 1430]),
  row('sheathing', '3/8', '8d common', [440, 640, 820, 1060], [615, 895, 1150, 1485]),
  row('sheathing', '7/16', '8d common', [480, 700, 900, 1170], [670, 980, 1260, 1640]),
  row('sheathing', '15/32', '8d common', [520, 760, 980, 1280], [730, 1065, 1370, 1790]),
  row('sheathing', '15/32', '10d common', [620, 920, 1200, 1540], [870, 1290, 1680, 2155]),
  row('sheathing', '19/32', '10d common', [680, 1020, 1330, 1740], [950, 1430, 1860, 2435]),
];

function row(
  grade: PanelGrade,
  thickness: PanelThickness,
  nail: PanelNail,
  seismic: readonly [number, number, number, number],
  wind: readonly [number, number, number, number],
): PanelRow {
  const bySpacing = ([six, four, three, two]: readonly [number, number, number, number]) => ({
    6: six,
    4: four,
    3: three,
    2: two,
  });
  return { grade, thickness, nail, seismic: bySpacing(seismic), wind: bySpacing(wind) };
}

export interface Panel {
  readonly grade: PanelGrade;
  readonly thickness: PanelThickness;
  readonly nail: PanelNail;
  readonly edgeSpacing: EdgeSpacing;
}

/** Which printing of the standard: they print different nominal values and divide them differently. */
export type SheathingEdition = '2008' | '2015' | '2021';
interface EditionTerms {
  readonly publication: PublicationName;
  /** Of the nominal values: the table of 2008 and 2015 was read, that of 2021 was not. */
  readonly table: Trust;
  /** Which column of the table the nominal value is. The 2021 printing gives one value, the former wind column. */
  readonly column: Readonly<Record<LateralLoad, LateralLoad>>;
  readonly allowableDivisor: Readonly<Record<LateralLoad, number>>;
  readonly strengthFactor: Readonly<Record<LateralLoad, number>>;
  readonly place: string;
}
/** From memory: 4.3.3 of 2008 and 2015, 4.1.4 of 2021. */
export const sheathingEditions: Readonly<Record<SheathingEdition, EditionTerms>> = {
  '2008': splitColumns('SDPWS 2008'),
  '2015': splitColumns('SDPWS 2015'),
  '2021': {
    publication: 'SDPWS 2021',
    table: 'from-memory',
    column: { seismic: 'wind', wind: 'wind' },
    allowableDivisor: { seismic: 2.8, wind: 2 },
    strengthFactor: { seismic: 0.5, wind: 0.8 },
    place: '4.1.4',
  },
};
function splitColumns(publication: PublicationName): EditionTerms {
  return {
    publication,
    table: 'published',
    column: { seismic: 'seismic', wind: 'wind' },
    allowableDivisor: { seismic: 2, wind: 2 },
    strengthFactor: { seismic: 0.8, wind: 0.8 },
    place: '4.3.3',
  };
}

/** Nominal unit shear of a blocked panel, plf. Refused where the table has no such row. */
export function nominalUnitShear(panel: Panel, edition: SheathingEdition, load: LateralLoad): Outcome<ForcePerLength> {
  const terms = sheathingEditions[edition];
  const source: Section = section(terms.publication, 'Table 4.3A', terms.table);
  const found = panelRows.find(
    (each) => each.grade === panel.grade && each.thickness === panel.thickness && each.nail === panel.nail,
  );
  const what = `${panel.thickness} in ${panel.grade}, ${panel.nail} nails at ${panel.edgeSpacing} in`;
  if (!found) return refused(`the table has no row for ${what}`, source);
  const value = found[terms.column[load]][panel.edgeSpacing];
  return fromTable('v_n', `nominal unit shear, ${what}`, plf, poundsPerFoot(value), source);
}

/** Allowable-stress unit shear, plf. 4.3.3 (2008, 2015), 4.1.4 (2021), from memory. */
export function allowableUnitShear(
  nominal: Input<ForcePerLength>,
  edition: SheathingEdition,
  load: LateralLoad,
): Traced<ForcePerLength> {
  const terms = sheathingEditions[edition];
  const source = section(terms.publication, terms.place, 'from-memory');
  const vn = asInput('v_n', 'nominal unit shear', plf, nominal);
  const divisor = fromTable(
    'Omega_a',
    `allowable-stress divisor, ${load}`,
    factor,
    terms.allowableDivisor[load],
    source,
  );
  return computed('v_a', 'allowable unit shear', plf, dividedByOmega, [vn, divisor], source);
}
const dividedByOmega = formula('v_n / Omega_a');

/** Strength-level unit shear, plf. 4.3.3 (2008, 2015), 4.1.4 (2021), from memory. */
export function strengthUnitShear(
  nominal: Input<ForcePerLength>,
  edition: SheathingEdition,
  load: LateralLoad,
): Traced<ForcePerLength> {
  const terms = sheathingEditions[edition];
  const source = section(terms.publication, terms.place, 'from-memory');
  const vn = asInput('v_n', 'nominal unit shear', plf, nominal);
  const phi = fromTable('phi', `resistance factor, ${load}`, factor, terms.strengthFactor[load], source);
  return computed('v_r', 'factored unit shear resistance', plf, timesPhi, [vn, phi], source);
}
const timesPhi = formula('phi * v_n');

/** Lighter framing holds nails less: 1 - (0.5 - G), at most 1. SDPWS Table 4.3A footnote (from memory). */
export function framingFactor(gravity: Input<number>, edition: SheathingEdition = '2015'): Traced<number> {
  const G = asInput('G', 'specific gravity of the framing', factor, gravity);
  const source = section(sheathingEditions[edition].publication, 'Table 4.3A footnote', 'from-memory');
  return computed('C_G', 'framing factor', factor, framingRule, [G], source);
}
const framingRule = formula('min(1, 1 - (0.5 - G))');

/**
 * Height over length of a panel or segment. Blocked wood structural panels: at most 3.5 to 1 (SDPWS 2015 Table 4.3.4).
 * A ratio over 3.5 is refused: such a panel counts for nothing.
 */
export function aspectRatio(height: Input<Length>, length: Input<Length>): Outcome<number> {
  const h = asInput('h', 'height of the panel', foot, height);
  const b = asInput('b_s', 'length of the panel', foot, length);
  const source = section('SDPWS 2015', 'Table 4.3.4', 'from-memory');
  if (b.value <= zero) return refused('a panel of no length counts for nothing', source);
  const ratio = computed('r_a', 'height over length', factor, aspectRule, [h, b], source);
  if (ratio.number > 3.5 + 1e-9) {
    return refused(
      `${inInches(h.value)} in high on ${inInches(b.value)} in is ${ratio.number.toFixed(2)} to 1; over 3.5 to 1 a panel counts for nothing`,
      source,
    );
  }
  return ratio;
}
const aspectRule = formula('h / b_s');

/**
 * How a slender panel (over 2 to 1) is reduced: `strength` 1.25 - 0.125 h/b (SDPWS 2015 4.3.4.2), `sharing` 2 b/h where
 * shear is shared in proportion to strength (4.3.3.4.1; also the 2008 rule for seismic), then not the other. From memory.
 */
export type SlendernessRule = 'strength' | 'sharing';
export function slendernessFactor(
  height: Input<Length>,
  length: Input<Length>,
  rule: SlendernessRule,
): Outcome<number> {
  const ratio = aspectRatio(height, length);
  if (isRefused(ratio)) return ratio;
  const source = section('SDPWS 2015', rule === 'strength' ? '4.3.4.2' : '4.3.3.4.1', 'from-memory');
  if (ratio.number <= 2) return fromTable('C_a', 'slenderness factor, 2 to 1 or less', factor, 1, source, [ratio]);
  return computed(
    'C_a',
    'slenderness factor',
    factor,
    rule === 'strength' ? strengthRule : sharingRule,
    [ratio],
    source,
  );
}
const strengthRule = formula('1.25 - 0.125 * r_a');
const sharingRule = formula('2 / r_a');

export interface ShearPanel {
  readonly panel: Panel;
  readonly edition: SheathingEdition;
  readonly load: LateralLoad;
  readonly height: Input<Length>;
  readonly length: Input<Length>;
  readonly gravity: Input<number>;
  readonly slenderness?: SlendernessRule;
}
/** Allowable shear of one panel, lb: allowable unit shear × framing × slenderness × length. */
export function panelCapacity(wall: ShearPanel): Outcome<Force> {
  const nominal = nominalUnitShear(wall.panel, wall.edition, wall.load);
  if (isRefused(nominal)) return nominal;
  const slender = slendernessFactor(wall.height, wall.length, wall.slenderness ?? 'strength');
  if (isRefused(slender)) return slender;
  const inputs: readonly Trace[] = [
    allowableUnitShear(nominal, wall.edition, wall.load),
    framingFactor(wall.gravity, wall.edition),
    slender,
    asInput('b_s', 'length of the panel', foot, wall.length),
  ];
  return computed(
    'V_a',
    'allowable shear of the panel',
    pound,
    panelRule,
    inputs,
    section(sheathingEditions[wall.edition].publication, '4.3.3', 'from-memory'),
  );
}
const panelRule = formula('v_a * C_G * C_a * b_s');

/**
 * Length of panel that a force needs, ft: V / v. Refused for a capacity of nothing.
 */
export function neededPanelLength(force: Input<Force>, allowable: Input<ForcePerLength>): Outcome<Length> {
  const V = asInput('V', 'shear to be carried', pound, force);
  const v = asInput('v_a', 'allowable unit shear', plf, allowable);
  if (!(v.number > 0)) return refused('a panel without capacity carries nothing, however long');
  return computed('L_need', 'panel length needed', foot, neededRule, [V, v], section('statics', '', 'published'));
}
const neededRule = formula('V / v_a');

/** The old allowable values behind the nominal ones: wind nominal 2.8 times, seismic nominal wind over 1.4. Found in an article on the 2005 printing. */
export function nominalFromOldAllowable(allowable: Input<ForcePerLength>): {
  readonly wind: Traced<ForcePerLength>;
  readonly seismic: Traced<ForcePerLength>;
} {
  const v = asInput('v_a', 'old allowable unit shear', plf, allowable);
  const source = section('SDPWS 2008', 'format of the design values', 'published');
  const wind = computed('v_w', 'nominal unit shear, wind', plf, windFormat, [v], source);
  return { wind, seismic: computed('v_s', 'nominal unit shear, seismic', plf, seismicFormat, [wind], source) };
}
const windFormat = formula('2.8 * v_a');
const seismicFormat = formula('v_w / 1.4');

/** Plate washers of shear-wall sill bolts. SDPWS 2015 4.3.6.4.3 (from memory; hole and slot also found in IBC 2006 2305.3.11). */
export const plateWasherRule = {
  section: section('SDPWS 2015', '4.3.6.4.3', 'from-memory'),
  thickIn: 0.229,
  sideIn: 3,
  slotWidthOverBoltIn: 0.1875,
  slotLengthIn: 1.75,
  gapToSheathedEdgeIn: 0.5,
  gapCountsAboveNominalPlf: 400,
  /** Cut washers will do where hold-downs take all overturning and the wall is no more slender or heavily loaded than this. */
  cutWasher: { nominalSeismicPlf: 980, nominalWindPlf: 1370, aspect: 2 },
} as const;

/** Sill thickness by unit shear. IBC 2006 2305.3.11, found quoted in an engineers' mailing list of 2008. */
export const thickSillRule = {
  section: section('IBC 2006', '2305.3.11', 'published'),
  threeInchSillAbovePlf: { allowable: 350, strength: 490 },
  twoInchSillDoubleBoltsUpToPlf: { allowable: 600, strength: 840 },
} as const;

export interface PerforatedWall {
  readonly edition: SheathingEdition;
  readonly height: Input<Length>;
  readonly totalLength: Input<Length>;
  /** Lengths of the full-height segments together. */
  readonly fullHeightLength: Input<Length>;
  /** Area of all openings, sq ft. */
  readonly openingAreaSqFt: Input<number>;
}
/**
 * Shear capacity adjustment C_o of a wall with openings, at most 1. SDPWS 2008 and 2015 Eq. 4.3-5 (from memory).
 * Refused for 2021: that printing changed the equation and its text was not at hand.
 */
export function perforatedFactor(wall: PerforatedWall): Outcome<number> {
  const source = perforatedSource(wall.edition);
  if (source === undefined) return refused(changedEquation, section('SDPWS 2021', '4.3.3', 'recalled'));
  const h = asInput('h', 'height of the wall', foot, wall.height);
  const Ltot = asInput('L_tot', 'length of the wall', foot, wall.totalLength);
  const sumL = asInput('sumL', 'full-height segments together', foot, wall.fullHeightLength);
  const Ao = asInput('A_o', 'area of the openings, sq ft', factor, wall.openingAreaSqFt);
  if (sumL.value <= zero) return refused('a wall without full-height segments counts for nothing', source);
  const r = computed('r', 'sheathing area ratio', factor, areaRatio, [Ao, h, sumL], source);
  return computed('C_o', 'perforated-wall factor', factor, perforatedRule, [r, Ltot, sumL], source);
}
const areaRatio = formula('1 / (1 + A_o / (h * sumL))');
const perforatedRule = formula('min(1, r / (3 - 2 * r) * L_tot / sumL)');
const changedEquation = 'the 2021 printing changed this equation, and its text was not at hand';
const perforatedSource = (edition: SheathingEdition): Section | undefined =>
  edition === '2021' ? undefined : section(sheathingEditions[edition].publication, 'Eq. 4.3-5', 'from-memory');

/** C_o where all openings are equally high: height ratio A, full-height share B. SDPWS 2008, 2015 Table 4.3.3.5 (from memory). */
export function perforatedFactorByShares(
  edition: SheathingEdition,
  openingHeightShare: number,
  fullHeightShare: number,
): Outcome<number> {
  const source = perforatedSource(edition);
  if (source === undefined) return refused(changedEquation, section('SDPWS 2021', '4.3.3', 'recalled'));
  const A = given('A', 'opening height over wall height', factor, openingHeightShare);
  const B = given('B', 'full-height share of the length', factor, fullHeightShare);
  return computed(
    'C_o',
    'perforated-wall factor',
    factor,
    sharesRule,
    [A, B],
    section(source.publication, 'Table 4.3.3.5', 'from-memory'),
  );
}
const sharesRule = formula('min(1, 1 / (B + 3 * A * (1 - B)))');

/** End force T = C of a perforated wall, lb: V h / (C_o ΣL). SDPWS 4.3.6.1.2; the formula was found in a mailing list of 2003. */
export function perforatedEndForce(
  shear: Input<Force>,
  height: Input<Length>,
  Co: Input<number>,
  fullHeightLength: Input<Length>,
): Traced<Force> {
  return computed(
    'T',
    'end tension of the perforated wall',
    pound,
    endForceRule,
    perforatedInputs(shear, height, Co, fullHeightLength),
    perforatedEnds,
  );
}
/** Shear in the sill and uplift between the ends, plf: V / (C_o ΣL). SDPWS 2008, 2015 4.3.6.4.1 and 4.3.6.4.2.1 (from memory). */
export function perforatedSillShear(
  shear: Input<Force>,
  Co: Input<number>,
  fullHeightLength: Input<Length>,
): Traced<ForcePerLength> {
  const [V, , factorCo, sumL] = perforatedInputs(shear, zero, Co, fullHeightLength);
  return computed(
    't',
    'sill shear and uplift between the ends',
    plf,
    sillShearRule,
    [V, factorCo, sumL],
    section('SDPWS 2015', '4.3.6.4', 'from-memory'),
  );
}
function perforatedInputs(
  shear: Input<Force>,
  height: Input<Length>,
  Co: Input<number>,
  length: Input<Length>,
): readonly [Trace, Trace, Trace, Trace] {
  return [
    asInput('V', 'shear in the wall', pound, shear),
    asInput('h', 'height of the wall', foot, height),
    asInput('C_o', 'perforated-wall factor', factor, Co),
    asInput('sumL', 'full-height segments together', foot, length),
  ];
}
const perforatedEnds = section('SDPWS 2015', '4.3.6.1.2', 'published');
const endForceRule = formula('V * h / (C_o * sumL)');
const sillShearRule = formula('V / (C_o * sumL)');
