import type { Basis } from '../documents/basis.ts';
import { lettered, plainText, textWidth, wrapText } from './lettering.ts';
import { type Box, group, line, type SceneNode, type TextShape } from './scene.ts';
import { capHeights, WATERMARK_CAP_HEIGHT } from './tokens.ts';

/** What every drawing has: heading, strip of a set for the engineer, watermark of demo values. */

export const SHEET_MARGIN = 10;

export interface Heading {
  readonly nodes: readonly SceneNode[];
  readonly bottom: number;
}

export function heading(title: string, remarks: readonly string[], basis: Basis, width: number): Heading {
  const room = { x: SHEET_MARGIN, y: SHEET_MARGIN, width: width - 2 * SHEET_MARGIN };
  return headingIn(room, title, remarks, basis);
}

export function headingIn(
  { x: left, y: top, width: room }: Omit<Box, 'height'>,
  title: string,
  remarks: readonly string[],
  basis: Basis,
): Heading {
  const nodes: SceneNode[] = [];
  const right = left + room;
  let y = top;
  const fits = textWidth(title, 'sheet-heading', 'regular') <= room;
  for (const text of fits ? [title] : wrapText(title, room, 'sheet-heading', 'regular')) {
    y += capHeights['sheet-heading'];
    nodes.push(lettered(text, [left, y], { size: 'sheet-heading', face: 'regular', heavy: true }));
    y += 3.6;
  }
  for (const text of remarks.flatMap((remark) => wrapText(plainText(remark), room, 'label'))) {
    y += capHeights.label;
    nodes.push(lettered(text, [left, y], { size: 'label', colour: 'ink2' }));
    y += 1.8;
  }
  if (basis.label === "for engineer's review") {
    const because = basis.because === undefined ? '' : plainText(basis.because);
    const text = "FOR ENGINEER'S REVIEW";
    y += 1.6;
    nodes.push(line([left, y], [right, y], { colour: 'stop', pen: 'P1' }));
    const baseline = y + 2.2 + capHeights['block-heading'];
    nodes.push(
      lettered(text, [left + 2, baseline], {
        size: 'block-heading',
        face: 'regular',
        colour: 'stop',
        heavy: true,
      }),
    );
    const becauseLeft = left + 2 + textWidth(text, 'block-heading', 'regular') + 6;
    const lines = because === '' ? [] : wrapText(because, right - 2 - becauseLeft, 'label');
    lines.forEach((part, index) => {
      nodes.push(lettered(part, [becauseLeft, baseline + index * 3.9], { size: 'label' }));
    });
    y = baseline + Math.max(0, lines.length - 1) * 3.9 + 2.2;
    nodes.push(line([left, y], [right, y], { colour: 'stop', pen: 'P1' }));
    y += 2;
  }
  return { nodes: [group(nodes, { role: 'heading' })], bottom: y };
}

/** Behind everything: invented connector values must be seen by whoever holds the sheet. */
export function watermark(basis: Basis, box: Box, tallest = WATERMARK_CAP_HEIGHT): readonly SceneNode[] {
  if (!basis.demo) return [];
  const text = 'DEMO VALUES';
  const perCap = textWidth(text, 'label', 'regular') / capHeights.label;
  const capHeight = Math.min(tallest, (box.width * 0.86) / perCap, box.height * 0.6);
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
