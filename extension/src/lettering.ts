import { Uri, workspace } from 'vscode';

const faces = { 'Routed Gothic': 'routed-gothic', 'Routed Gothic Narrow': 'routed-gothic-narrow' } as const;

/** The fonts of the drawings, as a style that has them in it. */
export async function letteringIn(extension: Uri): Promise<string> {
  const rules: string[] = [];
  for (const [family, file] of Object.entries(faces)) {
    const bytes = await workspace.fs.readFile(Uri.joinPath(extension, 'dist/fonts', `${file}.ttf`));
    rules.push(`@font-face{font-family:'${family}';src:url(data:font/ttf;base64,${inBase64(bytes)})}`);
  }
  return rules.join('');
}

/** The drawing with its lettering in it: it looks the same where that is not installed. */
export function withLettering(svg: string, rules: string): string {
  return svg.replace('</desc>', () => `</desc>\n<style>${rules}</style>`);
}

/** In steps: a call takes only so many arguments. */
function inBase64(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += 8192) text += String.fromCharCode(...bytes.subarray(at, at + 8192));
  return btoa(text);
}
