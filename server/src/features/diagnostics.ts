import { type Diagnostic, DiagnosticSeverity, type PublishDiagnosticsClientCapabilities } from 'vscode-languageserver';
import type { Analysis, BlocksInPlace } from '../../../language/analysis.ts';
import type { InRuns } from '../../../language/domain/list-in-runs.ts';
import { createRuns, placesBefore, sameAtEnds } from '../../../language/domain/list-in-runs.ts';
import type { Block, FileId } from '../../../language/domain/model/source.ts';
import { placeInList } from '../../../language/domain/place-in-list.ts';
import type { Finding, Severity } from '../../../language/domain/rules/finding.ts';
import { rules } from '../../../language/domain/rules/registry.ts';
import type { Steps } from '../../../language/domain/steps.ts';
import type { ServerExtras } from '../../../language/protocol/requests.ts';
import type { Feature, ServerContext } from '../context.ts';
import { createScheduler, timeForOnePart } from '../scheduler.ts';

/**
 * Publishes findings with the version of the text that they are about. A finding in a used file is published on that
 * file, and each house owns what it said there: closing one takes back its own findings and no other's.
 */
export const diagnostics: Feature = {
  capabilities: { experimental: { rulesWithPage: rules.map(({ id }) => id) } satisfies ServerExtras },
  register(context) {
    const saidBy = new Map<FileId, Said>();

    function publish(files: Iterable<FileId>): void {
      for (const file of new Set(files)) {
        const version = context.documents.get(file)?.version;
        const lists = [...saidBy.values()].flatMap(({ byFile }) => [byFile.get(file) ?? []]).filter(saysAnything);
        const all =
          lists.length > 1 ? [asRun(file, withoutRepeats(lists.flat().flatMap(({ list }) => list)))] : lists[0];
        const about = version === undefined ? { uri: file } : { uri: file, version };
        void context.connection.sendDiagnostics({ ...about, diagnostics: worstOf(all ?? []) });
      }
    }

    /** Houses of which there is something new to say. */
    const due = new Set<FileId>();
    const touched = new Set<FileId>();
    let telling: Steps<void> | undefined;
    const teller = createScheduler(goOn, () => telling !== undefined);

    function* tell(): Steps<void> {
      for (const root of due) {
        due.delete(root);
        if (!context.documents.get(root)) continue;
        const before = saidBy.get(root);
        const said = yield* saidInSteps(context, root, before);
        // Of one that was edited meanwhile there will be something newer to say.
        if (!said) continue;
        saidBy.set(root, said);
        for (const file of new Set([...(before?.byFile.keys() ?? []), ...said.byFile.keys()])) {
          if (file === root || context.documents.get(file) || !same(before?.byFile.get(file), said.byFile.get(file)))
            touched.add(file);
        }
      }
      if (touched.size > 0) yield;
      // An open file that was edited meanwhile comes again with its own analysis: what is known now is of an older version.
      publish([...touched].filter((file) => !context.documents.get(file) || context.analyses.isMade(file)));
      touched.clear();
    }

    /** A thousand findings are placed in parts: after a key it is mostly a dozen, which is one. */
    function goOn(): void {
      const hasTime = timeForOnePart();
      telling ??= tell();
      let isDone = true;
      context.guarded('telling the findings', undefined, () => {
        do isDone = telling?.next().done !== false;
        while (!isDone && hasTime());
      });
      if (isDone) telling = undefined;
    }

    return {
      analysed(roots) {
        for (const root of roots) due.add(root);
        goOn();
        if (telling) teller.request();
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
function worstOf(runs: readonly DiagnosticRun[]): Diagnostic[] {
  const total = sum(runs, ({ list }) => list.length);
  if (total <= MOST_IN_A_FILE) return runs.flatMap(({ list }) => list);
  const room = new Map<DiagnosticSeverity, number>();
  let left = MOST_IN_A_FILE;
  for (const severity of worstFirst) {
    const count = Math.min(
      left,
      sum(runs, ({ counts }) => counts[severity]),
    );
    room.set(severity, count);
    left -= count;
  }
  const listed = runs.flatMap(({ list, counts }) => {
    const isRoomForAll = worstFirst.every((severity) => counts[severity] <= (room.get(severity) ?? 0));
    if (isRoomForAll) {
      for (const severity of worstFirst) room.set(severity, (room.get(severity) ?? 0) - counts[severity]);
      return list;
    }
    return list.filter((each) => {
      const severity = severityOf(each);
      const more = room.get(severity) ?? 0;
      room.set(severity, more - 1);
      return more > 0;
    });
  });
  return [...listed, notListed(total - listed.length)];
}
const worstFirst = [
  DiagnosticSeverity.Error,
  DiagnosticSeverity.Warning,
  DiagnosticSeverity.Information,
  DiagnosticSeverity.Hint,
] as const;

const severityOf = ({ severity = DiagnosticSeverity.Hint }: Diagnostic): DiagnosticSeverity => severity;

function sum<Each>(list: readonly Each[], count: (each: Each) => number): number {
  return list.reduce((total, each) => total + count(each), 0);
}

const notListed = (count: number): Diagnostic => ({
  range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
  severity: DiagnosticSeverity.Information,
  source: 'sillwright',
  code: 'internal/more-findings',
  message: `${count} more findings are not listed here, none of them worse than those that are. \`sillwright check\` lists all.`,
});

/** What was said of one house, with what is needed to say again what stayed. */
interface Said {
  readonly byFile: ReadonlyMap<FileId, readonly DiagnosticRun[]>;
  readonly findings: readonly Finding[];
  /** Whether they are so many that not all lead to related places. */
  readonly areMany: boolean;
  /** Of each finding. */
  readonly placed: readonly Placed[];
  readonly inRuns: InRuns<Placed, readonly DiagnosticRun[]>;
  /** Of each file that the house uses, where its blocks stood. */
  readonly inPlace: ReadonlyMap<FileId, BlocksInPlace | undefined>;
}

interface Placed {
  readonly file: FileId;
  /** `undefined` where the finding has no place in a file. */
  readonly diagnostic: Diagnostic | undefined;
}

/** Some of the diagnostics of one file. */
interface DiagnosticRun {
  readonly file: FileId;
  readonly list: readonly Diagnostic[];
  readonly counts: Readonly<Record<DiagnosticSeverity, number>>;
}

const saysAnything = (runs: readonly DiagnosticRun[]): boolean => runs.some(({ list }) => list.length > 0);

/** `undefined` where the house is analysed anew, or closed, before it comes to its end. */
function* saidInSteps(context: ServerContext, root: FileId, before: Said | undefined): Steps<Said | undefined> {
  const analysis = context.analyses.of(root);
  const inRuns = before?.inRuns ?? createRuns(runsByFile);
  if (!analysis) {
    const byFile = new Map([[root, [asRun(root, [couldNotCheck])]]]);
    return { byFile, findings: [], areMany: false, placed: [], inRuns, inPlace: new Map() };
  }
  const { findings } = analysis;
  const inPlace = new Map(analysis.files.map((file) => [file, analysis.blocksOf(file)]));
  const moved = before && movedBlocks(before.inPlace, inPlace);
  const areMany = findings.length > MOST_WITH_PLACES;
  const isAlike = before?.areMany === areMany;
  const stoodBefore = placesBefore(before?.findings ?? [], findings);
  const placed: Placed[] = [];
  let fresh = 0;
  for (let index = 0; index < findings.length; index += 1) {
    const finding = findings[index];
    if (!finding) continue;
    const known = before?.placed[stoodBefore[index] ?? -1];
    if (known && isAlike && !(moved && leadsTo(finding, moved))) {
      placed.push(known);
      continue;
    }
    placed.push(placedFinding(context, analysis, finding, areMany));
    fresh += 1;
    if (fresh % placedAtOnce > 0) continue;
    yield;
    if (!context.analyses.isMade(root) || context.analyses.of(root) !== analysis) return undefined;
  }
  const byFile = new Map<FileId, DiagnosticRun[]>([[root, []]]);
  for (const run of inRuns(placed).flat()) {
    const runs = byFile.get(run.file);
    if (runs) runs.push(run);
    else byFile.set(run.file, [run]);
  }
  return { byFile, findings, areMany, placed, inRuns, inPlace };
}

const placedAtOnce = 32;

/**
 * Of more findings than that only errors lead to related places. Every key sends all that an editor lists, and in a list that nobody reads
 * to its end such places are a fourth of the bytes.
 */
const MOST_WITH_PLACES = 500;

function placedFinding(context: ServerContext, analysis: Analysis, finding: Finding, isOneOfMany: boolean): Placed {
  const isGrave = finding.accepted === undefined && severities[finding.severity] === DiagnosticSeverity.Error;
  const diagnostic = toDiagnostic(context, analysis, finding, isGrave || !isOneOfMany);
  return { file: finding.span.block.file, diagnostic };
}

function runsByFile(placed: readonly Placed[]): readonly DiagnosticRun[] {
  const lists = new Map<FileId, Diagnostic[]>();
  for (const { file, diagnostic } of placed) {
    if (!diagnostic) continue;
    const list = lists.get(file);
    if (list) list.push(diagnostic);
    else lists.set(file, [diagnostic]);
  }
  return [...lists].map(([file, list]) => asRun(file, list));
}

function asRun(file: FileId, list: readonly Diagnostic[]): DiagnosticRun {
  const counts: Record<DiagnosticSeverity, number> = { 1: 0, 2: 0, 3: 0, 4: 0 };
  for (const each of list) counts[severityOf(each)] += 1;
  return { file, list, counts };
}

type IsMoved = (block: Block) => boolean;

/** Which blocks no longer begin on the line that they began on; `undefined` where none has moved. Positions within a block stay. */
function movedBlocks(before: Said['inPlace'], now: Said['inPlace']): IsMoved | undefined {
  const movedIn = new Map<FileId, IsMoved>();
  for (const [file, blocks] of now) {
    const isMoved = blocks && movedInFile(before.get(file), blocks);
    if (isMoved) movedIn.set(file, isMoved);
  }
  return movedIn.size === 0 ? undefined : (block) => movedIn.get(block.file)?.(block) === true;
}

function movedInFile(before: BlocksInPlace | undefined, now: BlocksInPlace): IsMoved | undefined {
  if (!before || before === now) return undefined;
  const { start, end } = sameAtEnds(before.blocks, now.blocks);
  const behind = now.blocks.length - end;
  const hasEndMoved = before.lines[before.blocks.length - end] !== now.lines[behind];
  const stoodThere = new Set(before.blocks.slice(start, before.blocks.length - end));
  const taken = new Set(now.blocks.slice(start, behind).filter((block) => stoodThere.has(block)));
  if (!hasEndMoved && taken.size === 0) return undefined;
  return (block) => taken.has(block) || (hasEndMoved && (placeInList(now.blocks, block) ?? 0) >= behind);
}

function leadsTo({ span, related }: Finding, moved: IsMoved): boolean {
  return moved(span.block) || related.some((each) => moved(each.span.block));
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

/** As much as the editor says that it can show: what it would drop is not written for it. */
export function toDiagnostic(
  context: ServerContext,
  analysis: Analysis,
  finding: Finding,
  leadsToPlaces = true,
): Diagnostic | undefined {
  const range = context.locationOf(analysis, finding.span)?.range;
  if (!range) return undefined;
  return {
    range,
    severity: finding.accepted === undefined ? severities[finding.severity] : DiagnosticSeverity.Information,
    source: 'sillwright',
    code: finding.rule,
    ...pageOf(context, finding),
    message: finding.accepted === undefined ? finding.message : `Accepted: ${finding.accepted}\n${finding.message}`,
    ...(leadsToPlaces ? relatedTo(context, analysis, finding) : {}),
    ...dataOf(context, finding),
  };
}

function relatedTo(
  context: ServerContext,
  analysis: Analysis,
  { related }: Finding,
): Pick<Diagnostic, 'relatedInformation'> {
  if (related.length === 0 || shownBy(context)?.relatedInformation !== true) return {};
  const places = related.flatMap(({ span, message }) => {
    const location = context.locationOf(analysis, span);
    return location ? [{ location, message }] : [];
  });
  // Kept while the finding holds: without room to spare.
  return places.length > 0 ? { relatedInformation: places.slice() } : {};
}

/** For tools that ask for it: an editor shows none of it, and finds fixes by the place. The rule is the code. */
function dataOf(context: ServerContext, { thing, station }: Finding): Pick<Diagnostic, 'data'> {
  const isWanted = context.wishes().findingData && (thing !== undefined || station !== undefined);
  return isWanted ? { data: { thing, station } } : {};
}

/** Where the editor brought the pages along. What is said of the text itself has no page of its own. */
function pageOf(context: ServerContext, { rule }: Finding): Pick<Diagnostic, 'codeDescription'> {
  const pages = shownBy(context)?.codeDescriptionSupport === true ? context.wishes().rulePages : undefined;
  return pages === undefined || !ruleIds.has(rule) ? {} : { codeDescription: { href: `${pages}/${rule}.md` } };
}

const shownBy = (context: ServerContext): PublishDiagnosticsClientCapabilities | undefined =>
  context.client().textDocument?.publishDiagnostics;

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

function same(before: readonly DiagnosticRun[] = [], after: readonly DiagnosticRun[] = []): boolean {
  const inText = (runs: readonly DiagnosticRun[]): string => JSON.stringify(runs.flatMap(({ list }) => list));
  return before === after || inText(before) === inText(after);
}
