import { partsAsTheyWere } from '../../domain/as-it-was.ts';
import type { Connector } from '../../domain/hardware/connector.ts';
import type { PriceList } from '../../domain/hardware/prices.ts';
import { changedPlaces, joined, sameList } from '../../domain/list-in-runs.ts';
import type {
  House,
  Layout,
  Leaning,
  MicroDegrees,
  NameReference,
  Question,
  ResistanceLine,
  Tags,
  Title,
  Wall,
} from '../../domain/model/layout.ts';
import { degrees, noTags } from '../../domain/model/layout.ts';
import type { Traverse } from '../../domain/model/outline.ts';
import { traverse } from '../../domain/model/outline.ts';
import type { Reading } from '../../domain/model/reading.ts';
import { knownValue } from '../../domain/model/reading.ts';
import type { SourceMap, SourceSpan } from '../../domain/model/source.ts';
import type { RuleSet, RulesInForce } from '../../domain/rulesets/rule-set.ts';
import { withoutSpareRoom } from '../../domain/spare-room.ts';
import type { Steps } from '../../domain/steps.ts';
import { formatBoth } from '../../domain/units/format-length.ts';
import type { Length } from '../../domain/units/length.ts';
import { zero } from '../../domain/units/length.ts';
import type { Quantity } from '../../domain/units/quantity.ts';
import type {
  GirderDraft,
  HouseDraft,
  LineDraft,
  PricesDraft,
  QuestionDraft,
  TitleDraft,
  TypicalDraft,
  WorkDraft,
} from '../drafts.ts';
import type { DraftInBrief, WallInBrief, WorkInBrief } from '../in-brief.ts';
import { createLetGo, wholeWall, wholeWork } from '../in-brief.ts';
import type { Problem } from '../problem.ts';
import type { SheetBlock } from '../sheet.ts';
import { assembleGirder } from './girder.ts';
import type { Keeper } from './keeper.ts';
import { problemsOfLimits } from './limits.ts';
import type { DatedEvent, EventPlaces, MarksInSight } from './record.ts';
import { assembleRecord, eventsByOwner, marksInSight, namesInWords, statesOfMarks, wallRecordOf } from './record.ts';
import type { AssembledWall, Say } from './wall.ts';
import { assembleWall, nearestName } from './wall.ts';

export interface AssembledLayout {
  readonly layout: Layout;
  /** Rule sets by name as if the title block chose them; `undefined` where one of them is not in sight. */
  readonly rulesNamed: (names: readonly string[]) => RulesInForce | undefined;
  /** Every rule set in sight, the shipped ones included, by name. */
  readonly ruleSetNames: readonly string[];
  readonly problems: readonly Problem[];
}

/** Blocks in reading order: those of used files before those of the file that uses them; built-in data last. */
export interface VisibleBlocks {
  readonly blocks: readonly RunOfBlocks[];
  /** Of the shipped library; names here give way to the user's own. */
  readonly builtIn: readonly SheetBlock[];
  readonly sourceMap: SourceMap;
}

/**
 * One house out of all blocks in sight, leaving off after each wall that had to be made anew, and a few times before and behind them,
 * where lists of the whole house are made. Total: what cannot be read is missing from it, with a problem; the rest stands.
 */
export function* assembleLayoutInSteps(visible: VisibleBlocks, keeper: Keeper): Steps<AssembledLayout> {
  const parts = yield* layoutInParts(visible, keeper);
  for (let wall = 0; wall < parts.walls; wall += 1) if (parts.assemble(wall)) yield;
  return yield* parts.whole();
}

interface LayoutInParts {
  /** How many. */
  readonly walls: number;
  /** Each once and in order; true where it is not the one from before. */
  assemble(wall: number): boolean;
  whole(): Steps<AssembledLayout>;
}

