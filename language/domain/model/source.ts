/**
 * Where something stands in the text. A place is relative to its block, so that an edit elsewhere in the file
 * leaves the things of this block equal, and results about them can be kept.
 */
export interface Block {
  readonly file: FileId;
  /** Unique in its file: the same text again later in the file is another block. */
  readonly key: string;
}

/** A file as the host names it: a URI in the editor, a path on the command line. */
export type FileId = string;

export interface SourceSpan {
  readonly block: Block;
  /** UTF-16 offsets from the start of the block; `end` is exclusive. */
  readonly start: number;
  readonly end: number;
}

export interface FileSpan {
  readonly file: FileId;
  readonly start: number;
  readonly end: number;
}

/** Finds the present place of each block. A block that is not in the map has no text of its own (built-in data). */
export interface SourceMap {
  locate(span: SourceSpan): FileSpan | undefined;
}
