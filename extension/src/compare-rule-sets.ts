import { type Disposable, EventEmitter, type QuickPickItem, QuickPickItemKind, Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  type CompareRuleSetsAnswer,
  type CompareRuleSetsParams,
  compareRuleSetsRequest,
  type OtherFile,
  type RuleSetsAnswer,
  type RuleSetsParams,
  ruleSetsRequest,
} from '../../language/protocol/requests.ts';
import { type LayoutInFront, nameOf, refuse } from './layout-in-front.ts';

export interface RuleSetComparisons extends Disposable {
  /** Asks for two or more choices of rule sets and opens the findings under each, side by side, as a text to read. */
  readonly compare: (given?: ComparisonArguments | Uri) => Promise<void>;
}

/** For keybindings and scripts: what is given is not asked. */
export interface ComparisonArguments {
  /** Two or more; each names rule sets in order, the later one overrides. */
  readonly choices?: readonly (readonly string[])[];
  /** The layout; else the one in front. */
  readonly uri?: string;
}

const scheme = 'sillwright-comparison';

interface Choice extends QuickPickItem {
  readonly ruleSets: readonly string[];
}
type Named = Extract<RuleSetsAnswer, { readonly kind: 'rule-sets' }>;

export function createRuleSetComparisons(client: BaseLanguageClient, inFront: LayoutInFront): RuleSetComparisons {
  const texts = new Map<string, string>();
  const changed = new EventEmitter<Uri>();
  const provider = workspace.registerTextDocumentContentProvider(scheme, {
    onDidChange: changed.event,
    provideTextDocumentContent: (uri) => texts.get(uri.toString()) ?? notAnyMore,
  });
  const closing = workspace.onDidCloseTextDocument(({ uri }) => void texts.delete(uri.toString()));

  async function compare(given: ComparisonArguments | Uri = {}): Promise<void> {
    const wanted: ComparisonArguments = given instanceof Uri ? { uri: given.toString() } : given;
    const layout = wanted.uri === undefined ? inFront() : Uri.parse(wanted.uri);
    if (!layout) return refuse('Open a .sill file first: the findings are those of the layout in front.');
    const about: RuleSetsParams = { uri: layout.toString(), others: await filesWithRuleSets(layout) };
    const choices = wanted.choices ?? (await askFor(about));
    if (!choices) return;
    const params: CompareRuleSetsParams = { ...about, choices };
    const answer = await client.sendRequest<CompareRuleSetsAnswer>(compareRuleSetsRequest, params);
    if (answer.kind === 'refused') return refuse(answer.reason);
    await show(layout, answer.text);
  }

  async function askFor(about: RuleSetsParams): Promise<readonly (readonly string[])[] | undefined> {
    const known = await client.sendRequest<RuleSetsAnswer>(ruleSetsRequest, about);
    if (known.kind === 'refused') return refuse(known.reason);
    return (await choose(known))?.map(({ ruleSets }) => ruleSets);
  }

  /** One text for each layout: asked again, it is replaced. */
  async function show(layout: Uri, text: string): Promise<void> {
    const name = `${nameOf(layout).replace(/\.sill$/i, '')} under rule sets.txt`;
    const uri = Uri.from({ scheme, path: `/${name}`, query: layout.toString() });
    texts.set(uri.toString(), text);
    changed.fire(uri);
    await window.showTextDocument(await workspace.openTextDocument(uri), { preview: false });
  }

  return {
    compare,
    dispose() {
      for (const each of [provider, closing, changed]) each.dispose();
    },
  };
}

/** Whatever stands at the start of a line there is a rule set; a file of prices or of a house is not sent at all. */
const beginsRuleSet = /^[ \t]*ruleset\b/m;
/** More files than these nobody keeps rule sets in; reading goes through the editor, one by one. */
const mostFiles = 500;

/** The files of the workspace that have rule sets, as they stand in the editor, else on the disk: the layout need not use them. */
async function filesWithRuleSets(layout: Uri): Promise<readonly OtherFile[]> {
  const found = await workspace.findFiles('**/*.sill', '**/node_modules/**', mostFiles);
  const inOrder = found.map((uri) => ({ uri, key: uri.toString() })).sort((a, b) => (a.key < b.key ? -1 : 1));
  const files = await Promise.all(
    inOrder.map(async ({ uri, key }): Promise<readonly OtherFile[]> => {
      const text = key === layout.toString() ? undefined : await textOf(uri);
      return text !== undefined && beginsRuleSet.test(text) ? [{ uri: key, text }] : [];
    }),
  );
  return files.flat();
}

/** `undefined` for a file that cannot be read: its rule sets are not offered. */
async function textOf(uri: Uri): Promise<string | undefined> {
  const open = workspace.textDocuments.find((each) => each.uri.toString() === uri.toString());
  if (open) return open.getText();
  try {
    return new TextDecoder().decode(await workspace.fs.readFile(uri));
  } catch {
    return undefined;
  }
}

/** A window that was reloaded brings back the tab, and nothing is kept on a disk. */
const notAnyMore = 'This comparison was not kept. Run "Compare Findings Under Several Rule Sets" again.\n';

async function choose(known: Named): Promise<readonly Choice[] | undefined> {
  const items = choicesAmong(known);
  for (;;) {
    const chosen = await window.showQuickPick(items, {
      title: 'Compare Findings Under Several Rule Sets',
      placeHolder: 'Choose two or more',
      canPickMany: true,
      ignoreFocusOut: true,
      matchOnDescription: true,
    });
    if (!chosen) return undefined;
    if (chosen.length >= 2) return chosen;
    const again = 'Choose Again';
    const message = 'Two or more are needed: the findings under each stand side by side.';
    if ((await window.showWarningMessage(message, again)) !== again) return undefined;
  }
}

/** What the layout is checked under now, each set that it could name instead, and each that could be put on top. */
function choicesAmong({ inSight, chosen }: Named): readonly Choice[] {
  const others = inSight.filter(({ name }) => !chosen.includes(name));
  const alone = inSight.filter(({ name }) => chosen.length !== 1 || name !== chosen[0]);
  const part = (label: string): Choice => ({ label, kind: QuickPickItemKind.Separator, ruleSets: [] });
  const choice = (ruleSets: readonly string[], description: string | undefined, picked = false): Choice => ({
    ruleSets,
    label: ruleSets.join(', '),
    picked,
    ...(description === undefined ? {} : { description }),
  });
  const titleOf = (name: string): string | undefined => {
    const known = inSight.find((each) => each.name === name);
    const file = known?.from === undefined ? undefined : `in ${workspace.asRelativePath(Uri.parse(known.from))}`;
    const words = [known?.title, file].filter((each) => each !== undefined);
    return words.length === 0 ? undefined : words.join(', ');
  };
  const now = chosen.map(titleOf).filter((title) => title !== undefined);
  return [
    ...(chosen.length > 0 ? [part('as the layout names them'), choice(chosen, now.join('; with '), true)] : []),
    part('one alone'),
    ...alone.map(({ name }) => choice([name], titleOf(name))),
    ...(chosen.length > 0 && others.length > 0 ? [part('one more on top; it overrides')] : []),
    ...(chosen.length > 0 ? others.map(({ name }) => choice([...chosen, name], titleOf(name))) : []),
  ];
}
