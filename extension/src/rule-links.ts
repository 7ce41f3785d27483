import { Uri } from 'vscode';
import type { BaseLanguageClient, HandleDiagnosticsSignature, Middleware } from 'vscode-languageclient';
import type { ServerExtras } from '../../language/protocol/requests.ts';

/**
 * A finding leads to the page of its rule, and the pages are packed with the extension. They are put on here: the server sends all
 * findings of a file after every key, and the same address in each of a thousand would be a fifth of that.
 */
export function linksToRules(extension: Uri, client: () => BaseLanguageClient | undefined): Middleware {
  const links = new Map<string, Uri>();
  const linkOf = (rule: string): Uri => {
    const link = links.get(rule) ?? Uri.joinPath(extension, 'docs/rules', `${rule}.md`);
    links.set(rule, link);
    return link;
  };
  let started: object | undefined;
  let rulesWithPage: ReadonlySet<unknown> = new Set();
  return {
    handleDiagnostics(uri, diagnostics, next: HandleDiagnosticsSignature) {
      const result = client()?.initializeResult;
      if (result !== started) {
        const extras = result?.capabilities.experimental as Partial<ServerExtras> | undefined;
        rulesWithPage = new Set(extras?.rulesWithPage);
        started = result;
      }
      for (const each of diagnostics) {
        const { code } = each;
        if (typeof code === 'string' && rulesWithPage.has(code)) each.code = { value: code, target: linkOf(code) };
      }
      next(uri, diagnostics);
    },
  };
}
