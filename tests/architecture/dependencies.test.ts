import { posix } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { filesBelow, nodesOf, root, type Source, sourceOf } from './sources.ts';

interface Area {
  readonly name: string;
  readonly has: (path: string) => boolean;
  /** Folders and files of ours that it may import from. */
  readonly ours: readonly string[];
  /** Packages, by their whole specifier. */
  readonly packages: readonly RegExp[];
}

// The first area that has a file holds for it.
const areas: readonly Area[] = [
  {
    name: 'language/domain knows nothing of the text, the editor or the machine',
    has: (path) => path.startsWith('language/domain/'),
    ours: ['language/domain/'],
    packages: [
      /^csv-stringify\/browser\/esm\/sync$/,
      /^polygon-clipping$/,
      /^fraction\.js$/,
      /^@noble\/hashes\/(sha2|utils)\.js$/,
    ],
  },
  {
    name: 'language/protocol stands alone',
    has: (path) => path.startsWith('language/protocol/'),
    ours: ['language/protocol/'],
    packages: [],
  },
  {
    name: 'the language knows itself',
    has: (path) => path.startsWith('language/'),
    ours: ['language/'],
    packages: [],
  },
  {
    name: 'the command line knows the language and the machine',
    has: (path) => path.startsWith('server/src/cli/'),
    ours: ['language/', 'server/src/cli/', 'server/src/main-stdio.ts', 'package.json'],
    packages: [/^node:/, /^commander$/, /^diff$/, /^temml$/, /^vscode-languageserver-textdocument$/],
  },
  {
    name: 'only the node entries of the server know node',
    has: (path) => /^server\/src\/(main-node|main-stdio|node-parts|stdio-connection)\.ts$/.test(path),
    ours: ['language/', 'server/src/'],
    packages: [/^node:/, /^vscode-languageserver\/node$/, /^vscode-uri$/],
  },
  {
    name: 'only the browser entry of the server knows the browser',
    has: (path) => path === 'server/src/main-worker.ts',
    ours: ['language/', 'server/src/'],
    packages: [/^vscode-languageserver\/browser$/, /^vscode-uri$/],
  },
  {
    name: 'the server knows the language and the protocol of editors',
    has: (path) => path.startsWith('server/src/'),
    ours: ['language/', 'server/src/'],
    packages: [/^vscode-languageserver$/, /^vscode-languageserver-textdocument$/, /^vscode-uri$/],
  },
  {
    name: 'the pane knows only what it is sent, and how a length is written',
    has: (path) => path.startsWith('extension/webview/'),
    // A length that changes with the pointer is written as everywhere else.
    ours: [
      ...['extension/webview/', 'language/protocol/'],
      ...['language/domain/units/format-length.ts', 'language/domain/units/length.ts'],
    ],
    packages: [/^lit-html(\/|$)/],
  },
  {
    name: 'the extension knows the editor, and of the language only the protocol',
    has: (path) => path.startsWith('extension/src/'),
    // Layouts to start from are texts to it.
    ours: ['extension/src/', 'extension/templates/', 'examples/first-wall.sill', 'language/protocol/'],
    packages: [/^vscode$/, /^vscode-languageclient/, /^node:/],
  },
];

const sources = ['language', 'server', 'extension']
  .flatMap((folder) => filesBelow(folder, /\.(ts|mts|js|mjs)$/))
  .filter((path) => !path.includes('/dist/'))
  .map(sourceOf);

function targetOf(source: Source, specifier: string): string {
  return posix.normalize(posix.join(posix.dirname(source.path), specifier));
}

function faultsIn(area: Area, source: Source): readonly string[] {
  return source.imports.flatMap((specifier) => {
    const fault = `${source.path} imports ${specifier}`;
    if (!specifier.startsWith('.')) return area.packages.some((allowed) => allowed.test(specifier)) ? [] : [fault];
    const target = targetOf(source, specifier);
    return area.ours.some((place) => target === place || (place.endsWith('/') && target.startsWith(place)))
      ? []
      : [fault];
  });
}

