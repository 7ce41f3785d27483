/** The modules that the generator writes from the grammar as its library gives it. */

/** The parts of the library's own form of a grammar that ours has. */
export interface GrammarJson {
  readonly rules: readonly (ParserRuleJson | TerminalRuleJson)[];
  readonly interfaces: readonly InterfaceJson[];
  readonly types: readonly { readonly name: string; readonly type: TypeJson }[];
}
interface ParserRuleJson {
  readonly $type: 'ParserRule';
  readonly name: string;
  readonly fragment: boolean;
  readonly dataType?: string;
  readonly returnType?: Reference;
  readonly definition: ElementJson;
}
interface TerminalRuleJson {
  readonly $type: 'TerminalRule';
  readonly name: string;
  readonly hidden: boolean;
}
interface InterfaceJson {
  readonly name: string;
  readonly superTypes: readonly unknown[];
  readonly attributes: readonly { readonly name: string; readonly isOptional?: boolean; readonly type: TypeJson }[];
}
type TypeJson =
  | {
      readonly $type: 'SimpleType';
      readonly primitiveType?: string;
      readonly stringType?: string;
      readonly typeRef?: Reference;
    }
  | { readonly $type: 'ArrayType'; readonly elementType: TypeJson }
  | { readonly $type: 'UnionType'; readonly types: readonly TypeJson[] };
type ElementJson = { readonly cardinality?: '?' | '*' | '+' } & (
  | { readonly $type: 'Keyword'; readonly value: string }
  | { readonly $type: 'RuleCall'; readonly rule: Reference }
  | { readonly $type: 'Alternatives' | 'Group'; readonly elements: readonly ElementJson[] }
  | {
      readonly $type: 'Assignment';
      readonly feature: string;
      readonly operator: '=' | '+=' | '?=';
      readonly terminal: ElementJson;
    }
  | { readonly $type: 'Action'; readonly type: Reference }
);
/** `#/rules@3` */
interface Reference {
  readonly $ref: string;
}

const written = '// Written by `npm run generate` from language/grammar. Changes by hand are lost.\n';

/** The rules, in the order of the grammar, and the kinds of tokens. */
export function rulesModule(grammar: GrammarJson, terminals: string): string {
  const hidden = grammar.rules.filter((rule) => rule.$type === 'TerminalRule' && rule.hidden);
  const rules = grammar.rules.filter((rule) => rule.$type === 'ParserRule');
  return `${written}
import { all, as, call, either, flag, fragment, into, node, type Rule, token, value, word } from '../syntax/grammar-parts.ts';

/** The first that fits is taken. */
export const terminals = {
${terminals}} as const;
export type TerminalName = keyof typeof terminals;

/** They stand between the words, and in no rule. */
export const hiddenTerminals: readonly TerminalName[] = [${hidden.map(({ name }) => quoted(name)).join(', ')}];

/** What a node of a type has even where nothing was written: its lists, empty, and its marks, not set. */
export const mandatory = mandatoryByType();

export const rules = allRules();

// In functions, which V8 lets go of when they have run: what a module does at its top stays as long as the module.

function mandatoryByType(): Readonly<Record<string, { readonly lists: readonly string[]; readonly flags: readonly string[] }>> {
  return {
${grammar.interfaces.map(mandatoryOf).join('')}  };
}

function allRules(): readonly Rule[] {
  return [
${rules.map((rule) => `    ${ruleCode(grammar, rule)},\n`).join('')}  ];
}
`;
}

function mandatoryOf({ name, attributes }: InterfaceJson): string {
  const namesOf = (wanted: (type: TypeJson) => boolean): string =>
    attributes
      .filter(({ type, isOptional }) => isOptional !== true && wanted(type))
      .map((each) => quoted(each.name))
      .join(', ');
  const lists = namesOf((type) => type.$type === 'ArrayType');
  const flags = namesOf((type) => type.$type === 'SimpleType' && type.primitiveType === 'boolean');
  return `    ${name}: { lists: [${lists}], flags: [${flags}] },\n`;
}

