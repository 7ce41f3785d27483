import type { SourceSpan } from '../domain/model/source.ts';
import type { Layer, RuleId, Severity } from '../domain/rules/finding.ts';

/** What can be wrong with the text itself, or comes to light in reading it; see `ruleOfProblem` for what findings call it. */
export const problemCodes = {
  syntax: 'A line, or a part of it, could not be read.',
  'unread-block': 'A line at the left edge starts with a word that heads nothing; its lines are held back.',
  'outside-blocks': 'Text stands above the first heading and belongs to nothing.',
  'two-lines': 'Two lines stand on one.',
  'stray-character': 'A character that the language does not use.',
  'line-too-long': 'A line is longer than anybody types; it is left unread.',
  'more-problems': 'A block has more problems than are listed.',
  'open-string': 'Text in quotes is not closed on its line.',
  'no-unit': 'A number stands where a length belongs and does not say of what.',
  'doubtful-length': 'A length that no tape shows.',
  'wrong-kind': 'A value of another kind than this line takes.',
  'unresolved-name': 'A name that nothing in sight has.',
  'duplicate-name': 'Two things of one kind have the same name.',
  'repeated-word': 'An attribute is given twice on a line, or a fact twice in a block; the last one counts.',
  'overlapping-stretches': 'Two lines of one kind give the same thing for the same stretch.',
  'missing-part': 'A heading or line lacks a part without which it says nothing.',
  'backward-stretch': 'A stretch that ends before it begins.',
  'geometry/station-outside-wall': 'A station past an end of its wall, or a break where no sill board lies.',
  'geometry/duplicate-mark': 'A mark of new work stands twice in the house.',
  'missing-file': 'A file that `use` names is not there.',
  'circular-use': 'Files use each other in a circle.',
  'refused-path': 'A path that `use` may not follow.',
  'unknown-subject': 'A limit on a subject that no check reads, or under a condition that none asks for.',
  'limit-without-source': 'A limit that does not say where its number comes from.',
  'empty-range': 'Bounds that no value keeps, or one side of a range given twice.',
  'repeated-limit': 'A rule set limits one subject twice for the very same case.',
  'hardware-without-source': 'A connector, or a capacity, that does not say which report its numbers come from.',
  'connector-without-body': 'A connector that does not say how much room it takes.',
  'stray-brace': 'Braces are not needed: a block ends at the next heading.',
} as const;
export type ProblemCode = keyof typeof problemCodes;

/** The code of the finding: `language/CODE` for what is wrong with the text, the trade's own code where it has one. */
export function ruleOfProblem(code: ProblemCode): RuleId {
  if (code === 'geometry/station-outside-wall' || code === 'geometry/duplicate-mark') return code;
  // The reader sees it first, but it is the tape that was misread.
  return code === 'doubtful-length' ? 'geometry/fraction-not-on-tape' : `language/${code}`;
}

/** Every problem as people meet it: its code and when it is told. */
export function problemPages(): readonly { readonly id: RuleId; readonly summary: string }[] {
  return (Object.entries(problemCodes) as [ProblemCode, string][]).map(([code, summary]) => ({
    id: ruleOfProblem(code),
    summary,
  }));
}

export interface Problem {
  readonly code: ProblemCode;
  readonly severity: Severity;
  readonly message: string;
  readonly span: SourceSpan;
  readonly related: readonly { readonly span: SourceSpan; readonly message: string }[];
  readonly replacements: readonly { readonly title: string; readonly text: string; readonly span: SourceSpan }[];
  readonly wall?: string;
  readonly layer?: Layer;
}
