import { describe, expect, it } from 'vitest';
import { newJob } from '../../src/job/new-job.ts';
import { loadsOfStrip } from '../../src/sizing/heat-loads.ts';
import { prepare } from '../../src/sizing/prepare.ts';

function prepared() {
  const result = prepare(newJob(), 'quick');
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

describe('loads of the strip', () => {
  it('loses no watt: heat of the strip, light kept and light let out are what goes in', () => {
    const { products, light } = prepared();
    const loads = loadsOfStrip(2.4, products.strip, light);
    const kept = Object.values(loads.facesAbsorbed_W_per_m!).reduce((sum, watts) => sum + watts, 0);
    const optical = 2.4 - loads.strip_W_per_m;
    expect(optical).toBeCloseTo((250 / 2.4 / 315) * 2.4, 9);
    expect(kept + optical * light.outFraction).toBeCloseTo(optical, 6);
  });
});
