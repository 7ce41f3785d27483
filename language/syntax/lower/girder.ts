import type * as ast from '../../generated/ast.ts';
import type { GirderDraft } from '../drafts.ts';
import type { LowerContext } from './context.ts';
import { illegible } from './context.ts';
import { blockTags, leanOnUnknown, tagsOf } from './stretches.ts';
import { lowerAcceptance, lowerQuestion } from './title.ts';

export function lowerGirder(tree: ast.Girder, context: LowerContext): GirderDraft | undefined {
  if (tree.name === undefined) return undefined;
  const { name } = tree;
  const posts: GirderDraft['posts'][number][] = [];
  const splices: GirderDraft['splices'][number][] = [];
  const ends = new Map<'start' | 'end', string>();
  const spans: GirderDraft['spans'][number][] = [];
  const questions: GirderDraft['questions'][number][] = [];
  const accepted: GirderDraft['accepted'][number][] = [];
  let size: GirderDraft['size'];
  let from: GirderDraft['from'];
  let to: GirderDraft['to'];
  let underside: GirderDraft['underside'];
  for (const item of tree.items) {
    switch (item.$type) {
      case 'GirderSize':
        size = context.size(item.size, `girder ${name}`) ?? size;
        break;
      case 'GirderEnds':
        from = context.point(item.from);
        to = context.point(item.to);
        break;
      case 'GirderUnderside':
        underside = context.length(item.underside, `underside of girder ${name}`) ?? underside;
        break;
      case 'Post':
        posts.push(lowerPost(item, context));
        break;
      case 'Splice': {
        const at = context.station(item.at, `a splice of girder ${name}`);
        if (at) splices.push({ at, words: item.words, source: context.span(item) });
        break;
      }
      case 'EndRest':
        if (item.end && item.rest) ends.set(item.end, item.rest);
        if (item.rest === 'unknown')
          leanOnUnknown(context, `what the ${item.end} of girder ${name} rests on`, item.rest, item);
        break;
      case 'AskLine':
        questions.push(...lowerQuestion(item, context));
        break;
      case 'Acceptance':
        accepted.push(...lowerAcceptance(item, context));
        break;
      case 'GirderSpans':
        for (const value of item.spans) {
          const span = context.length(value, `span of girder ${name}`);
          if (span) spans.push(span);
        }
        break;
      case 'NoteLine':
      case 'PhotoLine':
      case 'TagLine':
        break;
    }
  }
  return {
    kind: 'girder',
    name,
    label: tree.label,
    source: context.spanOf(tree, 'name'),
    size,
    from,
    to,
    underside,
    posts,
    splices,
    ends,
    spans,
    questions,
    accepted,
    tags: blockTags(tree.items, context),
  };
}

function lowerPost(item: ast.Post, context: LowerContext): GirderDraft['posts'][number] {
  const what = item.name === undefined ? 'a post' : `post ${item.name}`;
  const found = new Map<'cap' | 'base' | 'pier' | 'footing', readonly string[]>();
  const lengths = new Map<string, ReturnType<LowerContext['length']>>();
  let gap: ReturnType<LowerContext['length']>;
  let leansPer: ReturnType<LowerContext['length']>;
  for (const each of item.attributes) {
    if (each.$type === 'PostDimension') {
      lengths.set(each.key, context.length(each.value, `${each.key} of ${what}`));
      if (each.key === 'height' && each.per) {
        context.say('wrong-kind', 'A height is measured whole; `per` goes with `leans`.', context.span(each.per));
      } else leansPer = context.length(each.per, `${each.key} of ${what}`) ?? leansPer;
    }
    if (each.$type === 'PostTie') {
      found.set(each.key, each.words);
      if (each.words.includes('unknown')) leanOnUnknown(context, `${each.key} of ${what}`, 'unknown', each);
    }
    if (each.$type === 'PostGap') gap = context.length(each.gap, `gap at ${what}`);
  }
  return {
    name: context.name(item, 'name'),
    at: context.station(item.at, what) ?? illegible(context.span(item)),
    size: context.size(item.size, what),
    height: lengths.get('height'),
    found,
    leans: lengths.get('leans') ?? lengths.get('out-of-plumb'),
    leansPer,
    gap,
    tags: tagsOf(item.attributes, context),
    source: context.span(item),
  };
}
