import { describe, expect, it } from 'vitest';
import { demoJobs, sizeJobCarefully } from '../../src/index.ts';

describe('the watts that heat is judged by', () => {
  it.each(demoJobs.map((demo) => [demo.id, demo.job] as const))(
    '%s: reach as far as the load band of the same answer, and a little further, because they warm the strip',
    (_, job) => {
      const answer = sizeJobCarefully(job);
      if (!answer.ok) throw new Error(JSON.stringify(answer.issues));
      const { drivers, heat } = answer.value;
      const outputs = drivers.drivers.flatMap((driver) => driver.outputs);
      const above = Math.max(...outputs.map((output) => output.band_W!.greatest / output.watts));
      const below = Math.min(...outputs.map((output) => output.band_W!.least / output.watts));
      const { least, greatest } = heat.stripBand_W_per_m;
      expect(greatest / heat.strip_W_per_m).toBeGreaterThan(above - 0.01);
      expect(greatest / heat.strip_W_per_m).toBeLessThan(1 + 1.3 * (above - 1));
      expect(least / heat.strip_W_per_m).toBeLessThan(below + 0.01);
    },
  );
});
