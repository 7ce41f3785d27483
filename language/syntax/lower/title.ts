import type { DateFact, Face, LengthUnits, NameReference, TitleFact } from '../../domain/model/layout.ts';
import { noTags } from '../../domain/model/layout.ts';
import type * as ast from '../../generated/ast.ts';
import type { AcceptanceDraft, QuestionDraft, TitleDraft } from '../drafts.ts';
import type { LowerContext } from './context.ts';
import { sayRepeatedFacts } from './repeated-facts.ts';
import { blockTags } from './stretches.ts';

export function lowerTitle(tree: ast.TitleBlock, context: LowerContext): TitleDraft {
  sayRepeatedFacts(tree.items, context);
  const facts = new Map<TitleFact, string>();
  let units: LengthUnits | undefined;
  let face: Face | undefined;
  let surveyed: DateFact | undefined;
  let prepared: DateFact | undefined;
  let engineered = false;
  let inspectionBy: string | undefined;
  const ruleSets: NameReference[] = [];
  const accepted: AcceptanceDraft[] = [];
  const questions: QuestionDraft[] = [];
  for (const item of tree.items) {
    switch (item.$type) {
      case 'TitleText': {
        const text = item.unknown ? 'unknown' : item.text;
        if (text !== undefined) facts.set(item.key, text);
        break;
      }
      case 'UnitsFact':
        units = item.units ?? units;
        break;
      case 'FaceFact':
        face = item.face ?? face;
        break;
      case 'RulesFact':
        ruleSets.push(...item.rules.flatMap((_, index) => context.name(item, 'rules', index) ?? []));
        break;
      case 'DateFact': {
        const fact: DateFact = {
          date: item.unknown ? 'unknown' : (context.date(item, 'date') ?? 'unknown'),
          by: item.by,
          purpose: item.purpose,
        };
        if (item.key === 'surveyed') surveyed = fact;
        else prepared = fact;
        break;
      }
      case 'InspectionFact':
        if (item.required) facts.set('special-inspection', item.required);
        inspectionBy = context.tags(item.tags).by ?? inspectionBy;
        break;
      case 'SheetsFact':
        engineered = item.sheets === 'engineered';
        break;
      case 'Acceptance':
        for (const each of lowerAcceptance(item, context)) {
          if (!each.at) accepted.push(each);
          // Without its station it would accept far more than somebody looked at.
          else
            context.say(
              'wrong-kind',
              'A station says nothing without its wall: move this line to the wall, or take the station out.',
              each.source,
            );
        }
        break;
      case 'AskLine':
        questions.push(...lowerQuestion(item, context));
        break;
      case 'NoteLine':
      case 'PhotoLine':
        break;
    }
  }
  return {
    kind: 'layout',
    name: tree.name ?? '',
    source: context.span(tree),
    facts,
    units,
    face,
    ruleSets,
    surveyed,
    prepared,
    engineered,
    inspectionBy,
    tags: blockTags(tree.items, context),
    accepted,
    questions,
  };
}

export function lowerAcceptance(item: ast.Acceptance, context: LowerContext): readonly AcceptanceDraft[] {
  if (item.rule === undefined) return [];
  if (item.reason === undefined || item.reason.trim() === '') {
    context.say(
      'missing-part',
      `Say why ${item.rule} is accepted: \`because "…"\`. Without a reason the finding stays.`,
      context.span(item),
    );
    return [];
  }
  const accepted = {
    rule: item.rule.toLowerCase(),
    on: item.on,
    reason: item.reason,
    tags: context.tags(item.tags),
    source: context.span(item),
  };
  const places = item.where && 'at' in item.where ? item.where.at : [];
  if (places.length === 0) return [{ ...accepted, at: undefined }];
  return places.map((place) => ({ ...accepted, at: context.station(place, 'an accepted finding') }));
}

export function lowerQuestion(item: ast.AskLine, context: LowerContext): readonly QuestionDraft[] {
  if (item.question === undefined) return [];
  const tags = context.tags(item.tags);
  return [{ text: item.question, source: context.span(item), ...(tags === noTags ? {} : { tags }) }];
}
