import type { Layout } from '../../domain/model/layout.ts';
import { formatSheet } from '../format.ts';
import { printConnector, printPrices, printRuleSet } from './hardware.ts';
import { printGirder, printHouse, printLine, printSpace, printTitle } from './papers.ts';
import { printDay, printIssue } from './record.ts';
import { printWall } from './wall.ts';
import { printWorkOnGirder, printWorkOnWall } from './work.ts';

/**
 * A whole layout as one file in canonical format: `typical` is spelled out, stations count from the left end, and what stood in used
 * files stands here. Reading it gives the same layout again. Comments are no part of a layout, and shipped rule sets and
 * hardware are named, not copied.
 */
export function printLayout(layout: Layout): string {
  const { units } = layout.title;
  const isOwn = ({ source }: { readonly source: Parameters<Layout['sourceMap']['locate']>[0] }): boolean =>
    layout.sourceMap.locate(source) !== undefined;
  const blocks: readonly (readonly string[])[] = [
    printTitle(layout.title, layout),
    ...printHouse(layout.house, layout),
    ...layout.lines.map(printLine),
    ...layout.spaces.map((space) => printSpace(space, units)),
    ...layout.walls.map((wall) => printWall(wall, layout)),
    ...layout.girders.map((girder) => printGirder(girder, layout)),
    ...layout.walls.map((wall) => printWorkOnWall(wall, layout)),
    ...layout.girders.map((girder) => printWorkOnGirder(girder, layout)),
    ...layout.record.map((day) => printDay(day, units)),
    ...layout.issues.map(printIssue),
    ...[...layout.connectors.values()].filter(isOwn).map((connector) => printConnector(connector, units)),
    ...layout.prices.filter(isOwn).map(printPrices),
    ...layout.rules.chosen.filter(isOwn).map(printRuleSet),
  ];
  const text = blocks.flatMap((lines) => (lines.length === 0 ? [] : [lines.join('\n')])).join('\n\n');
  return text === '' ? '' : formatSheet(`${text}\n`).text;
}
