/**
 * From a key to the pane redrawn, in a headless Chromium outside the editor: on the demo house and with 2 000 connectors; and what a
 * frame of moving the drawing takes, beside the same with an empty drawing of equal size. `node scripts/bench-pane.ts [edits]`
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { longHouseOf } from '../tests/support/houses/long-house.ts';
import { buildParts, findChromium, openPane, type PaneInChromium, type Steps } from './pane-in-chromium.ts';

const edits = Number(process.argv[2] ?? 40);
const examples = join(import.meta.dirname, '../examples');
const target = 50;
/** Milliseconds for the edits of one house. */
const LONGEST = 30_000;

const chromium = findChromium();
if (chromium === undefined) {
  console.log('skipped: there is no Chromium on this machine (set CHROMIUM to its path)');
} else {
  const folder = mkdtempSync(join(tmpdir(), 'sillwright-pane-'));
  try {
    await buildParts(folder);
    const beside = { 'maple-surveyed.sill': readFileSync(join(examples, 'maple-surveyed.sill'), 'utf8') };
    await benchHouse(
      chromium,
      folder,
      'demo house',
      readFileSync(join(examples, 'maple-designed.sill'), 'utf8'),
      beside,
    );
    await benchHouse(chromium, folder, '2 000 connectors', houseWithAnchors(2000), {});
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function benchHouse(
  executable: string,
  folder: string,
  name: string,
  text: string,
  beside: Readonly<Record<string, string>>,
): Promise<void> {
  const viewport = { width: 640, height: 900 };
  const pane = await openPane(executable, { text, folder, viewport, beside });
  try {
    const lines = text.split('\n');
    const isAnchor = /^\s+anchor\s+\S+-\d+\s+\S+\s+at\s+(?=\d)/;
    const line = lines.findIndex((each, index) => index >= lines.length / 2 && isAnchor.test(each));
    const column = isAnchor.exec(lines[line] ?? '')?.[0].length;
    if (column === undefined) throw new Error('there is no anchor in the second half of the text');
    await pane.moveTo(line, column);
    const steps: Steps[] = [];
    // A digit is written and taken back: the anchor goes to another place and comes home.
    const end = performance.now() + LONGEST;
    for (let count = 0; count < edits && (count < 3 || performance.now() < end); count += 1) {
      const isBack = count % 2 === 1;
      const range = { start: { line, character: column }, end: { line, character: column + (isBack ? 1 : 0) } };
      steps.push(await pane.change(range, isBack ? '' : '1'));
    }
    const warm = Math.min(4, steps.length - 2);
    const [updated, drawn] = [
      steps.slice(warm).map((each) => each.updated),
      steps.slice(warm).map((each) => each.drawn),
    ];
    const p95 = share(drawn, 0.95);
    console.log(`${name}: ${countOf(text)} anchors, an update of ${(pane.lastSize() / 1000).toFixed(0)} kB`);
    console.log(`  key to update     ${ms(share(updated, 0.5))} / ${ms(share(updated, 0.95))} ms (median / p95)`);
    console.log(
      `  key to redrawn    ${ms(share(drawn, 0.5))} / ${ms(p95)} ms ${p95 <= target ? `(at most ${target}: kept)` : `(at most ${target}: NOT kept)`}`,
    );
    const moving = await frameWork(pane, false);
    const empty = await frameWork(pane, true);
    console.log(
      `  frame of a move   ${moving.toFixed(2)} ms, with nothing drawn ${empty.toFixed(2)}: ${(moving / empty).toFixed(1)} x`,
    );
  } finally {
    await pane.close();
  }
}

/** What the page's own thread works for a frame in which the elevation is moved, by the browser's own account. In milliseconds. */
async function frameWork({ page }: PaneInChromium, isEmpty: boolean): Promise<number> {
  const session = await page.context().newCDPSession(page);
  await session.send('Performance.enable');
  if (isEmpty) await page.evaluate(`document.querySelectorAll('.stage svg').forEach((svg) => svg.replaceChildren())`);
  const work = async (): Promise<number> => {
    const { metrics } = await session.send('Performance.getMetrics');
    return metrics.find(({ name }) => name === 'TaskDuration')?.value ?? 0;
  };
  const frames = 120;
  const began = await work();
  await page.evaluate(`new Promise((resolve) => {
    const view = document.querySelector('.drawing.follows');
    let left = ${frames};
    const step = () => {
      view.scrollLeft = 20 + (left % 40) * 8;
      left -= 1;
      if (left > 0) requestAnimationFrame(step);
      else resolve();
    };
    requestAnimationFrame(step);
  })`);
  return ((await work()) - began) * (1000 / frames);
}

/** About so many: a sample tells how many lines it takes. */
function houseWithAnchors(count: number): string {
  const sample = 1_000;
  return longHouseOf(Math.ceil((sample * count) / countOf(longHouseOf(sample))));
}

function countOf(text: string): number {
  return text.match(/^\s+anchor\s+\S+-\d+\s+\S+\s+at\s/gm)?.length ?? 0;
}

function share(times: readonly number[], part: number): number {
  const sorted = times.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * part))] ?? 0;
}

function ms(time: number): string {
  return time.toFixed(1);
}
