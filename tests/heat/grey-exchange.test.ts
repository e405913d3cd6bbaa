import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { transferLengths_m } from '../../src/heat/grey-exchange.ts';
import { directExchange, type Facet, facetLength } from '../../src/numeric/view-factors.ts';

const box: readonly Facet[] = [
  { x0: 0, y0: 0, x1: 0.1, y1: 0 },
  { x0: 0.1, y0: 0, x1: 0.1, y1: 0.03 },
  { x0: 0.1, y0: 0.03, x1: 0, y1: 0.03 },
  { x0: 0, y0: 0.03, x1: 0, y1: 0 },
];

function transferOf(facets: readonly Facet[], emissivity: readonly number[]): Float64Array {
  const exchange_m = Float64Array.from(facets.flatMap((a) => facets.map((b) => directExchange(a, b))));
  return transferLengths_m({
    length_m: Float64Array.from(facets, facetLength),
    emissivity: Float64Array.from(emissivity),
    exchange_m,
  });
}

const emissivities = fc.array(fc.double({ min: 0.05, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 });

describe('transfer between grey faces', () => {
  it('of two endless parallel plates is 1/(1/e1 + 1/e2 - 1)', () => {
    const k = transferLengths_m({
      length_m: Float64Array.from([1, 1]),
      emissivity: Float64Array.from([0.9, 0.1]),
      exchange_m: Float64Array.from([0, 1, 1, 0]),
    });
    expect(k[1]).toBeCloseTo(1 / (1 / 0.9 + 1 / 0.1 - 1), 12);
  });

  it('of a body in a large room is e*A', () => {
    const k = transferLengths_m({
      length_m: Float64Array.from([1, 1e6]),
      emissivity: Float64Array.from([0.7, 0.8]),
      exchange_m: Float64Array.from([0, 1, 1, 1e6 - 1]),
    });
    expect(k[1]).toBeCloseTo(0.7, 6);
  });

  it('of black faces is the direct exchange area itself', () => {
    const k = transferOf(box, [1, 1, 1, 1]);
    for (const [i, a] of box.entries())
      for (const [j, b] of box.entries())
        if (i !== j) expect(k[i * 4 + j]! / directExchange(a, b)).toBeCloseTo(1, 7);
  });

  it('is the same both ways, never negative, and never more than a face can give', () => {
    fc.assert(
      fc.property(emissivities, (e) => {
        const k = transferOf(box, e);
        for (let i = 0; i < 4; i++) {
          let sum = 0;
          for (let j = 0; j < 4; j++) {
            expect(k[i * 4 + j]).toBe(k[j * 4 + i]);
            expect(k[i * 4 + j]).toBeGreaterThanOrEqual(-1e-15);
            sum += k[i * 4 + j]!;
          }
          expect(sum).toBeLessThanOrEqual(e[i]! * facetLength(box[i]!) * (1 + 1e-9));
        }
      }),
      { seed: 21, numRuns: 60 },
    );
  });

  it('agrees with following the reflections one by one', () => {
    const e = [0.9, 0.4, 0.7, 0.2];
    const k = transferOf(box, e);
    const f = (i: number, j: number) => directExchange(box[i]!, box[j]!) / facetLength(box[i]!);
    // Radiosity of every face when only the first shines, by repeated substitution.
    let radiosity = [e[0]!, 0, 0, 0];
    for (let round = 0; round < 200; round++)
      radiosity = radiosity.map((_, i) => {
        const arriving = radiosity.reduce((sum, value, j) => sum + f(i, j) * value, 0);
        return (i === 0 ? e[0]! : 0) + (1 - e[i]!) * arriving;
      });
    for (let i = 1; i < 4; i++) {
      const absorbed = e[i]! * radiosity.reduce((sum, value, j) => sum + f(i, j) * value, 0);
      expect(k[i]).toBeCloseTo(absorbed * facetLength(box[i]!), 12);
    }
  });
});
