/**
 * A PNG that says how large it is on paper, in a `pHYs` chunk (PNG specification, third edition, 11.3.4.3): printed at 100 %, the
 * drawing is to scale. What is no PNG comes back as it is.
 */
export function withResolution(png: Uint8Array<ArrayBuffer>, dotsPerInch: number): Uint8Array<ArrayBuffer> {
  // The header chunk always comes first: 8 bytes of signature, then 25.
  const afterHeader = 8 + 25;
  const isPng = png.length > afterHeader && signature.every((byte, at) => png[at] === byte);
  if (!isPng) return png;
  const chunk = new Uint8Array(12 + 9);
  const view = new DataView(chunk.buffer);
  const dotsPerMetre = Math.round(dotsPerInch / 0.0254);
  view.setUint32(0, 9);
  chunk.set([0x70, 0x48, 0x59, 0x73], 4);
  view.setUint32(8, dotsPerMetre);
  view.setUint32(12, dotsPerMetre);
  chunk[16] = 1;
  view.setUint32(17, crc32(chunk.subarray(4, 17)));
  const whole = new Uint8Array(png.length + chunk.length);
  whole.set(png.subarray(0, afterHeader));
  whole.set(chunk, afterHeader);
  whole.set(png.subarray(afterHeader), afterHeader + chunk.length);
  return whole;
}

const signature = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];

/** ISO 3309, as PNG uses it (annex D). */
function crc32(bytes: Uint8Array): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  }
  return (crc ^ 0xffffffff) >>> 0;
}
