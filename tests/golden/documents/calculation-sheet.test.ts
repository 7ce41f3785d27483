import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { calculationSheet } from '../../../language/domain/documents/calculation-sheet.ts';
import { calculationSheetToHtml } from '../../../language/domain/documents/calculation-sheet-html.ts';
import {
  calculationSheetToJson,
  calculationSheetToText,
} from '../../../language/domain/documents/write-calculation-sheet.ts';
import { typesetMath } from '../../../server/src/cli/typeset-math.ts';
import { analyse } from '../../support/analyse.ts';
import { examplesFolder } from '../../support/read-layout.ts';

/** Read a changed sheet before accepting it: `npx vitest run tests/golden/documents -u`, then open the page. */
describe('the calculation sheet of the demo house', () => {
  const text = (name: string): string => readFileSync(join(examplesFolder, name), 'utf8');
  const { layout, checked, basis } = analyse({
    'main.sill': text('maple-designed.sill'),
    'maple-surveyed.sill': text('maple-surveyed.sill'),
  });
  const sheet = calculationSheet(layout, checked, basis);
  const golden = (ending: string): string => join(import.meta.dirname, `maple-calculation-sheet.${ending}`);

  it('reads as before', async () => {
    await expect(calculationSheetToText(sheet)).toMatchFileSnapshot(golden('txt'));
  });

  it('keeps its JSON', async () => {
    await expect(calculationSheetToJson(sheet)).toMatchFileSnapshot(golden('json'));
  });

  it('keeps its page', async () => {
    await expect(calculationSheetToHtml(sheet, typesetMath)).toMatchFileSnapshot(golden('html'));
  });
});
