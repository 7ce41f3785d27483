// The grammar as data: what `generated/rules.ts` is made of.

/** How often a part may stand: once where it does not say. */
export type Times = '?' | '*' | '+';

/** A part of a rule. Each is one object for one place of the grammar. */
export type GrammarPart = WordPart | TokenPart | CallPart | ListPart | PropertyPart | TypePart;
/** A keyword, as the grammar spells it. */
export interface WordPart {
  readonly kind: 'word';
  readonly word: string;
  readonly times: Times | undefined;
}
/** A kind of token. */
export interface TokenPart {
  readonly kind: 'token';
  readonly token: string;
  readonly times: Times | undefined;
}
export interface CallPart {
  readonly kind: 'call';
  readonly rule: string;
  readonly times: Times | undefined;
}
/** One of its parts, or all of them in their order. */
export interface ListPart {
  readonly kind: 'either' | 'all';
  readonly parts: readonly GrammarPart[];
  readonly times: Times | undefined;
}
/** What a part gives is put into a property: as its value, into its list, or as a mark that it stands there. */
export interface PropertyPart {
  readonly kind: 'property';
  readonly property: string;
  readonly as: 'value' | 'item' | 'flag';
  readonly part: GrammarPart;
  readonly times: Times | undefined;
}
/** Says which type the node has; stands for no text. */
export interface TypePart {
  readonly kind: 'type';
  readonly type: string;
  readonly times?: undefined;
}

/** A rule gives a node of the tree, or a text or number; a fragment is a part of the rule that calls it. */
export interface Rule {
  readonly kind: 'node' | 'value' | 'fragment';
  readonly name: string;
  /** Of the node; one of several where the rule only calls others. */
  readonly type: string | undefined;
  readonly body: GrammarPart;
}

export const word = (spelled: string, times?: Times): WordPart => ({ kind: 'word', word: spelled, times });
export const token = (kind: string, times?: Times): TokenPart => ({ kind: 'token', token: kind, times });
export const call = (rule: string, times?: Times): CallPart => ({ kind: 'call', rule, times });
export const either = (parts: readonly GrammarPart[], times?: Times): ListPart => ({ kind: 'either', parts, times });
export const all = (parts: readonly GrammarPart[], times?: Times): ListPart => ({ kind: 'all', parts, times });
const propertyAs =
  (as: PropertyPart['as']) =>
  (property: string, part: GrammarPart, times?: Times): PropertyPart => ({
    kind: 'property',
    property,
    as,
    part,
    times,
  });
export const as = propertyAs('value');
export const into = propertyAs('item');
export const flag = propertyAs('flag');
export const node = (name: string, type: string, body: GrammarPart): Rule => ({ kind: 'node', name, type, body });
export const value = (name: string, body: GrammarPart): Rule => ({ kind: 'value', name, type: undefined, body });
export const fragment = (name: string, body: GrammarPart): Rule => ({ kind: 'fragment', name, type: undefined, body });
