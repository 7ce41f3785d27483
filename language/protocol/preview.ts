/**
 * What the server tells the preview pane, and what the pane answers. The state of the pane is a handful of named parts;
 * an update carries the parts that changed, so updates can be merged and the newest always wins.
 */
export const previewProtocol = 1;

/** Names a thing of the layout, as in `language/domain/model/layout.ts`. */
export type ThingName = string;

export interface PreviewParts {
  readonly header: HeaderPart;
  readonly notice: NoticePart;
  readonly plan: DrawingPart;
  readonly elevation: ElevationPart;
  readonly focus: FocusPart;
  readonly schedule: SchedulePart;
  readonly footer: FooterPart;
}
export type PartName = keyof PreviewParts;
export const partNames: readonly PartName[] = ['header', 'notice', 'plan', 'elevation', 'focus', 'schedule', 'footer'];

export interface HeaderPart {
  readonly house: string;
  /** `Wall F "west"`; empty where the cursor is on no wall. */
  readonly wall: string;
  readonly mark: string;
  readonly counts: PreviewCounts;
}
export interface PreviewCounts {
  readonly stops: number;
  readonly errors: number;
  readonly warnings: number;
  readonly infos: number;
  readonly accepted: number;
  readonly notChecked: number;
  readonly assumed: number;
}

/** Why the drawing is not that of the present text; `undefined` text: it is. */
export interface NoticePart {
  readonly text: string | undefined;
}

export interface DrawingPart {
  /** An `<svg>` whose shapes carry `data-thing`. Empty where there is nothing to draw; `empty` then says why. */
  readonly svg: string;
  readonly empty: string;
  /** The part of the drawing to show, in its own units (mm on paper): x, y, width, height. */
  readonly view: readonly [number, number, number, number];
}
export interface ElevationPart extends DrawingPart {
  readonly wall: string;
  readonly title: string;
}

/** What stands under the cursor. */
export interface FocusPart {
  readonly wall: string;
  readonly thing: ThingName;
  /** Counts from 1; 0 where nothing is under the cursor. */
  readonly line: number;
  readonly source: string;
  readonly mark: string;
  readonly station: string;
  readonly summary: string;
  readonly facts: readonly { readonly name: string; readonly text: string }[];
  /** Where on its board this connector fits; `null` for what is no anchor. */
  readonly range: RangePart | null;
  readonly findings: readonly FindingLine[];
  /** Findings of the wall that the list leaves out. */
  readonly more: number;
}
/** A board as a bar from 0 to 1. */
export interface RangePart {
  readonly from: string;
  readonly to: string;
  /** Where the thing stands now. */
  readonly at: number;
  readonly parts: readonly {
    readonly kind: 'clear' | 'unsure' | 'blocked';
    readonly from: number;
    readonly to: number;
    /** What blocks it, or what was not measured. */
    readonly words: string;
  }[];
}
export interface FindingLine {
  readonly severity: 'stop' | 'error' | 'warning' | 'info' | 'accepted';
  readonly rule: string;
  readonly message: string;
  readonly thing: ThingName;
  readonly line: number;
}

/** The schedules of the wall in sight, connectors first; what has no rows is left out. */
export interface SchedulePart {
  readonly wall: string;
  readonly title: string;
  readonly sections: readonly ScheduleSection[];
}
export interface ScheduleSection {
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly ScheduleRow[];
}
export interface ScheduleRow {
  readonly thing: ThingName;
  readonly cells: readonly string[];
  /** Left out of the building. */
  readonly crossed: boolean;
}

export interface FooterPart {
  /** Counts, caution, basis: never out of sight. */
  readonly always: string;
  /** The other sentences that every output carries: at the end of the page. */
  readonly rest: string;
  readonly demo: boolean;
  readonly stopped: boolean;
}

