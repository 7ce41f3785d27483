import type { Connector } from '../../domain/hardware/connector.ts';
import type {
  Girder,
  House,
  Layout,
  Leaning,
  NameReference,
  Post,
  Question,
  ResistanceLine,
  Title,
  Wall,
} from '../../domain/model/layout.ts';
import { degrees, noTags } from '../../domain/model/layout.ts';
import { distanceBetween, traverse } from '../../domain/model/outline.ts';
import { knownValue } from '../../domain/model/reading.ts';
import type { SourceMap } from '../../domain/model/source.ts';
import type { RuleSet, RulesInForce } from '../../domain/rulesets/rule-set.ts';
import { zero } from '../../domain/units/length.ts';
import type {
  BlockDraft,
  GirderDraft,
  HouseDraft,
  LineDraft,
  RecordDraft,
  TitleDraft,
  TypicalDraft,
  WallDraft,
  WorkDraft,
} from '../drafts.ts';
import type { Problem } from '../problem.ts';
import type { SheetBlock } from '../sheet.ts';
import type { Keeper } from './keeper.ts';
import { problemsOfLimits } from './limits.ts';
import { createStationFinder } from './stations.ts';
import type { MarkState, Say } from './wall.ts';
import { assembleWall, createThingNamer, nearestName } from './wall.ts';

export interface AssembledLayout {
  readonly layout: Layout;
  readonly problems: readonly Problem[];
}

/** Blocks in reading order: those of used files before those of the file that uses them; built-in data last. */
export interface VisibleBlocks {
  readonly blocks: readonly SheetBlock[];
  /** Of the shipped library; names here give way to the user's own. */
  readonly builtIn: readonly SheetBlock[];
  readonly sourceMap: SourceMap;
}

