import { type Diagnostic, DiagnosticSeverity } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.ts';
import type { Block, FileId } from '../../../language/domain/model/source.ts';
import type { Finding, Severity } from '../../../language/domain/rules/finding.ts';
import { rules } from '../../../language/domain/rules/registry.ts';
import type { Feature, ServerContext } from '../context.ts';

/**
 * Publishes findings with the version of the text that they are about. A finding in a used file is published on that
 * file, and each house owns what it said there: closing one takes back its own findings and no other's.
 */
export const diagnostics: Feature = {
  capabilities: {},
  register(context) {
    const saidBy = new Map<FileId, Said>();

    function publish(files: Iterable<FileId>): void {
      for (const file of new Set(files)) {
        const version = context.documents.get(file)?.version;
        const lists = [...saidBy.values()]
          .flatMap(({ byFile }) => [byFile.get(file) ?? []])
          .filter((list) => list.length > 0);
        const all = lists.length > 1 ? withoutRepeats(lists.flat()) : (lists[0] ?? []);
        const about = version === undefined ? { uri: file } : { uri: file, version };
        void context.connection.sendDiagnostics({ ...about, diagnostics: worstOf(all) });
      }
    }

    return {
      analysed(roots) {
        const touched: FileId[] = [];
        for (const root of roots) {
          if (!context.documents.get(root)) continue;
          const before = saidBy.get(root);
          const said = diagnosticsOf(context, root, before);
          saidBy.set(root, said);
          for (const file of new Set([...(before?.byFile.keys() ?? []), ...said.byFile.keys()])) {
            if (file === root || context.documents.get(file) || !same(before?.byFile.get(file), said.byFile.get(file)))
              touched.push(file);
          }
        }
        publish(touched);
      },
      closed(root) {
        const said = saidBy.get(root);
        saidBy.delete(root);
        publish([root, ...(said?.byFile.keys() ?? [])]);
      },
    };
  },
};

/** As many as the problem list of an editor shows of one file. */
const MOST_IN_A_FILE = 1_000;

/** Past the most that are shown, the worst, in their order, and a word about the rest. */
function worstOf(all: readonly Diagnostic[]): Diagnostic[] {
  if (all.length <= MOST_IN_A_FILE) return [...all];
  const room = new Map<DiagnosticSeverity, number>();
  let left = MOST_IN_A_FILE;
  for (const severity of worstFirst) {
    const count = Math.min(
      left,
      all.reduce((sum, each) => sum + Number(each.severity === severity), 0),
    );
    room.set(severity, count);
    left -= count;
  }
  const listed = all.filter(({ severity = DiagnosticSeverity.Hint }) => {
    const more = room.get(severity) ?? 0;
    room.set(severity, more - 1);
    return more > 0;
  });
  return [...listed, notListed(all.length - listed.length)];
}
const worstFirst = [
  DiagnosticSeverity.Error,
  DiagnosticSeverity.Warning,
  DiagnosticSeverity.Information,
  DiagnosticSeverity.Hint,
] as const;

const notListed = (count: number): Diagnostic => ({
  range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
  severity: DiagnosticSeverity.Information,
  source: 'sillwright',
  code: 'internal/more-findings',
  message: `${count} more findings are not listed here, none of them worse than those that are. \`sillwright check\` lists all.`,
});

/** What was said of one house, with what is needed to say again what stayed. */
interface Said {
  readonly byFile: ReadonlyMap<FileId, readonly Diagnostic[]>;
  readonly findings: readonly Finding[];
  /** Of each finding; `undefined` where it has no place in a file. */
  readonly diagnostics: readonly (Diagnostic | undefined)[];
  /** Of every block that a finding leads to. */
  readonly places: Map<Block, PlaceOfBlock>;
}

interface PlaceOfBlock {
  readonly uri: FileId;
  /** The line that it begins on; it begins at the left edge, and positions within it stay while the block does. */
  readonly line: number;
}

function diagnosticsOf(context: ServerContext, root: FileId, before: Said | undefined): Said {
  const analysis = context.analyses.of(root);
  if (!analysis) {
    return { byFile: new Map([[root, [couldNotCheck]]]), findings: [], diagnostics: [], places: new Map() };
  }
  const { findings } = analysis;
  const byFile = new Map<FileId, Diagnostic[]>([[root, []]]);
  const diagnostics: (Diagnostic | undefined)[] = [];
  const sights = sightsOf(context, analysis, before?.places);
  const indexBefore = indexesIn(before?.findings ?? [], findings.length);
  let list: Diagnostic[] | undefined;
  let listed: FileId | undefined;
  for (const [index, finding] of findings.entries()) {
    const place = sights.placeOf(finding.span.block);
    const at = place && before && sights.stayed(finding) ? indexBefore(finding, index) : undefined;
    const known = at === undefined ? undefined : before?.diagnostics[at];
    const diagnostic = known ?? (place && toDiagnostic(context, analysis, finding));
    diagnostics.push(diagnostic);
    if (!diagnostic || !place) continue;
    if (!list || listed !== place.uri) {
      list = byFile.get(place.uri) ?? [];
      listed = place.uri;
      byFile.set(listed, list);
    }
    list.push(diagnostic);
  }
  return { byFile, findings, diagnostics, places: sights.places };
}

interface Sights {
  readonly places: Map<Block, PlaceOfBlock>;
  placeOf(block: Block): PlaceOfBlock | undefined;
  /** Whether a finding and all that belongs to it stand on the lines where they stood. */
  stayed(finding: Finding): boolean;
}

/** Where blocks stand now, and which of them stood on the same line when they were last looked at. */
function sightsOf(
  context: ServerContext,
  analysis: Analysis,
  before: ReadonlyMap<Block, PlaceOfBlock> = new Map(),
): Sights {
  const places = new Map<Block, PlaceOfBlock>();
  const moved = new Set<Block>();
  const look = (block: Block): PlaceOfBlock | undefined => {
    const start = analysis.locate({ block, start: 0, end: 0 });
    if (!start) return undefined;
    const place = {
      uri: start.file,
      line: context.documentOf(analysis, start.file).positionAt(start.start).line,
    };
    places.set(block, place);
    return place;
  };
  for (const [block, { uri, line }] of before) {
    const now = look(block);
    if (now?.uri !== uri || now.line !== line) moved.add(block);
  }
  const stands = (block: Block): boolean => !moved.has(block);
  return {
    places,
    placeOf: (block) => places.get(block) ?? look(block),
    stayed: ({ span, related }) =>
      moved.size === 0 || (stands(span.block) && related.every((each) => stands(each.span.block))),
  };
}

/** Finds findings in an earlier list. Mostly a few in the middle have changed. */
function indexesIn(before: readonly Finding[], count: number): (finding: Finding, index: number) => number | undefined {
  let all: ReadonlyMap<Finding, number> | undefined;
  return (finding, index) => {
    if (before[index] === finding) return index;
    const fromEnd = before.length - count + index;
    if (before[fromEnd] === finding) return fromEnd;
    all ??= new Map(before.map((each, at) => [each, at]));
    return all.get(finding);
  };
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
    ...dataOf(finding),
  };
}

/** For other tools: the thing that is meant, and where it stands in nanometres from station 0. The rule is the code. */
function dataOf({ thing, station }: Finding): Pick<Diagnostic, 'data'> {
  return thing === undefined && station === undefined ? {} : { data: { thing, station } };
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
