import { IntList } from './int-list.ts';

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
export function minimumDegreeOrder(count: number, a: Int32Array, b: Int32Array): Int32Array {
  const graph = new Adjacency(count, a, b);
  const { degree } = graph;
  const gone = new Uint8Array(count);
  const waiting: number[][] = [];
  const wait = (v: number): void => {
    const stack = waiting[degree[v]!];
    if (stack === undefined) waiting[degree[v]!] = [v];
    else stack.push(v);
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
      const live = graph.liveNeighboursOf(v, gone);
      for (let i = 0; i < live.length; i++) degree[live[i]!]!--;
      if (live.length > 1) graph.joinAll(live);
      for (let i = 0; i < live.length; i++) {
        const w = live[i]!;
        wait(w);
        if (degree[w]! < least) least = degree[w]!;
      }
    }
  }
  return order;
}

/**
 * Neighbours of each vertex as linked lists in flat arrays, each neighbour named once. Millions of vertices
 * cost no objects. `degree` is the caller's to lower; joining raises it.
 */
class Adjacency {
  readonly degree: Int32Array;
  private readonly first: Int32Array;
  private readonly vertex: IntList;
  private readonly next: IntList;

  constructor(count: number, a: Int32Array, b: Int32Array) {
    this.degree = new Int32Array(count);
    this.vertex = new IntList(2 * a.length);
    this.next = new IntList(2 * a.length);
    this.first = new Int32Array(count).fill(-1);
    for (let e = 0; e < a.length; e++) {
      const isRepeat = this.first[a[e]!]! >= 0 && this.vertex.items[this.first[a[e]!]!] === b[e];
      if (a[e] !== b[e] && !isRepeat) {
        this.add(a[e]!, b[e]!);
        this.add(b[e]!, a[e]!);
      }
    }
    this.dropRepeats(count);
  }

  /** Neighbours of a vertex that are not gone. */
  liveNeighboursOf(v: number, gone: Uint8Array): number[] {
    const list: number[] = [];
    const vertex = this.vertex.items;
    const next = this.next.items;
    for (let at = this.first[v]!; at >= 0; at = next[at]!)
      if (gone[vertex[at]!] === 0) list.push(vertex[at]!);
    return list;
  }

  /** Makes every two of the vertices neighbours, as eliminating the vertex between them does. */
  joinAll(vertices: readonly number[]): void {
    for (let i = 1; i < vertices.length; i++) {
      for (let j = 0; j < i; j++) this.join(vertices[i]!, vertices[j]!);
    }
  }

  private join(v: number, w: number): void {
    const isShorter = this.degree[v]! < this.degree[w]!;
    if (isShorter ? this.has(v, w) : this.has(w, v)) return;
    this.add(v, w);
    this.add(w, v);
  }

  private has(v: number, w: number): boolean {
    let at = this.first[v]!;
    while (at >= 0 && this.vertex.items[at] !== w) at = this.next.items[at]!;
    return at >= 0;
  }

  private add(v: number, w: number): void {
    this.vertex.push(w);
    this.next.push(this.first[v]!);
    this.first[v] = this.vertex.length - 1;
    this.degree[v]!++;
  }

  private dropRepeats(count: number): void {
    const seenBy = new Int32Array(count).fill(-1);
    for (let v = 0; v < count; v++) {
      let before = -1;
      for (let at = this.first[v]!; at >= 0; at = this.next.items[at]!) {
        const w = this.vertex.items[at]!;
        if (seenBy[w] === v) {
          this.next.items[before] = this.next.items[at]!;
          this.degree[v]!--;
        } else {
          seenBy[w] = v;
          before = at;
        }
      }
    }
  }
}