function ruleCode(grammar: GrammarJson, rule: ParserRuleJson): string {
  const body = partCode(grammar, rule.definition);
  if (rule.fragment) return `fragment(${quoted(rule.name)}, ${body})`;
  const type = rule.returnType && nameAt(grammar, rule.returnType);
  // A rule of words alone gives one of them.
  const isValue = rule.dataType !== undefined || isOfWords(rule.definition);
  return isValue
    ? `value(${quoted(rule.name)}, ${body})`
    : `node(${quoted(rule.name)}, ${quoted(type ?? rule.name)}, ${body})`;
}

function isOfWords(element: ElementJson): boolean {
  if (element.$type === 'Keyword') return true;
  return element.$type === 'Alternatives' && element.elements.every(isOfWords);
}

function partCode(grammar: GrammarJson, element: ElementJson): string {
  const times = element.cardinality === undefined ? '' : `, ${quoted(element.cardinality)}`;
  const listed = (elements: readonly ElementJson[]): string =>
    `[${elements.map((each) => partCode(grammar, each)).join(', ')}]`;
  switch (element.$type) {
    case 'Keyword':
      return `word(${quoted(element.value)}${times})`;
    case 'RuleCall': {
      const isRule = grammar.rules[indexIn(element.rule)]?.$type === 'ParserRule';
      return `${isRule ? 'call' : 'token'}(${quoted(nameAt(grammar, element.rule))}${times})`;
    }
    case 'Alternatives':
      return `either(${listed(element.elements)}${times})`;
    case 'Group':
      return `all(${listed(element.elements)}${times})`;
    case 'Assignment': {
      const how = { '=': 'as', '+=': 'into', '?=': 'flag' }[element.operator];
      return `${how}(${quoted(element.feature)}, ${partCode(grammar, element.terminal)}${times})`;
    }
    case 'Action':
      return `{ kind: 'type', type: ${quoted(nameAt(grammar, element.type))} }`;
  }
}

/** The types of the tree, as the grammar declares them. */
export function astModule(grammar: GrammarJson): string {
  const interfaces = grammar.interfaces.map((each) => {
    if (each.superTypes.length > 0)
      throw new Error(`${each.name} extends another type: the tree has no such thing yet`);
    const properties = each.attributes.map(
      ({ name, isOptional, type }) => `  ${name}${isOptional === true ? '?' : ''}: ${typeCode(grammar, type)};\n`,
    );
    return `export interface ${each.name} extends TreeNode {\n  $type: ${quoted(each.name)};\n${properties.join('')}}\n`;
  });
  const types = grammar.types.map(({ name, type }) => `export type ${name} = ${typeCode(grammar, type)};\n`);
  return `${written}
import type { TreeNode } from '../syntax/tree.ts';

${[...interfaces, ...types].join('\n')}`;
}

function typeCode(grammar: GrammarJson, type: TypeJson): string {
  switch (type.$type) {
    case 'ArrayType':
      return `Array<${typeCode(grammar, type.elementType)}>`;
    case 'UnionType':
      return type.types.map((each) => typeCode(grammar, each)).join(' | ');
    case 'SimpleType':
      if (type.typeRef) return nameAt(grammar, type.typeRef);
      return type.stringType === undefined ? (type.primitiveType ?? 'unknown') : quoted(type.stringType);
  }
}

function nameAt(grammar: GrammarJson, { $ref }: Reference): string {
  const list = /^#\/(rules|interfaces|types)@/.exec($ref)?.[1] as 'rules' | 'interfaces' | 'types' | undefined;
  const name = list && grammar[list][indexIn({ $ref })]?.name;
  if (name === undefined) throw new Error(`the grammar has nothing at ${$ref}`);
  return name;
}

function indexIn({ $ref }: Reference): number {
  return Number($ref.slice($ref.indexOf('@') + 1));
}

function quoted(text: string): string {
  return `'${text.replace(/['\\]/g, '\\$&')}'`;
}
