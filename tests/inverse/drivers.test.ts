import { describe, expect, it } from 'vitest';
import {
  askedDrivers,
  askJobDrivers,
  demoJobs,
  type Job,
  newJob,
  type Outcome,
  sizeJob,
} from '../../src/index.ts';
import { driversProposal } from '../../web/state/supply-proposals.ts';

function granted<Value>(outcome: Outcome<Value>): Value {
  if (!outcome.ok) throw new Error(outcome.issues.map(({ sentence }) => sentence).join(' '));
  return outcome.value;
}

/** Twelve slots of 2.2 m at 4.8 W/m, nominally 10.56 W each, with two further models and invented prices. */
function wall(): Job {
  const job = newJob();
  job.strip.entry = '24V-4.8W';
  job.drivers.entry = '24V-60W';
  job.drivers.also = [{ entry: '24V-100W', data: {}, stock: 1 }];
  job.prices = structuredClone(demoJobs[0]!.job.prices);
  return job;
}

describe('which drivers', () => {
  const job = wall();
  const { rows } = granted(askJobDrivers(job));

  it('keeps its shape, for the demo with one place as well', () => {
    const asked = askJobDrivers(demoJobs[0]!.job);
    expect(askedDrivers.safeParse(granted(asked)).error?.issues).toBeUndefined();
  });

  it('asks for the job as it is, each of its models and each other of the list at its volts', () => {
    // Eleven sizes at 24 V: the job's two and nine more.
    expect(rows.map(({ kind }) => kind)).toEqual(['as it is', ...Array(11).fill('one model')]);
    const alone = rows.filter(({ kind }) => kind === 'one model').map(({ models }) => models[0]!.entry);
    expect(new Set(alone).size).toBe(11);
    expect(alone.every((entry) => entry.startsWith('24V-'))).toBe(true);
  });

  it('says of each what the job sized with it says', () => {
    for (const row of rows) {
      const proposal = driversProposal(row);
      if (!proposal) continue;
      const { drivers, findings } = granted(sizeJob(proposal.edit(job)));
      expect([row.driverCount, row.price_cents]).toEqual([
        drivers.drivers.length,
        drivers.sharing.price_cents,
      ]);
      expect(row.input_W).toBeCloseTo(drivers.input_W, 6);
      const before = new Set(
        granted(sizeJob(job))
          .findings.filter(({ status }) => status === 'fails')
          .map(({ id }) => id),
      );
      const fails = findings.some(
        ({ id, question, status }) => status === 'fails' && (question === 'drivers' || !before.has(id)),
      );
      expect([row.passes, row.why === null]).toEqual([!fails, !fails]);
    }
  });

  it('by hand: a driver of 15 W gives 12, enough for each run by itself, so that it takes twelve', () => {
    const small = rows.find(({ models }) => models.length === 1 && models[0]!.entry === '24V-15W')!;
    const slots = granted(sizeJob(job)).setOut.runs.length;
    expect(small.driverCount).toBe(slots);
    // 9.00 and 0.21 a watt: 12.15, in whole tens of cents 12.20.
    expect(small.price_cents).toBe(slots * 1220);
  });

  it('mixes at no more than what any model alone costs, and gives only what it takes', () => {
    // 26 runs of 10.56 W: 200 W give 160, enough for fifteen, 150 W give 120, enough for eleven; 51.00 and 40.50 are 91.50.
    const wide = { ...wall(), panel: { width_mm: 5400, height_mm: 2400 } };
    const asked = granted(askJobDrivers(wide)).rows;
    const mix = asked.at(-1)!;
    expect(mix).toMatchObject({
      ...{ kind: 'mix', name: '1 × 24 V 150 W driver and 1 × 24 V 200 W driver' },
      ...{ driverCount: 2, price_cents: 9150 },
    });
    expect(mix.price_cents).toBe(Math.min(...asked.flatMap(({ price_cents }) => price_cents ?? [])));
    expect(mix.models.map(({ entry }) => entry).toSorted()).toEqual(['24V-150W', '24V-200W']);
    const applied = granted(sizeJob(driversProposal(mix)!.edit(wide)));
    expect(applied.drivers.sharing.price_cents).toBe(9150);
  });

  it('lists no mix that takes one model alone, or only those of the job', () => {
    // The window seat takes 14 W of its one driver of 20 W, the cheapest that carries them: a mix is that driver again.
    const seat = granted(askJobDrivers(demoJobs[0]!.job)).rows;
    expect(seat[0]).toMatchObject({ name: '1 × 12 V 20 W driver', driverCount: 1 });
    expect(seat.filter(({ name }) => name === '1 × 12 V 20 W driver')).toHaveLength(1);
    expect(seat.filter(({ kind }) => kind === 'mix')).toEqual([]);
  });

  it('does not pass a driver that gives more than a cable may carry, where that fails only with it', () => {
    const thin = newJob();
    thin.cables.entry = '0.5mm2';
    thin.drivers.entry = '24V-30W';
    thin.drivers.places[0]!.reachable = false;
    const own = granted(sizeJob(thin)).findings.filter(({ status }) => status === 'fails');
    const rowsOf = granted(askJobDrivers(thin)).rows;
    for (const row of rowsOf) {
      const proposal = driversProposal(row);
      if (!proposal) continue;
      const more = granted(sizeJob(proposal.edit(thin))).findings.filter(
        ({ id, status }) => status === 'fails' && !own.some((each) => each.id === id),
      );
      if (more.length > 0) expect(row.passes).toBe(false);
    }
    // Without a place for fuses, 320 W of a driver are more than 0.5 mm² may carry.
    expect(rowsOf.find(({ models }) => models[0]!.entry === '24V-320W')!.passes).toBe(false);
  });

  it('says why a model that cannot carry a run is none', () => {
    const heavy = wall();
    heavy.strip.entry = '24V-14.4W';
    const row = granted(askJobDrivers(heavy)).rows.find(({ models }) => models[0]!.entry === '24V-15W')!;
    expect(row).toMatchObject({ driverCount: null, price_cents: null, passes: false });
    expect(row.why).toMatch(/^Run S01 needs .* W, and one output of the 24 V 15 W driver may carry 12\.0 W/);
    expect(driversProposal(row)).toBeUndefined();
  });
});
