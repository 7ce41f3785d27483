import { anchorsOf, whyWorthless } from '../../fit/piece-anchors.ts';
import {
  countAsked,
  diameterOfConnector,
  endDistanceAsked,
  endDistanceSubjects,
  uniqueDiameters,
} from '../../fit/piece-requirements.ts';
import { insertAnchors } from '../../fixes/anchor-fixes.ts';
import { anchorsSill } from '../../hardware/connector.ts';
import type { Layout, SillPiece, Wall } from '../../model/layout.ts';
import type { Limit } from '../../rulesets/rule-set.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';
import { caseWords, sourceWords } from '../limit-words.ts';
import { isForgotten } from '../load-path/wall-line-forgotten.ts';

const firstBoard = 'to 5\'-0" size 2x6 set-back 3/4" headroom 11-1/8"';
const twoBoards = ['sill F2 to end size 2x6 set-back 3/4" headroom 11-1/8"'];
const onFirst = [`0'-10"`, `4'-2"`];
const onSecond = [`5'-10"`, `8'-4"`, `10'-10"`, `13'-2"`];

export const pieceWithoutAnchor = defineRule({
  id: 'anchorage/piece-without-anchor',
  severity: 'error',
  on: 'piece',
  summary: 'A sill board has no anchor that counts.',
  why: 'The force from the floor reaches this board and stops: nothing ties it to the concrete. One loose board breaks the path of the whole line.',
  remedy:
    'Anchor the board as the table asks for its length. An old anchor counts only where somebody gave it full credit.',
  subjects: {
    'piece-count': 'number',
    ...endDistanceSubjects,
    'side-plate-as-bolt': 'length',
  },
  examples: [
    {
      failing: demo({ anchors: onFirst, sill: firstBoard, found: twoBoards }),
      passing: demo({ anchors: [...onFirst, ...onSecond], sill: firstBoard, found: twoBoards }),
    },
  ],
  check({ wall, piece }, context) {
    const { layout, showStation } = context;
    // With nothing on the whole line, that is the matter.
    if (anchorsOf(wall, piece).length > 0 || isForgotten(layout, wall)) return;
    const uncounted = uncountedOn(wall, piece);
    const only = uncounted.length === 0 ? '' : ` (${uncounted.join(', ')})`;
    const wanted = wantedFor(layout, wall, piece, context);
    context.report({
      message:
        `Sill ${piece.name}, ${showStation(piece.from)} to ${showStation(piece.to)}, has no anchor that counts${only}. ` +
        wanted.words,
      span: piece.source,
      citation: wanted.limit?.citation,
      fixes: (now) => insertAnchors(now, wall, piece, { kind: 'piece' }),
    });
  },
});

/** What stands on the board and does not count, with the reason. */
function uncountedOn(wall: Wall, piece: SillPiece): readonly string[] {
  const onPiece = (station: number | undefined): boolean =>
    station !== undefined && piece.from <= station && station <= piece.to;
  const found = wall.foundAnchors.filter((anchor) => onPiece(anchor.station));
  const worthless = found.flatMap((anchor) => {
    const why = anchor.credit === 'full' ? whyWorthless(anchor) : undefined;
    return why === undefined ? [] : [`${anchor.name ?? 'a found one'} ${why}`];
  });
  const withoutCredit = found.length - worthless.length;
  const lost = wall.anchors.filter(
    (anchor) => onPiece(anchor.station) && (anchor.state === 'omitted' || anchor.state === 'failed'),
  );
  return [
    ...(withoutCredit === 0 ? [] : [`${withoutCredit} found without full credit`]),
    ...worthless,
    ...lost.map((anchor) => `${anchor.name} ${anchor.state}`),
  ];
}

/** What the rules ask of such a board: of the connectors in sight, for the kind that wants most. */
function wantedFor(
  layout: Layout,
  wall: Wall,
  piece: SillPiece,
  { show }: RuleContext,
): { readonly words: string; readonly limit: Limit | undefined } {
  const connectors = [...layout.connectors.values()].filter((connector) => anchorsSill(connector.kind));
  const diameters = uniqueDiameters(connectors.map(diameterOfConnector));
  const count = countAsked(layout, wall, piece, diameters);
  if (count.kind === 'asked') {
    const words = `It wants ${count.value === 1 ? 'one' : count.value}${caseWords(count, show)} (${sourceWords(count.limit)}).`;
    return { words, limit: count.limit };
  }
  const end = endDistanceAsked(layout, wall, piece, 'left', 'most', diameters);
  if (end.kind === 'asked') {
    const words = `It wants one at most ${show(end.value)} from each end (${sourceWords(end.limit)}) and more between.`;
    return { words, limit: end.limit };
  }
  return { words: 'Anchor it.', limit: undefined };
}
