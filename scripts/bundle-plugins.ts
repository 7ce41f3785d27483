/** What the bundles leave out or pack smaller than it is written. Each leaves the sources as they are. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { brotliCompressSync, constants } from 'node:zlib';
import type { Plugin } from 'esbuild';
import ts from 'typescript';

/**
 * The generated grammar is one text of a quarter megabyte that repeats itself: packed, it is a twentieth, and it is
 * unpacked once, when the first file is read. The library's files are packed with it in the same way.
 */
export const packedTexts: Plugin = {
  name: 'packed-texts',
  setup({ onLoad }) {
    onLoad({ filter: /generated[/\\]grammar\.ts$/ }, async ({ path }) => {
      const { grammarText } = (await import(path)) as { readonly grammarText: string };
      return { contents: `${unpack}\nexport const grammarText = ${packed(grammarText)};`, loader: 'js' };
    });
    onLoad({ filter: /generated[/\\]library\.ts$/ }, async ({ path }) => {
      const { libraryTexts } = (await import(path)) as { readonly libraryTexts: ReadonlyMap<string, string> };
      const entries = packed(JSON.stringify([...libraryTexts]));
      return { contents: `${unpack}\nexport const libraryTexts = new Map(JSON.parse(${entries}));`, loader: 'js' };
    });
  },
};

const unpack = `import { brotliDecompressSync } from 'node:zlib';`;

function packed(text: string): string {
  const { BROTLI_PARAM_LGWIN, BROTLI_PARAM_SIZE_HINT } = constants;
  const params = { [BROTLI_PARAM_LGWIN]: 22, [BROTLI_PARAM_SIZE_HINT]: Buffer.byteLength(text) };
  const bytes = brotliCompressSync(text, { params });
  return `brotliDecompressSync(Buffer.from('${bytes.toString('base64')}', 'base64')).toString()`;
}

/** Of the generated types of the tree the parser reads a table: one line for each type is a fifth of it. */
export const compactTree: Plugin = {
  name: 'compact-tree',
  setup({ onLoad }) {
    onLoad({ filter: /generated[/\\]ast\.ts$/ }, async ({ path }) => {
      const { SillwrightTerminals, reflection } = (await import(path)) as GeneratedTree;
      const terminals = Object.entries(SillwrightTerminals).map(([name, pattern]) => `${name}: ${pattern}`);
      const contents = `import { AbstractAstReflection } from 'langium';
export const SillwrightTerminals = { ${terminals.join(', ')} };
const table = ${JSON.stringify(Object.values(reflection.types).map(rowOf).join(';'))};
const split = (text, by) => text === '' ? [] : text.split(by);
const typeOf = (row) => {
  const [name, properties, superTypes] = row.split(':');
  const property = (word) => {
    const [, name, mark] = /^(\\w+)(.*)$/.exec(word);
    const defaultValue = { '*': [], '!': false }[mark];
    return [name, { name, ...(defaultValue === undefined ? {} : { defaultValue }), ...(mark === '?' ? { optional: true } : {}) }];
  };
  return [name, {
    name, properties: Object.fromEntries(split(properties, ',').map(property)), superTypes: split(superTypes, ','),
  }];
};
export class SillwrightAstReflection extends AbstractAstReflection {
  types = Object.fromEntries(table.split(';').map(typeOf));
}`;
      return { contents, loader: 'js', resolveDir: join(path, '..') };
    });
  },
};

interface GeneratedTree {
  readonly SillwrightTerminals: Readonly<Record<string, RegExp>>;
  readonly reflection: { readonly types: Readonly<Record<string, GeneratedType>> };
}
interface GeneratedType {
  readonly name: string;
  readonly properties: Readonly<Record<string, GeneratedProperty>>;
  readonly superTypes: readonly string[];
}
interface GeneratedProperty {
  readonly name: string;
  readonly optional?: boolean;
  readonly defaultValue?: unknown;
}

/** `Wall:name,items*,shared!:Block`: a list that begins empty, a word that begins as no. */
function rowOf({ name, properties, superTypes }: GeneratedType): string {
  const words = Object.values(properties).map((property) => `${property.name}${markOf(name, property)}`);
  return [name, words.join(','), superTypes.join(',')].join(':');
}

function markOf(type: string, { name, optional, defaultValue, ...others }: GeneratedProperty): string {
  if (Object.keys(others).length > 0) throw new Error(`${type}.${name} has more to it than the bundle keeps`);
  if (Array.isArray(defaultValue) && defaultValue.length === 0) return '*';
  if (defaultValue === false) return '!';
  if (defaultValue !== undefined) throw new Error(`${type}.${name} begins as ${String(defaultValue)}`);
  return optional === true ? '?' : '';
}

/** Features of the protocol that the server does not have; the library brings them all. */
const unusedFeatures = [
  ...['callHierarchy', 'typeHierarchy', 'notebook', 'moniker', 'inlineValue', 'inlineCompletion'],
  ...['linkedEditingRange', 'fileOperations', 'textDocumentContent'],
].join('|');

/** What stands in place of a file of a library: by a part of its path, the new text from the old. */
const leftOut: readonly (readonly [file: RegExp, instead: (text: string) => string])[] = [
  // We read words ourselves (`language/syntax/lexer.ts`); of the library's reader of words only a name is asked for.
  [
    /chevrotain\/lib\/src\/scan\/lexer_public\.js$/,
    () => 'export class Lexer {} Lexer.NA = /NOT_APPLICABLE/; export const LexerDefinitionErrorType = {};',
  ],
  // The grammar is checked by a test, not at each start.
  [/chevrotain\/lib\/src\/parse\/grammar\/checks\.js$/, withoutBodies],
  [
    /@chevrotain\/regexp-to-ast\/lib\/src\/api\.js$/,
    () => 'export class RegExpParser {} export class BaseRegExpVisitor {}',
  ],
  [new RegExp(`vscode-languageserver/lib/common/(${unusedFeatures})\\.js$`), featuresAsTheyCame],
  [/vscode-languageserver\/lib\/node\/files\.js$/, () => 'module.exports = {};'],
  [
    new RegExp(`vscode-languageserver-protocol/lib/common/protocol\\.(${unusedFeatures})\\.js$`),
    () => 'module.exports = {};',
  ],
];

