import { describe, expect, it } from 'vitest';
import { isotherm, isothermLevels } from '../../web/drawing/isotherms.ts';

/** A field on a graded mesh, from a function of place. */
function field(of: (x_mm: number, y_mm: number) => number | null) {
  const xs_mm = [0, 1, 3, 6, 10, 15];
  const ys_mm = [0, 2, 3, 7, 12];
  const temperature_degC = ys_mm.flatMap((y) => xs_mm.map((x) => of(x, y)));
  return { xs_mm, ys_mm, temperature_degC, half: false, meshes: [] };
}

describe('lines of equal temperature', () => {
  it('are straight where the field is linear, and lie where the temperature is theirs', () => {
    const of = (x: number, y: number): number => 20 + 2 * x + 3 * y;
    for (const level of [25, 31.3, 48]) {
      const pieces = isotherm(field(of), level);
      expect(pieces.length).toBeGreaterThan(0);
      for (const [x, y] of pieces.flat()) expect(of(x, y)).toBeCloseTo(level, 9);
    }
  });

  it('reach from side to side of the field without a gap', () => {
    const pieces = isotherm(
      field((_, y) => y),
      5,
    );
    const length = pieces.reduce((sum, [a, b]) => sum + Math.hypot(b![0] - a![0], b![1] - a![1]), 0);
    expect(length).toBeCloseTo(15, 9);
  });

  it('stay out of places without material', () => {
    const holed = field((x, y) => (x >= 6 && y <= 3 ? null : x));
    for (const [x, y] of isotherm(holed, 8).flat()) {
      expect(x).toBeCloseTo(8, 9);
      expect(y).toBeGreaterThanOrEqual(7);
    }
  });

  it('are drawn for round temperatures inside the field', () => {
    const levels = isothermLevels(field((x) => 21 + x));
    expect(levels.length).toBeGreaterThan(3);
    for (const level of levels) expect(level > 21 && level < 36).toBe(true);
  });
});
