import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { svgOf } from '../../language/protocol/picture.ts';
import {
  applyUpdate,
  type DrawingPart,
  type FixesAnswer,
  type PreviewParts,
  type PreviewState,
  type PreviewUpdate,
} from '../../language/protocol/preview.ts';
import {
  cursorMoved,
  type DrawingsAnswer,
  type DrawingsParams,
  drawingsRequest,
  fixesRequest,
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

/** Updates that did not follow one another. */
const gaps: string[] = [];
/** Every state that the pane was in. */
const seen: PreviewParts[] = [];

function hear(update: PreviewUpdate): void {
  if (update.uri !== uri) return;
  const next = applyUpdate(state, update);
  if (typeof next !== 'object') gaps.push(next);
  else state = next;
  if (state) seen.push(state.parts);
  waiting?.();
}

const entities: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };
const fromXml = (text: string): string => text.replace(/&([^;]+);/g, (_, name: string) => entities[name] ?? '');

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

const everyInch = Array.from({ length: 200 }, (_, inch) => `${Math.floor(inch / 7)}'-${inch % 12}"`);

/** Of a pane on another file with this text, which the server never saw. */
async function freshParts(fresh: string, count: number): Promise<PreviewParts> {
  const other = pathToFileURL(join(examples, `maple-designed-again-${count}.sill`)).toString();
  editor.open(other, fresh);
  const drawn = new Promise<PreviewParts>((resolve) => {
    let shown: PreviewState | undefined;
    const listening = editor.connection.onNotification(previewUpdate, (update: PreviewUpdate) => {
      hear(update);
      if (update.uri !== other) return;
      const next = applyUpdate(shown, update);
      if (typeof next === 'object') shown = next;
      if (!shown || shown.parts.notice.planIsDue) return;
      listening.dispose();
      editor.connection.onNotification(previewUpdate, hear);
      resolve(shown.parts);
    });
  });
  const cursor = { uri: other, ...editor.place(other, 'anchor  F-11') };
  void editor.connection.sendNotification(openPreview, { uri: other, cursor });
  const parts = await drawn;
  editor.close(other);
  return parts;
}

