import { type QuickPickItem, Uri, window } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { PaneUnits } from '../../language/protocol/pane-choices.ts';
import type { PictureForm } from '../../language/protocol/preview.ts';
import { type DrawingsAnswer, type DrawingsParams, drawingsRequest } from '../../language/protocol/requests.ts';
import { type LayoutInFront, nameOf, refuse } from './layout-in-front.ts';
import { letteringIn, withLettering } from './lettering.ts';
import { asFileName, besideLayout, mayReplace, writeFile } from './write-file.ts';

/** One drawing as on paper, with its heading, its lists and its basis, written as a picture. */
export interface PictureWanted {
  readonly layout: Uri;
  /** `plan`, `wall:F`, `girder:GD`. */
  readonly of: string;
  readonly form: PictureForm;
  readonly units?: PaneUnits;
  /** Where to; without it a dialog asks. */
  readonly target?: Uri;
}

/** Draws an SVG as a PNG: a PNG, or why there is none. A pane can do that, for it is a page of a browser. */
export type Render = (layout: Uri, svg: string, dotsPerInch: number) => Promise<Uint8Array | string>;

export interface Pictures {
  /** Resolves to the file that was written. */
  write(wanted: PictureWanted): Promise<string | undefined>;
  /** Asks which drawing and which form, unless both are given. */
  ask(inFront: LayoutInFront, given?: PictureArguments): Promise<string | undefined>;
}

/** For keybindings and scripts: what is given is not asked. */
export interface PictureArguments {
  readonly uri?: string;
  readonly of?: string;
  readonly form?: PictureForm;
  readonly target?: string;
}

const title = 'Write Picture of a Drawing';
const forms: readonly (QuickPickItem & { readonly form: PictureForm })[] = [
  { form: 'svg', label: 'SVG', detail: 'Sharp at any size. Ends in .svg' },
  { form: 'png-150', label: 'PNG, 150 dpi', detail: 'For a screen or a letter. Ends in .png' },
  { form: 'png-300', label: 'PNG, 300 dpi', detail: 'For print: at 100 % it is to scale. Ends in .png' },
];

export function createPictures(extension: Uri, client: BaseLanguageClient, render: Render): Pictures {
  async function write({ layout, of, form, units, target: given }: PictureWanted): Promise<string | undefined> {
    const params: DrawingsParams = { uri: layout.toString(), only: of, ...(units ? { units } : {}) };
    const answer = await client.sendRequest<DrawingsAnswer>(drawingsRequest, params);
    if (answer.kind === 'refused') return refuse(answer.reason);
    const [sheet] = answer.sheets;
    if (!sheet) return refuse('It is drawn no more.');
    const svg = withLettering(sheet.svg, await letteringIn(extension));
    const content = form === 'svg' ? svg : await render(layout, svg, form === 'png-300' ? 300 : 150);
    if (form !== 'svg' && typeof content === 'string') return refuse(`No picture was made. ${content}`);
    const ending = form === 'svg' ? 'svg' : 'png';
    const target = given ?? (await askWhere(layout, `${asFileName(sheet.name)}.${ending}`, ending));
    if (!target || (given && !(await mayReplace([given], title)))) return undefined;
    if (!(await writeFile(target, content))) return undefined;
    void window.showInformationMessage(`${nameOf(target)} written.`);
    return target.toString();
  }

  return {
    write,
    async ask(inFront, given = {}) {
      const layout = given.uri === undefined ? inFront() : Uri.parse(given.uri);
      if (!layout) return refuse('Open a .sill file first: the picture is of the layout in front.');
      const of = given.of ?? (await askWhich(client, layout));
      if (of === undefined) return undefined;
      const form = given.form ?? (await window.showQuickPick(forms, { title, placeHolder: 'Which form?' }))?.form;
      if (form === undefined) return undefined;
      return write({ layout, of, form, ...(given.target === undefined ? {} : { target: Uri.file(given.target) }) });
    },
  };
}

async function askWhich(client: BaseLanguageClient, layout: Uri): Promise<string | undefined> {
  const params: DrawingsParams = { uri: layout.toString() };
  const answer = await client.sendRequest<DrawingsAnswer>(drawingsRequest, params);
  if (answer.kind === 'refused') return refuse(answer.reason);
  // `wall-F` is the drawing of `wall:F`.
  const drawings = answer.sheets.map(({ name }) => ({ label: name.replace('-', ' '), of: name.replace('-', ':') }));
  return (await window.showQuickPick(drawings, { title, placeHolder: 'Which drawing?' }))?.of;
}

function askWhere(layout: Uri, name: string, ending: string): Thenable<Uri | undefined> {
  return window.showSaveDialog({
    title,
    saveLabel: 'Write',
    defaultUri: besideLayout(layout, name),
    filters: { [ending.toUpperCase()]: [ending] },
  });
}