describe('what may depend on what', () => {
  for (const area of areas) {
    it(area.name, () => {
      const own = sources.filter((source) => areas.find((each) => each.has(source.path)) === area);
      expect(own.flatMap((source) => faultsIn(area, source))).toEqual([]);
    });
  }

  it('has a rule for every source file', () => {
    expect(sources.length).toBeGreaterThan(0);
    expect(sources.filter((source) => !areas.some((area) => area.has(source.path))).map(({ path }) => path)).toEqual(
      [],
    );
  });

  it('sees an import that breaks a rule', () => {
    const area = areas[0];
    const broken = { ...sourceOf('language/domain/units/length.ts'), imports: ['node:fs', '../../syntax/cut.ts'] };
    expect(area && faultsIn(area, broken)).toHaveLength(2);
  });
});

describe('how modules are written', () => {
  const handwritten = sources.filter(({ path }) => !path.startsWith('language/generated/'));

  it('exports by name, never by default, and re-exports nothing wholesale', () => {
    const faults = handwritten.flatMap(({ path, tree }) =>
      tree.statements
        .filter(
          (statement) =>
            ts.isExportAssignment(statement) ||
            (ts.isExportDeclaration(statement) && !statement.exportClause) ||
            (ts.canHaveModifiers(statement) &&
              ts.getModifiers(statement)?.some((modifier) => modifier.kind === ts.SyntaxKind.DefaultKeyword)),
        )
        .map((statement) => `${path}: ${statement.getText(tree).slice(0, 60)}`),
    );
    expect(faults).toEqual([]);
  });

  it('has no file that only passes on what others export', () => {
    const barrels = handwritten.filter(
      ({ tree }) =>
        tree.statements.length > 1 && tree.statements.every((statement) => ts.isExportDeclaration(statement)),
    );
    expect(barrels.map(({ path }) => path)).toEqual([]);
  });
});

describe('the language is pure', () => {
  const language = sources.filter(({ path }) => path.startsWith('language/'));

  it('asks neither the clock nor chance', () => {
    const faults = language.flatMap(({ path, tree }) =>
      [...nodesOf(tree)]
        .filter((node): node is ts.Identifier => ts.isIdentifier(node))
        .filter((node) => {
          const isProperty = ts.isPropertyAccessExpression(node.parent) && node.parent.name === node;
          if (node.text === 'random') return isProperty && node.parent.getText(tree) === 'Math.random';
          return (
            ['Date', 'performance', 'Intl'].includes(node.text) && !isProperty && !ts.isTypeReferenceNode(node.parent)
          );
        })
        .map((node) => `${path}: ${node.parent.getText(tree).slice(0, 60)}`),
    );
    expect(faults).toEqual([]);
  });

  // Without the type packages of Node and the editor, every global that plain JavaScript lacks is an unknown name.
  it('uses no global of Node, the browser or the editor', () => {
    const program = ts.createProgram(
      language.map(({ path }) => posix.join(root, path)),
      {
        target: ts.ScriptTarget.ES2023,
        lib: ['lib.es2023.d.ts'],
        module: ts.ModuleKind.NodeNext,
        moduleResolution: ts.ModuleResolutionKind.NodeNext,
        allowImportingTsExtensions: true,
        noEmit: true,
        strict: true,
        skipLibCheck: true,
        types: [],
      },
    );
    const unknownNames = language.flatMap(({ path }) =>
      program
        .getSemanticDiagnostics(program.getSourceFile(posix.join(root, path)))
        // 2304, 2552, 2580 to 2593: a name that nothing declares, with and without advice on what to install.
        .filter(({ code }) => code === 2304 || code === 2552 || (code >= 2580 && code <= 2593))
        .map(({ messageText }) => `${path}: ${ts.flattenDiagnosticMessageText(messageText, ' ')}`),
    );
    expect(unknownNames).toEqual([]);
  });
});
