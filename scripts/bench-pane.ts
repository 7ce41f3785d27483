/**
 * From a key to the pane redrawn, in a headless Chromium outside the editor: on the demo house and on a legal building of some 120
 * walls with 2 000 connectors; typed, and without a pause. The plan comes in an update of its own, and has a line of its own. Also what
 * a frame of moving the drawing takes, beside the same with an empty drawing of equal size. `node scripts/bench-pane.ts [edits]`
 */
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import process from 'node:process';
import { largeHouseOf } from '../tests/support/houses/large-house.ts';
import { buildParts, findChromium, openPane, type PaneInChromium, type Steps } from './pane-in-chromium.ts';

const edits = Number(process.argv[2] ?? 120);
const examples = join(import.meta.dirname, '../examples');
const target = 50;
/** Milliseconds between two keys of a fast hand: a hundred words in a minute. */
const BETWEEN_KEYS = 120;
/** Edits before those that count: a person types thousands after each start of the server. */
const WARM = 80;

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
    await benchHouse(chromium, folder, '2 000 connectors', largeHouseOf(60), {});
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
    const inchesOfAnchor = /^\s+anchor\s+\S+-\d+\s+\S+\s+at\s+\d+'-\d*(?=\d)/;
    const line = lines.findIndex((each, index) => index >= lines.length / 2 && inchesOfAnchor.test(each));
    const column = inchesOfAnchor.exec(lines[line] ?? '')?.[0].length;
    if (column === undefined) throw new Error('there is no anchor in the second half of the text');
    await pane.moveTo(line, column);
    const digit = lines[line]?.[column] ?? '';
    let count = 0;
    // One digit of a station is written over, and written back.
    const key = (isPlanAwaited = false): Promise<Steps> => {
      const range = { start: { line, character: column }, end: { line, character: column + 1 } };
      count += 1;
      return pane.change(range, count % 2 === 0 ? digit : digit === '1' ? '2' : '1', isPlanAwaited);
    };
    const keys = async (most: number, apart: number): Promise<readonly Steps[]> => {
      const steps: Steps[] = [];
      let pressed = performance.now();
      for (let done = 0; done < most; done += 1) {
        // From key to key: a hand does not wait until it sees the last one.
        await new Promise((resolve) => setTimeout(resolve, Math.max(0, pressed + apart - performance.now())));
        pressed = performance.now();
        steps.push(await key());
      }
      return steps;
    };
    const say = (what: string, times: readonly number[], more: string): void =>
      console.log(`  ${what.padEnd(24)}${ms(share(times, 0.5))} / ${ms(share(times, 0.95))} ms ${more}`);
    const verdict = (times: readonly number[]): string =>
      `(p95 at most ${target}: ${share(times, 0.95) <= target ? 'kept' : 'NOT kept'})`;
    await keys(WARM, 0);
    const typed = await keys(edits, BETWEEN_KEYS);
    console.log(
      `${name}: ${countOf(text)} anchors, ${(pane.lastSize() / 1000).toFixed(0)} kB a key, median / p95 of ${edits}`,
    );
    const drawn = typed.map((each) => each.drawn);
    say(
      'key to update',
      typed.map((each) => each.updated),
      '',
    );
    say('key to redrawn', drawn, verdict(drawn));
    say(
      'the same without pause',
      (await keys(edits, 0)).map((each) => each.drawn),
      '',
    );
    const plans: number[] = [];
    for (let done = 0; done < 12; done += 1) plans.push((await key(true)).planDrawn);
    say('key to plan redrawn', plans, '(follows; left off when a key comes meanwhile)');
    const moving = await frameWork(pane, false);
    const empty = await frameWork(pane, true);
    console.log(
      `  frame of a move         ${moving.toFixed(2)} ms, with nothing drawn ${empty.toFixed(2)}: ${(moving / empty).toFixed(1)} x`,
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
