import type { Bays, Condition, Tags } from '../../domain/model/layout.ts';
import { noTags } from '../../domain/model/layout.ts';
import type * as ast from '../../generated/ast.ts';
import type { CrippleWords, FoundationWords, JoistWords, LineOf, RimWords, SillWords, WallDraft } from '../drafts.ts';
import type { TreeNode } from '../tree.ts';
import type { LowerContext } from './context.ts';

/** Collects attributes; one given twice on a line is told, and the last one counts. */
export function collect<Words extends object>(
  context: LowerContext,
): {
  readonly words: Words;
  set<Key extends keyof Words & string>(
    key: Key,
    value: Words[Key] | undefined,
    said: string,
    at: ast.FoundationAttribute | { $type: string },
  ): void;
} {
  const words = {} as Words;
  return {
    words,
    set(key, value, said, at) {
      if (value === undefined) return;
      if (key in words) {
        context.say(
          'repeated-word',
          `\`${said}\` is given twice on this line; the last one counts. Delete one.`,
          context.span(at as ast.FoundationAttribute),
          {
            severity: 'warning',
          },
        );
      }
      words[key] = value;
    },
  };
}

export function foundationWords(line: ast.FoundationStretch, context: LowerContext, what: string): FoundationWords {
  const { words, set } = collect<{ -readonly [Key in keyof FoundationWords]: FoundationWords[Key] }>(context);
  const conditions: Condition[] = [];
  for (const item of line.attributes) {
    switch (item.$type) {
      case 'FoundationMaterial':
        set('material', item.material, 'material', item);
        words.materialSource = context.span(item);
        break;
      case 'FoundationDimension': {
        if (item.key === 'strength') {
          const reading = context.quantity(item.value?.first, `concrete strength of ${what}`, 'pressure');
          if (item.value?.last) {
            context.say(
              'wrong-kind',
              'Concrete has one strength along a stretch; the first is used. Write a line for each stretch.',
              context.span(item.value.last),
            );
          }
          set('strength', reading, 'strength', item);
          break;
        }
        set(item.key, context.varying(item.value, `${dimensionWords[item.key]} of ${what}`), item.key, item);
        break;
      }
      case 'FoundationSteel':
        set('steel', item.steel, item.steel, item);
        break;
      case 'Condition':
        conditions.push(item.condition);
        break;
    }
  }
  if (conditions.length > 0) words.conditions = conditions;
  return words;
}
const dimensionWords = {
  thick: 'thickness',
  showing: 'showing height',
  top: 'top of concrete',
  grade: 'outside grade',
  footing: 'footing depth',
} as const;

export function sillWords(
  line: { readonly attributes: readonly (ast.SillAttribute | ast.SillBreakAttribute)[] },
  context: LowerContext,
  what: string,
): SillWords {
  const { words, set } = collect<{ -readonly [Key in keyof SillWords]: SillWords[Key] }>(context);
  const conditions: Condition[] = [];
  for (const item of line.attributes) {
    switch (item.$type) {
      case 'SizeAttribute':
        set('size', context.size(item.size, what), 'size', item);
        break;
      case 'SillDimension':
        if (item.key === 'set-back')
          set('setBack', context.varying(item.value, `set-back of ${what}`), 'set-back', item);
        else set('headroom', context.varying(item.value, `head-room above ${what}`), 'headroom', item);
        break;
      case 'SillJoint':
        set('joint', item.joint, 'joint', item);
        set('jointLength', context.length(item.length, `length of the joint of ${what}`), 'joint', item);
        break;
      case 'SillGap':
        set('gap', context.length(item.gap, `gap at the end of ${what}`), 'gap', item);
        break;
      case 'SillSpecies':
        set('species', item.unknown ? 'unknown' : item.species, 'species', item);
        if (item.unknown) leanOnUnknown(context, `species of ${what}`, 'unknown', item);
        break;
      case 'SillWord':
        if (item.word === 'treated' || item.word === 'untreated')
          set('treated', item.word === 'treated', item.word, item);
        else if (item.word === 'double') set('double', true, item.word, item);
        else if (item.word === 'flush') set('flush', true, item.word, item);
        else set('runsThrough', true, item.word, item);
        break;
      case 'Condition':
        conditions.push(item.condition);
        break;
    }
  }
  if (conditions.length > 0) words.conditions = conditions;
  return words;
}

