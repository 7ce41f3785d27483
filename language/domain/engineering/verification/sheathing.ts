import { pounds, poundsPerFoot } from '../../units/force.ts';
import { feet } from '../../units/length.ts';
import { overturning } from '../capacity/overturning.ts';
import type {
  EdgeSpacing,
  LateralLoad,
  PanelGrade,
  PanelNail,
  PanelThickness,
  SheathingEdition,
} from '../capacity/shear-wall.ts';
import {
  allowableUnitShear,
  aspectRatio,
  framingFactor,
  nominalFromOldAllowable,
  nominalUnitShear,
  perforatedEndForce,
  perforatedFactorByShares,
  plateWasherRule,
  sheathingEditions,
  slendernessFactor,
  strengthUnitShear,
  thickSillRule,
} from '../capacity/shear-wall.ts';
import { allowableCombinations } from '../demand/load-combinations.ts';
import { isRefused } from '../trace.ts';
import type { CheckEntry, Recomputation, Recomputed } from './check-entry.ts';
import { noValue, numberAt, numbersAt, recomputation, textAt, values } from './check-entry.ts';

/** Wood structural panel walls and their ends: SDPWS 4.3, statics. */
export const sheathingRecomputations: readonly Recomputation[] = [
  recomputation({
    topic: '4-sdpws',
    gives: ['vs_seismic_nominal_plf', 'vw_wind_nominal_plf'],
    when: (entry) => textAt(entry.inputs, 'panel_grade') !== undefined,
    compute: (_input, entry) => tabulatedShears(entry),
  }),
  recomputation({
    topic: '4-sdpws',
    needs: ['nominal_plf'],
    compute: (input, entry) => {
      const edition = textAt(entry.inputs, 'edition') ?? '';
      const load = textAt(entry.inputs, 'load') ?? 'seismic';
      if (!isEdition(edition)) return noValue(`no factors are listed for the ${edition || 'unnamed'} edition`);
      if (!isLoad(load)) return noValue(`"${load}" is neither seismic nor wind`);
      const nominal = poundsPerFoot(input.nominal_plf);
      return values({
        ASD_plf: allowableUnitShear(nominal, edition, load).number,
        LRFD_plf: strengthUnitShear(nominal, edition, load).number,
      });
    },
  }),
  recomputation({
    topic: '4-sdpws',
    needs: ['asd_allowable_plf'],
    compute: (input) => {
      const { wind, seismic } = nominalFromOldAllowable(poundsPerFoot(input.asd_allowable_plf));
      return values({ vw_wind_nominal_plf: wind.number, vs_seismic_nominal_plf: seismic.number });
    },
  }),
  recomputation({
    topic: '4-sdpws',
    needs: ['h_ft', 'bs_ft'],
    compute: (input) => {
      const height = feet(input.h_ft);
      const length = feet(input.bs_ft);
      const ratio = aspectRatio(height, length);
      const strength = slendernessFactor(height, length, 'strength');
      const sharing = slendernessFactor(height, length, 'sharing');
      const h_over_b = input.h_ft / input.bs_ft;
      if (isRefused(ratio) || isRefused(strength) || isRefused(sharing)) return values({ h_over_b, allowed: false });
      return values({
        h_over_b: ratio.number,
        allowed: true,
        WSP_factor: strength.number,
        two_b_over_h: sharing.number,
      });
    },
  }),
  recomputation({
    topic: '4-sdpws',
    needs: ['max_opening_height_over_h', 'full_height_fraction'],
    compute: (input, entry) => {
      if (entry.inputs.all_openings_at_max_height === false) return noValue('the table is for openings of one height');
      const edition = /2008|2015|2021/.exec(entry.source)?.[0] ?? '2015';
      const Co = perforatedFactorByShares(
        isEdition(edition) ? edition : '2015',
        input.max_opening_height_over_h,
        input.full_height_fraction,
      );
      return isRefused(Co) ? noValue(Co.reason) : values({ Co: Co.number });
    },
  }),
  recomputation({
    topic: '4-sdpws',
    needs: ['G'],
    gives: ['factor'],
    compute: (input) => values({ factor: framingFactor(input.G).number }),
  }),
  recomputation({
    topic: '4-sdpws-washer',
    compute: () => {
      const rule = plateWasherRule;
      return values({
        plate_in: [rule.thickIn, rule.sideIn, rule.sideIn],
        slot_width_over_bolt_in_max: rule.slotWidthOverBoltIn,
        slot_length_in_max: rule.slotLengthIn,
        max_gap_plate_to_sheathed_edge_in: rule.gapToSheathedEdgeIn,
        gap_rule_applies_above_nominal_plf: rule.gapCountsAboveNominalPlf,
        cut_washer_exception_max_nominal_seismic_plf: rule.cutWasher.nominalSeismicPlf,
        cut_washer_exception_max_nominal_wind_plf: rule.cutWasher.nominalWindPlf,
        cut_washer_exception_max_aspect: rule.cutWasher.aspect,
      });
    },
  }),
  recomputation({
    topic: '2-irc-ibc',
    gives: ['three_x_sill_above_plf_ASD'],
    compute: () => {
      const { threeInchSillAbovePlf: three, twoInchSillDoubleBoltsUpToPlf: two } = thickSillRule;
      return values({
        washer_in: [plateWasherRule.thickIn, plateWasherRule.sideIn, plateWasherRule.sideIn],
        slot_width_over_bolt_in_max: plateWasherRule.slotWidthOverBoltIn,
        slot_length_in_max: plateWasherRule.slotLengthIn,
        three_x_sill_above_plf_ASD: three.allowable,
        three_x_sill_above_plf_LRFD: three.strength,
        two_x_sill_with_double_bolts_up_to_plf_ASD: two.allowable,
        two_x_sill_with_double_bolts_up_to_plf_LRFD: two.strength,
      });
    },
  }),
  recomputation({
    topic: '7-hold-down',
    needs: ['V_lb', 'h_ft', 'Co', 'sumLi_ft'],
    compute: (input) =>
      values({ T_lb: perforatedEndForce(pounds(input.V_lb), feet(input.h_ft), input.Co, feet(input.sumLi_ft)).number }),
  }),
  recomputation({
    topic: '7-hold-down',
    needs: ['V_ASD_lb', 'h_ft', 'b_ft', 'arm_ft', 'w_dead_plf'],
    compute: (input, entry) => {
      const SDS = numberAt(entry.inputs, 'SDS');
      const deadFactor =
        numberAt(entry.inputs, 'dead_factor') ??
        (SDS === undefined ? undefined : allowableCombinations(SDS, 1).deadResisting.value);
      if (deadFactor === undefined) return noValue('neither a dead-load factor nor S_DS is given');
      const ends = overturning({
        shear: pounds(input.V_ASD_lb),
        height: feet(input.h_ft),
        length: feet(input.b_ft),
        arm: feet(input.arm_ft),
        deadLoad: poundsPerFoot(input.w_dead_plf),
        deadFactor,
      });
      if (isRefused(ends)) return noValue(ends.reason);
      return values({
        unit_shear_plf: ends.unitShear.number,
        T_lb: ends.tension.number,
        uplift: ends.uplift,
        dead_factor: deadFactor,
      });
    },
  }),
];

