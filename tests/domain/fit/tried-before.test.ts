import { expect, it } from 'vitest';
import { fitAt } from '../../../language/domain/fit/clear-intervals.ts';
import { parseLength } from '../../../language/domain/units/parse-length.ts';
import { readLayout } from '../../support/read-layout.ts';

/** Whether a stepped side plate (8 in wide, holes 2 in to either side) may stand there, with one left out at 8'-9". */
function fits(station: string, leftOut: string): boolean {
  const text = [
    'layout "X"\n  rules existing-building\n\nhouse\n  storeys 2\n',
    `wall F length 14'-0"\n  foundation thick 8" showing 18" top 0"`,
    `  sill F1 size 2x6 set-back 3/4" headroom 25-1/8"\n`,
    `work on F\n  anchor F-1 stepped-plate-s at 2'-0"\n  anchor F-2 ${leftOut} at 8'-9"\n`,
    'record 2026-06-10\n  omitted F-2 because "a stone at 2 in"\n',
  ].join('\n');
  const { layout } = readLayout(text);
  const wall = layout.walls.find((each) => each.name === 'F');
  const connector = wall?.anchors[0]?.connector;
  const read = parseLength(station);
  if (!wall || !connector || read.kind !== 'length') throw new Error(`not read: ${station}`);
  const { blocked } = fitAt({ layout, wall, piece: wall.pieces[0], connector }, read.length);
  return !blocked.some((each) => each.reason === 'tried-before' && each.words === 'F-2, left out at 8\'-9"');
}

it('a plate stands beside one that was left out, so that no hole meets one that was tried', () => {
  // 8 in between their middles, and no tolerance.
  expect([`8'-1"`, `9'-5"`].map((station) => fits(station, 'stepped-plate-s'))).toEqual([true, true]);
  expect([`8'-1 1/16"`, `8'-5"`, `8'-9"`, `9'-4 15/16"`].map((station) => fits(station, 'stepped-plate-s'))).toEqual([
    false,
    false,
    false,
    false,
  ]);
});

it('and beside a bolt that was left out', () => {
  // Half of the plate and half of the washer: 5-1/2 in.
  expect([`8'-3 1/2"`, `8'-3 9/16"`].map((station) => fits(station, 'bolt-half'))).toEqual([true, false]);
});
