import type { StationTrouble } from './stations.ts';
import type { Say } from './wall.ts';

/** Girders have no openings to measure from. */
export function sayGirderTrouble(girder: string, trouble: StationTrouble, say: Say): void {
  if (trouble.kind === 'outside') {
    say({
      code: 'geometry/station-outside-wall',
      message: `This station lies past an end of girder ${girder}; stations count from its first point. Mend it.`,
      span: trouble.source,
    });
  } else if (trouble.kind === 'unresolved') {
    say({
      code: 'unresolved-name',
      message: `Nothing called \`${trouble.name}\` with a place on girder ${girder}; measure from its first point.`,
      span: trouble.source,
    });
  } else if (trouble.kind === 'no-length') {
    say({
      code: 'missing-part',
      message: `Girder ${girder} has no ends in plan, so this cannot be found; write \`from\` and \`to\` in its heading.`,
      span: trouble.source,
    });
  }
}