function* layoutInParts(visible: VisibleBlocks, keeper: Keeper): Steps<LayoutInParts> {
  const problems: Problem[] = [];
  const say: Say = (problem) => problems.push({ severity: 'error', related: [], replacements: [], ...problem });
  /** Keeps a part of the house with what there was to say of it. */
  const keepTelling = <T>(key: string, inputs: readonly unknown[], make: (say: Say) => T): T => {
    const kept = keeper.keep(key, inputs, () => {
      const own: Problem[] = [];
      const value = make((problem) => own.push({ severity: 'error', related: [], replacements: [], ...problem }));
      return { value, problems: own };
    });
    for (const problem of kept.problems) problems.push(problem);
    return kept.value;
  };
  const { keepList } = keeper;
  const drafts = draftsIn(visible.blocks, keeper);
  const builtInDrafts = keeper.keep('built in', [visible.builtIn], () => sortedOut(visible.builtIn, undefined).drafts);
  const titleDrafts = drafts.layout;
  const title = keepTelling('title', titleDrafts, (sayOfTitle) => assembleTitle(titleDrafts, sayOfTitle));
  const typicals = drafts.typical;
  const typical = keeper.keep('typical', typicals, () => mergeTypical(typicals));
  const { connectors, problems: connectorProblems } = keeper.keep(
    'connectors',
    [builtInDrafts, ...drafts.connector],
    () => assembleConnectors(builtInDrafts.connector, drafts.connector),
  );
  for (const problem of connectorProblems) problems.push(problem);
  const ruleSets = drafts.ruleset;
  sayRuleSetsOfOneName(
    ruleSets.map((draft) => draft.ruleSet),
    say,
  );
  const builtInRuleSets = builtInDrafts.ruleset;
  const rules = keeper.keep('rules', [title.ruleSets, ...ruleSets, ...builtInRuleSets], () =>
    assembleRules(
      title.ruleSets,
      ruleSets.map((draft) => draft.ruleSet),
      builtInRuleSets.map((draft) => draft.ruleSet),
    ),
  );
  problems.push(
    ...keeper.keep('limits', ruleSets, () =>
      problemsOfLimits(
        ruleSets.map((draft) => draft.ruleSet),
        builtInRuleSets.map((draft) => draft.ruleSet),
      ),
    ),
  );
  for (const reference of rules.unresolved) {
    say({
      code: 'unresolved-name',
      layer: 'title',
      message: `No rule set \`${reference.name}\` in this file, the files it uses or the shipped ones.`,
      span: reference.source,
      replacements: nearestName(
        reference,
        [...ruleSets, ...builtInRuleSets].map((draft) => draft.ruleSet.name),
      ),
    });
  }

  yield;
  const records = drafts.record;
  const markStates = keeper.keep('marks', records, () => statesOfMarks(records));
  const issues = drafts.issue;
  const works = drafts.work;
  const worksInWords = keeper.keepRuns('works in words', works, worksToWords);
  const worksByName = keeper.keep(
    'works by name',
    worksInWords.map((run) => run.names),
    () => placesByName(works.map((work) => work.on.name)),
  );
  const worksOn = (key: string): readonly WorkInBrief[] =>
    worksByName.get(key)?.flatMap((index) => works[index] ?? []) ?? noWorks;
  const sharers = keeper
    .keep(
      'works that share marks',
      worksInWords.map((run) => run.named),
      () => worksThatShareMarks(works),
    )
    .flatMap((index) => works[index] ?? []);
  if (sharers.length > 0) keepTelling('marks used twice', sharers, (own) => sayMarksUsedTwice(sharers, own));
  yield;
  const wallsInWords = keeper.keepRuns('walls in words', drafts.wall, wallsToWords);
  const wallNamesInWords = wallsInWords.map((run) => run.names);
  const areToldApart = keeper.keep(
    'walls told apart',
    wallNamesInWords,
    () => placesByName(drafts.wall.map((draft) => draft.name)).size === drafts.wall.length,
  );
  const wallDrafts = areToldApart
    ? drafts.wall
    : keepTelling('walls of one name', drafts.wall, (own) => uniqueByName(drafts.wall, 'wall', own));
  const girderDrafts = keepTelling('girders told apart', drafts.girder, (own) =>
    uniqueByName(drafts.girder, 'girder', own),
  );
  const wallNames = keeper.keep('wall names', wallNamesInWords, () => wallDrafts.map((draft) => draft.name));
  const wallKeys = keeper.keep('wall keys', [wallNames], () => wallNames.map((name) => name.toLowerCase()));
  const speaksOfMarks = records.length + issues.length > 0;
  const marks = keeper.keep(
    'marks in sight',
    speaksOfMarks
      ? [...worksInWords, ...wallsInWords].map((run) => run.named).concat(girderDrafts.map(namesInWords))
      : [],
    () => (speaksOfMarks ? marksInSight(wallDrafts, girderDrafts, works) : noMarks),
  );
  yield;
  const events = keeper.keep('events', [marks, ...records], () => eventsByOwner(records, marks));
  const common = keeper.keep('common to walls', [typical, title.face, title.units, connectors], () => ({}));
  const planInWords = [wallNames, ...wallsInWords.map((run) => run.plan)];
  const run = keeper.keep('traverse', planInWords, () => traversed(wallDrafts));
  const plans = keeper.keep('plans', [run, wallNames], () => plansByName(wallDrafts, run));
  const rests: RestOfWalls = { common, events, wallKeys, worksByName, works, wallDrafts };
  const memory = keeper.keep('walls of the last round', [], (): { last: WallsTogether | undefined } => ({
    last: undefined,
  }));
  const letGo = keeper.keep('drafts in use', [], createLetGo);
  const assembledWalls = memory.last?.assembled.slice() ?? [];
  const due = wallsDue(memory.last, rests, keeper);
  const assemble = (place: number): boolean => {
    const index = due[place] ?? 0;
    const draft = wallDrafts[index];
    const key = wallKeys[index];
    if (!draft || key === undefined) return false;
    const own = worksOn(key);
    // Of the record, only what speaks of this wall: a day's work on another one leaves it as it was.
    const ownEvents = events.get(key) ?? noEvents;
    let isNew = false;
    assembledWalls[index] = keeper.keep(draft, [common, ...ownEvents.flatMap(eachOfEvent), ...own], () => {
      isNew = true;
      const record = wallRecordOf(draft.name, ownEvents);
      const made = assembleWall({
        draft: wholeWall(draft),
        plan: planOf(draft, plans),
        typical,
        works: own.map(wholeWork),
        face: title.face,
        units: title.units,
        connectors,
        markStates: record.states,
        record,
      });
      const before = memory.last?.assembled[index]?.wall;
      const wall = withoutSpareRoom(made.wall);
      return withoutSpareRoom({ ...made, wall: before?.id === wall.id ? partsAsTheyWere(before, wall) : wall });
    });
    if (isNew) letGo([draft, ...own]);
    return isNew;
  };
  return { walls: due.length, assemble, whole };

  function* whole(): Steps<AssembledLayout> {
    yield;
    assembledWalls.length = wallDrafts.length;
    const assembled = memory.last ? sameList(memory.last.assembled, assembledWalls) : assembledWalls;
    const told = keeper.keepRuns('told of walls', assembled, toldOfWalls);
    for (const run of told) for (const problem of run.problems) problems.push(problem);
    const onWalls = joined(told.map((run) => run.questions));
    const placesByWall = joined(told.map((run) => run.places));
    keepTelling('places not used', [run, wallDrafts], (own) => sayPlacesNotUsed(wallDrafts, run, own));
    const placed = placeWalls(wallDrafts, assembled, plans, memory.last);
    memory.last = { ...rests, assembled, plans, placed };
    yield;

    const girders = girderDrafts.map((draft) => {
      const key = draft.name.toLowerCase();
      const own = worksOn(key);
      return keepTelling(`girder:${key}`, [draft, connectors, markStates, ...own], (sayOfGirder) =>
        assembleGirder({ draft, works: own.map(wholeWork), connectors, states: markStates, say: sayOfGirder }),
      );
    });
    const girderNames = new Map(girderDrafts.map((draft) => [draft.name.toLowerCase(), draft.name]));
    const besideWalls = keeper.keep('works beside walls', [worksByName, wallKeys], () => {
      const onWalls = new Set(wallKeys);
      return works.flatMap((work, index) => (onWalls.has(work.on.name.toLowerCase()) ? [] : [index]));
    });
    for (const index of besideWalls) {
      const work = works[index];
      if (!work || girderNames.has(work.on.name.toLowerCase())) continue;
      say({
        code: 'unresolved-name',
        layer: 'design',
        message: `No wall or girder \`${work.on.name}\` to work on, in this file or the files it uses.`,
        span: work.on.source,
        replacements: nearestName(
          work.on,
          [...wallDrafts, ...girderDrafts].map((draft) => draft.name),
        ),
      });
    }

    const questions: Question[] = [...onWalls];
    const houses = drafts.house;
    keepTelling('disagreements', houses, (sayOfHouse) => sayDisagreements(houses, sayOfHouse));
    for (const draft of [...titleDrafts, ...houses, ...girderDrafts]) {
      if (draft.questions.length === 0) continue;
      const about = draft.kind === 'girder' ? `girder:${draft.name}` : undefined;
      for (const question of questionsAbout(draft.questions, about)) questions.push(question);
    }
    // Walls have brought in those of their own work.
    for (const index of besideWalls) {
      const work = works[index];
      if (!work) continue;
      const girder = girderNames.get(work.on.name.toLowerCase());
      const about = girder === undefined ? undefined : `girder:${girder}`;
      for (const question of questionsAbout(work.questions, about)) questions.push(question);
    }
    for (const run of visible.blocks) for (const question of run.questions) questions.push(question);
    yield;
    const leanings = joinedByName('leanings', visible.blocks, (run) => run.leanings, keeper);
    const order = keeper.keep('order of walls', planInWords, () => outlineFirst(wallDrafts));
    const lineDrafts = keepTelling('lines told apart', drafts.line, (own) => uniqueByName(drafts.line, 'line', own));
    const lines = lineDrafts.map((draft) =>
      keepTelling(`line:${draft.name}`, [draft, wallNames], (sayOfLine) => assembleLine(draft, wallNames, sayOfLine)),
    );
    const layout: Layout = {
      title,
      house: keeper.keep('house', [...houses, ...typicals], () => assembleHouse(houses, typicals)),
      walls: keepList(
        'walls',
        order.flatMap((index) => placed[index] ?? []),
      ),
      lines: keepList('lines', lines),
      girders: keepList('girders', girders),
      spaces: keepList(
        'spaces',
        drafts.space.map((draft) => draft.space),
      ),
      connectors,
      prices: keepTelling('prices', drafts.prices, (sayOfPrices) => pricesByName(drafts.prices, sayOfPrices)),
      rules: rules.inForce,
      ...keepTelling(
        'record',
        [...records, ...issues, marks, wallNames, connectors, ...girderDrafts, ...placesByWall],
        (sayOfRecord) =>
          assembleRecord({
            records,
            issues,
            marks,
            walls: wallNames,
            girders: girderDrafts,
            connectors,
            places: new Map(placesByWall.flatMap((own) => [...own])),
            say: sayOfRecord,
          }),
      ),
      questions: keepList('questions', questions),
      assumptions: keeper.keep('assumptions', [leanings], () =>
        leanings.filter((leaning): leaning is Leaning => leaning.quality !== 'unknown'),
      ),
      unknowns: keeper.keep('unknowns', [leanings], () =>
        leanings.filter((leaning): leaning is Leaning => leaning.quality === 'unknown'),
      ),
      sourceMap: visible.sourceMap,
    };
    const rulesNamed = (names: readonly string[]): RulesInForce | undefined => {
      const { inForce, unresolved } = assembleRules(
        names.map((name) => ({ name, source: nowhere })),
        ruleSets.map((draft) => draft.ruleSet),
        builtInRuleSets.map((draft) => draft.ruleSet),
      );
      return unresolved.length > 0 ? undefined : inForce;
    };
    const ruleSetNames = [...ruleSets, ...builtInRuleSets].map((draft) => draft.ruleSet.name);
    return { layout, rulesNamed, ruleSetNames, problems };
  }
}

