import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { temperaturesOf } from '../../src/heat/section-answers.ts';
import { balanceLevel, levelOf } from '../../src/heat/section-balance.ts';
import { geometryOf } from '../../src/heat/section-geometry.ts';
import { firstLines } from '../../src/heat/section-mesh.ts';
import { panel } from './sections.ts';

describe('a peak', () => {
  it('is found between nodes: exactly, where temperatures fall off with the square of the distance', () => {
    const section = { ...panel, strip: { ...panel.strip, offset_m: 0.02 } };
    const geometry = geometryOf(section);
    const lines = firstLines(geometry);
    const loads = { strip_W_per_m: 7 };
    const level = levelOf(section, loads, geometry, lines, 1);
    const solved = balanceLevel(level, loads, new Float64Array(level.network.nodeCount).fill(310))!;
    const { xs, ys, node, slitNode } = { ...level.network.mesh, ...level.network };
    const { x0, x1, y0 } = geometry.strip;
    fc.assert(
      fc.property(fc.double({ min: x0 + 0.001, max: x1 - 0.001, noNaN: true }), (crest_m) => {
        const temperature_K = Float64Array.from(solved.temperature_K);
        const at = (x: number, y: number): number => 350 - 1e5 * (x - crest_m) ** 2 - 1e4 * (y - y0) ** 2;
        for (const nodes of [node, slitNode])
          for (const [crossing, n] of nodes.entries())
            if (n >= 0)
              temperature_K[n] = at(xs[crossing % xs.length]!, ys[Math.floor(crossing / xs.length)]!);
        const { strip, hottestTimber, backOfBacking } = temperaturesOf({ ...solved, temperature_K }, 0);
        for (const spot of [strip.peak, hottestTimber]) {
          expect(spot.temperature_K).toBeCloseTo(350, 6);
          expect(spot.x_m).toBeCloseTo(crest_m, 9);
          expect(spot.y_m).toBeCloseTo(y0, 9);
        }
        expect(backOfBacking.temperature_K).toBeCloseTo(at(crest_m, ys.at(-1)!), 6);
        expect(backOfBacking.x_m).toBeCloseTo(crest_m, 9);
      }),
      { seed: 71, numRuns: 30 },
    );
  });
});
