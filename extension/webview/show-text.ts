import { LEAST_TEXT, textAt } from './level-of-detail.ts';

/** Texts that stand alone with room about them: a tape has one number a foot. What stands in a flag has its size from it. */
const mostLarger: Readonly<Partial<Record<string, number>>> = { tape: 1.5, finding: 1.6, row: 1.35, level: 1.35 };

/** @param elements those that are new or other than before, or all of a drawing where the scale is another; with what is in those made. */
export function showTextAt(elements: Iterable<Element>, scale: number): void {
  const leaders = new Set<Element>();
  for (const element of elements) {
    if (element instanceof SVGTextElement) showText(element, scale);
    const leader = element.getAttribute('data-role') === 'leader' ? element : element.previousElementSibling;
    if (leader?.getAttribute('data-role') === 'leader') leaders.add(leader);
  }
  for (const leader of leaders) {
    const isToNone =
      leader.nextElementSibling?.querySelector(':scope > text')?.classList.contains('too-small') === true;
    if (leader.classList.contains('to-no-words') !== isToNone) leader.classList.toggle('to-no-words', isToNone);
  }
}

function showText(text: SVGTextElement, scale: number): void {
  const pixels = Number(text.getAttribute('font-size')) * scale;
  const isTouched = text.hasAttribute('class') || text.hasAttribute('data-larger');
  // Most of a large drawing: nothing to do.
  if (pixels >= LEAST_TEXT && !isTouched) return;
  const shown = textAt(pixels, mostLargerOf(text));
  const isLeftOut = shown === 'left-out';
  if (isLeftOut !== text.classList.contains('too-small')) text.classList.toggle('too-small', isLeftOut);
  if (typeof shown === 'object') enlarge(text, shown.larger);
  else if (text.hasAttribute('data-larger')) {
    text.removeAttribute('data-larger');
    text.removeAttribute('transform');
  }
}

/** The words of warning zones that are left out: they are said elsewhere. */
export function wordsLeftOut(drawing: SVGSVGElement): readonly string[] {
  return zoneWords(drawing, '[data-layer="zones"] text.too-small');
}

/** Of every warning zone, whatever of it can be read in the drawing. */
export function wordsOfZones(drawing: SVGSVGElement): readonly string[] {
  return zoneWords(drawing, '[data-layer="zones"] text');
}

function zoneWords(drawing: SVGSVGElement, texts: string): readonly string[] {
  const words = [...drawing.querySelectorAll(texts)].map(({ textContent }) => textContent ?? '');
  return [...new Set(words)].filter((each) => each.length > 1);
}

function mostLargerOf(text: SVGTextElement): number {
  if (text.hasAttribute('transform') && !text.hasAttribute('data-larger')) return 1;
  const role = text.closest<SVGElement>('g[data-role]')?.dataset.role ?? '';
  const isInFlag = role === 'tape' && text.parentElement?.querySelector(':scope > rect') === null;
  return isInFlag ? 1.05 : (mostLarger[role] ?? 1.05);
}

function enlarge(text: SVGTextElement, by: number): void {
  const [x, y] = [text.getAttribute('x') ?? 0, text.getAttribute('y') ?? 0];
  const transform = `translate(${x} ${y}) scale(${by}) translate(${-x} ${-y})`;
  // Set again, even to the same, it would have the text laid out anew.
  if (text.getAttribute('transform') === transform) return;
  text.setAttribute('data-larger', '');
  text.setAttribute('transform', transform);
}
