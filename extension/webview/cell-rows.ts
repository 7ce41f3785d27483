export interface PlacedCell {
  readonly left: number;
  readonly width: number;
  readonly row: number;
}

/** Each at its place in the first row that has room for it there, moved no further than the ends of the strip; none over another. */
export function placeInRows(
  cells: readonly { readonly wanted: number; readonly width: number }[],
  room: number,
  gap = 3,
): readonly PlacedCell[] {
  const reached: number[] = [];
  return cells.map(({ wanted, width }) => {
    const left = Math.max(0, Math.min(wanted - width / 2, room - width));
    let row = reached.findIndex((right) => right + gap <= left);
    if (row < 0) row = reached.length;
    reached[row] = left + width;
    return { left, width, row };
  });
}
