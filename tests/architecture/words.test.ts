import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { filesBelow, nodesOf, read, sourceOf } from './sources.ts';

// People may go under a house with what is printed: none of this is ever said of it.
const forbidden =
  /\b(safe(ly|r|st)?|compliant|compliance|(passes|meets) (the )?code|no problems|certified|guarantee[ds]?|approved)\b/i;

/** What must be said, and what is not said to people. */
const allowed: readonly RegExp[] = [
  /it does not show that the house is safe/,
  // The trust of a mend, in JSON and in code.
  /^'safe'$/,
  /`safe` keeps the meaning/,
];

function faultsIn(path: string, texts: readonly string[]): readonly string[] {
  return texts
    .filter((text) => forbidden.test(text) && !allowed.some((sentence) => sentence.test(text)))
    .map((text) => `${path}: ${text.slice(0, 120)}`);
}

function literalsOf(path: string): readonly string[] {
  const { tree } = sourceOf(path);
  return [...nodesOf(tree)]
    .filter(
      (node) =>
        ts.isStringLiteral(node) ||
        ts.isNoSubstitutionTemplateLiteral(node) ||
        ts.isTemplateHead(node) ||
        ts.isTemplateMiddle(node) ||
        ts.isTemplateTail(node) ||
        ts.isJsxText(node),
    )
    .map((node) => node.getText(tree));
}

describe('what is never said', () => {
  it('by no text in the sources', () => {
    const paths = ['language', 'server', 'extension'].flatMap((folder) => filesBelow(folder, /\.ts$/));
    expect(paths.length).toBeGreaterThan(0);
    expect(paths.flatMap((path) => faultsIn(path, literalsOf(path)))).toEqual([]);
  });

  it('by no page, menu or example', () => {
    const paths = [
      'README.md',
      ...filesBelow('docs', /\.md$/),
      ...filesBelow('examples', /\.sill$/),
      ...filesBelow('language/library', /\.sill$/),
      ...filesBelow('extension', /^package(\.nls)?\.json$/),
    ];
    expect(paths.flatMap((path) => faultsIn(path, read(path).split('\n')))).toEqual([]);
  });

  it('and the check itself bites', () => {
    expect(faultsIn('x', ["'This wall is safe.'", "'code-compliant'", "'It passes code.'"])).toHaveLength(3);
  });
});