const noWorks: readonly WorkInBrief[] = [];

/** Where in a list each name stands, whatever its case. */
function placesByName(names: readonly string[]): ReadonlyMap<string, readonly number[]> {
  const places = new Map<string, number[]>();
  for (const [index, name] of names.entries()) {
    const key = name.toLowerCase();
    const own = places.get(key);
    if (own) own.push(index);
    else places.set(key, [index]);
  }
  return places;
}
const nowhere: SourceSpan = { block: { file: '', key: '' }, start: 0, end: 0 };

const noMarks: MarksInSight = { owners: new Map(), written: [] };

// ---- blocks, many of them, by what they bring

type DraftsByKind = { readonly [Kind in DraftInBrief['kind']]: readonly Extract<DraftInBrief, { kind: Kind }>[] };

/** What a run of blocks brings, by its kind. Lists of which an edit changes no member stay the same objects. */
export interface RunOfBlocks {
  readonly drafts: DraftsByKind;
  readonly leanings: readonly Leaning[];
  readonly questions: readonly Question[];
  readonly problems: readonly Problem[];
}

const noDrafts: DraftsByKind = {
  ...{ nothing: [], use: [], layout: [], house: [], line: [], typical: [], space: [], wall: [], girder: [], work: [] },
  ...{ record: [], issue: [], prices: [], connector: [], ruleset: [] },
};
const kinds = Object.keys(noDrafts) as readonly DraftInBrief['kind'][];

