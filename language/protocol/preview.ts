import { type EditAnswer, type MovesAnswer, readEditAnswer, readMovesAnswer } from './moves.ts';
import { type PaneChoices, readChoices } from './pane-choices.ts';
import { type Change, isChange, isPieceGroup, type PieceGroup, withChange } from './picture.ts';

/**
 * What the server tells the preview pane, and what the pane answers. The state of the pane is a handful of named parts;
 * an update carries the parts that changed, so updates can be merged and the newest always wins.
 */
export const previewProtocol = 3;

/** Names a thing of the layout, as in `language/domain/model/layout.ts`. */
export type ThingName = string;

export interface PreviewParts {
  readonly header: HeaderPart;
  readonly notice: NoticePart;
  readonly plan: DrawingPart;
  readonly elevation: ElevationPart;
  readonly focus: FocusPart;
  readonly findings: FindingsPart;
  readonly schedule: SchedulePart;
  readonly footer: FooterPart;
}
export type PartName = keyof PreviewParts;
export const partNames: readonly PartName[] = [
  ...(['header', 'notice', 'plan', 'elevation', 'focus', 'findings', 'schedule', 'footer'] as const),
];

export interface HeaderPart {
  readonly house: string;
  /** `Wall F "west"`; empty where the cursor is on no wall. */
  readonly wall: string;
  readonly mark: string;
  readonly counts: PreviewCounts;
  /** Walls and girders, in the order of the text. */
  readonly subjects: readonly Subject[];
}
/** What has an elevation. */
export interface Subject {
  readonly thing: ThingName;
  /** `Wall F west`. */
  readonly name: string;
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
  /** Things that the present text says otherwise than they are drawn, or not at all. */
  readonly stale: readonly ThingName[];
  /** The plan is that of the text before, and the present one is being drawn: it comes with a later update. */
  readonly planIsDue: boolean;
}

export interface DrawingPart {
  /** Its shapes carry `data-thing`. `null` where there is nothing to draw; `empty` then says why. */
  readonly picture: PieceGroup | null;
  readonly empty: string;
  /** The part of the drawing to show, in its own units (mm on paper): x, y, width, height. */
  readonly view: readonly [number, number, number, number];
  /** mm of paper for a true inch. */
  readonly inch: number;
}
export interface ElevationPart extends DrawingPart {
  /** The wall or the girder that is drawn. */
  readonly wall: ThingName;
  readonly title: string;
  /** Where stations lie in the drawing; `null` where it is not drawn along a wall. */
  readonly axis: StationAxis | null;
}
export interface StationAxis {
  /** x of station 0, and the top of the tape, in the drawing's own units. */
  readonly zero: number;
  readonly tape: number;
  /** Units of the drawing for a true millimetre. */
  readonly scale: number;
}

/** What stands under the cursor. */
export interface FocusPart {
  /** The wall or the girder in the elevation. */
  readonly wall: ThingName;
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
  /** Of its marker in the elevation, from 1. */
  readonly number: number;
  /** Which it is among the findings of its `revision`. */
  readonly finding: number;
}
/** A way to mend a finding, by the title that the lightbulb has for it. */
export interface FixLine {
  readonly title: string;
  /** As in `language/domain/rules/finding.ts`: all but `safe` want a person's eye, `by-hand` that of who was there. */
  readonly trust: 'safe' | 'review' | 'by-hand';
}

/** Every finding of the wall in sight, in the order of their numbers. */
export interface FindingsPart {
  readonly wall: string;
  /** Of the texts that they were found in; an edit is asked for with it. */
  readonly revision: number;
  readonly lines: readonly FindingLine[];
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
  readonly parts: SentParts;
}
/** A drawing that was sent before: what changed in it since, in turn. */
export type Sent<Part extends DrawingPart> = Part | ChangedDrawing<Part>;
export type ChangedDrawing<Part extends DrawingPart> = Omit<Part, 'picture'> & { readonly changes: readonly Change[] };
export interface SentParts extends Partial<Omit<PreviewParts, 'plan' | 'elevation'>> {
  readonly plan?: Sent<DrawingPart>;
  readonly elevation?: Sent<ElevationPart>;
}

export interface PreviewState {
  readonly uri: string;
  readonly version: number;
  readonly sequence: number;
  readonly parts: PreviewParts;
}

