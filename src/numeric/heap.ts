/** Things waiting, of which the first in order is taken; of equals the one that came first. */
export interface Heap<Item> {
  push(item: Item): void;
  pop(): Item | undefined;
}

/** A binary heap. @param isBefore a strict order */
export function heap<Item>(isBefore: (a: Item, b: Item) => boolean): Heap<Item> {
  const waiting: { item: Item; turn: number }[] = [];
  let turns = 0;
  const goesFirst = (i: number, j: number): boolean => {
    const [a, b] = [waiting[i]!, waiting[j]!];
    return isBefore(a.item, b.item) || (!isBefore(b.item, a.item) && a.turn < b.turn);
  };
  const swap = (i: number, j: number): void => {
    [waiting[i], waiting[j]] = [waiting[j]!, waiting[i]!];
  };
  const sink = (at: number): void => {
    const [left, right] = [2 * at + 1, 2 * at + 2];
    let first = at;
    if (left < waiting.length && goesFirst(left, first)) first = left;
    if (right < waiting.length && goesFirst(right, first)) first = right;
    if (first === at) return;
    swap(at, first);
    sink(first);
  };
  return {
    push(item) {
      waiting.push({ item, turn: turns++ });
      for (let at = waiting.length - 1; at > 0 && goesFirst(at, (at - 1) >> 1); at = (at - 1) >> 1)
        swap(at, (at - 1) >> 1);
    },
    pop() {
      if (waiting.length === 0) return undefined;
      swap(0, waiting.length - 1);
      const { item } = waiting.pop()!;
      sink(0);
      return item;
    },
  };
}
