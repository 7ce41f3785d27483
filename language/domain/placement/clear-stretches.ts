import type { PlacementObstruction, Stretch } from './problem.ts';

/**
 * The closed stretches of a piece where a kind may stand: its room, less what the obstructions block. Blocked stretches
 * are open, so two of them may leave a single station between. A stretch is where an anchor may slide; its ends are what
 * slack is measured to, so room that touches is joined first, or a false end would take slack away.
 */
export function clearStretches(
  piece: Stretch,
  kind: string,
  available: readonly Stretch[],
  obstructions: readonly PlacementObstruction[],
): Stretch[] {
  let clear: Stretch[] = [];
  for (const part of [...available].sort((a, b) => a.from - b.from)) {
    const from = Math.max(part.from, piece.from);
    const to = Math.min(part.to, piece.to);
    if (from > to) continue;
    const last = clear.at(-1);
    if (last !== undefined && from <= last.to) clear[clear.length - 1] = { from: last.from, to: Math.max(last.to, to) };
    else clear.push({ from, to });
  }
  for (const obstruction of obstructions) {
    for (const block of obstruction.blocks) {
      if (block.from >= block.to || (block.kind !== undefined && block.kind !== kind)) continue;
      clear = clear.flatMap((part) => withoutOpen(part, block));
    }
  }
  return clear;
}

/** What is left of a closed stretch without an open one. */
function withoutOpen(part: Stretch, block: Stretch): Stretch[] {
  if (block.to <= part.from || block.from >= part.to) return [part];
  const rest: Stretch[] = [];
  if (part.from <= block.from) rest.push({ from: part.from, to: block.from });
  if (block.to <= part.to) rest.push({ from: block.to, to: part.to });
  return rest;
}
