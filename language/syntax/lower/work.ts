import type { NameReference } from '../../domain/model/layout.ts';
import type { Reading } from '../../domain/model/reading.ts';
import type { Length } from '../../domain/units/length.ts';
import type * as ast from '../../generated/ast.ts';
import type {
  NewWorkWords,
  ReplacementDraft,
  SillWords,
  SpanDraft,
  StationDraft,
  WhereDraft,
  WorkDraft,
} from '../drafts.ts';
import type { LowerContext } from './context.ts';
import { illegible } from './context.ts';
import { panelWords } from './panel.ts';
import { blockTags, lowerBays, lowerNails, sillWords, tagsOf } from './stretches.ts';
import { lowerAcceptance, lowerQuestion } from './title.ts';

type Mutable<T> = { -readonly [Key in keyof T]: T[Key] extends readonly (infer Item)[] ? Item[] : T[Key] };

/** What will be built on one wall or girder. A line that says more than its kind of work has room for is told. */
export function lowerWork(tree: ast.Work, context: LowerContext): WorkDraft | undefined {
  const on = context.name(tree, 'on');
  if (!on) return undefined;
  const work: Mutable<WorkDraft> = {
    kind: 'work',
    on,
    source: context.span(tree),
    headingSource: on.source,
    anchors: [],
    angles: [],
    studs: [],
    blocking: [],
    panels: [],
    ties: [],
    postHardware: [],
    replacements: [],
    treatments: [],
    noWork: undefined,
    accepted: [],
    questions: [],
    tags: blockTags(tree.items, context),
  };
  for (const item of tree.items) lowerItem(item, work, context);
  return work;
}

function lowerItem(item: ast.WorkItem, work: Mutable<WorkDraft>, context: LowerContext): void {
  switch (item.$type) {
    case 'NewAnchor':
      work.anchors.push(...lowerAnchor(item, context));
      return;
    case 'Angles':
      work.angles.push(...lowerAngles(item, context));
      return;
    case 'NewStud':
      lowerStuds(item, work, context);
      return;
    case 'NewBlocking':
      work.blocking.push(...lowerBlocking(item, work.on, context));
      return;
    case 'Panel':
      work.panels.push(...lowerPanel(item, context));
      return;
    case 'HoldDown':
      work.ties.push(...lowerTie(item, context));
      return;
    case 'PostHardware':
      work.postHardware.push(...lowerPostHardware(item, context));
      return;
    case 'Replacement':
      work.replacements.push(...lowerReplacement(item, work.on, context));
      return;
    case 'FoundThingWork':
      work.treatments.push(...lowerTreatment(item, context));
      return;
    case 'NoWork':
      if (item.reason === undefined) return;
      if (work.noWork) {
        sayTwice('no work', context.span(item), context, 'in this block');
      }
      work.noWork = { reason: item.reason, source: context.span(item), tags: context.tags(item.tags) };
      return;
    case 'Acceptance':
      work.accepted.push(...lowerAcceptance(item, context));
      return;
    case 'AskLine':
      work.questions.push(...lowerQuestion(item, context));
      return;
    case 'NoteLine':
    case 'PhotoLine':
      // With the tags of the block.
      return;
  }
}

function lowerAnchor(item: ast.NewAnchor, context: LowerContext): WorkDraft['anchors'] {
  const name = context.name(item, 'name');
  if (!name) return [];
  const what = `anchor ${name.name}`;
  return [
    {
      name,
      connector: context.name(item, 'connector'),
      at: context.station(item.at, what),
      ...newWorkWords(item.attributes, anchorWords, what, context),
      tags: tagsOf(item.attributes, context),
      source: context.span(item),
    },
  ];
}

function lowerTie(item: ast.HoldDown, context: LowerContext): WorkDraft['ties'] {
  const name = context.name(item, 'name');
  if (!name) return [];
  const what = `${item.kind} ${name.name}`;
  let member: WorkDraft['ties'][number]['member'];
  for (const each of item.attributes) {
    if (each.$type !== 'HoldDownMember') continue;
    if (member) sayTwice('on', context.span(each), context);
    member = each.member ?? member;
  }
  return [
    {
      kind: item.kind,
      name,
      connector: context.name(item, 'connector'),
      at: context.station(item.at, what),
      member,
      ...newWorkWords(item.attributes, anchorWords, what, context),
      tags: tagsOf(item.attributes, context),
      source: context.span(item),
    },
  ];
}

