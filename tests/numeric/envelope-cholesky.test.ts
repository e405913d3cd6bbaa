import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { conjugateGradients } from '../../src/numeric/conjugate-gradients.ts';
import {
  emptyEnvelope,
  factorEnvelope,
  fullEnvelope,
  inverseOf,
  solveEnvelope,
} from '../../src/numeric/envelope-cholesky.ts';
import { solveDense } from './dense.ts';

/** A network of conductances, each node also held to a ground, as an envelope and as a dense matrix. */
function network(size: number, links: readonly (readonly [number, number, number])[]) {
  const envelope = emptyEnvelope(
    size,
    Int32Array.from(links, (l) => l[0]),
    Int32Array.from(links, (l) => l[1]),
  );
  const dense = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  const add = (i: number, j: number, value: number): void => {
    dense[i]![j]! += value;
    if (j > i) return;
    const at = envelope.offset[i]! + j;
    envelope.values[at] = envelope.values[at]! + value;
  };
  for (let i = 0; i < size; i++) add(i, i, 0.1 + (i % 3));
  for (const [a, b, g] of links) {
    add(a, a, g);
    add(b, b, g);
    add(a, b, -g);
    add(b, a, -g);
  }
  return { envelope, dense };
}

const links = (size: number) =>
  fc.array(
    fc
      .tuple(fc.nat(size - 1), fc.nat(size - 1), fc.double({ min: 0.01, max: 50, noNaN: true }))
      .filter(([a, b]) => a !== b),
    { maxLength: 3 * size },
  );

const anyNetwork = fc.integer({ min: 2, max: 30 }).chain((size) => fc.tuple(fc.constant(size), links(size)));

describe('the envelope factor', () => {
  it('solves what a dense factor solves', () => {
    fc.assert(
      fc.property(anyNetwork, ([size, l]) => {
        const { envelope, dense } = network(size, l);
        const b = Float64Array.from({ length: size }, (_, i) => Math.sin(i + 1));
        const x = Float64Array.from(b);
        factorEnvelope(envelope);
        solveEnvelope(envelope, x);
        const expected = solveDense(dense, [...b]);
        for (let i = 0; i < size; i++) expect(x[i]).toBeCloseTo(expected[i]!, 9);
      }),
      { seed: 11, numRuns: 80 },
    );
  });

  it('is refused a matrix that is not positive definite', () => {
    const { envelope } = network(2, [[0, 1, 1]]);
    envelope.values[0] = -1;
    expect(() => factorEnvelope(envelope)).toThrow(RangeError);
    const full = fullEnvelope(3);
    full.values.set([1, 2, 1, 0, 0, 1]);
    expect(() => factorEnvelope(full)).toThrow(RangeError);
  });

  it('of a full matrix gives its inverse', () => {
    fc.assert(
      fc.property(anyNetwork, ([size, l]) => {
        const { dense } = network(size, l);
        const full = fullEnvelope(size);
        for (let i = 0; i < size; i++)
          for (let j = 0; j <= i; j++) full.values[full.offset[i]! + j] = dense[i]![j]!;
        factorEnvelope(full);
        const inverse = inverseOf(full);
        for (let j = 0; j < size; j++) {
          const expected = solveDense(
            dense,
            dense.map((_, i) => (i === j ? 1 : 0)),
          );
          for (let i = 0; i < size; i++) expect(inverse[i * size + j]).toBeCloseTo(expected[i]!, 8);
        }
      }),
      { seed: 13, numRuns: 60 },
    );
  });
});

describe('conjugate gradients', () => {
  it('reach the direct solution with only the diagonal to guide them', () => {
    fc.assert(
      fc.property(anyNetwork, ([size, l]) => {
        const { dense } = network(size, l);
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