export function sortedOut(blocks: readonly SheetBlock[], before: RunOfBlocks | undefined): RunOfBlocks {
  const drafts: { [Kind in DraftInBrief['kind']]?: DraftInBrief[] } = {};
  const leanings: Leaning[] = [];
  const questions: Question[] = [];
  const problems: Problem[] = [];
  for (const block of blocks) {
    const { draft } = block;
    const ofKind = drafts[draft.kind];
    if (ofKind) ofKind.push(draft);
    else drafts[draft.kind] = [draft];
    leanings.push(...block.leanings);
    questions.push(...block.questions);
    problems.push(...block.problems);
  }
  const lists = kinds.map((kind) => [
    kind,
    sameList<DraftInBrief>((before?.drafts ?? noDrafts)[kind], drafts[kind] ?? []),
  ]);
  return {
    drafts: Object.fromEntries(lists) as DraftsByKind,
    leanings: sameList(before?.leanings, leanings),
    questions: sameList(before?.questions, questions),
    problems: sameList(before?.problems, problems),
  };
}

function draftsIn(runs: readonly RunOfBlocks[], keeper: Keeper): DraftsByKind {
  const lists = kinds.map((kind) => [
    kind,
    joinedByName<DraftInBrief>(`${kind} blocks`, runs, (run) => run.drafts[kind], keeper),
  ]);
  return Object.fromEntries(lists) as DraftsByKind;
}

function joinedByName<Member>(
  name: string,
  runs: readonly RunOfBlocks[],
  listIn: (run: RunOfBlocks) => readonly Member[],
  keeper: Keeper,
): readonly Member[] {
  const lists = runs.map(listIn).filter((list) => list.length > 0);
  return keeper.keep(name, lists, () => joined(lists));
}

// ---- walls, many of them, one by one

/** All that walls are made of. */
interface RestOfWalls {
  readonly common: object;
  readonly events: ReadonlyMap<string, readonly DatedEvent[]>;
  readonly wallKeys: readonly string[];
  readonly worksByName: ReadonlyMap<string, readonly number[]>;
  readonly works: readonly WorkInBrief[];
  readonly wallDrafts: readonly WallInBrief[];
}

/** The walls of a round that came to its end. */
interface WallsTogether extends RestOfWalls {
  readonly assembled: readonly AssembledWall[];
  readonly plans: PlansByName;
  /** With their places in plan. */
  readonly placed: readonly Wall[];
}

/** The places in the list of those that may have become others. */
function wallsDue(last: WallsTogether | undefined, now: RestOfWalls, keeper: Keeper): readonly number[] {
  const { common, events, wallKeys, worksByName, works, wallDrafts } = now;
  const isAllDue =
    !last ||
    last.common !== common ||
    last.events !== events ||
    last.wallKeys !== wallKeys ||
    last.worksByName !== worksByName;
  if (isAllDue) return [...wallKeys.keys()];
  const places = keeper.keep('wall places', [wallKeys], () => new Map(wallKeys.map((key, index) => [key, index])));
  const due = new Set(changedPlaces(last.wallDrafts, wallDrafts));
  for (const place of changedPlaces(last.works, works)) {
    const wall = places.get(works[place]?.on.name.toLowerCase() ?? '');
    if (wall !== undefined) due.add(wall);
  }
  return [...due];
}

