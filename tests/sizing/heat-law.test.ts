import { describe, expect, it } from 'vitest';
import { solveSectionField } from '../../src/heat/section-field.ts';
import { risesOf } from '../../src/heat/section-response.ts';
import { demoJobs, type Job, newJob, sizeAt } from '../../src/index.ts';
import type { Outcome } from '../../src/outcome.ts';
import { bandOf, riseOf, stripTemperature_degC } from '../../src/sizing/heat-law.ts';
import { lampRise_K, loadsOfStrip } from '../../src/sizing/heat-loads.ts';
import { nominal_W_per_m } from '../../src/sizing/light-of-job.ts';
import { prepare } from '../../src/sizing/prepare.ts';

function granted<Value>(outcome: Outcome<Value>): Value {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

const jobs: [string, Job][] = [
  ['plain wall', newJob()],
  ...demoJobs.map((demo): [string, Job] => [demo.id, demo.job]),
];

describe.each(jobs)('the heat law of %s', (_, job) => {
  const { section, products, light, law } = granted(prepare(job, 'careful'));
  const { strip } = products;

  /** The field itself at watts per metre, confirmed. */
  const fieldAt = (watts_per_m: number) => {
    const loads = loadsOfStrip(watts_per_m, strip, light);
    return granted(solveSectionField(section, loads, { lampRise_K: lampRise_K(strip, loads) }));
  };

  it('is the field at nominal watts, and within 0.1 K of it from half to one and a half times nominal', () => {
    for (const share of [0.5, 0.8, 1, 1.2, 1.5]) {
      const watts_per_m = share * nominal_W_per_m(strip);
      const rises = risesOf(fieldAt(watts_per_m), section.room_K);
      for (const reading of ['strip', 'solderPoint', 'timber', 'roomFace', 'cable'] as const) {
        const off_K = Math.abs(riseOf(law, reading, watts_per_m)! - rises[reading]!);
        expect(off_K, `${reading} at ${share}`).toBeLessThan(share === 1 ? 1e-9 : 0.1);
      }
    }
  });

  it('warms every run of the circuit: what stands in the answer is what the field gives at its watts', () => {
    const answer = granted(sizeAt(job, 'careful'));
    for (const run of [answer.circuit.runs[0]!, answer.circuit.runs.at(-1)!]) {
      const { strip_mm } = answer.setOut.runs.find(({ id }) => id === run.run)!;
      const watts_per_m = run.watts / (strip_mm / 1000);
      expect(run.strip_degC).toBeCloseTo(stripTemperature_degC(law, watts_per_m), 2);
      const peak_K = fieldAt(watts_per_m).temperatures.strip.peak.temperature_K;
      expect(Math.abs(run.strip_degC - (peak_K - 273.15))).toBeLessThan(0.1);
    }
  });

  it('agrees with the tape of the same answer: no run is warmer, and the warmest less only by its fewer watts', () => {
    const { circuit, heat } = granted(sizeAt(job, 'careful'));
    const tape = heat.temperatures.find(({ id }) => id === 'tape')!;
    const middle_degC = tape.value_degC - heat.upperEnd_K;
    for (const run of circuit.runs) expect(run.strip_degC).toBeLessThan(middle_degC + 0.1);
    expect(stripTemperature_degC(law, heat.strip_W_per_m)).toBeCloseTo(middle_degC, 1);
  });
});

describe('the band of a reading', () => {
  const { law } = granted(prepare(newJob(), 'careful'));
  const at = (least: number, greatest: number) => {
    const rise_K = riseOf(law, 'tape', 2.4)!;
    return {
      rise_K,
      band: bandOf(law, 'tape', { rise_K, watts_per_m: 2.4, ends_W_per_m: { least, greatest } }),
    };
  };

  it('holds the reading, and takes in the watts at both ends', () => {
    const { rise_K, band } = at(2.4, 2.4);
    expect(band.least).toBeLessThan(rise_K);
    expect(band.greatest).toBeGreaterThan(rise_K);
    const wide = at(2, 3).band;
    // Watts over by a quarter raise the strip by a little less than a quarter.
    expect(wide.greatest / band.greatest).toBeGreaterThan(1.2);
    expect(wide.greatest / band.greatest).toBeLessThan(1.25);
    expect(wide.least).toBeLessThan(band.least);
  });

  it('is wider without the confirming mesh', () => {
    const quick = granted(prepare(newJob(), 'quick')).law;
    const rise_K = riseOf(quick, 'tape', 2.4)!;
    const ends_W_per_m = { least: 2.4, greatest: 2.4 };
    expect(bandOf(quick, 'tape', { rise_K, watts_per_m: 2.4, ends_W_per_m }).greatest).toBeGreaterThan(
      at(2.4, 2.4).band.greatest + 0.15,
    );
  });
});
