import { intervalIndex } from '../../fit/interval-index.ts';
import type { CountedAnchor } from '../../fit/piece-anchors.ts';
import { anchorsOf } from '../../fit/piece-anchors.ts';
import { insertAnchorTowards } from '../../fixes/anchor-fixes.ts';
import { withEdits } from '../../fixes/apply-in-memory.ts';
import type { ThingEdit } from '../../fixes/edit.ts';
import type { Layout, SillPiece, Stretch, Wall } from '../../model/layout.ts';
import { leastCount } from '../../rulesets/compare.ts';
import { toleranceOf } from '../../rulesets/tolerance.ts';
import { formatStation } from '../../units/format-length.ts';
import type { Length } from '../../units/length.ts';
import { defineRule } from '../define.ts';
import { demo } from '../example-texts.ts';
import type { Fix } from '../finding.ts';
import { severityOf, sourceWords } from '../limit-words.ts';

const cripple = [
  `cripple height 30" stud-height 25-1/8" studs size 2x4 spaced 16" first 0" double plate trimmers none`,
];

export const fewAnchorsInPanel = defineRule({
  id: 'anchorage/few-anchors-in-panel',
  severity: 'warning',
  on: 'wall',
  summary: 'Fewer anchors than the rule set has stand in the sill below a bracing panel.',
  why: 'A panel hands its whole force to the sill under it. With one anchor there, or none, the force has no way out but to split the board.',
  remedy: 'Add anchors below the panel, near its ends.',
  subjects: { 'panel-anchors': 'number', tolerance: 'length' },
  examples: [
    {
      failing: withPanel(`4'-10" to 8'-6"`),
      passing: withPanel(`4'-8" to 8'-8"`),
    },
  ],
  check({ wall }, context) {
    const { layout, showStation } = context;
    if (wall.panels.length === 0) return;
    const answer = context.limit('panel-anchors', {});
    const least = answer.kind === 'limit' ? leastCount(answer.limit) : undefined;
    if (answer.kind !== 'limit' || least === undefined) return;
    const tolerance = toleranceOf(layout.rules);
    const anchors = intervalIndex(
      wall.pieces.flatMap((piece) =>
        anchorsOf(wall, piece).map((anchor) => ({ from: anchor.station, to: anchor.station, anchor })),
      ),
    );
    for (const panel of wall.panels) {
      const { stretch } = panel;
      if (!stretch || panel.state === 'omitted') continue;
      // Ends included.
      const below = anchors
        .overlapping(stretch.from - tolerance - 1, stretch.to + tolerance + 1)
        .map(({ anchor }) => anchor);
      if (below.length >= least) continue;
      const has = below.length === 0 ? 'no anchor' : below.length === 1 ? 'one anchor' : `${below.length} anchors`;
      context.report({
        message:
          `Panel ${panel.name}, ${showStation(stretch.from)} to ${showStation(stretch.to)}, has ${has} below it of at least ${least} ` +
          `(${sourceWords(answer.limit)}). Add ${least - below.length} near its ends.`,
        severity: severityOf(answer.limit, 'warning'),
        thing: panel.id,
        layer: 'design',
        station: stretch.from,
        stationTo: stretch.to,
        span: panel.stretchSource,
        related: below.map((anchor) => ({ span: anchor.span, message: `${anchor.words} stands below it` })),
        citation: answer.limit.citation,
        fixes: (now) => nearItsEnds(now, wall, stretch, below, least - below.length),
      });
    }
  },
});

/** As many as are missing, in turn at the two ends of the panel. */
function nearItsEnds(
  layout: Layout,
  wall: Wall,
  stretch: Stretch,
  below: readonly CountedAnchor[],
  missing: number,
): readonly Fix[] {
  const [only] = below;
  const nearLeft = only !== undefined && only.station - stretch.from < stretch.to - only.station;
  const edits: ThingEdit[] = [];
  let now = layout;
  for (let count = 0; count < missing; count += 1) {
    const here = now.walls.find((each) => each.id === wall.id);
    const aim = nearLeft === (count % 2 === 0) ? stretch.to : stretch.from;
    const board = here?.pieces.find((each) => each.from < stretch.to && stretch.from < each.to && isUnder(each, aim));
    const [fix] = here && board ? insertAnchorTowards(now, here, board, stretch, aim) : [];
    if (!fix) return [];
    edits.push(...fix.edits);
    now = withEdits(now, fix.edits);
  }
  const marks = edits.flatMap((edit) => (edit.kind === 'insert-anchor' ? [edit] : []));
  const places = marks
    .map((each) => `${each.mark} at ${formatStation(each.station, layout.title.units)}`)
    .join(' and ');
  return [{ title: `Add ${places} below the panel`, trust: 'review', edits }];
}

const isUnder = (piece: SillPiece, station: Length): boolean => piece.from <= station && station <= piece.to;

function withPanel(stretch: string): string {
  const anchors = [`0'-10"`, `4'-8"`, `8'-8"`, `11'-4"`, `13'-1"`];
  const text = demo({ anchors, found: cripple });
  return `${text}  panel F-P1 ${stretch} plywood 15/32" nails 8d edge 4" field 12" nailers none vent-holes none\n`;
}
