/**
 * Subjects that rule sets of the trade put limits on and no check reads yet, each with the kind of its value. A rule that comes
 * to read one declares it itself; then its line here goes.
 */
export const unreadSubjects: Readonly<Record<string, 'length' | 'share' | 'verdict'>> = {
  'angle-at-break': 'verdict',
  'existing-credit': 'share',
};
