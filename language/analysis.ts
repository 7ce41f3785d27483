import type { Basis } from './domain/documents/basis.ts';
import { basisOf } from './domain/documents/basis.ts';
import { withEdits } from './domain/fixes/apply-in-memory.ts';
import type { ThingEdit } from './domain/fixes/edit.ts';
import { showsInTextOnly } from './domain/fixes/edit.ts';
import type { Layout } from './domain/model/layout.ts';
import type { Block, FileId, FileSpan, SourceSpan } from './domain/model/source.ts';
import type { CheckMemory } from './domain/rules/check-layout.ts';
import { checkLayoutInSteps, createCheckMemory } from './domain/rules/check-layout.ts';
import type { Checked } from './domain/rules/checked.ts';
import type { Finding } from './domain/rules/finding.ts';
import { headOf } from './domain/rules/head-of-house.ts';
import type { Edited } from './domain/rules/verified-fixes.ts';
import type { RulesInForce } from './domain/rulesets/rule-set.ts';
import type { Steps } from './domain/steps.ts';
import { finish } from './domain/steps.ts';
import type { Problem } from './syntax/problem.ts';
import { ruleOfProblem } from './syntax/problem.ts';
import type { FileHost, Project, TextOfFile } from './syntax/project.ts';
import { createProjectReader } from './syntax/project.ts';
import { readSheet } from './syntax/sheet.ts';
import type { TextChange } from './syntax/text-change.ts';
import { applyChanges, writeThingEdits } from './syntax/write-edit.ts';

/** Everything that is known of one file and the files that it uses. */
export interface Analysis {
  readonly file: FileId;
  readonly text: string;
  readonly layout: Layout;
  /** Findings about the text and about the house, and what could not be checked. */
  readonly checked: Checked;
  readonly findings: readonly Finding[];
  readonly basis: Basis;
  /** Rule sets by name as if the title block chose them; `undefined` where one of them is not in sight. */
  rulesNamed(names: readonly string[]): RulesInForce | undefined;
  /** Every rule set in sight, the shipped ones included, by name. */
  readonly ruleSetNames: readonly string[];
  locate(span: SourceSpan): FileSpan | undefined;
  textOf(file: FileId): string | undefined;
  /** Of this file and of each file that it uses. */
  readonly files: readonly FileId[];
  /** The blocks of one of them; most are the same objects after an edit. */
  blocksOf(file: FileId): BlocksInPlace | undefined;
}

export interface BlocksInPlace {
  readonly blocks: readonly Block[];
  /** The line that each of them begins on, counted from 0, at its left edge; and the last line. */
  readonly lines: readonly number[];
}

export interface AnalysisOptions {
  /** Rule sets that take the place of those that the title block names; one that is not in sight is left out. */
  readonly rules?: readonly string[];
}

export interface Analyser {
  /** Reads the newest text of the file and of what it uses. Total: any text gives an answer. */
  analyse(file: FileId, options?: AnalysisOptions): Analysis;
  /**
   * The same in steps of a few milliseconds. Where texts change before the last one, these are dropped and new ones begun: what was
   * found out of what still stands is not worked out again.
   */
  analyseInSteps(file: FileId, options?: AnalysisOptions): Steps<Analysis>;
  /** Nobody edits the file any more: what was kept of it is let go. */
  forget(file: FileId): void;
}

/** Keeps between calls what an edit did not touch; one analyser serves many files. */
export function createAnalyser(host: FileHost): Analyser {
  const reader = createProjectReader(host);
  const tryEdits = createTrial(host);
  const memories = new Map<FileId, CheckMemory>();
  const memoryOf = (file: FileId): CheckMemory => {
    const memory = memories.get(file) ?? createCheckMemory();
    memories.set(file, memory);
    return memory;
  };
  function* analyseInSteps(file: FileId, options?: AnalysisOptions): Steps<Analysis> {
    const project = yield* reader.readInSteps(file);
    yield;
    const ruled = ruledBy(options?.rules, project);
    const layout = ruled(project.layout);
    const edited: Edited = (now, edits) => {
      if (!edits.some(showsInTextOnly)) return withEdits(now, edits);
      const tried = tryEdits(file, project, edits);
      return tried && ruled(tried);
    };
    const memory = options?.rules ? createCheckMemory() : memoryOf(file);
    const rules = yield* checkLayoutInSteps(layout, edited, memory);
    const checked: Checked = {
      findings: project.problems.map(findingOf).concat(rules.findings),
      notChecked: rules.notChecked,
    };
    let basis: Basis | undefined;
    return {
      file,
      get text() {
        return project.main.text.toString();
      },
      layout,
      checked,
      findings: checked.findings,
      // Worked out for whom asks: what is found goes out before.
      get basis() {
        basis ??= basisOf(layout, checked);
        return basis;
      },
      rulesNamed: project.rulesNamed,
      ruleSetNames: project.ruleSetNames,
      locate: project.locate,
      textOf: (each) => project.sheets.get(each)?.text.toString(),
      files: [...project.sheets.keys()],
      blocksOf: (each) => project.sheets.get(each),
    };
  }

  return {
    analyse: (file, options) => finish(analyseInSteps(file, options)),
    analyseInSteps,
    forget(file) {
      reader.forget(file);
      memories.delete(file);
    },
  };
}

