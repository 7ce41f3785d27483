import { deepEqual, equal, match, ok } from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { FrameLocator } from 'playwright-core';
import { previewProtocol } from '../../language/protocol/preview.ts';
import type { Case } from './cases.ts';
import { showHouse } from './pane-cases.ts';
import { lineOf } from './text-in-front.ts';
import { inPage, poll } from './window.ts';

/** Markup in every place where a person may write what they like. */
const hostile = `<img src=x onerror=top.hit=1><script>top.hit=1</script></text></svg>&quot;' onload='top.hit=1`;

/** What a layout or another page may try on the pane. */
export const paneGuardCases: readonly Case[] = [
  {
    name: 'guard: markup in names, notes and reasons is shown as it is written, in every place of the pane',
    async run(window, workspace) {
      const { page, host } = window;
      writeFileSync(join(workspace, 'hostile.sill'), hostileHouse(workspace));
      await window.openFile('hostile.sill');
      await window.goTo(await lineOf(host, /anchor +A-2 /));
      await window.runCommand('Sillwright: Show Layout Beside');
      const pane = window.preview();
      await pane.locator('header h1').filter({ hasText: '<img src=x' }).waitFor({ timeout: 30_000 });
      await pane.locator('.schedule tr.here').filter({ hasText: 'A-2' }).waitFor();
      await expectOnlyOurs(pane);
      match((await pane.locator('#subjects-button').textContent()) ?? '', /<img src=x/, 'the wall in its menu');
      match((await pane.locator('.elevation h2').textContent()) ?? '', /<img src=x/, 'and over its elevation');
      match((await pane.locator('.focus .source').textContent()) ?? '', /<img src=x/, 'the note under the cursor');
      // Pointed at, walked through, opened and copied: nothing becomes an element.
      for (const at of [/^wall A/, /vent V1/, /anchor +A-1 /, /no work because/, /ask /]) {
        await window.goTo(await lineOf(host, at));
        await poll(async () => (await pane.locator('.focus .source').textContent())?.match(at) !== null, String(at));
        await expectOnlyOurs(pane);
      }
      await pane.locator('#subjects-button').click();
      await expectOnlyOurs(pane);
      await page.keyboard.press('Escape');
      for (const marker of await pane.locator('.elevation .stage [data-role="finding"]').all()) {
        await marker.dispatchEvent('click');
        await pane.locator('.pinned:popover-open').waitFor();
        await expectOnlyOurs(pane);
        await page.keyboard.press('Escape');
      }
      await pane.locator('.schedule .copy').click();
      await pane.locator('.copied').filter({ hasText: 'Copied' }).waitFor();
      const html = await page.evaluate<string>(`(async () => {
        const [item] = await navigator.clipboard.read();
        return (await item.getType('text/html')).text();
      })()`);
      ok(!/<img|<script/.test(html), 'the copied table holds no element of theirs');
      equal(await page.evaluate('globalThis.hit ?? "not hit"'), 'not hit');
      await host.call((vscode) => vscode.commands.executeCommand('workbench.action.closeActiveEditor'));
    },
  },
  {
    name: 'guard: the page of the pane runs our script only, fetches nothing remote, and its policy holds',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const policy = await pane
        .locator('html')
        .evaluate(inPage<string>(`(page) => page.querySelector('meta[http-equiv="Content-Security-Policy"]').content`));
      match(policy, /^default-src 'none'; script-src 'nonce-[0-9a-f]{32}';/);
      ok(!/unsafe|\*|https?:\/\/(?!\S*vscode)/.test(policy.replace(/https:\/\/\*\.vscode-cdn\.net/g, '')), policy);
      const tried = await pane.locator('body').evaluate(
        inPage<readonly string[]>(`async (body) => {
        const broken = [];
        document.addEventListener('securitypolicyviolation', ({ effectiveDirective }) => broken.push(effectiveDirective));
        const script = document.createElement('script');
        script.textContent = 'globalThis.ran = true';
        body.append(script);
        const picture = document.createElement('img');
        picture.src = 'https://example.invalid/a.png';
        body.append(picture);
        await fetch('https://example.invalid/').catch(() => undefined);
        await new Promise((resolve) => setTimeout(resolve, 300));
        script.remove();
        picture.remove();
        return [...new Set(broken), ...(globalThis.ran ? ['it ran'] : [])].sort();
      }`),
      );
      deepEqual(tried, ['connect-src', 'img-src', 'script-src-elem']);
      const own = await pane
        .locator('body')
        .evaluate(
          inPage<readonly string[]>(
            `() => performance.getEntriesByType('resource').filter(({ name }) => !name.includes('example.invalid')).map(({ name }) => new URL(name, location.href).pathname)`,
          ),
        );
      for (const path of own) match(path, /\/dist\/(?:webview\.(?:js|css)|fonts\/[\w-]+\.ttf)$|^\/?$|vscode/);
    },
  },
  {
    name: 'guard: forged messages change nothing, and the pane goes on listening to the editor',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      // biome-ignore lint/performance/useDomNodeTextContent: what is shown.
      const before = await pane.locator('body').innerText();
      const uri = await pane.locator('body').getAttribute('data-layout');
      const drawing = { empty: '', view: [0, 0, 1, 1], inch: 1 };
      const script = '<script>top.hit=1</script>';
      const part = { ...drawing, picture: { open: '<svg xmlns="http://www.w3.org/2000/svg">', pieces: [script] } };
      const forged: readonly unknown[] = [
        null,
        'update',
        { type: 'update' },
        {
          type: 'update',
          update: { protocol: 99, uri, version: 9e9, sequence: 9e9, kind: 'full', base: 0, parts: {} },
        },
        update(uri, { header: { house: 'forged' } }),
        update(uri, { header: null }),
        update(uri, { plan: { ...part, view: 'all of it' } }),
        update(uri, { plan: { ...drawing, changes: [{ pieces: [script] }] } }),
        update(uri, { plan: { ...drawing, changes: [{ pieces: [[0, 9e9]] }] } }, 'patch'),
        update(uri, { elevation: { ...drawing, picture: { open: '<svg>', pieces: [{ open: '<g>' }] } } }, 'patch'),
        update(uri, { plan: part, elevation: part, findings: { wall: 'x', revision: 1, lines: [{}] } }),
        { ...update(uri, {}), type: 'fixes', answer: { revision: 'x' } },
        { type: 'moved', thing: 'F/anchor:F-11', answer: { kind: 'done' } },
        { type: 'render', svg: 7, dotsPerInch: 'many' },
      ];
      await pane.locator('body').evaluate((_, messages) => {
        type Page = { postMessage(message: unknown, origin: string): void };
        for (const message of messages) (globalThis as unknown as Page).postMessage(message, '*');
      }, forged);
      await new Promise((resolve) => setTimeout(resolve, 500));
      // biome-ignore lint/performance/useDomNodeTextContent: what is shown.
      equal(await pane.locator('body').innerText(), before);
      await showHouse(window, /anchor +F-3 /);
      await pane.locator('.schedule tr.here').filter({ hasText: 'F-3' }).waitFor();
      await expectOnlyOurs(pane);
    },
  },
];

