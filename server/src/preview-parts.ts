import type { Range } from 'vscode-languageserver';
import type { Analysis } from '../../language/analysis.ts';
import type { Basis } from '../../language/domain/documents/basis.ts';
import { gapInWords, type ScheduleRow, scheduleOfWall } from '../../language/domain/documents/schedule.ts';
import { tablesOfGirder, tablesOfWall } from '../../language/domain/documents/schedules/all-schedules.ts';
import { wasInWords } from '../../language/domain/documents/schedules/built-columns.ts';
import { testsInWords } from '../../language/domain/documents/schedules/mark-record.ts';
import type { ScheduleTable } from '../../language/domain/documents/schedules/table.ts';
import { drawElevation } from '../../language/domain/drawing/elevation.ts';
import { drawGirder } from '../../language/domain/drawing/girder.ts';
import { type KeptParts, nothingKept } from '../../language/domain/drawing/kept-parts.ts';
import { numbered } from '../../language/domain/drawing/numbered-findings.ts';
import { planOfPane } from '../../language/domain/drawing/plan.ts';
import { createPlanMemory, type PlanMemory } from '../../language/domain/drawing/plan-memory.ts';
import type { GroupRole, Scene } from '../../language/domain/drawing/scene.ts';
import { sceneToPictureInSteps } from '../../language/domain/drawing/svg.ts';
import type { LengthUnits, Wall } from '../../language/domain/model/layout.ts';
import type { FileId } from '../../language/domain/model/source.ts';
import type { Finding } from '../../language/domain/rules/finding.ts';
import { finish, type Steps } from '../../language/domain/steps.ts';
import { formatStation } from '../../language/domain/units/format-length.ts';
import type {
  DrawingPart,
  ElevationPart,
  FindingLine,
  FindingsPart,
  FocusPart,
  FooterPart,
  HeaderPart,
  NoticePart,
  PreviewParts,
  SchedulePart,
  ScheduleSection,
} from '../../language/protocol/preview.ts';
import type { CursorPlace } from '../../language/protocol/requests.ts';
import { changedThings } from './changed-things.ts';
import type { ServerContext } from './context.ts';
import { describe } from './describe.ts';
import { type ElevationSubject, isAbout, subjectsOf } from './elevation-subject.ts';
import { findLineIn } from './find-line.ts';
import { rangeOfBoard } from './place-for-anchor.ts';
import { axisOf } from './station-axis.ts';
import type { UnderCursor } from './things.ts';

/** What the drawings of one pane keep from one text to the next. */
export interface PaneMemory {
  readonly plan: PlanMemory;
  readonly elevation: KeptParts;
}
export const createPaneMemory = (): PaneMemory => ({ plan: createPlanMemory(), elevation: nothingKept() });

export interface PreviewRequest {
  readonly uri: FileId;
  readonly place: CursorPlace | undefined;
  readonly cursor: UnderCursor | undefined;
  /** What the elevation shows. */
  readonly subject: ElevationSubject | undefined;
  readonly lastGood: Drawings | undefined;
  /** Where there is none of before: what can be drawn of it at once. */
  readonly firstPlan: (analysis: Analysis) => Plan;
  readonly memory: PaneMemory;
  /** Of the texts that were analysed. */
  readonly revision: number;
}

/** What a half-typed line would spoil. */
export interface Drawings {
  readonly analysis: Analysis;
  /** The wall or girder of the elevation. */
  readonly subject: string | undefined;
  readonly plan: Plan;
  readonly elevation: ElevationPart;
  /** What that was made of. */
  readonly elevationScene: Scene | undefined;
  readonly schedule: SchedulePart;
}

/** The house from above, as it was in some analysis. */
export interface Plan {
  readonly of: Analysis | undefined;
  readonly part: DrawingPart;
}

/** Of a large house that is just opened: the wall in sight comes first. */
export const planToCome: Plan = {
  of: undefined,
  part: { picture: null, empty: 'The plan is being drawn.', view: [0, 0, 1, 1], inch: 1 },
};

export interface PartsAndDrawings {
  readonly parts: PreviewParts;
  /** To keep for the next round: those of the last text that could be read. */
  readonly drawings: Drawings;
}

/**
 * Everything that the pane shows, of the present text; pure but for the positions that it looks up. But the plan is that of before,
 * where there is one: it takes as long as all the rest together, and follows when it is drawn (`planInSteps`).
 */
