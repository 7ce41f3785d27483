export interface Stop {
  readonly x: number;
  readonly row: number;
}

/** @param at the stop in focus, -1 where there is none. */
export function stopAfter<S extends Stop>(byStation: readonly S[], at: number, key: string): S | undefined {
  const now = byStation[at];
  switch (key) {
    case 'ArrowRight':
      return byStation[at + 1];
    case 'ArrowLeft':
      return at < 0 ? byStation.at(-1) : byStation[at - 1];
    case 'Home':
      return byStation[0];
    case 'End':
      return byStation.at(-1);
    case 'ArrowUp':
    case 'ArrowDown':
      return now ? nearestInRow(byStation, now, key === 'ArrowDown' ? 1 : -1) : byStation[0];
    default:
      return undefined;
  }
}

function nearestInRow<S extends Stop>(stops: readonly S[], now: S, step: 1 | -1): S | undefined {
  const rows = [...new Set(stops.map(({ row }) => row))].sort((a, b) => a - b);
  const row = rows[rows.indexOf(now.row) + step];
  const inRow = stops.filter((stop) => stop.row === row);
  return inRow.toSorted((a, b) => Math.abs(a.x - now.x) - Math.abs(b.x - now.x))[0];
}

/** Up and down round the list, Home and End, or the first letter of what is wanted. */
export function itemByKey<Item extends { readonly textContent: string | null }>(
  items: readonly Item[],
  at: number,
  key: string,
): Item | undefined {
  const count = items.length;
  switch (key) {
    case 'ArrowDown':
      return items[(at + 1) % count];
    case 'ArrowUp':
      return items[(at - 1 + count) % count];
    case 'Home':
      return items[0];
    case 'End':
      return items.at(-1);
  }
  if (key.length !== 1 || key === ' ') return undefined;
  const behind = [...items.slice(at + 1), ...items.slice(0, at + 1)];
  return behind.find(({ textContent }) => wordsIn(textContent).some((word) => word.startsWith(key.toLowerCase())));
}

const wordsIn = (text: string | null): readonly string[] => (text ?? '').toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];