/** Parts of libraries that we do not use and that their own bundles would bring along. */
export const withoutUnusedParts: Plugin = {
  name: 'without-unused-parts',
  setup({ onResolve, onLoad }) {
    // Langium's way of looking ahead, which our parser does not use (`language/syntax/lookahead.ts`).
    onResolve({ filter: /^chevrotain-allstar$/ }, ({ path }) => ({ path, namespace: 'unused' }));
    onLoad({ filter: /.*/, namespace: 'unused' }, () => ({ contents: 'export class LLStarLookaheadStrategy {}' }));
    onLoad({ filter: /node_modules[/\\](@?chevrotain|vscode-languageserver)/ }, ({ path }) => {
      const instead = leftOut.find(([file]) => file.test(path.replaceAll('\\', '/')))?.[1];
      return instead && { contents: instead(readFileSync(path, 'utf8')), loader: 'js' };
    });
  },
};

function withoutBodies(text: string): string {
  return [...text.matchAll(/^export function (\w+)/gm)]
    .map(([, name]) => `export function ${name}() { return []; }`)
    .join('\n');
}

/** Each feature is a class made from another: without it the other is left as it came. */
function featuresAsTheyCame(text: string): string {
  return [...text.matchAll(/^exports\.(\w+Feature) = /gm)]
    .map(([, name]) => `exports.${name} = (Base) => Base;`)
    .join('\n');
}

/**
 * Of the protocol's types as values (kinds of symbols, severities) those that the server or the libraries around them name. They are
 * one module, whose parts no bundler can tell apart.
 */
export const namedTypesOnly: Plugin = {
  name: 'named-types-only',
  setup({ onLoad, initialOptions: { absWorkingDir = '.' } }) {
    onLoad({ filter: /vscode-languageserver-types[/\\]lib[/\\]esm[/\\]main\.js$/ }, ({ path }) => {
      const text = readFileSync(path, 'utf8');
      const parts = partsOf(text);
      const names = new Set(parts.map(({ name }) => name));
      const needed = new Set<string>();
      const need = (words: Iterable<string>): void => {
        for (const word of words) {
          if (!names.has(word) || needed.has(word)) continue;
          needed.add(word);
          for (const part of parts) if (part.name === word) need(part.text.match(/\w+/g) ?? []);
        }
      };
      const libraries = ['vscode-languageserver', 'vscode-languageserver-protocol'].map((each) =>
        join(path, '../../../..', each, 'lib'),
      );
      for (const file of libraries.flatMap(scriptsIn)) need(file.match(/(?<=_1\.)\w+/g) ?? []);
      for (const file of scriptsIn(join(absWorkingDir, 'server/src'))) need(file.match(/\b[A-Z]\w+(?=\.)/g) ?? []);
      return {
        contents: parts
          .filter(({ name }) => needed.has(name))
          .map((part) => part.text)
          .join('\n'),
        loader: 'js',
      };
    });
  },
};

/** The statements of a module by the name that each makes: `export var X;`, `(function (X) {…})(X || (X = {}));`, `class X {…}`. */
function partsOf(text: string): readonly { readonly name: string; readonly text: string }[] {
  return ts.createSourceFile('parts.js', text, ts.ScriptTarget.Latest).statements.map((statement) => {
    const own = text.slice(statement.pos, statement.end);
    const [, name = ''] =
      /^(?:export )?(?:var|const|class) (\w+)|^\(function \((\w+)\)/m.exec(own)?.filter(Boolean) ?? [];
    return { name, text: own };
  });
}

function scriptsIn(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => /(?<!\.d)\.[jt]s$/.test(name))
    .map((name) => readFileSync(join(folder, name), 'utf8'));
}

/** The words of a rule's page, which the command line and the documentation print and the language server never reads. */
const pageOfRule: ReadonlySet<string> = new Set(['summary', 'why', 'remedy', 'examples']);
export const withoutRulePages: Plugin = {
  name: 'without-rule-pages',
  setup({ onLoad }) {
    onLoad({ filter: /domain[/\\]rules[/\\][^/\\]+[/\\][^/\\]+\.ts$/ }, ({ path }) => {
      const source = readFileSync(path, 'utf8');
      const file = ts.createSourceFile(path, source, ts.ScriptTarget.Latest);
      const cuts: { readonly from: number; readonly to: number }[] = [];
      const visit = (node: ts.Node): void => {
        if (ts.isCallExpression(node) && node.expression.getText(file) === 'defineRule') {
          const [rule] = node.arguments;
          for (const each of rule && ts.isObjectLiteralExpression(rule) ? rule.properties : []) {
            if (!ts.isPropertyAssignment(each) || !pageOfRule.has(each.name.getText(file))) continue;
            const comma = source.startsWith(',', each.end) ? 1 : 0;
            cuts.push({ from: each.getStart(file), to: each.end + comma });
          }
        }
        ts.forEachChild(node, visit);
      };
      visit(file);
      const contents = cuts.reduceRight((text, { from, to }) => text.slice(0, from) + text.slice(to), source);
      return { contents, loader: 'ts' };
    });
  },
};
