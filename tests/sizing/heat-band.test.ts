import { describe, expect, it } from 'vitest';
import { demoJobs, type Job, newJob, type Sizing, sizeAt } from '../../src/index.ts';

function size(job: Job, accuracy: Sizing['accuracy'] = 'quick'): Sizing {
  const outcome = sizeAt(job, accuracy);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

const changed = (change: (job: Job) => void): Job => {
  const job = structuredClone(newJob());
  change(job);
  return job;
};

const place = (sizing: Sizing, id: string) => sizing.heat.temperatures.find((row) => row.id === id)!;

describe('the band of a temperature', () => {
  it.each(
    demoJobs.flatMap(({ id, job }) => (['quick', 'careful'] as const).map((a) => [id, a, job] as const)),
  )('%s, %s: holds the value, and the finding is judged by its warm end', (_, accuracy, job) => {
    const answer = size(job, accuracy);
    for (const row of answer.heat.temperatures) {
      expect(row.low_degC).toBeLessThanOrEqual(row.value_degC);
      expect(row.high_degC).toBeGreaterThanOrEqual(row.value_degC);
      const finding = answer.findings.find(({ id }) => id === `heat-${row.id}`);
      // Where the section model does not hold, a finding has no figure to be judged by.
      if (finding) expect(finding.value).toBe(answer.heat.unknown === null ? row.high_degC : null);
    }
    const { least, greatest } = answer.heat.stripBand_W_per_m;
    expect(least).toBeLessThanOrEqual(answer.heat.strip_W_per_m);
    expect(greatest).toBeGreaterThanOrEqual(answer.heat.strip_W_per_m);
  });

  it('takes in what a strip draws from a driver at the top of its tolerance', () => {
    // The same strip and section; a driver that may give 3 % more volts warms it more at the warm end only.
    const withTolerance = (tolerance: number) =>
      size(
        changed((job) => {
          job.drivers.data = { ...size(job).products.driver, tolerance };
        }),
      );
    const [tight, loose] = [withTolerance(0), withTolerance(0.05)];
    expect(place(loose, 'tape').value_degC).toBeCloseTo(place(tight, 'tape').value_degC, 6);
    expect(loose.heat.stripBand_W_per_m.greatest).toBeGreaterThan(
      1.05 * tight.heat.stripBand_W_per_m.greatest,
    );
    expect(place(loose, 'tape').high_degC).toBeGreaterThan(place(tight, 'tape').high_degC + 0.5);
  });

  it('takes in plywood as light as the entry leaves open: as warm as boards of that conductivity', () => {
    const boards = (material: Job['section']['front']['material']) =>
      size(
        changed((job) => {
          job.section.front.material = material;
          job.section.backing.material = material;
        }),
      );
    // Oak is told to 15 %; birch plywood has the same 0.17 W/(m K) and goes down to 0.10.
    const [oak, plywood] = [boards('oak'), boards('birch plywood')];
    expect(place(plywood, 'tape').value_degC).toBeCloseTo(place(oak, 'tape').value_degC, 6);
    const rise_K = place(oak, 'tape').value_degC - 25;
    expect(place(plywood, 'tape').high_degC - place(oak, 'tape').high_degC).toBeGreaterThan(0.05 * rise_K);
  });

  it('is the same for the same job, whatever was asked before', () => {
    const first = size(newJob());
    const { section } = newJob();
    for (const cavity_mm of [20, 24, 31]) size({ ...newJob(), section: { ...section, cavity_mm } });
    expect(size(newJob())).toEqual(first);
  });
});
