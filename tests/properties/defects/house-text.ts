import { lexBlock } from '../../../language/syntax/lex-block.ts';

/**
 * Edits of a house's text as a person would make them, by lines and blocks. Each gives `undefined` where the line is not there
 * exactly once, so that no defect is ever injected by half.
 */
export type Edit = (text: string) => string | undefined;

/** One edit after the other. */
export function edited(text: string, ...edits: readonly Edit[]): string | undefined {
  return edits.reduce<string | undefined>((now, edit) => (now === undefined ? undefined : edit(now)), text);
}

/** Changes the only line of a block that reads so; `undefined` takes it out. */
export function changeLine(heading: RegExp, line: RegExp, change: (line: string) => string | undefined): Edit {
  return changeLines(heading, line, change, 1);
}

/** The same of several lines; `count` tells how many there have to be. */
export function changeLines(
  heading: RegExp,
  line: RegExp,
  change: (line: string) => string | undefined,
  count?: number,
): Edit {
  return inBlock(heading, (lines) => {
    const hits = lines.filter((each) => line.test(each));
    if (hits.length === 0 || (count !== undefined && hits.length !== count)) return undefined;
    const changed = lines.flatMap((each) => {
      if (!line.test(each)) return [each];
      const now = change(each);
      return now === undefined ? [] : [now];
    });
    return changed.join('\n') === lines.join('\n') ? undefined : changed;
  });
}

export function dropLine(heading: RegExp, line: RegExp): Edit {
  return changeLine(heading, line, () => undefined);
}

export function addLine(heading: RegExp, line: string): Edit {
  return inBlock(heading, (lines) => [...lines, `  ${line}`]);
}

export function addBlock(lines: readonly string[]): Edit {
  return (text) => `${text}\n${lines.join('\n')}\n`;
}

/** The only block with that heading; empty where there is none. */
export function blockOf(text: string, heading: RegExp): string {
  return text.split('\n\n').find((block) => heading.test(block)) ?? '';
}

/** Changes some blocks; `undefined` takes one out. */
export function changeBlocks(change: (block: string) => string | undefined): Edit {
  return (text) => {
    const changed = text
      .trimEnd()
      .split('\n\n')
      .flatMap((block) => change(block) ?? []);
    return `${changed.join('\n\n')}\n`;
  };
}

/** Other lines for those of a block, its heading included; none of them takes it out. */
export function inBlock(heading: RegExp, change: (lines: readonly string[]) => readonly string[] | undefined): Edit {
  return (text) => {
    const blocks = text.trimEnd().split('\n\n');
    const index = blocks.findIndex((block) => heading.test(block));
    const block = blocks[index];
    if (block === undefined) return undefined;
    const lines = change(block.split('\n'));
    if (lines === undefined) return undefined;
    const all = lines.length === 0 ? blocks.filter((each) => each !== block) : blocks.with(index, lines.join('\n'));
    return `${all.join('\n\n')}\n`;
  };
}

export const surveyOf = (wall: { readonly name: string }): RegExp => new RegExp(`^wall ${wall.name}\\b`);
export const workOn = (wall: { readonly name: string }): RegExp => new RegExp(`^work on ${wall.name}$`, 'm');
export const anchorLine = (mark: string): RegExp => new RegExp(`^ {2}anchor ${mark} `);

/** Where an anchor line says its place: `at 5 ft 8 in from right`. */
const PLACE = /( at )(.*?)(?= offset | proposed| note |$)/;

export const placeOf = (line: string): string | undefined => PLACE.exec(line)?.[2];

export const withPlace =
  (place: string) =>
  (line: string): string =>
    line.replace(PLACE, (_all, at: string) => `${at}${place}`);

/** Words after the place, before any note. */
export const withWords =
  (words: string) =>
  (line: string): string =>
    line.replace(PLACE, (all) => `${all} ${words}`);

export const withConnector =
  (connector: string) =>
  (line: string): string =>
    line.replace(/^( {2}anchor \S+ )\S+/, (_all, start: string) => `${start}${connector}`);

/** Another value for an attribute: `top -2'-4" to -2'-6"`, `thick told 165 mm`, `unknown`. */
export const withValue =
  (attribute: string, value: string) =>
  (line: string): string => {
    const { tokens } = lexBlock(line);
    const at = tokens.findIndex(({ image }) => image === attribute);
    const wordAt = (index: number): string => tokens[index]?.image ?? '';
    const past = (index: number): number => (QUALITY.has(wordAt(index)) ? index + 2 : index + 1);
    const first = past(at + 1);
    const last = wordAt(first) === 'to' ? past(first + 1) : first;
    const begin = tokens[at + 1]?.start;
    const end = tokens[last - 1];
    if (at < 0 || begin === undefined || !end) return line;
    return `${line.slice(0, begin)}${value}${line.slice(end.start + end.image.length)}`;
  };

/** An attribute with its value, taken out. */
export const withoutValue =
  (attribute: string) =>
  (line: string): string =>
    withValue(attribute, '\u0000')(line).replace(` ${attribute} \u0000`, '');

const QUALITY: ReadonlySet<string> = new Set(['assume', 'told', 'scaled']);
