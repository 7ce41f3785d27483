import type { Panel } from '../model/design.ts';
import type { NewAnchor, ThingId, Wall } from '../model/layout.ts';
import { knownValue, profileAt } from '../model/reading.ts';
import type { SourceSpan } from '../model/source.ts';
import { recentOnly } from '../recent-only.ts';
import type { Length } from '../units/length.ts';
import { half, minus, plus, zero } from '../units/length.ts';
import type { FitCase } from './fit-case.ts';
import type { IntervalIndex } from './interval-index.ts';
import { intervalIndex } from './interval-index.ts';

export type NutBehindPanel =
  | { readonly kind: 'clear' }
  | { readonly kind: 'lacking'; readonly wants: string; readonly thing: ThingId; readonly span: SourceSpan }
  | {
      readonly kind: 'hits';
      readonly panel: Panel;
      /** From the inner edge of the sill to the middle of the bolt, and what it must be. */
      readonly offset: Length;
      readonly wanted: Length;
      readonly ledge: Length;
    };

/**
 * Whether the washer of a bolt clears the bracing panel in front of it. The panel lies against the studs, which stand back
 * from the inner edge of the sill by the ledge; the washer lies behind it between the studs, or before it on the ledge.
 */
export function nutBehindPanel(
  wall: Wall,
  anchor: NewAnchor,
  { piece, connector }: FitCase,
  station: Length,
): NutBehindPanel {
  const clear: NutBehindPanel = { kind: 'clear' };
  if (connector.kind !== 'through-bolt') return clear;
  const washer = anchor.withHardware?.find((each) => each.connector?.kind === 'plate-washer')?.connector ?? connector;
  const { body } = washer;
  const along = body ? minus(body.wide, half(body.wide)) : zero;
  const panel = panelsOn(wall).overlapping(
    station - along - (along > 0 ? 0 : 1),
    station + along + (along > 0 ? 0 : 1),
  )[0]?.panel;
  if (!panel || !piece) return clear;
  const lacks = (wants: string, thing: { readonly id: ThingId; readonly source: SourceSpan }): NutBehindPanel => ({
    kind: 'lacking',
    wants,
    thing: thing.id,
    span: thing.source,
  });
  if (!body)
    return lacks(`body of connector ${washer.name}`, { id: `connector:${washer.name}`, source: washer.source });
  const cripple = wall.cripples.find((each) => each.from <= station && station <= each.to);
  const ledge = cripple?.ledge && knownValue(profileAt(cripple.ledge, station));
  if (ledge === undefined) return lacks(`ledge of the sill at the cripple wall of wall ${wall.name}`, cripple ?? wall);
  const wide = knownValue(piece.size?.wide);
  if (!anchor.offset && wide === undefined) return lacks(`width of sill ${piece.name}`, piece);
  const offset = anchor.offset ? knownValue(anchor.offset) : half(wide ?? zero);
  if (offset === undefined) return lacks(`offset of ${anchor.name} on the sill`, anchor);
  const across = minus(body.tall, half(body.tall));
  const wanted = plus(ledge, across);
  const thick = knownValue(panel.board?.thick) ?? zero;
  const inFront = plus(offset, across) <= minus(ledge, thick);
  return offset >= wanted || inFront ? clear : { kind: 'hits', panel, offset, wanted, ledge };
}

interface PlacedPanel {
  readonly from: Length;
  readonly to: Length;
  readonly panel: Panel;
}

const known = recentOnly<Wall, IntervalIndex<PlacedPanel>>();

function panelsOn(wall: Wall): IntervalIndex<PlacedPanel> {
  const before = known.get(wall);
  if (before) return before;
  const index = intervalIndex(
    wall.panels.flatMap((panel): readonly PlacedPanel[] =>
      panel.stretch && panel.state !== 'omitted' ? [{ ...panel.stretch, panel }] : [],
    ),
  );
  known.set(wall, index);
  return index;
}
