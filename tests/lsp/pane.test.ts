import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  applyUpdate,
  type PreviewParts,
  type PreviewState,
  type PreviewUpdate,
} from '../../language/protocol/preview.ts';
import {
  cursorMoved,
  type DrawingsAnswer,
  type DrawingsParams,
  drawingsRequest,
  openPreview,
  type Place,
  type PreviewParams,
  placeOfThing,
  previewUpdate,
} from '../../language/protocol/requests.ts';
import { type EditorClient, startRealServer } from './editor-client.ts';

const examples = join(import.meta.dirname, '../../examples');
const uri = pathToFileURL(join(examples, 'maple-designed.sill')).toString();
const text = readFileSync(join(examples, 'maple-designed.sill'), 'utf8');

let editor: EditorClient;
let state: PreviewState | undefined;
let waiting: (() => void) | undefined;

beforeAll(async () => {
  editor = await startRealServer(examples);
  editor.connection.onNotification(previewUpdate, hear);
  editor.open(uri, text);
});
afterAll(() => editor.stop());

/** Every state that the pane was in. */
const seen: PreviewParts[] = [];

function hear(update: PreviewUpdate): void {
  const next = applyUpdate(state, update);
  if (typeof next === 'object') state = next;
  if (state) seen.push(state.parts);
  waiting?.();
}

/** The parts of the pane once they fit. */
function partsThat(fits: (parts: PreviewParts) => boolean): Promise<PreviewParts> {
  return new Promise((resolve) => {
    waiting = () => {
      if (!state || !fits(state.parts)) return;
      waiting = undefined;
      resolve(state.parts);
    };
    waiting();
  });
}

function send(method: string, at: string, more: Partial<PreviewParams> = {}): void {
  void editor.connection.sendNotification(method, { uri, cursor: { uri, ...editor.place(uri, at) }, ...more });
}

const factsOf = ({ focus }: PreviewParts): Readonly<Record<string, string>> =>
  Object.fromEntries(focus.facts.map(({ name, text: said }) => [name, said]));

