import { type Hover, MarkupKind } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.ts';
import type { Finding } from '../../../language/domain/rules/finding.ts';
import { type Feature, presentState, rangeOf } from '../context.ts';
import type { sourceOf } from '../describe.ts';
import { underCursor } from '../things.ts';

/** What stands here and what is found wrong with it: the limit, and the source that it rests on. */
export const hover: Feature = {
  capabilities: { hoverProvider: true },
  register(context) {
    context.connection.onHover(async ({ textDocument, position }) => {
      // Loaded by the first hover: checking as one types has no use for forces.
      const [{ numbersOfThing }, { describe, sourceOf }] = await Promise.all([
        import('../numbers-of-thing.ts'),
        import('../describe.ts'),
      ]);
      return context.guarded<Hover | null>('answering a hover', null, () => {
        const state = presentState(context, textDocument.uri);
        if (!state) return null;
        const { analysis, document } = state;
        const offset = document.offsetAt(position);
        const findings = findingsAt(analysis, textDocument.uri, offset);
        const { on } = underCursor(analysis, textDocument.uri, { offset, lineStart: offset, lineEnd: offset });
        const parts = findings.map((finding) => findingInWords(finding, sourceOf(finding)));
        if (on) {
          const { mark, station, summary, facts } = describe(analysis, on);
          const head = [`**${escapeMarkdown(mark)}**`, escapeMarkdown(station), escapeMarkdown(summary)];
          const numbers = numbersOfThing(analysis.layout, on);
          const rows = [...facts, ...numbers].map(
            ({ name, text }) => `- ${escapeMarkdown(name)}: ${escapeMarkdown(text)}`,
          );
          parts.push([head.filter((part) => part !== '' && part !== '****').join(' · '), ...rows].join('\n'));
        }
        if (parts.length === 0) return null;
        const place = on && analysis.locate(on.thing.source);
        return {
          contents: { kind: MarkupKind.Markdown, value: parts.join('\n\n---\n\n') },
          ...(place && findings.length === 0 ? { range: rangeOf(document, place.start, place.end) } : {}),
        };
      });
    });
    return undefined;
  },
};

function findingsAt(analysis: Analysis, uri: string, offset: number): readonly Finding[] {
  return analysis.findings.filter((finding) => {
    const place = analysis.locate(finding.span);
    return place?.file === uri && place.start <= offset && offset <= place.end;
  });
}

function findingInWords(finding: Finding, source: ReturnType<typeof sourceOf>): string {
  const state = finding.accepted === undefined ? finding.severity : `accepted: ${escapeMarkdown(finding.accepted)}`;
  return [
    `**${state}** \`${finding.rule}\``,
    ...finding.message.split('\n').map(escapeMarkdown),
    ...(source === undefined ? [] : [`Source: ${escapeMarkdown(source)}`]),
  ].join('  \n');
}

/** Names in a file may hold anything: they are shown, never interpreted. */
export function escapeMarkdown(text: string): string {
  return text.replace(/[\\`*_{}[\]()#+\-.!<>|~&]/g, '\\$&');
}