/** The next state; `gap` where an update between is missing, `old` where it is older than what is shown. */
export function applyUpdate(state: PreviewState | undefined, update: PreviewUpdate): PreviewState | 'gap' | 'old' {
  const { uri, version, sequence } = update;
  if (update.kind === 'full') {
    const parts = completeParts(update.parts);
    return parts ? { uri, version, sequence, parts } : 'gap';
  }
  if (!state || state.uri !== uri) return 'gap';
  if (sequence <= state.sequence || version < state.version) return 'old';
  if (update.base !== state.sequence) return 'gap';
  const { plan: sentPlan, elevation: sentElevation, ...others } = update.parts;
  const plan = sentPlan ? drawingAfter(state.parts.plan, sentPlan) : state.parts.plan;
  const elevation = sentElevation ? drawingAfter(state.parts.elevation, sentElevation) : state.parts.elevation;
  if (!plan || !elevation) return 'gap';
  return { uri, version, sequence, parts: { ...state.parts, ...others, plan, elevation } };
}

/** `undefined` where what is sent is no change of what was there. */
function drawingAfter<Part extends DrawingPart>(before: Part, sent: Sent<Part>): Part | undefined {
  if (!isChanged(sent)) return sent;
  const { changes, ...rest } = sent;
  let { picture } = before;
  for (const change of changes) {
    const next = picture && withChange(picture, change);
    if (!next) return undefined;
    picture = next;
  }
  return { ...before, ...rest, picture };
}

const isChanged = <Part extends DrawingPart>(sent: Sent<Part>): sent is ChangedDrawing<Part> => 'changes' in sent;

/** Two updates in a row as one: what waits while the pane is busy never piles up. */
export function mergeUpdates(first: PreviewUpdate | undefined, second: PreviewUpdate): PreviewUpdate {
  if (!first || second.kind === 'full' || first.uri !== second.uri) return second;
  const plan = mergeDrawings(first.parts.plan, second.parts.plan);
  const elevation = mergeDrawings(first.parts.elevation, second.parts.elevation);
  // They do not follow one another: the pane misses the first, and asks for everything.
  if (plan === 'gap' || elevation === 'gap') return second;
  const parts = { ...first.parts, ...second.parts, ...(plan && { plan }), ...(elevation && { elevation }) };
  return { ...second, kind: first.kind, base: first.base, parts };
}

function mergeDrawings<Part extends DrawingPart>(
  first: Sent<Part> | undefined,
  second: Sent<Part> | undefined,
): Sent<Part> | 'gap' | undefined {
  if (!first || !second) return second ?? first;
  if (!isChanged(second)) return second;
  if (isChanged(first)) return { ...second, changes: [...first.changes, ...second.changes] };
  return drawingAfter(first, second) ?? 'gap';
}

function completeParts(parts: SentParts): PreviewParts | undefined {
  const { plan, elevation } = parts;
  if (!plan || !elevation || isChanged(plan) || isChanged(elevation)) return undefined;
  return partNames.every((name) => parts[name] !== undefined) ? (parts as PreviewParts) : undefined;
}

/** Host to view. */
export interface ShowMessage {
  readonly type: 'update';
  readonly update: PreviewUpdate;
}

/** Host to view: make a picture of this drawing of a sheet, and send it back. */
export interface RenderMessage {
  readonly type: 'render';
  readonly svg: string;
  readonly dotsPerInch: number;
}

/** The drawing in the pane that is written as a file, and how. */
export type PictureForm = 'svg' | 'png-150' | 'png-300';
export const pictureForms: readonly PictureForm[] = ['svg', 'png-150', 'png-300'];

/** The ways to mend some findings. Finding them is work, so they are asked for once a person looks. */
export interface FixesAnswer {
  readonly revision: number;
  readonly fixes: readonly FixesOfFinding[];
}
export interface FixesOfFinding {
  /** As in its `FindingLine`; there may be none of this number. */
  readonly finding: number;
  /** Its message, as its markers say it aloud. */
  readonly words: string;
  readonly rule: string;
  /** Counts from 1; 0 where it stands in another file. */
  readonly line: number;
  readonly fixes: readonly FixLine[];
}

/** Host to view: answers to `moves`, `move`, `fixes` and `mend`. */
export type AnswerMessage =
  | { readonly type: 'fixes'; readonly answer: FixesAnswer }
  | { readonly type: 'moves'; readonly thing: ThingName; readonly answer: MovesAnswer }
  | { readonly type: 'moved'; readonly thing: ThingName; readonly answer: EditAnswer }
  | { readonly type: 'mended'; readonly answer: EditAnswer };

