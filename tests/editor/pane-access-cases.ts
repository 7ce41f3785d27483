import { deepEqual, equal, match, ok } from 'node:assert/strict';
import type { FrameLocator, Locator } from 'playwright-core';
import type { Case } from './cases.ts';
import { chooseInMenu, showHouse } from './pane-cases.ts';
import { type EditorWindow, inPage, poll, type ThemeName } from './window.ts';

const themes: readonly (readonly [ThemeName, string])[] = [
  ['Default Light Modern', 'light'],
  ['Default High Contrast', 'high-contrast'],
  ['Default High Contrast Light', 'high-contrast-light'],
  ['Default Dark Modern', 'dark'],
];
const usualWindow = { width: 1680, height: 1050 };

/** The pane for eyes, ears and hands of every kind, and in every width. What runs in the page is text: these files know no page. */
export const paneAccessCases: readonly Case[] = [
  {
    name: 'access: the Tab key goes through the pane part by part, each with a name and a ring',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const { page } = window;
      await pane.locator('#subjects-button').focus();
      // A ring is for who uses keys: one of them first.
      for (const key of ['ArrowRight', 'ArrowLeft']) await page.keyboard.press(key);
      const stops: string[] = [];
      for (let key = 0; key < 12; key += 1) {
        const stop = await focused(pane);
        if (!stop) break;
        stops.push(stop.name);
        ok(stop.name !== '', `a name for ${stop.what}`);
        ok(stop.ring >= 2, `a ring of 2 pixels round ${stop.name}, not ${stop.ring}`);
        await page.keyboard.press('Tab');
      }
      deepEqual(
        stops.map((name) => name.split(/[:,]/)[0]),
        ['Wall or girder', 'Findings', 'Plan', 'Under the cursor', 'Elevation', 'Schedules of wall F'],
      );
    },
  },
  {
    name: 'access: the menus are worked by the keyboard alone, and Escape leads back to their button',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const { page } = window;
      const isOn = (words: string): Promise<string | null> =>
        pane.locator('#layers button').filter({ hasText: words }).getAttribute('aria-checked');
      await pane.locator('#subjects-button').focus();
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('Enter');
      await pane.locator('#layers button:focus').waitFor();
      await page.keyboard.press('f');
      await pane.locator('#layers button:focus').filter({ hasText: 'Found' }).waitFor();
      await page.keyboard.press('Home');
      await page.keyboard.press('ArrowDown');
      await page.keyboard.press('Enter');
      await poll(async () => (await isOn('New panels')) === 'false', 'the panels to be hidden');
      await pane.locator('.hidden-layers').filter({ hasText: 'new panels' }).waitFor();
      await page.keyboard.press('Enter');
      await poll(async () => (await isOn('New panels')) === 'true', 'the panels to be back');
      await page.keyboard.press('Escape');
      await pane.locator('#layers-button:focus').waitFor();
      await page.keyboard.press('ArrowRight');
      await page.keyboard.press('Enter');
      await pane.locator('#units button:focus').waitFor();
      await page.keyboard.press('End');
      await page.keyboard.press('Enter');
      await pane.locator('.schedule tr.here').filter({ hasText: '8636' }).waitFor();
      await chooseInMenu(pane, 'units', 'as written');
      await pane.locator('.schedule tr.here').filter({ hasText: `28'-4"` }).waitFor();
    },
  },
  {
    name: 'access: a screen reader gets every thing in full words, and is told where the cursor is and what changed',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const nameless = await pane.locator('body').evaluate(
        inPage<string[]>(`(body) =>
        [...body.querySelectorAll('button, [tabindex], [role="img"], [role="group"], section')]
          .filter((each) => each.checkVisibility() && !each.closest('[aria-hidden="true"]'))
          .filter((each) => !(each.getAttribute('aria-label') ?? each.textContent ?? '').trim())
          .map((each) => each.outerHTML.slice(0, 120))`),
      );
      deepEqual(nameless, [], 'nothing without a name');
      const heard = await pane.locator('body').ariaSnapshot();
      match(heard, /img "anchor F-11, [^"]*28 feet 4 inches from/);
      match(heard, /img "finding \d+, error: /);
      match(heard, /button "Wall or girder: Wall F/);
      match(heard, /row "F-11 [^"]*28'-4/);
      equal(await pane.locator('tr[aria-current="true"]').count(), 1, 'the row of the cursor says so');
      await pane.locator('[role="status"], [aria-live="polite"]').first().waitFor({ state: 'attached' });
    },
  },
  {
    name: 'access: what has a meaning by colour has it by shape and word too',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const counts = await pane
        .locator('.counts')
        .evaluate(
          inPage<[string, string][]>(
            `(list) => [...list.querySelectorAll('li:has(.sign)')].map((each) => [each.querySelector('.sign').innerHTML.replace(/<!--.*?-->/g, ''), each.textContent.trim()])`,
          ),
        );
      ok(counts.length >= 3, 'errors, warnings and notes');
      equal(new Set(counts.map(([shape]) => shape)).size, counts.length, 'a shape of its own for each');
      for (const [, words] of counts) match(words, /^\d+ (?:stops?|errors?|warnings?|notes?|accepted)$/);
      match(await beforeFirstCell(pane), /▸/, 'the row of the cursor has a sign');
      const kinds = await pane.locator('.range').getAttribute('aria-label');
      match(kinds ?? '', /^board from .* to .*; in the way: /);
    },
  },
  {
    name: 'access: every word of the pane can be read on its ground, in all four themes',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      for (const [theme, name] of themes) {
        await window.useTheme(theme);
        await pane.locator(`body.vscode-${name}`).waitFor();
        await poll(async () => (await faintWords(pane)).length === 0, `no faint word in ${name}`, 5000).catch(
          async () => deepEqual(await faintWords(pane), [], name),
        );
      }
    },
  },
  {
    name: 'access: with less motion asked for the elevation jumps to the thing, and nothing is animated',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-1 /);
      const drawing = pane.locator('.drawing.follows');
      const places = async (at: RegExp): Promise<readonly number[]> => {
        await drawing.evaluate(
          inPage(`(view) => { view.seen = []; view.onscroll = () => view.seen.push(view.scrollLeft); }`),
        );
        const started = await drawing.evaluate(inPage<number>('(view) => view.scrollLeft'));
        await showHouse(window, at);
        await poll(
          async () => (await drawing.evaluate(inPage<number>('(view) => view.scrollLeft'))) !== started,
          'a move',
        );
        await poll(async () => {
          const [seen, now] = await drawing.evaluate(
            inPage<[number[], number]>('(view) => [view.seen, view.scrollLeft]'),
          );
          await new Promise((resolve) => setTimeout(resolve, 150));
          return seen.at(-1) === now && now === (await drawing.evaluate(inPage<number>('(view) => view.scrollLeft')));
        }, 'rest');
        return drawing.evaluate(inPage<number[]>('(view) => [...new Set(view.seen)]'));
      };
      equal((await places(/anchor +F-13 /)).length, 1, 'one step');
      equal(await pane.locator('body').evaluate(inPage<number>('() => document.getAnimations().length')), 0);
      await reduceMotion(window, false);
      ok((await places(/anchor +F-1 /)).length > 2, 'smooth where nobody asked for less');
      await reduceMotion(window, true);
    },
  },
  {
    name: 'access: with forced colours marks keep their frames, and the place of the cursor is still shown',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const { page } = window;
      const styleOf = (what: string, property: string): Promise<string> =>
        pane
          .locator(what)
          .first()
          .evaluate(inPage<string>(`(each) => getComputedStyle(each).getPropertyValue('${property}')`));
      await page.emulateMedia({ forcedColors: 'active' });
      try {
        await poll(
          async () => (await styleOf('.focus .frame', 'border-top-style')) === 'solid',
          'a frame round the mark',
        );
        equal(await styleOf('tr.here', 'outline-style'), 'solid');
        ok((await styleOf('.range .at', 'background-color')) !== (await styleOf('body', 'background-color')));
        ok((await styleOf('.overlay .band', 'stroke')) !== (await styleOf('body', 'background-color')));
        await window.screenshot('pane-forced-colours');
      } finally {
        await page.emulateMedia({ forcedColors: 'none' });
        await window.useTheme('Default Dark Modern');
      }
    },
  },
  {
    name: 'access: in every width marks, stations, errors, warning zones and the caution are there, and no control covers another',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const { page, host } = window;
      await host.call((vscode) => vscode.commands.executeCommand('workbench.action.closeSidebar'));
      try {
        for (const width of [900, 700, 560, 450, 365, 340, 280]) {
          await paneOfWidth(window, pane, width);
          await chooseInMenu(pane, 'subjects', 'Wall F');
          await pane.locator('.schedule tr').filter({ hasText: 'F-11' }).first().waitFor();
          await poll(() => expectUsable(pane, width), `a pane to work in at ${width} pixels`, 5000);
          for (const mark of ['F-1', 'F-7', 'F-13'])
            await pane.locator('.schedule tr').filter({ hasText: mark }).first().waitFor({ state: 'visible' });
          match(await wordsInSight(pane), /28'-4"/);
          match(await wordsInSight(pane), /not show that the house is safe/);
          match(await wordsInSight(pane), /9 errors/);
          if (width >= 360) {
            const markers = pane.locator('.elevation .stage [data-role="finding"]:has([data-symbol="error"])');
            ok((await markers.count()) > 0, 'errors at their places');
            for (const marker of await markers.all()) ok(await marker.isVisible(), 'each of them');
            await pane.locator('.elevation [data-role="tape"]').first().waitFor({ state: 'visible' });
          } else match(await wordsInSight(pane), /Stations run from 0.* to 36'-4/, 'the ends of the wall');
          await window.screenshot(`pane-width-${width}`);
          await chooseInMenu(pane, 'subjects', 'Wall D');
          await poll(async () => /NO HOLES/.test(await wordsInSight(pane)), `the warning zones at ${width}`);
          // All of the wall in a narrow pane: too small for the drawing's own words.
          if (width !== 450) continue;
          await pane.locator('.drawing.follows').focus();
          await page.keyboard.press('0');
          await pane.locator('.zone-words').filter({ hasText: 'NO HOLES' }).waitFor();
        }
      } finally {
        await page.setViewportSize(usualWindow);
        await host.call((vscode) => vscode.commands.executeCommand('workbench.view.explorer'));
      }
    },
  },
  {
    name: 'access: text and pane at 1280 by 800 in four themes show the thing under the cursor',
    async run(window) {
      const pane = await showHouse(window, /anchor +F-11 /);
      const { page, host } = window;
      await host.call((vscode) => vscode.commands.executeCommand('workbench.action.closeSidebar'));
      await page.setViewportSize({ width: 1280, height: 800 });
      // A pane that is opened there has a scale for there.
      await host.call((vscode) =>
        vscode.window.tabGroups.close(
          vscode.window.tabGroups.all.flatMap((group) =>
            group.tabs.filter(({ label }) => label.startsWith('Layout: ')),
          ),
        ),
      );
      await showHouse(window, /anchor +F-11 /);
      try {
        for (const [theme, name] of themes) {
          await window.useTheme(theme);
          await pane.locator(`body.vscode-${name}`).waitFor();
          await poll(() => isInSight(pane, '.elevation [data-thing="F/anchor:F-11"][data-role="thing"]'), 'F-11');
          await poll(
            () => isInSight(pane, '.elevation [data-thing="F/anchor:F-11"] > [data-role="station"]'),
            'the station of F-11',
          );
          await window.screenshot(`pane-1280-${name}`);
        }
      } finally {
        await page.setViewportSize(usualWindow);
        await host.call((vscode) => vscode.commands.executeCommand('workbench.view.explorer'));
      }
    },
  },
];