function lowerAngles(item: ast.Angles, context: LowerContext): WorkDraft['angles'] {
  const name = context.name(item, 'name');
  const connector = context.name(item, 'connector');
  if (!name || !connector) return [];
  const what = `angles ${name.name}`;
  const placing = placingOf(item, what, context);
  if (!placing) return [];
  const { shim, proposed, withHardware } = newWorkWords(
    item.attributes,
    new Set(['shim', 'proposed', 'with']),
    what,
    context,
  );
  return [
    {
      name,
      connector,
      span: stretchOf(item.where, what, context),
      placing,
      shim,
      proposed,
      withHardware,
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

function lowerStuds(item: ast.NewStud, work: Mutable<WorkDraft>, context: LowerContext): void {
  const size = context.size(item.size, 'a new stud');
  const { proposed } = newWorkWords(item.attributes, new Set(['proposed']), 'a stud', context);
  const tags = tagsOf(item.attributes, context);
  const source = context.span(item);
  for (const each of item.at) {
    const at = context.station(each, 'a new stud');
    if (at) work.studs.push({ at, size, proposed, tags, source });
  }
}

function lowerBlocking(item: ast.NewBlocking, on: NameReference, context: LowerContext): WorkDraft['blocking'] {
  const bays = lowerBays(item.bays, context);
  if (!bays) return [];
  const what = `new blocks of wall ${on.name}`;
  let size: WorkDraft['blocking'][number]['size'];
  let nails: WorkDraft['blocking'][number]['nails'];
  for (const each of item.attributes) {
    if (each.$type === 'SizeAttribute') {
      if (size) sayTwice('size', context.span(each), context);
      size = context.size(each.size, what) ?? size;
    }
    if (each.$type === 'NailsAttribute') {
      if (nails) sayTwice('nails', context.span(each), context);
      nails = lowerNails(each.nails, context, what) ?? nails;
    }
  }
  const { proposed } = newWorkWords(item.attributes, new Set(['proposed']), 'blocks', context);
  return [
    {
      bays,
      size,
      ...(nails ? { nails } : {}),
      proposed,
      tags: tagsOf(item.attributes, context),
      source: context.span(item),
    },
  ];
}

function lowerPanel(item: ast.Panel, context: LowerContext): WorkDraft['panels'] {
  const name = context.name(item, 'name');
  if (!name) return [];
  const what = `panel ${name.name}`;
  return [
    {
      name,
      span: context.stretch(item.where, what),
      words: panelWords(item.attributes, context, what),
      proposed: item.attributes.some((each) => each.$type === 'PanelWord'),
      tags: tagsOf(item.attributes, context),
      source: context.span(item),
    },
  ];
}

function lowerPostHardware(item: ast.PostHardware, context: LowerContext): WorkDraft['postHardware'] {
  const name = context.name(item, 'name');
  const connector = context.name(item, 'connector');
  const on = context.name(item, 'on');
  if (!name || !connector || !on) return [];
  const { shim, proposed, bothSides, withHardware } = newWorkWords(
    item.attributes,
    new Set(['shim', 'proposed', 'both-sides', 'with']),
    `${item.role} ${name.name}`,
    context,
  );
  return [
    {
      role: item.role,
      name,
      connector,
      on,
      shim,
      proposed,
      bothSides,
      withHardware,
      tags: tagsOf(item.attributes, context),
      source: context.span(item),
    },
  ];
}

/** `at S, S` names several pieces of wood. */
function lowerReplacement(
  item: ast.Replacement,
  on: NameReference,
  context: LowerContext,
): readonly ReplacementDraft[] {
  const { verb, what } = item;
  if (!what) return [];
  const name = context.name(item, 'name');
  const words = `new ${what} ${name?.name ?? `on ${on.name}`}`;
  const written = sillWords(item, context, words);
  sayUnreadOfWood(item, context);
  // Half typed, it has a place that nobody can read yet: never all of the board, or of the wall.
  const where =
    context.where(item.where, words) ??
    (item.where && ({ kind: 'span', span: illegibleSpan(item.where, context) } satisfies WhereDraft));
  if (what === 'sill' && !name && !where && Object.keys(written).length === 0) {
    context.say(
      'missing-part',
      `Say which board or stretch: \`${verb} sill 0" to 6'-0" 2x6 treated\`. Without it nothing is done.`,
      context.span(item),
    );
    return [];
  }
  const draft = {
    verb,
    what,
    name,
    words: written,
    tags: tagsOf(item.attributes, context),
    source: context.span(item),
  };
  return placesOf(where).map((each) => ({ ...draft, where: each }));
}

/** No stretch at all is the whole wall; one half typed is nowhere yet. */
function stretchOf(where: ast.Stretch | undefined, what: string, context: LowerContext): SpanDraft | undefined {
  return context.stretch(where, what) ?? (where && illegibleSpan(where, context));
}
function illegibleSpan(where: ast.Where, context: LowerContext): SpanDraft {
  const source = context.span(where);
  return { from: undefined, to: illegible(source), source };
}

function placesOf(where: WhereDraft | undefined): readonly (WhereDraft | undefined)[] {
  if (where?.kind !== 'at') return [where];
  return where.stations.map((station: StationDraft) => ({ ...where, stations: [station] }));
}

/** Of a post, a joist, a stud and a sister: the wood itself. Set-back, head-room, joint and gap belong to a new sill board. */
const ofWood: ReadonlySet<ast.SillAttribute['$type']> = new Set(['SizeAttribute', 'SillSpecies']);
const ofWoodWords: ReadonlySet<string> = new Set(['treated', 'untreated'] satisfies (keyof SillWords | 'untreated')[]);

function sayUnreadOfWood(item: ast.Replacement, context: LowerContext): void {
  if (item.verb === 'replace' && item.what === 'sill') return;
  for (const each of item.attributes) {
    if (each.$type.endsWith('Tag') || ofWood.has(each.$type)) continue;
    if (each.$type === 'SillWord' && ofWoodWords.has(each.word)) continue;
    sayUnread(context.span(each), `${item.verb} ${item.what}`, context);
  }
}

function lowerTreatment(item: ast.FoundThingWork, context: LowerContext): WorkDraft['treatments'] {
  const on = context.name(item, 'on');
  if (!on) return [];
  newWorkWords(item.attributes, new Set(), `${item.verb} ${on.name}`, context);
  const connector = context.name(item, 'connector');
  if (item.verb === 'washer' && !connector) {
    context.say(
      'missing-part',
      `Say which washer ${on.name} gets: \`washer ${on.name} washer-3\`. Until then it stays as found.`,
      context.span(item),
    );
  }
  if (item.verb !== 'washer' && connector) sayUnread(connector.source, `${item.verb} ${on.name}`, context);
  return [
    {
      verb: item.verb,
      on,
      connector: item.verb === 'washer' ? connector : undefined,
      tags: tagsOf(item.attributes, context),
      source: context.span(item),
    },
  ];
}

type NewWorkKey = 'embed' | 'offset' | 'shim' | 'proposed' | 'right-angle-drill' | 'both-sides' | 'with';
const anchorWords: ReadonlySet<NewWorkKey> = new Set([
  'embed',
  'offset',
  'shim',
  'proposed',
  'right-angle-drill',
  'both-sides',
  'with',
]);

/** What a line of new work says beside its place; of words given twice the last counts, and those without a meaning there are told. */
function newWorkWords(
  attributes: readonly (ast.NewWorkAttribute | { readonly $type: string })[],
  meant: ReadonlySet<NewWorkKey>,
  what: string,
  context: LowerContext,
): NewWorkWords {
  const lengths = new Map<ast.NewWorkDimension['key'], Reading<Length> | undefined>();
  const words = new Set<ast.NewWorkWord['word']>();
  const withHardware: NameReference[] = [];
  for (const each of attributes as readonly ast.NewWorkAttribute[]) {
    const key =
      each.$type === 'NewWorkDimension'
        ? each.key
        : each.$type === 'NewWorkWord'
          ? each.word
          : each.$type === 'WithHardware'
            ? 'with'
            : undefined;
    if (key === undefined) continue;
    if (!meant.has(key)) {
      sayUnread(context.span(each), what, context);
      continue;
    }
    if (each.$type === 'NewWorkDimension') {
      if (lengths.has(each.key)) sayTwice(key, context.span(each), context);
      lengths.set(each.key, context.length(each.value, `${each.key} of ${what}`));
    } else if (each.$type === 'NewWorkWord') {
      if (words.has(each.word)) sayTwice(key, context.span(each), context);
      words.add(each.word);
    } else if (each.$type === 'WithHardware') {
      const hardware = context.name(each, 'hardware');
      if (hardware) withHardware.push(hardware);
    }
  }
  return {
    embed: lengths.get('embed'),
    offset: lengths.get('offset'),
    shim: lengths.get('shim'),
    proposed: words.has('proposed'),
    rightAngleDrill: words.has('right-angle-drill'),
    bothSides: words.has('both-sides'),
    withHardware,
  };
}

function sayTwice(
  word: string,
  span: ReturnType<LowerContext['span']>,
  context: LowerContext,
  where = 'on this line',
): void {
  context.say('repeated-word', `\`${word}\` is given twice ${where}; the last one counts. Delete one.`, span, {
    severity: 'warning',
  });
}

function sayUnread(span: ReturnType<LowerContext['span']>, what: string, context: LowerContext): void {
  context.say(
    'wrong-kind',
    `This says nothing of \`${what}\` and is not read; delete it, or put it in a \`note\`.`,
    span,
    { severity: 'warning' },
  );
}
