import type { PreviewParts } from '../../language/protocol/preview.ts';

/** What a person who does not see the pane hears when it changes: counts, and why the drawing is not that of the text. */
export function spokenState({ header: { counts }, notice }: PreviewParts): string {
  const number = (count: number, one: string, many = `${one}s`): readonly string[] =>
    count === 0 ? [] : [`${count} ${count === 1 ? one : many}`];
  const said = [
    ...number(counts.stops, 'stop'),
    `${counts.errors} ${counts.errors === 1 ? 'error' : 'errors'}`,
    ...number(counts.warnings, 'warning'),
    `${counts.notChecked} not checked`,
  ].join(', ');
  return notice.text === undefined ? said : `${said}. ${notice.text}`;
}
