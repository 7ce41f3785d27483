/**
 * Writes the advance widths of the lettering (`extension/webview/fonts`) as a table, so that a drawing knows how wide
 * its text is without a font at hand. `--check` fails where the committed table is not what the fonts give.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import process from 'node:process';
import { create } from 'fontkit';

const root = join(import.meta.dirname, '..');
const target = join(root, 'language/domain/drawing/font-widths.ts');
const cuts = { regular: 'routed-gothic.ttf', narrow: 'routed-gothic-narrow.ttf' };

const table = `// Written by scripts/generate-font-widths.ts from the fonts in extension/webview/fonts: do not edit.
export interface FontWidths {
  readonly unitsPerEm: number;
  readonly capHeight: number;
  readonly descent: number;
  /** One character each, in the order of \`widths\`. */
  readonly characters: string;
  readonly widths: readonly number[];
}

${Object.entries(cuts)
  .map(([cut, file]) => `export const ${cut}Widths: FontWidths = ${widthsOf(file)};`)
  .join('\n\n')}
`;

if (process.argv.includes('--check')) {
  let current = '';
  try {
    current = readFileSync(target, 'utf8');
  } catch {}
  if (current !== table) {
    console.error(
      'language/domain/drawing/font-widths.ts is not what the fonts give: run `node scripts/generate-font-widths.ts`.',
    );
    process.exit(1);
  }
} else {
  writeFileSync(target, table);
}

function widthsOf(file: string): string {
  const font = create(readFileSync(join(root, 'extension/webview/fonts', file)));
  if (!('glyphForCodePoint' in font)) throw new Error(`${file} is a collection, not a font`);
  const codePoints = font.characterSet
    .filter((codePoint) => codePoint <= 0xffff && /[\p{L}\p{N}\p{P}\p{S}\p{Zs}]/u.test(String.fromCodePoint(codePoint)))
    .sort((a, b) => a - b);
  const characters = [...new Set(codePoints)].map((codePoint) => ({
    text: escaped(codePoint),
    width: Math.round(font.glyphForCodePoint(codePoint).advanceWidth),
  }));
  const rows: string[] = [];
  for (let start = 0; start < characters.length; start += 24) {
    rows.push(
      `    ${characters
        .slice(start, start + 24)
        .map(({ width }) => width)
        .join(', ')},`,
    );
  }
  const text = rows.join('\n');
  return `{
  unitsPerEm: ${font.unitsPerEm},
  capHeight: ${Math.round(font.capHeight)},
  descent: ${Math.round(-font.descent)},
  characters:
    '${characters.map((character) => character.text).join('')}',
  // biome-ignore format: a table
  widths: [
${text}
  ],
}`;
}

/** Everything but plain ASCII is written as an escape, so that the module reads the same everywhere. */
function escaped(codePoint: number): string {
  if (codePoint === 0x27 || codePoint === 0x5c) return `\\${String.fromCodePoint(codePoint)}`;
  if (codePoint >= 0x20 && codePoint < 0x7f) return String.fromCodePoint(codePoint);
  return `\\u${codePoint.toString(16).padStart(4, '0')}`;
}