const noEvents: readonly DatedEvent[] = [];
const eachOfEvent = ({ date, event }: DatedEvent): readonly unknown[] => [date, event];

/** What there is to say of a run of walls beside the walls themselves. */
interface ToldOfWalls {
  readonly problems: readonly Problem[];
  readonly questions: readonly Question[];
  readonly places: readonly EventPlaces[];
}

function toldOfWalls(walls: readonly AssembledWall[], before: ToldOfWalls | undefined): ToldOfWalls {
  return {
    problems: walls.flatMap((wall) => wall.problems),
    questions: walls.flatMap((wall) => wall.questions),
    places: sameList(
      before?.places,
      walls.flatMap((wall) => (wall.places.size > 0 ? [wall.places] : [])),
    ),
  };
}

/** What the walls of a run give to others, each in words: most edits leave these lists as they are. */
interface WallsInWords {
  readonly names: readonly string[];
  /** All that the outline is walked by, and which walls are part of it. */
  readonly plan: readonly string[];
  /** All that `marksInSight` takes of them. */
  readonly named: readonly string[];
}

function wallsToWords(walls: readonly WallInBrief[], before: WallsInWords | undefined): WallsInWords {
  return {
    names: sameList(
      before?.names,
      walls.map((wall) => wall.name),
    ),
    plan: sameList(before?.plan, walls.map(planInWords)),
    named: sameList(before?.named, walls.map(namesInWords)),
  };
}

function planInWords(wall: WallInBrief): string {
  if (wall.interior) return 'interior';
  return [wall.from?.x, wall.from?.y, wall.faces, lengthInPlan(wall), turnInPlan(wall)].join(' ');
}

/** The same of works. */
interface WorksInWords {
  readonly names: readonly string[];
  readonly named: readonly string[];
}

function worksToWords(works: readonly WorkInBrief[], before: WorksInWords | undefined): WorksInWords {
  return {
    names: sameList(
      before?.names,
      works.map((work) => work.on.name),
    ),
    named: sameList(before?.named, works.map(namesInWords)),
  };
}

const knownQuestions = new WeakMap<readonly QuestionDraft[], readonly Question[]>();

/** Of one block, whose name stays while the block does. */
function questionsAbout(drafted: readonly QuestionDraft[], about: Question['about']): readonly Question[] {
  const known = knownQuestions.get(drafted);
  if (known && known[0]?.about === about) return known;
  const questions = drafted.map((question): Question => ({ ...question, about }));
  knownQuestions.set(drafted, questions);
  return questions;
}

function uniqueByName<Draft extends WallInBrief | GirderDraft | LineDraft>(
  drafts: readonly Draft[],
  kind: string,
  say: Say,
): readonly Draft[] {
  const seen = new Map<string, Draft>();
  for (const draft of drafts) {
    const key = draft.name.toLowerCase();
    const earlier = seen.get(key);
    if (!earlier) {
      seen.set(key, draft);
      continue;
    }
    say({
      code: 'duplicate-name',
      message: `There are two ${kind}s called ${draft.name}; the first one is drawn and checked. Give this one another name.`,
      span: 'nameSource' in draft ? draft.nameSource : draft.source,
      related: [{ span: 'nameSource' in earlier ? earlier.nameSource : earlier.source, message: 'the first one' }],
    });
  }
  return [...seen.values()];
}

/** Where those stand in the list that have a mark which stands twice. */
function worksThatShareMarks(works: readonly WorkInBrief[]): readonly number[] {
  const places = new Map<string, number[]>();
  for (const [index, { names }] of works.entries()) {
    for (const name of names) {
      const key = name.toLowerCase();
      const own = places.get(key);
      if (own) own.push(index);
      else places.set(key, [index]);
    }
  }
  return [...new Set([...places.values()].filter((own) => own.length > 1).flat())].sort((a, b) => a - b);
}

/**
 * Marks are sprayed on the concrete, and the record speaks of them without naming a wall: one stands once in a house, whatever
 * it marks. Two of one kind on one wall are told there.
 */
function sayMarksUsedTwice(works: readonly WorkInBrief[], say: Say): void {
  const seen = new Map<string, Mark>();
  for (const mark of works.flatMap((work) => marksOf(wholeWork(work)))) {
    const key = mark.name.name.toLowerCase();
    const earlier = seen.get(key);
    if (!earlier) {
      seen.set(key, mark);
      continue;
    }
    const together = earlier.on.toLowerCase() === mark.on.toLowerCase();
    if (together && earlier.kind === mark.kind) continue;
    say({
      code: 'geometry/duplicate-mark',
      layer: 'design',
      message: `${mark.name.name} is a mark${together ? ` of ${earlier.words}` : ''} on ${earlier.on} already; a mark stands once in a house. Give this one another.`,
      span: mark.name.source,
      related: [{ span: earlier.name.source, message: 'the first one' }],
    });
  }
}

interface Mark {
  readonly name: NameReference;
  readonly on: string;
  readonly kind: string;
  /** What it marks. */
  readonly words: string;
}

