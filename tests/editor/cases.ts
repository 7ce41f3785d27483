import { equal, match, ok } from 'node:assert/strict';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Locator } from 'playwright-core';
import type { Host } from './host.ts';
import { paneAccessCases } from './pane-access-cases.ts';
import { paneCases, sightOf } from './pane-cases.ts';
import { paneEditCases } from './pane-edit-cases.ts';
import { paneGuardCases } from './pane-guard-cases.ts';
import { serverCases } from './server-cases.ts';
import { caretLine, lineOf, textOf, textOfFile } from './text-in-front.ts';
import { type EditorWindow, poll, type ThemeName } from './window.ts';

export interface Case {
  readonly name: string;
  run(window: EditorWindow, workspace: string): Promise<void>;
}

/** In this order, in one window: a later case starts from what an earlier one left. */
export const cases: readonly Case[] = [
  {
    name: 'the packaged extension is the one that runs',
    async run({ host, openFile }) {
      await openFile('missing-anchor.sill');
      await poll(
        () => host.call((vscode) => vscode.extensions.getExtension('sillwright.sillwright')?.isActive === true),
        'the extension to be active',
      );
      const folder = await host.call(
        (vscode) => vscode.extensions.getExtension('sillwright.sillwright')?.extensionPath,
      );
      match(String(folder), /exts/, 'it must be the installed .vsix');
    },
  },
  {
    name: 'a house with a missing anchor shows its error with the rule in Problems',
    async run(window) {
      await window.runCommand('Problems: Focus on Problems View');
      await poll(async () => (await errorsIn(window)).length > 0, 'an error in Problems');
      const [error] = await errorsIn(window);
      match(error ?? '', /anchorage\//, 'the rule must be named');
      match(error ?? '', /sillwright/);
    },
  },
  {
    name: 'the lightbulb puts the missing anchor in, and the error goes',
    async run(window) {
      const { host } = window;
      const line = await host.call((vscode) => {
        const uri = vscode.window.activeTextEditor?.document.uri;
        const found = uri && vscode.languages.getDiagnostics(uri).find(({ severity }) => severity === 0);
        return found ? found.range.start.line + 1 : 0;
      });
      ok(line > 0, 'there must be an error to mend');
      const before = await textOf(host);
      await window.goTo(line);
      await window.pressQuickFix(/^Add A-5/);
      await poll(async () => (await textOf(host)) !== before, 'the text to change');
      const after = await textOf(host);
      equal(anchorsIn(after).length, anchorsIn(before).length + 1, 'one anchor more');
      for (const anchor of anchorsIn(before)) ok(after.includes(anchor), `${anchor} must stay as it was`);
      await poll(async () => (await errorsIn(window)).length === 0, 'the error to go');
    },
  },
  {
    name: 'the schedule is written through the command palette, from text that is not saved',
    async run(window, workspace) {
      const target = join(workspace, 'missing-anchor-connectors.txt');
      ok(
        await window.host.call((vscode) => vscode.window.activeTextEditor?.document.isDirty),
        'the text is not saved yet',
      );
      await writeScheduleByHand(window, 'Text table', target);
      await poll(() => existsSync(target) && readFileSync(target, 'utf8') !== '', 'the schedule on the disk');
      const text = readFileSync(target, 'utf8');
      for (const mark of ['A-1', 'A-2', 'A-4', 'D-6']) ok(text.includes(mark), `${mark} must be in the schedule`);
      const inserted = anchorsIn(await textOfFile(window.host, 'missing-anchor.sill')).length;
      equal(text.match(/^ *[A-D]-\d+ /gm)?.length, inserted, 'one row for each anchor, the new one too');
      match(text, /it does not show that the house is safe/, 'the caution must stand under it');
      await poll(
        () =>
          window.host.call((vscode) => vscode.window.activeTextEditor?.document.uri.path.endsWith('-connectors.txt')),
        'the schedule to be opened',
      );
    },
  },
  {
    name: 'a file that is there is replaced only after a question',
    async run(window, workspace) {
      const target = join(workspace, 'missing-anchor-connectors.txt');
      const before = readFileSync(target, 'utf8');
      await window.host.call((vscode) => vscode.commands.executeCommand('workbench.action.closeActiveEditor'));
      writeFileSync(target, 'mine');
      await window.openFile('missing-anchor.sill');
      await writeScheduleByHand(window, 'Text table', target);
      const question = window.page.locator('.quick-input-widget').filter({ hasText: /already exists/ });
      await question.waitFor();
      equal(readFileSync(target, 'utf8'), 'mine', 'nothing may be written before the answer');
      await poll(async () => {
        await window.page.keyboard.press('Escape');
        return !(await window.quickInput().isVisible());
      }, 'the dialog to go');
      equal(readFileSync(target, 'utf8'), 'mine', 'no answer means no');

      await writeScheduleByHand(window, 'Text table', target);
      await question.waitFor();
      await window.page.keyboard.press('Enter');
      await poll(() => readFileSync(target, 'utf8') === before, 'the schedule to be written after the yes');
    },
  },
  {
    name: 'scripts write it by arguments, get the same question, and a read-only place is refused with the reason',
    async run(window, workspace) {
      const target = join(workspace, 'by-script.csv');
      await window.openFile('missing-anchor.sill');
      await runSchedule(window.host, { format: 'csv', target });
      match(readFileSync(target, 'utf8').split('\r\n')[0] ?? '', /mark/i);

      writeFileSync(target, 'mine');
      await window.openFile('missing-anchor.sill');
      const question = window.page.locator('.quick-input-list .monaco-list-row');
      const [written] = await Promise.all([
        runSchedule(window.host, { format: 'csv', target }),
        question.filter({ hasText: 'Keep it' }).click(),
      ]);
      equal(written, null);
      equal(readFileSync(target, 'utf8'), 'mine');
      const [now] = await Promise.all([
        runSchedule(window.host, { format: 'csv', target }),
        question.filter({ hasText: 'Replace it' }).click(),
      ]);
      match(String(now), /by-script\.csv$/);
      match(readFileSync(target, 'utf8').split('\r\n')[0] ?? '', /mark/i);

      await window.openFile('missing-anchor.sill');
      await runSchedule(window.host, { format: 'json', target: '/proc/by-script.json' });
      await window.runCommand('Notifications: Show Notifications');
      await window.notification(/by-script\.json was not written: /).waitFor();
      await window.runCommand('Notifications: Clear All Notifications');
    },
  },
  {
    name: 'the pane draws the plan, the elevation and the schedule of the wall, with the counts and the caution',
    async run(window) {
      await window.host.call((vscode) => vscode.commands.executeCommand('workbench.action.closePanel'));
      await window.openFile('missing-anchor.sill');
      await window.goTo(await lineOf(window.host, /anchor +A-2 /));
      await window.runCommand('Sillwright: Show Layout Beside');
      const pane = window.preview();
      await pane.locator('header h1').filter({ hasText: 'First house' }).waitFor({ timeout: 30_000 });
      for (const wall of ['A', 'B', 'C', 'D'])
        await pane.locator(`.plan [data-thing="wall:${wall}"]`).first().waitFor({ state: 'attached' });
      for (const mark of ['A-1', 'A-2', 'A-4'])
        await pane.locator(`.elevation [data-thing="A/anchor:${mark}"]`).first().waitFor({ state: 'attached' });
      await pane.locator('.schedule tr.here').filter({ hasText: 'A-2' }).waitFor();
      await pane
        .locator('.counts')
        .filter({ hasText: /0 errors/ })
        .waitFor();
      match((await pane.locator('footer').textContent()) ?? '', /it does not show that the house is safe/);
    },
  },
  {
    name: 'the schedule is copied as a table with its basis, by mouse and by keyboard',
    async run({ page, preview }) {
      const pane = preview();
      // As text: these files know nothing of a page's own objects.
      const clipboard = () =>
        page.evaluate<{ plain: string; html: string }>(`(async () => {
          const [item] = await navigator.clipboard.read();
          const textOf = async (type) => (item?.types.includes(type) ? (await item.getType(type)).text() : '');
          return { plain: await textOf('text/plain'), html: await textOf('text/html') };
        })()`);
      const expectCopied = async (): Promise<void> => {
        await pane
          .locator('.copied')
          .filter({ hasText: /^Copied \d+ rows? with the basis/ })
          .waitFor();
        const { plain, html } = await clipboard();
        match(plain, /^A-2\t5'-4"\t/m);
        match(plain, /it does not show that the house is safe/);
        match(html, /<td>A-2<\/td>/);
      };
      await pane.locator('.schedule .copy').click();
      await expectCopied();
      await page.evaluate(`navigator.clipboard.writeText('nothing')`);
      await pane.locator('.schedule .table').focus();
      await page.keyboard.press('Control+C');
      await poll(async () => (await clipboard()).plain !== 'nothing', 'the table on the clipboard');
      await expectCopied();
    },
  },
  {
    name: 'a click on a shape takes the cursor to its line',
    async run(window) {
      const pane = window.preview();
      await pane.locator('.elevation g[data-thing="A/anchor:A-1"]').first().click({ force: true });
      const line = await lineOf(window.host, /anchor +A-1 /);
      await poll(async () => (await caretLine(window.host)) === line, `the cursor on line ${line}`);
      await pane.locator('.schedule tr.here').filter({ hasText: 'A-1' }).waitFor();
    },
  },
  {
    name: 'the elevation follows the cursor to another wall',
    async run(window) {
      const pane = window.preview();
      await window.goTo(await lineOf(window.host, /anchor +D-5 /));
      await pane.locator('.elevation [data-thing="D/anchor:D-5"]').first().waitFor({ state: 'attached' });
      await pane.locator('.schedule tr.here').filter({ hasText: 'D-5' }).waitFor();
      await pane.locator('.elevation .overlay .band').waitFor({ state: 'attached' });
    },
  },
  {
    name: 'the pane is walked by the keyboard alone, and Escape leads back to the text',
    async run(window) {
      const { page, host } = window;
      const pane = window.preview();
      const line = await lineOf(host, /anchor +D-3 /);
      const first = await lineOf(host, /anchor +D-1 /);
      await pane.locator('.drawing.follows').focus();
      await page.keyboard.press('Home');
      for (let key = 0; key < 30; key += 1) {
        const name = await pane.locator('.drawing.follows :focus').getAttribute('aria-label');
        if (name?.includes('D-3')) break;
        await page.keyboard.press('ArrowRight');
      }
      await pane.locator('.elevation .overlay .focused').waitFor({ state: 'attached' });
      await page.keyboard.press('Enter');
      await poll(async () => (await caretLine(host)) === line, `the cursor on line ${line}`);

      await pane.locator('.schedule .table').focus();
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('Enter');
      await poll(async () => (await caretLine(host)) === first, `the cursor on line ${first}`);

      await pane.locator('.drawing.fits').focus();
      await page.keyboard.press('Escape');
      await page.locator('.editor-instance .monaco-editor.focused').first().waitFor();
    },
  },
  {
    name: 'the pane follows the keys, and keeps the drawing while a line is half typed',
    async run(window) {
      const { page, host } = window;
      const pane = window.preview();
      const line = await lineOf(host, /anchor +D-5 /);
      await window.goTo(line);
      const row = pane.locator('.schedule tr').filter({ hasText: 'D-5' });
      const before = await row.textContent();
      // Half a station: 14'-
      await page.keyboard.press('End');
      for (let key = 0; key < 2; key += 1) await page.keyboard.press('Backspace');
      await pane
        .locator('.notice')
        .filter({ hasText: `Line ${line} is half typed` })
        .waitFor();
      await pane.locator('.elevation [data-thing="D/anchor:D-5"]').first().waitFor({ state: 'attached' });
      equal(await row.textContent(), before, 'what could be read last stays in sight');
      await pane.locator('.elevation g.is-stale[data-thing="D/anchor:D-5"]').first().waitFor({ state: 'attached' });
      equal(
        await pane.locator('.elevation g.is-stale[data-thing="D/anchor:D-4"]').count(),
        0,
        'the rest is not marked',
      );
      await page.keyboard.type('2"');
      await pane.locator('.notice').waitFor({ state: 'hidden' });
      await row.filter({ hasText: '14\'-2"' }).waitFor();
      for (let key = 0; key < 2; key += 1) await page.keyboard.press('Backspace');
      await page.keyboard.type('0"');
      await row.filter({ hasText: '14\'-0"' }).waitFor();
    },
  },
  {
    name: 'a hover on a finding shows the limit and its source',
    async run(window) {
      const { host, page } = window;
      await window.openFile('missing-anchor.sill');
      const line = await lineOf(host, /anchor +B-2 /);
      await host.call(async (vscode, at) => {
        const editor = vscode.window.activeTextEditor;
        if (!editor) throw new Error('no editor');
        const text = editor.document.lineAt(at - 1);
        await editor.edit((edit) => edit.replace(text.range, text.text.replace('6\'-4"', '8\'-4"')));
      }, line);
      await poll(
        () =>
          host.call((vscode) => {
            const uri = vscode.window.activeTextEditor?.document.uri;
            return Boolean(uri && vscode.languages.getDiagnostics(uri).some(({ severity }) => severity === 0));
          }),
        'the gap to be found',
      );
      const at = await host.call((vscode) => {
        const uri = vscode.window.activeTextEditor?.document.uri;
        const found = uri && vscode.languages.getDiagnostics(uri).find(({ severity }) => severity === 0);
        return found && { line: found.range.start.line + 1, column: found.range.start.character + 2 };
      });
      ok(at);
      await window.goTo(at.line, at.column);
      await page.keyboard.press('Control+k');
      await page.keyboard.press('Control+i');
      const hover = page.locator('.monaco-hover:not(.hidden)').filter({ hasText: 'Source:' });
      await hover.first().waitFor();
      const text = (await hover.first().textContent()) ?? '';
      match(text, /anchorage\//);
      match(text, /6'-0"/, 'the limit must be said');
      await page.keyboard.press('Escape');
      await host.call((vscode) => vscode.commands.executeCommand('undo'));
    },
  },
  {
    name: 'the outline lists the walls with what is on them',
    async run({ host }) {
      const names = await host.call(async (vscode) => {
        const uri = vscode.window.activeTextEditor?.document.uri;
        type Symbols = readonly { readonly name: string; readonly children: readonly { readonly name: string }[] }[];
        const symbols = await vscode.commands.executeCommand<Symbols>('vscode.executeDocumentSymbolProvider', uri);
        return symbols.map(({ name, children }) => ({ name, children: children.map((child) => child.name) }));
      });
      for (const wall of ['A', 'B', 'C', 'D'])
        ok(
          names.some(({ name }) => name === `wall ${wall}`),
          `wall ${wall}`,
        );
      const work = names.find(({ name }) => name === 'work on D');
      ok(
        work?.children.some((name) => name.includes('D-5')),
        'the work on D holds D-5',
      );
    },
  },
  {
    name: 'formatting lines the columns up and keeps every comment',
    async run(window) {
      const { host } = window;
      await window.openFile('missing-anchor.sill');
      await host.call(async (vscode) => {
        const editor = vscode.window.activeTextEditor;
        if (!editor) throw new Error('no editor');
        const line = editor.document
          .getText()
          .split('\n')
          .findIndex((text) => /anchor +C-2 /.test(text));
        const { range } = editor.document.lineAt(line);
        await editor.edit((edit) => edit.replace(range, 'Anchor C-2      flat-plate at 5\'-4" // beside the hatch'));
      });
      const before = await textOf(host);
      await window.runCommand('Format Document');
      await poll(async () => (await textOf(host)) !== before, 'the text to be formatted');
      const after = await textOf(host);
      deepEqualLines(commentsIn(after), commentsIn(before));
      match(after, /^ {2}anchor {2}C-2 flat-plate {2}at 5'-4" {2}\/\/ beside the hatch$/m);
    },
  },
  {
    name: 'text and pane together look right in a light, a dark and a high-contrast theme',
    async run(window) {
      await window.goTo(await lineOf(window.host, /anchor +A-2 /));
      const themes: readonly (readonly [ThemeName, string, string])[] = [
        ['Default Light Modern', 'light', 'vscode-light'],
        ['Default High Contrast', 'high-contrast', 'vscode-high-contrast'],
        ['Default High Contrast Light', 'high-contrast-light', 'vscode-high-contrast-light'],
        ['Default Dark Modern', 'dark', 'vscode-dark'],
      ];
      const grounds = new Set<string>();
      for (const [theme, name, themeClass] of themes) {
        await window.useTheme(theme);
        const body = window.preview().locator(`body.${themeClass}`);
        await body.waitFor();
        await poll(async () => {
          const ground = await groundOf(body);
          const editor = await groundOf(window.page.locator('.monaco-editor-background').first());
          grounds.add(ground);
          return ground === editor;
        }, 'the pane to take the ground of the editor');
        await window.screenshot(name);
      }
      ok(grounds.size >= 2, 'the pane must change with the theme');
    },
  },
  {
    name: 'a house of real size is drawn, and the wall of a used file is shown beside its design',
    async run(window) {
      await window.openFile('maple-designed.sill');
      await window.goTo(await lineOf(window.host, /anchor +F-11 /));
      await window.runCommand('Sillwright: Show Layout Beside');
      const pane = window.preview();
      await pane.locator('header h1').filter({ hasText: 'Maple Demo House' }).waitFor();
      await pane.locator('.schedule tr.here').filter({ hasText: 'F-11' }).waitFor();
      match((await pane.locator('header .wall').textContent()) ?? '', /F/);
      await window.screenshot('real-size');
    },
  },
  {
    name: 'a reload of the window brings the pane back with its zoom, its place and its layers',
    async run(window) {
      const plain = await window.openPlainWindow();
      await plain.openFile('first-wall.sill');
      await plain.runCommand('Sillwright: Show Layout Beside');
      const title = plain.preview().locator('header h1').filter({ hasText: 'First house' });
      await title.waitFor({ timeout: 30_000 });
      const drawing = plain.preview().locator('.drawing.follows');
      await drawing.focus();
      for (const key of ['+', '+', 'Shift+ArrowRight']) await plain.press(key);
      await plain.preview().locator('#layers-button').click();
      await plain.preview().locator('#layers').getByText('Framing').click();
      await plain.press('Escape');
      const before = await sightOf(drawing);
      ok(before.left > 20, 'the drawing is moved before the reload');
      // Kept after a moment without a move.
      await new Promise((resolve) => setTimeout(resolve, 600));
      await plain.reload();
      await title.waitFor({ timeout: 60_000 });
      await plain.preview().locator('.hidden-layers').filter({ hasText: 'framing' }).waitFor();
      await poll(async () => {
        const after = await sightOf(drawing);
        return Math.abs(after.width - before.width) < 2 && Math.abs(after.left - before.left) < 3;
      }, 'the zoom and the place of before');
      await plain.close();
    },
  },
  ...paneCases,
  ...paneEditCases,
  ...paneAccessCases,
  ...paneGuardCases,
  ...serverCases,
];

function groundOf(locator: Locator): Promise<string> {
  return locator.evaluate((element) => {
    // Runs in the page.
    type Styles = { getComputedStyle(of: unknown): { readonly backgroundColor: string } };
    return (globalThis as unknown as Styles).getComputedStyle(element).backgroundColor;
  });
}

async function writeScheduleByHand(window: EditorWindow, format: string, target: string): Promise<void> {
  const { page } = window;
  await window.runCommand('Sillwright: Write Connector Schedule');
  await page.locator('.quick-input-list .monaco-list-row').filter({ hasText: format }).first().click();
  await page
    .locator('.quick-input-widget .quick-input-title')
    .filter({ hasText: 'Write Connector Schedule' })
    .waitFor();
  await poll(async () => (await window.quickInput().inputValue()).endsWith('-connectors.txt'), 'the proposed name');
  equal(await window.quickInput().inputValue(), target, 'it is proposed beside the layout');
  await page.keyboard.press('Enter');
}

function runSchedule(host: Host, given: { readonly format: string; readonly target: string }): Promise<unknown> {
  return host.call((vscode, args) => vscode.commands.executeCommand('sillwright.writeSchedule', args), given);
}

async function errorsIn(window: EditorWindow): Promise<readonly string[]> {
  return (await window.problems()).filter((row) => row.startsWith('Error'));
}

function anchorsIn(text: string): readonly string[] {
  return text.match(/^ *anchor .*$/gim) ?? [];
}

function commentsIn(text: string): readonly string[] {
  return text.match(/\/\/.*$/gm) ?? [];
}

function deepEqualLines(actual: readonly string[], expected: readonly string[]): void {
  equal(actual.map((line) => line.trimEnd()).join('\n'), expected.map((line) => line.trimEnd()).join('\n'));
}
