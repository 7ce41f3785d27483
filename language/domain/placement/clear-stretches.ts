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
  const rooms = available.map(({ from, to }) => ({ from: Math.max(from, piece.from), to: Math.min(to, piece.to) }));
  const blocks = obstructions
    .flatMap((obstruction) => obstruction.blocks)
    .filter((block) => block.from < block.to && (block.kind === undefined || block.kind === kind));
  // Closed stretches are one where they share a station, open ones only where they share more than an end.
  const joinedRooms = joined(
    rooms.filter(({ from, to }) => from <= to),
    (before, next) => next.from <= before.to,
  );
  const joinedBlocks = joined(blocks, (before, next) => next.from < before.to);

  const clear: Stretch[] = [];
  let first = 0;
  for (const room of joinedRooms) {
    while ((joinedBlocks[first]?.to ?? Number.POSITIVE_INFINITY) <= room.from) first += 1;
    let { from } = room;
    for (let at = first; at < joinedBlocks.length; at += 1) {
      const block = joinedBlocks[at];
      if (block === undefined || block.from >= room.to) break;
      if (block.from >= from) clear.push({ from, to: block.from });
      from = block.to;
    }
    if (from <= room.to) clear.push({ from, to: room.to });
  }
  return clear;
}

function joined(parts: readonly Stretch[], areOne: (before: Stretch, next: Stretch) => boolean): Stretch[] {
  const list: Stretch[] = [];
  for (const part of [...parts].sort((a, b) => a.from - b.from || a.to - b.to)) {
    const last = list.at(-1);
    if (last !== undefined && areOne(last, part))
      list[list.length - 1] = { from: last.from, to: Math.max(last.to, part.to) };
    else list.push({ from: part.from, to: part.to });
  }
  return list;
}
