import { type Drawn, patchDrawing } from '../../../extension/webview/patch-drawing.ts';
import { showTextAt } from '../../../extension/webview/show-text.ts';
import { nameOf, type ThingsDrawn, thingsDrawn } from '../../../extension/webview/things-drawn.ts';
import { changeBetween, type PieceGroup, withChange } from '../../../language/protocol/picture.ts';

/** Runs in a browser's page for `patch-drawing.test.ts`, which calls these two. */
Object.assign(globalThis, { patchedAndFresh, elementsKept });

/** At which some texts are shown larger, and some left out. */
const SCALE = 3;
const roles = ['leader', 'finding', 'tape', 'mark', 'thing', 'dimension'];

/** Of each picture after the first: the drawing that was patched from one to the next, and the one that is made of it alone. */
function patchedAndFresh(pictures: readonly PieceGroup[]): { readonly patched: string; readonly fresh: string }[] {
  const stage = document.createElement('div');
  let drawn: Drawn | undefined;
  let things = thingsDrawn();
  return pictures.map((picture) => {
    const next = patchDrawing(drawn, stage, drawn ? asSent(drawn.picture, picture) : picture);
    if (!next) throw new Error('it is drawn');
    drawn = next.drawn;
    if (next.changes) {
      things.forget(next.changes.gone);
      things.takeIn(next.changes.made);
    } else things = thingsDrawn(drawn.element);
    showTextAt(next.changes?.touched ?? drawn.element.querySelectorAll('*'), SCALE);
    return { patched: said(stage, things), fresh: freshOf(picture) };
  });
}

/** In which what did not change is the same piece. */
function asSent(before: PieceGroup, now: PieceGroup): PieceGroup {
  const change = changeBetween(before, now);
  return (change && withChange(before, change)) ?? before;
}

function freshOf(picture: PieceGroup): string {
  const stage = document.createElement('div');
  const element = patchDrawing(undefined, stage, picture)?.drawn.element;
  if (!element) throw new Error('it is drawn');
  showTextAt(element.querySelectorAll('*'), SCALE);
  return said(stage, thingsDrawn(element));
}

function said(stage: HTMLElement, things: ThingsDrawn): string {
  const counts = roles.map((role) => [role, [...things.ofRole(role)].map(nameOf).toSorted()]);
  return `${elementSaid(stage)}\n${JSON.stringify([counts, ['F/anchor:a', 'F/pipe:b', 'c'].map((name) => [...things.of(name)].length)])}`;
}

/** Its own part in sight and an empty class are the pane's; attributes have no order. */
function elementSaid(element: Element): string {
  const attributes = [...element.attributes]
    .filter(({ name, value }) => name !== 'viewBox' && !(name === 'class' && value === ''))
    .map(({ name, value }) => ` ${name}=${JSON.stringify(value)}`)
    .toSorted();
  const inside =
    element.children.length > 0 ? [...element.children].map(elementSaid).join('') : element.textContent?.trim();
  return `\n<${element.localName}${attributes.join('')}>${inside}</>`;
}

function elementsKept([before, now]: readonly [PieceGroup, PieceGroup]): {
  readonly kept: number;
  readonly of: number;
} {
  const stage = document.createElement('div');
  const drawn = patchDrawing(undefined, stage, before)?.drawn;
  const were = new Set(stage.querySelectorAll('*'));
  patchDrawing(drawn, stage, now);
  const are = [...stage.querySelectorAll('*')];
  return { kept: are.filter((each) => were.has(each)).length, of: are.length };
}
