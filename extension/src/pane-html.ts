import { Uri, type Webview } from 'vscode';
import type { PaneChoices } from '../../language/protocol/pane-choices.ts';

export interface PaneStart {
  /** The file's URI. */
  readonly layout: string;
  readonly choices: PaneChoices;
}

/** The page of a pane: nothing remote, no script but ours. The file's name reaches it as data, never as markup. */
export function paneHtml(extension: Uri, webview: Webview, { layout, choices }: PaneStart): string {
  const random = crypto.getRandomValues(new Uint8Array(16));
  const nonce = Array.from(random, (byte) => byte.toString(16).padStart(2, '0')).join('');
  const resource = (name: string): string => webview.asWebviewUri(Uri.joinPath(extension, 'dist', name)).toString();
  const policy = [
    "default-src 'none'",
    `script-src 'nonce-${nonce}'`,
    `style-src ${webview.cspSource}`,
    `font-src ${webview.cspSource}`,
    // A drawing on its way to a picture.
    'img-src blob:',
  ].join('; ');
  return `<!DOCTYPE html>
<html lang="en">
<head>
  <meta charset="utf-8">
  <meta http-equiv="Content-Security-Policy" content="${policy}">
  <meta name="viewport" content="width=device-width, initial-scale=1">
  <link rel="stylesheet" href="${resource('webview.css')}">
  <title>Layout</title>
</head>
<body data-layout="${escapeAttribute(layout)}" data-choices="${escapeAttribute(JSON.stringify(choices))}">
  <main id="pane" aria-busy="true"></main>
  <script type="module" nonce="${nonce}" src="${resource('webview.js')}"></script>
</body>
</html>`;
}

function escapeAttribute(text: string): string {
  return text.replace(/[&<>"']/g, (character) => `&#${character.charCodeAt(0)};`);
}
