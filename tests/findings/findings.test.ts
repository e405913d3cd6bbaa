import { describe, expect, it } from 'vitest';
import { demoJobs, type Job, newJob, type Sizing, sizeJob, sizeJobCarefully } from '../../src/index.ts';

function size(job: Job, how = sizeJob): Sizing {
  const result = how(job);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

const changed = (change: (job: Job) => void): Job => {
  const job = structuredClone(newJob());
  change(job);
  return job;
};

const statusOf = (job: Job, id: string) => size(job).findings.find((finding) => finding.id === id)?.status;

/** One change to a plain wall for each check, with the status it must bring. */
const cases: [string, string, (job: Job) => void][] = [
  ['dark-end', 'watch', (job) => (job.strip.data.unitsPerMetre = 3)],
  ['joints', 'watch', (job) => (job.strip.data.reel_mm = 1000)],
  ['longest-run', 'watch', (job) => (job.strip.data.longestRun_mm = 1000)],
  [
    'voltage-drop',
    'fails',
    (job) => {
      Object.assign(job.site, { dropLimit: 0.005 });
      job.cables.data.conductor_ohm_per_km = 200;
    },
  ],
  [
    'light-fall',
    'fails',
    (job) => {
      Object.assign(job.site, { fallLimit: 0.01 });
      job.strip.data.railReturn_mohm_per_m = 1000;
    },
  ],
  ['low-volts', 'watch', (job) => (job.drivers.set_V = 21.5)],
  ['high-volts', 'fails', (job) => (job.drivers.set_V = 25.6)],
  [
    'neighbour-difference',
    'watch',
    (job) => {
      job.strip.entry = '24V-9.6W';
      job.drivers.entry = '24V-320W';
      job.feeds.exceptions = [{ slot: 6, arrangement: 'finish', betweenCount: 1, cutLines: [] }];
      Object.assign(job.strip.data, { railPositive_mohm_per_m: 500, railReturn_mohm_per_m: 500 });
    },
  ],
  ['way-room', 'watch', (job) => (job.cables.wayWidth_mm = 30)],
  ['cable-thickness', 'fails', (job) => (job.cables.data.outer_mm = 23)],
  ['driver-place-reach-1', 'fails', (job) => (job.drivers.places[0]!.reachable = false)],
  ['cable-area', 'watch', (job) => (job.cables.entry = '0.5mm2')],
  ['cable-capacity', 'fails', (job) => Object.assign(job.cables, { entry: 'awg-22', cable_degC: 69.9 })],
  ['cable-fuse', 'fails', (job) => Object.assign(job.cables, { entry: 'awg-22', cable_degC: 69.9 })],
  [
    'far-short',
    'watch',
    (job) => {
      Object.assign(job.cables, { entry: 'awg-22', cable_degC: 69.9 });
      job.drivers.data.current_A = 100;
    },
  ],
  ['driver-fit-1', 'fails', (job) => (job.drivers.places[0]!.depth_mm = 20)],
  ['driver-ambient', 'watch', (job) => (job.drivers.data.fullLoadAmbient_degC = 30)],
  [
    'driver-case',
    'watch',
    (job) =>
      Object.assign(job.drivers.data, { fullLoadAmbient_degC: 30, derating_per_K: 0, caseLimit_degC: 46 }),
  ],
  ['driver-light-load', 'note', (job) => (job.drivers.entry = '24V-320W')],
  ['driver-efficiency', 'watch', (job) => (job.drivers.data.efficiency = 0.8)],
  ['breaker-inrush', 'watch', (job) => Object.assign(job.drivers.data, { perBreakerB16: 1, rated_W: 25 })],
  ['depth', 'fails', (job) => (job.section.available_mm = 30)],
  [
    'heat-solder',
    'fails',
    (job) => {
      Object.assign(job.site, { room_degC: 40 });
      job.strip.data.limit_degC = 40;
    },
  ],
  ['brightness', 'fails', (job) => (job.light.wanted_cd_per_m2 = 4000)],
  ['glare', 'watch', (job) => (job.dimming.levels = [1])],
  ['dots', 'fails', (job) => Object.assign(job.strip.data, { lampsPerMetre: 12, unitsPerMetre: 2 })],
  [
    'bare-lamps',
    'watch',
    (job) => {
      job.section.cover = 'open';
    },
  ],
  ['flicker', 'fails', (job) => (job.dimming.pwm_Hz = 200)],
  ['dimming-floor', 'watch', (job) => Object.assign(job.dimming, { pwm_Hz: 10_000, levels: [0.04] })],
];

describe('every check can say no', () => {
  it.each(cases)('%s: %s', (id, status, change) => {
    expect(statusOf(changed(change), id)).toBe(status);
  });

  it('and on the plain wall none of them does', () => {
    const bad = size(newJob()).findings.filter(({ status }) => status === 'fails' || status === 'watch');
    expect(bad.map((finding) => finding.id)).toEqual([]);
  });
});

describe('depth', () => {
  it.each([
    [41.5, 'passes', 0],
    [41.4, 'fails', -0.1],
  ])('%d mm for 6 + 22 + 12 and a tolerance of 1.5: %s', (available_mm, status, margin) => {
    const answer = size(changed((job) => Object.assign(job.section, { available_mm })));
    const depth = answer.findings.find((finding) => finding.id === 'depth')!;
    expect(depth.status).toBe(status);
    expect(depth.margin).toBeCloseTo(margin, 9);
    expect(answer.section.layers.map((layer) => layer.thickness_mm)).toEqual([6, 22, 12]);
  });
});

describe('places of findings', () => {
  it.each(demoJobs)('$id: name slots, runs, drivers, cables and fields that exist', ({ job }) => {
    const answer = size(job);
    const known = new Set([
      ...answer.setOut.slots.map((slot) => slot.id),
      ...answer.drivers.drivers.map((driver) => driver.id),
      ...answer.cables.map((cable) => cable.id),
    ]);
    for (const { place, id } of answer.findings) {
      for (const name of [place.slot, place.run, place.driver, place.cable]) {
        if (name !== undefined) expect(known.has(name), `${id}: ${name}`).toBe(true);
      }
      if (place.field !== undefined)
        expect(fieldExists(job, place.field), `${id}: ${place.field}`).toBe(true);
    }
  });
});

describe('remedies', () => {
  it.each(cases)('of %s (%s) are sentences that lead to fields there are', (_, __, change) => {
    const job = changed(change);
    for (const { id, remedies } of size(job).findings)
      for (const { sentence, field } of remedies) {
        expect(sentence, id).toMatch(/^[A-Z].*\.$/);
        // A figure of a data sheet has a field whether or not it was entered over the catalogue.
        const path = field?.replace(/\.data\..*/, '.data');
        if (path) expect(fieldExists(job, path), `${id}: ${field}`).toBe(true);
      }
  });
});

/** Whether a dotted path with one-based indices leads to a value of the job. */
function fieldExists(job: Job, path: string): boolean {
  const steps = path.replaceAll(/\[(\d+)\]/g, (_, n: string) => `.${Number(n) - 1}`).split('.');
  const leaf = steps.reduce<unknown>(
    (node, step) => (node as Record<string, unknown> | undefined)?.[step],
    job,
  );
  return leaf !== undefined;
}

describe('the careful answer', () => {
  const quick = size(newJob());
  const careful = size(newJob(), sizeJobCarefully);

  it('says of drop and fall whether they hold in every combination of tolerances', () => {
    for (const id of ['voltage-drop', 'light-fall']) {
      const sentence = careful.findings.find((finding) => finding.id === id)!.sentence;
      expect(sentence).toContain('in every combination of tolerances');
    }
    expect(careful.findings.map((f) => f.id)).toContain('driver-load-worst');
  });

  it('keeps the described figure of every run inside its band, unit by unit', () => {
    for (const run of careful.circuit.runs) {
      const band = run.band!;
      expect(band.drop.least).toBeLessThanOrEqual(run.drop);
      expect(band.drop.greatest).toBeGreaterThanOrEqual(run.drop);
      run.unit_V.forEach((volts, i) => {
        expect(band.unit_V_least[i]!).toBeLessThanOrEqual(volts);
        expect(band.unit_V_greatest[i]!).toBeGreaterThanOrEqual(volts);
        expect(band.unit_light_least[i]!).toBeLessThanOrEqual(run.unit_light[i]!);
        expect(band.unit_light_greatest[i]!).toBeGreaterThanOrEqual(run.unit_light[i]!);
      });
    }
  });

  it('agrees with the quick one on everything but tolerances, to what the confirming mesh moves', () => {
    expect(careful.setOut).toEqual(quick.setOut);
    expect(careful.light).toEqual(quick.light);
    for (const [i, run] of careful.circuit.runs.entries()) {
      const other = quick.circuit.runs[i]!;
      expect(Math.abs(run.strip_degC - other.strip_degC)).toBeLessThan(0.15);
      expect(Math.abs(run.lowest_V - other.lowest_V)).toBeLessThan(1e-3);
    }
    expect(careful.heat.heat_W_per_m / quick.heat.heat_W_per_m).toBeCloseTo(1, 3);
    expect(careful.heat.temperatures.map(({ id }) => id)).toEqual(
      quick.heat.temperatures.map(({ id }) => id),
    );
    for (const [i, row] of careful.heat.temperatures.entries()) {
      const other = quick.heat.temperatures[i]!;
      expect(Math.abs(row.value_degC - other.value_degC), row.id).toBeLessThan(0.15);
      expect(other.high_degC, row.id).toBeGreaterThan(row.high_degC);
      expect(other.low_degC, row.id).toBeLessThan(row.low_degC);
    }
  });

  it('gives every temperature a band that holds it, and a field in balance', () => {
    for (const row of careful.heat.temperatures) {
      expect(row.low_degC).toBeLessThanOrEqual(row.value_degC);
      expect(row.high_degC).toBeGreaterThanOrEqual(row.value_degC);
    }
    expect(Math.abs(careful.heat.balance)).toBeLessThan(1e-3);
    const out = careful.heat.paths.reduce((sum, path) => sum + path.watts_per_m, 0);
    expect(out / careful.heat.heat_W_per_m).toBeCloseTo(1, 3);
  });
});
