import { describe, expect, it } from 'vitest';
import {
  coolLaw,
  current_A,
  nominalCurrent_A,
  relativeLight,
  thermalLight,
} from '../../src/circuit/strip-law.ts';
import { newJob, sizeJob } from '../../src/index.ts';

describe('a hot strip that was credited with more light', () => {
  it('loses 8 to 15 % at 85 °C, as life test reports have it (from memory), and gains nothing cold', () => {
    expect(thermalLight(85)).toBeGreaterThanOrEqual(0.85);
    expect(thermalLight(85)).toBeLessThanOrEqual(0.92);
    expect(thermalLight(25)).toBe(1);
    expect(thermalLight(5)).toBe(1);
  });

  it('gives no more than a cool one at the same volts, less what its warmth costs, in every unit of a wall', () => {
    const job = { ...newJob(), strip: { ...newJob().strip, entry: '24V-9.6W' } };
    job.drivers = {
      ...job.drivers,
      entry: '24V-240W',
      places: [{ ...job.drivers.places[0]!, depth_mm: 400, height_mm: 900 }],
    };
    const outcome = sizeJob(job);
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
    const { circuit, products } = outcome.value;
    const [channel] = products.strip.channels;
    const law = {
      kind: 'resistor',
      nominal_V: products.strip.nominal_V,
      unit_W: channel!.watts_per_m / products.strip.unitsPerMetre,
      lampsInSeries: channel!.lampsInSeries,
      lampForward_V: channel!.lampForward_V,
      slope_V: 0.075,
    } as const;
    const cool = coolLaw(law);
    for (const run of circuit.runs)
      run.unit_V.forEach((unit_V, i) => {
        const share = current_A(cool, unit_V) / nominalCurrent_A(law);
        expect(run.unit_light[i]).toBeLessThan(relativeLight(share));
        // Warm, but not beyond what a strip may be: 25 to 120 °C cost 0 to 19 %.
        expect(run.unit_light[i]! / relativeLight(share)).toBeGreaterThan(0.81);
      });
  });
});
