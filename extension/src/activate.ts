import { commands, type ExtensionContext, type Uri, workspace } from 'vscode';
import { createClient } from './client.ts';
import { createLayoutPanes } from './layout-panes.ts';
import { type ScheduleArguments, writeSchedule } from './write-schedule.ts';

let stop: (() => Promise<void>) | undefined;

export async function activate(context: ExtensionContext): Promise<void> {
  const client = createClient(context.extensionUri);
  const panes = createLayoutPanes(context.extensionUri, client);
  context.subscriptions.push(
    panes,
    commands.registerCommand('sillwright.showLayout', (uri?: Uri) => panes.show(uri)),
    commands.registerCommand('sillwright.writeSchedule', (given?: ScheduleArguments | Uri) =>
      writeSchedule(client, panes.inFront, given),
    ),
    commands.registerCommand('sillwright.restartServer', () => client.restart()),
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
