import type { ThingEdit } from '../fixes/edit.ts';
import type { ThingId } from '../model/layout.ts';
import type { SourceSpan } from '../model/source.ts';
import type { Citation } from '../rulesets/rule-set.ts';
import type { Length } from '../units/length.ts';
import type { AskedLimit } from './limit-words.ts';

/** `stop`: beyond the prescriptive path; an engineer is needed and nothing can suppress it. */
export type Severity = 'stop' | 'error' | 'warning' | 'info';

/** `group/kebab-id`: stable, searchable, printed on documents. */
export type RuleId = `${RuleGroup}/${string}`;
export type RuleGroup =
  | 'language'
  | 'screening'
  | 'geometry'
  | 'anchorage'
  | 'clearance'
  | 'foundation'
  | 'bracing'
  | 'floor'
  | 'post'
  | 'material'
  | 'load-path'
  | 'document'
  | 'as-built'
  | 'internal';

export type Layer = 'survey' | 'design' | 'record' | 'rules' | 'hardware' | 'title';

export interface Finding {
  readonly rule: RuleId;
  readonly severity: Severity;
  /** What is wrong, by how much, what says so, what to do. At most two lines, in the file's units. */
  readonly message: string;
  readonly thing: ThingId | undefined;
  readonly layer: Layer;
  readonly wall: string | undefined;
  readonly piece: string | undefined;
  readonly station: Length | undefined;
  readonly stationTo: Length | undefined;
  readonly span: SourceSpan;
  readonly related: readonly { readonly span: SourceSpan; readonly message: string }[];
  /** What the limit rests on; `undefined` for findings about the text itself. */
  readonly citation: Citation | undefined;
  /** The limit that it breaks and the case that it was asked for, where it breaks one. */
  readonly asked?: AskedLimit | undefined;
  /** Which finding of its rule this is, whatever else is edited and whichever rule sets are in force. */
  readonly identity?: string | undefined;
  /** Worked out when it is first read: pass a finding on as it is, a copy of its fields reads it. */
  readonly fixes: readonly Fix[];
  /** The reason a person gave for accepting it. */
  readonly accepted: string | undefined;
}

/** A check that could not be made, and the measurement that it wants. */
export interface NotChecked {
  readonly rule: RuleId;
  /** For example `set-back of sill F2`. */
  readonly wants: string;
  readonly thing: ThingId;
  readonly wall: string | undefined;
  readonly piece: string | undefined;
  readonly span: SourceSpan;
}

/** `safe` keeps the meaning and may run in "mend all"; everything else wants a person's eye. */
export type FixTrust =
  | 'safe'
  | 'review'
  /** Guesses at what somebody measured: offered one at a time to the person who was there, never made in bulk. */
  | 'by-hand';

export interface Fix {
  readonly title: string;
  readonly trust: FixTrust;
  /** It says that nobody knows: checks that went by silence then say what they lack, which is no loss. */
  readonly admits?: boolean;
  readonly edits: readonly ThingEdit[];
}
