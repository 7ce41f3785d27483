import type { Leaning, Question } from '../../domain/model/layout.ts';
import type { Block } from '../../domain/model/source.ts';
import type { Layer } from '../../domain/rules/finding.ts';
import type * as ast from '../../generated/ast.ts';
import type { BlockDraft } from '../drafts.ts';
import type { ParsedBlock } from '../parse.ts';
import type { Problem } from '../problem.ts';
import type { LowerContext } from './context.ts';
import { createLowerContext } from './context.ts';
import { lowerGirder } from './girder.ts';
import { lowerConnector } from './hardware.ts';
import { lowerHouse, lowerLine, lowerSeismic, lowerSpace, lowerTypical, lowerWeights } from './house.ts';
import { lowerPrices } from './prices.ts';
import { lowerIssue, lowerRecord } from './record.ts';
import { lowerRuleSet } from './rule-set.ts';
import { lowerQuestion, lowerTitle } from './title.ts';
import { lowerWall } from './wall.ts';
import { lowerWork } from './work.ts';

export interface LoweredBlock {
  readonly draft: BlockDraft;
  readonly leanings: readonly Leaning[];
  readonly problems: readonly Problem[];
  /** `ask` lines of blocks whose drafts carry none. */
  readonly questions: readonly Question[];
}

/** What one block says by itself. Total: what could not be parsed is missing from the draft and told in the problems. */
export function lowerBlock(block: Block, parsed: ParsedBlock): LoweredBlock {
  const { tree } = parsed;
  const wall = tree?.$type === 'Wall' ? tree.name : tree?.$type === 'Work' ? tree.on : undefined;
  const context = createLowerContext(block, parsed.text, tree ? layers[tree.$type] : 'survey', wall);
  const draft = tree ? (lowerTree(tree, context) ?? nothing) : nothing;
  const syntaxProblems = parsed.problems.map((problem): Problem => {
    const span = { block, start: problem.start, end: problem.end };
    return {
      code: problem.code,
      severity: 'error',
      message: problem.message,
      span,
      related: [],
      replacements: (problem.replacements ?? []).map((each) => ({
        title: each.title,
        text: each.text,
        span: { block, start: each.start, end: each.end },
      })),
      ...(tree ? { layer: layers[tree.$type] } : {}),
      ...(wall === undefined ? {} : { wall }),
    };
  });
  return {
    draft,
    leanings: context.leanings,
    problems: [...syntaxProblems, ...context.problems],
    questions: tree ? questionsOf(tree, context) : [],
  };
}

/** A question belongs on the survey list wherever somebody wrote it. */
function questionsOf(tree: ast.Block, context: LowerContext): readonly Question[] {
  if (tree.$type === 'Use' || draftsWithQuestions.has(tree.$type)) return [];
  const about =
    tree.$type === 'ResistanceLine' ? `line:${tree.name}` : tree.$type === 'Space' ? `space:${tree.name}` : undefined;
  return tree.items.flatMap((item) =>
    item.$type === 'AskLine' ? lowerQuestion(item, context).map((question) => ({ ...question, about })) : [],
  );
}
const draftsWithQuestions: ReadonlySet<ast.Block['$type']> = new Set([
  'TitleBlock',
  'House',
  'Seismic',
  'Weights',
  'Wall',
  'Girder',
  'Work',
]);

const nothing: BlockDraft = { kind: 'nothing' };

function lowerTree(tree: ast.Block, context: LowerContext): BlockDraft | undefined {
  switch (tree.$type) {
    case 'Use':
      return tree.path === undefined
        ? undefined
        : { kind: 'use', path: tree.path, pathSource: context.spanOf(tree, 'path') };
    case 'TitleBlock':
      return lowerTitle(tree, context);
    case 'House':
      return lowerHouse(tree, context);
    case 'Seismic':
      return lowerSeismic(tree, context);
    case 'Weights':
      return lowerWeights(tree, context);
    case 'ResistanceLine':
      return lowerLine(tree, context);
    case 'Typical':
      return lowerTypical(tree, context);
    case 'Space':
      return lowerSpace(tree, context);
    case 'Wall':
      return lowerWall(tree, context);
    case 'Girder':
      return lowerGirder(tree, context);
    case 'Work':
      return lowerWork(tree, context);
    case 'DayRecord':
      return lowerRecord(tree, context);
    case 'Connector':
      return lowerConnector(tree, context);
    case 'RuleSet':
      return lowerRuleSet(tree, context);
    case 'Issue':
      return lowerIssue(tree, context);
    case 'Prices':
      return lowerPrices(tree, context);
  }
}

const layers: Readonly<Record<ast.Block['$type'], Layer>> = {
  Use: 'title',
  TitleBlock: 'title',
  House: 'survey',
  Seismic: 'survey',
  Weights: 'survey',
  ResistanceLine: 'survey',
  Typical: 'survey',
  Space: 'survey',
  Wall: 'survey',
  Girder: 'survey',
  Work: 'design',
  DayRecord: 'record',
  Issue: 'record',
  Connector: 'hardware',
  Prices: 'hardware',
  RuleSet: 'rules',
};
