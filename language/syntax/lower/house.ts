import type { Space } from '../../domain/model/layout.ts';
import { noTags } from '../../domain/model/layout.ts';
import type { Reading } from '../../domain/model/reading.ts';
import type { SourceSpan } from '../../domain/model/source.ts';
import type { Length } from '../../domain/units/length.ts';
import type { Dimension, Quantity } from '../../domain/units/quantity.ts';
import type * as ast from '../../generated/ast.ts';
import type { HouseDraft, LineDraft, QuestionDraft, SpaceDraft, TypicalDraft } from '../drafts.ts';
import type { LowerContext } from './context.ts';
import { panelWords } from './panel.ts';
import { sayRepeatedFacts } from './repeated-facts.ts';
import { storeysOf } from './storeys.ts';
import {
  blockTags,
  crippleWords,
  foundationWords,
  joistWords,
  leanOnUnknown,
  lowerFoundBlocking,
  rimWords,
  sillWords,
  tagsOf,
} from './stretches.ts';
import { lowerQuestion } from './title.ts';

export function lowerHouse(tree: ast.House, context: LowerContext): HouseDraft {
  sayRepeatedFacts(tree.items, context);
  const facts = new Map<string, Reading<Quantity>>();
  const words = new Map<string, readonly string[]>();
  const sources = new Map<string, SourceSpan>();
  const diagonals: HouseDraft['diagonals'][number][] = [];
  const questions: QuestionDraft[] = [];
  let floorUnderside: Reading<Length> | undefined;
  for (const item of tree.items) {
    switch (item.$type) {
      case 'HouseFact': {
        if (item.key === 'floor-underside') {
          floorUnderside = context.length(item.value, 'floor underside') ?? floorUnderside;
          if (floorUnderside) sources.set(item.key, context.span(item));
          break;
        }
        const fact = context.quantity(item.value, houseFacts[item.key].words, houseFacts[item.key].dimension);
        if (fact) sources.set(item.key, context.span(item));
        // What cannot be read is not known: its problem has been told, and silence would be told again.
        facts.set(item.key, fact ?? { kind: 'unknown', source: context.span(item) });
        break;
      }
      case 'HouseWords':
        sources.set(item.key, context.span(item));
        words.set(item.key, item.unknown ? ['unknown'] : item.words);
        if (item.unknown) leanOnUnknown(context, item.key.replaceAll('-', ' '), 'unknown', item);
        break;
      case 'Diagonal': {
        const from = context.point(item.from);
        const to = context.point(item.to);
        const taped = context.length(item.taped, 'a check diagonal');
        if (from && to && taped) diagonals.push({ from, to, taped, source: context.span(item) });
        break;
      }
      case 'AskLine':
        questions.push(...lowerQuestion(item, context));
        break;
      case 'AbsentLine':
        if (item.what !== undefined) {
          sources.set(item.what.toLowerCase(), context.span(item));
          words.set(item.what.toLowerCase(), ['none']);
        }
        break;
      case 'NoteLine':
      case 'PhotoLine':
        break;
    }
  }
  return { ...emptyHouse(tree, context), facts, words, sources, diagonals, questions, floorUnderside };
}

const houseFacts: Readonly<
  Record<Exclude<ast.HouseFactKey, 'floor-underside'>, { readonly words: string; readonly dimension: Dimension }>
> = {
  storeys: { words: 'number of storeys', dimension: 'number' },
  year: { words: 'year of building', dimension: 'number' },
  dwellings: { words: 'number of dwellings', dimension: 'number' },
  area: { words: 'floor area', dimension: 'area' },
  slope: { words: 'ground slope', dimension: 'share' },
};

export function lowerSeismic(tree: ast.Seismic, context: LowerContext): HouseDraft {
  sayRepeatedFacts(tree.items, context);
  const seismic = new Map<string, Reading<Quantity>>();
  const seismicWords = new Map<string, string>();
  const sources = new Map<string, SourceSpan>();
  const questions: QuestionDraft[] = [];
  for (const item of tree.items) {
    if (item.$type === 'SeismicFact' || item.$type === 'SeismicWord') sources.set(item.key, context.span(item));
    if (item.$type === 'SeismicFact') {
      const fact = context.quantity(item.value, item.key, 'number');
      if (fact) seismic.set(item.key, fact);
    } else if (item.$type === 'SeismicWord') {
      const word = item.unknown ? 'unknown' : item.word;
      if (word !== undefined) seismicWords.set(item.key, word);
      if (item.unknown) leanOnUnknown(context, item.key.replaceAll('-', ' '), 'unknown', item);
    } else if (item.$type === 'AskLine') questions.push(...lowerQuestion(item, context));
  }
  return { ...emptyHouse(tree, context), seismic, seismicWords, sources, questions };
}

export function lowerWeights(tree: ast.Weights, context: LowerContext): HouseDraft {
  sayRepeatedFacts(tree.items, context);
  const weights = new Map<string, Reading<Quantity>>();
  const sources = new Map<string, SourceSpan>();
  const questions: QuestionDraft[] = [];
  for (const item of tree.items) {
    if (item.$type === 'WeightFact') {
      sources.set(`weight of ${item.key}`, context.span(item));
      const fact = context.quantity(item.value, `weight of ${item.key}`, 'pressure');
      if (fact) weights.set(item.key, fact);
    } else if (item.$type === 'AskLine') questions.push(...lowerQuestion(item, context));
  }
  return { ...emptyHouse(tree, context), weights, sources, questions };
}

