import { contrast, readableOn, readColour, writeColour } from './contrast.ts';

/** Put in by the build from the drawings' tokens: the contrast that each must have against the ground. */
declare const LEAST_CONTRAST: Readonly<Record<string, number>>;

/**
 * A person's theme may have any ground. Whenever it changes, each token is measured against it and, where it would be
 * too faint, made lighter or darker until it can be read.
 */
export function keepReadable(): void {
  measure();
  new MutationObserver(measure).observe(document.body, { attributes: true, attributeFilter: ['class'] });
  new MutationObserver(measure).observe(document.documentElement, { attributes: true, attributeFilter: ['style'] });
}

function measure(): void {
  const { body } = document;
  for (const name of Object.keys(LEAST_CONTRAST)) body.style.removeProperty(name);
  const style = getComputedStyle(body);
  const ground = readColour(style.getPropertyValue('--sw-paper'));
  if (!ground) return;
  for (const [name, least] of Object.entries(LEAST_CONTRAST)) {
    const colour = readColour(style.getPropertyValue(name));
    if (!colour || contrast(ground, colour) >= least) continue;
    body.style.setProperty(name, writeColour(readableOn(ground, colour, least)));
  }
}
