/** A binary heap in an array: the least item first, in the order that `before` gives. */
export function push<T>(heap: T[], item: T, before: (a: T, b: T) => boolean): void {
  let at = heap.length;
  heap.push(item);
  while (at > 0) {
    const parent = (at - 1) >> 1;
    const above = heap[parent] as T;
    if (!before(item, above)) break;
    heap[at] = above;
    at = parent;
  }
  heap[at] = item;
}

export function popLeast<T>(heap: T[], before: (a: T, b: T) => boolean): T | undefined {
  const least = heap[0];
  const last = heap.pop();
  if (heap.length === 0 || last === undefined) return least;
  let at = 0;
  for (;;) {
    let child = 2 * at + 1;
    if (child >= heap.length) break;
    if (child + 1 < heap.length && before(heap[child + 1] as T, heap[child] as T)) child += 1;
    if (!before(heap[child] as T, last)) break;
    heap[at] = heap[child] as T;
    at = child;
  }
  heap[at] = last;
  return least;
}
