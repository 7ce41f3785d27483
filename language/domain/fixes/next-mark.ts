import type { Layout, Wall } from '../model/layout.ts';

/**
 * The next free marks of a wall, `F-14`, `F-15` …: one above the highest number ever seen with the prefix, so that a number
 * freed by a deletion is not sprayed on the wall twice. Unique in the house; nothing is renumbered.
 */
export function nextMarks(layout: Layout, wall: Wall, count: number): readonly string[] {
  const prefix = prefixOf(wall);
  const taken = new Set<string>();
  let highest = 0;
  for (const each of layout.walls) {
    for (const { name } of [...each.anchors, ...each.foundAnchors, ...each.angles, ...each.panels, ...each.ties]) {
      if (name === undefined) continue;
      taken.add(name.toLowerCase());
      const parts = partsOf(name);
      if (parts?.prefix.toLowerCase() === prefix.toLowerCase()) highest = Math.max(highest, parts.number);
    }
  }
  for (const { hardware } of layout.girders.flatMap((girder) => girder.posts)) {
    for (const { name } of hardware) taken.add(name.toLowerCase());
  }
  const marks: string[] = [];
  for (let number = highest + 1; marks.length < count; number += 1) {
    const mark = `${prefix}-${number}`;
    if (!taken.has(mark.toLowerCase())) marks.push(mark);
  }
  return marks;
}

/** As the last numbered mark on the wall is written; on a bare wall, after the wall's name. */
function prefixOf(wall: Wall): string {
  for (const anchor of wall.anchors.toReversed()) {
    const parts = partsOf(anchor.name);
    if (parts) return parts.prefix;
  }
  const word = wall.name.replace(/[^\p{L}\p{N}_]+/gu, '-').replace(/^-+|-+$/g, '');
  return /^[\p{L}_]/u.test(word) ? word : `W${word}`;
}

/** Longer numbers are dates or telephone numbers, not counts of anchors. */
function partsOf(mark: string): { readonly prefix: string; readonly number: number } | undefined {
  const match = /^(.+?)-(\d{1,6})$/.exec(mark);
  const [, prefix, digits] = match ?? [];
  return prefix === undefined || digits === undefined ? undefined : { prefix, number: Number(digits) };
}