/** One house out of all blocks in sight. Total: what cannot be read is missing from it, with a problem; the rest stands. */
export function assembleLayout(visible: VisibleBlocks, keeper: Keeper): AssembledLayout {
  const problems: Problem[] = [];
  const say: Say = (problem) => problems.push({ severity: 'error', related: [], replacements: [], ...problem });
  const drafts = visible.blocks.map((block) => block.draft);
  const title = assembleTitle(drafts.filter(isKind('layout')), say);
  const typicals = drafts.filter(isKind('typical'));
  const typical = keeper.keep('typical', typicals, () => mergeTypical(typicals));
  const { connectors, problems: connectorProblems } = keeper.keep('connectors', connectorDrafts(visible), () =>
    assembleConnectors(visible),
  );
  for (const problem of connectorProblems) problems.push(problem);
  const ruleSets = drafts.filter(isKind('ruleset'));
  sayRuleSetsOfOneName(
    ruleSets.map((draft) => draft.ruleSet),
    say,
  );
  const builtInRuleSets = visible.builtIn.map((block) => block.draft).filter(isKind('ruleset'));
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

  const records = drafts.filter(isKind('record'));
  const markStates = keeper.keep('marks', records, () => statesOfMarks(records));
  const works = drafts.filter(isKind('work'));
  const worksByName = new Map<string, WorkDraft[]>();
  for (const work of works) {
    const key = work.on.name.toLowerCase();
    const own = worksByName.get(key);
    if (own) own.push(work);
    else worksByName.set(key, [work]);
  }
  sayMarksUsedTwice(works, say);
  const questions: Question[] = [];
  const wallDrafts = uniqueByName(drafts.filter(isKind('wall')), 'wall', say);
  const walls = wallDrafts.map((draft) => {
    const own = worksByName.get(draft.name.toLowerCase()) ?? [];
    const assembled = keeper.keep(
      `wall:${draft.name.toLowerCase()}`,
      [draft, typical, title.face, title.units, connectors, markStates, ...own],
      () => assembleWall({ draft, typical, works: own, face: title.face, units: title.units, connectors, markStates }),
    );
    for (const problem of assembled.problems) problems.push(problem);
    for (const question of assembled.questions) questions.push(question);
    return assembled.wall;
  });
  const placed = placeWalls(wallDrafts, walls, keeper);

  const girderDrafts = uniqueByName(drafts.filter(isKind('girder')), 'girder', say);
  const girders = girderDrafts.map((draft) =>
    assembleGirder(draft, worksByName.get(draft.name.toLowerCase()) ?? [], connectors, say),
  );
  const known = new Set([...wallDrafts, ...girderDrafts].map((draft) => draft.name.toLowerCase()));
  for (const work of works) {
    if (known.has(work.on.name.toLowerCase())) continue;
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

  const titleDrafts = drafts.filter(isKind('layout'));
  const houses = drafts.filter(isKind('house'));
  questions.push(
    ...[...titleDrafts, ...houses, ...girderDrafts].flatMap((draft) =>
      draft.questions.map((question) => ({
        ...question,
        about: draft.kind === 'girder' ? `girder:${draft.name}` : undefined,
      })),
    ),
  );
  const leanings = visible.blocks.flatMap((block) => block.leanings);
  const layout: Layout = {
    title,
    house: keeper.keep('house', houses, () => assembleHouse(houses)),
    walls: [
      ...placed.filter((wall) => wall.role === 'perimeter'),
      ...placed.filter((wall) => wall.role === 'interior'),
    ],
    lines: uniqueByName(drafts.filter(isKind('line')), 'line', say).map((draft) =>
      assembleLine(draft, wallDrafts, say),
    ),
    girders,
    spaces: drafts.filter(isKind('space')).map((draft) => draft.space),
    connectors,
    prices: [],
    rules: rules.inForce,
    record: [],
    issues: [],
    questions,
    assumptions: leanings.filter((leaning): leaning is Leaning => leaning.quality !== 'unknown'),
    unknowns: leanings.filter((leaning): leaning is Leaning => leaning.quality === 'unknown'),
    sourceMap: visible.sourceMap,
  };
  return { layout, problems };
}

function isKind<Kind extends BlockDraft['kind']>(kind: Kind) {
  return (draft: BlockDraft): draft is Extract<BlockDraft, { kind: Kind }> => draft.kind === kind;
}

function uniqueByName<Draft extends WallDraft | GirderDraft | LineDraft>(
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

/** Marks are sprayed on the concrete, and the record speaks of them without naming a wall. Two on one wall are told there. */
function sayMarksUsedTwice(works: readonly WorkDraft[], say: Say): void {
  const seen = new Map<string, { readonly mark: NameReference; readonly on: string }>();
  for (const { on, anchors, angles } of works) {
    for (const { name: mark } of [...anchors, ...angles]) {
      const key = mark.name.toLowerCase();
      const earlier = seen.get(key);
      if (!earlier) seen.set(key, { mark, on: on.name });
      else if (earlier.on.toLowerCase() !== on.name.toLowerCase()) {
        say({
          code: 'geometry/duplicate-mark',
          layer: 'design',
          message: `${mark.name} is a mark on ${earlier.on} already; a mark stands once in a house. Give this one another.`,
          span: mark.source,
          related: [{ span: earlier.mark.source, message: 'the first one' }],
        });
      }
    }
  }
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
    }),
    first,
  );
}

const connectorDrafts = (visible: VisibleBlocks): readonly BlockDraft[] =>
  [...visible.builtIn, ...visible.blocks].map((block) => block.draft).filter(isKind('connector'));

