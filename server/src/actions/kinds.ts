import { CodeActionKind } from 'vscode-languageserver';

/** Everything that rewrites a part of the design by placing it, and changes that nothing is wrong without. */
export const rewriteKind = CodeActionKind.RefactorRewrite;

/** On saving, or by name: `source.fixAll.sillwright`, or with a rule behind it, `source.fixAll.sillwright.anchorage/old-anchor-overcounted`. */
export const fixAllKind = `${CodeActionKind.SourceFixAll}.sillwright`;
