import { TextDocument } from 'vscode-languageserver-textdocument';
import { type Analyser, type Analysis, createAnalyser } from '../../../language/analysis.ts';
import type { Basis } from '../../../language/domain/documents/basis.ts';
import {
  type CheckedLayout,
  placeInWords,
  type TextPlace,
} from '../../../language/domain/documents/findings-report.ts';
import type { FindLine } from '../../../language/domain/documents/schedules/table.ts';
import { printable } from '../../../language/domain/documents/text-layout.ts';
import type { FileId, SourceSpan } from '../../../language/domain/model/source.ts';
import type { Finding } from '../../../language/domain/rules/finding.ts';
import type { ProblemCode } from '../../../language/syntax/problem.ts';
import { ruleOfProblem } from '../../../language/syntax/problem.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { createFolderHost, type FolderHost } from './folder-host.ts';
import { readTextFile } from './read-text-file.ts';

/** A layout file that could be read, with what it uses, and what was made of it. */
export interface OpenLayout {
  readonly path: string;
  readonly byteOrderMark: boolean;
  readonly host: FolderHost;
  readonly analyser: Analyser;
  readonly analysis: Analysis;
}

export type Opened =
  | { readonly kind: 'open'; readonly layout: OpenLayout }
  | { readonly kind: 'refused'; readonly reason: string };

export function openLayout(path: string): Opened {
  const read = readTextFile(path);
  if (read.kind === 'refused') return { kind: 'refused', reason: `${path} cannot be read: ${read.reason}.` };
  const host = createFolderHost(path, read.text);
  const analyser = createAnalyser(host);
  const analysis = analyser.analyse(host.main);
  return { kind: 'open', layout: { path, byteOrderMark: read.byteOrderMark, host, analyser, analysis } };
}

/** In the shape that reports want, with places counted in lines. */
export function toCheckedLayout(analysis: Analysis): CheckedLayout {
  return {
    file: analysis.file,
    layout: analysis.layout,
    checked: analysis.checked,
    basis: analysis.basis,
    placeOf: placesIn(analysis),
  };
}

/** The line of a span, for lists that send people back to the text. */
export function linesIn(analysis: Analysis): FindLine {
  const placeOf = placesIn(analysis);
  return (span) => {
    const place = placeOf(span);
    return place && { file: place.file, line: place.range.start.line + 1 };
  };
}

/** Lines end at CR LF, LF or CR, as in editors. */
export function placesIn(analysis: Analysis): (span: SourceSpan) => TextPlace | undefined {
  const documents = new Map<FileId, TextDocument>();
  const documentOf = (file: FileId): TextDocument => {
    const document = documents.get(file) ?? TextDocument.create(file, 'sillwright', 0, analysis.textOf(file) ?? '');
    documents.set(file, document);
    return document;
  };
  return (span) => {
    const place = analysis.locate(span);
    if (!place) return undefined;
    const document = documentOf(place.file);
    return {
      file: place.file,
      range: { start: document.positionAt(place.start), end: document.positionAt(place.end) },
    };
  };
}

/** What a layout's findings say of the run. A check that broke off is our defect, whatever the others found. */
export function exitCodeOf({
  findings,
  basis,
}: {
  readonly findings: readonly Pick<Finding, 'rule'>[];
  readonly basis: Pick<Basis, 'counts'>;
}): ExitCode {
  if (findings.some(({ rule }) => rule.startsWith('internal/'))) return exitCodes.defect;
  return basis.counts.stops + basis.counts.errors > 0 ? exitCodes.found : exitCodes.clean;
}

/** Which problems mean that a part of the text, or a file, is not known at all. */
const leavesUnread: Readonly<Record<ProblemCode, boolean>> = {
  syntax: true,
  'unread-block': true,
  'outside-blocks': true,
  'two-lines': true,
  'stray-character': true,
  'open-string': true,
  'line-too-long': true,
  'more-problems': true,
  'missing-file': true,
  'circular-use': true,
  'refused-path': true,
  'no-unit': false,
  'doubtful-length': false,
  'wrong-kind': false,
  'unresolved-name': false,
  'duplicate-name': false,
  'repeated-word': false,
  'overlapping-stretches': false,
  'missing-part': false,
  'backward-stretch': false,
  'geometry/station-outside-wall': false,
  'geometry/duplicate-mark': false,
  'unknown-subject': false,
  'limit-without-source': false,
  'empty-range': false,
  'repeated-limit': false,
  'hardware-without-source': false,
  'connector-without-body': false,
  'stray-brace': false,
};
const unread: ReadonlySet<string> = new Set(
  (Object.entries(leavesUnread) as [ProblemCode, boolean][]).flatMap(([code, isUnread]) =>
    isUnread ? [ruleOfProblem(code)] : [],
  ),
);

/** Why the layout is not known in full, so that nothing may be rewritten on the strength of what is known of the house. */
export function notReadInFull(analysis: Analysis): string | undefined {
  const finding = analysis.findings.find(({ rule }) => unread.has(rule));
  if (!finding) return undefined;
  const place = placesIn(analysis)(finding.span);
  return `${place ? `${placeInWords(place)}: ` : ''}${printable(finding.message)}`;
}
