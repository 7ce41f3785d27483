import { squareInches } from '../../units/area.ts';
import { pounds } from '../../units/force.ts';
import { inches, inInches } from '../../units/length.ts';
import { poundsPerSquareInch as psi } from '../../units/stress.ts';
import type { EdgeCondition } from '../capacity/concrete-anchor.ts';
import {
  designStrength,
  earthquakeFactors,
  edgeConditions,
  hookPullout,
  leastDistances,
  pryout,
  resistanceFactor,
  shearBreakout,
  steelShear,
  steelTension,
  tensionBreakout,
  threadArea,
  usableSteelStrength,
} from '../capacity/concrete-anchor.ts';
import { sillBoltExemption } from '../capacity/sill-bolt.ts';
import { isRefused } from '../trace.ts';
import type { CheckEntry, Recomputation } from './check-entry.ts';
import { noValue, numberAt, recomputation, values } from './check-entry.ts';

/** Anchors in concrete: ACI 318 chapter 17. */
export const concreteRecomputations: readonly Recomputation[] = [
  recomputation({
    topic: '6-aci-shear',
    needs: ['da_in', 'hef_in', 'fc_psi', 'ca1_in'],
    compute: (input, entry) => {
      const end = numberAt(entry.inputs, 'ca2_in');
      const depth = numberAt(entry.inputs, 'ha_in');
      const condition = edgeCondition(entry);
      if (!condition) return noValue('no condition of the edge has this crack factor');
      const cone = shearBreakout({
        diameter: inches(input.da_in),
        embedment: inches(input.hef_in),
        concrete: psi(input.fc_psi),
        edge: inches(input.ca1_in),
        ...(end === undefined ? {} : { alongLeft: inches(end) }),
        ...(depth === undefined ? {} : { depth: inches(depth) }),
        condition,
        lightweight: numberAt(entry.inputs, 'lambda_a') ?? 1,
      });
      if (isRefused(cone)) return noValue(cone.reason);
      const phi = resistanceFactor({
        limit: 'concrete-shear',
        ductileSteel: true,
        supplementaryBars: false,
        installation: 'cast-in',
      });
      return values({
        le_in: cone.loadLength.number,
        Vb1_lb: cone.basicByDiameter.number,
        Vb2_lb: cone.basicByEdge.number,
        Vb_lb: cone.basic.number,
        AVc_over_AVco: cone.areaRatio.number,
        psi_ed: cone.edgeFactor.number,
        psi_h: cone.depthFactor.number,
        Vcb_lb: cone.perpendicular.number,
        Vcb_perp_lb: cone.perpendicular.number,
        Vcb_par_lb: cone.parallel.number,
        phi_Vcb_perp_lb: designStrength(cone.perpendicular, phi).number,
        phi_Vcb_par_lb: designStrength(cone.parallel, phi).number,
      });
    },
  }),
  recomputation({
    topic: '6-aci-steel',
    needs: ['da_in', 'futa_psi', 'fya_psi'],
    compute: (input, entry) => {
      const area = threadArea(inches(input.da_in));
      if (isRefused(area)) return noValue(area.reason);
      const usable = usableSteelStrength(psi(input.futa_psi), psi(input.fya_psi));
      const stud = /stud/.test(String(entry.inputs.type ?? ''));
      const tension = steelTension(area, usable);
      const shear = steelShear(area, usable, stud ? 'headed-stud' : 'headed-bolt', entry.inputs.grout_pad === true);
      const phi = (limit: 'steel-tension' | 'steel-shear') =>
        resistanceFactor({ limit, ductileSteel: true, supplementaryBars: false, installation: 'cast-in' });
      return values({
        Ase_in2: area.number,
        Nsa_lb: tension.number,
        Vsa_lb: shear.number,
        phi_Nsa_ductile_lb: designStrength(tension, phi('steel-tension')).number,
        phi_Vsa_ductile_lb: designStrength(shear, phi('steel-shear')).number,
      });
    },
  }),
  recomputation({
    topic: '6-aci-tension',
    needs: ['hef_in', 'fc_psi'],
    compute: (input, entry) => {
      const cone = tensionBreakout({
        embedment: inches(input.hef_in),
        concrete: psi(input.fc_psi),
        edges: {},
        installation: 'cast-in',
        cracked: entry.inputs.cracked !== false,
      });
      if (isRefused(cone)) return noValue(cone.reason);
      const earthquake = numberAt(entry.inputs, 'seismic_factor') ?? 1;
      const phi = (limit: 'steel-tension' | 'concrete-tension') =>
        resistanceFactor({ limit, ductileSteel: true, supplementaryBars: false, installation: 'cast-in' });
      const computed: Record<string, number> = {
        Nb_lb: cone.basic.number,
        ANco_in2: cone.fullArea.number,
        Ncb_lb: cone.strength.number,
        phi_seis_Ncb_lb: designStrength(cone.strength, phi('concrete-tension'), earthquake).number,
      };
      const area = numberAt(entry.inputs, 'Ase_in2');
      const tensile = numberAt(entry.inputs, 'futa_psi');
      if (area !== undefined && tensile !== undefined) {
        const steel = steelTension(squareInches(area), psi(tensile));
        computed.phi_seis_Nsa_lb = designStrength(steel, phi('steel-tension'), earthquake).number;
      }
      const hook = numberAt(entry.inputs, 'eh_in');
      const diameter = numberAt(entry.inputs, 'da_in');
      if (hook !== undefined && diameter !== undefined) {
        const pullout = hookPullout(inches(diameter), inches(hook), psi(input.fc_psi), entry.inputs.cracked !== false);
        if (isRefused(pullout)) return noValue(pullout.reason);
        computed.Np_hook_lb = pullout.number;
      }
      return values(computed);
    },
  }),
  recomputation({
    topic: '6-aci-pryout',
    needs: ['hef_in', 'Ncb_lb'],
    compute: (input) => {
      const { coefficient, strength } = pryout(inches(input.hef_in), pounds(input.Ncb_lb));
      return values({ kcp: coefficient.number, Vcp_lb: strength.number });
    },
  }),
  recomputation({
    topic: '6-aci-limits',
    needs: ['da_in'],
    compute: (input) => {
      const diameter = inches(input.da_in);
      const plain = leastDistances(diameter, 'cast-in', false);
      const torqued = leastDistances(diameter, 'cast-in', true);
      return values({
        min_spacing_cast_in_untorqued_in: plain.spacing.number,
        min_spacing_torqued_or_post_installed_in: torqued.spacing.number,
        ...(torqued.edge ? { min_edge_torqued_in: torqued.edge.number } : {}),
      });
    },
  }),
  recomputation({
    topic: '6-aci-seismic',
    compute: () =>
      values({ concrete_tension_factor: earthquakeFactors.concreteTension, shear_factor: earthquakeFactors.shear }),
  }),
  recomputation({
    topic: '6-ibc-exemption',
    compute: () => {
      const rule = sillBoltExemption;
      return values({
        capacity_from: { statement: rule.capacityFrom, mentions: ['NDS', '12E', 'parallel'] },
        max_diameter_in: inInches(rule.greatestDiameter),
        min_embedment_in: inInches(rule.leastEmbedment),
        min_edge_in: inInches(rule.leastEdge),
        min_end_distance_diameters: rule.leastEndDiameters,
        sill_nominal_in: rule.sillNominalThick,
      });
    },
  }),
];

/** By the crack factor where one is stated, else by the word. `undefined`: a factor that no condition has. */
function edgeCondition(entry: CheckEntry): EdgeCondition | undefined {
  const factor = numberAt(entry.inputs, 'psi_cV');
  if (factor === undefined) return entry.inputs.cracked === false ? 'uncracked' : 'cracked-no-bar';
  return edgeConditionNames.find((name) => edgeConditions[name].value === factor);
}
const edgeConditionNames: readonly EdgeCondition[] = ['uncracked', 'cracked-no-bar', 'cracked-bar'];
