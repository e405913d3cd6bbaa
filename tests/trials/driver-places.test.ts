import { describe, expect, it } from 'vitest';
import { demoJobs, type Job, newJob, sizeJob } from '../../src/index.ts';

type Place = Job['drivers']['places'][number];

function jobWith(places: Partial<Place>[], change: Partial<Job> = {}): Job {
  const job = { ...newJob(), ...change };
  const base = job.drivers.places[0]!;
  return { ...job, drivers: { ...job.drivers, places: places.map((place) => ({ ...base, ...place })) } };
}

const box = { x_mm: 200, y_mm: -600, width_mm: 900, height_mm: 400, depth_mm: 150 } as const;

describe('vents larger than the face they are in', () => {
  it('are refused, with the field and the largest there is room for', () => {
    const outcome = sizeJob(jobWith([{ ...box }, { ...box, name: 'Low', ventOpening_mm2: 1e6 }]));
    // Half the front, 900 × 400 / 2 = 180,000 mm², is more than the bottom, 900 × 150, and half a side.
    expect(outcome.ok ? [] : outcome.issues).toMatchObject([
      {
        code: 'vent-larger-than-place',
        place: { field: 'drivers.places[2].ventOpening_mm2' },
        quantities: { ventOpening_mm2: 1e6, largest_mm2: 180_000 },
      },
    ]);
  });

  it('are taken up to that size, and not asked after where there is no vent', () => {
    expect(sizeJob(jobWith([{ ...box, ventOpening_mm2: 180_000 }])).ok).toBe(true);
    expect(sizeJob(jobWith([{ ...box, vented: false, ventOpening_mm2: 1e6 }])).ok).toBe(true);
  });
});

describe('a small closed pocket', () => {
  const tiny = {
    name: 'Pocket',
    x_mm: 200,
    y_mm: -60,
    width_mm: 20,
    height_mm: 20,
    depth_mm: 10,
    vented: false,
  };

  it('refuses itself by name, with what to do, and not as a number of watts', () => {
    const outcome = sizeJob(jobWith([tiny]));
    if (outcome.ok) throw new Error('no refusal');
    expect(outcome.issues).toMatchObject([
      { code: 'driver-place-too-warm', place: { field: 'drivers.places[1].vented' } },
    ]);
    expect(outcome.issues[0]!.sentence).toContain('Pocket');
    expect(outcome.issues[0]!.sentence).toContain('Vent it low and high');
  });

  it('does not refuse the job where another place is cool enough', () => {
    const outcome = sizeJob(jobWith([tiny, { ...box, name: 'Cupboard' }]));
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
    for (const { place } of outcome.value.drivers.drivers) expect(place).toBe('Cupboard');
  });
});

describe('a driver place inside the panel', () => {
  const findings = (job: Job) => {
    const outcome = sizeJob(job);
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
    return outcome.value.findings.filter(({ id }) => id.startsWith('driver-place-'));
  };

  it('is asked after where it is deeper than the build-up, and fails where it lies behind slots', () => {
    // Build-up 6 + 22 + 12 = 40 mm. Slots stand at x = 200, 400, 600 ... mm from y = 100 up: a place from 200 to 1,100 mm
    // takes in five, the first by its right half.
    const old = { x_mm: 200, y_mm: 30, width_mm: 900, height_mm: 120, depth_mm: 90 };
    expect(findings(jobWith([old]))).toMatchObject([
      { id: 'driver-place-slots-1', status: 'fails', place: { field: 'drivers.places[1].y_mm' }, value: 5 },
      { id: 'driver-place-depth-1', status: 'watch', value: 90, limit: 40, margin: -50 },
    ]);
    expect(findings(jobWith([{ ...old, height_mm: 60, depth_mm: 40 }]))).toEqual([]);
  });

  it('is not where a new job begins, nor in any demo', () => {
    for (const job of [newJob(), ...demoJobs.map((demo) => demo.job)]) expect(findings(job)).toEqual([]);
  });
});
