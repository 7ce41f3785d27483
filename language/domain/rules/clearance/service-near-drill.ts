import type { Blocked } from '../../fit/fit-case.ts';
import { distanceAlong } from '../../fit/fit-case.ts';
import type { NewAnchor, Wall } from '../../model/layout.ts';
import type { RuleContext } from '../define.ts';
import { sourceWords } from '../limit-words.ts';
import type { PlacedAnchor } from './anchor-fit.ts';
import { CAUTION, clearSpotsWords, haveMoved, inTheWay, placesOf, waysOut, withCaution } from './anchor-fit.ts';

export type ServiceKind = 'gas' | 'power';

/** A service whose place or height nobody knows is never taken as clear. */
export function sayServiceLacking({ fit }: PlacedAnchor, service: ServiceKind, context: RuleContext): void {
  for (const each of fit.lacking) {
    if (each.reason !== service) continue;
    context.lacks({ wants: `${each.wants} (not cleared: ${CAUTION})`, at: each.span, thing: each.thing });
  }
}

/** One finding for the service that is nearest, whatever other holes of the plate come near it too. */
export function reportService(
  wall: Wall,
  anchor: NewAnchor,
  placed: PlacedAnchor,
  service: ServiceKind,
  context: RuleContext,
): void {
  const near = inTheWay(placed, [service]).toSorted((a, b) => rankOf(a) - rankOf(b));
  const [first] = near;
  if (!first) return;
  const answer = context.limit(limitOf(first, service), {});
  const limit = answer.kind === 'limit' ? answer.limit : undefined;
  const { show, showStation } = context;
  const far = first.wanted === undefined ? '' : `, ${show(distanceAlong(first, placed.station))} along the wall`;
  const source = limit ? ` (${sourceWords(limit)})` : '';
  const next =
    anchor.state === 'installed'
      ? 'It is in already: have the licensed trade look at it.'
      : `${clearSpotsWords(placed, context)} L${CAUTION.slice(1)}.`;
  context.report({
    message: `${anchor.name} at ${showStation(placed.station)} drills too near ${first.words}${far}${source}. ${next}`,
    span: anchor.stationSource ?? anchor.source,
    related: placesOf(near),
    citation: limit?.citation,
    fixes: (now) => withCaution([...waysOut(now, wall, placed.piece, anchor), ...haveMoved(wall, first.thing)]),
  });
}

/** The thing itself before the space in front of it. */
const rankOf = (each: Blocked): number => (each.wanted === undefined ? 1 : 0);

function limitOf(first: Blocked, service: ServiceKind): string {
  if (first.wanted === undefined) return 'working-space-wide';
  return service === 'gas' ? 'gas-clear' : 'power-clear';
}