/** View to host. */
export type ViewMessage =
  /** The view is there and shows nothing yet, or it lost the thread: send everything. */
  | { readonly type: 'resync'; readonly wall?: ThingName }
  /** This update is on the screen: the next may come. */
  | { readonly type: 'shown'; readonly sequence: number }
  /** A person chose a thing: take the cursor to its line. */
  | { readonly type: 'select'; readonly thing: ThingName }
  /** A person points at a connector: where may it stand? */
  | { readonly type: 'moves'; readonly thing: ThingName }
  /** A person let go of a connector at a station, in whole nanometres. */
  | { readonly type: 'move'; readonly thing: ThingName; readonly station: number; readonly revision: number }
  /** These findings are in sight: what would mend them? */
  | { readonly type: 'fixes'; readonly revision: number; readonly findings: readonly number[] }
  /** A person chose a fix of a finding; both counted as in its `FindingLine`. */
  | { readonly type: 'mend'; readonly revision: number; readonly finding: number; readonly fix: number }
  /** Show this wall or girder, the cursor staying where it is. */
  | { readonly type: 'look'; readonly thing: ThingName }
  /** Back to the text. */
  | { readonly type: 'leave' }
  /** Layers and units, to keep with the file. */
  | { readonly type: 'choose'; readonly choices: PaneChoices }
  | { readonly type: 'write'; readonly what: 'schedules' | 'drawings' }
  | { readonly type: 'write-picture'; readonly of: 'plan' | 'elevation'; readonly form: PictureForm }
  /** The answer to `render`: a PNG, or why there is none. */
  | { readonly type: 'rendered'; readonly picture: Uint8Array | string };

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
  if (parts.findings !== undefined && !isFindingsPart(parts.findings)) return undefined;
  if (parts.plan !== undefined && !isDrawing(parts.plan)) return undefined;
  if (parts.elevation !== undefined && !isElevation(parts.elevation)) return undefined;
  const checked = { protocol: previewProtocol, uri, version, sequence, kind, base, parts };
  return { type: 'update', update: checked as PreviewUpdate };
}

export function readRenderMessage(value: unknown): RenderMessage | undefined {
  if (!isRecord(value) || value.type !== 'render') return undefined;
  const { svg, dotsPerInch } = value;
  return typeof svg === 'string' && isWhole(dotsPerInch) ? { type: 'render', svg, dotsPerInch } : undefined;
}

/** As `readShowMessage`, for answers. */
export function readAnswerMessage(value: unknown): AnswerMessage | undefined {
  if (!isRecord(value)) return undefined;
  switch (value.type) {
    case 'moves': {
      const answer = readMovesAnswer(value.answer);
      return answer && isName(value.thing) ? { type: 'moves', thing: value.thing, answer } : undefined;
    }
    case 'moved': {
      const answer = readEditAnswer(value.answer);
      return answer && isName(value.thing) ? { type: 'moved', thing: value.thing, answer } : undefined;
    }
    case 'fixes': {
      const answer = readFixesAnswer(value.answer);
      return answer && { type: 'fixes', answer };
    }
    case 'mended': {
      const answer = readEditAnswer(value.answer);
      return answer && { type: 'mended', answer };
    }
    default:
      return undefined;
  }
}

function readFixesAnswer(value: unknown): FixesAnswer | undefined {
  if (!isRecord(value) || !isWhole(value.revision) || !Array.isArray(value.fixes)) return undefined;
  if (value.fixes.length > MOST_AT_ONCE) return undefined;
  const fixes: FixesOfFinding[] = [];
  for (const each of value.fixes as readonly unknown[]) {
    if (!isRecord(each) || !isWhole(each.finding) || !isWhole(each.line) || !Array.isArray(each.fixes))
      return undefined;
    const { finding, words, rule, line: place } = each;
    if (typeof words !== 'string' || typeof rule !== 'string') return undefined;
    const lines: FixLine[] = [];
    for (const line of each.fixes as readonly unknown[]) {
      if (!isRecord(line) || typeof line.title !== 'string' || line.title.length > 2000) return undefined;
      const trust = trusts.find((known) => known === line.trust);
      if (trust === undefined) return undefined;
      lines.push({ title: line.title, trust });
    }
    fixes.push({ finding, words, rule, line: place, fixes: lines });
  }
  return { revision: value.revision, fixes };
}

