import { pounds } from '../../units/force.ts';
import { feet, inches, inFeet, inInches } from '../../units/length.ts';
import { poundsPerSquareFoot } from '../../units/stress.ts';
import { masonryTestTorques, torqueFor } from '../capacity/torque.ts';
import { assemblyWeight, layerWeights, permitRecordLoads } from '../demand/assembly-weights.ts';
import type { Storeys } from '../prescriptive.ts';
import {
  bracingShares,
  existingHouseAnchorage,
  fewestBolts,
  newHouseCrippleBracing,
  newHouseCripplePanelSpacingFeet,
  prescriptiveBracing,
  printedFigures,
  shortPieceAnchors,
  squareWasherInches,
} from '../prescriptive.ts';
import type { CheckEntry, CheckRecord, Recomputation, RecomputedRecord, RecomputedValue } from './check-entry.ts';
import { isRecord, noValue, recomputation, values } from './check-entry.ts';

/** Dead loads, torque, and what prescriptive texts print. */
export const loadAndTextRecomputations: readonly Recomputation[] = [
  recomputation({
    topic: '8-dead-load',
    gives: ['psf'],
    compute: () => {
      const metric = layerWeights.flatMap((layer) =>
        layer.kilonewtonsPerSquareMetre === undefined ? [] : [[layer.name, layer.kilonewtonsPerSquareMetre] as const],
      );
      return values({
        psf: Object.fromEntries(layerWeights.map((layer) => [layer.name, layer.psf])),
        kN_m2: Object.fromEntries(metric),
      });
    },
  }),
  recomputation({
    topic: '8-dead-load',
    when: (entry) => Object.values(entry.inputs).some(isRecord),
    compute: (_input, entry) => {
      const sums: Record<string, number> = {};
      for (const [name, parts] of Object.entries(entry.inputs)) {
        if (!isRecord(parts)) continue;
        const total = sumOfParts(name, parts);
        if (total === undefined) return noValue(`a part of ${name} is not a number`);
        sums[name === 'parts_psf' ? 'total_psf' : name] = total;
      }
      return values(sums);
    },
  }),
  recomputation({
    topic: '8-dead-load',
    gives: ['stucco_7_8_psf'],
    compute: () => {
      const weight = (name: string): number => layerWeights.find((layer) => layer.name === name)?.psf ?? Number.NaN;
      return values({
        exterior_stud_wall_2x4_16_half_gyp_insulated_siding_psf: weight(
          'exterior stud wall 2x4 at 16 in, half-inch gypsum, insulated, siding',
        ),
        exterior_2x6_same_psf: weight('exterior stud wall 2x6 at 16 in, half-inch gypsum, insulated, siding'),
        stucco_7_8_psf: weight('stucco 7/8 in'),
        hardwood_floor_7_8_psf: weight('hardwood floor 7/8 in'),
        gypsum_per_eighth_in_psf: weight('gypsum board, each 1/8 in'),
        plywood_per_eighth_in_psf: weight('plywood, each 1/8 in'),
      });
    },
  }),
  recomputation({
    topic: '8-dead-load',
    gives: ['roof_dead_psf'],
    compute: () => {
      const loads = permitRecordLoads;
      return values({
        roof_dead_psf: loads.roofDead,
        floor_dead_psf: loads.floorDead,
        floor_live_psf: loads.floorLive,
        roof_snow_psf: loads.roofSnow,
      });
    },
  }),
  recomputation({
    topic: '9-inspection',
    needs: ['K', 'D_in', 'F_lb'],
    compute: (input) => values({ T_ftlb: torqueFor(pounds(input.F_lb), inches(input.D_in), input.K).number }),
  }),
  recomputation({
    topic: '9-inspection',
    gives: ['min_torque_ftlb'],
    compute: () => values({ min_torque_ftlb: masonryTestTorques.footPounds }),
  }),
  recomputation({
    topic: '1-a3-anchorage',
    needs: ['plate_ft', 'spacing_ft', 'end_distance_in'],
    compute: (input) =>
      values({
        min_bolts: fewestBolts(feet(input.plate_ft), feet(input.spacing_ft), inches(input.end_distance_in)).number,
      }),
  }),
  recomputation({
    topic: '1-a3-bracing',
    needs: ['wall_ft', 'stories', 'cripple_height_ft'],
    when: (entry) => isStoreys(entry.inputs.stories),
    compute: (input, entry) => {
      const heavy = entry.inputs.heavy === true;
      const bracing = prescriptiveBracing(
        feet(input.wall_ft),
        input.stories as Storeys,
        heavy,
        feet(input.cripple_height_ft),
      );
      return values({
        total_bracing_ft: bracing.total.number,
        min_panel_ft: bracing.leastPanel.number,
        min_panels_by_ends: bracing.panels,
        total_if_two_min_panels_ft: bracing.totalWithEnds.number,
      });
    },
  }),
  recomputation({
    topic: '1-a3-anchorage',
    gives: ['washer_in'],
    compute: () => {
      const spacing = ({ bolt, spacing: gap }: (typeof existingHouseAnchorage)[Storeys][number]): RecomputedRecord => ({
        bolt_in: inInches(bolt),
        max_spacing_ft: inFeet(gap),
      });
      const ofStoreys = (storeys: Storeys): RecomputedValue => {
        const choices = existingHouseAnchorage[storeys].map(spacing);
        const [only] = choices;
        return choices.length === 1 && only ? only : choices;
      };
      return values({ ...byStoreys(ofStoreys), washer_in: squareWasherInches });
    },
  }),
  recomputation({
    topic: '1-a3-anchorage',
    gives: ['one_story', 'two_story', 'three_story'],
    compute: () => {
      const ofStoreys = (storeys: Storeys): RecomputedValue => {
        const row = shortPieceAnchors[storeys];
        const [only] = row.sixFeetUp;
        const choices = row.sixFeetUp.map(({ bolt, anchors }) =>
          bolt === undefined ? `${anchors}` : `${anchors} (${fraction(inInches(bolt))} in)`,
        );
        return {
          '6ft-<12ft': row.sixFeetUp.length === 1 && only ? only.anchors : choices.join(' or '),
          '30in-<6ft': row.thirtyInchesUp,
          '<30in': row.shorter,
        };
      };
      return values(byStoreys(ofStoreys));
    },
  }),
  recomputation({
    topic: '1-a3-bracing',
    gives: ['at_each_end'],
    compute: () => {
      const shares = (storeys: Storeys): RecomputedValue => ({
        heavy_pct: bracingShares[storeys].heavy * 100,
        other_pct: bracingShares[storeys].other * 100,
      });
      return values({
        ...byStoreys(shares),
        at_each_end: prescriptiveBracing(feet(30), 1, false, feet(3)).panels === 2,
      });
    },
  }),
  recomputation({
    topic: '2-irc-ibc',
    needs: ['required_length_ft'],
    compute: (input, entry) => {
      const open = entry.inputs.interior_line_without_foundation === true;
      const length = newHouseCrippleBracing(feet(input.required_length_ft), open).number;
      return values({
        [open ? 'exterior_cripple_bracing_ft' : 'cripple_length_ft']: length,
        max_panel_spacing_ft: newHouseCripplePanelSpacingFeet,
      });
    },
  }),
  {
    // Last: figures that a text prints and nothing is worked from, found by the section that prints them.
    covers: (entry) => printedAt(entry) !== undefined,
    compute: (entry) => values(printedAt(entry) ?? {}),
  },
];

function printedAt(entry: CheckEntry): RecomputedRecord | undefined {
  const asked = Object.keys(entry.expected);
  return printedFigures.find(
    ({ section, figures }) => section.place === entry.section && asked.every((key) => Object.hasOwn(figures, key)),
  )?.figures;
}

function sumOfParts(name: string, parts: CheckRecord): number | undefined {
  const weights: { readonly name: string; readonly weight: ReturnType<typeof poundsPerSquareFoot> }[] = [];
  for (const [part, weight] of Object.entries(parts)) {
    if (typeof weight !== 'number') return undefined;
    weights.push({ name: part, weight: poundsPerSquareFoot(weight) });
  }
  return assemblyWeight(name, weights).number;
}

const isStoreys = (value: unknown): boolean => value === 1 || value === 2 || value === 3;
const byStoreys = (of: (storeys: Storeys) => RecomputedValue): RecomputedRecord => ({
  one_story: of(1),
  two_story: of(2),
  three_story: of(3),
});
function fraction(inchesCount: number): string {
  const eighths = Math.round(inchesCount * 8);
  const divisor = eighths % 4 === 0 ? 4 : eighths % 2 === 0 ? 2 : 1;
  return `${eighths / divisor}/${8 / divisor}`;
}