/** Puts a house under other rule sets than its title block names. */
function ruledBy(names: readonly string[] | undefined, project: Project): (layout: Layout) => Layout {
  if (!names) return (layout) => layout;
  const inSight = new Map(project.ruleSetNames.map((name) => [name.toLowerCase(), name]));
  const found = names.flatMap((name) => inSight.get(name.toLowerCase()) ?? []);
  const rules = project.rulesNamed(found);
  return (layout) => {
    const source = layout.title.ruleSets[0]?.source ?? headOf(layout);
    if (!rules || !source) return layout;
    return { ...layout, rules, title: { ...layout.title, ruleSets: found.map((name) => ({ name, source })) } };
  };
}

/**
 * What the house would be with edits written into the texts as they were analysed, read again. `undefined` where they cannot be
 * written, or give text that is harder to read than before.
 */
function createTrial(
  host: FileHost,
): (file: FileId, project: Project, edits: readonly ThingEdit[]) => Project['layout'] | undefined {
  let texts: ReadonlyMap<FileId, string> = new Map();
  const reader = createProjectReader({
    read: (file) => {
      const text = texts.get(file);
      return text === undefined ? { missing: 'it was not read' } : { text };
    },
    resolve: (from, path) => host.resolve(from, path),
  });
  return (file, project, edits) => {
    const textOf = (each: FileId): string | undefined => project.sheets.get(each)?.text.toString();
    const written = writeThingEdits({ file, layout: project.layout, locate: project.locate, textOf }, edits);
    if (written.kind === 'refused' || written.changes.length === 0) return undefined;
    texts = new Map(
      [...project.sheets].map(([each, { text }]) => [
        each,
        applyChanges(
          text.toString(),
          written.changes.filter((change) => change.file === each),
        ),
      ]),
    );
    const trial = reader.read(file);
    return trial.problems.length > project.problems.length ? undefined : trial.layout;
  };
}

/** The rule sets of a file, whatever else is in it. */
export interface RuleSetsOfFile {
  readonly ruleSets: readonly { readonly name: string; readonly title: string | undefined }[];
  /** The text with blanks for all else: a file that may be used for them alone, each at its place. */
  readonly text: string;
}

export function ruleSetsIn(file: FileId, text: string): RuleSetsOfFile {
  const sheet = readSheet(file, text);
  const blank = (part: string): string => part.replace(/[^\r\n]/g, ' ');
  let kept = '';
  const ruleSets: RuleSetsOfFile['ruleSets'][number][] = [];
  for (const [index, block] of sheet.blocks.entries()) {
    const start = sheet.starts[index];
    if (block.draft.kind !== 'ruleset' || start === undefined) continue;
    const { name, title } = block.draft.ruleSet;
    ruleSets.push({ name, title });
    kept += blank(text.slice(kept.length, start)) + block.text;
  }
  return { ruleSets, text: kept };
}

export type WrittenEdits =
  | { readonly kind: 'changes'; readonly changes: readonly (TextChange & { readonly file: FileId })[] }
  | { readonly kind: 'refused'; readonly reason: string };

/** Turns edits of things into changes of text, against the text that was analysed. */
export function writeEdits(analysis: Analysis, edits: readonly ThingEdit[]): WrittenEdits {
  return writeThingEdits(analysis, edits);
}

const knownFindings = new WeakMap<Problem, Finding>();

/** What is wrong with the text, in the shape of every other finding. */
function findingOf(problem: Problem): Finding {
  const known = knownFindings.get(problem);
  if (known) return known;
  const finding = madeFinding(problem);
  knownFindings.set(problem, finding);
  return finding;
}

function madeFinding(problem: Problem): Finding {
  return {
    rule: ruleOfProblem(problem.code),
    severity: problem.severity,
    message: problem.message,
    thing: undefined,
    layer: problem.layer ?? 'survey',
    wall: problem.wall,
    piece: undefined,
    station: undefined,
    stationTo: undefined,
    span: problem.span,
    related: problem.related,
    citation: undefined,
    fixes: problem.replacements.map((replacement) => ({
      title: replacement.title,
      // What the tape showed is not for a tool to guess in bulk.
      trust: ruleOfProblem(problem.code).startsWith('geometry/') ? 'by-hand' : 'review',
      edits: [{ kind: 'replace-text', span: replacement.span, text: replacement.text }],
    })),
    accepted: undefined,
  };
}

export type { FileHost, Project, TextOfFile };
