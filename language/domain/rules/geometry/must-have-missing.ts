import { foundationUnder } from '../../fit/foundation-under.ts';
import { anchorsOf } from '../../fit/piece-anchors.ts';
import type { FoundationStretch, NewAnchor, SillPiece, Wall } from '../../model/layout.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import type { Fix } from '../finding.ts';

export const mustHaveMissing = defineRule({
  id: 'geometry/must-have-missing',
  severity: 'error',
  on: 'piece',
  summary:
    'A sill board with new work lacks a reading without which no connector can be chosen: set-back, size, headroom or concrete showing.',
  why: 'Which connector reaches, and whether a drill fits over it, follows from these. Silence is neither a number nor an honest `unknown`.',
  remedy:
    'Measure it. Where nobody can, write `unknown`: it goes on the survey list, and the checks say what they could not look at.',
  subjects: {},
  examples: [
    {
      failing: demo({ anchors: sound, sill: 'size 2x6 set-back 3/4"', connectors: ['stepped-plate-s'] }),
      passing: demo({
        anchors: sound,
        sill: 'size 2x6 set-back 3/4" headroom unknown',
        connectors: ['stepped-plate-s'],
      }),
    },
  ],
  check({ wall, piece }, context) {
    const anchors = newOn(wall, piece);
    const [first] = anchors;
    if (!first) return;
    const stretches = foundationUnder(wall, piece);
    const mute = stretches.filter((each) => !each.showing);
    const missing = [
      ...(piece.size ? [] : ['size']),
      ...(piece.setBack ? [] : ['set-back']),
      ...(piece.headroom ? [] : ['headroom']),
    ];
    const concrete = mute.length > 0 || stretches.length === 0 ? ['concrete showing'] : [];
    const all = [...missing, ...concrete];
    if (all.length === 0) return;
    context.report({
      message:
        `Sill ${piece.name} has new work (${first.name}${anchors.length > 1 ? ' and more' : ''}) and no ${inWords(all)} on record, so no connector can be ` +
        'chosen. Measure, or write `unknown` and it goes on the survey list.',
      span: piece.source,
      fixes: () => writeUnknown(piece, missing, mute),
    });
  },
});

const newOn = (wall: Wall, piece: SillPiece): readonly NewAnchor[] =>
  anchorsOf(wall, piece).flatMap(({ planned }) => (planned?.state === 'planned' ? [planned] : []));

/** `unknown` puts it on the survey list. A size has no such word. */
function writeUnknown(
  piece: SillPiece,
  missing: readonly string[],
  mute: readonly FoundationStretch[],
): readonly Fix[] {
  const words = missing.map((each) => (each === 'size' ? 'size unknown x unknown' : `${each} unknown`));
  const edits = [
    ...(words.length === 0 ? [] : [{ kind: 'add-words' as const, span: piece.source, text: words.join(' ') }]),
    ...mute.map((each) => ({ kind: 'add-words' as const, span: each.source, text: 'showing unknown' })),
  ];
  return edits.length === 0
    ? []
    : [
        {
          title: `Write what is missing on ${piece.name} as unknown, to be measured`,
          trust: 'review',
          admits: true,
          edits,
        },
      ];
}

const inWords = (list: readonly string[]): string =>
  list.length < 2 ? list.join('') : `${list.slice(0, -1).join(', ')} or ${list[list.length - 1]}`;
