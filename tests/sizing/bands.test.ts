import { describe, expect, it } from 'vitest';
import {
  demoJobs,
  type Job,
  newJob,
  type Sizing,
  sizeJobCarefully,
  stripCatalogue,
} from '../../src/index.ts';
import { bandedNumbers, outsideBand } from '../fuzz/bands.ts';

function size(job: Job): Sizing {
  const result = sizeJobCarefully(job);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

/** Two colours at unequal levels, by a dimmer that lowers the current: each falls by its own volts. */
function twoColours(levels: [number, number]): Job {
  const job = newJob();
  const strip = stripCatalogue.find((entry) => entry.channels.length === 2 && entry.nominal_V === 24)!;
  job.strip.entry = strip.id;
  job.drivers.entry = '24V-240W';
  job.cables.entry = '0.75mm2';
  Object.assign(job.dimming, { levels, sizeFor: 'levels', pwm_Hz: null });
  return job;
}

const jobs: [string, Job][] = [
  ...demoJobs.map(({ id, job }): [string, Job] => [id, job]),
  ['two colours at unequal levels', twoColours([1, 0.3])],
  ['two colours, one off', twoColours([0, 1])],
];

describe.each(jobs)('%s', (_, job) => {
  it('has every number inside its own band', () => {
    const answer = size(job);
    expect(outsideBand(answer)).toEqual([]);
    expect(bandedNumbers(answer).length).toBeGreaterThan(answer.circuit.runs.length * 3);
  });
});

describe('fall of two colours together', () => {
  it('is that of the light of both, weighed by their lumens, nominal and band alike', () => {
    const [run] = size(twoColours([1, 0.3])).circuit.runs;
    const lumens = stripCatalogue
      .find((entry) => entry.channels.length === 2 && entry.nominal_V === 24)!
      .channels.map((c) => c.lumens_per_m);
    const all = lumens[0]! + 0.3 * lumens[1]!;
    const light = run!.channels[0]!.unit_light.map(
      (one, unit) => (one * lumens[0]! + run!.channels[1]!.unit_light[unit]! * 0.3 * lumens[1]!) / all,
    );
    expect(run!.fall).toBeCloseTo(1 - Math.min(...light) / Math.max(...light), 12);
    expect(run!.band!.fall.least).toBeLessThanOrEqual(run!.fall);
    expect(run!.band!.fall.greatest).toBeGreaterThanOrEqual(run!.fall);
  });
});
