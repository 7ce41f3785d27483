import { endWindow } from '../../fit/end-window.ts';
import type { Side } from '../../fit/piece-requirements.ts';
import { diametersOn, endDistanceAsked, endDistanceSubjects, takesOneAnchor } from '../../fit/piece-requirements.ts';
import { stretchWords } from '../../fit/thing-words.ts';
import { replaceSill } from '../../fixes/replace-sill.ts';
import type { Defect, SillPiece, Stretch, Wall } from '../../model/layout.ts';
import { leastLength } from '../../rulesets/compare.ts';
import type { Limit } from '../../rulesets/rule-set.ts';
import type { Length } from '../../units/length.ts';
import { minus, plus } from '../../units/length.ts';
import type { RuleContext } from '../define.ts';
import { defineRule } from '../define.ts';
import { demo, sound } from '../example-texts.ts';
import { limitWords, sourceWords } from '../limit-words.ts';
import type { NearDefect } from './near-defect.ts';
import {
  anchorsWords,
  boardOf,
  defectSubjects,
  defectsOf,
  nearSubjects,
  placeOf,
  sayDefectsLacking,
  slideAway,
} from './near-defect.ts';

const KINDS: readonly Defect['kind'][] = ['rot', 'insects'];

export const sillRotten = defineRule({
  id: 'foundation/sill-rotten',
  severity: 'error',
  on: 'wall',
  summary:
    'A sill is soft from rot or insects where an anchor or a panel stands, or where the anchor at its end must stand.',
  why: 'Soft wood holds neither bolt nor screw nor nail, and it goes on softening. An anchor beside it counts for nothing.',
  remedy:
    'Replace the board there, with both cut ends where an anchor can hold them, and stop the damp. Until work stands near it this is a warning.',
  subjects: {
    ...nearSubjects,
    'rot-clear': defectSubjects['rot-clear'],
    ...endDistanceSubjects,
    'piece-count': 'number',
    'side-plate-as-bolt': 'length',
    'lone-anchor-end': 'length',
  },
  examples: [
    {
      failing: demo({ anchors: sound, found: [`rot 8'-0" to 8'-3"`] }),
      passing: demo({ anchors: sound, found: [`no rot`] }),
    },
  ],
  check({ wall }, context) {
    sayDefectsLacking(wall, KINDS, context);
    const answer = context.limit('rot-clear', {});
    const limit = answer.kind === 'limit' ? answer.limit : undefined;
    const clear = limit && leastLength(limit)?.reach;
    for (const near of defectsOf(wall, KINDS, context)) {
      const { defect } = near;
      const piece = boardOf(wall, defect);
      if (!defect.stretch)
        context.lacks({ wants: `place of the ${defect.kind} on wall ${wall.name}`, at: defect.source });
      if (!piece || !defect.stretch || !limit || clear === undefined) continue;
      report(wall, piece, near, defect.stretch, { limit, clear }, context);
    }
    for (const piece of wall.pieces) if (piece.conditions.includes('rotten')) reportWhole(wall, piece, context);
  },
});

function report(
  wall: Wall,
  piece: SillPiece,
  near: NearDefect,
  stretch: Stretch,
  { limit, clear }: { readonly limit: Limit; readonly clear: Length },
  context: RuleContext,
): void {
  const { defect, anchors } = near;
  const reach = { from: minus(stretch.from, clear), to: plus(stretch.to, clear) };
  const touched = [
    ...(anchors.length > 0 ? [anchorsWords(anchors, context)] : []),
    ...panelsIn(wall, reach),
    ...endsIn(wall, piece, reach, context),
  ];
  const cause = defect.kind === 'insects' ? 'eaten by insects' : 'rotten';
  const { showStation } = context;
  const where = `Sill ${piece.name} is ${cause} from ${showStation(stretch.from)} to ${showStation(stretch.to)}`;
  const asked = limitWords({ limit, query: {} }, 'least', context);
  context.report({
    message:
      touched.length > 0
        ? `${where}, too near for ${touched.join(' and ')}: ${asked} of sound wood. Replace the board there; soft wood holds nothing.`
        : `${where}. New work keeps ${asked} away; replace the board there, or keep clear of it and stop the damp.`,
    severity: touched.length > 0 ? 'error' : 'warning',
    ...placeOf(near, piece),
    citation: limit.citation,
    fixes: (now) => [...replaceSill(now, wall, piece, stretch, clear), ...slideAway(now, wall, anchors)],
  });
}

function reportWhole(wall: Wall, piece: SillPiece, context: RuleContext): void {
  const answer = context.limit('rot-clear', {});
  const source = answer.kind === 'limit' ? ` (${sourceWords(answer.limit)})` : '';
  context.report({
    message: `Sill ${piece.name} on wall ${wall.name}, ${stretchWords(piece, context.layout.title.units)}, is rotten: nothing holds in it${source}. Replace it.`,
    thing: piece.id,
    about: `${piece.id} rotten`,
    piece: piece.name,
    station: piece.from,
    stationTo: piece.to,
    span: piece.source,
    citation: answer.kind === 'limit' ? answer.limit.citation : undefined,
    fixes: (now) => replaceSill(now, wall, piece, piece, minus(piece.from, piece.from)),
  });
}

const panelsIn = (wall: Wall, reach: Stretch): readonly string[] =>
  wall.panels.flatMap(({ stretch, name, state }) =>
    stretch && state !== 'omitted' && stretch.from < reach.to && reach.from < stretch.to ? [`panel ${name}`] : [],
  );

/** The ends of the board whose anchor can stand nowhere else. */
function endsIn(wall: Wall, piece: SillPiece, reach: Stretch, { layout }: RuleContext): readonly string[] {
  const diameters = diametersOn(wall, piece);
  if (takesOneAnchor(layout, wall, piece, diameters)) return [];
  return (['left', 'right'] as const).flatMap((side: Side) => {
    const least = endDistanceAsked(layout, wall, piece, side, 'least', diameters);
    const most = endDistanceAsked(layout, wall, piece, side, 'most', diameters);
    if (least.kind !== 'asked' || most.kind !== 'asked') return [];
    const window = endWindow(piece, side, least.value, most.value);
    return reach.from <= window.from && window.to <= reach.to ? [`the anchor of its ${side} end`] : [];
  });
}
