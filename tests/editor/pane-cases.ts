import { deepEqual, equal, match, ok } from 'node:assert/strict';
import { existsSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { inflateSync } from 'node:zlib';
import type { FrameLocator, Locator } from 'playwright-core';
import type { Case } from './cases.ts';
import type { Host } from './host.ts';
import { caretLine, lineOf, textOfFile } from './text-in-front.ts';
import { type EditorWindow, inPage, poll } from './window.ts';

/** What a person does in the pane besides following the cursor; each opens the house of real size. */
export const paneCases: readonly Case[] = [
  {
    name: 'pane: a drawing is moved and made larger by mouse and by keyboard, and stays so over an edit',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const { page } = window;
      const drawing = pane.locator('.drawing.follows');
      const first = await sightOf(drawing);
      const box = await drawing.boundingBox();
      ok(box, 'the elevation must be in sight');
      const ground = { x: box.x + box.width / 2, y: box.y + 14 };

      await page.mouse.move(ground.x, ground.y);
      await page.keyboard.down('Control');
      await page.mouse.wheel(0, -200);
      await page.keyboard.up('Control');
      await poll(async () => (await sightOf(drawing)).width > first.width * 1.2, 'a larger drawing');
      const large = await sightOf(drawing);
      await page.mouse.down();
      await page.mouse.move(ground.x - 90, ground.y, { steps: 4 });
      await page.mouse.up();
      await poll(
        async () => Math.abs((await sightOf(drawing)).left - large.left - 90) < 3,
        'the drawing under the hand',
      );

      await drawing.focus();
      await page.keyboard.press('-');
      await poll(async () => (await sightOf(drawing)).width < large.width, 'a smaller drawing');
      const before = await sightOf(drawing);
      await page.keyboard.press('Shift+ArrowLeft');
      await poll(async () => (await sightOf(drawing)).left < before.left, 'the drawing moved by a key');
      const kept = await sightOf(drawing);

      await replaceInText(window, `28'-4"`, `28'-5"`);
      await pane.locator('.schedule tr').filter({ hasText: `28'-5"` }).first().waitFor();
      const after = await sightOf(drawing);
      equal(after.width, kept.width, 'an edit changes no scale');
      ok(Math.abs(after.left - kept.left) < 3, `an edit moves nothing: ${kept.left} and then ${after.left}`);
      await drawing.focus();
      await page.keyboard.press('0');
      await poll(async () => (await sightOf(drawing)).width <= (box.width ?? 0) + 1, 'the whole wall');
      await pane.locator('.mark-strip .cell').filter({ hasText: 'F-13' }).waitFor();
      await replaceInText(window, `28'-5"`, `28'-4"`);
    },
  },
  {
    name: 'pane: an edit touches what it changes and nothing else, so nothing flickers',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const count = await pane.locator('.elevation').evaluate(
        inPage<number>(`(section) => {
        const all = section.querySelectorAll('.stage > svg:not(.overlay, .moves) g[data-thing], .stage > svg');
        for (const each of all) each.wasThere = true;
        return all.length;
      }`),
      );
      ok(count > 30, 'a wall full of things');
      await pane.locator('body').evaluate(
        inPage(`(body) => {
        body.emptied = 0;
        new MutationObserver(() => {
          if (!body.querySelector('.elevation .stage [data-thing="F/anchor:F-1"]')) body.emptied += 1;
        }).observe(body, { childList: true, subtree: true });
      }`),
      );
      await replaceInText(window, `28'-4"`, `28'-5"`);
      await pane.locator('.schedule tr').filter({ hasText: `28'-5"` }).first().waitFor();
      const kept = await pane.locator('.elevation').evaluate(
        inPage<number>(`(section) =>
        [...section.querySelectorAll('.stage > svg:not(.overlay, .moves) g[data-thing], .stage > svg')].filter((each) => each.wasThere).length`),
      );
      ok(kept > count * 0.9, `${kept} of ${count} are the same elements`);
      equal(
        await pane.locator('body').evaluate(inPage<number>('(body) => body.emptied')),
        0,
        'the wall was never away',
      );
      await replaceInText(window, `28'-5"`, `28'-4"`);
    },
  },
  {
    name: 'pane: plan, elevation, schedule and findings lead to the text, and the text to all of them',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const { host, page } = window;
      const expectLine = async (at: RegExp): Promise<void> => {
        const file = at.source.startsWith('^wall') ? 'surveyed' : 'designed';
        await poll(
          () =>
            host.call(
              (vscode, part) => vscode.window.activeTextEditor?.document.uri.path.includes(part) === true,
              file,
            ),
          `the text of ${file}`,
        );
        const line = await lineOf(host, at);
        await poll(async () => (await caretLine(host)) === line, `the cursor on ${at}, line ${line}`);
      };
      await pane.locator('.plan .overlay .thing-here').waitFor({ state: 'attached' });
      await pane.locator('.elevation .overlay .band').waitFor({ state: 'attached' });
      await pane.locator('.schedule tr.here').filter({ hasText: 'F-11' }).waitFor();
      await pane.locator('.findings li.here').filter({ hasText: 'F-11' }).first().waitFor();

      await pane.locator('.schedule tr').filter({ hasText: 'F-7' }).first().click();
      await expectLine(/anchor +F-7 /);
      await pane.locator('.drawing.follows').focus();
      // The drawing may still be on its way to the thing before.
      const shape = pane.locator('.elevation g[data-thing="F/anchor:F-9"][data-role="thing"]').first();
      await poll(async () => {
        await shape.click({ force: true });
        await pane.locator('.schedule tr.here').filter({ hasText: 'F-9' }).waitFor({ timeout: 2000 });
        return true;
      }, 'a click on F-9');
      await expectLine(/anchor +F-9 /);
      const mark = pane
        .locator('.plan .stage > svg:not(.overlay) g[data-thing="A/anchor:A-4"][data-role="thing"]')
        .first();
      await pane.locator('.plan .zoom button').last().click({ clickCount: 6 });
      await mark.scrollIntoViewIfNeeded();
      const box = await mark.boundingBox();
      ok(box, 'A-4 is in the plan');
      await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
      await expectLine(/anchor +A-4 /);
      await pane
        .locator('.elevation h2')
        .filter({ hasText: /^Elevation A/ })
        .waitFor();
      await pane.locator('.schedule tr.here').filter({ hasText: 'A-4' }).waitFor();
      await pane.locator('.plan .zoom button').nth(1).click();

      const finding = pane.locator('.findings button.finding:not(:disabled)').filter({ hasText: 'A-8' }).first();
      await finding.click();
      await expectLine(/anchor +A-8 /);
    },
  },
  {
    name: 'pane: there is one for each file, however often it is asked for',
    async run(window) {
      const { host } = window;
      const tabs = (): Promise<readonly string[]> =>
        host.call((vscode) =>
          vscode.window.tabGroups.all
            .flatMap((group) => group.tabs.map(({ label }) => label))
            .filter((label) => label.startsWith('Layout: ')),
        );
      await showHouse(window, /anchor +F-11 /);
      const before = await tabs();
      await showHouse(window, /anchor +F-10 /);
      deepEqual(await tabs(), before);
      equal(new Set(before).size, before.length, 'no file has two');
      equal(before.filter((label) => label.endsWith('maple-designed.sill')).length, 1);
    },
  },
  {
    name: 'pane: from wall to wall by key, by list and by a click on the plan',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const { page, host } = window;
      const line = await caretBehind(host);
      const title = pane.locator('.elevation h2');
      await pane.locator('.drawing.follows').focus();
      await page.keyboard.press('PageUp');
      await title.filter({ hasText: /^Elevation E/ }).waitFor();
      equal(await caretBehind(host), line, 'looking at another wall leaves the cursor where it is');
      await page.keyboard.press('PageDown');
      await title.filter({ hasText: /^Elevation F/ }).waitFor();

      await chooseInMenu(pane, 'subjects', 'Wall A');
      await title.filter({ hasText: /^Elevation A/ }).waitFor();

      await pane.locator('.plan .letter[data-thing="wall:D"]').click({ force: true });
      await title.filter({ hasText: /^Elevation D/ }).waitFor();
    },
  },
  {
    name: 'pane: layers are switched, and what safety hangs on is not hidden in silence',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const framing = pane.locator('.elevation .stage [data-layer="framing"]').first();
      const findings = pane.locator('.elevation .stage [data-role="finding"]').first();
      await framing.waitFor({ state: 'visible' });
      await chooseInMenu(pane, 'layers', 'Framing');
      await framing.waitFor({ state: 'hidden' });
      const said = pane.locator('.hidden-layers');
      match((await said.textContent()) ?? '', /Hidden: framing/);
      await pane.locator('#layers').getByText('Findings').click();
      await findings.waitFor({ state: 'hidden' });
      match((await pane.locator('.hidden-layers.grave').textContent()) ?? '', /Hidden, though there: findings \(\d+\)/);
      await window.page.keyboard.press('Escape');
      await window.screenshot('pane-layers');
      await pane.locator('.hidden-layers button').click();
      await framing.waitFor({ state: 'visible' });
      await findings.waitFor({ state: 'visible' });
      await said.waitFor({ state: 'detached' });
    },
  },
  {
    name: 'pane: units are switched for the labels, and the text stays as it is',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const { host } = window;
      const text = await textOfFile(host, 'maple-designed.sill');
      await chooseInMenu(pane, 'units', 'mm');
      // 28'-4" is 340 in, and an inch is 25.4 mm: the international foot of 1959.
      await pane.locator('.schedule tr.here').filter({ hasText: '8636' }).waitFor();
      await pane
        .locator('.elevation [data-role="station"]')
        .filter({ hasText: '8636' })
        .first()
        .waitFor({ state: 'attached' });
      equal(await textOfFile(host, 'maple-designed.sill'), text);
      await chooseInMenu(pane, 'units', 'as written');
      await pane.locator('.schedule tr.here').filter({ hasText: `28'-4"` }).waitFor();
    },
  },
  {
    name: 'pane: a drawing goes out as SVG and as PNG, and the schedules as CSV',
    async run(window, workspace) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const { page, host } = window;
      const write = async (choice: RegExp, name: string): Promise<string> => {
        const target = join(workspace, name);
        await pane.locator('#export-button').click();
        await pane.locator('#export').getByRole('menuitem', { name: choice }).first().click();
        // The box of the dialog before keeps its words while it is away.
        await window.quickInput().waitFor({ state: 'hidden' });
        await window.quickInput().waitFor();
        await poll(async () => (await window.quickInput().inputValue()) === target, `the proposed name ${name}`);
        await page.keyboard.press('Enter');
        // A picture ends with a chunk of this name, and may be looked at while it is being written.
        const last = name.endsWith('.png') ? 'IEND' : '</svg>';
        await poll(() => existsSync(target) && readFileSync(target, 'latin1').includes(last), `${name} on the disk`);
        return target;
      };
      const svg = readFileSync(await write(/^SVG/, 'maple-designed-wall-F.svg'), 'utf8');
      match(svg, /^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg" width="[\d.]+mm"/);
      for (const said of ['DEMO VALUES', 'it does not show that the house is safe', 'F-11', '@font-face'])
        ok(svg.includes(said), `${said} must stand in it`);
      await expectPicture(await write(/^PNG, 150/, 'maple-designed-wall-F.png'), svg, 150);
      rmSync(join(workspace, 'maple-designed-wall-F.png'));
      await expectPicture(await write(/^PNG, 300/, 'maple-designed-wall-F.png'), svg, 300);

      await pane.locator('#export-button').click();
      await pane
        .locator('#export')
        .getByRole('menuitem', { name: /^Schedules/ })
        .click();
      await page.locator('.quick-input-list .monaco-list-row').filter({ hasText: 'CSV of every schedule' }).click();
      const csv = join(workspace, 'maple-designed-connectors.csv');
      await poll(async () => (await window.quickInput().inputValue()) === csv, 'the proposed name');
      await page.keyboard.press('Enter');
      await poll(() => existsSync(csv) && readFileSync(csv, 'utf8').includes('F-11'), 'the schedules on the disk');

      await window.openFile('maple-designed.sill');
      await host.call((vscode) =>
        vscode.commands.executeCommand('sillwright.writePicture', {
          of: 'plan',
          form: 'svg',
          target: '/proc/plan.svg',
        }),
      );
      await window.runCommand('Notifications: Show Notifications');
      await window.notification(/plan\.svg was not written: /).waitFor();
      await window.runCommand('Notifications: Clear All Notifications');
    },
  },
  {
    name: 'pane: the palette writes a picture of a drawing, and the printed set on the paper that is chosen',
    async run(window, workspace) {
      await showHouse(window, /anchor +F-11 /);
      const { page } = window;
      const rows = page.locator('.quick-input-list .monaco-list-row');
      await window.runCommand('Sillwright: Write Picture of a Drawing');
      await rows.filter({ hasText: 'plan' }).first().click();
      await rows.filter({ hasText: 'PNG, 300 dpi' }).click();
      const plan = join(workspace, 'maple-designed-plan.png');
      await poll(async () => (await window.quickInput().inputValue()) === plan, 'the proposed name');
      await page.keyboard.press('Enter');
      await poll(() => existsSync(plan) && readFileSync(plan).length > 1000, 'the picture on the disk');

      await window.runCommand('Sillwright: Write Drawings');
      for (const paper of ['Each drawing alone', '24 x 18 in', '17 x 11 in', 'A3'])
        await rows.filter({ hasText: paper }).first().waitFor();
      await rows.filter({ hasText: 'Printed set on A3' }).click();
      await poll(async () => (await window.quickInput().inputValue()).includes('houses'), 'the folder of the layout');
      await page.keyboard.press('Enter');
      const sheets = (): readonly string[] =>
        readdirSync(workspace).filter(
          (name) => /^maple-designed-.*\.svg$/.test(name) && name !== 'maple-designed-wall-F.svg',
        );
      await poll(() => sheets().length > 5, 'the sheets on the disk');
      const [first = ''] = sheets();
      // ISO 216: A3 is 420 by 297 mm.
      await poll(
        () => /width="420(?:\.0+)?mm" height="297(?:\.0+)?mm"/.test(readFileSync(join(workspace, first), 'utf8')),
        'A3',
      );
    },
  },
  {
    name: 'pane: the girder of the cursor is drawn with its posts, and what is put on them',
    async run(window) {
      const pane = await showHouse(window, /cap +GD-C1 /);
      await pane
        .locator('.elevation h2')
        .filter({ hasText: /^Elevation GD/ })
        .waitFor();
      await pane.locator('.elevation [data-thing="GD/post:P1"]').first().waitFor({ state: 'attached' });
      await pane.locator('.focus .frame').filter({ hasText: 'GD-C1' }).waitFor();
      match((await pane.locator('.schedule').textContent()) ?? '', /Posts/);
      const { host } = window;
      await pane.locator('.elevation g[data-thing="GD/cap:GD-C2"]').first().click({ force: true });
      await poll(async () => (await caretLine(host)) === (await lineOf(host, /cap +GD-C2 /)), 'the cursor on GD-C2');
    },
  },
  {
    name: 'pane: hidden and shown again it is as it was',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const { host, page } = window;
      const drawing = pane.locator('.drawing.follows');
      await chooseInMenu(pane, 'layers', 'Textures');
      await page.keyboard.press('Escape');
      await drawing.focus();
      await page.keyboard.press('+');
      await page.keyboard.press('Shift+ArrowLeft');
      const before = await sightOf(drawing);
      // Kept after a moment without a move.
      await poll(async () => (await sightOf(drawing)).left === before.left, 'rest');
      await new Promise((resolve) => setTimeout(resolve, 400));
      await host.call(async (vscode) => {
        const { viewColumn } = vscode.window.tabGroups.all.find(({ tabs }) =>
          tabs.some(({ label }) => label.startsWith('Layout: maple')),
        ) ?? { viewColumn: 2 };
        const other = await vscode.workspace.openTextDocument({ content: 'in front of the pane' });
        await vscode.window.showTextDocument(other, { viewColumn, preview: false });
      });
      await page.locator('.tab.active').filter({ hasText: 'in front of the pane' }).first().waitFor();
      await host.call((vscode) => vscode.commands.executeCommand('workbench.action.closeActiveEditor'));
      await pane.locator('.hidden-layers').filter({ hasText: 'textures' }).waitFor({ timeout: 30_000 });
      await poll(async () => {
        const after = await sightOf(drawing);
        return after.width === before.width && Math.abs(after.left - before.left) < 3;
      }, 'the drawing as it was');
      await pane.locator('.hidden-layers button').click();
    },
  },
];