describe('the pane of a house of real size', () => {
  it('lists its walls and its girder, and draws the girder of the cursor with its posts', async () => {
    send(openPreview, 'cap     GD-C1');
    const parts = await partsThat(({ focus }) => focus.thing !== '');
    expect(parts.header.subjects.map(({ thing }) => thing)).toEqual([
      ...[...'ABCDEF'].map((wall) => `wall:${wall}`),
      ...parts.header.subjects.flatMap(({ thing }) => (/^wall:[A-F]$/.test(thing) ? [] : [thing])),
    ]);
    expect(parts.header.subjects.map(({ thing }) => thing)).toContain('girder:GD');
    expect(parts.elevation).toMatchObject({ wall: 'girder:GD', title: 'Elevation GD, from the side' });
    for (const thing of ['GD/post:P1', 'GD/cap:GD-C1']) expect(parts.elevation.svg).toContain(`data-thing="${thing}"`);
    expect(parts.schedule.sections[0]?.title).toBe('Posts');
    expect(parts.focus.findings.every(({ rule }) => rule.startsWith('post/'))).toBe(true);
    expect(factsOf(parts)).toMatchObject({ connector: 'cap-plates', sides: 'both' });
  });

  it('finds panels, ties, angles and work on what was found under the cursor, with the facts of their schedules', async () => {
    const at: readonly (readonly [line: string, thing: string, fact: string, says: RegExp])[] = [
      ['panel   F-P3', 'F/panel:F-P3', 'board', /plywood|OSB/],
      ['hold-down A-H1', 'A/hold-down:A-H1', 'connector', /tie-rod/],
      ['angles F-A1', 'F/angles:F-A1', 'connector', /angle-8/],
      ['replace sill E1', 'E/replace:#1', 'put in', /1-1\/2"/],
    ];
    for (const [line, thing, fact, says] of at) {
      const found = text.split('\n').find((each) => new RegExp(line.replace(/ +/g, ' +')).test(each)) ?? '';
      send(cursorMoved, found.trim());
      const parts = await partsThat(({ focus }) => focus.source === found.trim());
      if (thing.includes('#')) expect(parts.focus.thing).not.toBe('');
      else expect(parts.focus.thing).toBe(thing);
      expect(factsOf(parts)[fact], thing).toMatch(says);
      const place = await editor.connection.sendRequest<Place | null>(placeOfThing, { uri, thing: parts.focus.thing });
      expect(text.split('\n')[place?.start.line ?? -1]?.trim()).toBe(found.trim());
    }
  });

  it('tells on hover what a panel is', async () => {
    const hover = await editor.hover(uri, editor.place(uri, 'F-P3'));
    expect(JSON.stringify(hover?.contents)).toMatch(/F\\\\-P3.*bracing panel.*board/s);
  });

  it('shows another wall while the cursor stays, until it moves', async () => {
    send(cursorMoved, 'anchor  F-11');
    await partsThat(({ elevation }) => elevation.wall === 'wall:F');
    send(cursorMoved, 'anchor  F-11', { look: 'wall:A' });
    const looked = await partsThat(({ elevation }) => elevation.wall === 'wall:A');
    expect(looked.schedule.wall).toBe('A');
    send(cursorMoved, 'anchor  F-12');
    await partsThat(({ elevation }) => elevation.wall === 'wall:F');
  });

  it('has for each marker of the plan the line of its finding, whatever wall is in sight', async () => {
    send(cursorMoved, 'anchor  F-11');
    const { plan, planFindings } = await partsThat(({ elevation }) => elevation.wall === 'wall:F');
    const markers = [
      ...plan.svg.matchAll(
        /<g(?: data-thing="([^"]*)")? data-role="finding" role="img" aria-label="finding (\d+), (\w+): [^"]*" tabindex="-1">/g,
      ),
    ];
    expect(markers.length).toBe(plan.svg.split('data-role="finding"').length - 1);
    expect(new Set(markers.map(([, thing = '']) => thing.split('/')[0])).size).toBeGreaterThan(2);
    for (const [, thing = '', number, severity] of markers)
      expect(planFindings.lines.find((line) => line.number === Number(number))).toMatchObject({ thing, severity });
  });

  it('is labelled in other units, and its text and findings stay as they are', async () => {
    send(cursorMoved, 'anchor  F-11');
    const before = await partsThat(({ focus }) => focus.thing === 'F/anchor:F-11');
    send(openPreview, 'anchor  F-11', { units: 'metric' });
    // 28'-4" is 340 in of 25.4 mm each: the international inch of 1959.
    const metric = await partsThat(({ focus }) => /8636/.test(focus.station));
    expect(metric.elevation.svg).toContain('>8636');
    expect(metric.elevation.svg).not.toMatch(/>28&#39;-4/);
    expect(metric.elevation.inch).toBeCloseTo(25.4 / 25);
    expect(metric.focus.findings.map(({ message }) => message)).toEqual(
      before.focus.findings.map(({ message }) => message),
    );
    send(openPreview, 'anchor  F-11', { units: 'as-written' });
    const again = await partsThat(({ focus }) => focus.station === `28'-4"`);
    expect(again.elevation.svg).toBe(before.elevation.svg);
    expect(editor.text(uri)).toBe(text);
  });

  it('says which things a kept drawing shows otherwise than the text', async () => {
    send(cursorMoved, 'anchor  F-11');
    const before = await partsThat(({ focus }) => focus.thing === 'F/anchor:F-11');
    expect(before.notice.stale).toEqual([]);
    editor.change(uri, `at 28'-4"`, `at 28'-`);
    const half = await partsThat(({ notice }) => notice.text !== undefined);
    expect(half.notice).toMatchObject({ text: expect.stringMatching(/in grey dashes/), stale: ['F/anchor:F-11'] });
    expect(half.elevation.svg).toBe(before.elevation.svg);
    editor.change(uri, `at 28'-`, `at 28'-4"`);
    await partsThat(({ notice }) => notice.text === undefined);
  });

  it('draws the plan after the rest and says so, of the newest text, also where keys come faster than it is drawn', async () => {
    send(cursorMoved, 'anchor  F-11');
    const isDrawn = (station: string) => (parts: PreviewParts) =>
      parts.focus.station === station && !parts.notice.planIsDue;
    const before = await partsThat(isDrawn(`28'-4"`));
    seen.length = 0;
    editor.change(uri, `at 28'-4"`, `at 28'-9"`);
    const moved = await partsThat(isDrawn(`28'-9"`));
    expect(moved.plan.svg).not.toBe(before.plan.svg);
    editor.change(uri, `at 28'-9"`, `at 28'-7"`);
    editor.change(uri, `at 28'-7"`, `at 28'-4"`);
    const home = await partsThat(isDrawn(`28'-4"`));
    expect(home.plan.svg).toBe(before.plan.svg);
    expect(seen.some(({ notice }) => notice.planIsDue)).toBe(true);
    for (const { elevation, plan, notice } of seen) {
      if (notice.planIsDue) continue;
      const of = elevation.svg === moved.elevation.svg ? moved : home;
      expect([elevation.svg, plan.svg]).toEqual([of.elevation.svg, of.plan.svg]);
    }
  });

  it('gives one drawing as on paper, in the units of the pane, and refuses what is drawn no more', async () => {
    const ask = (only: string): Promise<DrawingsAnswer> =>
      editor.connection.sendRequest(drawingsRequest, { uri, only, units: 'metric' });
    const answer = await ask('girder:GD');
    if (answer.kind === 'refused') throw new Error(answer.reason);
    expect(answer.sheets.map(({ name }) => name)).toEqual(['girder-GD']);
    expect(answer.sheets[0]?.svg).toMatch(/^<svg[^>]* width="[\d.]+mm".*DEMO VALUES.*1:25/s);
    expect(await ask('wall:Z')).toEqual({ kind: 'refused', reason: expect.stringMatching(/no more/) });
  });

  it('gives a printed sheet out of the set, on the paper that is asked for', async () => {
    const params: DrawingsParams = { uri, only: 'wall:C', sheet: 'A2' };
    const answer = await editor.connection.sendRequest<DrawingsAnswer>(drawingsRequest, params);
    if (answer.kind === 'refused') throw new Error(answer.reason);
    expect(answer.sheets.map(({ name }) => name)).toEqual(['wall-C']);
    expect(answer.sheets[0]?.svg).toMatch(/^<svg[^>]* width="594mm" height="420mm".*Wall C south.*>\d+ of \d+</s);
  });
});
