import type { Closing, SpreadWall } from '../fixes/closing.ts';
import type { LengthUnits } from '../model/layout.ts';
import type { ClosingError } from '../model/outline.ts';
import { formatStation } from '../units/format-length.ts';
import { inInches, inMillimetres, type Length, minus, negate } from '../units/length.ts';
import { printable } from './text-layout.ts';
import { textTable } from './text-table.ts';

/** How the outline closes, taped and adjusted, and wall by wall what would be written. */
export function closingToText({ taped, adjusted, proposal }: Closing, units: LengthUnits): string {
  const spread = proposal.kind === 'spread' ? proposal.walls : [];
  return [
    `As taped:      ${closingInWords(taped, units)}`,
    `As adjusted:   ${closingInWords(adjusted, units)}`,
    ...(proposal.kind === 'spread' ? [`As proposed:   ${closingInWords(proposal.closing, units)}`, ''] : []),
    ...(spread.length > 0
      ? textTable<SpreadWall>(
          [
            { heading: 'Wall', text: (wall) => wall.name },
            { heading: 'Taped', text: (wall) => lengthInWords(wall.taped, units), numeric: true },
            { heading: 'Now', text: (wall) => lengthInWords(wall.before, units), numeric: true },
            { heading: 'Proposed', text: (wall) => lengthInWords(wall.after, units), numeric: true },
            { heading: 'Off the tape', text: (wall) => offTheTape(wall, units), numeric: true },
            { heading: 'Kept, since', text: (wall) => wall.kept ?? '', optional: true },
          ],
          spread,
          100,
        )
      : []),
    ...(proposal.kind === 'cannot-spread' ? [`The error cannot be spread: ${printable(proposal.reason)}.`] : []),
    ...(proposal.kind === 'closed' ? ['The lengths of the plan close; there is nothing to spread.'] : []),
    'Taped lengths and stations stay as they are: stations are tied to the tape.',
    '',
  ].join('\n');
}

/** `0.38 in east, 0.38 in north, 0.53 in in all, 1 : 3195`. Hundredths, since a sixteenth is more than most of it. */
export function closingInWords(closing: ClosingError | undefined, units: LengthUnits): string {
  if (!closing) return 'cannot be told until every wall has a length';
  if (closing.closes) return 'closes';
  const { dx, dy, length, ratio } = closing;
  const parts = [
    ...(dx === 0 ? [] : [`${fine(dx, units)} ${dx > 0 ? 'east' : 'west'}`]),
    ...(dy === 0 ? [] : [`${fine(dy, units)} ${dy > 0 ? 'north' : 'south'}`]),
    `${fine(length, units)} in all`,
    ...(ratio === undefined ? [] : [`1 : ${ratio}`]),
  ];
  return parts.join(', ');
}

function fine(length: Length, units: LengthUnits): string {
  const size = length < 0 ? negate(length) : length;
  return units === 'metric' ? `${inMillimetres(size).toFixed(1)} mm` : `${inInches(size).toFixed(2)} in`;
}

const lengthInWords = (length: Length | undefined, units: LengthUnits): string =>
  length === undefined ? 'not taped' : formatStation(length, units);

function offTheTape({ taped, after }: SpreadWall, units: LengthUnits): string {
  if (taped === undefined || taped === after) return '';
  const off = minus(after, taped);
  return `${off > 0 ? '+' : '-'}${fine(off, units)}`;
}
