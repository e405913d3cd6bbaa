import { describe, expect, it } from 'vitest';
import { freezing_K } from '../../src/constants.ts';
import { solveHandSection } from '../../src/heat/hand-method.ts';
import { newJob } from '../../src/job/new-job.ts';
import { loadsOfStrip } from '../../src/sizing/heat-loads.ts';
import { prepare } from '../../src/sizing/prepare.ts';

function prepared() {
  const result = prepare(newJob());
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

describe('warmth of the strip', () => {
  it('by straight lines is within 0.1 K of the hand method from half to one and a half times nominal', () => {
    const { section, products, light, stripWarmth } = prepared();
    for (let watts_per_m = 1.2; watts_per_m <= 3.6; watts_per_m += 0.1) {
      const hand = solveHandSection(section, loadsOfStrip(watts_per_m, products.strip, light));
      if (!hand.ok) throw new Error('refused');
      expect(Math.abs(stripWarmth(watts_per_m) - (hand.value.strip_K - freezing_K))).toBeLessThan(0.1);
    }
  });

  it('loses no watt: heat of the strip, light kept and light let out are what goes in', () => {
    const { products, light } = prepared();
    const loads = loadsOfStrip(2.4, products.strip, light);
    const kept = Object.values(loads.facesAbsorbed_W_per_m!).reduce((sum, watts) => sum + watts, 0);
    const optical = 2.4 - loads.strip_W_per_m;
    expect(optical).toBeCloseTo((250 / 2.4 / 315) * 2.4, 9);
    expect(kept + optical * light.outFraction).toBeCloseTo(optical, 6);
  });
});
