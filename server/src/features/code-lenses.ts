import type { CodeLens } from 'vscode-languageserver';
import type { Analysis } from '../../../language/analysis.ts';
import type { Wall } from '../../../language/domain/model/layout.ts';
import { type Feature, presentState, rangeOf } from '../context.ts';

/** Over each wall: what it has and what it lacks; the click shows it in the pane. */
export const codeLenses: Feature = {
  capabilities: { codeLensProvider: { resolveProvider: false } },
  register(context) {
    context.connection.onCodeLens(({ textDocument }) =>
      context.guarded<CodeLens[]>('counting per wall', [], () => {
        const state = presentState(context, textDocument.uri);
        if (!state) return [];
        const { analysis, document } = state;
        return analysis.layout.walls.flatMap((wall): CodeLens[] => {
          const place = analysis.locate(wall.nameSource);
          if (place?.file !== document.uri) return [];
          const range = rangeOf(document, place.start, place.end);
          return [
            {
              range,
              command: {
                title: countsInWords(analysis, wall),
                command: 'sillwright.showLayout',
                arguments: [document.uri],
              },
            },
          ];
        });
      }),
    );
    return undefined;
  },
};

function countsInWords(analysis: Analysis, wall: Wall): string {
  const built = wall.anchors.filter(({ state }) => state === 'installed').length;
  const planned = wall.anchors.filter(({ state }) => state === 'planned' || state === 'installed').length;
  const short = new Set(
    analysis.findings
      .filter(({ rule, wall: on, accepted }) => on === wall.name && accepted === undefined && boardRules.has(rule))
      .map(({ piece }) => piece),
  ).size;
  const of = analysis.findings.filter(({ wall: on, accepted }) => on === wall.name && accepted === undefined);
  const errors = of.filter(({ severity }) => severity === 'error' || severity === 'stop').length;
  return [
    wall.noWork ? 'no work here' : `${count(planned, 'anchor')}${built > 0 ? `, ${built} installed` : ''}`,
    short > 0 ? `${short} of ${count(wall.pieces.length, 'board')} short` : count(wall.pieces.length, 'board'),
    count(errors, 'error'),
  ].join(' · ');
}

function count(number: number, word: string): string {
  return `${number} ${word}${number === 1 ? '' : 's'}`;
}

/** What says that a board lacks anchors. */
const boardRules: ReadonlySet<string> = new Set([
  'anchorage/piece-without-anchor',
  'anchorage/short-piece-count',
  'anchorage/gap-too-wide',
]);
