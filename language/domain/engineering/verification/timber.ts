import { pounds, poundsPerFoot } from '../../units/force.ts';
import { inches } from '../../units/length.ts';
import type { Stress } from '../../units/stress.ts';
import { poundsPerSquareInch as psi } from '../../units/stress.ts';
import { adjustedLateral, loadDurationFactors } from '../capacity/connection-adjustment.ts';
import { bearingAtAngle, tabulatedSteels, woodBearing } from '../capacity/dowel-bearing.ts';
import { bendingYield, lagScrews, woodScrews } from '../capacity/fasteners.ts';
import { neededConnectors, widestSpacing } from '../capacity/sill-bolt.ts';
import type { WithdrawnFastener } from '../capacity/withdrawal.ts';
import { withdrawal } from '../capacity/withdrawal.ts';
import type { YieldLimit, YieldLimitCase } from '../capacity/yield-limit.ts';
import { yieldLimit } from '../capacity/yield-limit.ts';
import type { Traced } from '../trace.ts';
import { isRefused } from '../trace.ts';
import type { CheckEntry, Recomputation, RecomputedRecord } from './check-entry.ts';
import { noValue, numberAt, numbersAt, recomputation, values } from './check-entry.ts';

/** Dowel connections in wood: NDS chapters 11 and 12. */
export const timberRecomputations: readonly Recomputation[] = [
  recomputation({
    topic: '3-nds',
    needs: ['D_in', 'Fyb_psi', 'ls_in', 'lm_in', 'Fem_psi'],
    gives: ['Z_par_lb', 'Z_perp_lb'],
    compute: (input, entry) => {
      const bearing = sideBearings(entry, input.D_in);
      if (typeof bearing === 'string') return noValue(bearing);
      const duration = numberAt(entry.inputs, 'CD') ?? 1;
      const sill = (side: Stress, angleToGrain: number): YieldLimit =>
        single({
          diameter: inches(input.D_in),
          mainLength: inches(input.lm_in),
          sideLength: inches(input.ls_in),
          mainBearing: psi(input.Fem_psi),
          sideBearing: side,
          bendingYield: psi(input.Fyb_psi),
          angleToGrain,
        });
      const par = sill(bearing.along, 0);
      const perp = sill(bearing.across, 90);
      return values({
        Z_par_lb: par.number * duration,
        Z_perp_lb: perp.number * duration,
        mode_par: par.mode,
        mode_perp: perp.mode,
      });
    },
  }),
  recomputation({
    topic: '3-nds',
    needs: ['D_in', 'Fyb_psi', 'ts_in', 'tm_in'],
    compute: (input, entry) => {
      const bearing = sideBearings(entry, input.D_in);
      if (typeof bearing === 'string') return noValue(bearing);
      const joint = (main: Stress, side: Stress, angleToGrain: number): number =>
        single({
          diameter: inches(input.D_in),
          mainLength: inches(input.tm_in),
          sideLength: inches(input.ts_in),
          mainBearing: main,
          sideBearing: side,
          bendingYield: psi(input.Fyb_psi),
          angleToGrain,
        }).number;
      const { along, across } = bearing;
      return values({
        Z_par_lb: joint(along, along, 0),
        Zs_perp_lb: joint(along, across, 90),
        Zm_perp_lb: joint(across, along, 90),
        Z_perp_lb: joint(across, across, 90),
      });
    },
  }),
  recomputation({
    topic: '3-nds',
    needs: ['D_in', 'Fem_psi', 'Fes_psi', 'lm_in', 'ls_in', 'Fyb_psi', 'theta_deg'],
    compute: (input) => {
      const limit = single({
        diameter: inches(input.D_in),
        mainLength: inches(input.lm_in),
        sideLength: inches(input.ls_in),
        mainBearing: psi(input.Fem_psi),
        sideBearing: psi(input.Fes_psi),
        bendingYield: psi(input.Fyb_psi),
        angleToGrain: input.theta_deg,
      });
      const modes = Object.fromEntries([...limit.modes].map(([mode, value]) => [`${mode}_lb`, value.number]));
      return values({ ...modes, Z_lb: limit.number, governs: limit.mode });
    },
  }),
  recomputation({
    topic: '3-nds',
    needs: ['D_in', 'Dr_in', 'Fyb_psi', 'plate_t_in', 'Fes_psi', 'penetration_in'],
    compute: (input, entry) => {
      const gravities = numbersAt(entry.inputs, 'G');
      if (!gravities) return noValue('no specific gravity is given');
      const number = numberAt(entry.inputs, 'screw_no');
      if (
        number !== undefined &&
        !woodScrews.some((size) => size.number === number && size.nominal === input.D_in && size.root === input.Dr_in)
      ) {
        return noValue(`No. ${number} wood screws are not ${input.D_in} in with a root of ${input.Dr_in} in`);
      }
      const onSteel = (gravity: number, angleToGrain: number): YieldLimit =>
        single({
          diameter: inches(input.Dr_in),
          nominal: inches(input.D_in),
          mainLength: inches(input.penetration_in),
          sideLength: inches(input.plate_t_in),
          mainBearing: woodBearing({ gravity, diameter: inches(input.D_in), angleToGrain }),
          sideBearing: psi(input.Fes_psi),
          bendingYield: psi(input.Fyb_psi),
          angleToGrain,
        });
      const along = gravities.map((gravity) => onSteel(gravity, 0));
      const across = gravities.map((gravity) => onSteel(gravity, 90));
      const many = Array.isArray(entry.inputs.G);
      const list = (limits: readonly YieldLimit[]) =>
        many ? limits.map((limit) => limit.number) : (limits[0]?.number ?? Number.NaN);
      return values({
        Z_par_lb: list(along),
        Z_perp_lb: list(across),
        Z_lb: Object.fromEntries(
          gravities.map((gravity, index) => [String(gravity), along[index]?.number ?? Number.NaN]),
        ),
        mode: along[0]?.mode ?? '',
      });
    },
  }),
  recomputation({
    topic: '3-nds-dowel-bearing',
    needs: ['G'],
    compute: (input, entry) => {
      const diameters = numbersAt(entry.inputs, 'D_in') ?? [];
      const at = (diameter: number, angleToGrain: number): number =>
        woodBearing({ gravity: input.G, diameter: inches(diameter), angleToGrain }).number;
      return values({
        Fe_par_psi: at(diameters[0] ?? 0.5, 0),
        // JSON keys of whole numbers are written 1.0 as well as 1.
        Fe_perp_psi: Object.fromEntries(
          diameters.flatMap((each) => [String(each), each.toFixed(1)].map((key) => [key, at(each, 90)])),
        ),
        Fe_D_lt_quarter_psi: at(0.2, 0),
      });
    },
  }),
  recomputation({
    topic: '3-nds',
    needs: ['Fe_par_psi', 'Fe_perp_psi', 'theta_deg'],
    compute: (input) =>
      values({ Fe_theta_psi: bearingAtAngle(psi(input.Fe_par_psi), psi(input.Fe_perp_psi), input.theta_deg).number }),
  }),
  recomputation({
    topic: '3-nds-fastener-props',
    gives: ['bolt_psi'],
    compute: (_input, entry) => {
      const yieldByKey: Record<string, number> = { bolt_psi: bendingYield('bolt', inches(0.5)).number };
      for (const key of Object.keys(entry.expected)) {
        const size = sizeInKey(key);
        if (size === undefined) continue;
        yieldByKey[key] = bendingYield(key.startsWith('lag') ? 'lag-screw' : 'wood-screw', inches(size)).number;
      }
      return values(yieldByKey);
    },
  }),
  recomputation({
    topic: '3-nds-fastener-props',
    gives: ['Dr_in'],
    when: (entry) => !Object.hasOwn(entry.expected, 'D_in'),
    compute: () => values({ Dr_in: Object.fromEntries(lagScrews.map((each) => [each.label, each.root])) }),
  }),
  recomputation({
    topic: '3-nds-fastener-props',
    gives: ['D_in'],
    compute: () =>
      values({
        D_in: Object.fromEntries(woodScrews.map((each) => [String(each.number), each.nominal])),
        Dr_in: Object.fromEntries(woodScrews.map((each) => [String(each.number), each.root])),
      }),
  }),
  recomputation({
    topic: '3-nds-fastener-props',
    gives: ['steel_psi'],
    compute: () =>
      values({
        steel_psi: Object.fromEntries(Object.entries(tabulatedSteels).map(([name, steel]) => [name, steel.printed])),
      }),
  }),
  recomputation({
    topic: '3-nds-adjustment',
    gives: ['permanent', 'wind_or_earthquake'],
    compute: () => {
      const spelled = Object.entries(loadDurationFactors).map(([name, value]) => [name.replaceAll('-', '_'), value]);
      return values({ ...Object.fromEntries(spelled), impact_max: loadDurationFactors.impact } as RecomputedRecord);
    },
  }),
  recomputation({
    topic: '3-nds',
    needs: ['Z_perp_lb', 'CD', 'top_reaction_plf', 'bolt_spacing_ft'],
    compute: (input) => {
      const adjusted = adjustedLateral(pounds(input.Z_perp_lb), { loadDuration: input.CD }).number;
      const demand = input.top_reaction_plf * input.bolt_spacing_ft;
      return values({ Z_adj_lb: adjusted, demand_per_bolt_lb: demand, passes: demand <= adjusted });
    },
  }),
  recomputation({
    topic: '3-nds',
    needs: ['Z_par_lb', 'CD'],
    compute: (input, entry) => {
      const optional = (key: string): number => numberAt(entry.inputs, key) ?? 1;
      const adjusted = adjustedLateral(pounds(input.Z_par_lb), {
        loadDuration: input.CD,
        wetService: optional('CM'),
        temperature: optional('Ct'),
        groupAction: optional('Cg'),
        geometry: optional('C_delta'),
      });
      return values({ Z_adj_lb: adjusted.number });
    },
  }),
  recomputation({
    topic: '3-nds-withdrawal',
    needs: ['G', 'D_in'],
    compute: (input, entry) => {
      const kind = withdrawnFastener(entry);
      if (!kind) return noValue('neither section nor name says which fastener is pulled');
      return values({ W_lb_per_in: withdrawal(kind, input.G, inches(input.D_in)).number });
    },
  }),
  recomputation({
    topic: '7-load-path',
    needs: ['v_ASD_plf', 'Z_par_lb', 'CD'],
    compute: (input, entry) => {
      const each = adjustedLateral(pounds(input.Z_par_lb), { loadDuration: input.CD });
      const spacing = widestSpacing(poundsPerFoot(input.v_ASD_plf), each);
      if (isRefused(spacing)) return noValue(spacing.reason);
      const force = numberAt(entry.inputs, 'V_ASD_lb');
      const needed = force === undefined ? undefined : neededConnectors(pounds(force), each);
      return values({
        max_spacing_in: spacing.number,
        ...(needed && !isRefused(needed) ? { bolts: needed.number } : {}),
      });
    },
  }),
];

