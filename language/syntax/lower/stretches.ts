import type { Bays, Condition, Tags } from '../../domain/model/layout.ts';
import type * as ast from '../../generated/ast.ts';
import type { CrippleWords, FoundationWords, JoistWords, LineOf, RimWords, SillWords } from '../drafts.ts';
import type { LowerContext } from './context.ts';

/** Collects attributes; one given twice on a line is told, and the last one counts. */
function collect<Words extends object>(
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
        if (item.unknown)
          context.leanings.push({
            what: `species of ${what}`,
            typed: 'unknown',
            quality: 'unknown',
            source: context.span(item),
          });
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
        break;
      case 'CrippleTrimmers':
        set('trimmers', item.trimmers, 'trimmers', item);
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
        break;
      case 'SizeAttribute':
        set('size', context.size(item.size, what), 'size', item);
        break;
      case 'NailsAttribute': {
        const { nails } = item;
        if (nails.state) set('nails', nails.state, 'nails', item);
        else if (nails.penny !== undefined) {
          set(
            'nails',
            {
              penny: nails.penny,
              spaced: context.length(nails.spaced, `nail spacing of ${what}`),
              verified: nails.verified,
            },
            'nails',
            item,
          );
        }
        break;
      }
    }
  }
  return words;
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
  const notes = items.flatMap((item) =>
    item.$type === 'NoteLine' && 'note' in item && item.note !== undefined ? [item.note] : [],
  );
  return notes.length === 0 ? tags : { ...tags, notes: [...tags.notes, ...notes] };
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
