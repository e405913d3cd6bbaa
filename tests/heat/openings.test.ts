import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { airAt } from '../../src/heat/air.ts';
import {
  channelledFlow_m3_per_s,
  singleSidedFlow_m3_per_s,
  stackFlow_m3_per_s,
} from '../../src/heat/openings.ts';

const opening = { area_m2: 0.024, height_m: 2.4, inside_K: 303.15, outside_K: 293.15 };

describe('air through a slot', () => {
  it('is the opening alone where the cavity is deep', () => {
    const flow = channelledFlow_m3_per_s(opening, { depth_m: 1, width_m: 1 });
    expect(flow / singleSidedFlow_m3_per_s(opening)).toBeCloseTo(1, 3);
  });

  it('is plane friction alone where the cavity is very shallow', () => {
    const flow = channelledFlow_m3_per_s(opening, { depth_m: 0.001, width_m: 0.15 });
    const air = airAt(298.15);
    const head = (air.density_kg_per_m3 * 9.806_65 * 2.4 * 10) / 298.15;
    const friction = (head * 0.001 ** 3 * 0.15) / (12 * air.dynamicViscosity_Pas * 1.2);
    expect(flow / friction).toBeCloseTo(1, 2);
  });

  it('never passes more than the opening alone, and more the deeper the cavity', () => {
    const depth = fc.double({ min: 0.003, max: 0.06, noNaN: true });
    fc.assert(
      fc.property(depth, fc.double({ min: 293.2, max: 340, noNaN: true }), (depth_m, inside_K) => {
        const at = { ...opening, inside_K };
        const flow = channelledFlow_m3_per_s(at, { depth_m, width_m: 0.13 });
        expect(flow).toBeLessThanOrEqual(singleSidedFlow_m3_per_s(at));
        expect(channelledFlow_m3_per_s(at, { depth_m: depth_m * 1.1, width_m: 0.13 })).toBeGreaterThan(flow);
      }),
      { seed: 61, numRuns: 100 },
    );
  });

  it('stands still where the inside is not warmer', () => {
    const cold = { ...opening, inside_K: 293.15 };
    expect(singleSidedFlow_m3_per_s(cold)).toBe(0);
    expect(channelledFlow_m3_per_s({ ...cold, inside_K: 280 }, { depth_m: 0.03, width_m: 0.1 })).toBe(0);
    const vents = { low_m2: 0.001, high_m2: 0.001, rise_m: 1, inside_K: 290, outside_K: 293 };
    expect(stackFlow_m3_per_s(vents)).toBe(0);
  });
});

describe('a stack of two vents', () => {
  it('agrees with the opening to the neutral level', () => {
    // Equal vents put the neutral level half way: Q = Cd*A*sqrt(2*g*(H/2)*dT/Ti).
    const vents = { low_m2: 0.003, high_m2: 0.003, rise_m: 2.4, inside_K: 303.15, outside_K: 293.15 };
    const toNeutral = 0.6 * 0.003 * Math.sqrt((2 * 9.806_65 * 1.2 * 10) / 303.15);
    expect(stackFlow_m3_per_s(vents)).toBeCloseTo(toNeutral, 12);
  });

  it('is ruled by the smaller vent, whichever it is', () => {
    const vents = { rise_m: 1, inside_K: 303.15, outside_K: 293.15 };
    const flow = stackFlow_m3_per_s({ ...vents, low_m2: 0.001, high_m2: 0.1 });
    expect(flow).toBe(stackFlow_m3_per_s({ ...vents, low_m2: 0.1, high_m2: 0.001 }));
    expect(flow).toBeLessThan(0.6 * 0.001 * Math.sqrt((2 * 9.806_65 * 10) / 303.15));
  });
});
