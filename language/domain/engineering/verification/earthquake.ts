import { inPounds, kips, pounds } from '../../units/force.ts';
import { feet } from '../../units/length.ts';
import {
  approximatePeriod,
  baseShear,
  cappedAcceleration,
  existingBuildingShear,
  responseCoefficient,
  uniformCodeAllowable,
  uniformCodeCoefficient,
} from '../demand/base-shear.ts';
import { allowableCombinations, allowableForce } from '../demand/load-combinations.ts';
import type { HazardEdition, RiskCategory, Site, SiteClass } from '../demand/site-coefficients.ts';
import {
  accelerationsFrom,
  categoryLimits,
  designAccelerations,
  designCategory,
  designOneSecond,
  designShort,
  oneSecondCoefficient,
  shortPeriodCoefficient,
  siteClasses,
} from '../demand/site-coefficients.ts';
import { levelForce } from '../demand/vertical-distribution.ts';
import { isRefused } from '../trace.ts';
import type { CheckEntry, Recomputation, RecomputedValue } from './check-entry.ts';
import { noValue, numberAt, numbersAt, recomputation, textAt, values } from './check-entry.ts';

/** Equivalent lateral force: ASCE 7 chapters 11 and 12. */
export const earthquakeRecomputations: readonly Recomputation[] = [
  recomputation({
    topic: '5-elf-site',
    when: (entry) => Array.isArray(entry.inputs.SS) || Array.isArray(entry.inputs.S1),
    compute: (_input, entry) => {
      const edition = hazardEdition(entry);
      if (!edition) return noValue('the source names no edition of the site tables');
      const short = numbersAt(entry.inputs, 'SS');
      const columns = short ?? numbersAt(entry.inputs, 'S1') ?? [];
      const cell = (siteClass: SiteClass, mapped: number): RecomputedValue => {
        const site: Site = { edition, siteClass, byDefault: false, SS: mapped, S1: mapped };
        const coefficient = short ? shortPeriodCoefficient(site) : oneSecondCoefficient(site);
        return isRefused(coefficient) ? '11.4.8' : coefficient.number;
      };
      return values(
        Object.fromEntries(
          siteClasses.map((siteClass) => [siteClass, columns.map((mapped) => cell(siteClass, mapped))]),
        ),
      );
    },
  }),
  recomputation({
    topic: '5-elf',
    needs: ['SS', 'S1'],
    when: (entry) => isSiteClass(textAt(entry.inputs, 'site_class')),
    compute: (input, entry) => {
      const edition = hazardEdition(entry);
      const siteClass = textAt(entry.inputs, 'site_class');
      if (!edition || !isSiteClass(siteClass)) return noValue('the source names no edition of the site tables');
      const byDefault = entry.inputs.site_class_by_default === true;
      const found = designAccelerations({ edition, siteClass, byDefault, SS: input.SS, S1: input.S1 });
      if (isRefused(found)) return noValue(found.reason);
      const risk = riskCategory(entry) ?? 'II';
      return values({
        Fa: found.Fa.number,
        Fv: found.Fv.number,
        SMS: found.SMS.number,
        SM1: found.SM1.number,
        SDS: found.SDS.number,
        SD1: found.SD1.number,
        SDC: designCategory(found.SDS, found.SD1, input.S1, risk),
      });
    },
  }),
  recomputation({
    topic: '5-elf-sdc',
    compute: () => {
      const limits = ({ B, C, D }: { readonly B: number; readonly C: number; readonly D: number }) => ({
        'A<': B,
        'B<': C,
        'C<': D,
        'D>=': D,
      });
      return values({
        SDS_limits: limits(categoryLimits.SDS),
        SD1_limits: limits(categoryLimits.SD1),
        E_when_S1_ge: categoryLimits.nearFaultS1,
      });
    },
  }),
  recomputation({
    topic: '5-elf',
    needs: ['SS', 'S1', 'Fa', 'Fv', 'hn_ft', 'Ct', 'x'],
    compute: (input) => {
      const site = accelerationsFrom(input.Fa, input.Fv, input.SS, input.S1);
      return values({
        SMS: site.SMS.number,
        SM1: site.SM1.number,
        SDS: site.SDS.number,
        SD1: site.SD1.number,
        Ta_s: approximatePeriod(feet(input.hn_ft), input.Ct, input.x).number,
      });
    },
  }),
  recomputation({
    topic: '5-elf',
    needs: ['SMS', 'SM1', 'hn_ft', 'Ct', 'x', 'TL_s', 'R_over_Ie'],
    compute: (input, entry) => {
      const SDS = designShort(input.SMS);
      const SD1 = designOneSecond(input.SM1);
      const Ta = approximatePeriod(feet(input.hn_ft), input.Ct, input.x);
      const S1 = numberAt(entry.inputs, 'S1');
      const response = responseCoefficient({
        SDS,
        SD1,
        ...(S1 === undefined ? {} : { S1 }),
        period: Ta,
        longPeriod: input.TL_s,
        R: input.R_over_Ie,
        importance: 1,
      });
      return values({
        SDS: SDS.number,
        SD1: SD1.number,
        Ta_s: Ta.number,
        Cs: response.Cs.number,
        Cs_max: response.upperShort.number,
        Cs_max_long: response.upperLong.number,
        Cs_min: response.lower.number,
      });
    },
  }),
  recomputation({
    topic: '5-elf-vertical',
    needs: ['V_kip', 'Cs'],
    compute: (input, entry) => {
      const shares = Object.entries(entry.inputs).filter(([key]) => key.startsWith('Cvx'));
      const forces = shares.flatMap(([key, share]) =>
        typeof share === 'number' ? [inPounds(levelForce(share, kips(input.V_kip), key).value) / 1000] : [],
      );
      return values({ Fx_kip: forces, V_ASD_over_W_rho1: allowableCombinations(0, 1).earthquake.number * input.Cs });
    },
  }),
  recomputation({
    topic: '5-elf-combos',
    needs: ['SDS', 'rho'],
    compute: (input) => {
      const factors = allowableCombinations(input.SDS, input.rho);
      return values({
        D_factor_max: factors.deadAdding.number,
        D_factor_min: factors.deadResisting.number,
        E_factor: factors.earthquake.number,
      });
    },
  }),
  recomputation({
    topic: '5-elf-base-shear',
    needs: ['SDS', 'R', 'Ie', 'W_lb'],
    compute: (input) => {
      const weight = pounds(input.W_lb);
      // No period and no S_D1 are given, so only Eq. 12.8-2 can be worked: the upper limits are left out by an S_D1 without end.
      const { fromSDS } = responseCoefficient({
        SDS: input.SDS,
        SD1: Number.MAX_VALUE,
        period: 1,
        longPeriod: 1,
        R: input.R,
        importance: input.Ie,
      });
      const strength = baseShear(fromSDS, weight);
      const allowable = allowableForce(strength, 1);
      return values({
        Cs: fromSDS.number,
        V_strength_lb: strength.number,
        V_ASD_lb: allowable.number,
        V_ASD_75pct_lb: allowableForce(existingBuildingShear(strength), 1).number,
      });
    },
  }),
  recomputation({
    topic: '5-elf-base-shear',
    needs: ['SDS_computed', 'stories_max', 'T_max_s', 'rho'],
    compute: (input, entry) => {
      const siteClass = textAt(entry.inputs, 'site_class') ?? 'D';
      const capped = cappedAcceleration(input.SDS_computed, {
        regular: entry.inputs.regular === true,
        storeys: input.stories_max,
        period: input.T_max_s,
        redundancy: input.rho,
        siteClass: isSiteClass(siteClass) ? siteClass : undefined,
        riskCategory: riskCategory(entry),
      });
      const byR = Object.keys(entry.expected).flatMap((key) => {
        const R = /^Cs_R(\d+(?:p\d+)?)$/.exec(key)?.[1]?.replace('p', '.');
        if (R === undefined) return [];
        const { fromSDS } = responseCoefficient({
          SDS: capped,
          SD1: Number.MAX_VALUE,
          period: 1,
          longPeriod: 1,
          R: Number(R),
          importance: 1,
        });
        return [[key, fromSDS.number] as const];
      });
      return values({ SDS_for_Cs: capped.number, ...Object.fromEntries(byR) });
    },
  }),
  recomputation({
    topic: '5-elf-base-shear',
    needs: ['R', 'Na', 'I'],
    compute: (input) => {
      const coefficient = uniformCodeCoefficient(input.Na, input.I, input.R);
      return values({ V_strength_over_W: coefficient.number, V_ASD_over_W: uniformCodeAllowable(coefficient).number });
    },
  }),
];

/** The edition of ASCE 7 that a source names, or that the building code it names takes. */
function hazardEdition(entry: CheckEntry): HazardEdition | undefined {
  const words = `${entry.source} ${entry.section}`;
  if (/asce ?7-?16/i.test(words)) return 'ASCE 7-16';
  if (/asce ?7-?10/i.test(words)) return 'ASCE 7-10';
  if (/IBC 20(?:18|21)/.test(words)) return 'ASCE 7-16';
  return /IBC 20(?:12|15)/.test(words) ? 'ASCE 7-10' : undefined;
}
const isSiteClass = (text: string | undefined): text is SiteClass =>
  text !== undefined && (siteClasses as readonly string[]).includes(text);
function riskCategory(entry: CheckEntry): RiskCategory | undefined {
  const text = textAt(entry.inputs, 'risk_category');
  return text === 'I' || text === 'II' || text === 'III' || text === 'IV' ? text : undefined;
}