export function previewParts(context: ServerContext, analysis: Analysis, request: PreviewRequest): PartsAndDrawings {
  const { cursor, subject, lastGood } = request;
  const halfTyped = halfTypedLine(context, analysis, request.place);
  // The line that is being typed must not make the drawing jump: it stays as it was until the line reads or is left.
  const keep =
    lastGood !== undefined &&
    lastGood.subject === subject?.id &&
    (halfTyped !== undefined || lastGood.analysis === analysis);
  const drawings = keep ? lastGood : drawingsOf(context, analysis, request);
  const findings = findingsPart(context, analysis, request);
  const parts: PreviewParts = {
    header: headerOf(analysis, subject, cursor),
    notice: { ...noticeOf(context, analysis, request, halfTyped, keep), planIsDue: isPlanDue(drawings) },
    plan: drawings.plan.part,
    elevation: drawings.elevation,
    focus: focusOf(context, analysis, request, findings.lines),
    findings,
    schedule: drawings.schedule,
    footer: footerOf(analysis.basis),
  };
  return { parts, drawings };
}

/** What is drawn is another state of the house. */
export function isPlanDue({ analysis, plan }: Pick<Drawings, 'analysis' | 'plan'>): boolean {
  return plan.of !== analysis;
}

export function* planInSteps(analysis: Analysis, memory: PlanMemory): Steps<Plan> {
  const { layout, checked, basis } = analysis;
  const plan = layout.walls.length > 0 ? yield* planOfPane({ layout, checked, basis }, memory) : undefined;
  const part = yield* drawingPart(
    plan && withoutFurniture(plan),
    'There is no wall yet.',
    inchOnPaper('plan', layout.title.units),
  );
  return { of: analysis, part };
}

/** The line (from 1) of the cursor, where the text of that line cannot be read. */
function halfTypedLine(
  context: ServerContext,
  analysis: Analysis,
  cursor: CursorPlace | undefined,
): number | undefined {
  if (!cursor) return undefined;
  return unreadLines(context, analysis, cursor.uri).find((line) => line === cursor.line + 1);
}

function unreadLines(context: ServerContext, analysis: Analysis, uri: FileId): readonly number[] {
  return analysis.findings.flatMap((finding) => {
    if (!finding.rule.startsWith('language/') || finding.severity !== 'error') return [];
    const location = context.locationOf(analysis, finding.span);
    return location?.uri === uri ? [location.range.start.line + 1] : [];
  });
}

function noticeOf(
  context: ServerContext,
  analysis: Analysis,
  { uri, lastGood }: PreviewRequest,
  halfTyped: number | undefined,
  kept: boolean,
): Omit<NoticePart, 'planIsDue'> {
  if (halfTyped !== undefined) {
    const stale = kept && lastGood ? changedThings(lastGood.analysis.layout, analysis.layout) : [];
    const shown = !kept
      ? 'what it says is not drawn yet'
      : stale.length === 0
        ? 'the drawing shows the last text that could be read'
        : 'the drawing shows the last text that could be read, what changed since in grey dashes';
    return { text: `Line ${halfTyped} is half typed: ${shown}.`, stale };
  }
  const [first, ...others] = unreadLines(context, analysis, uri);
  if (first === undefined) return { text: undefined, stale: [] };
  const more = others.length > 0 ? ` (and ${others.length} more)` : '';
  return { text: `Line ${first}${more} cannot be read in full: what could not be read is not drawn.`, stale: [] };
}

function headerOf(
  analysis: Analysis,
  subject: ElevationSubject | undefined,
  cursor: UnderCursor | undefined,
): HeaderPart {
  const { layout, basis } = analysis;
  return {
    house: layout.title.name ?? 'Untitled layout',
    wall: subject?.name ?? '',
    mark: cursor?.on && cursor.on.thing.id !== subject?.id ? (cursor.on.thing.name ?? '') : '',
    counts: { ...basis.counts, accepted: basis.counts.accepted ?? 0 },
    subjects: subjectsOf(layout).map(({ id, name }) => ({ thing: id, name })),
  };
}

/** Up to the sentence on the basis and on demo values it is always in sight; nothing is left out. */
function footerOf({ lines, demo, stopped }: Basis): FooterPart {
  const sentences = lines.join(' ').split(/(?<=\.) (?=[A-Z0-9])/);
  const last = sentences.findLastIndex((sentence) => /^(Basis:|DEMO VALUES|Not for permit)/.test(sentence));
  return {
    always: sentences.slice(0, last + 1).join(' '),
    rest: sentences.slice(last + 1).join(' '),
    demo,
    stopped,
  };
}

