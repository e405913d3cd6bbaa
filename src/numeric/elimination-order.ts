/**
 * An order in which to eliminate the vertices of a graph, always one with the fewest live neighbours next.
 *
 * On a tree that is leaf after leaf, so nothing is ever joined that was not joined before; a single ring costs
 * one extra neighbour per vertex. Ties go to the vertex touched last, which walks along a chain instead of
 * hopping about and keeps the later factorisation close together in memory.
 *
 * @param count vertices, numbered from 0
 * @param a, b ends of the edges; repeated edges and edges from a vertex to itself do no harm
 * @returns the vertices in the order of their elimination
 * Source: the minimum degree heuristic, Tinney and Walker, Proc. IEEE 55 (1967), scheme 2 (from memory).
 */
export function leastDegreeOrder(count: number, a: Int32Array, b: Int32Array): Int32Array {
  const neighbours = adjacency(count, a, b);
  const degree = Int32Array.from(neighbours, (list) => list.length);
  const gone = new Uint8Array(count);
  const waiting: number[][] = [];
  const wait = (v: number): void => {
    let stack = waiting[degree[v]!];
    if (stack === undefined) {
      stack = [];
      waiting[degree[v]!] = stack;
    }
    stack.push(v);
  };
  for (let v = count - 1; v >= 0; v--) wait(v);

  const order = new Int32Array(count);
  let least = 0;
  for (let done = 0; done < count; ) {
    const v = waiting[least]?.pop();
    if (v === undefined) least++;
    else if (gone[v] === 0 && degree[v] === least) {
      gone[v] = 1;
      order[done++] = v;
      const live = neighbours[v]!.filter((w) => gone[w] === 0);
      neighbours[v] = [];
      for (const w of live) degree[w]!--;
      join(live, neighbours, degree);
      for (const w of live) {
        wait(w);
        least = Math.min(least, degree[w]!);
      }
    }
  }
  return order;
}

/** Makes every two of the given vertices neighbours, as eliminating the vertex between them does. */
function join(live: readonly number[], neighbours: number[][], degree: Int32Array): void {
  for (let i = 1; i < live.length; i++) {
    for (let j = 0; j < i; j++) {
      const v = live[i]!;
      const w = live[j]!;
      const isShorter = neighbours[v]!.length < neighbours[w]!.length;
      if (isShorter ? neighbours[v]!.includes(w) : neighbours[w]!.includes(v)) continue;
      neighbours[v]!.push(w);
      neighbours[w]!.push(v);
      degree[v]!++;
      degree[w]!++;
    }
  }
}

/** Neighbours of each vertex, each named once, even where several edges join the same two. */
function adjacency(count: number, a: Int32Array, b: Int32Array): number[][] {
  const neighbours: number[][] = Array.from({ length: count }, () => []);
  const add = (v: number, w: number): void => {
    const list = neighbours[v]!;
    if (list.at(-1) !== w) list.push(w);
  };
  for (let e = 0; e < a.length; e++) {
    if (a[e] === b[e]) continue;
    add(a[e]!, b[e]!);
    add(b[e]!, a[e]!);
  }
  const seenBy = new Int32Array(count).fill(-1);
  for (let v = 0; v < count; v++) {
    const list = neighbours[v]!;
    let kept = 0;
    for (const w of list) {
      if (seenBy[w] === v) continue;
      seenBy[w] = v;
      list[kept++] = w;
    }
    list.length = kept;
  }
  return neighbours;
}
