import { houseOf } from './house.ts';

/**
 * A house of so many lines: generated houses one behind the other as if all were one, their names told apart, under the title,
 * the facts and what is typical of the first. Every key and finding is of the sort that a real house has, there are only more.
 */
export function longHouseOf(lines: number): string {
  const parts: string[] = [];
  for (let seed = 1; parts.length < lines; seed += 1) {
    const { text } = houseOf(seed, { design: true });
    // One by one: a long house is more than one call takes.
    for (const line of seed === 1 ? text.split('\n') : linesOfAddition(text, `H${seed}`)) parts.push(line);
  }
  return `${parts.slice(0, lines).join('\n')}\n`;
}

function linesOfAddition(text: string, prefix: string): readonly string[] {
  const blocks = text
    .split(/\n(?=\S)/)
    .filter((block) => !/^(layout|house|seismic|weights|typical|use|issue)\b/.test(block));
  return blocks
    .join('\n')
    .split('\n')
    .map((line) =>
      line
        .replace(/\b[A-Z]{1,2}-[A-Z]?\d+\b/g, `${prefix}-$&`)
        .replace(/^(wall|girder|line|space|work on) (?=\w)/, `$1 ${prefix}-`)
        .replace(/(?<=^line \S+ walls )[^"]*?(?=$| storeys| exempt)/, (names) =>
          names.replace(/\b[A-Z]\b/g, `${prefix}-$&`),
        )
        .replace(/(?<= on )(?=[A-Z]\b)/, `${prefix}-`),
    );
}
