/** A number list before another by its first difference; the shorter first where one begins the other. */
export function compareLists(a: readonly number[], b: readonly number[]): number {
  const shared = Math.min(a.length, b.length);
  for (let i = 0; i < shared; i++) if (a[i] !== b[i]) return a[i]! < b[i]! ? -1 : 1;
  return a.length - b.length;
}

/** What waits, the least first. */
export interface PriorityQueue<Item> {
  readonly size: () => number;
  readonly push: (item: Item) => void;
  /** Takes out the least; undefined where nothing waits. */
  readonly pop: () => Item | undefined;
}

/**
 * A binary heap: putting in and taking out the least cost the logarithm of what waits.
 *
 * @param compare below 0 where the first comes before the second; a total order gives one order of taking out
 * Source: J. W. J. Williams, Algorithm 232, heapsort (1964, from memory). Check: `tests/numeric/priority-queue.test.ts`.
 */
export function priorityQueue<Item>(compare: (a: Item, b: Item) => number): PriorityQueue<Item> {
  const heap: Item[] = [];
  const swap = (i: number, j: number): void => {
    [heap[i], heap[j]] = [heap[j]!, heap[i]!];
  };
  const isBefore = (i: number, j: number): boolean => compare(heap[i]!, heap[j]!) < 0;
  const rise = (from: number): void => {
    for (let i = from; i > 0; ) {
      const parent = (i - 1) >> 1;
      if (!isBefore(i, parent)) return;
      swap(i, parent);
      i = parent;
    }
  };
  const sink = (): void => {
    for (let i = 0; ; ) {
      let least = i;
      for (const child of [2 * i + 1, 2 * i + 2])
        if (child < heap.length && isBefore(child, least)) least = child;
      if (least === i) return;
      swap(i, least);
      i = least;
    }
  };
  return {
    size: () => heap.length,
    push: (item) => {
      heap.push(item);
      rise(heap.length - 1);
    },
    pop: () => {
      const first = heap[0];
      const last = heap.pop();
      if (heap.length > 0) {
        heap[0] = last!;
        sink();
      }
      return first;
    },
  };
}