function tabulatedShears(entry: CheckEntry): Recomputed {
  const panel = {
    grade: textAt(entry.inputs, 'panel_grade') as PanelGrade,
    thickness: textAt(entry.inputs, 'thickness_in') as PanelThickness,
    nail: textAt(entry.inputs, 'nail') as PanelNail,
  };
  if (entry.inputs.blocked === false) return noValue('the table is for blocked panels');
  const framing = framingFactor(numberAt(entry.inputs, 'framing_G') ?? 0.5).number;
  const column = (load: LateralLoad): readonly number[] | string => {
    const shears: number[] = [];
    for (const spacing of numbersAt(entry.inputs, 'edge_spacing_in') ?? []) {
      if (![6, 4, 3, 2].includes(spacing)) return `the table has no column for nails at ${spacing} in`;
      const shear = nominalUnitShear({ ...panel, edgeSpacing: spacing as EdgeSpacing }, '2015', load);
      if (isRefused(shear)) return shear.reason;
      shears.push(shear.number * framing);
    }
    return shears;
  };
  const seismic = column('seismic');
  const wind = column('wind');
  if (typeof seismic === 'string') return noValue(seismic);
  if (typeof wind === 'string') return noValue(wind);
  return values({ vs_seismic_nominal_plf: seismic, vw_wind_nominal_plf: wind });
}

const isEdition = (text: string): text is SheathingEdition => Object.hasOwn(sheathingEditions, text);
const isLoad = (text: string): text is LateralLoad => text === 'seismic' || text === 'wind';
