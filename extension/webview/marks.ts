import { html, svg, type TemplateResult } from 'lit-html';

type Severity = 'stop' | 'error' | 'warning' | 'info' | 'accepted';

/** The shapes of the drawings' finding markers: solid square with a bar, solid triangle, open triangle, circle, struck circle. */
const shapes: Readonly<Record<Severity, TemplateResult>> = {
  stop: svg`<rect x="1.5" y="1.5" width="13" height="13" class="solid"/><path d="M4 8H12" class="bar"/>`,
  error: svg`<path d="M1 2.5H15L8 14.5Z" class="solid"/>`,
  warning: svg`<path d="M1.6 3H14.4L8 14Z" class="open"/>`,
  info: svg`<circle cx="8" cy="8" r="5.6" class="open"/>`,
  accepted: svg`<circle cx="8" cy="8" r="5.6" class="open"/><path d="M4 12L12 4" class="open"/>`,
};

export function countMark(severity: Severity): TemplateResult {
  return html`<svg class="sign" viewBox="0 0 16 16" aria-hidden="true">${shapes[severity]}</svg>`;
}

export function findingMark(severity: Severity): TemplateResult {
  return html`<svg class="sign" viewBox="0 0 16 16" role="img" aria-label=${severity}>${shapes[severity]}</svg>`;
}