export async function showHouse(window: EditorWindow, at: RegExp): Promise<FrameLocator> {
  await window.openFile('maple-designed.sill');
  await window.goTo(await lineOf(window.host, at));
  await window.runCommand('Sillwright: Show Layout Beside');
  const pane = window.preview();
  await pane.locator('header h1').filter({ hasText: 'Maple Demo House' }).waitFor({ timeout: 30_000 });
  const line = await caretLine(window.host);
  await pane
    .locator('.focus h2')
    .filter({ hasText: `line ${line}` })
    .waitFor();
  return pane;
}

/** Of the text, while the pane has the focus. */
function caretBehind(host: Host): Promise<number> {
  return host.call((vscode) => {
    const behind = vscode.window.visibleTextEditors.find(({ document }) => document.uri.path.endsWith('designed.sill'));
    return (behind?.selection.active.line ?? -1) + 1;
  });
}

export async function chooseInMenu(pane: FrameLocator, menu: string, item: string): Promise<void> {
  await pane.locator(`#${menu}-button`).click();
  await pane.locator(`#${menu}`).getByText(item).first().click();
}

interface SightOfDrawing {
  readonly left: number;
  readonly width: number;
}

/** Of its window: how far it is scrolled, and how wide the drawing is. In pixels. */
export function sightOf(drawing: Locator): Promise<SightOfDrawing> {
  return drawing.evaluate((element) => {
    const { scrollLeft, firstElementChild } = element as unknown as {
      readonly scrollLeft: number;
      readonly firstElementChild: { readonly parentElement: { querySelector(what: string): { clientWidth: number } } };
    };
    return { left: scrollLeft, width: firstElementChild.parentElement.querySelector('.stage').clientWidth };
  });
}