function drawingsOf(
  context: ServerContext,
  analysis: Analysis,
  { subject, lastGood, firstPlan, memory }: PreviewRequest,
): Drawings {
  const { layout } = analysis;
  const elevation = subject && elevationOf(analysis, subject, memory.elevation);
  const elevationScene = elevation && withoutFurniture(elevation);
  const empty = subject ? `${subject.name} has no length yet.` : 'There is no wall yet.';
  const drawn = drawingPart(
    elevationScene,
    empty,
    inchOnPaper('elevation', layout.title.units),
    lastGood?.subject === subject?.id ? lastGood?.elevationScene : undefined,
  );
  return {
    analysis,
    subject: subject?.id,
    plan: lastGood?.plan ?? firstPlan(analysis),
    elevation: {
      ...finish(drawn),
      wall: subject?.id ?? '',
      axis: elevation && subject.kind === 'wall' ? axisOf(elevation, subject.of, layout) : null,
      title: subject
        ? `Elevation ${[subject.of.name, subject.of.label].filter(Boolean).join(' ')}, from ${subject.kind === 'wall' ? 'inside' : 'the side'}`
        : 'Elevation',
    },
    elevationScene,
    schedule: schedulePart(context, analysis, subject, memory.elevation),
  };
}

function elevationOf({ layout, checked, basis }: Analysis, subject: ElevationSubject, memory: KeptParts): Scene {
  return subject.kind === 'wall'
    ? drawElevation({ layout, checked, basis, wall: subject.of, memory }, 'pane')
    : drawGirder({ layout, checked, basis, girder: subject.of }, 'pane');
}

/** mm of paper for a true inch at the usual scale of the drawing: how fine a screen can show it hangs on that. */
function inchOnPaper(drawing: 'plan' | 'elevation', units: LengthUnits): number {
  const ratio = drawing === 'plan' ? { 'feet-inches': 48, metric: 50 } : { 'feet-inches': 24, metric: 25 };
  return 25.4 / ratio[units];
}

/** The pane has a heading, a schedule and a footer of its own. */
const leftOut: ReadonlySet<GroupRole | undefined> = new Set(['heading', 'list', 'legend', 'basis']);

function withoutFurniture(scene: Scene): Scene {
  return { ...scene, nodes: scene.nodes.filter((node) => node.kind !== 'group' || !leftOut.has(node.role)) };
}

function* drawingPart(scene: Scene | undefined, empty: string, inch: number, before?: Scene): Steps<DrawingPart> {
  if (!scene) return { picture: null, empty, view: [0, 0, 1, 1], inch };
  const { x, y, width, height } = scene.regions.drawing ?? { x: 0, y: 0, width: scene.width, height: scene.height };
  const picture = yield* sceneToPictureInSteps(scene, before);
  return { picture, empty: '', view: [x, y, width, height], inch };
}

const mostFindings = 6;

const lineAt = (line: number): Range => ({ start: { line, character: 0 }, end: { line: line + 1, character: 0 } });

function focusOf(
  context: ServerContext,
  analysis: Analysis,
  { place, cursor, subject }: PreviewRequest,
  lines: readonly FindingLine[],
): FocusPart {
  const on = cursor?.on;
  const description = on && describe(analysis, on);
  const document = place && analysis.files.includes(place.uri) ? context.documentOf(analysis, place.uri) : undefined;
  const source = document && place ? document.getText(lineAt(place.line)) : '';
  const findings = findingsOf(lines, on?.thing.id);
  return {
    wall: subject?.id ?? '',
    thing: on?.thing.id ?? '',
    line: place ? place.line + 1 : 0,
    source: source.trim(),
    mark: description?.mark ?? '',
    station: description?.station ?? '',
    summary: description?.summary ?? '',
    facts: description?.facts ?? [],
    range: on?.kind === 'anchor' ? rangeOfBoard(analysis.layout, on.wall, on.thing) : null,
    findings: findings.slice(0, mostFindings),
    more: Math.max(0, findings.length - mostFindings),
  };
}

/** Of the thing first, then the worst first. */
function findingsOf(lines: readonly FindingLine[], thing: string | undefined): readonly FindingLine[] {
  return lines.toSorted(
    (a, b) => Number(b.thing === thing) - Number(a.thing === thing) || rank[a.severity] - rank[b.severity],
  );
}

function findingsPart(
  context: ServerContext,
  analysis: Analysis,
  { uri, subject, revision }: PreviewRequest,
): FindingsPart {
  return {
    wall: subject?.id ?? '',
    revision,
    lines: subject ? linesOf(context, analysis, uri, subject) : [],
  };
}

/** With the numbers that their markers have in the elevation. */
function linesOf(
  context: ServerContext,
  analysis: Analysis,
  uri: FileId,
  subject: ElevationSubject,
): readonly FindingLine[] {
  const places = new Map(
    analysis.findings.flatMap((finding, index) => (isAbout(subject, finding) ? [[finding, index] as const] : [])),
  );
  return numbered([...places.keys()]).map(({ finding, number }) =>
    findingLine(context, analysis, uri, finding, { number, finding: places.get(finding) ?? 0 }),
  );
}

