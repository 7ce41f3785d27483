import type { Basis } from '../documents/basis.ts';
import { lettered, plainText, textWidth, wrapText } from './lettering.ts';
import { group, line, type SceneNode, type TextShape } from './scene.ts';
import { capHeights, WATERMARK_CAP_HEIGHT } from './tokens.ts';

/** What every drawing has: heading, strip of a set for the engineer, watermark of demo values. */

export const SHEET_MARGIN = 10;

export interface Heading {
  readonly nodes: readonly SceneNode[];
  readonly bottom: number;
}

export function heading(title: string, remarks: readonly string[], basis: Basis, width: number): Heading {
  const nodes: SceneNode[] = [];
  const room = width - 2 * SHEET_MARGIN;
  let y = SHEET_MARGIN;
  const fits = textWidth(title, 'sheet-heading', 'regular') <= room;
  for (const text of fits ? [title] : wrapText(title, room, 'sheet-heading', 'regular')) {
    y += capHeights['sheet-heading'];
    nodes.push(lettered(text, [SHEET_MARGIN, y], { size: 'sheet-heading', face: 'regular', heavy: true }));
    y += 3.6;
  }
  for (const text of remarks.flatMap((remark) => wrapText(plainText(remark), room, 'label'))) {
    y += capHeights.label;
    nodes.push(lettered(text, [SHEET_MARGIN, y], { size: 'label', colour: 'ink2' }));
    y += 1.8;
  }
  if (basis.label === "for engineer's review") {
    const because = basis.because === undefined ? '' : plainText(basis.because);
    const text = "FOR ENGINEER'S REVIEW";
    y += 1.6;
    nodes.push(line([SHEET_MARGIN, y], [width - SHEET_MARGIN, y], { colour: 'stop', pen: 'P1' }));
    const baseline = y + 2.2 + capHeights['block-heading'];
    nodes.push(
      lettered(text, [SHEET_MARGIN + 2, baseline], {
        size: 'block-heading',
        face: 'regular',
        colour: 'stop',
        heavy: true,
      }),
    );
    const left = SHEET_MARGIN + 2 + textWidth(text, 'block-heading', 'regular') + 6;
    const lines = because === '' ? [] : wrapText(because, width - SHEET_MARGIN - 2 - left, 'label');
    lines.forEach((part, index) => {
      nodes.push(lettered(part, [left, baseline + index * 3.9], { size: 'label' }));
    });
    y = baseline + Math.max(0, lines.length - 1) * 3.9 + 2.2;
    nodes.push(line([SHEET_MARGIN, y], [width - SHEET_MARGIN, y], { colour: 'stop', pen: 'P1' }));
    y += 2;
  }
  return { nodes: [group(nodes, { role: 'heading' })], bottom: y };
}

/** Behind everything: invented connector values must be seen by whoever holds the sheet. */
export function watermark(
  basis: Basis,
  box: { readonly x: number; readonly y: number; readonly width: number; readonly height: number },
): readonly SceneNode[] {
  if (!basis.demo) return [];
  const text = 'DEMO VALUES';
  const perCap = textWidth(text, 'label', 'regular') / capHeights.label;
  const capHeight = Math.min(WATERMARK_CAP_HEIGHT, (box.width * 0.86) / perCap, box.height * 0.6);
  const shape: TextShape = {
    ...lettered(text, [box.x + box.width / 2, box.y + box.height / 2 + capHeight / 2], {
      size: 'sheet-heading',
      face: 'regular',
      anchor: 'middle',
      colour: 'wm',
      heavy: true,
    }),
    capHeight,
    width: perCap * capHeight,
  };
  return [group([shape], { role: 'watermark', name: 'DEMO VALUES: connector values are invented' })];
}
