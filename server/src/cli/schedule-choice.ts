import { InvalidArgumentError } from 'commander';
import { type ScheduleName, scheduleNames } from '../../../language/domain/documents/schedules/table.ts';

/** `panels`, `ties,posts`, or `all`. */
export function readScheduleChoice(value: string): readonly ScheduleName[] {
  const words = value
    .split(',')
    .map((word) => word.trim().toLowerCase())
    .filter((word) => word !== '');
  if (words.length === 0) throw new InvalidArgumentError(`Name one of ${scheduleNames.join(', ')}, or all.`);
  if (words.includes('all')) return scheduleNames;
  const unknown = words.find((word) => !isScheduleName(word));
  if (unknown !== undefined)
    throw new InvalidArgumentError(
      `There is no schedule \`${unknown}\`: it is one of ${scheduleNames.join(', ')}, or all.`,
    );
  return scheduleNames.filter((name) => words.includes(name));
}

const isScheduleName = (word: string): word is ScheduleName => scheduleNames.some((name) => name === word);