const rank: Readonly<Record<FindingLine['severity'], number>> = { stop: 0, error: 1, warning: 2, info: 3, accepted: 4 };

function findingLine(
  context: ServerContext,
  analysis: Analysis,
  uri: FileId,
  finding: Finding,
  counted: Pick<FindingLine, 'number' | 'finding'>,
): FindingLine {
  const location = context.locationOf(analysis, finding.span);
  return {
    severity: finding.accepted === undefined ? finding.severity : 'accepted',
    rule: finding.rule,
    message: finding.message,
    thing: finding.thing ?? '',
    line: location?.uri === uri ? location.range.start.line + 1 : 0,
    ...counted,
  };
}

function schedulePart(
  context: ServerContext,
  analysis: Analysis,
  subject: ElevationSubject | undefined,
  memory: KeptParts,
): SchedulePart {
  if (!subject) return { wall: '', title: 'Schedules', sections: [] };
  const findLine = findLineIn(context, analysis);
  if (subject.kind === 'girder') {
    const tables = tablesOfGirder(analysis.layout, subject.of, analysis.checked, findLine);
    return {
      wall: subject.of.name,
      title: `Schedules of girder ${subject.of.name}`,
      sections: tables.map(sectionOf).filter(({ rows }) => rows.length > 0),
    };
  }
  const wall = subject.of;
  const tables = tablesOfWall(analysis.layout, wall, analysis.checked, findLine, memory);
  return {
    wall: wall.name,
    title: `Schedules of wall ${wall.name}`,
    sections: [connectorSection(context, analysis, wall), ...tables.map(sectionOf)].filter(
      ({ rows }) => rows.length > 0,
    ),
  };
}

function connectorSection(context: ServerContext, analysis: Analysis, wall: Wall): ScheduleSection {
  const { layout, checked } = analysis;
  const { units } = layout.title;
  const rows = scheduleOfWall(layout, wall, checked);
  const columns: readonly (readonly [heading: string, cell: (row: ScheduleRow) => string])[] = [
    ['mark', (row) => row.mark],
    ['station', (row) => (row.station === undefined ? '?' : formatStation(row.station, units))],
    ['was', (row) => wasInWords(row, units).replace(/^was (?=\d)/, '')],
    ['kind', (row) => row.kind],
    ['size', (row) => row.size],
    ['gap left', (row) => gapInWords(row.gapLeft, units)],
    ['gap right', (row) => gapInWords(row.gapRight, units)],
    ['embed', (row) => row.embed],
    ['with', (row) => row.added],
    ['state', (row) => row.state],
    ['tested', (row) => testsInWords(row.record)],
    ['reason', (row) => (row.record.omitted ?? row.record.installed)?.event.reason ?? ''],
    ['findings', (row) => (row.findings > 0 ? String(row.findings) : '')],
    ['line', (row) => lineOf(context, analysis, row)],
  ];
  // A column in which nothing stands only takes room.
  const filled = columns.filter(([, cell]) => rows.some((row) => cell(row) !== ''));
  return {
    title: 'Connectors',
    columns: filled.map(([heading]) => heading),
    rows: rows.map((row) => ({
      thing: row.thing,
      cells: filled.map(([, cell]) => cell(row)),
      crossed: row.state === 'omitted',
    })),
  };
}

const sections = new WeakMap<ScheduleTable, ScheduleSection>();

function sectionOf(table: ScheduleTable): ScheduleSection {
  const section = sections.get(table) ?? makeSection(table);
  sections.set(table, section);
  return section;
}

/** The wall stands in the heading. */
function makeSection({ caption, columns, rows }: ScheduleTable): ScheduleSection {
  const state = columns.findIndex(({ key }) => key === 'state');
  const shown = columns.flatMap(({ key, heading }, at) =>
    heading === undefined || key === 'wall' || rows.every(({ cells }) => (cells[at]?.text ?? '') === '')
      ? []
      : [{ heading: heading.toLowerCase(), at }],
  );
  return {
    title: caption,
    columns: shown.map(({ heading }) => heading),
    rows: rows.map(({ thing, cells }) => ({
      thing: thing ?? '',
      cells: shown.map(({ at }) => cells[at]?.text ?? ''),
      crossed: cells[state]?.text === 'omitted',
    })),
  };
}

function lineOf(context: ServerContext, analysis: Analysis, row: ScheduleRow): string {
  const location = context.locationOf(analysis, row.source);
  return location ? String(location.range.start.line + 1) : '';
}