const svgIn = ({ picture }: DrawingPart): string => (picture ? svgOf(picture) : '');

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
    for (const thing of ['GD/post:P1', 'GD/cap:GD-C1'])
      expect(svgIn(parts.elevation)).toContain(`data-thing="${thing}"`);
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

  it('knows by the number of each marker of the plan what its finding is, whatever wall is in sight', async () => {
    send(cursorMoved, 'anchor  F-11');
    const { plan, findings } = await partsThat(
      ({ elevation, notice }) => elevation.wall === 'wall:F' && !notice.planIsDue,
    );
    const markers = [
      ...svgIn(plan).matchAll(
        /<g(?: data-thing="([^"]*)")? data-role="finding" role="img" aria-label="finding (\d+), \w+: ([^"]*)" tabindex="-1">/g,
      ),
    ];
    expect(markers.length).toBe(svgIn(plan).split('data-role="finding"').length - 1);
    expect(new Set(markers.map(([, thing = '']) => thing.split('/')[0])).size).toBeGreaterThan(2);
    const answer = await editor.connection.sendRequest<FixesAnswer>(fixesRequest, {
      ...{ uri, revision: findings.revision },
      findings: markers.map(([, , number]) => Number(number) - 1),
    });
    expect(answer.fixes.map(({ words }) => words)).toEqual(markers.map(([, , , message = '']) => fromXml(message)));
    expect(answer.fixes.every(({ rule }) => /^[a-z-]+\/[a-z-]+$/.test(rule))).toBe(true);
    // What the survey was found to lack stands in its own file.
    expect(new Set(answer.fixes.map(({ line }) => line > 0))).toEqual(new Set([true, false]));
  });

  it('is labelled in other units, and its text and findings stay as they are', async () => {
    send(cursorMoved, 'anchor  F-11');
    const before = await partsThat(({ focus }) => focus.thing === 'F/anchor:F-11');
    send(openPreview, 'anchor  F-11', { units: 'metric' });
    // 28'-4" is 340 in of 25.4 mm each: the international inch of 1959.
    const metric = await partsThat(({ focus }) => /8636/.test(focus.station));
    expect(svgIn(metric.elevation)).toContain('>8636');
    expect(svgIn(metric.elevation)).not.toMatch(/>28&#39;-4/);
    expect(metric.elevation.inch).toBeCloseTo(25.4 / 25);
    expect(metric.focus.findings.map(({ message }) => message)).toEqual(
      before.focus.findings.map(({ message }) => message),
    );
    send(openPreview, 'anchor  F-11', { units: 'as-written' });
    const again = await partsThat(({ focus }) => focus.station === `28'-4"`);
    expect(svgIn(again.elevation)).toBe(svgIn(before.elevation));
    expect(editor.text(uri)).toBe(text);
  });

  it('says which things a kept drawing shows otherwise than the text', async () => {
    send(cursorMoved, 'anchor  F-11');
    const before = await partsThat(({ focus }) => focus.thing === 'F/anchor:F-11');
    expect(before.notice.stale).toEqual([]);
    editor.change(uri, `at 28'-4"`, `at 28'-`);
    const half = await partsThat(({ notice }) => notice.text !== undefined);
    expect(half.notice).toMatchObject({ text: expect.stringMatching(/in grey dashes/), stale: ['F/anchor:F-11'] });
    expect(svgIn(half.elevation)).toBe(svgIn(before.elevation));
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
    expect(svgIn(moved.plan)).not.toBe(svgIn(before.plan));
    editor.change(uri, `at 28'-9"`, `at 28'-7"`);
    editor.change(uri, `at 28'-7"`, `at 28'-4"`);
    const home = await partsThat(isDrawn(`28'-4"`));
    expect(svgIn(home.plan)).toBe(svgIn(before.plan));
    expect(seen.some(({ notice }) => notice.planIsDue)).toBe(true);
    for (const { elevation, plan, notice } of seen) {
      if (notice.planIsDue) continue;
      const of = svgIn(elevation) === svgIn(moved.elevation) ? moved : home;
      expect([svgIn(elevation), svgIn(plan)]).toEqual([svgIn(of.elevation), svgIn(of.plan)]);
    }
  });

  it('sends what changed, and that makes the very pictures of a pane that is opened on the same text', async () => {
    send(cursorMoved, 'anchor  F-11');
    const isAt = (station: string) => (parts: PreviewParts) =>
      parts.focus.station === station && !parts.notice.planIsDue;
    await partsThat(isAt(`28'-4"`));
    const stations = [
      `28'-4"`,
      `128'-4"`,
      `22'-4"`,
      `2'-4"`,
      `28'-5"`,
      ...(process.env.SILLWRIGHT_LONG ? everyInch : []),
      `28'-4"`,
    ];
    for (const [index, station] of stations.slice(1).entries()) {
      editor.change(uri, `at ${stations[index]}     //`, `at ${station}     //`);
      const { plan, elevation, findings, schedule, focus } = await partsThat(isAt(station));
      const fresh = await freshParts(editor.text(uri), index);
      expect(svgIn(elevation) === svgIn(fresh.elevation), `elevation, F-11 at ${station}`).toBe(true);
      expect(svgIn(plan) === svgIn(fresh.plan), `plan, F-11 at ${station}`).toBe(true);
      const { revision: _, ...found } = findings;
      expect({ schedule, focus, ...found }).toEqual({
        ...{ schedule: fresh.schedule, focus: fresh.focus },
        ...{ wall: fresh.findings.wall, lines: fresh.findings.lines },
      });
    }
    expect(gaps).toEqual([]);
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