/** Server to pane. */
export interface PreviewUpdate {
  readonly protocol: number;
  readonly uri: string;
  /** Of the text that the parts were made from; `-1` for a file that is not open. */
  readonly version: number;
  /** Counts up with every update of this pane. */
  readonly sequence: number;
  /** `full` carries every part; `patch` those that changed since the update with sequence `base`. */
  readonly kind: 'full' | 'patch';
  readonly base: number;
  readonly parts: Partial<PreviewParts>;
}

export interface PreviewState {
  readonly uri: string;
  readonly version: number;
  readonly sequence: number;
  readonly parts: PreviewParts;
}

/** The next state; `gap` where an update between is missing, `old` where it is older than what is shown. */
export function applyUpdate(state: PreviewState | undefined, update: PreviewUpdate): PreviewState | 'gap' | 'old' {
  if (update.kind === 'full') {
    const parts = completeParts(update.parts);
    return parts ? { uri: update.uri, version: update.version, sequence: update.sequence, parts } : 'gap';
  }
  if (!state || state.uri !== update.uri) return 'gap';
  if (update.sequence <= state.sequence || update.version < state.version) return 'old';
  if (update.base !== state.sequence) return 'gap';
  const parts = { ...state.parts, ...update.parts };
  return { uri: update.uri, version: update.version, sequence: update.sequence, parts };
}

/** Two updates in a row as one: what waits while the pane is busy never piles up. */
export function mergeUpdates(first: PreviewUpdate | undefined, second: PreviewUpdate): PreviewUpdate {
  if (!first || second.kind === 'full' || first.uri !== second.uri) return second;
  return { ...second, kind: first.kind, base: first.base, parts: { ...first.parts, ...second.parts } };
}

function completeParts(parts: Partial<PreviewParts>): PreviewParts | undefined {
  return partNames.every((name) => parts[name] !== undefined) ? (parts as PreviewParts) : undefined;
}

/** Host to view. */
export interface ShowMessage {
  readonly type: 'update';
  readonly update: PreviewUpdate;
}

/** View to host. */
export type ViewMessage =
  /** The view is there and shows nothing yet, or it lost the thread: send everything. */
  | { readonly type: 'resync' }
  /** This update is on the screen: the next may come. */
  | { readonly type: 'shown'; readonly sequence: number }
  /** A person chose a thing: take the cursor to its line. */
  | { readonly type: 'select'; readonly thing: ThingName }
  /** Back to the text. */
  | { readonly type: 'leave' };

/** Reads what another window may have forged: anything but a message of this protocol is `undefined`. */
export function readShowMessage(value: unknown): ShowMessage | undefined {
  if (!isRecord(value) || value.type !== 'update') return undefined;
  const update = value.update;
  if (!isRecord(update) || update.protocol !== previewProtocol) return undefined;
  const { uri, version, sequence, kind, base, parts } = update;
  if (typeof uri !== 'string' || !isWhole(version) || !isWhole(sequence) || !isWhole(base)) return undefined;
  if (kind !== 'full' && kind !== 'patch') return undefined;
  if (!isRecord(parts) || !Object.keys(parts).every((name) => partNames.includes(name as PartName))) return undefined;
  if (!Object.values(parts).every(isRecord)) return undefined;
  const checked = { protocol: previewProtocol, uri, version, sequence, kind, base, parts };
  return { type: 'update', update: checked as PreviewUpdate };
}

export function readViewMessage(value: unknown): ViewMessage | undefined {
  if (!isRecord(value)) return undefined;
  switch (value.type) {
    case 'resync':
    case 'leave':
      return { type: value.type };
    case 'shown':
      return isWhole(value.sequence) ? { type: 'shown', sequence: value.sequence } : undefined;
    case 'select': {
      const thing = value.thing;
      return typeof thing === 'string' && thing.length <= 500 ? { type: 'select', thing } : undefined;
    }
    default:
      return undefined;
  }
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
function isWhole(value: unknown): value is number {
  return typeof value === 'number' && Number.isSafeInteger(value);
}