export function crippleWords(line: ast.CrippleStretch, context: LowerContext, what: string): CrippleWords {
  const { words, set } = collect<{ -readonly [Key in keyof CrippleWords]: CrippleWords[Key] }>(context);
  const conditions: Condition[] = [];
  for (const item of line.attributes) {
    switch (item.$type) {
      case 'CrippleDimension': {
        const value = context.varying(
          item.value,
          `${item.key === 'ledge' ? 'sill ledge' : item.key.replace('-', ' ')} of ${what}`,
        );
        if (item.key === 'height') set('height', value, item.key, item);
        else if (item.key === 'stud-height') set('studHeight', value, item.key, item);
        else set('ledge', value, item.key, item);
        break;
      }
      case 'CrippleStuds':
        set('studSize', context.size(item.size, `studs of ${what}`), 'studs', item);
        set('spaced', context.length(item.spaced, `stud spacing of ${what}`), 'spaced', item);
        set('first', context.length(item.first, `first stud of ${what}`), 'first', item);
        break;
      case 'CripplePlates':
        set('plates', item.plates, 'plate', item);
        break;
      case 'CrippleSheathing':
        set('sheathing', item.unknown ? 'unknown' : item.sheathing, 'sheathing', item);
        if (item.unknown) leanOnUnknown(context, `sheathing of ${what}`, 'unknown', item);
        break;
      case 'CrippleTrimmers':
        set('trimmers', item.trimmers, 'trimmers', item);
        if (item.trimmers === 'unknown') leanOnUnknown(context, `trimmers of ${what}`, 'unknown', item);
        break;
      case 'Condition':
        conditions.push(item.condition);
        break;
    }
  }
  if (conditions.length > 0) words.conditions = conditions;
  return words;
}

export function joistWords(line: ast.JoistRun, context: LowerContext, what: string): JoistWords {
  const { words, set } = collect<{ -readonly [Key in keyof JoistWords]: JoistWords[Key] }>(context);
  for (const item of line.attributes) {
    switch (item.$type) {
      case 'JoistDirection':
        set('run', item.run, item.run, item);
        break;
      case 'JoistDimension':
        set(item.key, context.length(item.value, `${joistDimensions[item.key]} of ${what}`), item.key, item);
        break;
      case 'SizeAttribute':
        set('size', context.size(item.size, what), 'size', item);
        break;
    }
  }
  return words;
}
const joistDimensions = { spaced: 'spacing', first: 'first joist', last: 'last joist', span: 'span' } as const;

export function rimWords(line: ast.Rim, context: LowerContext, what: string): RimWords {
  const { words, set } = collect<{ -readonly [Key in keyof RimWords]: RimWords[Key] }>(context);
  for (const item of line.attributes) {
    switch (item.$type) {
      case 'RimSeen':
        set('seen', item.seen, item.seen, item);
        if (item.seen === 'unseen') leanOnUnknown(context, what, item.seen, item);
        break;
      case 'SizeAttribute':
        set('size', context.size(item.size, what), 'size', item);
        break;
      case 'NailsAttribute': {
        set('nails', lowerNails(item.nails, context, what), 'nails', item);
        break;
      }
    }
  }
  return words;
}

/** Nails as found. Not seen is not known: both go on the survey list. */
export function lowerNails(nails: ast.Nails, context: LowerContext, what: string): RimWords['nails'] | undefined {
  if (nails.state) {
    leanOnUnknown(context, `nails of ${what}`, nails.state, nails);
    return nails.state;
  }
  if (nails.penny === undefined) return undefined;
  return {
    penny: nails.penny,
    ...(nails.nailKind === undefined ? {} : { kind: nails.nailKind }),
    ...(nails.count === undefined ? {} : { count: nails.count }),
    spaced: context.length(nails.spaced, `nail spacing of ${what}`),
    verified: nails.verified,
  };
}

/** A word that says "nobody knows" where no measurement stands. */
export function leanOnUnknown(context: LowerContext, what: string, typed: string, node: TreeNode): void {
  context.leanings.push({ what, typed, quality: 'unknown', source: context.span(node) });
}

/** A line of a kind with its name, place and tags. */
export function lineOf<Words>(
  line: {
    readonly $type: string;
    readonly where?: ast.Stretch;
    readonly attributes: readonly { readonly $type: string }[];
  },
  words: Words,
  context: LowerContext,
  what: string,
  name?: LineOf<Words>['name'],
): LineOf<Words> {
  return {
    name,
    span: context.stretch(line.where, what),
    words,
    tags: tagsOf(line.attributes, context),
    source: context.span(line as ast.FoundationStretch),
  };
}

export function tagsOf(attributes: readonly { readonly $type: string }[], context: LowerContext): Tags {
  return context.tags(attributes.filter((item) => item.$type.endsWith('Tag')));
}

/** Tags on a heading, and the `note` lines that speak of the block as a whole. */
export function blockTags(
  items: readonly (ast.TagLine | ast.NoteLine | { readonly $type: string })[],
  context: LowerContext,
): Tags {
  const tags = context.tags(items.flatMap((item) => (item.$type === 'TagLine' && 'tag' in item ? [item.tag] : [])));
  const lines = items.flatMap((item) => notesOfLine(item as CommonItem, context));
  const notes = lines.flatMap((line) => line.notes);
  const photos = lines.flatMap((line) => line.photos);
  if (notes.length === 0 && photos.length === 0) return tags;
  return { ...tags, notes: [...tags.notes, ...notes], photos: [...tags.photos, ...photos] };
}

