import { LEAST_TEXT, textAt } from './level-of-detail.ts';

/** Texts that stand alone with room about them: a tape has one number a foot. What stands in a flag has its size from it. */
const mostLarger: Readonly<Partial<Record<string, number>>> = { tape: 1.5, finding: 1.6, row: 1.35, level: 1.35 };

/** @returns the words of warning zones that were left out: they are said elsewhere. */
export function showTextAt(drawing: SVGSVGElement, scale: number): readonly string[] {
  const missing = new Set<string>();
  for (const text of drawing.querySelectorAll('text')) {
    const pixels = Number(text.getAttribute('font-size')) * scale;
    const isTouched = text.hasAttribute('class') || text.hasAttribute('data-larger');
    // Most of a large drawing: nothing to do.
    if (pixels >= LEAST_TEXT && !isTouched) continue;
    const shown = textAt(pixels, mostLargerOf(text));
    const isLeftOut = shown === 'left-out';
    if (isLeftOut !== text.classList.contains('too-small')) text.classList.toggle('too-small', isLeftOut);
    if (typeof shown === 'object') enlarge(text, shown.larger);
    else if (text.hasAttribute('data-larger')) {
      text.removeAttribute('data-larger');
      text.removeAttribute('transform');
    }
    if (isLeftOut && text.closest('[data-layer="zones"]')) missing.add(text.textContent ?? '');
  }
  for (const leader of drawing.querySelectorAll('g[data-role="leader"]')) {
    const isToNone =
      leader.nextElementSibling?.querySelector(':scope > text')?.classList.contains('too-small') === true;
    if (leader.classList.contains('to-no-words') !== isToNone) leader.classList.toggle('to-no-words', isToNone);
  }
  return [...missing].filter((words) => words.length > 1);
}

/** Of every warning zone, whatever of it can be read in the drawing. */
export function wordsOfZones(drawing: SVGSVGElement): readonly string[] {
  const words = [...drawing.querySelectorAll('[data-layer="zones"] text')].map(({ textContent }) => textContent ?? '');
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