function marksOf(work: WorkDraft): readonly Mark[] {
  const marked =
    (kind: string, words: string) =>
    (each: { readonly name: NameReference }): Mark => ({
      name: each.name,
      on: work.on.name,
      kind,
      words,
    });
  return [
    ...work.anchors.map(marked('anchor', 'an anchor')),
    ...work.angles.map(marked('angles', 'angles')),
    ...work.panels.map(marked('panel', 'a panel')),
    ...work.ties.map((tie) => marked(tie.kind, `a ${tie.kind}`)(tie)),
    ...work.postHardware.map((each) => marked(each.role, `a ${each.role}`)(each)),
  ];
}

function assembleTitle(drafts: readonly TitleDraft[], say: Say): Title {
  const [draft, second] = drafts;
  if (draft && second) {
    say({
      code: 'duplicate-name',
      layer: 'title',
      message: 'A house has one title block; the first one is used. Delete this one or move its lines up.',
      span: second.source,
      related: [{ span: draft.source, message: 'the first one' }],
    });
  }
  return {
    name: draft?.name,
    units: draft?.units ?? 'feet-inches',
    face: draft?.face ?? 'outside',
    ruleSets: draft?.ruleSets ?? noRuleSets,
    facts: draft?.facts ?? new Map(),
    surveyed: draft?.surveyed,
    prepared: draft?.prepared,
    engineered: draft?.engineered ?? false,
    ...(draft?.inspectionBy === undefined ? {} : { specialInspectionBy: draft.inspectionBy }),
    ...(!draft || draft.tags === noTags ? {} : { tags: draft.tags }),
    accepted: draft?.accepted.map(({ at: _nowhere, ...rest }) => ({ ...rest, station: undefined })) ?? [],
    source: draft?.source,
  };
}
const noRuleSets: readonly NameReference[] = [];

/** Later words win, block by block and attribute by attribute. */
function mergeTypical(drafts: readonly TypicalDraft[]): TypicalDraft | undefined {
  const [first, ...rest] = drafts;
  if (!first || rest.length === 0) return first;
  return rest.reduce(
    (merged, next) => ({
      kind: 'typical',
      foundation: { ...merged.foundation, ...next.foundation },
      sill: { ...merged.sill, ...next.sill },
      cripple: { ...merged.cripple, ...next.cripple },
      joists: { ...merged.joists, ...next.joists },
      rim: { ...merged.rim, ...next.rim },
      blocking: next.blocking.length > 0 ? next.blocking : merged.blocking,
      tags: merged.tags,
      panel: { ...merged.panel, ...next.panel },
      panelTags: next.panelTags === noTags ? merged.panelTags : next.panelTags,
    }),
    first,
  );
}

type ConnectorDraft = Extract<DraftInBrief, { kind: 'connector' }>;

function assembleConnectors(
  builtIn: readonly ConnectorDraft[],
  drafts: readonly ConnectorDraft[],
): { readonly connectors: ReadonlyMap<string, Connector>; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const connectors = new Map<string, Connector>();
  for (const draft of builtIn) connectors.set(draft.connector.name.toLowerCase(), draft.connector);
  const own = new Map<string, ConnectorDraft>();
  for (const draft of drafts) {
    const key = draft.connector.name.toLowerCase();
    const earlier = own.get(key);
    if (earlier && earlier.connector.source.block.file === draft.connector.source.block.file) {
      problems.push({
        code: 'duplicate-name',
        severity: 'error',
        layer: 'hardware',
        message: `There are two connectors called ${draft.connector.name}; the last one counts. Give one of them another name.`,
        span: draft.nameSource,
        related: [{ span: earlier.nameSource, message: 'the first one' }],
        replacements: [],
      });
    }
    own.set(key, draft);
    connectors.set(key, draft.connector);
  }
  return { connectors, problems };
}

/** A file may put a set of its own in place of one that it uses; two in one file are a slip. */
function sayRuleSetsOfOneName(ruleSets: readonly RuleSet[], say: Say): void {
  const seen = new Map<string, RuleSet>();
  for (const ruleSet of ruleSets) {
    const key = ruleSet.name.toLowerCase();
    const earlier = seen.get(key);
    seen.set(key, ruleSet);
    if (!earlier || earlier.source.block.file !== ruleSet.source.block.file) continue;
    say({
      code: 'duplicate-name',
      layer: 'rules',
      message: `There are two rule sets called ${ruleSet.name}; the last one counts. Give one of them another name.`,
      span: ruleSet.source,
      related: [{ span: earlier.source, message: 'the first one' }],
    });
  }
}

/** Always in force without being named: reach of tools, distances to services, tolerance. */
const SHOP_LIMITS = 'shop-limits';

function assembleRules(
  chosen: readonly NameReference[],
  own: readonly RuleSet[],
  builtIn: readonly RuleSet[],
): { readonly inForce: RulesInForce; readonly unresolved: readonly NameReference[] } {
  const byName = new Map([...builtIn, ...own].map((ruleSet) => [ruleSet.name.toLowerCase(), ruleSet]));
  const shopLimits = byName.get(SHOP_LIMITS);
  const found: RuleSet[] = shopLimits ? [shopLimits] : [];
  const unresolved: NameReference[] = [];
  for (const reference of chosen) {
    const ruleSet = byName.get(reference.name.toLowerCase());
    if (!ruleSet) unresolved.push(reference);
    else if (!found.includes(ruleSet)) found.push(ruleSet);
  }
  return { inForce: { chosen: found, limits: found.flatMap((ruleSet) => ruleSet.limits) }, unresolved };
}

