import { Uri, window } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  type ScheduleAnswer,
  type ScheduleFormat,
  type ScheduleParams,
  scheduleFormats,
  scheduleRequest,
} from '../../language/protocol/requests.ts';
import { type LayoutInFront, nameOf, refuse } from './layout-in-front.ts';
import { besideLayout, isOnDisk, mayReplace, writeFile } from './write-file.ts';

/** For keybindings and scripts: what is given is not asked. */
export interface ScheduleArguments {
  readonly format?: ScheduleFormat;
  /** `panels`, `stock`, … or `all`; without it all of them, in CSV the connectors. */
  readonly of?: readonly string[];
  /** A path or a URI. A file that is there is replaced only after a question. */
  readonly target?: string;
  /** The layout; else the one in front. */
  readonly uri?: string;
}

const title = 'Write Connector Schedule';

interface FormatChoice {
  readonly format: ScheduleFormat;
  readonly label: string;
  readonly detail: string;
  readonly ending: string;
  readonly of?: readonly string[];
}
const choices: readonly FormatChoice[] = [
  { format: 'text', label: 'Text table', detail: 'To read, print or send. Ends in .txt', ending: 'txt' },
  { format: 'csv', label: 'CSV', detail: 'The connectors, to open in a spreadsheet. Ends in .csv', ending: 'csv' },
  { format: 'json', label: 'JSON', detail: 'For another program. Ends in .json', ending: 'json' },
  {
    format: 'csv',
    label: 'CSV of every schedule',
    detail: 'Connectors, panels, ties, posts and the rest, one below another. Ends in .csv',
    ending: 'csv',
    of: ['all'],
  },
];

/** Writes the schedules of the text as it stands, saved or not. Resolves to the file that was written. */
export async function writeSchedule(
  client: BaseLanguageClient,
  layoutInFront: LayoutInFront,
  given: ScheduleArguments | Uri | undefined,
): Promise<string | undefined> {
  const wanted = given instanceof Uri ? { uri: given.toString() } : (given ?? {});
  const layout = wanted.uri === undefined ? layoutInFront() : Uri.parse(wanted.uri);
  if (!layout) return refuse('Open a .sill file first: the schedule is that of the layout in front.');
  if (!isOnDisk(layout) && wanted.target === undefined && layout.scheme !== 'untitled') {
    return refuse(`A schedule can be written only to a folder on disk, and ${nameOf(layout)} lies in a virtual one.`);
  }

  const choice = await chooseFormat(wanted.format);
  if (!choice) return undefined;
  const of = wanted.of ?? choice.of;
  const params: ScheduleParams = { uri: layout.toString(), format: choice.format, ...(of ? { of } : {}) };
  const answer = await client.sendRequest<ScheduleAnswer>(scheduleRequest, params);
  if (answer.kind === 'refused') return refuse(answer.reason);

  const target = await chooseTarget(layout, choice, wanted.target);
  if (!target) return undefined;
  return save(target, answer.text);
}

async function chooseFormat(format: ScheduleFormat | undefined): Promise<FormatChoice | undefined> {
  if (format === undefined) {
    return window.showQuickPick(choices, { title, placeHolder: 'Which form?' });
  }
  const choice = choices.find((each) => each.format === format);
  return choice ?? refuse(`There is no schedule format ${format}: it is one of ${scheduleFormats.join(', ')}.`);
}

async function chooseTarget(layout: Uri, choice: FormatChoice, given: string | undefined): Promise<Uri | undefined> {
  if (given !== undefined) {
    const target = /^[a-z][a-z0-9+.-]+:/i.test(given) ? Uri.parse(given) : Uri.file(given);
    return (await mayReplace([target], title)) ? target : undefined;
  }
  // The dialog itself asks before it replaces a file.
  return window.showSaveDialog({
    title,
    saveLabel: 'Write',
    defaultUri: besideLayout(layout, `connectors.${choice.ending}`),
    filters: { [choice.label]: [choice.ending] },
  });
}

async function save(target: Uri, text: string): Promise<string | undefined> {
  if (!isOnDisk(target)) return refuse(`${nameOf(target)} lies in a virtual folder: choose a folder on disk.`);
  if (!(await writeFile(target, text))) return undefined;
  await window.showTextDocument(target, { preview: false });
  return target.toString();
}
