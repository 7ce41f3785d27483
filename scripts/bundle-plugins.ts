/** What the bundles leave out or pack smaller than it is written. Each leaves the sources as they are. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { brotliCompressSync, constants } from 'node:zlib';
import type { Plugin } from 'esbuild';
import ts from 'typescript';

/** The texts of the library repeat themselves: packed, they are a fifth, and they are unpacked once, when the first is asked for. */
export const packedTexts: Plugin = {
  name: 'packed-texts',
  setup({ onLoad }) {
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

/** Features of the protocol that the server does not have; the library brings them all. */
const unusedFeatures = [
  ...['callHierarchy', 'typeHierarchy', 'notebook', 'moniker', 'inlineValue', 'inlineCompletion'],
  ...['linkedEditingRange', 'fileOperations', 'textDocumentContent'],
].join('|');

/** What stands in place of a file of a library: by a part of its path, the new text from the old. */
const leftOut: readonly (readonly [file: RegExp, instead: (text: string) => string])[] = [
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
  setup({ onLoad }) {
    onLoad({ filter: /node_modules[/\\]vscode-(languageserver|languageserver-protocol|jsonrpc)[/\\]/ }, ({ path }) => {
      const instead = leftOut.find(([file]) => file.test(path.replaceAll('\\', '/')))?.[1] ?? asPlainValues;
      return { contents: instead(readFileSync(path, 'utf8')), loader: 'js' };
    });
  },
};

/**
 * The compiler of these libraries hands each of some four hundred names on from file to file by a function of its own, which is half a
 * megabyte; as plain values they are nothing. What makes random numbers is loaded where one is wanted: it is 0.4 MB, and over
 * standard input and output none is.
 */
function asPlainValues(text: string): string {
  return (
    text
      .replace(
        /^var __createBinding = [\s\S]*?^\}\)\);$/m,
        'var __createBinding = (to, from, name, as = name) => { to[as] = from[name]; };',
      )
      .replace(
        /^Object\.defineProperty\(exports, "(\w+)", \{ enumerable: true, get: function \(\) \{ return ([\w.]+); \} \}\);$/gm,
        'exports.$1 = $2;',
      )
      // Their names are not wanted one by one, and some of them complain when they are read.
      .replace(/__importStar\((require\("\w+"\))\)/g, '$1')
      .replace(/^const crypto_1 = require\("crypto"\);$/m, '')
      .replaceAll('(0, crypto_1.', '(0, require("crypto").')
  );
}

/**
 * A bundler that takes names out of a module of the older format makes a copy of all its names for each file that asks: here all files
 * take theirs from one.
 */
export const libraryAsOneModule: Plugin = {
  name: 'library-as-one-module',
  setup({ onResolve, onLoad, initialOptions: { absWorkingDir = '.' } }) {
    const namespace = 'names-of-library';
    onResolve({ filter: /^vscode-languageserver(\/node|\/browser)?$/ }, ({ path, kind }) =>
      kind === 'import-statement' ? { path, namespace } : undefined,
    );
    onLoad({ filter: /./, namespace }, ({ path }) => {
      const imports = new RegExp(`^import \\{([^}]*)\\} from '${path}';$`, 'gm');
      const taken = scriptsIn(join(absWorkingDir, 'server/src')).flatMap((text) =>
        [...text.matchAll(imports)].flatMap(([, names = '']) => names.split(',').map((name) => name.trim())),
      );
      const names = [...new Set(taken.filter((name) => /^\w+$/.test(name)))].sort();
      return {
        contents: `export const { ${names.join(', ')} } = require('${path}');`,
        resolveDir: join(absWorkingDir, 'server/src'),
        loader: 'js',
      };
    });
  },
};

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