interface Focused {
  readonly name: string;
  readonly what: string;
  readonly ring: number;
}

/** What has the keys in the pane; `undefined` once they have left it. */
function focused(pane: FrameLocator): Promise<Focused | undefined> {
  return pane.locator('body').evaluate(
    inPage<Focused | undefined>(`() => {
    const at = document.activeElement;
    if (!at || at === document.body || !document.hasFocus()) return undefined;
    const { outlineStyle, outlineWidth } = getComputedStyle(at);
    return {
      name: (at.getAttribute('aria-label') ?? at.textContent ?? '').trim(),
      what: at.outerHTML.slice(0, 80),
      ring: outlineStyle === 'none' ? 0 : Number.parseFloat(outlineWidth),
    };
  }`),
  );
}

function beforeFirstCell(pane: FrameLocator): Promise<string> {
  return pane
    .locator('.schedule tr.here td')
    .first()
    .evaluate(inPage<string>(`(cell) => getComputedStyle(cell, '::before').content`));
}

/** WCAG 2.2, 1.4.3: 4.5 to 1. Text of the drawing by its fill, all other by its colour, on the ground that is behind it. */
function faintWords(pane: FrameLocator): Promise<readonly string[]> {
  return pane.locator('body').evaluate(
    inPage<string[]>(`(body) => {
    const channels = (colour) => (colour.match(/[\\d.]+/g) ?? []).map(Number);
    const light = (colour) => {
      const [r, g, b] = channels(colour).slice(0, 3).map((each) => {
        const part = each / 255;
        return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const isSolid = (colour) => colour !== 'transparent' && (channels(colour)[3] ?? 1) === 1;
    const groundOf = (each) => {
      for (let at = each; at; at = at.parentElement) {
        const { backgroundColor } = getComputedStyle(at);
        if (isSolid(backgroundColor)) return backgroundColor;
      }
      return getComputedStyle(body).backgroundColor;
    };
    const ratio = (a, b) => (Math.max(light(a), light(b)) + 0.05) / (Math.min(light(a), light(b)) + 0.05);
    const faint = [];
    const paper = groundOf(body);
    for (const each of body.querySelectorAll('*')) {
      const own = [...each.childNodes].filter((node) => node.nodeType === 3).map((node) => node.data.trim()).join('');
      if (own === '' || !each.checkVisibility() || each.closest('script, style, [disabled], [data-role="watermark"]')) continue;
      const isDrawn = each instanceof SVGElement;
      // Numbers in solid markers and marks in solid frames stand on their own fill, which the drawings' tests measure.
      if (isDrawn && each.closest('[data-role="finding"], [data-role="mark"], [data-role="tape"]:not(:has(> rect)), .letter.here')) continue;
      const colour = isDrawn ? getComputedStyle(each).fill : getComputedStyle(each).color;
      const found = ratio(colour, isDrawn ? paper : groundOf(each));
      if (found < 4.5) faint.push(own.slice(0, 30) + ': ' + found.toFixed(2));
    }
    return faint;
  }`),
  );
}

