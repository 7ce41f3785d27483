/** Every bench, one after the other, each in a process of its own so that none warms up or slows down the next. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';

const benches = ['bench-parse.ts', 'bench-editing.ts', 'bench-placement.ts', 'bench-pane.ts'];

for (const bench of benches) {
  console.log(`\n${bench.replace(/^bench-|\.ts$/g, '')}`);
  const { status } = spawnSync(process.execPath, [join(import.meta.dirname, bench)], { stdio: 'inherit' });
  if (status !== 0) process.exitCode = 1;
}
