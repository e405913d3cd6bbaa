/** Things that stand beside one another: the modules each takes, and the height of the highest. */
export interface Shelf {
  readonly modules: readonly number[];
  readonly height: number;
}

/**
 * The lowest shelf of so many modules: `heights[i][k]` is the height of thing i on k modules, Infinity where it does not fit
 * them. Undefined where no shares fit. Exact: the last thing takes k modules, those before it the lowest shelf of the rest.
 * Check: `tests/papers/shelf.test.ts`, every way of sharing out.
 */
export function lowestShelf(heights: readonly (readonly number[])[], modules: number): Shelf | undefined {
  let best = new Map<number, Shelf>([[0, { modules: [], height: 0 }]]);
  for (const own of heights) {
    const next = new Map<number, Shelf>();
    for (const [used, shelf] of best)
      for (let k = 1; used + k <= modules; k++) {
        const height = Math.max(shelf.height, own[k] ?? Number.POSITIVE_INFINITY);
        const before = next.get(used + k);
        if (height < (before?.height ?? Number.POSITIVE_INFINITY))
          next.set(used + k, { modules: [...shelf.modules, k], height });
      }
    best = next;
  }
  const all = [...best.values()];
  return all.length === 0 ? undefined : all.reduce((a, b) => (b.height < a.height - 1e-9 ? b : a));
}
