import type { Basis } from './domain/documents/basis.ts';
import { basisOf } from './domain/documents/basis.ts';
import type { ThingEdit } from './domain/fixes/edit.ts';
import type { Layout } from './domain/model/layout.ts';
import type { FileId, FileSpan, SourceSpan } from './domain/model/source.ts';
import { checkLayout } from './domain/rules/check-layout.ts';
import type { Checked } from './domain/rules/checked.ts';
import type { Finding } from './domain/rules/finding.ts';
import type { Problem } from './syntax/problem.ts';
import { ruleOfProblem } from './syntax/problem.ts';
import type { FileHost, Project } from './syntax/project.ts';
import { createProjectReader } from './syntax/project.ts';
import type { TextChange } from './syntax/text-change.ts';
import { writeThingEdits } from './syntax/write-edit.ts';

/** Everything that is known of one file and the files that it uses. */
export interface Analysis {
  readonly file: FileId;
  readonly text: string;
  readonly layout: Layout;
  /** Findings about the text and about the house, and what could not be checked. */
  readonly checked: Checked;
  readonly findings: readonly Finding[];
  readonly basis: Basis;
  locate(span: SourceSpan): FileSpan | undefined;
  textOf(file: FileId): string | undefined;
  /** Of this file and of each file that it uses. */
  readonly files: readonly FileId[];
}

export interface Analyser {
  /** Reads the newest text of the file and of what it uses. Total: any text gives an answer. */
  analyse(file: FileId): Analysis;
}

/** Keeps between calls what an edit did not touch; one analyser serves many files. */
export function createAnalyser(host: FileHost): Analyser {
  const reader = createProjectReader(host);
  return {
    analyse(file) {
      const project = reader.read(file);
      const rules = checkLayout(project.layout);
      const checked: Checked = {
        findings: [...project.problems.map(findingOf), ...rules.findings],
        notChecked: rules.notChecked,
      };
      return {
        file,
        text: project.main.text,
        layout: project.layout,
        checked,
        findings: checked.findings,
        basis: basisOf(project.layout, checked),
        locate: project.locate,
        textOf: (each) => project.sheets.get(each)?.text,
        files: [...project.sheets.keys()],
      };
    },
  };
}

export type WrittenEdits =
  | { readonly kind: 'changes'; readonly changes: readonly (TextChange & { readonly file: FileId })[] }
  | { readonly kind: 'refused'; readonly reason: string };

/** Turns edits of things into changes of text, against the text that was analysed. */
export function writeEdits(analysis: Analysis, edits: readonly ThingEdit[]): WrittenEdits {
  return writeThingEdits(analysis, edits);
}

/** What is wrong with the text, in the shape of every other finding. */
function findingOf(problem: Problem): Finding {
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
      trust: 'review',
      edits: [{ kind: 'replace-text', span: replacement.span, text: replacement.text }],
    })),
    accepted: undefined,
  };
}

export type { FileHost, Project };
