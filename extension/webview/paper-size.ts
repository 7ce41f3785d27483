/** Width and height in mm. */
export function paperSize(svg: string): readonly [number, number] | undefined {
  const [, width, height] = /^\s*<svg[^>]*? width="([\d.]+)mm" height="([\d.]+)mm"/.exec(svg) ?? [];
  return width === undefined || height === undefined ? undefined : [Number(width), Number(height)];
}
