import { type QuickPickItem, Uri, window } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  type DrawingsAnswer,
  type DrawingsParams,
  drawingsRequest,
  type SheetPaper,
} from '../../language/protocol/requests.ts';
import { type LayoutInFront, nameOf, refuse } from './layout-in-front.ts';
import { letteringIn, withLettering } from './lettering.ts';
import { asFileName, mayReplace, stemOf, writeFile } from './write-file.ts';

const title = 'Write Drawings';

/** For keybindings and scripts: what is given is not asked. */
export interface DrawingsArguments {
  readonly uri?: string;
  readonly sheet?: SheetPaper | 'none';
}

interface PaperChoice extends QuickPickItem {
  readonly sheet: SheetPaper | 'none';
}
const papers: readonly PaperChoice[] = [
  {
    sheet: 'none',
    label: 'Each drawing alone',
    detail: 'As large as it is at its scale, without frame and title block.',
  },
  {
    sheet: 'usual',
    label: 'Printed set on the usual paper',
    detail: '24 x 18 in, for a metric layout A2; framed, with title blocks.',
  },
  ...(['24x18', '36x24', '17x11', 'A1', 'A2', 'A3'] as const).map((sheet) => ({
    sheet,
    label: `Printed set on ${sheet.startsWith('A') ? sheet : `${sheet.replace('x', ' x ')} in`}`,
  })),
];

/** Writes the plan and every elevation of the text as it stands as SVG files into a folder of the user's choice, each with its lettering in it. */
export async function writeDrawings(
  extension: Uri,
  client: BaseLanguageClient,
  inFront: LayoutInFront,
  given: DrawingsArguments = {},
): Promise<void> {
  const layout = given.uri === undefined ? inFront() : Uri.parse(given.uri);
  if (!layout) return refuse('Open a .sill file first: the drawings are those of the layout in front.');
  const sheet = given.sheet ?? (await window.showQuickPick(papers, { title, placeHolder: 'On which paper?' }))?.sheet;
  if (sheet === undefined) return;
  const params: DrawingsParams = { uri: layout.toString(), ...(sheet === 'none' ? {} : { sheet }) };
  const answer = await client.sendRequest<DrawingsAnswer>(drawingsRequest, params);
  if (answer.kind === 'refused') return refuse(answer.reason);

  const [folder] =
    (await window.showOpenDialog({
      title,
      openLabel: 'Write here',
      canSelectFiles: false,
      canSelectFolders: true,
      canSelectMany: false,
      defaultUri: Uri.joinPath(layout, '..'),
    })) ?? [];
  if (!folder) return;
  const lettering = await letteringIn(extension);
  const targets = answer.sheets.map(({ name, svg }) => ({
    uri: Uri.joinPath(folder, `${stemOf(layout)}-${asFileName(name)}.svg`),
    svg: withLettering(svg, lettering),
  }));
  if (
    !(await mayReplace(
      targets.map(({ uri }) => uri),
      title,
    ))
  )
    return;
  // What could not be written has said why; the rest would fail alike.
  for (const { uri, svg } of targets) if (!(await writeFile(uri, svg))) return;
  void window.showInformationMessage(`${targets.length} drawings written into ${nameOf(folder)}.`);
}
