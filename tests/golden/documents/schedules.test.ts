import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { type FindLine, scheduleNames } from '../../../language/domain/documents/schedules/table.ts';
import { writeSchedule } from '../../../language/domain/documents/write-schedule.ts';
import { analyse } from '../../support/analyse.ts';
import { examplesFolder } from '../../support/read-layout.ts';

/** Read a changed schedule before accepting it: `npx vitest run tests/golden/documents -u`. */
describe('the schedules of the demo house', () => {
  const text = (name: string): string => readFileSync(join(examplesFolder, name), 'utf8');
  const files = { 'main.sill': text('maple-designed.sill'), 'maple-surveyed.sill': text('maple-surveyed.sill') };
  const analysis = analyse(files);
  const findLine: FindLine = (span) => {
    const place = analysis.locate(span);
    if (!place) return undefined;
    const before = (analysis.textOf(place.file) ?? '').slice(0, place.start);
    return { file: place.file, line: before.split('\n').length };
  };
  const write = (form: 'text' | 'csv' | 'json', only?: typeof scheduleNames): string =>
    writeSchedule(analysis.layout, analysis.checked, findLine, { form, only });
  const golden = (ending: string): string => join(import.meta.dirname, `maple-schedules.${ending}`);

  it('read as before', async () => {
    await expect(write('text')).toMatchFileSnapshot(golden('txt'));
  });

  it('keep their CSV', async () => {
    // Line ends are tested elsewhere; a checkout may change those of a kept file.
    await expect(write('csv', scheduleNames).replaceAll('\r\n', '\n')).toMatchFileSnapshot(golden('csv'));
  });

  it('keep their JSON', async () => {
    await expect(write('json')).toMatchFileSnapshot(golden('json'));
  });
});