function emptyHouse(tree: ast.House | ast.Seismic | ast.Weights, context: LowerContext): HouseDraft {
  return {
    kind: 'house',
    source: context.span(tree),
    facts: new Map(),
    floorUnderside: undefined,
    words: new Map(),
    sources: new Map(),
    tags: blockTags(tree.items, context),
    seismic: new Map(),
    seismicWords: new Map(),
    weights: new Map(),
    diagonals: [],
    questions: [],
  };
}

export function lowerLine(tree: ast.ResistanceLine, context: LowerContext): LineDraft | undefined {
  if (tree.name === undefined) return undefined;
  const name = tree.name;
  let storeys: LineDraft['storeys'];
  let exempt: LineDraft['exempt'];
  const walls: LineDraft['walls'][number][] = [];
  for (const item of tree.items) {
    if (item.$type === 'LineWalls')
      walls.push(...item.walls.flatMap((_, index) => context.name(item, 'walls', index) ?? []));
    if (item.$type === 'LineStoreys') storeys = storeysOf(item, `storeys above line ${name}`, context);
    if (item.$type === 'LineExempt' && item.reason !== undefined)
      exempt = { from: item.from ?? 'all', reason: item.reason };
  }
  return {
    kind: 'line',
    name,
    label: tree.label,
    source: context.spanOf(tree, 'name'),
    walls,
    storeys,
    exempt,
    tags: blockTags(tree.items, context),
  };
}

export function lowerTypical(tree: ast.Typical, context: LowerContext): TypicalDraft {
  let draft: TypicalDraft = {
    kind: 'typical',
    foundation: {},
    sill: {},
    cripple: {},
    joists: {},
    rim: {},
    blocking: [],
    tags: blockTags(tree.items, context),
    panel: {},
    panelTags: noTags,
  };
  for (const item of tree.items) {
    switch (item.$type) {
      case 'FoundationStretch':
        draft = {
          ...draft,
          foundation: { ...draft.foundation, ...foundationWords(item, context, 'foundation, typical') },
        };
        break;
      case 'SillPiece':
        draft = { ...draft, sill: { ...draft.sill, ...sillWords(item, context, 'sill, typical') } };
        break;
      case 'CrippleStretch':
        draft = { ...draft, cripple: { ...draft.cripple, ...crippleWords(item, context, 'cripple wall, typical') } };
        break;
      case 'JoistRun':
        draft = { ...draft, joists: { ...draft.joists, ...joistWords(item, context, 'joists, typical') } };
        break;
      case 'Rim':
        draft = { ...draft, rim: { ...draft.rim, ...rimWords(item, context, 'rim, typical') } };
        break;
      case 'TypicalPanel':
        draft = {
          ...draft,
          panel: { ...draft.panel, ...panelWords(item.attributes, context, 'panels, typical') },
          panelTags: tagsOf(item.attributes, context),
        };
        for (const each of item.attributes) {
          if (each.$type === 'PanelWord') {
            context.say(
              'wrong-kind',
              '`proposed` speaks of one panel, not of all; write it on the panels that the tool may move.',
              context.span(each),
              { severity: 'warning' },
            );
          }
        }
        break;
      case 'FoundBlocking':
        draft = { ...draft, blocking: [...draft.blocking, ...lowerFoundBlocking(item, context, 'blocks, typical')] };
        break;
      case 'NoteLine':
      case 'PhotoLine':
      case 'AskLine':
        break;
    }
  }
  return draft;
}

export function lowerSpace(tree: ast.Space, context: LowerContext): SpaceDraft | undefined {
  if (tree.name === undefined) return undefined;
  const { name } = tree;
  let kind: Space['kind'];
  let from: Space['from'];
  let to: Space['to'];
  let clearHeight: Space['clearHeight'];
  let clearHeightTo: Space['clearHeightTo'];
  let access: Space['access'];
  for (const item of tree.items) {
    if (item.$type === 'SpaceKind') kind = item.kind;
    if (item.$type === 'SpaceArea') {
      from = context.point(item.from);
      to = context.point(item.to);
    }
    if (item.$type === 'ClearHeight') {
      const height = context.varying(item.height, `clear height of ${name}`);
      clearHeight = height?.first ?? clearHeight;
      clearHeightTo = height?.last;
    }
    if (item.$type === 'Access') {
      access = {
        wide: context.length(item.wide, `width of the access to ${name}`),
        tall: context.length(item.tall, `height of the access to ${name}`),
      };
    }
  }
  if (!kind) {
    context.say(
      'missing-part',
      `Say what kind of space ${name} is: \`crawl\`, \`basement\`, \`slab\`, \`garage\` or \`porch\`.`,
      context.spanOf(tree, 'name'),
    );
  }
  return {
    kind: 'space',
    space: {
      id: `space:${name}`,
      name,
      source: context.spanOf(tree, 'name'),
      tags: blockTags(tree.items, context),
      kind,
      from,
      to,
      clearHeight,
      ...(clearHeightTo ? { clearHeightTo } : {}),
      ...(access ? { access } : {}),
    },
  };
}
