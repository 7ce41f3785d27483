import { expect, it } from 'vitest';
import { demo, sound } from '../../language/domain/rules/example-texts.ts';
import { feet, inches } from '../../language/domain/units/length.ts';
import { analyse } from '../support/analyse.ts';

const withRecord = (event: string): string =>
  `${demo({ anchors: sound })}\nrecord 2026-06-10 by "crew lead"\n  ${event}\n`;

it.each([
  ['left out', 'omitted F-2 because "hit a stone at 2 in"'],
  ['failed its test', 'tested F-2 pull 1200 lb failed slipped'],
])('an anchor that was %s is not proposed again on the same spot', (_words, event) => {
  const { findings } = analyse(withRecord(event));
  const gap = findings.find((each) => each.rule === 'anchorage/gap-too-wide');
  const stations = (gap?.fixes ?? []).flatMap((fix) =>
    fix.edits.flatMap((edit) => (edit.kind === 'insert-anchor' ? [edit.station] : [])),
  );
  expect(stations.length).toBeGreaterThan(0);
  // F-2 stood at 4'-8"; the plate is 8 in wide.
  for (const station of stations) expect(Math.abs(station - feet(4) - inches(8))).toBeGreaterThanOrEqual(inches(4));
});
