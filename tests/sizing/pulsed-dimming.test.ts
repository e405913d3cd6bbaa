import { describe, expect, it } from 'vitest';
import { askJobHeat, demoJobs, type Job, type Sizing, sizeJob } from '../../src/index.ts';

function size(job: Job): Sizing {
  const result = sizeJob(job);
  if (!result.ok) throw new Error(JSON.stringify(result.issues));
  return result.value;
}

/** A wall of sixty slots with 14.4 W/m, on 2.5 mm2, whose heat does not pass fully on. */
function wall(change: Partial<Job['dimming']>): Job {
  const { job } = demoJobs.find(({ id }) => id === 'foyer-wall')!;
  return {
    ...job,
    cables: { ...job.cables, entry: '2.5mm2' },
    dimming: { ...job.dimming, levels: [0.15], pwm_Hz: 4000, ...change },
  };
}

const full = size(wall({ sizeFor: 'all on' }));
const pulsed = size(wall({ sizeFor: 'levels' }));
const steady = size(wall({ sizeFor: 'levels', pwm_Hz: null }));

const outputs = ({ drivers }: Sizing) => drivers.drivers.flatMap((driver) => driver.outputs);
const worstDrop = ({ circuit }: Sizing): number => Math.max(...circuit.runs.map((run) => run.drop));

describe('a wall limited to 15 % by a dimmer that switches', () => {
  it('drops, falls and draws as it does fully on, because every pulse draws full current', () => {
    // 2.6 % fully on, and in every pulse; taken as 15 % of the current it came out as 0.3 %.
    expect(worstDrop(full)).toBeCloseTo(0.026, 3);
    expect(worstDrop(pulsed)).toBe(worstDrop(full));
    expect(pulsed.circuit.runs).toEqual(full.circuit.runs);
    expect(pulsed.cables).toEqual(full.cables);
    expect(pulsed.circuit.supply_W).toBe(full.circuit.supply_W);
  });

  it('has the drivers, the fuses and the test readings of the pulse', () => {
    expect(pulsed.drivers.drivers).toHaveLength(15);
    expect(outputs(pulsed)).toEqual(outputs(full));
    for (const id of ['cables', 'protection', 'feed-points'] as const) {
      const rowsOf = (sizing: Sizing) => sizing.schedules.find((schedule) => schedule.id === id)!.rows;
      expect(rowsOf(pulsed)).toEqual(rowsOf(full));
    }
    expect(pulsed.circuit.level).toBe('full');
  });

  it('has the average watts in its heat, its energy and its driver places: the level times those fully on', () => {
    expect(pulsed.heat.strip_W_per_m).toBeCloseTo(0.15 * full.heat.strip_W_per_m, 9);
    expect(pulsed.heat.heat_W_per_m).toBeCloseTo(0.15 * full.heat.heat_W_per_m, 9);
    expect(pulsed.circuit.average_W).toBeCloseTo(0.15 * full.circuit.supply_W, 9);
    // 240 W drivers of 0.92: each loses (1/0.92 - 1) of what it delivers, on average.
    for (const [i, driver] of pulsed.drivers.drivers.entries()) {
      const fullOn = full.drivers.drivers[i]!;
      expect(driver.average_W).toBeCloseTo(0.15 * fullOn.watts, 9);
      expect(driver.loss_W).toBeCloseTo((1 / 0.92 - 1) * 0.15 * fullOn.watts, 9);
      expect(driver.input_W).toBe(fullOn.input_W);
      expect(driver.ambient_degC).toBeLessThan(fullOn.ambient_degC);
    }
    expect(full.circuit.average_W).toBe(full.circuit.supply_W);
  });

  it('is asked for heat with the same average watts', () => {
    const asked = askJobHeat(wall({ sizeFor: 'levels' }));
    if (!asked.ok) throw new Error('refused');
    const own = asked.value.byPower.map((row) => row.strip_W_per_m);
    expect(own.some((watts) => Math.abs(watts - pulsed.heat.strip_W_per_m) < 1e-9)).toBe(true);
  });
});

describe('a wall limited to 15 % by a dimmer that lowers the current steadily', () => {
  it('has everything at the level: current, drop and drivers as a strip of so few watts', () => {
    expect(steady.circuit.level).toBe('working');
    expect(worstDrop(steady)).toBeLessThan(0.16 * worstDrop(full));
    expect(steady.drivers.drivers.length).toBeLessThan(4);
    expect(steady.circuit.average_W).toBe(steady.circuit.supply_W);
  });
});

describe('several channels that are switched', () => {
  it('weigh their average by their watts: 0.3 of one and 0.1 of another alike make 0.2', () => {
    const base = wall({ levels: [0.3, 0.1], sizeFor: 'levels' });
    const two = { ...base, strip: { ...base.strip, entry: '24V-2x9.6W-two-white' } };
    const sized = size(two);
    expect(sized.circuit.average_W).toBeCloseTo(0.2 * sized.circuit.supply_W, 9);
  });
});
