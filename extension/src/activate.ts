import { commands, type ExtensionContext, Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { checkWorkspace } from './check-workspace.ts';
import { createRuleSetComparisons } from './compare-rule-sets.ts';
import { layoutInFront } from './layout-in-front.ts';
import { createLayoutPanes } from './layout-panes.ts';
import { createLayoutStatus } from './layout-status.ts';
import { newLayout } from './new-layout.ts';
import { asking, markUnchecked } from './not-running.ts';
import { createPaneMemory } from './pane-memory.ts';
import { restart } from './server-ended.ts';
import { type DrawingsArguments, writeDrawings } from './write-drawings.ts';
import type { PictureArguments } from './write-picture.ts';
import { type ScheduleArguments, writeSchedule } from './write-schedule.ts';

let stop: (() => Promise<void>) | undefined;

/** Everything but the way in which the server runs: a process on a desktop, a worker in a browser. */
export async function activateWith(context: ExtensionContext, client: BaseLanguageClient): Promise<void> {
  const panes = createLayoutPanes(context.extensionUri, client, createPaneMemory(context.workspaceState));
  const inFront = layoutInFront(panes.inFront);
  const comparisons = createRuleSetComparisons(client, inFront);
  context.subscriptions.push(
    panes,
    comparisons,
    createLayoutStatus(client),
    markUnchecked(client),
    commands.registerCommand('sillwright.newLayout', newLayout),
    commands.registerCommand('sillwright.showLayout', (uri?: Uri | string) =>
      panes.show(typeof uri === 'string' ? Uri.parse(uri) : uri),
    ),
    commands.registerCommand(
      'sillwright.writeSchedule',
      asking(client, (given?: ScheduleArguments | Uri) => writeSchedule(client, inFront, given)),
    ),
    commands.registerCommand(
      'sillwright.writeDrawings',
      asking(client, (given?: DrawingsArguments) => writeDrawings(context.extensionUri, client, inFront, given)),
    ),
    commands.registerCommand(
      'sillwright.writePicture',
      asking(client, (given?: PictureArguments) => panes.pictures.ask(inFront, given)),
    ),
    commands.registerCommand(
      'sillwright.checkWorkspace',
      asking(client, () => checkWorkspace(client)),
    ),
    commands.registerCommand('sillwright.compareRuleSets', asking(client, comparisons.compare)),
    commands.registerCommand('sillwright.mendSafe', mendSafe),
    commands.registerCommand('sillwright.restartServer', () => restart(client)),
    workspace.onDidChangeConfiguration((change) => {
      if (change.affectsConfiguration('sillwright.layout')) panes.settingsChanged();
    }),
  );
  stop = () => client.stop();
  // The palette offers our commands once a layout has been opened, wherever the focus is.
  void commands.executeCommand('setContext', 'sillwright.isAwake', true);
  await client.start();
}

export function deactivate(): Promise<void> | undefined {
  return stop?.();
}

/** Everything that is mended without a question: what keeps the meaning, and nothing else. */
async function mendSafe(): Promise<void> {
  await commands.executeCommand('editor.action.codeAction', { kind: 'source.fixAll.sillwright', apply: 'first' });
}