/** The pane is as wide as wanted once the window is. */
async function paneOfWidth({ page }: EditorWindow, pane: FrameLocator, wanted: number): Promise<void> {
  await poll(async () => {
    const width = (await pane.locator('body').boundingBox())?.width ?? 0;
    if (Math.abs(width - wanted) <= 1) return true;
    const viewport = page.viewportSize() ?? usualWindow;
    await page.setViewportSize({ width: Math.round(viewport.width + 2 * (wanted - width)), height: 800 });
    await new Promise((resolve) => setTimeout(resolve, 200));
    return false;
  }, `a pane of ${wanted} pixels`);
}

/** Nothing sticks out to the side, no control lies on another or has its words cut off. */
async function expectUsable(pane: FrameLocator, width: number): Promise<boolean> {
  const faults = await pane.locator('body').evaluate(
    inPage<string[]>(`() => {
    const faults = [];
    const page = document.scrollingElement;
    if (page.scrollWidth > page.clientWidth) faults.push('the page is wider than the pane');
    const all = [...document.querySelectorAll('header button, header h1, .counts li, .heading button, .heading h2')]
      .filter((each) => each.checkVisibility());
    for (const each of all) if (each.scrollWidth > each.clientWidth + 1) faults.push('cut off: ' + each.textContent.trim());
    const boxes = all.map((each) => [each, each.getBoundingClientRect()]);
    for (const [a, one] of boxes) {
      if (one.right > innerWidth || one.left < 0) faults.push('out of sight: ' + a.textContent.trim());
      for (const [b, other] of boxes)
        if (a !== b && !a.closest('header') === !b.closest('header') && !a.contains(b) && !b.contains(a) &&
          one.left < other.right - 1 && other.left < one.right - 1 && one.top < other.bottom - 1 && other.top < one.bottom - 1)
          faults.push(a.textContent.trim() + ' on ' + b.textContent.trim());
    }
    return faults;
  }`),
  );
  deepEqual(faults, [], `at ${width} pixels`);
  return true;
}

/** Of all that is shown, whether one must scroll to it or not. */
function wordsInSight(pane: FrameLocator): Promise<string> {
  // biome-ignore lint/performance/useDomNodeTextContent: what is hidden does not count.
  return pane.locator('body').innerText();
}

function isInSight(pane: FrameLocator, what: string): Promise<boolean> {
  const thing: Locator = pane.locator(what).first();
  return thing.evaluate(
    inPage<boolean>(`(each) => {
    const { left, right, top, bottom } = each.getBoundingClientRect();
    const footer = document.querySelector('footer').getBoundingClientRect();
    return left >= 0 && right <= innerWidth && top >= 0 && bottom <= footer.top;
  }`),
  );
}

function reduceMotion({ host, page }: EditorWindow, isReduced: boolean): Promise<unknown> {
  return Promise.all([
    page.emulateMedia({ reducedMotion: isReduced ? 'reduce' : 'no-preference' }),
    host.call(
      (vscode, wanted) =>
        vscode.workspace
          .getConfiguration()
          .update('workbench.reduceMotion', wanted ? 'on' : 'off', vscode.ConfigurationTarget.Global),
      isReduced,
    ),
  ]);
}