/**
 * `note` and `photo` lines, and the tags of lines whose fact has no place for them: those say whose they are.
 * A caption becomes a note of its photo.
 */
function notesOfLine(item: CommonItem, context: LowerContext): Pick<Tags, 'notes' | 'photos'> {
  if (item.$type === 'NoteLine') {
    const tags = context.tags(item.tags);
    return { notes: [...(item.note === undefined ? [] : [item.note]), ...tags.notes], photos: tags.photos };
  }
  if (item.$type === 'PhotoLine') {
    const tags = context.tags(item.tags);
    const caption = item.caption === undefined ? [] : [`photo ${item.photos.join(', ')}: ${item.caption}`];
    return { notes: [...caption, ...tags.notes], photos: [...item.photos, ...tags.photos] };
  }
  const subject = subjectOfFact(item);
  if (subject === undefined) return nothingNoted;
  const tags = tagsOf(item.tags ?? item.attributes ?? [], context);
  if (tags === noTags) return nothingNoted;
  // Who inspects is a fact of its own.
  const by = item.$type === 'InspectionFact' ? undefined : tags.by;
  const who = [by === undefined ? [] : [`by ${by}`], tags.dated ?? []].flat();
  const notes = tags.notes.length === 0 && who.length > 0 ? [who.join(', ')] : tags.notes;
  return { notes: notes.map((note) => `${subject}: ${note}`), photos: tags.photos };
}
const nothingNoted = { notes: [], photos: [] } as const;

type CommonItem =
  | ast.NoteLine
  | ast.PhotoLine
  | {
      readonly $type: FactType;
      readonly key?: string;
      readonly what?: string;
      readonly tags?: readonly ast.Tag[];
      readonly attributes?: readonly { readonly $type: string }[];
    };

/** Facts that stand in the model as bare values. Every other line keeps its own tags. */
const factSubjects = {
  HouseFact: '',
  HouseWords: '',
  SeismicFact: '',
  SeismicWord: '',
  WeightFact: '',
  TitleText: '',
  DateFact: '',
  UnitsFact: 'units',
  FaceFact: 'face',
  RulesFact: 'rules',
  InspectionFact: 'special inspection',
  SheetsFact: 'sheets',
  Diagonal: 'check diagonal',
  SpotReading: '',
  GirderSpans: 'spans',
  EndRest: 'end',
  AbsentLine: 'no',
  Splice: 'splice',
  SillBreak: 'break',
  ReportLine: 'report',
  Fits: 'fits',
  Body: 'body',
  Drop: 'drop',
  Fastener: 'fastener',
  Holes: 'holes',
  Capacity: 'capacity',
  MetalLine: 'metal',
  ToolLine: 'tool',
} as const;
type FactType = keyof typeof factSubjects;

function subjectOfFact(item: Exclude<CommonItem, ast.NoteLine | ast.PhotoLine>): string | undefined {
  if (!(item.$type in factSubjects)) return undefined;
  if (item.$type === 'AbsentLine') return `no ${item.what ?? ''}`;
  return (item.key ?? factSubjects[item.$type]).replaceAll('-', ' ');
}

/** A `blocking` line as found; none where its bays cannot be read. */
export function lowerFoundBlocking(
  item: ast.FoundBlocking,
  context: LowerContext,
  what: string,
): WallDraft['blocking'] {
  const bays = lowerBays(item.bays, context);
  if (!bays) return [];
  let size: WallDraft['blocking'][number]['size'];
  let nails: WallDraft['blocking'][number]['nails'];
  for (const each of item.attributes) {
    if (each.$type === 'SizeAttribute') size = context.size(each.size, what) ?? size;
    if (each.$type === 'NailsAttribute') nails = lowerNails(each.nails, context, what) ?? nails;
  }
  return [
    {
      bays,
      size,
      ...(nails ? { nails } : {}),
      tags: tagsOf(item.attributes, context),
      source: context.span(item),
    },
  ];
}

export function lowerBays(bays: ast.Bays | undefined, context: LowerContext): Bays | undefined {
  if (!bays) return undefined;
  if (bays.unknown) {
    context.leanings.push({ what: 'blocked bays', typed: 'unknown', quality: 'unknown', source: context.span(bays) });
    return { kind: 'unknown' };
  }
  if (bays.none) return { kind: 'none' };
  if (bays.every) return { kind: bays.every };
  const [first] = bays.numbers;
  if (first === undefined) return undefined;
  if (bays.through === undefined) return { kind: 'numbers', numbers: bays.numbers };
  const count = bays.through - first;
  if (!Number.isInteger(count) || count < 0 || count > MOST_BAYS) {
    context.say('wrong-kind', `Bays ${first} to ${bays.through} is no run of bays on one wall.`, context.span(bays));
    return undefined;
  }
  return { kind: 'numbers', numbers: Array.from({ length: count + 1 }, (_, index) => first + index) };
}
/** More joist bays than any wall has. */
const MOST_BAYS = 10_000;