/** A file may put a list of its own in place of one that it uses; two in one file are a slip. */
function pricesByName(drafts: readonly PricesDraft[], say: Say): readonly PriceList[] {
  const lists = new Map<string, PriceList>();
  for (const { prices } of drafts) {
    const key = prices.name.toLowerCase();
    const earlier = lists.get(key);
    if (earlier && earlier.source.block.file === prices.source.block.file) {
      say({
        code: 'duplicate-name',
        layer: 'hardware',
        message: `There are two price lists called ${prices.name}; the last one counts. Give one of them another name.`,
        span: prices.source,
        related: [{ span: earlier.source, message: 'the first one' }],
      });
    }
    lists.set(key, prices);
  }
  return [...lists.values()];
}

/** Past the first wall, a perimeter wall lies where the tape and the turns lead. What is written against that is told. */
function sayPlaceNotUsed(draft: WallInBrief, runs: MicroDegrees, first: string, say: Say): void {
  const warn = (message: string): void =>
    say({ code: 'wrong-kind', severity: 'warning', wall: draft.name, message, span: draft.nameSource });
  if (draft.faces !== undefined) {
    const off = Math.abs(((draft.faces + RIGHT_ANGLE - runs + 6 * RIGHT_ANGLE) % (4 * RIGHT_ANGLE)) - 2 * RIGHT_ANGLE);
    if (off > RIGHT_ANGLE / 2) {
      const faces = compassWord(runs - RIGHT_ANGLE);
      warn(
        `By its turns from wall ${first} on, wall ${draft.name} faces ${faces}, not as its heading says; mend \`turn\` or \`faces\`.`,
      );
    }
  }
  if (draft.from) {
    warn(
      `The outline starts at wall ${first}, so \`from\` on wall ${draft.name} is not used; delete it, or write \`interior\`.`,
    );
  }
}
function sayEndNotUsed(draft: WallInBrief, say: Say): void {
  say({
    code: 'wrong-kind',
    severity: 'warning',
    wall: draft.name,
    message: `Wall ${draft.name} ends where its length leads, so \`to\` is not used; delete it, or write \`interior\`.`,
    span: draft.nameSource,
  });
}
const RIGHT_ANGLE = degrees(90);

function compassWord(facing: number): string {
  const quarter = Math.round((facing + 4 * RIGHT_ANGLE) / RIGHT_ANGLE) % 4;
  return ['north', 'east', 'south', 'west'][quarter] ?? 'north';
}

const lengthInPlan = (wall: WallInBrief): Length | undefined => knownValue(wall.adjusted) ?? knownValue(wall.taped);
const turnInPlan = (wall: WallInBrief): MicroDegrees => wall.turn ?? degrees(90);
const perimeterOf = (walls: readonly WallInBrief[]): readonly WallInBrief[] => walls.filter((wall) => !wall.interior);

/** Perimeter walls in plan as a traverse of adjusted lengths. */
function traversed(walls: readonly WallInBrief[]): Traverse {
  const perimeter = perimeterOf(walls);
  const [first] = perimeter;
  return traverse({
    start: first?.from ?? { x: zero, y: zero },
    facing: first?.faces ?? degrees(0),
    walls: perimeter.map((wall) => ({ length: lengthInPlan(wall), turn: turnInPlan(wall) })),
  });
}

function sayPlacesNotUsed(walls: readonly WallInBrief[], run: Traverse, say: Say): void {
  const perimeter = perimeterOf(walls);
  for (const [index, draft] of perimeter.entries()) {
    const runs = run.walls[index]?.heading;
    if (index > 0 && runs !== undefined) sayPlaceNotUsed(draft, runs, perimeter[0]?.name ?? '', say);
    if (draft.to) sayEndNotUsed(draft, say);
  }
}

type EndsInPlan = Pick<WallInBrief, 'from' | 'to'>;
type PlansByName = ReadonlyMap<string, EndsInPlan | undefined>;

function plansByName(walls: readonly WallInBrief[], run: Traverse): PlansByName {
  return new Map(perimeterOf(walls).map((draft, index) => [draft.name, run.walls[index]]));
}

/** Where each stands in the list, the outline before the walls inside it. */
function outlineFirst(walls: readonly WallInBrief[]): readonly number[] {
  const places = [...walls.keys()];
  const isInside = (place: number): boolean => walls[place]?.interior === true;
  return [...places.filter((place) => !isInside(place)), ...places.filter(isInside)];
}

/** Walls of the outline as it was walked round, others where they say. */
function placeWalls(
  drafts: readonly WallInBrief[],
  assembled: readonly AssembledWall[],
  plans: PlansByName,
  last: WallsTogether | undefined,
): readonly Wall[] {
  const placeNext = (index: number): Wall[] => {
    const draft = drafts[index];
    const wall = assembled[index]?.wall;
    return draft && wall ? [placedWall(wall, planOf(draft, plans))] : [];
  };
  if (last?.plans !== plans || last.assembled.length !== assembled.length) return [...drafts.keys()].flatMap(placeNext);
  const placed = last.placed.slice();
  for (const index of changedPlaces(last.assembled, assembled)) placed.splice(index, 1, ...placeNext(index));
  return placed;
}

