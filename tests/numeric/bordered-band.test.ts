import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BandLayout, eliminateBand, substituteBand } from '../../src/numeric/bordered-band.ts';

/** Symmetric, diagonally dominant, with elements only where a bordered band has them. */
function randomMatrix(
  count: number,
  width: number,
  border: number,
  value: (i: number) => number,
): number[][] {
  const total = count + width + border;
  const dense = Array.from({ length: total }, () => new Array<number>(total).fill(0));
  let drawn = 0;
  for (let i = 0; i < total; i++) {
    for (let j = 0; j < i; j++) {
      if (i - j > width && i < count + width) continue;
      dense[i]![j] = dense[j]![i] = value(drawn++);
    }
  }
  for (let i = 0; i < total; i++) dense[i]![i] = 1 + dense[i]!.reduce((sum, v) => sum + Math.abs(v), 0);
  return dense;
}

/** Textbook elimination of the first unknowns; what is left of matrix and right-hand side. */
function eliminated(
  matrix: number[][],
  right: number[],
  count: number,
): { matrix: number[][]; right: number[] } {
  const a = matrix.map((line) => [...line]);
  const b = [...right];
  for (let k = 0; k < count; k++) {
    for (let i = k + 1; i < a.length; i++) {
      const ratio = a[i]![k]! / a[k]![k]!;
      for (let j = k; j < a.length; j++) a[i]![j]! -= ratio * a[k]![j]!;
      b[i]! -= ratio * b[k]!;
    }
  }
  return { matrix: a, right: b };
}

const shape = fc.record({
  count: fc.integer({ min: 1, max: 12 }),
  width: fc.integer({ min: 1, max: 5 }),
  hasBorder: fc.boolean(),
  draws: fc.array(fc.double({ min: -3, max: 3, noNaN: true }), { minLength: 40, maxLength: 40 }),
});

describe('a bordered band', () => {
  it('leaves what dense elimination leaves, and gets the unknowns back', () => {
    fc.assert(
      fc.property(shape, ({ count, width, hasBorder, draws }) => {
        const border = hasBorder ? width : 0;
        const rows = count + width;
        const dense = randomMatrix(count, width, border, (i) => draws[i % draws.length]!);
        const x = dense.map((_, i) => Math.sin(1 + i));
        const b = dense.map((line) => line.reduce((sum, v, i) => sum + v * x[i]!, 0));

        const layout = new BandLayout();
        layout.add(2, width, true);
        const at = layout.add(count, width, hasBorder);
        const values = layout.emptyValues();
        for (let i = 0; i < rows; i++) {
          for (let d = 0; d <= width && i + d < rows; d++) {
            values.band[at.bandAt + i * (width + 1) + d] = dense[i]![i + d]!;
          }
          values.right[at.rightAt + i] = b[i]!;
        }
        for (let p = 0; p < border; p++) {
          for (let i = 0; i < rows + border; i++) {
            values.border[at.borderAt + i * width + p] = dense[rows + p]![i]!;
          }
          values.right[at.borderRightAt + p] = b[rows + p]!;
        }

        expect(eliminateBand(at, values)).toBe(true);
        const left = eliminated(dense, b, count);
        for (let i = count; i < rows; i++) {
          for (let j = i; j < rows; j++) {
            expect(values.band[at.bandAt + i * (width + 1) + j - i]).toBeCloseTo(left.matrix[i]![j]!, 9);
          }
          expect(values.right[at.rightAt + i]).toBeCloseTo(left.right[i]!, 9);
        }
        for (let p = 0; p < border; p++) {
          for (let i = count; i <= rows + p; i++) {
            expect(
              values.border[at.borderAt + (i < rows ? i * width + p : (rows + p) * width + i - rows)],
            ).toBeCloseTo(left.matrix[rows + p]![i]!, 9);
          }
          expect(values.right[at.borderRightAt + p]).toBeCloseTo(left.right[rows + p]!, 9);
        }

        for (let i = count; i < rows; i++) values.right[at.rightAt + i] = x[i]!;
        for (let p = 0; p < border; p++) values.right[at.borderRightAt + p] = x[rows + p]!;
        substituteBand(at, values);
        for (let i = 0; i < count; i++) expect(values.right[at.rightAt + i]).toBeCloseTo(x[i]!, 9);
      }),
      { seed: 21, numRuns: 200 },
    );
  });

  it('says so when the matrix is not positive definite', () => {
    const layout = new BandLayout();
    const at = layout.add(2, 1, false);
    const values = layout.emptyValues();
    values.band.set([1, 2, 1, 0]);
    expect(eliminateBand(at, values)).toBe(false);
    values.band.set([Number.NaN, 0, 1, 0]);
    expect(eliminateBand(at, values)).toBe(false);
  });
});