const trusts: readonly FixLine['trust'][] = ['safe', 'review', 'by-hand'];
/** Findings whose fixes are asked for together. */
const MOST_AT_ONCE = 24;

export function readViewMessage(value: unknown): ViewMessage | undefined {
  if (!isRecord(value)) return undefined;
  switch (value.type) {
    case 'resync': {
      const wall = nameIn(value.wall);
      return { type: 'resync', ...(wall === undefined ? {} : { wall }) };
    }
    case 'leave':
      return { type: value.type };
    case 'look': {
      const thing = nameIn(value.thing);
      return thing === undefined ? undefined : { type: 'look', thing };
    }
    case 'shown':
      return isWhole(value.sequence) ? { type: 'shown', sequence: value.sequence } : undefined;
    case 'select':
    case 'moves':
      return isName(value.thing) ? { type: value.type, thing: value.thing } : undefined;
    case 'move': {
      const { thing, station, revision } = value;
      return isName(thing) && isWhole(station) && isWhole(revision)
        ? { type: 'move', thing, station, revision }
        : undefined;
    }
    case 'fixes': {
      const { revision, findings } = value;
      const isListed = Array.isArray(findings) && findings.length <= MOST_AT_ONCE && findings.every(isWhole);
      return isWhole(revision) && isListed ? { type: 'fixes', revision, findings: [...findings] } : undefined;
    }
    case 'mend': {
      const { revision, finding, fix } = value;
      return isWhole(revision) && isWhole(finding) && isWhole(fix)
        ? { type: 'mend', revision, finding, fix }
        : undefined;
    }
    case 'choose':
      return { type: 'choose', choices: readChoices(value.choices) };
    case 'write': {
      const { what } = value;
      return what === 'schedules' || what === 'drawings' ? { type: 'write', what } : undefined;
    }
    case 'write-picture': {
      const form = pictureForms.find((each) => each === value.form);
      const of = value.of === 'plan' || value.of === 'elevation' ? value.of : undefined;
      return form && of ? { type: 'write-picture', of, form } : undefined;
    }
    case 'rendered': {
      const { picture } = value;
      const isPicture = picture instanceof Uint8Array || typeof picture === 'string';
      return isPicture ? { type: 'rendered', picture } : undefined;
    }
    default:
      return undefined;
  }
}

const severities: readonly unknown[] = ['stop', 'error', 'warning', 'info', 'accepted'];

function isFindingsPart(value: unknown): value is FindingsPart {
  return isRecord(value) && typeof value.wall === 'string' && isWhole(value.revision) && areLines(value.lines);
}

function isDrawing(value: unknown): value is Sent<DrawingPart> {
  if (!isRecord(value)) return false;
  const { picture, changes, empty, view, inch } = value;
  if (typeof empty !== 'string' || typeof inch !== 'number' || !Array.isArray(view)) return false;
  if (view.length !== 4 || !view.every((each) => typeof each === 'number')) return false;
  if (changes !== undefined)
    return picture === undefined && Array.isArray(changes) && changes.every((each) => isChange(each));
  return picture === null || isPieceGroup(picture);
}

function isElevation(value: unknown): value is Sent<ElevationPart> {
  if (!isRecord(value) || !isDrawing(value)) return false;
  const { wall, title, axis } = value as Record<string, unknown>;
  if (typeof wall !== 'string' || typeof title !== 'string') return false;
  return (
    axis === null || (isRecord(axis) && [axis.zero, axis.tape, axis.scale].every((each) => typeof each === 'number'))
  );
}

function areLines(value: unknown): value is readonly FindingLine[] {
  const isLine = (line: unknown): boolean =>
    isRecord(line) &&
    severities.includes(line.severity) &&
    [line.rule, line.message, line.thing].every((each) => typeof each === 'string') &&
    [line.line, line.number, line.finding].every(isWhole);
  return Array.isArray(value) && value.every(isLine);
}

/** Of a thing, not so long that nobody can have written it. */
function nameIn(value: unknown): ThingName | undefined {
  return typeof value === 'string' && value.length <= 500 ? value : undefined;
}
function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
function isName(value: unknown): value is ThingName {
  return typeof value === 'string' && value.length <= 500;
}
function isWhole(value: unknown): value is number {
  return typeof value === 'number' && Number.isSafeInteger(value);
}
