import type { Capacity, Connector } from '../../hardware/connector.ts';
import type { Force } from '../../units/force.ts';
import { forceOf } from '../../units/force.ts';
import { formula } from '../formula.ts';
import { section } from '../publications.ts';
import type { Outcome, Traced } from '../trace.ts';
import { computed, given, leastOf, refused } from '../trace.ts';
import { pound } from '../trace-units.ts';

/**
 * Allowable capacity of one connector in one direction, lb, as its evaluation report gives it (the hardware file holds
 * the report's number: nothing is multiplied by a load duration here). Strength-level values are brought down by 0.7.
 * Where the wood's species is not known and the report lists several, the weakest is taken.
 * Refused: no such value, or one that is unknown or not a force.
 */
export function connectorCapacity(
  connector: Connector,
  direction: Capacity['direction'],
  species: string | undefined,
): Outcome<Force> {
  const along = connector.capacities.filter((each) => each.direction === direction);
  const words = direction.replace('-', ' ');
  if (along.length === 0) return refused(`${connector.name} lists no capacity ${words}`, report(connector, undefined));
  const listed = along.filter((each) => each.species === species);
  const general = along.filter((each) => each.species === undefined);
  const fitting = species === undefined ? along : listed.length > 0 ? listed : general;
  if (fitting.length === 0)
    return refused(`${connector.name} lists no capacity ${words} in ${species}`, report(connector, undefined));
  const values: Traced<Force>[] = [];
  for (const each of fitting) {
    const value = allowableOf(connector, each);
    if (value === undefined)
      return refused(`the capacity of ${connector.name} ${words} is not known`, report(connector, each));
    values.push(value);
  }
  const [first, ...others] = values;
  if (!first) return refused(`${connector.name} lists no capacity ${words}`, report(connector, undefined));
  if (others.length === 0) return first;
  const [named, ...rest] = values.map((value, index) => ({ ...value, symbol: `R_${index + 1}` }));
  if (!named) return first;
  return leastOf(
    'R_a',
    `allowable capacity of ${connector.name}, ${words}, weakest listed`,
    pound,
    [named, ...rest],
    report(connector, undefined),
  );
}

function allowableOf(connector: Connector, capacity: Capacity): Traced<Force> | undefined {
  if (capacity.value.kind !== 'known') return undefined;
  const force = forceOf(capacity.value.value);
  if (force === undefined) return undefined;
  const words = [connector.name, capacity.direction.replace('-', ' '), capacity.species].filter(Boolean).join(', ');
  const notes = connector.demo ? ['DEMO VALUE: invented'] : [];
  const extras = { section: report(connector, capacity), quality: capacity.value.quality, notes };
  if (capacity.basis === 'allowable') return given('R_a', `allowable capacity of ${words}`, pound, force, extras);
  const strength = given('R_u', `strength of ${words}`, pound, force, extras);
  return computed(
    'R_a',
    `allowable capacity of ${words}`,
    pound,
    broughtDown,
    [strength],
    section('ASCE 7-16', '2.4.5, 0.7 E', 'from-memory'),
  );
}
const broughtDown = formula('0.7 * R_u');

function report(connector: Connector, capacity: Capacity | undefined) {
  return section(
    'evaluation report',
    capacity?.citation ?? connector.report ?? `not named for ${connector.name}`,
    'published',
  );
}