/** A perimeter wall lies where the outline was walked, another where it says. */
function planOf(draft: WallInBrief, plans: PlansByName): Wall['plan'] {
  const { from, to } = (draft.interior ? draft : plans.get(draft.name)) ?? {};
  return from && to && { from, to };
}

/** The traverse is walked anew when a length changes; walls before it stay where they are. */
function placedWall(wall: Wall, plan: Wall['plan']): Wall {
  if (isSamePlace(wall.plan, plan)) return wall;
  const before = placedWalls.get(wall);
  if (before && isSamePlace(before.plan, plan)) return before;
  const placed = { ...wall, plan };
  placedWalls.set(wall, placed);
  return placed;
}

/** Those that were moved since, by the wall as it was assembled. */
const placedWalls = new WeakMap<Wall, Wall>();

function isSamePlace(a: Wall['plan'], b: Wall['plan']): boolean {
  return a?.from.x === b?.from.x && a?.from.y === b?.from.y && a?.to.x === b?.to.x && a?.to.y === b?.to.y;
}

function assembleHouse(drafts: readonly HouseDraft[], typicals: readonly TypicalDraft[]): House {
  const merged = <T>(pick: (draft: HouseDraft) => ReadonlyMap<string, T>): ReadonlyMap<string, T> =>
    new Map(drafts.flatMap((draft) => [...pick(draft)]));
  const facts = merged((draft) => draft.facts);
  const count = (key: string): House['storeys'] => {
    const fact = facts.get(key);
    if (!fact || fact.kind === 'unknown') return fact;
    return { ...fact, value: fact.value.amount };
  };
  return {
    storeys: count('storeys'),
    year: count('year'),
    dwellings: count('dwellings'),
    area: facts.get('area'),
    slope: facts.get('slope'),
    floorUnderside: drafts.findLast((draft) => draft.floorUnderside)?.floorUnderside,
    words: merged((draft) => draft.words),
    seismic: merged((draft) => draft.seismic),
    seismicWords: merged((draft) => draft.seismicWords),
    weights: merged((draft) => draft.weights),
    diagonals: drafts.flatMap((draft) => draft.diagonals),
    ...tagsOfHouse([...drafts, ...typicals]),
    source: drafts[0]?.source,
  };
}

/** What is noted beside the facts of the house, and beside what is typical of it. */
function tagsOfHouse(drafts: readonly { readonly tags: Tags }[]): Pick<House, 'tags'> {
  const notes = drafts.flatMap((draft) => draft.tags.notes);
  const photos = drafts.flatMap((draft) => draft.tags.photos);
  return notes.length === 0 && photos.length === 0 ? {} : { tags: { ...noTags, notes, photos } };
}

/** Two blocks may each say a part of the house; where they say the same thing differently, one of them is wrong. */
function sayDisagreements(drafts: readonly HouseDraft[], say: Say): void {
  const seen = new Map<string, { readonly value: string; readonly span: SourceSpan }>();
  for (const draft of drafts) {
    for (const [fact, value] of factsInWords(draft)) {
      const span = draft.sources.get(fact);
      // Of what cannot be read there is nothing to hold against another block.
      if (!span) continue;
      const earlier = seen.get(fact);
      if (earlier && earlier.value !== value && earlier.value !== 'unknown') {
        say({
          code: 'repeated-word',
          severity: 'warning',
          message: `\`${fact}\` is ${value} here and ${earlier.value} in another block; the last one counts. Delete one.`,
          span,
          related: [{ span: earlier.span, message: earlier.value }],
        });
      }
      seen.set(fact, { value, span });
    }
  }
}

/** As typed where a value stands; two ways of writing one value are the same. */
function factsInWords(draft: HouseDraft): readonly (readonly [string, string])[] {
  const quantity = (reading: Reading<Quantity>): string =>
    reading.kind === 'unknown' ? 'unknown' : reading.typed.replace(/\s+/g, ' ');
  const underside = draft.floorUnderside;
  return [
    ...[...draft.facts, ...draft.seismic].map(([key, reading]) => [key, quantity(reading)] as const),
    ...[...draft.weights].map(([key, reading]) => [`weight of ${key}`, quantity(reading)] as const),
    ...[...draft.words].map(([key, words]) => [key, words.join(' ').toLowerCase()] as const),
    ...[...draft.seismicWords].map(([key, word]) => [key, word.toLowerCase()] as const),
    ...(underside
      ? [['floor-underside', underside.kind === 'unknown' ? 'unknown' : formatBoth(underside.value)] as const]
      : []),
  ];
}

function assembleLine(draft: LineDraft, wallNames: readonly string[], say: Say): ResistanceLine {
  const known = new Set(wallNames.map((name) => name.toLowerCase()));
  for (const reference of draft.walls) {
    if (known.has(reference.name.toLowerCase())) continue;
    say({
      code: 'unresolved-name',
      message: `Line ${draft.name} names wall \`${reference.name}\`, which is not in this file or the files it uses.`,
      span: reference.source,
    });
  }
  return {
    id: `line:${draft.name}`,
    name: draft.name,
    source: draft.source,
    ...(draft.label === undefined ? {} : { label: draft.label }),
    tags: draft.tags,
    walls: draft.walls,
    storeys: draft.storeys,
    exempt: draft.exempt,
  };
}
