import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../language/analysis.ts';
import { createAnalyser, writeEdits } from '../../language/analysis.ts';
import type { Finding, Fix } from '../../language/domain/rules/finding.ts';
import { rules } from '../../language/domain/rules/registry.ts';
import { formatSheet } from '../../language/syntax/format.ts';
import { applyChanges } from '../../language/syntax/write-edit.ts';
import { commentsOf } from '../support/comments.ts';
import { MAIN, memoryHost } from '../support/memory-host.ts';
import { exampleHost } from '../support/read-layout.ts';

type Files = Readonly<Record<string, string>>;

const exampleFiles = (main: string, ...used: readonly string[]): Files => {
  const textOf = (file: string): string => {
    const answer = exampleHost.read(file);
    if ('missing' in answer) throw new Error(answer.missing);
    return answer.text;
  };
  return { [MAIN]: textOf(main), ...Object.fromEntries(used.map((file) => [file, textOf(file)])) };
};

const commented = (text: string): string =>
  text
    .split('\n')
    .map((line, index) => (index % 3 === 0 && line.trim() !== '' ? `${line}  // remark ${index}` : line))
    .join('\n');

const cases: readonly (readonly [name: string, files: Files])[] = [
  ['maple-surveyed.sill', exampleFiles('maple-surveyed.sill')],
  ['maple-designed.sill', exampleFiles('maple-designed.sill', 'maple-surveyed.sill')],
  ['first-wall.sill', exampleFiles('first-wall.sill')],
  ...rules.flatMap((rule) =>
    rule.examples.map((example, index): readonly [string, Files] => [
      `${rule.id}, failing example ${index + 1}, with comments`,
      { [MAIN]: commented(example.failing) },
    ]),
  ),
];

const read = (files: Files): Analysis => createAnalyser(memoryHost(files)).analyse(MAIN);

/** What a finding is about, whatever else moves: its rule and the thing or piece that it names. */
const aboutOf = (finding: Finding): string =>
  [finding.rule, finding.wall, finding.piece, finding.thing, finding.station, finding.stationTo].join(' ');
const errorsOf = (analysis: Analysis): readonly string[] =>
  analysis.findings.filter((each) => each.severity === 'error' || each.severity === 'stop').map(aboutOf);

function withFix(files: Files, analysis: Analysis, fix: Fix): Files {
  const written = writeEdits(analysis, fix.edits);
  if (written.kind === 'refused') throw new Error(`${fix.title}: ${written.reason}`);
  const changed: Record<string, string> = { ...files };
  for (const file of new Set(written.changes.map((change) => change.file))) {
    changed[file] = applyChanges(
      files[file] ?? '',
      written.changes.filter((change) => change.file === file),
    );
  }
  return changed;
}

const offered = cases.flatMap(([name, files]) => {
  const before = read(files);
  return before.findings.flatMap((finding) => finding.fixes.map((fix) => ({ name, files, before, finding, fix })));
});

describe('every fix that is offered, written into the text', () => {
  it.each(offered.map((each) => [each.name, each.fix.title, each] as const))(
    '%s: %s',
    (_name, _title, { files, before, finding, fix }) => {
      const after = withFix(files, before, fix);
      const analysis = read(after);
      expect(analysis.findings.map(aboutOf)).not.toContain(aboutOf(finding));
      const known = new Set(errorsOf(before));
      expect(errorsOf(analysis).filter((each) => !known.has(each))).toEqual([]);
      for (const [file, text] of Object.entries(files)) {
        const changed = after[file] ?? '';
        expect(commentsOf(changed)).toEqual(commentsOf(text));
        // What was in canonical format still is.
        if (formatSheet(text).changes.length === 0) expect(formatSheet(changed).changes).toEqual([]);
      }
    },
  );

  it('covers every rule that has a natural mend', () => {
    expect([...new Set(offered.map((each) => each.finding.rule))].sort()).toEqual([
      'anchorage/bay-centre-off',
      'anchorage/corner-holes-clash',
      'anchorage/end-too-far',
      'anchorage/end-too-near',
      'anchorage/few-anchors-in-panel',
      'anchorage/gap-too-tight',
      'anchorage/gap-too-wide',
      'anchorage/kinds-mixed-in-line',
      'anchorage/lap-end-misread',
      'anchorage/line-count-short',
      'anchorage/old-anchor-overcounted',
      'anchorage/old-anchor-unproven',
      'anchorage/piece-without-anchor',
      'anchorage/short-piece-count',
      'anchorage/step-side-bare',
      'anchorage/straddles-break',
      'clearance/bolt-under-stud',
      'clearance/flue-too-close',
      'clearance/gas-near-drill',
      'clearance/head-room-short',
      'clearance/no-concrete-here',
      'clearance/nut-hits-panel',
      'clearance/old-anchor-in-way',
      'clearance/panel-hides-service',
      'clearance/panel-hits-thing',
      'clearance/panel-wont-go-in',
      'clearance/plate-hits-thing',
      'clearance/power-near-drill',
      'clearance/side-room-short',
      'clearance/wrench-no-swing',
      'floor/bay-unblocked',
      'foundation/cold-joint-near',
      'foundation/concrete-edge-thin',
      'foundation/crack-near-anchor',
      'foundation/embed-short',
      'foundation/expansion-near-edge',
      'foundation/set-back-out-of-range',
      'foundation/shim-missing',
      'foundation/sill-rotten',
      'foundation/sill-split',
      'foundation/sill-stack-loose',
      'foundation/wood-edge-thin',
      'geometry/assumption-live',
      'geometry/joist-count-odd',
      'geometry/level-chain-broken',
      'geometry/must-have-missing',
      'geometry/outline-open',
      'geometry/sill-gap-or-overlap',
      'geometry/spans-do-not-add',
      'geometry/stations-from-wrong-end',
      'geometry/step-without-break',
      'geometry/unit-suspect',
      'load-path/connector-misplaced',
      'load-path/wall-line-forgotten',
      'material/anchor-not-in-report',
      'material/washer-small',
      'post/cap-size-clash',
    ]);
    expect(offered.length).toBeGreaterThan(20);
  });
});
