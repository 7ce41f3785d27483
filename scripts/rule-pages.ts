/**
 * Writes docs/rules from the rules themselves: a page for each, and a list; and docs/subjects.md, what rule sets can limit.
 * `--check` writes nothing and fails where a page is missing, left over or not what its rule says.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join, posix, relative, sep } from 'node:path';
import process from 'node:process';
import { rulePage } from '../language/domain/documents/rule-page.ts';
import { subjectsPage } from '../language/domain/documents/subjects-page.ts';
import { rules } from '../language/domain/rules/registry.ts';
import { problemPages } from '../language/syntax/problem.ts';
import { shippedConnectors, shippedRuleSets } from '../language/syntax/shipped-rule-sets.ts';

const folder = join(import.meta.dirname, '..', 'docs', 'rules');
const subjectsPath = '../subjects.md';
const pages = wantedPages();
const present = new Map([...pagesBelow(folder), ...readIfThere(subjectsPath)]);
const stale = [...pages].filter(([path, text]) => present.get(path) !== text).map(([path]) => path);
const surplus = [...present.keys()].filter((path) => !pages.has(path));

if (process.argv.includes('--check')) {
  for (const path of [...stale, ...surplus])
    console.error(`${posix.join('docs/rules', path)} is not what the rules say: run \`node scripts/rule-pages.ts\`.`);
  process.exitCode = stale.length + surplus.length === 0 ? 0 : 1;
} else {
  for (const path of surplus) rmSync(join(folder, path));
  for (const path of stale) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), pages.get(path) ?? '');
  }
  console.log(`docs/rules: ${pages.size} pages, ${stale.length} written, ${surplus.length} removed.`);
}

function readIfThere(path: string): readonly (readonly [string, string])[] {
  const file = join(folder, path);
  return existsSync(file) ? [[path, readFileSync(file, 'utf8')]] : [];
}

function wantedPages(): ReadonlyMap<string, string> {
  const ruleSets = shippedRuleSets();
  const list = rules.map(({ id, severity, summary }) => `| [${id}](${id}.md) | ${severity} | ${cell(summary)} |`);
  const aboutText = problemPages().map(({ id, summary }) => `| ${id} | ${cell(summary)} |`);
  return new Map([
    [subjectsPath, subjectsPage(ruleSets, shippedConnectors())],
    ...rules.map((rule): [string, string] => [`${rule.id}.md`, rulePage(rule, ruleSets)]),
    [
      'README.md',
      [
        '# Rules',
        '',
        'What Sillwright looks for. The limits are data of the rule set in force; each page shows those that ship.',
        'What a rule set can limit stands in [subjects](../subjects.md).',
        '',
        '| rule | severity | when |',
        '|---|---|---|',
        ...list,
        '',
        '## About the text itself',
        '',
        '| code | when |',
        '|---|---|',
        ...aboutText,
        '',
      ].join('\n'),
    ],
  ]);
}

function cell(text: string): string {
  return text.replaceAll('|', '\\|');
}

function pagesBelow(path: string): ReadonlyMap<string, string> {
  mkdirSync(path, { recursive: true });
  return new Map(
    readdirSync(path, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .map((file) => [relative(path, file).split(sep).join('/'), readFileSync(file, 'utf8')]),
  );
}
