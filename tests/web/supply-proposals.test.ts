import { describe, expect, it } from 'vitest';
import { type Job, newJob } from '../../src/index.ts';
import { apply } from '../../web/state/edit.ts';
import { undo } from '../../web/state/history.ts';
import { isInJob } from '../../web/state/proposals.ts';
import { createStore, emptyState } from '../../web/state/store.ts';
import { driversProposal, layoutRowProposal } from '../../web/state/supply-proposals.ts';

const begun = (job: Job) => createStore({ ...emptyState, draft: { job, entries: {}, parked: {} } });

const row = (entries: readonly string[]) => ({
  ...{ kind: 'mix' as const, name: 'a mix', driverCount: 2, price_cents: null, load: 0.5, input_W: 100 },
  ...{ passes: true, why: null, isProved: true },
  models: entries.map((entry) => ({ entry, control: 'DALI' as const })),
});

describe('drivers applied from a row', () => {
  it('are one step of undo; what the job says of a model already it keeps, others dim as the row says', () => {
    const job = newJob();
    job.drivers.data = { rated_W: 72 };
    job.drivers.stock = 3;
    const store = begun(job);
    apply(store, driversProposal(row(['24V-150W', job.drivers.entry]))!);
    expect(store.get().draft!.job.drivers).toMatchObject({
      ...{ entry: '24V-150W', data: { control: 'DALI' }, stock: null },
      also: [{ entry: job.drivers.entry, data: { rated_W: 72 }, stock: 3 }],
    });
    undo(store);
    expect(store.get().draft!.job).toEqual(job);
  });

  it('are in the job where they are its own', () => {
    const job = newJob();
    expect(isInJob(job, driversProposal(row([job.drivers.entry]))!)).toBe(true);
    expect(isInJob(job, driversProposal(row(['24V-30W']))!)).toBe(false);
  });
});

describe('a layout applied from a row', () => {
  const laid = { layout: 'ring' as const, isJobs: false, cable_m: 10, drop: 0.01, passes: true, why: null };

  it('is that of the wall, or of one zone', () => {
    const job = newJob();
    job.dimming.zones = [
      {
        id: 'Z1',
        name: 'a',
        slots: [1],
        levels: null,
        lowest: null,
        wanted_cd_per_m2: null,
        layout: null,
        way: null,
      },
    ];
    const ofWall = layoutRowProposal({ ...laid, zone: null, zoneName: null }, job)!;
    expect(ofWall.edit(job).cables.layout).toBe('ring');
    const ofZone = layoutRowProposal({ ...laid, zone: 'Z1', zoneName: 'a' }, job)!;
    expect(ofZone.edit(job).dimming.zones[0]!.layout).toBe('ring');
    expect([ofZone.what, ofZone.fields]).toEqual([
      expect.stringContaining('in zone a'),
      ['dimming.zones[1].layout'],
    ]);
    const same = layoutRowProposal({ ...laid, layout: 'radial', zone: 'Z1', zoneName: 'a' }, job)!;
    expect(isInJob(job, same)).toBe(true);
  });
});
