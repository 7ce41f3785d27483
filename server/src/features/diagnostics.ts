import { type Diagnostic, DiagnosticSeverity } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.ts';
import type { Block, FileId } from '../../../language/domain/model/source.ts';
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
        const lists = [...saidBy.values()].flatMap((said) => [said.get(file) ?? []]).filter((list) => list.length > 0);
        const all = lists.length > 1 ? withoutRepeats(lists.flat()) : [...(lists[0] ?? [])];
        const about = version === undefined ? { uri: file } : { uri: file, version };
        void context.connection.sendDiagnostics({ ...about, diagnostics: all });
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
          for (const file of new Set([...(before?.keys() ?? []), ...said.keys()])) {
            if (file === root || context.documents.get(file) || !same(before?.get(file), said.get(file)))
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
  const placeOf = placesOfBlocks(context, analysis);
  for (const finding of analysis.findings) {
    const place = placeOf(finding.span.block);
    const diagnostic = place && keptDiagnostic(context, analysis, finding, place, placeOf);
    if (!diagnostic) continue;
    const list = byFile.get(place.uri);
    if (list) list.push(diagnostic);
    else byFile.set(place.uri, [diagnostic]);
  }
  return byFile;
}

interface PlaceOfBlock {
  readonly uri: FileId;
  /** The line that it begins on; it begins at the left edge. */
  readonly line: number;
}
type PlaceOf = (block: Block) => PlaceOfBlock | undefined;

/** Where each block stands now. Positions within a block stay while the block does. */
function placesOfBlocks(context: ServerContext, analysis: Analysis): PlaceOf {
  const places = new Map<Block, PlaceOfBlock | undefined>();
  return (block) => {
    if (places.has(block)) return places.get(block);
    const start = analysis.locate({ block, start: 0, end: 0 });
    const place = start && {
      uri: start.file,
      line: context.documentOf(analysis, start.file).positionAt(start.start).line,
    };
    places.set(block, place);
    return place;
  };
}

interface KeptDiagnostic {
  readonly own: PlaceOfBlock;
  readonly related: readonly (PlaceOfBlock | undefined)[];
  readonly diagnostic: Diagnostic;
}
const kept = new WeakMap<Finding, KeptDiagnostic>();

/** What was said of a finding before, where it and all that belongs to it stand on the lines where they stood. */
function keptDiagnostic(
  context: ServerContext,
  analysis: Analysis,
  finding: Finding,
  own: PlaceOfBlock,
  placeOf: PlaceOf,
): Diagnostic | undefined {
  const before = kept.get(finding);
  const stayed =
    before &&
    isSamePlace(before.own, own) &&
    finding.related.every(({ span }, index) => isSamePlace(before.related[index], placeOf(span.block)));
  if (stayed) return before.diagnostic;
  const diagnostic = toDiagnostic(context, analysis, finding);
  const related = finding.related.map(({ span }) => placeOf(span.block));
  if (diagnostic) kept.set(finding, { own, related, diagnostic });
  return diagnostic;
}

function isSamePlace(a: PlaceOfBlock | undefined, b: PlaceOfBlock | undefined): boolean {
  return a?.line === b?.line && a?.uri === b?.uri;
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

export function toDiagnostic(context: ServerContext, analysis: Analysis, finding: Finding): Diagnostic | undefined {
  const range = context.locationOf(analysis, finding.span)?.range;
  if (!range) return undefined;
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
  return [...new Map(list.map((one) => [inWords(one), one])).values()];
}

const words = new WeakMap<Diagnostic, string>();

function inWords(diagnostic: Diagnostic): string {
  const known = words.get(diagnostic);
  if (known !== undefined) return known;
  const text = JSON.stringify([diagnostic.code, diagnostic.range, diagnostic.message]);
  words.set(diagnostic, text);
  return text;
}

function same(before: readonly Diagnostic[] = [], after: readonly Diagnostic[] = []): boolean {
  return before.length === after.length && JSON.stringify(before) === JSON.stringify(after);
}
