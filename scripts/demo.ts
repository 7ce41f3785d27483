/** `npm run demo`: what the command line does with the example houses, in a minute. Everything it writes goes to out/demo. */
import { copyFileSync, mkdirSync, readdirSync, rmSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import process from 'node:process';
import { createTwoFilesPatch } from 'diff';
import { type Analysis, writeEdits } from '../language/analysis.ts';
import { wrapWords } from '../language/domain/documents/text-layout.ts';
import { applyChanges } from '../language/syntax/write-edit.ts';
import { openLayout } from '../server/src/cli/open-layout.ts';
import { runCommandLine } from '../server/src/cli/run.ts';
import { writeTextFile } from '../server/src/cli/write-text-file.ts';

process.chdir(join(import.meta.dirname, '..'));
const surveyed = 'examples/maple-surveyed.sill';
const designed = 'examples/maple-designed.sill';
const out = 'out/demo';

rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });

heading('The house as surveyed');
await sillwright('check', surveyed);
heading('The house with its design');
await sillwright('check', designed);
heading('One finding mended, in a copy');
mendOneInCopy();
heading('Drawings, calculation sheet and schedule');
await sillwright('draw', designed, '--plan', '-o', `${out}/plan.svg`);
for (const wall of analyse(designed).layout.walls.filter(({ role }) => role === 'perimeter')) {
  await sillwright('draw', designed, '--wall', wall.name, '-o', `${out}/wall-${wall.name}.svg`);
}
await sillwright('draw', designed, '--sheet', '24x18', '-o', `${out}/sheet.svg`);
await sillwright('draw', designed, '--strips', '-o', `${out}/strip.svg`);
await sillwright('calc', designed, '-o', `${out}/calculation.txt`);
await sillwright('schedule', designed, '-o', `${out}/schedule.txt`);
await sillwright('schedule', designed, '--format', 'csv', '-o', `${out}/schedule.csv`);
await sillwright('schedule', designed, '--format', 'json', '-o', `${out}/schedule.json`);
for (const name of readdirSync(out).sort()) {
  const stats = statSync(join(out, name));
  if (stats.isFile()) console.log(`wrote ${out}/${name} (${stats.size} bytes)`);
}

function heading(text: string): void {
  console.log(`\n${text}\n${'='.repeat(text.length)}\n`);
}

/** Runs a command in this process. The examples show findings on purpose; anything graver ends the demo. */
async function sillwright(...words: string[]): Promise<void> {
  let complaints = '';
  const code = await runCommandLine(
    words,
    {
      out: (text) => void process.stdout.write(text),
      err: (text) => {
        complaints += text;
      },
    },
    process.env,
  );
  if (code > 1) throw new Error(`sillwright ${words.join(' ')} ended in ${code}: ${complaints}`);
}

function analyse(path: string): Analysis {
  const opened = openLayout(path);
  if (opened.kind === 'refused') throw new Error(opened.reason);
  return opened.layout.analysis;
}

/** The first finding of the designed house that can be mended in its own file. */
function mendOneInCopy(): void {
  const folder = join(out, 'mended');
  mkdirSync(folder);
  for (const file of [surveyed, designed]) copyFileSync(file, join(folder, basename(file)));
  const copy = join(folder, basename(designed));
  const before = analyse(copy);
  for (const finding of before.findings) {
    for (const fix of finding.fixes) {
      const written = writeEdits(before, fix.edits);
      if (written.kind === 'refused' || written.changes.some((change) => change.file !== before.file)) continue;
      const text = applyChanges(before.text, written.changes);
      const answer = writeTextFile(copy, text, { keep: [] });
      if (answer.kind === 'refused') throw new Error(`${copy} cannot be written: ${answer.reason}`);
      console.log([...wrapWords(finding.message, 100), ...wrapWords(`Mend: ${fix.title}`, 100), ''].join('\n'));
      console.log(createTwoFilesPatch(designed, copy, before.text, text, '', '', { context: 1 }));
      const { errors } = analyse(copy).basis.counts;
      console.log(`${before.basis.counts.errors} errors before, ${errors} after.`);
      return;
    }
  }
  throw new Error('no finding of the example can be mended, which the demo is there to show');
}
