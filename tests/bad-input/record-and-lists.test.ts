import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { writeEdits } from '../../language/analysis.ts';
import { closingToText } from '../../language/domain/documents/closing-report.ts';
import { fingerprintOf } from '../../language/domain/documents/fingerprint.ts';
import { surveyListOf } from '../../language/domain/documents/survey-list.ts';
import {
  surveyListToCsv,
  surveyListToJson,
  surveyListToText,
} from '../../language/domain/documents/write-survey-list.ts';
import { closingOf } from '../../language/domain/fixes/closing.ts';
import { applyChanges } from '../../language/syntax/write-edit.ts';
import { analyse } from '../support/analyse.ts';
import { MAIN } from '../support/memory-host.ts';
import { examplesFolder } from '../support/read-layout.ts';

const textOf = (file: string): string => readFileSync(join(examplesFolder, file), 'utf8');
const house = `${textOf('maple-surveyed.sill')}\n${textOf('maple-designed.sill').replace(/^use .*$/m, '')}
prices demo dated 2026-04-01
  price bolt-half $18 to $24 each
  labour panel 20 to 35 min
  rate carpenter $55 to $85 per hour
  factor low 1.3 for clear-height at-least 24" under 36"
  allowance contingency 10 % to 15 %
`;

const snippets = [
  '',
  '\n',
  ' at ',
  'installed ',
  'unknown',
  ', ',
  '"',
  '$',
  '£3',
  ' to ',
  '2026-02-31',
  '99999999999999999999',
  `-1'`,
  'right of V4',
  'F.X4',
  '\nrecord 2026-06-12\n  installed ',
  '\nissue 1 2026-06-12\n  changed ',
  '\nprices p\n  price ',
  'adjusted ',
  'turn left ',
  'length unknown',
];

describe('a record, issues, prices, an outline and lists of any text', () => {
  it('are read and written without a defect, and each place lies in the text', () => {
    const edit = fc.record({
      at: fc.nat({ max: 1_000_000 }),
      cut: fc.nat({ max: 30 }),
      text: fc.constantFrom(...snippets),
    });
    fc.assert(
      fc.property(fc.array(edit, { minLength: 1, maxLength: 8 }), (edits) => {
        const text = edits.reduce((before, { at, cut, text: put }) => {
          const start = at % (before.length + 1);
          return before.slice(0, start) + put + before.slice(start + cut);
        }, house);
        const analysis = analyse(text);
        const { layout, checked } = analysis;
        expect(fingerprintOf(layout)).toMatch(/^[0-9a-f]{8}$/);
        const closing = closingOf(layout, { anew: true });
        expect(closingToText(closing, layout.title.units)).toContain('As taped:');
        if (closing.proposal.kind === 'spread') {
          const written = writeEdits(analysis, closing.proposal.edits);
          expect(written.kind).toBe('changes');
          if (written.kind === 'changes') {
            const after = analyse(applyChanges(text, written.changes)).layout;
            expect(after.walls.map((wall) => wall.taped?.kind)).toEqual(layout.walls.map((wall) => wall.taped?.kind));
            expect(closingOf(after).adjusted?.length).toBe(closing.proposal.closing.length);
          }
        }
        const list = surveyListOf(layout, checked);
        const find = () => undefined;
        expect(JSON.parse(surveyListToJson(list, find)).groups).toHaveLength(list.groups.length);
        expect(surveyListToText(list, find)).toContain('Survey list');
        expect(surveyListToCsv(list, find)).toContain('where,do,what');
        for (const span of [
          ...layout.record.flatMap((day) => [day.source, ...day.events.map((event) => event.source)]),
          ...layout.issues.map((issue) => issue.source),
          ...layout.prices.flatMap((prices) => [prices.source, ...prices.prices.map((price) => price.of.source)]),
        ]) {
          const place = analysis.locate(span);
          expect(place?.file).toBe(MAIN);
          expect((place?.end ?? Number.POSITIVE_INFINITY) <= text.length && (place?.start ?? -1) >= 0).toBe(true);
        }
      }),
      { numRuns: 60 },
    );
  });
});
