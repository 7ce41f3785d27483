/**
 * The long proofs of `.ci/full`: the tests with SILLWRIGHT_LONG set, under which properties run many more cases. Writes what was
 * proved, with the commit that it was proved of.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { parseArgs } from 'node:util';

const root = join(import.meta.dirname, '..');
const { values } = parseArgs({ options: { result: { type: 'string' } } });
if (values.result === undefined) {
  console.error('Say where the result goes: --result FILE');
  process.exit(2);
}

const report = join(root, 'out', 'full-results.json');
mkdirSync(join(root, 'out', 'tmp'), { recursive: true });
rmSync(report, { force: true });
const started = Date.now();
const seed = started % 1_000_000_007;
console.log(`Random cases from SILLWRIGHT_SEED=${seed}`);
const vitest = [
  join(root, 'node_modules/vitest/vitest.mjs'),
  'run',
  '--reporter=default',
  '--reporter=json',
  `--outputFile.json=${report}`,
  '--testTimeout=3600000',
];
const { status } = spawnSync(process.execPath, vitest, {
  cwd: root,
  stdio: 'inherit',
  env: { ...process.env, SILLWRIGHT_LONG: '1', SILLWRIGHT_SEED: String(seed), TMPDIR: join(root, 'out', 'tmp') },
});

// With the check of any one rule emptied, tests have to fail.
const emptied = spawnSync(process.execPath, [join(root, 'tests/properties/defects/emptied-rules.ts')], {
  cwd: root,
  stdio: 'inherit',
  env: { ...process.env, TMPDIR: join(root, 'out', 'tmp') },
});

interface Report {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly testResults: readonly {
    readonly name: string;
    readonly assertionResults: readonly { readonly status: string }[];
  }[];
}
const { numPassedTests, numFailedTests, testResults } = JSON.parse(readFileSync(report, 'utf8')) as Report;
const result = {
  commit: execFileSync('git', ['rev-parse', 'HEAD'], { cwd: root, encoding: 'utf8' }).trim(),
  node: process.versions.node,
  seed,
  passed: numPassedTests,
  failed: numFailedTests,
  everyEmptiedRuleIsNoticed: emptied.status === 0,
  minutes: Math.round((Date.now() - started) / 6000) / 10,
  files: testResults
    .map(({ name, assertionResults }) => ({
      file: name.slice(root.length + 1).replaceAll('\\', '/'),
      passed: assertionResults.filter((each) => each.status === 'passed').length,
      failed: assertionResults.filter((each) => each.status === 'failed').length,
    }))
    .sort((a, b) => (a.file < b.file ? -1 : 1)),
};
writeFileSync(join(root, values.result), `${JSON.stringify(result, null, 2)}\n`);
console.log(`${numPassedTests} passed, ${numFailedTests} failed; written to ${values.result}`);
process.exitCode = status === 0 && numFailedTests === 0 && emptied.status === 0 ? 0 : 1;
