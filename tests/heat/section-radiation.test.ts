import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ConductionNetwork } from '../../src/heat/conduction.ts';
import { cutLines } from '../../src/heat/mesh.ts';
import { levelOf } from '../../src/heat/section-balance.ts';
import { geometryOf } from '../../src/heat/section-geometry.ts';
import { firstLines } from '../../src/heat/section-mesh.ts';
import {
  addRadiation,
  addToNodes,
  faceTemperature_K,
  updateRadiation,
} from '../../src/heat/section-radiation.ts';
import { seededRandom } from '../../src/numeric/seeded-random.ts';
import { anySection } from './sections.ts';

const parts = fc.integer({ min: 1, max: 3 });

/** Any section on a mesh, its cells and the faces of its cavity cut into parts that need not go together. */
const anyLevel = fc.tuple(anySection, parts, parts).map(([section, cells, faces]) => {
  const geometry = geometryOf(section);
  const { xs, ys } = firstLines(geometry);
  const lines = { xs: cutLines(xs, cells), ys: cutLines(ys, cells) };
  return levelOf(section, { strip_W_per_m: 7 }, geometry, lines, faces);
});

function ramp(network: ConductionNetwork, at: (x: number, y: number) => number): Float64Array {
  const { xs, ys } = network.mesh;
  const values = new Float64Array(network.nodeCount);
  for (const nodes of [network.node, network.slitNode])
    for (const [crossing, node] of nodes.entries())
      if (node >= 0) values[node] = at(xs[crossing % xs.length]!, ys[Math.floor(crossing / xs.length)]!);
  return values;
}

const total = (values: Float64Array): number => values.reduce((sum, value) => sum + value, 0);
const product = (a: Float64Array, b: Float64Array): number => total(a.map((value, i) => value * b[i]!));

describe('the faces of the cavity on a mesh', () => {
  it('are as warm as their middle where temperatures rise evenly', () => {
    fc.assert(
      fc.property(anyLevel, ({ network, radiation }) => {
        const at = (x: number, y: number): number => 300 + 100 * x + 200 * y;
        const temperature_K = ramp(network, at);
        for (let i = 0; i < radiation.ownCount; i++) {
          const { piece, from_m, to_m } = radiation.faces[i]!;
          const { x0, x1, y0 } = piece.surface;
          const middle = (from_m + to_m) / 2;
          const expected = x0 === x1 ? at(x0, middle) : at(middle, y0);
          expect(faceTemperature_K(radiation, i, temperature_K)).toBeCloseTo(expected, 6);
        }
      }),
      { seed: 61, numRuns: 25 },
    );
  });

  it('give their nodes all of what they are given', () => {
    fc.assert(
      fc.property(anyLevel, ({ network, radiation }) => {
        const given = Float64Array.from({ length: radiation.ownCount }, (_, i) => 1 + Math.sin(i));
        const into = new Float64Array(network.nodeCount);
        addToNodes(radiation, given, into);
        expect(total(into)).toBeCloseTo(total(given), 9);
      }),
      { seed: 62, numRuns: 25 },
    );
  });
});

describe('radiation on a mesh', () => {
  it('loses heat only by the slot, is the same both ways, and always evens temperatures out', () => {
    fc.assert(
      fc.property(anyLevel, fc.integer({ min: 1, max: 1000 }), ({ network, radiation }, seed) => {
        const random = seededRandom(seed);
        const any = () => Float64Array.from({ length: network.nodeCount }, () => 10 * random() - 5);
        updateRadiation(
          radiation,
          any().map((t) => 310 + t),
          296,
        );
        const [u, v] = [any(), any()];
        const leaving = (temperatures: Float64Array): Float64Array => {
          const into = new Float64Array(network.nodeCount);
          addRadiation(radiation, temperatures, into);
          return into;
        };
        const bySlot = radiation.toRoom_W_per_mK.map((w, i) => w * faceTemperature_K(radiation, i, u));
        expect(total(leaving(u))).toBeCloseTo(total(bySlot), 9);
        expect(product(v, leaving(u))).toBeCloseTo(product(u, leaving(v)), 9);
        expect(product(u, leaving(u))).toBeGreaterThan(0);
      }),
      { seed: 63, numRuns: 25 },
    );
  });
});
