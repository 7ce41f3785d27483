import { equal, match, ok } from 'node:assert/strict';
import type { FrameLocator } from 'playwright-core';
import type { Case } from './cases.ts';
import { lineOf, textOfFile } from './text-in-front.ts';
import { type EditorWindow, poll, type ThemeName } from './window.ts';

const FILE = 'first-wall.sill';

/** What a person changes in the pane: each change is one, and one undo takes it back. */
export const paneEditCases: readonly Case[] = [
  {
    name: 'moves: a connector is dragged along its wall, stands where the label said, and one undo takes it back',
    async run(window) {
      const { page } = window;
      const pane = await showWall(window);
      const before = await textOfFile(window.host, FILE);
      const grip = await middleOf(pane, 'A/anchor:A-2');
      await page.mouse.move(grip.x, grip.y);
      await pane.locator('.moves .window').first().waitFor({ state: 'attached' });
      match((await pane.locator('.may-stand').textContent()) ?? '', /^A-2 may stand 0'-10" to 5'-7", 7'-9" to 15'-2"/);
      await page.mouse.down();
      // Over the vent first: it says so, and by what it is stopped.
      await page.mouse.move(grip.x + 70, grip.y, { steps: 6 });
      await pane.locator('.moves .held.blocked').waitFor({ state: 'attached' });
      match((await pane.locator('.moves .fit').textContent()) ?? '', /^does not fit: vent V1/);
      const themes: readonly (readonly [ThemeName, string])[] = [
        ['Default Light Modern', 'light'],
        ['Default High Contrast', 'high-contrast'],
        ['Default Dark Modern', 'dark'],
      ];
      for (const [theme, name] of themes) {
        await window.useTheme(theme);
        await pane.locator(`body.vscode-${name}`).waitFor();
        await window.screenshot(`drag-${name}`);
      }
      await page.mouse.move(grip.x - 18, grip.y, { steps: 6 });
      await pane.locator('.moves .held.clear').waitFor({ state: 'attached' });
      const label = (await pane.locator('.moves .station-label .station').textContent()) ?? '';
      const gaps = await pane.locator('.moves .gap-length').allTextContents();
      ok(gaps.length === 2, `a gap to either side while it is moved: ${gaps.join('; ')}`);
      await page.mouse.up();
      await poll(async () => (await textOfFile(window.host, FILE)) !== before, 'the text to change');
      const after = await textOfFile(window.host, FILE);
      const station = /^A-2 +(.*)$/.exec(label)?.[1] ?? 'no label';
      ok(!station.startsWith(`5'-4"`), 'it must have moved');
      equal(after, before.replace(/(anchor +A-2 flat-plate +at) .*/, `$1 ${station}`), 'only its station may change');
      await pane.locator('.schedule tr').filter({ hasText: 'A-2' }).filter({ hasText: station }).waitFor();
      match((await pane.locator('.may-stand').textContent()) ?? '', /moved to/);
      await undo(window);
      await poll(async () => (await textOfFile(window.host, FILE)) === before, 'one undo to take it back');
    },
  },
  {
    name: 'moves: Escape lets go of a connector, and a click still leads to its line',
    async run(window) {
      const { page } = window;
      const pane = await showWall(window);
      const before = await textOfFile(window.host, FILE);
      const grip = await middleOf(pane, 'A/anchor:A-3');
      await page.mouse.move(grip.x, grip.y);
      await pane.locator('.drawing.may-move').waitFor({ state: 'attached' });
      await page.mouse.down();
      await page.mouse.move(grip.x + 30, grip.y, { steps: 4 });
      await pane.locator('.moves .held').waitFor({ state: 'attached' });
      await page.keyboard.press('Escape');
      await pane.locator('.moves .held').waitFor({ state: 'detached' });
      await page.mouse.up();
      match((await pane.locator('.may-stand').textContent()) ?? '', /^A-3 stays at 10'-8"/);
      equal(await textOfFile(window.host, FILE), before);
      const again = await middleOf(pane, 'A/anchor:A-3');
      await page.mouse.click(again.x, again.y);
      await pane.locator('.schedule tr.here').filter({ hasText: 'A-3' }).waitFor();
    },
  },
  {
    name: 'moves: a connector is led by keys, which say where it stands, and is written when Alt is let go',
    async run(window) {
      const { page } = window;
      const pane = await showWall(window);
      const before = await textOfFile(window.host, FILE);
      await focusThing(window, pane, 'A-2');
      await page.keyboard.press('Alt+ArrowRight');
      await poll(async () => /A-2 flat-plate +at 5'-4 1\/16"/.test(await textOfFile(window.host, FILE)), 'one mark on');
      await poll(
        async () => /A-2 (?:at|moved to) 5'-4 1\/16".*A-1/.test((await pane.locator('.live').textContent()) ?? ''),
        'the station and its distances to be said',
      );
      // The focus stays on it, and several steps are one change.
      await page.keyboard.down('Alt');
      for (let step = 0; step < 3; step += 1) await page.keyboard.press('ArrowLeft');
      await page.keyboard.up('Alt');
      await poll(
        async () => /A-2 flat-plate +at 5'-3 7\/8"/.test(await textOfFile(window.host, FILE)),
        'three marks back',
      );
      await page.keyboard.press('Alt+Shift+ArrowRight');
      await poll(
        async () => /A-2 flat-plate +at 5'-7"/.test(await textOfFile(window.host, FILE)),
        'the next good place',
      );
      for (let step = 0; step < 3; step += 1) await undo(window);
      await poll(async () => (await textOfFile(window.host, FILE)) === before, 'three undos to take three moves back');
    },
  },
  {
    name: 'moves: the switch shows where the connector under the cursor may stand, and is kept',
    async run(window) {
      const pane = await showWall(window);
      await window.page.mouse.move(5, 5);
      await pane.locator('button.windows').click();
      await pane.locator('.moves .window').first().waitFor({ state: 'attached' });
      ok((await pane.locator('.moves .hatch').count()) > 0, 'what is in the way is hatched');
      match((await pane.locator('.moves .stretch-name').allTextContents()).join(' '), /vent V1/);
      await window.screenshot('windows');
      // Another tab in front of the pane throws its page away.
      await window.host.call((vscode) => vscode.commands.executeCommand('workbench.action.focusSecondEditorGroup'));
      await window.host.call((vscode) => vscode.commands.executeCommand('workbench.action.files.newUntitledFile'));
      await window.host.call((vscode) => vscode.commands.executeCommand('workbench.action.closeActiveEditor'));
      const back = window.preview();
      await back.locator('button.windows[aria-pressed="true"]').waitFor({ timeout: 30_000 });
      await back.locator('.moves .window').first().waitFor({ state: 'attached' });
      await back.locator('button.windows').click();
      await back.locator('.moves .window').first().waitFor({ state: 'detached' });
    },
  },
  {
    name: 'mending: a finding is opened at its marker and mended from the pane, and one undo takes it back',
    async run(window) {
      const { page, host } = window;
      const pane = await showWall(window);
      const whole = await textOfFile(host, FILE);
      await window.goTo(await lineOf(host, /anchor +A-3 /));
      await host.call((vscode) => vscode.commands.executeCommand('editor.action.deleteLines'));
      await pane
        .locator('.counts')
        .filter({ hasText: /1 error/ })
        .waitFor();
      const lacking = await textOfFile(host, FILE);

      // From the list, by keyboard.
      const fix = pane.locator('.findings .fix').first();
      await fix.waitFor();
      match((await fix.textContent()) ?? '', /^\s*Add A-5 .* at 10'-2 1\/2"/);
      await pane.locator('.drawing.follows').focus();
      await page.keyboard.press('F8');
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('Enter');
      await poll(async () => /anchor +A-5 /.test(await textOfFile(host, FILE)), 'the anchor in the text');
      await pane
        .locator('.counts')
        .filter({ hasText: /0 errors/ })
        .waitFor();
      await undo(window);
      await poll(async () => (await textOfFile(host, FILE)) === lacking, 'one undo to take it back');

      // From its marker in the drawing, by mouse.
      await pane
        .locator('.counts')
        .filter({ hasText: /1 error/ })
        .waitFor();
      await pane.locator('.elevation [data-role="finding"]').first().click();
      const pinned = pane.locator('.pinned');
      await pinned.filter({ hasText: /at most 6'-0"/ }).waitFor();
      await window.screenshot('pinned');
      await pinned.locator('.fix').first().click();
      await poll(async () => /anchor +A-5 /.test(await textOfFile(host, FILE)), 'the anchor in the text');
      await pinned.waitFor({ state: 'hidden' });
      await undo(window);
      await undo(window);
      await poll(async () => (await textOfFile(host, FILE)) === whole, 'the text as it was');
    },
  },
  {
    name: 'mending: a marker of the plan opens its finding too, by mouse and by keyboard, and leads on to its line',
    async run(window) {
      const { page, host } = window;
      const pane = await showWall(window);
      const whole = await textOfFile(host, FILE);
      await window.goTo(await lineOf(host, /anchor +C-2 /));
      await host.call((vscode) => vscode.commands.executeCommand('editor.action.deleteLines'));
      const marker = pane.locator('.plan .stage [data-role="finding"]:has([data-symbol="error"])').first();
      await marker.waitFor({ state: 'attached' });
      // The elevation may show another wall than that of the finding.
      await window.goTo(await lineOf(host, /anchor +A-2 /));
      await pane
        .locator('.elevation h2')
        .filter({ hasText: /^Elevation A/ })
        .waitFor();
      const said = /^finding \d+, error: (.{20})/.exec((await marker.getAttribute('aria-label')) ?? '')?.[1] ?? '?';
      await pane.locator('.drawing.fits').focus();
      await page.keyboard.press('Home');
      for (let key = 0; key < 80; key += 1) {
        const name = await pane.locator('.drawing.fits :focus').getAttribute('aria-label');
        if (name?.startsWith('finding') && name.includes(', error: ')) break;
        await page.keyboard.press('ArrowRight');
      }
      await pane.locator('.plan .overlay .focused').waitFor({ state: 'attached' });
      await page.keyboard.press('Enter');
      const pinned = pane.locator('.pinned');
      await pinned.filter({ hasText: said }).waitFor();
      await window.screenshot('pinned-in-plan');
      await page.keyboard.press('Escape');
      await pinned.waitFor({ state: 'hidden' });

      const box = await marker.boundingBox();
      ok(box && box.width >= 8, 'large enough to be seen');
      await page.mouse.click(box.x + box.width / 2, box.y + box.height / 2);
      await pinned.filter({ hasText: said }).waitFor();
      await pinned.locator('.fix').first().waitFor();
      await pinned.locator('.go').click();
      await pane
        .locator('.elevation h2')
        .filter({ hasText: /^Elevation C/ })
        .waitFor();
      await undo(window);
      await poll(async () => (await textOfFile(host, FILE)) === whole, 'the text as it was');
    },
  },
];

async function showWall(window: EditorWindow): Promise<FrameLocator> {
  await window.host.call((vscode) => vscode.commands.executeCommand('workbench.action.closePanel'));
  await window.openFile(FILE);
  await window.goTo(await lineOf(window.host, /anchor +A-2 /));
  await window.runCommand('Sillwright: Show Layout Beside');
  const pane = window.preview();
  await pane.locator('.schedule tr.here').filter({ hasText: 'A-2' }).waitFor({ timeout: 30_000 });
  await pane.locator('.elevation [data-thing="A/anchor:A-2"][data-role="thing"]').waitFor({ state: 'attached' });
  await pane.locator('.drawing.follows').scrollIntoViewIfNeeded();
  return pane;
}

async function middleOf(pane: FrameLocator, thing: string): Promise<{ readonly x: number; readonly y: number }> {
  const body = pane.locator(`.elevation .stage > svg:not(.overlay, .moves) [data-thing="${thing}"][data-role="thing"]`);
  await body.first().scrollIntoViewIfNeeded();
  const box = await body.first().boundingBox();
  ok(box, `${thing} must be in sight`);
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

async function focusThing(window: EditorWindow, pane: FrameLocator, mark: string): Promise<void> {
  await pane.locator('.drawing.follows').focus();
  await window.page.keyboard.press('Home');
  for (let key = 0; key < 30; key += 1) {
    const name = await pane.locator('.drawing.follows :focus').getAttribute('aria-label');
    if (name?.includes(`anchor ${mark},`)) return;
    await window.page.keyboard.press('ArrowRight');
  }
  throw new Error(`no way to ${mark} by the keyboard`);
}

/** In the text, as a person does it there. */
async function undo(window: EditorWindow): Promise<void> {
  await window.openFile(FILE);
  await window.host.call((vscode) => vscode.commands.executeCommand('undo'));
}
