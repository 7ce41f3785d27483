/**
 * Part of the long proofs: for each rule, with its check emptied, tests fail. How many is printed; a rule whose emptying only its own
 * examples notice is told as well, since those are written by the same hand as the rule.
 */
import { spawn } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import process from 'node:process';
import { rules } from '../../../language/domain/rules/registry.ts';
import { missedWhenEmptied } from './missed-when-emptied.ts';
import { testsNaming } from './tests-by-rule.ts';

const root = join(import.meta.dirname, '../../..');
const results = join(root, 'out', 'emptied-rules');
const examples = 'tests/domain/rules/examples.test.ts';
const QUICK = /^tests\/(?:rules|domain|published)\//;

interface Noticed {
  readonly id: string;
  readonly byExamples: number;
  readonly byOthers: number;
  /** Kinds of mistakes that then stay hidden. */
  readonly byMistakes: number;
  readonly ran: number;
}

/** With the check of the rule emptied: its examples, and the tests that name it. What fails anyhow proves nothing. */
async function emptyAndTest(id: string, failingAnyhow: ReadonlySet<string>): Promise<Noticed> {
  const config = ['--config', 'tests/properties/defects/emptied-rules.config.ts'];
  const { ran, failed } = await test(quickTestsOf(id), id.replace('/', '-'), config, { SILLWRIGHT_EMPTY_RULE: id });
  const fresh = failed.filter((each) => !failingAnyhow.has(each));
  const onExamples = fresh.filter((each) => each.startsWith(examples));
  const byMistakes = missedWhenEmptied(id).filter(({ missed }) => missed).length;
  return { id, byExamples: onExamples.length, byOthers: fresh.length - onExamples.length, byMistakes, ran };
}

const quickTestsOf = (id: string): readonly string[] => [
  examples,
  ...testsNaming(id).filter((file) => QUICK.test(file)),
];

/** How many tests of some files ran, and which failed, each with its file. */
async function test(
  files: readonly string[],
  name: string,
  options: readonly string[],
  environment: Readonly<Record<string, string>>,
): Promise<{ readonly ran: number; readonly failed: readonly string[] }> {
  const report = join(results, `${name}.json`);
  await run(['run', ...options, ...files, '--reporter=json', `--outputFile.json=${report}`], environment);
  const { testResults } = JSON.parse(readFileSync(report, 'utf8')) as Report;
  const all = testResults.flatMap((file) =>
    file.assertionResults.map(({ status, fullName }) => ({
      status,
      name: `${relative(root, file.name).replaceAll('\\', '/')} ${fullName}`,
    })),
  );
  return { ran: all.length, failed: all.filter(({ status }) => status === 'failed').map((each) => each.name) };
}

interface Report {
  readonly testResults: readonly {
    readonly name: string;
    readonly assertionResults: readonly { readonly status: string; readonly fullName: string }[];
  }[];
}

function run(words: readonly string[], environment: Readonly<Record<string, string>>): Promise<void> {
  const vitest = join(root, 'node_modules/vitest/vitest.mjs');
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [vitest, ...words], {
      cwd: root,
      stdio: ['ignore', 'ignore', 'ignore'],
      env: { ...process.env, ...environment },
    });
    child.once('error', reject);
    // Tests that fail are what is hoped for: the report tells which.
    child.once('exit', () => resolve());
  });
}

rmSync(results, { recursive: true, force: true });
mkdirSync(results, { recursive: true });
const only = process.argv.slice(2);
const left = rules.map(({ id }) => id).filter((id) => only.length === 0 || only.includes(id));
const all = [...new Set(left.flatMap(quickTestsOf))];
const failingAnyhow = new Set((await test(all, 'with-every-rule', [], {})).failed);
const noticed: Noticed[] = [];
async function work(): Promise<void> {
  for (let id = left.shift(); id !== undefined; id = left.shift()) noticed.push(await emptyAndTest(id, failingAnyhow));
}
await Promise.all([work(), work()]);

if (failingAnyhow.size > 0) console.log(`With every rule in place these fail: ${[...failingAnyhow].join('; ')}`);

const sorted = noticed.toSorted((a, b) => (a.id < b.id ? -1 : 1));
for (const { id, byExamples, byOthers, byMistakes, ran } of sorted) {
  const verdict = ran > 0 && byExamples + byOthers > 0 ? 'noticed' : 'NOT NOTICED';
  console.log(
    `${verdict}  ${id}: of ${ran} tests ${byExamples} on its examples fail and ${byOthers} others; ${byMistakes} kinds of mistakes stay hidden`,
  );
}
const unnoticed = sorted.filter(({ byExamples, byOthers, ran }) => ran === 0 || byExamples + byOthers === 0);
const byExamplesOnly = sorted.filter(({ byOthers, byMistakes }) => byOthers + byMistakes === 0).map(({ id }) => id);
console.log(`${sorted.length - unnoticed.length} of ${sorted.length} emptied rules are noticed`);
if (byExamplesOnly.length > 0) console.log(`only by their examples: ${byExamplesOnly.join(', ')}`);
writeFileSync(join(root, 'out', 'emptied-rules.json'), `${JSON.stringify(sorted, null, 2)}\n`);
process.exitCode = unnoticed.length + byExamplesOnly.length === 0 && sorted.length > 0 ? 0 : 1;
