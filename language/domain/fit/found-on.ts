import type { Wall } from '../model/layout.ts';

/** What the design adds to a wall, and what is said of the wall for the checks. */
const newWork = {
  ...{ anchors: true, angles: true, panels: true, ties: true, remedies: true, noWork: true, workBlocks: true },
  accepted: true,
} satisfies Partial<Record<keyof Wall, true>>;

/**
 * All that a wall says of itself but its new work, one after the other: while these stay the same objects, so does what was worked out of
 * them. What the design takes away, replaces or remedies shows in them: such a thing is another one.
 */
export function foundOn(wall: Wall): readonly unknown[] {
  const found: unknown[] = [];
  for (const part in wall) if (!(part in newWork)) found.push(wall[part as keyof Wall]);
  return found;
}
