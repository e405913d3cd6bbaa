import { describe, expect, it } from 'vitest';
import type { Job } from '../../../src/job/job.ts';
import { settle } from '../../../src/sizing/settle.ts';
import { standby_W } from '../../../src/sizing/standby-answer.ts';
import { granted } from './granted.ts';
import { preparedOf, wallOf } from './small-wall.ts';

/** Drivers of 20 W for slots of 1,000 mm, each as many as the strip takes, 0.4 W each with nothing lit. */
function standbyOf(count: number, change: (job: Job) => void): { drivers: number; watts: number | null } {
  const xs_mm = Array.from({ length: count }, (_, i) => 300 + 150 * i);
  const prepared = preparedOf(
    wallOf(xs_mm, (job) => {
      job.drivers.entry = '24V-20W';
      job.drivers.data = { standby_W: 0.4, efficiency: 0.8, control: 'DALI' };
      change(job);
    }),
  );
  const { allocation } = granted(settle(prepared));
  const { job, products } = prepared;
  return { drivers: allocation.drivers.length, watts: standby_W(job, products, allocation) };
}

describe('what a dark wall takes from the mains', () => {
  it('is 0.4 W of each driver that dims itself', () => {
    const { drivers, watts } = standbyOf(8, ({ dimming }) => {
      dimming.control = 'driver';
    });
    expect(drivers).toBeGreaterThan(1);
    expect(watts).toBeCloseTo(0.4 * drivers, 12);
  });

  it('is 0.4 W of each driver and 0.3 W of its dimmer at its efficiency of 0.8, 0.375 W', () => {
    const { drivers, watts } = standbyOf(8, ({ dimming }) => {
      dimming.control = 'dimmer';
      dimming.dimmer = { entry: '1x5A-push-button', data: { standby_W: 0.3 } };
    });
    expect(watts).toBeCloseTo(0.775 * drivers, 12);
  });

  it.each(['none', 'driver'] as const)('is none where the mains go off with the light: %s', (control) => {
    const { watts } = standbyOf(2, ({ dimming, drivers }) => {
      dimming.control = control;
      drivers.data.control = 'mains phase';
    });
    expect(watts).toBeNull();
  });
});