function assembleConnectors(visible: VisibleBlocks): {
  readonly connectors: ReadonlyMap<string, Connector>;
  readonly problems: readonly Problem[];
} {
  const problems: Problem[] = [];
  const connectors = new Map<string, Connector>();
  for (const draft of visible.builtIn.map((block) => block.draft).filter(isKind('connector'))) {
    connectors.set(draft.connector.name.toLowerCase(), draft.connector);
  }
  const own = new Map<string, Extract<BlockDraft, { kind: 'connector' }>>();
  for (const draft of visible.blocks.map((block) => block.draft).filter(isKind('connector'))) {
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

function statesOfMarks(records: readonly RecordDraft[]): ReadonlyMap<string, MarkState> {
  const states = new Map<string, MarkState>();
  const byDay = records.toSorted((a, b) => (a.date < b.date ? -1 : a.date > b.date ? 1 : 0));
  for (const event of byDay.flatMap((record) => record.events)) {
    // A failed test stays failed until something is installed anew under the mark.
    if (event.state === 'passed') continue;
    for (const mark of event.marks) states.set(mark.name.toLowerCase(), event.state);
  }
  return states;
}

/** Perimeter walls in plan as a traverse of adjusted lengths; interior walls where they say. */
function placeWalls(drafts: readonly WallDraft[], walls: readonly Wall[], keeper: Keeper): readonly Wall[] {
  const perimeter = drafts.filter((draft) => !draft.interior);
  const first = perimeter[0];
  const run = traverse({
    start: first?.from ?? { x: zero, y: zero },
    facing: first?.faces ?? degrees(0),
    walls: perimeter.map((draft) => ({
      length: knownValue(draft.adjusted) ?? knownValue(draft.taped),
      turn: draft.turn ?? degrees(90),
    })),
  });
  const plans = new Map(perimeter.map((draft, index) => [draft.name, run.walls[index]]));
  return walls.map((wall, index) => {
    const draft = drafts[index];
    const traversed = plans.get(wall.name);
    const ends = draft?.interior ? { from: draft.from, to: draft.to } : { from: traversed?.from, to: traversed?.to };
    if (!ends.from || !ends.to) return wall;
    const { from, to } = ends;
    return keeper.keep(`plan:${wall.name}`, [wall, from.x, from.y, to.x, to.y], () => ({
      ...wall,
      plan: { from, to },
    }));
  });
}

function assembleHouse(drafts: readonly HouseDraft[]): House {
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
    source: drafts[0]?.source,
  };
}

function assembleLine(draft: LineDraft, walls: readonly WallDraft[], say: Say): ResistanceLine {
  const known = new Set(walls.map((wall) => wall.name.toLowerCase()));
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
    tags: draft.tags,
    walls: draft.walls,
    storeys: draft.storeys,
    exempt: draft.exempt,
  };
}

function assembleGirder(
  draft: GirderDraft,
  works: readonly WorkDraft[],
  connectors: ReadonlyMap<string, Connector>,
  say: Say,
): Girder {
  const length = draft.from && draft.to ? distanceBetween(draft.from, draft.to) : undefined;
  const finder = createStationFinder(
    length,
    () => undefined,
    () => undefined,
  );
  const named = createThingNamer(draft.name, say);
  const hardware = works.flatMap((work) => work.postHardware);
  const posts = draft.posts.map((post): Post => {
    const thing = named('post', post);
    return {
      ...thing,
      station: finder.station(post.at),
      size: post.size,
      height: post.height,
      found: post.found,
      leans: post.leans,
      gap: post.gap,
      hardware: hardware
        .filter((each) => each.on.name.toLowerCase() === post.name?.name.toLowerCase())
        .map((each) => ({
          ...named(each.role, each),
          name: each.name.name,
          role: each.role,
          connectorName: each.connector.name,
          connector: connectors.get(each.connector.name.toLowerCase()),
          bothSides: each.bothSides,
          shim: each.shim,
        })),
    };
  });
  for (const each of hardware) {
    if (!draft.posts.some((post) => post.name?.name.toLowerCase() === each.on.name.toLowerCase())) {
      say({
        code: 'unresolved-name',
        layer: 'design',
        message: `No post \`${each.on.name}\` on girder ${draft.name}.`,
        span: each.on.source,
      });
    }
    if (!connectors.has(each.connector.name.toLowerCase())) {
      say({
        code: 'unresolved-name',
        layer: 'design',
        message: `No connector \`${each.connector.name}\` in this file or the files it uses.`,
        span: each.connector.source,
      });
    }
  }
  return {
    id: `girder:${draft.name}`,
    name: draft.name,
    source: draft.source,
    tags: draft.tags ?? noTags,
    size: draft.size,
    from: draft.from,
    to: draft.to,
    underside: draft.underside,
    posts,
    splices: draft.splices.flatMap((splice) => {
      const station = finder.station(splice.at);
      return station === undefined ? [] : [{ station, words: splice.words, source: splice.source }];
    }),
    ends: draft.ends,
  };
}
