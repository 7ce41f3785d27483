import type { LengthUnits, Obstruction, Stretch, Thing } from '../model/layout.ts';
import { formatStation } from '../units/format-length.ts';
import { nanometres } from '../units/length.ts';

/** A thing on a wall as a message names it: `vent V5 26'-0" to 27'-4"`, `split 26'-0" to 27'-2"`. */
export function thingWords(
  thing: { readonly kind: string; readonly stretch: Stretch | undefined; readonly label?: string | undefined } & Pick<
    Thing,
    'name'
  >,
  units: LengthUnits,
): string {
  const kind = thing.kind.replaceAll('-', ' ');
  const label = thing.label === undefined ? '' : ` (${thing.label})`;
  const name = thing.name === undefined ? '' : ` ${thing.name}`;
  const place = thing.stretch ? ` ${stretchWords(thing.stretch, units)}` : '';
  return `${kind}${name}${label}${place}`;
}

/** `26'-0" to 27'-4"`, or `at 26'-0"` for one station. */
export function stretchWords(stretch: Stretch, units: LengthUnits): string {
  if (stretch.from === stretch.to) return `at ${formatStation(stretch.from, units)}`;
  return `${formatStation(stretch.from, units)} to ${formatStation(stretch.to, units)}`;
}

/** The place that an obstruction takes along the wall; a pipe that only says where its middle is, its own width. */
export function extentOf(obstruction: Obstruction): Stretch | undefined {
  const { stretch } = obstruction;
  if (!stretch || stretch.from !== stretch.to) return stretch;
  const widths = [obstruction.diameter, obstruction.hub].flatMap((each) =>
    each?.kind === 'known' ? [each.value] : [],
  );
  if (widths.length === 0) return stretch;
  const widest = Math.max(...widths);
  const halfWidth = Math.ceil(widest / 2);
  return { from: nanometres(stretch.from - halfWidth), to: nanometres(stretch.to + halfWidth) };
}
