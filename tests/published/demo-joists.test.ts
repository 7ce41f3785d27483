import { describe, expect, it } from 'vitest';
import { createAnalyser } from '../../language/analysis.ts';
import { baysBetween, joistsOnWall } from '../../language/domain/model/joists.ts';
import { formatStation } from '../../language/domain/units/format-length.ts';
import { inches, minus } from '../../language/domain/units/length.ts';
import { exampleHost } from '../support/read-layout.ts';

// From the survey of the invented demo house: joists every 16 in counted from the south, y = 0, over both walls.
const { layout } = createAnalyser(exampleHost).analyse('maple-surveyed.sill');
function joistsOf(name: string) {
  const wall = layout.walls.find((each) => each.name === name);
  if (!wall) throw new Error(`no wall ${name}`);
  return joistsOnWall(wall).joists;
}
/** Joist k of the house is 16k inches north of the south-west corner. */
const north = (k: number): number => 16 * k;

describe('the joists of the demo house', () => {
  it('lie at 16k in along wall F, k = 0 to 27, with an end joist at 36 ft 3-3/16 in', () => {
    const stations = joistsOf('F').map(({ station }) => station);
    expect(stations).toHaveLength(29);
    expect(stations.slice(0, 28)).toEqual(Array.from({ length: 28 }, (_, k) => inches(north(k))));
    expect(stations[28]).toBe(inches(36 * 12 + 3 + 3 / 16));
  });

  it('leave 1-9/16 in clear in the last bay of F', () => {
    const [left, right] = joistsOf('F').slice(-2);
    if (!left || !right) throw new Error('no last bay');
    // 36 ft 3-3/16 in less 36 ft 0 in, less a joist of 1-5/8 in.
    expect(minus(right.station, left.station) - inches(1 + 5 / 8)).toBe(inches(1 + 9 / 16));
  });

  it('are the same ones on wall D, read from the north: the other phase', () => {
    // Wall D begins 24 ft 1 in north of the corner and runs south.
    const expected = Array.from({ length: 19 }, (_, k) => 24 * 12 + 1 - north(k)).sort((a, b) => a - b);
    const stations = joistsOf('D').map(({ station }) => station);
    expect(stations).toEqual(expected.map((each) => inches(each)));
    expect(stations.slice(0, 3).map((each) => formatStation(each, 'feet-inches'))).toEqual([`0'-1"`, `1'-5"`, `2'-9"`]);
    expect(baysBetween(joistsOf('D'))).toHaveLength(18);
  });
});
