/** Something that cannot be read. One for each mistake, in the words of a builder. */
export interface SyntaxProblem {
  readonly code: SyntaxProblemCode;
  readonly message: string;
  /** UTF-16 offsets from the start of the block; `end` is exclusive and never before `start`. */
  readonly start: number;
  readonly end: number;
  readonly replacements: readonly Replacement[];
}

export type SyntaxProblemCode =
  | 'syntax'
  | 'unread-block'
  | 'outside-blocks'
  | 'two-lines'
  | 'open-string'
  | 'stray-brace'
  | 'stray-character'
  | 'line-too-long'
  | 'more-problems';

/** A way to mend it: `text` in place of what stands from `start` to `end`. */
export interface Replacement {
  readonly title: string;
  readonly start: number;
  readonly end: number;
  readonly text: string;
}
