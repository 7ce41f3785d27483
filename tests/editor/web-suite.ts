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
  ['a name leads to another open file, and is renamed in both', namesAcrossFiles],
  ['names are coloured, highlighted and found by a part of them', namesInFile],
  ['blocks fold, and a selection grows', blocksFold],
  ['counts stand over the walls, and hints between the words once they are wanted', countsAndHints],
  ['the path of a used file is a link', usedFileIsLinked],
  ['a wall is laid out when that is picked', wallIsLaidOut],
  ['the findings under two rule sets stand side by side', ruleSetsSideBySide],
  ['all layouts of the workspace are checked', workspaceIsChecked],
  ['a layout starts from a template', layoutFromTemplate],
  ['after a restart everything is found again', restartFindsAgain],
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

function ask<Answer>(command: string, ...args: readonly unknown[]): Promise<Answer> {
  return Promise.resolve(vscode.commands.executeCommand<Answer>(`vscode.${command}`, ...args));
}

function placeOf(document: vscode.TextDocument, pattern: RegExp, behind: string): vscode.Position {
  const at = document.getText().search(pattern);
  check(at >= 0, `nothing like ${String(pattern)}`);
  return document.positionAt(at + behind.length);
}

async function namesAcrossFiles(): Promise<void> {
  const survey = await open('maple-surveyed.sill');
  const design = await open('maple-designed.sill');
  const at = placeOf(design, /^work on F\b/m, 'work on ');
  const [place] = await until('the declaration', async () => {
    const found = await ask<vscode.Location[]>('executeDefinitionProvider', design.uri, at);
    return found.length > 0 && found;
  });
  check(place?.uri.toString() === survey.uri.toString(), `it leads to ${String(place?.uri)}`);
  const edit = await ask<vscode.WorkspaceEdit>('executeDocumentRenameProvider', design.uri, at, 'Street');
  const files = edit.entries().map(([uri]) => uri.path.split('/').pop());
  check(files.includes('maple-surveyed.sill') && files.includes('maple-designed.sill'), files.join(', '));
}

async function namesInFile(): Promise<void> {
  const document = await open('first-wall.sill');
  const at = placeOf(document, /^wall A\b/m, 'wall ');
  const highlights = await ask<vscode.DocumentHighlight[]>('executeDocumentHighlights', document.uri, at);
  check(highlights.length >= 2, `${highlights.length} highlights`);
  const tokens = await ask<vscode.SemanticTokens>('provideDocumentSemanticTokens', document.uri);
  check(tokens.data.length > 50, `${tokens.data.length} numbers of colouring`);
  const symbols = await ask<vscode.SymbolInformation[]>('executeWorkspaceSymbolProvider', 'D-5');
  check(
    symbols.some(({ name }) => name === 'D-5'),
    symbols.map(({ name }) => name).join(', '),
  );
}

async function blocksFold(): Promise<void> {
  const document = await open('first-wall.sill');
  const folds = await ask<vscode.FoldingRange[]>('executeFoldingRangeProvider', document.uri);
  const heading = placeOf(document, /^wall B\b/m, '').line;
  check(
    folds.some(({ start }) => start === heading),
    `${folds.length} folds, none at wall B`,
  );
  const at = placeOf(document, /^wall B\b/m, 'wall ');
  const [inner] = await ask<vscode.SelectionRange[]>('executeSelectionRangeProvider', document.uri, [at]);
  check(document.getText(inner?.range) === 'B', document.getText(inner?.range));
  check(inner?.parent?.range.contains(inner.range) === true, 'it must grow');
}

async function countsAndHints(): Promise<void> {
  const document = await open('first-wall.sill');
  const lenses = await ask<vscode.CodeLens[]>('executeCodeLensProvider', document.uri, 20);
  check(
    lenses.some(({ command }) => /^4 anchors · 1 board · 0 errors$/.test(command?.title ?? '')),
    'counts',
  );
  await vscode.workspace.getConfiguration('sillwright').update('showHints', true, vscode.ConfigurationTarget.Global);
  const whole = new vscode.Range(0, 0, document.lineCount, 0);
  await until('the hints', async () => {
    const hints = await ask<vscode.InlayHint[]>('executeInlayHintProvider', document.uri, whole);
    return hints.some(({ label }) => String(label).startsWith('→'));
  });
}

async function usedFileIsLinked(): Promise<void> {
  const document = await open('maple-designed.sill');
  const [link] = await ask<vscode.DocumentLink[]>('executeLinkProvider', document.uri);
  check(link?.target?.path.endsWith('/maple-surveyed.sill') === true, String(link?.target));
}

async function wallIsLaidOut(): Promise<void> {
  const whole = await open('first-wall.sill');
  const content = whole.getText().replace(/^ *anchor +A-.*\n/gm, '');
  const document = await vscode.workspace.openTextDocument({ language: 'sillwright', content });
  const at = placeOf(document, /^work on A\b/m, 'work on ');
  // Each is worked out, as if it were picked.
  const kind = 'refactor.rewrite';
  const layOut = await until('the offer', async () => {
    const offers = await ask<vscode.CodeAction[]>(
      'executeCodeActionProvider',
      document.uri,
      new vscode.Range(at, at),
      kind,
      9,
    );
    return offers.find(({ title }) => title === 'Lay out wall A');
  });
  const edits = layOut.edit?.entries().flatMap(([, each]) => each) ?? [];
  check(
    edits
      .map(({ newText }) => newText)
      .join('')
      .includes('anchor'),
    JSON.stringify(edits),
  );
}

async function ruleSetsSideBySide(): Promise<void> {
  const document = await open('first-wall.sill');
  await vscode.commands.executeCommand('sillwright.compareRuleSets', {
    uri: document.uri.toString(),
    choices: [['existing-building'], ['bay-area']],
  });
  const text = vscode.window.activeTextEditor?.document.getText() ?? '';
  check(/^They differ \([1-9]/m.test(text), text.slice(0, 300));
}

async function workspaceIsChecked(): Promise<void> {
  await open('first-wall.sill');
  const running = vscode.commands.executeCommand('sillwright.checkWorkspace');
  let ended = false;
  void running.then(() => {
    ended = true;
  });
  // The list stays open until something is chosen or it is closed.
  await until('the list to close', async () => {
    await vscode.commands.executeCommand('workbench.action.closeQuickOpen');
    return ended;
  });
}

async function layoutFromTemplate(): Promise<void> {
  await vscode.commands.executeCommand('sillwright.newLayout', 'example');
  const document = vscode.window.activeTextEditor?.document;
  check(document?.isUntitled === true && document.getText().includes('layout "First house"'), 'the example');
}

async function restartFindsAgain(): Promise<void> {
  const document = await open('missing-anchor.sill');
  const before = await until('what is found before', () => vscode.languages.getDiagnostics(document.uri).length);
  await vscode.commands.executeCommand('sillwright.restartServer');
  await until('the same findings', () => vscode.languages.getDiagnostics(document.uri).length === before);
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
