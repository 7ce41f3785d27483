import { describe, expect, it } from 'vitest';
import { connectorCapacity } from '../../../language/domain/engineering/capacity/hardware-capacity.ts';
import { leaningsOf, traceText } from '../../../language/domain/engineering/trace.ts';
import type { Capacity, Connector } from '../../../language/domain/hardware/connector.ts';
import type { Quality } from '../../../language/domain/model/reading.ts';
import type { SourceSpan } from '../../../language/domain/model/source.ts';
import { NEWTONS_PER_POUND } from '../../../language/domain/units/force.ts';
import { done } from './support.ts';

const source = {} as SourceSpan;
const capacity = (lb: number | 'unknown', over: Partial<Capacity> = {}, quality: Quality = 'measured'): Capacity => ({
  direction: 'along-wall',
  basis: 'allowable',
  species: undefined,
  citation: undefined,
  value:
    lb === 'unknown'
      ? { kind: 'unknown', source }
      : {
          kind: 'known',
          value: { dimension: 'force', amount: lb * NEWTONS_PER_POUND, unit: 'lb' },
          quality,
          typed: `${lb} lb`,
          source,
        },
  ...over,
});
const plate = (capacities: readonly Capacity[], demo = false): Connector => ({
  name: 'side plate',
  kind: 'side-plate',
  demo,
  report: 'report of the plate',
  fits: [],
  body: undefined,
  drop: undefined,
  fasteners: [],
  holes: [],
  capacities,
  metal: undefined,
  tools: [],
  notes: [],
  source,
});

describe('the capacity of a bought connector', () => {
  it('is its report’s number in that direction', () => {
    const found = done(
      connectorCapacity(plate([capacity(1000), capacity(700, { direction: 'up' })]), 'along-wall', undefined),
    );
    expect(found.number).toBeCloseTo(1000, 6);
    expect(traceText(found)).toContain('evaluation report report of the plate');
  });

  it('is the listed species’ where the species is known, else the weakest', () => {
    const both = plate([capacity(1180, { species: 'douglas-fir' }), capacity(1010, { species: 'hem-fir' })]);
    expect(done(connectorCapacity(both, 'along-wall', 'douglas-fir')).number).toBeCloseTo(1180, 6);
    expect(done(connectorCapacity(both, 'along-wall', undefined)).number).toBeCloseTo(1010, 6);
    const general = plate([capacity(900), capacity(1180, { species: 'douglas-fir' })]);
    expect(done(connectorCapacity(general, 'along-wall', 'douglas-fir')).number).toBeCloseTo(1180, 6);
    expect(done(connectorCapacity(general, 'along-wall', 'hem-fir')).number).toBeCloseTo(900, 6);
  });

  it('at strength level is brought down by 0.7', () => {
    expect(
      done(connectorCapacity(plate([capacity(1000, { basis: 'strength' })]), 'along-wall', undefined)).number,
    ).toBeCloseTo(700, 6);
  });

  it('says when it is invented or assumed', () => {
    const demo = done(connectorCapacity(plate([capacity(1000, {}, 'assumed')], true), 'along-wall', undefined));
    expect(traceText(demo)).toContain('DEMO VALUE: invented');
    expect(leaningsOf(demo)).toHaveLength(1);
  });

  it('is refused where the report does not say, or nobody knows', () => {
    expect(connectorCapacity(plate([]), 'along-wall', undefined)).toMatchObject({
      kind: 'refused',
      reason: 'side plate lists no capacity along wall',
    });
    expect(connectorCapacity(plate([capacity(1000)]), 'up', undefined)).toMatchObject({ kind: 'refused' });
    expect(connectorCapacity(plate([capacity('unknown')]), 'along-wall', undefined)).toMatchObject({ kind: 'refused' });
    expect(connectorCapacity(plate([capacity(1000, { species: 'hem-fir' })]), 'along-wall', 'redwood')).toMatchObject({
      kind: 'refused',
    });
  });
});