function update(uri: string | null, parts: unknown, kind: 'full' | 'patch' = 'full'): object {
  const protocol = previewProtocol;
  return { type: 'update', update: { protocol, uri, version: 9e9, sequence: 9e9, kind, base: 0, parts } };
}

/** The example house with markup for a title, an address, names of walls, notes, questions and reasons; wall B has no work, for a reason. */
function hostileHouse(workspace: string): string {
  const text = readFileSync(join(workspace, 'first-wall.sill'), 'utf8');
  return text
    .replace(/^(layout| {2}address {5}|wall \w) "[^"\n]*"/gm, (_, words: string) => `${words} "${hostile}"`)
    .replace(/^( {2}vent V1 .*)$/m, (line) => `${line} note "${hostile}"`)
    .replace(/^( {2}anchor {2}A-[12] .*)$/gm, (line) => `${line} note "${hostile}"`)
    .replace(/ask "[^"\n]*"/, () => `ask "${hostile}"`)
    .replace(/^ {2}anchor {2}A-3 .*\n/m, '')
    .replace(/^work on B\n(?: {2}.*\n)+/m, () => `work on B\n  no work because "${hostile}"\n`);
}

/** No element that the pane did not make, and none with something to run in it. */
async function expectOnlyOurs(pane: FrameLocator): Promise<void> {
  const strange = await pane.locator('html').evaluate(
    inPage<readonly string[]>(`(page) => {
    const strange = [...page.querySelectorAll('body img, body iframe, body object, body embed, foreignObject, image, use, body a')];
    strange.push(...[...page.querySelectorAll('body script')].filter(({ src }) => !src.endsWith('webview.js')));
    for (const each of page.querySelectorAll('body *'))
      if ([...each.attributes].some(({ name, value }) => /^on/.test(name) || /^\\s*javascript:/i.test(value))) strange.push(each);
    return strange.map((each) => each.outerHTML.slice(0, 100));
  }`),
  );
  deepEqual(strange, []);
}
