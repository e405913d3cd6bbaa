import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  directExchange,
  type Facet,
  facetLength,
  gapDirectExchange,
  mirroredFacet,
} from '../../src/numeric/view-factors.ts';

/** Sides of a rectangle, counter-clockwise, each cut at the given shares. */
function boxFacets(width: number, height: number, cuts: readonly number[]): Facet[] {
  const corners = [
    [0, 0],
    [width, 0],
    [width, height],
    [0, height],
  ] as const;
  const shares = [0, ...[...cuts].sort((a, b) => a - b), 1];
  return corners.flatMap(([x, y], side) => {
    const [ex, ey] = corners[(side + 1) % 4]!;
    const at = (s: number) => [x + s * (ex - x), y + s * (ey - y)] as const;
    return shares.slice(1).map((end, k) => {
      const [x0, y0] = at(shares[k]!);
      const [x1, y1] = at(end);
      return { x0, y0, x1, y1 };
    });
  });
}

const size = fc.double({ min: 0.005, max: 0.3, noNaN: true });
const cuts = fc
  .uniqueArray(fc.integer({ min: 1, max: 19 }), { maxLength: 5 })
  .map((c) => c.map((k) => k / 20));

describe('crossed strings', () => {
  it('close: what leaves a facet of a box arrives somewhere in the box', () => {
    fc.assert(
      fc.property(size, size, cuts, (width, height, c) => {
        const facets = boxFacets(width, height, c);
        for (const a of facets) {
          const sum = facets.reduce((total, b) => total + (a === b ? 0 : directExchange(a, b)), 0);
          expect(sum / facetLength(a)).toBeCloseTo(1, 9);
        }
      }),
      { seed: 5, numRuns: 60 },
    );
  });

  it('are the same both ways', () => {
    fc.assert(
      fc.property(size, size, cuts, (width, height, c) => {
        const facets = boxFacets(width, height, c);
        for (const a of facets)
          for (const b of facets) expect(directExchange(a, b)).toBe(directExchange(b, a));
      }),
      { seed: 6, numRuns: 30 },
    );
  });

  it('do not change in a mirror', () => {
    const a = { x0: 0, y0: 0, x1: 0.03, y1: 0 };
    const b = { x0: 0.09, y0: 0.02, x1: 0.05, y1: 0.02 };
    expect(directExchange(mirroredFacet(b, 0.2), mirroredFacet(a, 0.2))).toBeCloseTo(
      directExchange(a, b),
      12,
    );
  });

  it('add up: a facet cut in two passes what it passed whole', () => {
    const a = { x0: 0, y0: 0, x1: 0.03, y1: 0 };
    const b = { x0: 0.09, y0: 0.02, x1: 0.05, y1: 0.02 };
    const parts = [
      { ...b, x1: 0.07 },
      { ...b, x0: 0.07 },
    ];
    expect(parts.reduce((sum, p) => sum + directExchange(a, p), 0)).toBeCloseTo(directExchange(a, b), 12);
  });
});

describe('an endless gap', () => {
  const shared = fc.record({ depth: size, half: size, count: fc.integer({ min: 8, max: 25 }) });

  it('closes: a facet sees the other face and nothing else', () => {
    fc.assert(
      fc.property(shared, ({ depth, half, count }) => {
        const gap = { low: 0, high: half };
        const at = (k: number) => (k * half) / count;
        const a = { x0: at(2), y0: 0, x1: at(3), y1: 0 };
        let sum = 0;
        for (let k = 0; k < count; k++)
          sum += gapDirectExchange(a, { x0: at(k + 1), y0: depth, x1: at(k), y1: depth }, gap);
        expect(Math.abs(sum / facetLength(a) - 1)).toBeLessThan(5e-5);
      }),
      { seed: 7, numRuns: 100 },
    );
  });

  it('is the same both ways and has no exchange within one face', () => {
    const gap = { low: 0, high: 0.075 };
    const a = { x0: 0.01, y0: 0, x1: 0.02, y1: 0 };
    const b = { x0: 0.06, y0: 0.03, x1: 0.04, y1: 0.03 };
    expect(gapDirectExchange(a, b, gap)).toBeCloseTo(gapDirectExchange(b, a, gap), 12);
    expect(gapDirectExchange(a, { x0: 0.06, y0: 0, x1: 0.05, y1: 0 }, gap)).toBe(0);
  });

  it('agrees with a brute sum over four hundred images', () => {
    const gap = { low: 0, high: 0.05 };
    const a = { x0: 0.01, y0: 0, x1: 0.014, y1: 0 };
    const b = { x0: 0.046, y0: 0.03, x1: 0.04, y1: 0.03 };
    let brute = 0;
    for (let k = -200; k <= 200; k++)
      for (const image of [b, mirroredFacet(b, 0)])
        brute += directExchange(a, { ...image, x0: image.x0 + k * 0.1, x1: image.x1 + k * 0.1 });
    expect(gapDirectExchange(a, b, gap) / brute).toBeCloseTo(1, 4);
  });
});

describe('a gap of mirrors', () => {
  const level = (x0: number, x1: number, y: number): Facet => ({ x0, y0: y, x1, y1: y });

  it('is the same wherever it lies, and as far as depths go from face to face', () => {
    const gap = { low: 0, high: 0.1 };
    const plain = gapDirectExchange(level(0.01, 0.03, 0), level(0.06, 0.04, 0.03), gap);
    for (const [dx, dy] of [
      [0.7, 0],
      [0, 0.4],
      [-0.25, -0.11],
    ] as const) {
      const moved = gapDirectExchange(
        level(0.01 + dx, 0.03 + dx, dy),
        level(0.06 + dx, 0.04 + dx, 0.03 + dy),
        { low: dx, high: 0.1 + dx },
      );
      expect(moved).toBeCloseTo(plain, 12);
    }
  });

  it('sends all it sends to the other face also where it is ten times as deep as wide', () => {
    const gap = { low: 0, high: 0.03 };
    const facet = level(0.004, 0.009, 0);
    const sum = [0, 1, 2, 3, 4, 5].reduce(
      (total, k) => total + gapDirectExchange(facet, level(0.005 * (k + 1), 0.005 * k, 0.3), gap),
      0,
    );
    expect(sum / 0.005).toBeCloseTo(1, 5);
  });
});
