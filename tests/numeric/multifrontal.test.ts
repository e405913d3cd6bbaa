import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { conjugateGradients } from '../../src/numeric/conjugate-gradients.ts';
import {
  emptyFronts,
  factorFronts,
  inverseOf,
  oneFront,
  placeIn,
  solveFronts,
} from '../../src/numeric/multifrontal.ts';
import { nestedDissection } from '../../src/numeric/nested-dissection.ts';
import { solveDense } from './dense.ts';

type Link = readonly [number, number, number];

/** A network of conductances, each node also held to a ground, by fronts and as a dense matrix. */
function network(start: readonly number[], links: readonly Link[]) {
  const size = start.at(-1)!;
  const [from, to] = [Int32Array.from(links, (l) => l[0]), Int32Array.from(links, (l) => l[1])];
  const fronts = emptyFronts(Int32Array.from(start), from, to);
  const dense = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const add = (i: number, j: number, value: number): void => {
    dense[i]![j]! += value;
    if (j <= i) fronts.values[placeIn(fronts, i, j)]! += value;
  };
  for (let i = 0; i < size; i++) add(i, i, 0.1 + (i % 3));
  for (const [a, b, g] of links) {
    add(a, a, g);
    add(b, b, g);
    add(a, b, -g);
    add(b, a, -g);
  }
  return { fronts, dense };
}

const conductance = fc.double({ min: 0.01, max: 50, noNaN: true });

const links = (size: number) =>
  fc.array(
    fc.tuple(fc.nat(size - 1), fc.nat(size - 1), conductance).filter(([a, b]) => a !== b),
    { maxLength: 3 * size },
  );

/** Any links between nodes that are cut into any fronts. */
const anyNetwork = fc
  .integer({ min: 2, max: 30 })
  .chain((size) =>
    fc
      .tuple(fc.uniqueArray(fc.integer({ min: 1, max: size - 1 })), links(size))
      .map(([cuts, l]) => ({ start: [0, ...cuts.sort((a, b) => a - b), size], links: l })),
  );

/** A grid of nodes numbered by its dissection, some of its links missing. */
function grid(nx: number, ny: number, conductances: readonly number[]): { start: number[]; links: Link[] } {
  const { order, ends } = nestedDissection(nx, ny);
  const number = new Int32Array(nx * ny);
  for (const [k, crossing] of order.entries()) number[crossing] = k;
  const all: Link[] = [];
  const link = (a: number, b: number): void => {
    const g = conductances[all.length % conductances.length]!;
    all.push([number[a]!, number[b]!, g]);
  };
  for (let j = 0; j < ny; j++)
    for (let i = 0; i < nx; i++) {
      if (i + 1 < nx) link(j * nx + i, j * nx + i + 1);
      if (j + 1 < ny) link(j * nx + i, (j + 1) * nx + i);
    }
  return { start: [0, ...ends], links: all.filter(([, , g]) => g > 0) };
}

const anyGrid = fc
  .tuple(
    fc.integer({ min: 1, max: 14 }),
    fc.integer({ min: 1, max: 9 }),
    fc.array(fc.oneof(fc.constant(0), conductance), { minLength: 1, maxLength: 40 }),
  )
  .map(([nx, ny, g]) => grid(nx, ny, g));

