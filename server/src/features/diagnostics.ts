import { type Diagnostic, DiagnosticSeverity } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.ts';
import type { FileId } from '../../../language/domain/model/source.ts';
import type { Finding, Severity } from '../../../language/domain/rules/finding.ts';
import { rules } from '../../../language/domain/rules/registry.ts';
import type { Feature, ServerContext } from '../context.ts';

/** What a diagnostic carries for the code actions and for other tools. The station is in nanometres. */
export interface DiagnosticData {
  readonly rule: string;
  readonly thing: string | undefined;
  readonly station: number | undefined;
}

/**
 * Publishes findings with the version of the text that they are about. A finding in a used file is published on that
 * file, and each house owns what it said there: closing one takes back its own findings and no other's.
 */
export const diagnostics: Feature = {
  capabilities: {},
  register(context) {
    const saidBy = new Map<FileId, ReadonlyMap<FileId, readonly Diagnostic[]>>();

    function publish(files: Iterable<FileId>): void {
      for (const file of new Set(files)) {
        const version = context.documents.get(file)?.version;
        const all = [...saidBy.values()].flatMap((said) => said.get(file) ?? []);
        const about = version === undefined ? { uri: file } : { uri: file, version };
        void context.connection.sendDiagnostics({ ...about, diagnostics: withoutRepeats(all) });
      }
    }

    return {
      analysed(roots) {
        const touched: FileId[] = [];
        for (const root of roots) {
          if (!context.documents.get(root)) continue;
          const before = saidBy.get(root);
          const said = diagnosticsOf(context, root);
          saidBy.set(root, said);
          for (const file of [...(before?.keys() ?? []), ...said.keys()]) {
            if (file === root || !same(before?.get(file), said.get(file)) || context.documents.get(file))
              touched.push(file);
          }
        }
        publish(touched);
      },
      closed(root) {
        const said = saidBy.get(root);
        saidBy.delete(root);
        publish([root, ...(said?.keys() ?? [])]);
      },
    };
  },
};

function diagnosticsOf(context: ServerContext, root: FileId): ReadonlyMap<FileId, readonly Diagnostic[]> {
  const byFile = new Map<FileId, Diagnostic[]>([[root, []]]);
  const analysis = context.analyses.of(root);
  if (!analysis) {
    byFile.set(root, [couldNotCheck]);
    return byFile;
  }
  for (const finding of analysis.findings) {
    const location = context.locationOf(analysis, finding.span);
    if (!location) continue;
    const list = byFile.get(location.uri) ?? [];
    list.push(toDiagnostic(context, analysis, finding, location.range));
    byFile.set(location.uri, list);
  }
  return byFile;
}

/** Silence would read as "nothing found". */
const couldNotCheck: Diagnostic = {
  range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
  severity: DiagnosticSeverity.Error,
  source: 'sillwright',
  code: 'internal/not-checked',
  message:
    'This text was not checked: Sillwright failed on it, which is a defect of Sillwright. Details: Output, Sillwright.',
};

export function toDiagnostic(
  context: ServerContext,
  analysis: Analysis,
  finding: Finding,
  range: Diagnostic['range'],
): Diagnostic {
  const data: DiagnosticData = { rule: finding.rule, thing: finding.thing, station: finding.station };
  const related = finding.related.flatMap(({ span, message }) => {
    const location = context.locationOf(analysis, span);
    return location ? [{ location, message }] : [];
  });
  return {
    range,
    severity: finding.accepted === undefined ? severities[finding.severity] : DiagnosticSeverity.Information,
    source: 'sillwright',
    code: finding.rule,
    ...pageOf(context, finding),
    message: finding.accepted === undefined ? finding.message : `Accepted: ${finding.accepted}\n${finding.message}`,
    ...(related.length > 0 ? { relatedInformation: related } : {}),
    data,
  };
}

/** Where the editor brought the pages along. What is said of the text itself has no page of its own. */
function pageOf(context: ServerContext, { rule }: Finding): Pick<Diagnostic, 'codeDescription'> {
  const pages = context.rulePages();
  return pages === undefined || !ruleIds.has(rule) ? {} : { codeDescription: { href: `${pages}/${rule}.md` } };
}
const ruleIds: ReadonlySet<string> = new Set(rules.map(({ id }) => id));

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  stop: DiagnosticSeverity.Error,
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
};

/** Two houses that use one survey find the same fault in it: it is shown once. */
function withoutRepeats(list: readonly Diagnostic[]): Diagnostic[] {
  const byText = new Map(list.map((one) => [JSON.stringify([one.code, one.range, one.message]), one]));
  return [...byText.values()];
}

function same(before: readonly Diagnostic[] | undefined, after: readonly Diagnostic[] | undefined): boolean {
  return JSON.stringify(before ?? []) === JSON.stringify(after ?? []);
}
