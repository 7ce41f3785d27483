import { readFileSync } from 'node:fs';
import type { SvgOptions } from '../../../language/domain/drawing/svg.ts';

type Font = NonNullable<SvgOptions['fonts']>[number];

const files = [
  ['regular', 'routed-gothic.ttf'],
  ['narrow', 'routed-gothic-narrow.ttf'],
] as const;

/** Beside the bundle, or beside a part of it, or in the sources. */
const folders = ['fonts/', '../fonts/', '../../../extension/webview/fonts/'];

let known: readonly Font[] | undefined;

/**
 * The lettering of drawings, to put into each file that is written: it looks the same where that is not installed. Without the font
 * files a drawing takes the next narrow face that it finds, as it says itself.
 */
export function letteringOfDrawings(): readonly Font[] {
  known ??= files.flatMap(([face, file]): readonly Font[] => {
    const trueTypeBase64 = inBase64(file);
    return trueTypeBase64 === undefined ? [] : [{ face, trueTypeBase64 }];
  });
  return known;
}

function inBase64(file: string): string | undefined {
  for (const folder of folders) {
    try {
      return readFileSync(new URL(folder + file, import.meta.url)).toString('base64');
    } catch {
      // It is in one of the other folders.
    }
  }
  return undefined;
}
