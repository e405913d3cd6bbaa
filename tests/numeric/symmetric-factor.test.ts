import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minimumDegreeOrder } from '../../src/numeric/elimination-order.ts';
import {
  factorise,
  placeCount,
  placeOf,
  planFactor,
  solveFactored,
} from '../../src/numeric/symmetric-factor.ts';

type Edge = readonly [number, number];

const ends = (edges: readonly Edge[]): [Int32Array, Int32Array] => [
  Int32Array.from(edges, (e) => e[0]),
  Int32Array.from(edges, (e) => e[1]),
];

/** Renumbers edges by their place in the elimination order. */
function renumbered(count: number, edges: readonly Edge[]): Edge[] {
  const order = minimumDegreeOrder(count, ...ends(edges));
  const at = new Int32Array(count);
  for (const [position, v] of order.entries()) at[v] = position;
  return edges.map(([a, b]) => [at[a]!, at[b]!]);
}

const fillOf = (count: number, edges: readonly Edge[]): number =>
  planFactor(count, ...ends(renumbered(count, edges))).row.length;

const chain = (count: number): Edge[] => Array.from({ length: count - 1 }, (_, i) => [i, i + 1]);

describe('elimination order', () => {
  it('leaves a chain, a star and a random tree without fill', () => {
    expect(fillOf(500, chain(500))).toBe(499);
    expect(
      fillOf(
        500,
        Array.from({ length: 499 }, (_, i) => [0, i + 1] as Edge),
      ),
    ).toBe(499);
    fc.assert(
      fc.property(fc.array(fc.nat(1e6), { minLength: 1, maxLength: 200 }), (parents) => {
        const edges = parents.map((p, i): Edge => [p % (i + 1), i + 1]);
        expect(fillOf(parents.length + 1, edges)).toBe(edges.length);
      }),
      { seed: 11, numRuns: 50 },
    );
  });

  it('adds one column for a ring', () => {
    const ring: Edge[] = [...chain(200), [199, 0]];
    expect(fillOf(200, ring)).toBe(200 + 197);
  });

  /** Live neighbours of the vertex taken and of all that are left, step by step, by sets: the definition itself. */
  function degrees(count: number, edges: readonly Edge[]) {
    const graph = new Map(Array.from({ length: count }, (_, v) => [v, new Set<number>()]));
    const join = (v: number, w: number) => {
      if (v !== w) graph.get(v)!.add(w) && graph.get(w)!.add(v);
    };
    for (const [a, b] of edges) join(a, b);
    return Array.from(minimumDegreeOrder(count, ...ends(edges)), (v) => {
      const least = Math.min(...[...graph.values()].map(({ size }) => size));
      const live = [...graph.get(v)!];
      graph.delete(v);
      for (const w of live) graph.get(w)!.delete(v);
      for (const w of live) for (const u of live) join(w, u);
      return { own: live.length, least };
    });
  }

  it('takes one with the fewest neighbours each time, of those joined by what went before too', () => {
    const graph = fc.integer({ min: 1, max: 14 }).chain((count) =>
      fc.record({
        count: fc.constant(count),
        edges: fc.array(fc.tuple(fc.nat(count - 1), fc.nat(count - 1)), { maxLength: 40 }),
      }),
    );
    fc.assert(
      fc.property(graph, ({ count, edges }) => {
        for (const { own, least } of degrees(count, edges)) expect(own).toBe(least);
      }),
      { seed: 31, numRuns: 300 },
    );
  });

  it('counts an edge once, however often and whichever way round it is named', () => {
    // A hub with two leaves and a ring of three: 0-1 named four times does not make 0 busier than 2.
    const edges: Edge[] = [
      [0, 1],
      [0, 1],
      [1, 0],
      [0, 1],
      [1, 2],
      [2, 3],
      [3, 4],
      [4, 2],
      [1, 5],
      [3, 3],
    ];
    for (const { own, least } of degrees(6, edges)) expect(own).toBe(least);
    expect(fillOf(6, edges)).toBe(
      fillOf(6, [
        [0, 1],
        [1, 2],
        [2, 3],
        [3, 4],
        [4, 2],
        [1, 5],
      ]),
    );
  });

  it('names every vertex once', () => {
    const order = minimumDegreeOrder(7, ...ends([...chain(4), [0, 3], [1, 3], [1, 1], [0, 1]]));
    expect([...order].sort()).toEqual([0, 1, 2, 3, 4, 5, 6]);
  });
});

describe('sparse symmetric factorisation', () => {
  const graph = fc.integer({ min: 1, max: 25 }).chain((count) =>
    fc.record({
      count: fc.constant(count),
      edges: fc.array(
        fc.tuple(fc.nat(count - 1), fc.nat(count - 1), fc.double({ min: 0.1, max: 10, noNaN: true })),
        { maxLength: 60 },
      ),
    }),
  );

  it('agrees with dense elimination on random graphs', () => {
    fc.assert(
      fc.property(graph, ({ count, edges }) => {
        const proper = edges.filter(([a, b]) => a !== b);
        const plan = planFactor(count, ...ends(proper.map(([a, b]): Edge => [a, b])));
        const values = new Float64Array(placeCount(plan));
        const dense = Array.from({ length: count }, () => new Float64Array(count));
        for (let i = 0; i < count; i++) {
          values[i]! += 1;
          dense[i]![i]! += 1;
        }
        for (const [a, b, g] of proper) {
          values[a]! += g;
          values[b]! += g;
          values[placeOf(plan, a, b)]! -= g;
          dense[a]![a]! += g;
          dense[b]![b]! += g;
          dense[a]![b]! -= g;
          dense[b]![a]! -= g;
        }
        const x = Float64Array.from({ length: count }, (_, i) => Math.sin(i + 1));
        const b = Float64Array.from(dense, (line) => line.reduce((sum, v, i) => sum + v * x[i]!, 0));
        expect(factorise(plan, values)).toBe(true);
        solveFactored(plan, values, b);
        for (let i = 0; i < count; i++) expect(b[i]).toBeCloseTo(x[i]!, 11);
      }),
      { seed: 12, numRuns: 200 },
    );
  });

  it('says so when the matrix is not positive definite', () => {
    const plan = planFactor(2, Int32Array.of(0), Int32Array.of(1));
    expect(factorise(plan, Float64Array.of(1, 1, -1))).toBe(false);
    expect(factorise(plan, Float64Array.of(1, Number.NaN, 0))).toBe(false);
  });

  it('has no place for what was not planned', () => {
    const plan = planFactor(3, Int32Array.of(0), Int32Array.of(1));
    expect(() => placeOf(plan, 0, 2)).toThrow(RangeError);
  });
});