describe('the factor by fronts', () => {
  it.each([
    ['any network', anyNetwork, 11],
    ['any grid by its dissection', anyGrid, 13],
  ])('solves what a dense factor solves: %s', (_, any, seed) => {
    fc.assert(
      fc.property(any, (given) => {
        const { fronts, dense } = network(given.start, given.links);
        const size = given.start.at(-1)!;
        const b = Float64Array.from({ length: size }, (_, i) => Math.sin(i + 1));
        const x = Float64Array.from(b);
        factorFronts(fronts);
        solveFronts(fronts, x);
        const expected = solveDense(dense, [...b]);
        for (let i = 0; i < size; i++) expect(x[i]).toBeCloseTo(expected[i]!, 9);
      }),
      { seed, numRuns: 80 },
    );
  });

  it('is refused a matrix that is not positive definite', () => {
    const { fronts } = network([0, 1, 2], [[0, 1, 1]]);
    fronts.values[0] = -1;
    expect(() => factorFronts(fronts)).toThrow(RangeError);
    const full = oneFront(2);
    full.values.set([1, 0, 2, 1]);
    expect(() => factorFronts(full)).toThrow(RangeError);
    // [1 2; 2 4]: 4 - 2*2 is nothing, one row twice the other.
    const singular = oneFront(2);
    singular.values.set([1, 0, 2, 4]);
    expect(() => factorFronts(singular)).toThrow('pivot 1 is 0');
  });
});

describe('the factor in one front', () => {
  it('gives the inverse', () => {
    fc.assert(
      fc.property(anyNetwork, (given) => {
        const { dense } = network(given.start, given.links);
        const size = dense.length;
        const full = oneFront(size);
        for (let i = 0; i < size; i++)
          for (let j = 0; j <= i; j++) full.values[placeIn(full, i, j)] = dense[i]![j]!;
        factorFronts(full);
        const inverse = inverseOf(full);
        for (let j = 0; j < size; j++) {
          const unit = dense.map((_, i) => (i === j ? 1 : 0));
          const expected = solveDense(dense, unit);
          for (let i = 0; i < size; i++) expect(inverse[i * size + j]).toBeCloseTo(expected[i]!, 8);
        }
      }),
      { seed: 15, numRuns: 60 },
    );
  });
});

describe('nested dissection', () => {
  it('takes every crossing once', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 1, max: 40 }), (nx, ny) => {
        const { order, ends } = nestedDissection(nx, ny);
        expect([...order].sort((a, b) => a - b)).toEqual(Array.from({ length: nx * ny }, (_, k) => k));
        expect(ends.at(-1)).toBe(nx * ny);
        for (let k = 1; k < ends.length; k++) expect(ends[k]).toBeGreaterThan(ends[k - 1]!);
      }),
      { seed: 14, numRuns: 40 },
    );
  });

  it('fills as many places as the theory says, n*log(n), where line by line it would be n^1.5', () => {
    // 31/4*n*log2(sqrt(n)) for a square grid (George 1973, from memory); fronts hold both halves of their triangles.
    for (const side of [31, 63, 127]) {
      const { start, links: l } = grid(side, side, [1]);
      const places = emptyFronts(
        Int32Array.from(start),
        Int32Array.from(l, (link) => link[0]),
        Int32Array.from(l, (link) => link[1]),
      ).values.length;
      const n = side * side;
      expect(places).toBeLessThan((31 / 4) * n * Math.log2(side));
    }
  });
});

describe('conjugate gradients', () => {
  it('reach the direct solution with only the diagonal to guide them', () => {
    fc.assert(
      fc.property(anyNetwork, (given) => {
        const { dense } = network(given.start, given.links);
        const size = dense.length;
        const rightSide = Float64Array.from({ length: size }, (_, i) => Math.cos(i));
        const start = new Float64Array(size);
        const { residual } = conjugateGradients({
          apply: (v, into) => {
            for (let i = 0; i < size; i++) {
              into[i] = 0;
              for (let j = 0; j < size; j++) into[i] = into[i]! + dense[i]![j]! * v[j]!;
            }
          },
          precondition: (r) => {
            for (let i = 0; i < size; i++) r[i] = r[i]! / dense[i]![i]!;
          },
          rightSide,
          start,
          tolerance: 1e-10,
          reduction: 0,
          mostRoundCount: 20 * size,
        });
        expect(residual).toBeLessThanOrEqual(1e-10);
        const expected = solveDense(dense, [...rightSide]);
        for (let i = 0; i < size; i++) expect(start[i]).toBeCloseTo(expected[i]!, 6);
      }),
      { seed: 12, numRuns: 60 },
    );
  });
});