const single = (dowel: Omit<YieldLimitCase, 'shear'>): YieldLimit => yieldLimit({ shear: 'single', ...dowel });

/** Bearing strengths along and across the grain: as given, else from the specific gravity. Given both, they must agree. */
function sideBearings(
  entry: CheckEntry,
  diameter: number,
): { readonly along: Stress; readonly across: Stress } | string {
  const givenAt = (...keys: readonly string[]): number | undefined =>
    keys.map((key) => numberAt(entry.inputs, key)).find((value) => value !== undefined);
  const along = givenAt('Fes_par_psi', 'Fe_par_psi');
  const across = givenAt('Fes_perp_psi', 'Fe_perp_psi');
  const gravity = numberAt(entry.inputs, 'G');
  if (gravity === undefined) {
    if (along === undefined || across === undefined) return 'neither G nor both bearing strengths are given';
    return { along: psi(along), across: psi(across) };
  }
  const bearing = (angleToGrain: number): Traced<Stress> =>
    woodBearing({ gravity, diameter: inches(diameter), angleToGrain });
  for (const [stated, ours] of [[along, bearing(0)] as const, [across, bearing(90)] as const]) {
    if (stated !== undefined && Math.abs(stated - ours.number) > 1e-6) {
      return `G ${gravity} gives a bearing strength of ${Math.round(ours.number)} psi, the entry states ${stated}`;
    }
  }
  return { along: bearing(0).value, across: bearing(90).value };
}

/** The upper diameter that a key names: `lag_5_16_in_psi`, `D_0p142_0p177_psi`, `screw_nail_D_le_0p142_psi`, `lag_quarter_in_psi`. */
function sizeInKey(key: string): number | undefined {
  const decimals = [...key.matchAll(/(\d+)p(\d+)/g)].map((match) => Number(`${match[1]}.${match[2]}`));
  if (decimals.length > 0) return decimals.at(-1);
  if (key.includes('quarter')) return 0.25;
  const fraction = /_(\d+)_(\d+)_/.exec(key);
  return fraction ? Number(fraction[1]) / Number(fraction[2]) : undefined;
}

function withdrawnFastener(entry: CheckEntry): WithdrawnFastener | undefined {
  const byEquation: readonly (readonly [string, WithdrawnFastener])[] = [
    ['12.2-1', 'lag-screw'],
    ['12.2-2', 'wood-screw'],
    ['12.2-3', 'nail'],
  ];
  return byEquation.find(([equation]) => entry.section.includes(equation))?.[1];
}
