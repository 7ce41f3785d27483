import type { UncertainValue, UnknownsRanking } from '../engineering/intervals.ts';
import { rankUnknowns } from '../engineering/intervals.ts';
import { anchorsOfWall, capacityOf, gravityBounds } from '../engineering/layout-capacity.ts';
import type { DemandChoices } from '../engineering/layout-demand.ts';
import { houseBaseShear } from '../engineering/layout-demand.ts';
import { isRefused, leaningsOf, type Outcome, type Refused, refused } from '../engineering/trace.ts';
import type { Layout } from '../model/layout.ts';
import type { Quality, Reading } from '../model/reading.ts';
import type { Force } from '../units/force.ts';
import { formatQuantityIn } from '../units/format-quantity.ts';
import type { Quantity } from '../units/quantity.ts';
import { anchorsOf, type CalculationLine, linesOf } from './calculation-line.ts';

/** Which unknown is worth measuring first, for the line whose anchors are asked for most. */
export interface UnknownsOfLine {
  readonly kind: 'ranked';
  readonly line: string;
  readonly ranking: UnknownsRanking;
  readonly bounds: readonly UnknownBounds[];
}
export interface UnknownBounds {
  readonly name: string;
  /** `80 psf assumed, 64 psf to 100 psf`. */
  readonly words: string;
}

/** Common practice, no source: how far off a value may be that nobody measured, as a share of it. */
export const spreads: Readonly<Record<Exclude<Quality, 'measured'>, readonly [low: number, high: number]>> = {
  scaled: [0.95, 1.05],
  told: [0.9, 1.1],
  assumed: [0.8, 1.25],
};

export function rankLineUnknowns(
  layout: Layout,
  line: CalculationLine | undefined,
  baseShear: Outcome<Force>,
  choices: DemandChoices,
): UnknownsOfLine | Refused {
  if (isRefused(baseShear)) return refused(`there is no demand: ${baseShear.reason}`);
  if (!line || isRefused(line.demand)) return refused('no line has both a demand and a capacity that is counted');
  const readings = assumedReadings(layout);
  const speciesMatters = leansOnSpecies(line);
  if (readings.length === 0 && !speciesMatters) return refused('nothing that was assumed goes into these numbers');
  const unknowns: UncertainValue[] = readings.map(({ name, low, high }) => ({ name, low, likely: 1, high }));
  if (speciesMatters)
    unknowns.push({
      name: SPECIES,
      low: gravityBounds.least,
      likely: gravityBounds.least,
      high: gravityBounds.greatest,
    });
  const walls = linesOf(layout).find(({ name }) => name === line.name)?.walls ?? [];
  const share = line.demand.number / baseShear.number;
  const demandOf = remembered((key: string): number | undefined => {
    const shear = houseBaseShear(scaled(layout, readings, key.split(' ').map(Number)), choices);
    return isRefused(shear) ? undefined : shear.number * share;
  });
  const capacityWith = remembered((gravity: string): number | undefined => {
    const connectors = walls.flatMap((wall) => anchorsOfWall(wall, { gravityOfUnknownSpecies: Number(gravity) }));
    return capacityOf(connectors)?.number;
  });
  const ranking = rankUnknowns((values) => {
    const demand = demandOf(readings.map(({ name }) => values.get(name) ?? 1).join(' '));
    const capacity = capacityWith(String(values.get(SPECIES) ?? gravityBounds.least));
    return demand === undefined || !capacity ? undefined : demand / capacity;
  }, unknowns);
  return {
    kind: 'ranked',
    line: line.name,
    ranking,
    bounds: [
      ...readings.map(({ name, words }) => ({ name, words })),
      ...(speciesMatters
        ? [
            {
              name: SPECIES,
              words: `specific gravity ${gravityBounds.least} taken, ${gravityBounds.least} to ${gravityBounds.greatest}`,
            },
          ]
        : []),
    ],
  };
}

const SPECIES = 'species of the sill';

interface AssumedReading {
  readonly place: 'seismic' | 'weights';
  readonly key: string;
  readonly name: string;
  readonly low: number;
  readonly high: number;
  readonly words: string;
}

function assumedReadings(layout: Layout): readonly AssumedReading[] {
  const { seismic, weights } = layout.house;
  const acting = seismic.get('coefficient')?.kind === 'known' ? ['coefficient'] : ['SDS', 'R', 'importance'];
  const parts = weights.get('whole-house')?.kind === 'known' ? ['whole-house'] : [...weights.keys()];
  return [
    ...acting.flatMap((key) => assumedReading('seismic', key, seismic.get(key))),
    ...parts.flatMap((key) => assumedReading('weights', key, weights.get(key))),
  ];
}

function assumedReading(
  place: AssumedReading['place'],
  key: string,
  reading: Reading<Quantity> | undefined,
): readonly AssumedReading[] {
  if (reading?.kind !== 'known' || reading.quality === 'measured') return [];
  const [low, high] = spreads[reading.quality];
  const times = (share: number): string =>
    formatQuantityIn({ ...reading.value, amount: reading.value.amount * share }, reading.value.unit) ?? '';
  return [
    {
      place,
      key,
      low,
      high,
      name: place === 'weights' ? `weight, ${key.replaceAll('-', ' ')}` : key,
      words: `${times(1)} ${reading.quality}, ${times(low)} to ${times(high)}`,
    },
  ];
}

function scaled(layout: Layout, readings: readonly AssumedReading[], factors: readonly number[]): Layout {
  const seismic = new Map(layout.house.seismic);
  const weights = new Map(layout.house.weights);
  for (const [index, { place, key }] of readings.entries()) {
    const readingsOfPlace = place === 'seismic' ? seismic : weights;
    const reading = readingsOfPlace.get(key);
    if (reading?.kind !== 'known') continue;
    const amount = reading.value.amount * (factors[index] ?? 1);
    readingsOfPlace.set(key, { ...reading, value: { ...reading.value, amount } });
  }
  return { ...layout, house: { ...layout.house, seismic, weights } };
}

function leansOnSpecies(line: CalculationLine): boolean {
  const connectors = anchorsOf(line)?.connectors ?? [];
  return connectors.some(
    ({ capacity }) => !isRefused(capacity) && leaningsOf(capacity).some(({ symbol }) => symbol === 'G'),
  );
}

function remembered<Value>(work: (key: string) => Value): (key: string) => Value {
  const known = new Map<string, Value>();
  return (key) => {
    if (!known.has(key)) known.set(key, work(key));
    return known.get(key) as Value;
  };
}
