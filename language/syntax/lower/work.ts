import type * as ast from '../../generated/ast.ts';
import type { WorkDraft } from '../drafts.ts';
import type { LowerContext } from './context.ts';
import { lineOf, lowerBays, sillWords, tagsOf } from './stretches.ts';
import { lowerAcceptance } from './title.ts';

/** What will be built on one wall or girder. Panels and ties are read by the grammar and not yet modelled. */
export function lowerWork(tree: ast.Work, context: LowerContext): WorkDraft | undefined {
  const on = context.name(tree, 'on');
  if (!on) return undefined;
  const anchors: WorkDraft['anchors'][number][] = [];
  const angles: WorkDraft['angles'][number][] = [];
  const studs: WorkDraft['studs'][number][] = [];
  const blocking: WorkDraft['blocking'][number][] = [];
  const postHardware: WorkDraft['postHardware'][number][] = [];
  const replacedSills: WorkDraft['replacedSills'][number][] = [];
  const removed: WorkDraft['removed'][number][] = [];
  const accepted: WorkDraft['accepted'][number][] = [];
  let noWork: WorkDraft['noWork'];
  for (const item of tree.items) {
    switch (item.$type) {
      case 'NewAnchor': {
        const name = context.name(item, 'name');
        if (name) anchors.push(lowerAnchor(item, name, context));
        break;
      }
      case 'Angles':
        angles.push(...lowerAngles(item, context));
        break;
      case 'NewStud':
        for (const each of item.at) {
          const at = context.station(each, 'a new stud');
          if (at)
            studs.push({
              at,
              size: context.size(item.size, 'a new stud'),
              tags: tagsOf(item.attributes, context),
              source: context.span(item),
            });
        }
        break;
      case 'NewBlocking': {
        const bays = lowerBays(item.bays, context);
        const size = item.attributes.find((each) => each.$type === 'SizeAttribute');
        if (bays) {
          blocking.push({
            bays,
            size: size?.$type === 'SizeAttribute' ? context.size(size.size, 'new blocks') : undefined,
            tags: tagsOf(item.attributes, context),
            source: context.span(item),
          });
        }
        break;
      }
      case 'PostHardware': {
        const name = context.name(item, 'name');
        const connector = context.name(item, 'connector');
        const post = context.name(item, 'on');
        if (name && connector && post) {
          const shim = item.attributes.find((each) => each.$type === 'NewWorkDimension' && each.key === 'shim');
          postHardware.push({
            role: item.role,
            name,
            connector,
            on: post,
            bothSides: item.attributes.some((each) => each.$type === 'NewWorkWord' && each.word === 'both-sides'),
            shim: shim?.$type === 'NewWorkDimension' ? context.length(shim.value, `shim of ${name.name}`) : undefined,
            tags: tagsOf(item.attributes, context),
            source: context.span(item),
          });
        }
        break;
      }
      case 'Replacement': {
        if (item.what !== 'sill' || item.verb !== 'replace') break;
        const what = item.name === undefined ? `new sill on ${on.name}` : `new sill ${item.name}`;
        const where = item.where && 'at' in item.where ? undefined : item.where;
        replacedSills.push(
          lineOf(
            {
              $type: item.$type,
              attributes: item.attributes,
              ...(where ? { where } : {}),
              ...(item.$cstNode ? { $cstNode: item.$cstNode } : {}),
            },
            sillWords(item, context, what),
            context,
            what,
            context.name(item, 'name'),
          ),
        );
        break;
      }
      case 'FoundThingWork': {
        const thing = context.name(item, 'on');
        if (thing && item.verb === 'remove') removed.push(thing);
        break;
      }
      case 'NoWork':
        if (item.reason !== undefined) noWork = { reason: item.reason, source: context.span(item) };
        break;
      case 'Acceptance':
        accepted.push(...lowerAcceptance(item, context));
        break;
      case 'Panel':
      case 'HoldDown':
      case 'NoteLine':
      case 'PhotoLine':
      case 'AskLine':
        break;
    }
  }
  return {
    kind: 'work',
    on,
    source: context.span(tree),
    headingSource: on.source,
    anchors,
    angles,
    studs,
    blocking,
    postHardware,
    replacedSills,
    removed,
    noWork,
    accepted,
  };
}

function lowerAnchor(
  item: ast.NewAnchor,
  name: WorkDraft['anchors'][number]['name'],
  context: LowerContext,
): WorkDraft['anchors'][number] {
  const what = `anchor ${name.name}`;
  const lengths = new Map<string, ReturnType<LowerContext['length']>>();
  const words = new Set<string>();
  for (const each of item.attributes) {
    if (each.$type === 'NewWorkDimension') {
      if (lengths.has(each.key)) {
        context.say(
          'repeated-word',
          `\`${each.key}\` is given twice on this line; the last one counts. Delete one.`,
          context.span(each),
          {
            severity: 'warning',
          },
        );
      }
      lengths.set(each.key, context.length(each.value, `${each.key} of ${what}`));
    }
    if (each.$type === 'NewWorkWord') words.add(each.word);
  }
  return {
    name,
    connector: context.name(item, 'connector'),
    at: context.station(item.at, what),
    embed: lengths.get('embed'),
    offset: lengths.get('offset'),
    shim: lengths.get('shim'),
    proposed: words.has('proposed'),
    rightAngleDrill: words.has('right-angle-drill'),
    tags: tagsOf(item.attributes, context),
    source: context.span(item),
  };
}

function lowerAngles(item: ast.Angles, context: LowerContext): readonly WorkDraft['angles'][number][] {
  const name = context.name(item, 'name');
  const connector = context.name(item, 'connector');
  if (!name || !connector) return [];
  const what = `angles ${name.name}`;
  const placing = placingOf(item, what, context);
  if (!placing) return [];
  return [
    {
      name,
      connector,
      span: context.stretch(item.where, what),
      placing,
      tags: tagsOf(item.attributes, context),
      source: context.span(item),
    },
  ];
}

function placingOf(
  item: ast.Angles,
  what: string,
  context: LowerContext,
): WorkDraft['angles'][number]['placing'] | undefined {
  if (item.at.length > 0) return { kind: 'at', stations: item.at.flatMap((each) => context.station(each, what) ?? []) };
  const spaced = context.length(item.spaced, `spacing of ${what}`);
  if (spaced) return { kind: 'spaced', spaced };
  const bays = lowerBays(item.bays, context);
  return bays && { kind: 'bays', bays };
}