async function replaceInText({ host }: EditorWindow, from: string, to: string): Promise<void> {
  await host.call(
    async (vscode, [old, now]) => {
      const editor = vscode.window.visibleTextEditors.find(({ document }) =>
        document.uri.path.endsWith('designed.sill'),
      );
      if (!editor) throw new Error('no editor');
      const at = editor.document.getText().indexOf(old ?? '');
      const start = editor.document.positionAt(at);
      await editor.edit((edit) =>
        edit.replace(new vscode.Range(start, editor.document.positionAt(at + (old ?? '').length)), now ?? ''),
      );
    },
    [from, to],
  );
}

/** A PNG of the size that the drawing has on paper at so many dots an inch, with something drawn on it. */
async function expectPicture(path: string, svg: string, dotsPerInch: number): Promise<void> {
  const png = readFileSync(path);
  equal(png.subarray(0, 8).toString('latin1'), '\x89PNG\r\n\x1a\n', 'the signature of a PNG');
  const [, wide, high] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(svg) ?? [];
  equal(png.readUInt32BE(16), Math.round((Number(wide) / 25.4) * dotsPerInch), 'its width');
  equal(png.readUInt32BE(20), Math.round((Number(high) / 25.4) * dotsPerInch), 'its height');
  const chunks: Buffer[] = [];
  let physical: Buffer | undefined;
  for (let at = 8; at < png.length; at += 12 + png.readUInt32BE(at)) {
    const type = png.subarray(at + 4, at + 8).toString('latin1');
    const data = png.subarray(at + 8, at + 8 + png.readUInt32BE(at));
    if (type === 'IDAT') chunks.push(data);
    if (type === 'pHYs') physical = data;
  }
  equal(physical?.readUInt32BE(0), Math.round(dotsPerInch / 0.0254), 'dots in a metre');
  const values = new Set(inflateSync(Buffer.concat(chunks)));
  ok(values.size > 30, `lines and letters, not one ground: ${values.size} values`);
}
