/**
 * `npm test`: everything that must hold on every change. Each step is run even where one before it failed, so that one run tells
 * all; the last line counts. Nothing outside the clone is touched: temporary files go to out/.
 */
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join, relative } from 'node:path';
import process from 'node:process';

const root = join(import.meta.dirname, '..');
const temporary = join(root, 'out', 'tmp');
const results = join(root, 'out', 'test-results.json');

interface Count {
  readonly passed: number;
  readonly failed: number;
}

interface Step {
  readonly name: string;
  readonly command: readonly [script: string, ...words: string[]];
  /** How many it stands for; without it one, by its exit code. */
  readonly count?: (succeeded: boolean) => Count;
}

const tool = (name: string, file: string): string => join(root, 'node_modules', name, file);
const steps: readonly Step[] = [
  { name: 'types', command: [tool('typescript', 'bin/tsc'), '--noEmit'] },
  { name: 'types of the pane', command: [tool('typescript', 'bin/tsc'), '--noEmit', '-p', 'extension/webview'] },
  { name: 'lint', command: [tool('@biomejs/biome', 'bin/biome'), 'ci', '--error-on-warnings', '.'] },
  { name: 'the parser is what the grammar gives', command: ['scripts/generate.ts', '--check'] },
  { name: 'the library module is what its files give', command: ['scripts/generate-library.ts', '--check'] },
  {
    name: 'the widths of the lettering are what the fonts give',
    command: ['scripts/generate-font-widths.ts', '--check'],
  },
  { name: 'the rule pages are what the rules say', command: ['scripts/rule-pages.ts', '--check'] },
  { name: 'build', command: ['scripts/build.ts', 'all'] },
  {
    name: 'tests',
    command: [
      tool('vitest', 'vitest.mjs'),
      'run',
      '--reporter=default',
      '--reporter=json',
      `--outputFile.json=${results}`,
    ],
    count: countTests,
  },
];

rmSync(results, { force: true });
rmSync(temporary, { recursive: true, force: true });
mkdirSync(temporary, { recursive: true });

const summary = steps.map((step) => {
  console.log(`\n== ${step.name}`);
  const started = process.hrtime.bigint();
  const { status, error } = spawnSync(process.execPath, step.command, {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, TMPDIR: temporary, TEMP: temporary, TMP: temporary },
  });
  if (error) console.error(error.message);
  const succeeded = status === 0;
  const count = step.count?.(succeeded) ?? { passed: succeeded ? 1 : 0, failed: succeeded ? 0 : 1 };
  return { name: step.name, ...count, seconds: Number((process.hrtime.bigint() - started) / 1_000_000n) / 1000 };
});

console.log('\n== summary');
for (const { name, passed, failed, seconds } of summary) {
  const verdict = failed === 0 ? 'ok    ' : 'FAILED';
  console.log(`${verdict}  ${name}: ${passed} passed, ${failed} failed (${seconds.toFixed(1)} s)`);
}
for (const { file, test, message } of failedTests()) console.log(`\nfailed: ${file}: ${test}\n${message}`);
const passed = summary.reduce((sum, step) => sum + step.passed, 0);
const failed = summary.reduce((sum, step) => sum + step.failed, 0);
console.log(`\n${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 ? 0 : 1;

interface Report {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly testResults: readonly {
    readonly name: string;
    readonly assertionResults: readonly {
      readonly status: string;
      readonly fullName: string;
      readonly failureMessages: readonly string[];
    }[];
  }[];
}

function reportOfTests(): Report | undefined {
  try {
    return JSON.parse(readFileSync(results, 'utf8'));
  } catch {
    return undefined;
  }
}

/** At the end once more, where whoever reads only the end of a long log finds them. */
function failedTests(): readonly { readonly file: string; readonly test: string; readonly message: string }[] {
  const files = reportOfTests()?.testResults ?? [];
  return files.flatMap(({ name, assertionResults }) =>
    assertionResults
      .filter(({ status }) => status === 'failed')
      .map(({ fullName, failureMessages }) => ({
        file: relative(root, name),
        test: fullName,
        message: failureMessages.join('\n').slice(0, 2000),
      })),
  );
}

/** A run that broke off without failing a test, or that ran none, has failed all the same. */
function countTests(succeeded: boolean): Count {
  const report = reportOfTests();
  if (!report) {
    console.error(`${relative(root, results)} was not written: the test run broke off.`);
    return { passed: 0, failed: 1 };
  }
  const { numPassedTests, numFailedTests } = report;
  const brokeOff = !succeeded && numFailedTests === 0;
  return { passed: numPassedTests, failed: numFailedTests + (brokeOff || numPassedTests === 0 ? 1 : 0) };
}
