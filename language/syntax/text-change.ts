/** Replaces `start` to `end` (UTF-16 offsets, exclusive) of the text before the change. */
export interface TextChange {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}
