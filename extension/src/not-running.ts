import { CodeLens, Diagnostic, DiagnosticSeverity, type Disposable, languages, Range, window, workspace } from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import { restart } from './server-ended.ts';

/** Whether nothing checks the text now, and nothing is about to. */
export function isOff({ state }: BaseLanguageClient): boolean {
  return state === State.Stopped || state === State.StartFailed;
}

/** The editor takes away all findings of a server that has ended: each open layout says so, for silence would read as "nothing found". */
export function markUnchecked(client: BaseLanguageClient): Disposable {
  const marks = languages.createDiagnosticCollection('sillwright not running');
  let withoutCounts: Disposable | undefined;
  const mark = (): void => {
    marks.clear();
    withoutCounts?.dispose();
    withoutCounts = undefined;
    if (!isOff(client)) return;
    // In place of the last counts over the walls, which the editor would keep.
    withoutCounts = languages.registerCodeLensProvider(
      { language: 'sillwright' },
      { provideCodeLenses: () => [again] },
    );
    for (const { languageId, uri } of workspace.textDocuments) {
      if (languageId === 'sillwright') marks.set(uri, [notChecked()]);
    }
  };
  const hearing = [client.onDidChangeState(mark), workspace.onDidOpenTextDocument(mark)];
  return {
    dispose() {
      for (const each of [...hearing, marks]) each.dispose();
      withoutCounts?.dispose();
    },
  };
}

const again = new CodeLens(new Range(0, 0, 0, 0), {
  title: 'Not checked: the Sillwright server is not running. Start it again',
  command: 'sillwright.restartServer',
});

function notChecked(): Diagnostic {
  const message =
    'This text is not checked: the Sillwright server is not running. Run "Sillwright: Restart Language Server".';
  const diagnostic = new Diagnostic(new Range(0, 0, 0, 0), message, DiagnosticSeverity.Error);
  diagnostic.source = 'sillwright';
  diagnostic.code = 'internal/not-running';
  return diagnostic;
}

/** A command that asks the server: where there is none it says so and offers to start it again, and does nothing else. */
export function asking<Args extends readonly unknown[], Result>(
  client: BaseLanguageClient,
  run: (...args: Args) => Promise<Result>,
): (...args: Args) => Promise<Result | undefined> {
  return async (...args) => {
    if (!isOff(client)) return run(...args);
    const again = 'Start It Again';
    const chosen = await window.showErrorMessage('The Sillwright server is not running, so nothing was done.', again);
    if (chosen === again) await restart(client);
    return undefined;
  };
}
