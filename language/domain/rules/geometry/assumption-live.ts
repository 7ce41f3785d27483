import type { Leaning } from '../../model/layout.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';

export const assumptionLive = defineRule({
  id: 'geometry/assumption-live',
  severity: 'info',
  on: 'house',
  summary: 'A value is assumed, and results rest on it.',
  why: 'An assumption that nobody names becomes a fact by the third copy. Every sheet says what it leans on, and somebody can still measure it.',
  remedy: 'Measure it and take `assume` out; until then it stands on every output.',
  subjects: {},
  examples: [
    {
      failing: demo({ anchors: sound, foundation: `thick assume 8" showing 18" top 0"` }),
      passing: demo({ anchors: sound }),
    },
  ],
  check({ layout }, context) {
    const seen = new Set<string>();
    for (const leaning of layout.assumptions) {
      if (leaning.quality !== 'assumed') continue;
      // One line may speak of many things at once.
      const key = `${leaning.source.block.key} ${leaning.source.start} ${leaning.source.end}`;
      if (seen.has(key)) continue;
      seen.add(key);
      context.report({
        message: `${sentence(leaning.what)} is assumed (${leaning.typed}): what follows from it is no better than that. Measure it or look it up, then take \`assume\` out.`,
        thing: `assumption:${leaning.what}`,
        about: `${leaning.what} ${leaning.typed}`,
        layer: 'survey',
        span: leaning.source,
        fixes: () => measured(leaning),
      });
    }
  },
});

const sentence = (what: string): string => what.charAt(0).toUpperCase() + what.slice(1);

function measured({ typed, source }: Leaning) {
  const text = typed.replace(/^assume\s+/, '');
  return text === typed
    ? []
    : [
        {
          title: `Write ${text} as measured, once somebody has measured it`,
          trust: 'by-hand' as const,
          edits: [{ kind: 'replace-text' as const, span: source, text }],
        },
      ];
}
