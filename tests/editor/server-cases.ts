import { equal, match, ok } from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import process from 'node:process';
import type { Locator, Page } from 'playwright-core';
import type { Case } from './cases.ts';
import type { Host } from './host.ts';
import { caretLine, lineOf, textOf, textOfFile } from './text-in-front.ts';
import { type EditorWindow, poll } from './window.ts';

/** Names across files, rule sets side by side, how it looks, and a server that is killed; each opens its own file. */
export const serverCases: readonly Case[] = [
  {
    name: 'a name leads across files to where it is declared, and to all its uses',
    async run(window) {
      const { host, page } = window;
      await window.openFile('maple-designed.sill');
      await window.goTo(await lineOf(host, /^work on F\b/), 'work on F'.length);
      await page.keyboard.press('F12');
      await poll(() => fileInFront(host, 'maple-surveyed.sill'), 'the survey to be in front');
      const wall = await lineOf(host, /^wall F\b/);
      equal(await caretLine(host), wall);
      await window.goTo(wall, 'wall F'.length);
      await page.keyboard.press('Shift+F12');
      const peek = page.locator('.reference-zone-widget');
      await peek.locator('.ref-tree').filter({ hasText: 'maple-designed.sill' }).waitFor();
      await peek.locator('.ref-tree').filter({ hasText: 'maple-surveyed.sill' }).waitFor();
      await window.screenshot('references');
      await page.keyboard.press('Escape');
      await peek.waitFor({ state: 'hidden' });
    },
  },
  {
    name: 'a wall is renamed in the file that declares it and in the one that uses it',
    async run(window) {
      const { host } = window;
      await window.openFile('maple-surveyed.sill');
      await window.openFile('maple-designed.sill');
      await leavingAsBefore(host, ['maple-surveyed.sill', 'maple-designed.sill'], () => renameWall(window));
    },
  },
  {
    name: 'the findings under two rule sets stand side by side, from text that is not saved',
    async run(window) {
      const { host } = window;
      await window.openFile('first-wall.sill');
      await leavingAsBefore(host, ['first-wall.sill'], () => compareRuleSets(window));
    },
  },
  {
    name: 'the status of the language says the rule set, its edition and the counts, and offers the restart',
    async run(window) {
      await window.openFile('short-board.sill');
      const hover = await statusHover(window);
      const text = (await hover.textContent()) ?? '';
      match(text, /Existing-building code appendix, chapter A3, 2021/);
      match(text, /\d+ errors?, \d+ assumed/);
      match(text, /Restart/);
      for (const name of ['Restart', 'Compare']) {
        const link = await hover.getByText(name, { exact: true }).boundingBox();
        ok(link && link.x + link.width < (window.page.viewportSize()?.width ?? 0), `${name} is in sight`);
      }
      await window.screenshot('status');
      await window.page.keyboard.press('Escape');
    },
  },
  {
    name: 'the walkthrough opens, and its first step starts a layout from the example',
    async run(window) {
      const { host, page } = window;
      await window.runCommand('Welcome: Open Walkthrough');
      await page.locator('.quick-input-list .monaco-list-row').filter({ hasText: 'from the tape' }).first().click();
      const guide = page.locator('.gettingStartedContainer');
      await guide.filter({ hasText: 'Start a layout' }).waitFor();
      const example = guide.locator('.monaco-button').filter({ hasText: 'Open the Example' }).first();
      await example.waitFor();
      await window.screenshot('walkthrough');
      await example.click();
      await poll(async () => /^layout "First house"/m.test(await textOf(host)), 'the example to be in front');
      await host.call((vscode) => vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor'));
    },
  },
  {
    name: 'proposals, hover, hints, counts over the walls, problems and the palette in light and dark',
    async run(window) {
      for (const [theme, name] of [
        ['Default Light Modern', 'light'],
        ['Default Dark Modern', 'dark'],
      ] as const) {
        await window.useTheme(theme);
        await window.openFile('short-board.sill');
        await leavingAsBefore(window.host, ['short-board.sill'], () => lookAround(window, name));
      }
      await setHints(window.host, false);
    },
  },
  {
    name: 'a server that is killed starts again by itself, and answers as before',
    async run(window) {
      const { host } = window;
      await window.openFile('short-board.sill');
      await poll(async () => (await errorsOf(host)).length > 0, 'the error before');
      const before = await errorsOf(host);
      const killed = await killServer(host);
      await poll(
        async () => (await serverOf(host)) !== undefined && (await serverOf(host)) !== killed,
        'another server',
      );
      await poll(async () => (await errorsOf(host)).join() === before.join(), 'the same error from the new server');
      await window.goTo(await lineOf(host, /anchor +A-2 /));
      const names = await host.call(async (vscode) => {
        const uri = vscode.window.activeTextEditor?.document.uri;
        type Symbols = readonly { readonly name: string }[];
        return (await vscode.commands.executeCommand<Symbols>('vscode.executeDocumentSymbolProvider', uri)).length;
      });
      ok(names > 0, 'the outline is answered');
    },
  },
  {
    name: 'killed again it is left off: that is said on every layout, with the log and a restart that works',
    async run(window) {
      const { host, page } = window;
      const before = await errorsOf(host);
      await killServer(host);
      await window.runCommand('Notifications: Show Notifications');
      const said = window.notification(/The Sillwright server ended twice/);
      await said.waitFor();
      await poll(async () => /internal\/not-running/.test((await errorsOf(host)).join()), 'the text to be unchecked');
      await window.goTo(1);
      await page.locator('.codelens-decoration:visible').filter({ hasText: 'Not checked' }).first().waitFor();
      await window.goTo(await lineOf(host, /^wall A\b/));
      await poll(async () => !/\d errors?/.test((await lensesInSight(page)).join()), 'the old counts to go');
      await window.screenshot('server-left-off');
      equal(await serverOf(host), undefined, 'no server is started without being asked');
      match((await (await statusHover(window)).textContent()) ?? '', /Not running: nothing is checked/);
      await page.keyboard.press('Escape');

      await window.runCommand('Notifications: Show Notifications');
      await said.hover();
      await said.locator('.monaco-button').filter({ hasText: 'Show the Log' }).click();
      await page.locator('.part.panel .output-view-container, .part.panel .output-view').first().waitFor();
      await window.screenshot('server-log');
      await host.call((vscode) => vscode.commands.executeCommand('workbench.action.closePanel'));

      await window.runCommand('Sillwright: Write Connector Schedule');
      await window.runCommand('Notifications: Show Notifications');
      await window.notification(/not running, so nothing was done/).waitFor();
      await window.runCommand('Notifications: Clear All Notifications');

      await window.runCommand('Sillwright: Restart Language Server');
      await poll(async () => (await serverOf(host)) !== undefined, 'the server after the restart');
      await poll(async () => (await errorsOf(host)).join() === before.join(), 'the findings after the restart');
    },
  },
];

async function renameWall({ host, page, goTo }: EditorWindow): Promise<void> {
  const marks = anchorMarks(await textOf(host));
  await goTo(await lineOf(host, /^work on F\b/), 'work on F'.length);
  await page.keyboard.press('F2');
  const box = page.locator('.rename-box input, input.rename-input').first();
  await box.waitFor();
  equal(await box.inputValue(), 'F', 'the old name stands in the box');
  await box.fill('Street');
  await page.keyboard.press('Enter');
  await poll(async () => /^work on Street\b/m.test(await textOfFile(host, 'maple-designed.sill')), 'the design');
  const survey = await textOfFile(host, 'maple-surveyed.sill');
  match(survey, /^wall Street "west"/m);
  match(survey, /^line west walls Street$/m);
  equal(/\bwall F\b|\bon F\b|\bwalls F\b/.test(survey + (await textOf(host))), false, 'the old name is gone');
  equal(anchorMarks(await textOf(host)), marks, 'marks on the concrete stay');
}

async function compareRuleSets(window: EditorWindow): Promise<void> {
  const { host, page } = window;
  await replaceInFront(host, /^ *anchor +A-3 .*\n/m.source, '');
  const rows = page.locator('.quick-input-list .monaco-list-row');
  await window.runCommand('Sillwright: Compare Findings Under Several Rule Sets');
  await rows.filter({ hasText: 'bay-area' }).first().click();
  await window.screenshot('choose-rule-sets');
  await page.keyboard.press('Enter');
  await poll(() => fileInFront(host, 'first-wall under rule sets.txt'), 'the comparison to be in front');
  const text = await textOf(host);
  match(text, /^A = existing-building: /m);
  match(text, /^B = bay-area: Bay Area standard plan set A/m);
  match(text, /^They differ \([1-9]/m);
  match(text, /^anchorage\/gap-too-wide /m, 'what is not saved counts');
  match(text, /it does not show that the house is safe/);
  await window.screenshot('comparison');
  await host.call((vscode) => vscode.commands.executeCommand('workbench.action.closeActiveEditor'));
}

async function lensesInSight(page: Page): Promise<readonly string[]> {
  return page.locator('.codelens-decoration:visible').allTextContents();
}

async function lookAround(window: EditorWindow, theme: string): Promise<void> {
  const { host, page } = window;
  await window.openFile('short-board.sill');
  await setHints(host, true);
  await window.goTo(await lineOf(host, /^wall A\b/));
  await page
    .locator('.codelens-decoration:visible')
    .filter({ hasText: /1 board short/ })
    .first()
    .waitFor();
  await window.goTo(await lineOf(host, /^work on A\b/));
  await poll(
    async () => (await page.locator('.view-lines').first().textContent())?.includes('→'),
    'the gap to the next anchor between the words',
  );
  await window.screenshot(`look-hints-and-lenses-${theme}`);

  await window.runCommand('Problems: Focus on Problems View');
  await poll(async () => (await window.problems()).length > 0, 'a problem');
  await window.screenshot(`look-problems-${theme}`);
  await host.call((vscode) => vscode.commands.executeCommand('workbench.action.closePanel'));

  await window.openFile('short-board.sill');
  const line = await lineOf(host, /anchor +A-2 /);
  await window.goTo(line, 12);
  await page.keyboard.press('Control+k');
  await page.keyboard.press('Control+i');
  await page.locator('.monaco-hover:not(.hidden)').first().waitFor();
  await window.screenshot(`look-hover-${theme}`);
  await page.keyboard.press('Escape');

  await page.keyboard.press('End');
  await page.keyboard.press('Enter');
  for (const typed of ['an', 'chor ', ' ', 'flat-plate at ']) {
    await page.keyboard.type(typed === ' ' ? '' : typed);
    await page.keyboard.press('Control+Space');
    const list = page.locator('.suggest-widget.visible .monaco-list-row').first();
    await list.waitFor();
    await window.screenshot(`look-proposals-${typed.trim().replaceAll(' ', '-') || 'mark'}-${theme}`);
    await page.keyboard.press('Escape');
    if (typed === ' ') await page.keyboard.type('A-9 ');
  }

  const hover = await statusHover(window);
  await hover.waitFor();
  await window.screenshot(`look-status-${theme}`);
  await page.keyboard.press('Escape');

  await poll(async () => {
    await page.keyboard.press('F1');
    await window.quickInput().fill('>Sillwright', { timeout: 1500 });
    return page.locator('.quick-input-list .monaco-list-row').filter({ hasText: 'Sillwright' }).first().isVisible();
  }, 'our commands');
  await window.screenshot(`look-palette-${theme}`);
  await page.keyboard.press('Escape');
}

async function statusHover({ page }: EditorWindow): Promise<Locator> {
  const entry = page.locator('.statusbar-item[id*="languageStatus"], .statusbar-item[id*="language.status"]').first();
  await entry.waitFor();
  const hover = page.locator('.hover-language-status').first();
  await poll(async () => {
    await entry.hover();
    await hover.waitFor({ timeout: 2000 });
    return true;
  }, 'the status of the language');
  return page
    .locator('.workbench-hover, .monaco-hover')
    .filter({ has: page.locator('.hover-language-status') })
    .first();
}

function setHints(host: Host, shown: boolean): Promise<unknown> {
  return host.call(
    (vscode, wanted) =>
      vscode.workspace.getConfiguration('sillwright').update('showHints', wanted, vscode.ConfigurationTarget.Global),
    shown,
  );
}

function fileInFront(host: Host, name: string): Promise<boolean> {
  return host.call(
    (vscode, wanted) => vscode.window.activeTextEditor?.document.uri.path.endsWith(wanted) === true,
    name,
  );
}

/** Of the file in front: rule and message. */
function errorsOf(host: Host): Promise<readonly string[]> {
  return host.call((vscode) => {
    const uri = vscode.window.activeTextEditor?.document.uri;
    const all = uri ? vscode.languages.getDiagnostics(uri) : [];
    return all
      .filter(({ severity }) => severity === 0)
      .map(({ code, message }) => `${typeof code === 'object' ? code.value : code} ${message}`);
  });
}

function replaceInFront(host: Host, pattern: string, by: string): Promise<unknown> {
  return host.call(
    async (vscode, [from, to]) => {
      const editor = vscode.window.activeTextEditor;
      if (!editor) throw new Error('no editor');
      const found = new RegExp(from, 'm').exec(editor.document.getText());
      if (!found) throw new Error(`nothing like ${from}`);
      const range = new vscode.Range(
        editor.document.positionAt(found.index),
        editor.document.positionAt(found.index + found[0].length),
      );
      await editor.edit((edit) => edit.replace(range, to));
    },
    [pattern, by] as const,
  );
}

/** The editor may save by itself, so there is nothing to revert to: what was changed is written back. */
async function leavingAsBefore(host: Host, names: readonly string[], work: () => Promise<void>): Promise<void> {
  const texts = await Promise.all(names.map((name) => textOfFile(host, name)));
  try {
    await work();
  } finally {
    await host.call(
      async (vscode, files, before) => {
        const edit = new vscode.WorkspaceEdit();
        for (const document of vscode.workspace.textDocuments) {
          const text = before[files.findIndex((name) => document.uri.path.endsWith(`/${name}`))];
          if (text !== undefined && text !== document.getText())
            edit.replace(document.uri, new vscode.Range(0, 0, document.lineCount, 0), text);
        }
        await vscode.workspace.applyEdit(edit);
      },
      names,
      texts,
    );
  }
}

function anchorMarks(text: string): string {
  return [...text.matchAll(/^ *anchor +(\S+)/gm)].map(([, mark]) => mark).join();
}

/** The process of the language server: the child of the extension host that runs our file. */
async function serverOf(host: Host): Promise<number | undefined> {
  const parent = await host.call(() => process.pid);
  const rows = execFileSync('ps', ['-A', '-o', 'pid=,ppid=,args='], { encoding: 'utf8' }).split('\n');
  const row = rows
    .map((each) => each.trim().split(/\s+/))
    .find(([, of, ...args]) => {
      return Number(of) === parent && args.some((word) => /sillwright\S*server\.mjs$/.test(word));
    });
  return row?.[0] === undefined ? undefined : Number(row[0]);
}

async function killServer(host: Host): Promise<number> {
  const server = await serverOf(host);
  ok(server !== undefined, 'the server must run to be killed');
  process.kill(server, 'SIGKILL');
  return server;
}
