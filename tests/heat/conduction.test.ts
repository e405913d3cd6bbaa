import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type ConductionCase, solveConduction, temperatureAt } from '../../reference/laws/conduction.ts';
import { cutLines, gradedLines, lineAt } from '../../src/heat/mesh.ts';

const grading = { finest_m: 0.002, growth: 1.5, coarsest_m: 0.02 };

/** Two layers side by side in the heat's way, films on both faces. */
const layers: ConductionCase = {
  rectangles: [
    { name: 'a', x0: 0, x1: 0.1, y0: 0, y1: 0.02, conductivity: 0.13 },
    { name: 'b', x0: 0, x1: 0.1, y0: 0.02, y1: 0.05, conductivity: 0.04 },
  ],
  films: [
    { name: 'cold', x0: 0, x1: 0.1, y0: 0, y1: 0, resistance_m2K_per_W: 0.04, air_K: 273 },
    { name: 'warm', x0: 0, x1: 0.1, y0: 0.05, y1: 0.05, resistance_m2K_per_W: 0.13, air_K: 293 },
  ],
};

describe('conduction in the plane', () => {
  it('is the sum of resistances where nothing varies across', () => {
    const solved = solveConduction(layers, grading);
    const resistance = 0.04 + 0.02 / 0.13 + 0.03 / 0.04 + 0.13;
    expect(solved.flow_W_per_m[0]).toBeCloseTo((20 * 0.1) / resistance, 9);
    expect(temperatureAt(solved, 0.1, 0.05)).toBeCloseTo(293 - (20 / resistance) * 0.13, 9);
  });

  it('keeps the balance and the range of its airs for any block in a slab', () => {
    const share = fc.double({ min: 0.1, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(share, share, fc.double({ min: 0.01, max: 300, noNaN: true }), (a, b, conductivity) => {
        const [x0, x1] = [Math.min(a, b) * 0.1, Math.max(a, b) * 0.1 + 0.005];
        const block = { name: 'block', x0, x1, y0: 0.01, y1: 0.04, conductivity };
        const solved = solveConduction({ ...layers, rectangles: [...layers.rectangles, block] }, grading);
        expect(Math.abs(solved.balance)).toBeLessThan(1e-9);
        expect(Math.min(...solved.temperature_K)).toBeGreaterThan(273);
        expect(Math.max(...solved.temperature_K)).toBeLessThan(293);
      }),
      { seed: 31, numRuns: 25 },
    );
  });

  it('is the same in a mirror', () => {
    const block = (x0: number, x1: number) => ({ name: 'block', x0, x1, y0: 0, y1: 0.03, conductivity: 160 });
    const solve = (x0: number, x1: number) =>
      solveConduction({ ...layers, rectangles: [...layers.rectangles, block(x0, x1)] }, grading);
    const [left, right] = [solve(0.01, 0.03), solve(0.07, 0.09)];
    expect(left.flow_W_per_m[0]).toBeCloseTo(right.flow_W_per_m[0]!, 9);
    expect(temperatureAt(left, 0.03, 0.05)).toBeCloseTo(temperatureAt(right, 0.07, 0.05), 9);
  });

  it('passes nothing round a void but what goes past it', () => {
    const slit = { name: 'slit', x0: 0, x1: 0.1, y0: 0.02, y1: 0.03, conductivity: 'void' as const };
    const solved = solveConduction({ ...layers, rectangles: [...layers.rectangles, slit] }, grading);
    expect(solved.flow_W_per_m[0]).toBeCloseTo(0, 9);
  });

  it('is refused a film in a void', () => {
    const hole = { name: 'hole', x0: 0, x1: 0.1, y0: 0, y1: 0.02, conductivity: 'void' as const };
    const problem = { ...layers, rectangles: [...layers.rectangles, hole] };
    expect(() => solveConduction(problem, grading)).toThrow(RangeError);
  });
});

describe('mesh lines', () => {
  const breaks = fc
    .uniqueArray(fc.integer({ min: 0, max: 200 }), { minLength: 2, maxLength: 8 })
    .map((list) => list.map((mm) => ({ at: mm / 1000, finest_m: 0.001 })));

  it('pass through every break, rise, and grow no faster than asked but for fitting', () => {
    fc.assert(
      fc.property(breaks, (list) => {
        const lines = gradedLines(list, { growth: 1.6, coarsest_m: 0.02 });
        for (const { at } of list) expect(lines[lineAt(lines, at)]).toBeCloseTo(at, 9);
        for (let k = 1; k < lines.length; k++) expect(lines[k]! - lines[k - 1]!).toBeGreaterThan(0);
        for (let k = 1; k < lines.length; k++) expect(lines[k]! - lines[k - 1]!).toBeLessThan(0.03);
      }),
      { seed: 32, numRuns: 60 },
    );
  });

  it('keep every line when cells are cut, and refuse a position that has none', () => {
    const lines = Float64Array.from([0, 0.01, 0.04]);
    expect([...cutLines(lines, 2)]).toEqual([0, 0.005, 0.01, 0.025, 0.04]);
    const thirds = cutLines(lines, 3);
    expect([thirds[0], thirds[3], thirds[6]]).toEqual([...lines]);
    expect(thirds[5]! - thirds[4]!).toBeCloseTo(0.01, 15);
    expect(() => lineAt(lines, 0.02)).toThrow(RangeError);
  });
});
