import { describe, expect, it } from 'vitest';
import { demoJobs, type Job, newJob, type Sizing, sizeJob, sizeJobCarefully } from '../../src/index.ts';

function size(job: Job, how = sizeJob): Sizing {
  const result = how(job);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

const changed = (change: (job: Job) => void, from = newJob()): Job => {
  const job = structuredClone(from);
  change(job);
  return job;
};

const found = (sizing: Sizing, id: string) => sizing.findings.find((finding) => finding.id === id)!;
const advice = (sizing: Sizing): string[] =>
  sizing.findings.flatMap(({ remedies }) => remedies.map(({ sentence }) => sentence));

const foyer = demoJobs.find(({ id }) => id === 'foyer-wall')!.job;
const careful = size(foyer, sizeJobCarefully);

describe('one limit for each temperature', () => {
  it.each(demoJobs)('is the same in the temperatures and in the finding: $id', ({ job }) => {
    const sizing = size(job, sizeJobCarefully);
    for (const { id, limit_degC, limits } of sizing.heat.temperatures) {
      expect(limits[0]?.limit_degC ?? null).toBe(limit_degC);
      if (limit_degC !== null) expect(found(sizing, `heat-${id}`).limit).toBe(limit_degC);
    }
  });

  // Timber is tabled with 60, 77 and 90; the warm end of the foyer's is above the first that says no.
  it('names the one that decides, and the others in the sentence', () => {
    const timber = found(careful, 'heat-timber');
    expect(timber.value).toBeGreaterThan(77);
    expect(timber.limit).toBe(77);
    expect(timber.sentence).toContain('the limit is 77 °C. Of the other limits here 60 °C');
  });
});

describe('a worst combination over the limit fails', () => {
  it('with the figure that is over beside the limit, not the nominal one that is not', () => {
    // A limit between what the worst run drops as described and what it may drop over the tolerances.
    const worst = careful.circuit.runs.reduce((a, b) => (b.drop > a.drop ? b : a));
    const limit = (worst.drop + worst.band!.drop.greatest) / 2;
    const between = size({ ...foyer, site: { ...foyer.site, dropLimit: limit } }, sizeJobCarefully);
    const drop = found(between, 'voltage-drop');
    const run = between.circuit.runs.find(({ run }) => run === drop.place.run)!;
    expect(run.drop).toBeLessThan(limit);
    expect(run.band!.drop.greatest).toBeGreaterThan(limit);
    expect(drop).toMatchObject({ status: 'fails', value: run.band!.drop.greatest, limit });
    expect(drop.margin).toBeCloseTo(limit - run.band!.drop.greatest, 12);
  });

  it.each(demoJobs)('and nothing that fails has room left: $id', ({ job }) => {
    for (const { status, margin, id } of size(job, sizeJobCarefully).findings)
      if (status === 'fails' && margin !== null) expect(margin, id).toBeLessThan(0);
  });
});

describe('advice', () => {
  it.each([...demoJobs, { id: 'plain', job: newJob() }])('is given once: $id', ({ job }) => {
    const cooling = advice(size(job, sizeJobCarefully)).filter((s) => /aluminium flat|per metre: /.test(s));
    expect(new Set(cooling).size).toBe(cooling.length);
  });

  it('puts fewer watts of strip first, then a carrier, and a limit on the dimmer last', () => {
    const list = found(careful, 'heat-solder').remedies.map(({ field }) => field);
    expect(list[0]).toBe('strip.entry');
    expect(list[1]).toBe('section.carrier');
    expect(list.at(-1)).toBe('dimming.sizeFor');
    expect(found(careful, 'heat-timber').sentence).toContain('“Strip at the solder point”');
  });

  it('does not ask for the carrier the strip is on, nor for a wider one than the bay', () => {
    const on = (carrierWidth_mm: number) =>
      advice(
        size(
          changed((job) => {
            Object.assign(job.section, { carrier: 'flat aluminium', carrierWidth_mm });
            job.strip.data.limit_degC = 40;
            job.site.room_degC = 40;
          }),
        ),
      );
    // Slots 200 mm apart with battens of 60 mm leave a bay of 140 mm.
    expect(on(30)).toContain('Take a wider aluminium flat: it is 30 mm wide in a bay of 140 mm.');
    expect(on(135).filter((sentence) => /aluminium flat/.test(sentence))).toEqual([]);
  });

  it('proposes a smaller driver only where the fullest one fits it', () => {
    // One driver of 320 W for a wall of twelve slots: a smaller one carries it.
    const large = found(size(changed((job) => (job.drivers.entry = '24V-320W'))), 'driver-light-load');
    expect(large.remedies[0]!.sentence).toMatch(/^Take one of \d+ W, such as 24 V \d+ W driver/);
  });

  it('leads to the place for drivers it is about', () => {
    const job = changed((each) => {
      each.drivers.places[0]!.name = 'Left riser';
      each.drivers.places.push({ ...each.drivers.places[0]!, name: 'Right riser', depth_mm: 20 });
      each.drivers.places[0]!.depth_mm = 20;
    });
    const [left, right] = ['driver-fit-1', 'driver-fit-2'].map((id) => found(size(job), id));
    expect(left!.place.field).toBe('drivers.places[1].depth_mm');
    expect(right!.place.field).toBe('drivers.places[2].depth_mm');
  });

  it('leads from heat, load, drop and fall to what changes them', () => {
    const fields = Object.fromEntries(careful.findings.map(({ id, place }) => [id, place.field]));
    expect(fields).toMatchObject({
      'heat-solder': 'strip.entry',
      'driver-load': 'drivers.entry',
      'voltage-drop': 'feeds.arrangement',
      'light-fall': 'feeds.arrangement',
    });
  });
});

describe('figures from which the verdict can be read', () => {
  const depth = (available_mm: number) =>
    found(size(changed((job) => Object.assign(job.section, { available_mm }))), 'depth').sentence;

  it('shows half millimetres: 6 + 22 + 12 with a tolerance of 1.5 in 40 mm', () => {
    expect(depth(40)).toBe(
      '40 mm are available; 40 mm are used, 41.5 mm with the tolerance. Take 1.5 mm off.',
    );
  });

  it('adds decimals where two figures would look alike: 41.46 against 41.5', () => {
    expect(depth(41.46)).toContain('41.46 mm are available; 40 mm are used, 41.50 mm with the tolerance');
  });

  it('says of a life that is capped that it is at least that', () => {
    expect(found(size(newJob()), 'driver-case').sentence).toContain('it comes to at least twice what');
  });
});

describe('where a figure comes from', () => {
  it('is the maker only where it was entered', () => {
    const typical = found(size(newJob()), 'driver-current');
    expect(typical.basis).toContain('typical of the trade');
    const entered = found(size(changed((job) => (job.drivers.data.current_A = 3))), 'driver-current');
    expect(entered.basis).toBe("the driver maker's data sheet, as entered");
    expect(found(size(newJob()), 'heat-solder').basis).toContain('typical of strip');
    const rated = found(size(changed((job) => (job.strip.data.limit_degC = 75))), 'heat-solder');
    expect(rated.basis).toBe("the strip maker's data sheet, as entered (secondary)");
  });
});
