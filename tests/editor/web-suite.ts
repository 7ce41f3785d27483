// Runs inside the web extension host. It can use the editor's API and nothing of Node.
import * as vscode from 'vscode';

const cases: readonly (readonly [name: string, run: () => Promise<void>])[] = [
  ['a whole layout has no error', wholeLayoutIsClean],
  ['a missing anchor is an error with its rule, and the mend takes it away', missingAnchorIsMended],
  ['a hover tells what stands there', hoverTells],
  ['the outline has the walls', outlineHasWalls],
  ['what may follow is proposed', completionProposes],
  ['a name is found wherever it is said', referencesAreFound],
  ['an untidy line is formatted', formatting],
  ['the pane opens', paneOpens],
  ['the schedule of a virtual folder is refused with a reason, not with a crash', scheduleIsRefused],
];

export async function run(): Promise<void> {
  let failed = 0;
  for (const [name, work] of cases) {
    try {
      await work();
      console.log(`[web-case] ok ${name}`);
    } catch (error) {
      failed += 1;
      console.log(`[web-case] FAILED ${name}: ${error instanceof Error ? error.message : String(error)}`);
    }
  }
  console.log('[web-case] end');
  if (failed > 0) throw new Error(`${failed} cases failed`);
}

async function open(name: string): Promise<vscode.TextDocument> {
  const [folder] = vscode.workspace.workspaceFolders ?? [];
  if (!folder) throw new Error('there is no folder');
  const document = await vscode.workspace.openTextDocument(vscode.Uri.joinPath(folder.uri, name));
  await vscode.window.showTextDocument(document);
  return document;
}

async function until<T>(what: string, look: () => T | undefined | false | Promise<T | undefined | false>): Promise<T> {
  const end = Date.now() + 20_000;
  for (;;) {
    const found = await look();
    if (found !== undefined && found !== false) return found;
    if (Date.now() > end) throw new Error(`waited in vain for ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}

function errorsOf(document: vscode.TextDocument): vscode.Diagnostic[] {
  return vscode.languages
    .getDiagnostics(document.uri)
    .filter(({ severity }) => severity === vscode.DiagnosticSeverity.Error);
}

function check(condition: boolean, what: string): void {
  if (!condition) throw new Error(what);
}

async function wholeLayoutIsClean(): Promise<void> {
  const document = await open('first-wall.sill');
  check(document.languageId === 'sillwright', `the language is ${document.languageId}`);
  await symbolsOf(document);
  check(
    errorsOf(document).length === 0,
    `${errorsOf(document)
      .map(({ message }) => message)
      .join('; ')}`,
  );
}

async function missingAnchorIsMended(): Promise<void> {
  const document = await open('missing-anchor.sill');
  const error = await until('the error', () => errorsOf(document)[0]);
  const code = typeof error.code === 'object' ? error.code.value : error.code;
  check(String(code).startsWith('anchorage/'), `the rule is ${String(code)}`);
  const mend = await until('the mend', async () => {
    const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
      'vscode.executeCodeActionProvider',
      document.uri,
      error.range,
    );
    return actions.find(({ edit }) => edit !== undefined);
  });
  if (mend.edit) await vscode.workspace.applyEdit(mend.edit);
  await until('no error', () => errorsOf(document).length === 0);
}

async function hoverTells(): Promise<void> {
  const document = await open('first-wall.sill');
  const at = document.positionAt(document.getText().indexOf('A-3') + 1);
  const text = await until('a hover', async () => {
    const hovers = await vscode.commands.executeCommand<vscode.Hover[]>(
      'vscode.executeHoverProvider',
      document.uri,
      at,
    );
    const contents = hovers
      .flatMap(({ contents: parts }) => parts)
      .map((part) => (typeof part === 'string' ? part : part.value));
    return contents.length > 0 && contents.join('\n');
  });
  check(text.includes('A\\-3') || text.includes('A-3'), text.slice(0, 200));
}

async function symbolsOf(document: vscode.TextDocument): Promise<readonly vscode.DocumentSymbol[]> {
  return until('the outline', async () => {
    const symbols = await vscode.commands.executeCommand<vscode.DocumentSymbol[] | undefined>(
      'vscode.executeDocumentSymbolProvider',
      document.uri,
    );
    return symbols && symbols.length > 0 && symbols;
  });
}

async function outlineHasWalls(): Promise<void> {
  const symbols = await symbolsOf(await open('first-wall.sill'));
  check(
    symbols.some(({ name }) => name === 'wall A'),
    symbols.map(({ name }) => name).join(', '),
  );
}

async function completionProposes(): Promise<void> {
  const document = await open('first-wall.sill');
  const line = document
    .getText()
    .split('\n')
    .findIndex((text) => /^\s*anchor\s+A-3/.test(text));
  const at = new vscode.Position(line, document.lineAt(line).text.search(/\S/) + 3);
  const list = await vscode.commands.executeCommand<vscode.CompletionList>(
    'vscode.executeCompletionItemProvider',
    document.uri,
    at,
  );
  check(
    list.items.some(({ label }) => label === 'anchor'),
    `${list.items.length} proposals without \`anchor\``,
  );
}

async function referencesAreFound(): Promise<void> {
  const document = await open('first-wall.sill');
  const at = document.positionAt(document.getText().search(/^wall\s+A/m) + 'wall '.length);
  const places = await vscode.commands.executeCommand<vscode.Location[]>(
    'vscode.executeReferenceProvider',
    document.uri,
    at,
  );
  check(places.length >= 2, `${places.length} places`);
}

async function formatting(): Promise<void> {
  const document = await vscode.workspace.openTextDocument({
    language: 'sillwright',
    content: `WALL   A    length   10'\n`,
  });
  const edits = await until('edits', async () => {
    const found = await vscode.commands.executeCommand<vscode.TextEdit[] | undefined>(
      'vscode.executeFormatDocumentProvider',
      document.uri,
      { tabSize: 2, insertSpaces: true },
    );
    return found && found.length > 0 && found;
  });
  const edit = new vscode.WorkspaceEdit();
  edit.set(document.uri, edits);
  await vscode.workspace.applyEdit(edit);
  check(document.getText() === `wall A length 10'\n`, JSON.stringify(document.getText()));
}

async function paneOpens(): Promise<void> {
  await open('first-wall.sill');
  await vscode.commands.executeCommand('sillwright.showLayout');
  await until('the pane', () =>
    vscode.window.tabGroups.all
      .flatMap(({ tabs }) => tabs)
      .some(({ input }) => input instanceof vscode.TabInputWebview && input.viewType.includes('sillwright.layout')),
  );
}

async function scheduleIsRefused(): Promise<void> {
  const document = await open('first-wall.sill');
  const written = await vscode.commands.executeCommand<string | undefined>('sillwright.writeSchedule', {
    uri: document.uri.toString(),
    format: 'csv',
    target: vscode.Uri.joinPath(document.uri, '../schedule.csv').toString(),
  });
  check(written === undefined, `written to ${String(written)}`);
}
