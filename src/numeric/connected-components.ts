/**
 * Connected components of a graph: which things hang together.
 * @param count things, numbered from 0
 * @param joined pairs that are joined
 * @returns for each thing a number that all of its component share
 * Source: union by halving paths, Tarjan and van Leeuwen, J. ACM 31 (1984) (from memory).
 */
export function connectedComponents(count: number, joined: Iterable<readonly [number, number]>): Int32Array {
  const parent = Int32Array.from({ length: count }, (_, i) => i);
  const head = (i: number): number => {
    let at = i;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]!]!;
      at = parent[at]!;
    }
    return at;
  };
  for (const [a, b] of joined) parent[head(b)] = head(a);
  return parent.map((_, i) => head(i));
}
