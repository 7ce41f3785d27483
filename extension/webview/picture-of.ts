import type { RenderMessage } from '../../language/protocol/preview.ts';
import { paperSize } from './paper-size.ts';
import { withResolution } from './png-resolution.ts';

/** What a browser draws at the most on one side, and in all. */
const MOST_SIDE = 16_384;
const MOST_PIXELS = 200_000_000;

/** A PNG of a drawing of a sheet, with its true size on paper; or in words why there is none. */
export async function pictureOf({ svg, dotsPerInch }: RenderMessage): Promise<Uint8Array | string> {
  const size = paperSize(svg);
  if (!size) return 'The drawing does not say its size.';
  const [width, height] = size.map((side) => Math.round((side / 25.4) * dotsPerInch)) as [number, number];
  if (Math.max(width, height) > MOST_SIDE || width * height > MOST_PIXELS) {
    return `At ${dotsPerInch} dpi the picture would be ${width} by ${height} pixels, more than can be drawn. Choose fewer dpi, or SVG.`;
  }
  const url = URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
  try {
    const image = new Image(width, height);
    image.src = url;
    await image.decode();
    const canvas = document.createElement('canvas');
    canvas.width = width;
    canvas.height = height;
    const context = canvas.getContext('2d');
    if (!context) return 'There is not memory enough for the picture. Choose fewer dpi, or SVG.';
    context.drawImage(image, 0, 0, width, height);
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
    if (!blob) return 'There is not memory enough for the picture. Choose fewer dpi, or SVG.';
    return withResolution(new Uint8Array(await blob.arrayBuffer()), dotsPerInch);
  } catch (error) {
    return `The picture could not be drawn: ${error instanceof Error ? error.message : String(error)}`;
  } finally {
    URL.revokeObjectURL(url);
  }
}
