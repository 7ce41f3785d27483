import { describe, expect, it } from 'vitest';
import { createAnalyser } from '../../../language/analysis.ts';
import { analyse } from '../../support/analyse.ts';
import { MAIN, memoryHost } from '../../support/memory-host.ts';
import { findingsOf, graveIn, mended, soundRow, wallText } from '../support.ts';

describe('load-path/wall-line-forgotten', () => {
  const rule = 'load-path/wall-line-forgotten';

  it('speaks for the bare boards of the line: one mistake', () => {
    expect(graveIn(wallText({ sills: [`F1 to 10'-0"`, 'F2 to end'] }))).toEqual([rule]);
    expect(
      graveIn(wallText({ sills: [`F1 to 10'-0"`, 'F2 to end'], anchors: [`1'-0"`, `3'-6"`, `6'-6"`, `9'-0"`] })),
    ).toEqual(['anchorage/piece-without-anchor']);
  });

  it.each([['no work because "1948 bolts hold it"'], ['angles F-A1 angle-8 at 1\'-0"'], [`blocking bays 1, 3`]])(
    'is silent with %s',
    (work) => {
      expect(findingsOf(wallText({ work: [work] }), rule)).toEqual([]);
    },
  );

  it.each([
    ['exempt from all because "porch"', 0],
    ['exempt from anchorage because "porch"', 0],
    ['exempt from bracing because "porch"', 1],
  ])('a line that is %s: %i', (exempt, count) => {
    const text = wallText({ after: ['line west walls F', `  ${exempt}`] });
    expect(analyse(text).findings.filter((finding) => finding.rule.startsWith('language/'))).toEqual([]);
    expect(findingsOf(text, rule)).toHaveLength(count);
  });

  it('an old anchor that counts is work enough; one without credit is not', () => {
    const old = (credit: string) => wallText({ found: [`anchor X1 1/2" at 1'-0" sound credit ${credit}`] });
    expect(findingsOf(old('none'), rule)).toHaveLength(1);
    expect(findingsOf(old('full'), rule)).toEqual([]);
  });

  it('does not ask work of a wall inside the house, nor of one without a sill', () => {
    expect(findingsOf(wallText({ found: ['interior'] }), rule)).toEqual([]);
    expect(findingsOf(wallText({}).replace(/ {2}sill F1.*\n/, '  no sill\n'), rule)).toEqual([]);
  });

  it('work on one wall of a line is work on the line', () => {
    const two = (walls: string) =>
      wallText({
        anchors: soundRow,
        after: [
          `line west walls ${walls}`,
          '',
          `wall G length 10'-0"`,
          '  foundation sound thick 8" showing 18" top 0"',
          '  sill G1 size 2x6 set-back 3/4" headroom 25-1/8"',
        ],
      });
    expect(graveIn(two('F, G'))).toEqual(['anchorage/piece-without-anchor']);
    expect(graveIn(two('F'))).toEqual([rule]);
  });

  it('work begun on one wall is felt at once on the other walls of its line', () => {
    const text = (work: string) =>
      wallText({
        work: [work],
        after: [
          'line west walls F, G',
          '',
          `wall G length 10'-0"`,
          '  foundation thick 8" showing 18" top 0" sound',
          '  sill G1 size 2x6 set-back 3/4" headroom 25-1/8"',
        ],
      });
    const files = new Map([[MAIN, text('note "nothing yet"')]]);
    const analyser = createAnalyser(memoryHost(files));
    const rules = () => analyser.analyse(MAIN).findings.flatMap((each) => (each.wall === 'G' ? [each.rule] : []));
    expect(rules()).toEqual([]);
    files.set(MAIN, text('blocking bays 1'));
    expect(rules()).toEqual(['anchorage/piece-without-anchor']);
    files.set(MAIN, text('note "nothing yet"'));
    expect(rules()).toEqual([]);
  });

  it('is mended by anchors for every board', () => {
    expect(graveIn(mended(wallText({ sills: [`F1 to 10'-0"`, 'F2 to end'] }), rule, /^Anchor wall F/))).toEqual([]);
  });
});
