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
    // Taken as 15 % of the current the drop came out at an eighth of this.
    expect(worstDrop(full)).toBeGreaterThan(0.026);
    expect(worstDrop(pulsed)).toBe(worstDrop(full));
    expect(pulsed.circuit.runs).toEqual(full.circuit.runs);
    expect(pulsed.cables).toEqual(full.cables);
    expect(pulsed.circuit.supply_W).toBe(full.circuit.supply_W);
  });

  it('has the drivers, the fuses and the test readings of the pulse', () => {
    expect(pulsed.drivers.drivers.length).toBeGreaterThan(steady.drivers.drivers.length);
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
    // The strip and its own cables drop 0.15 of theirs; the links to the blocks of so few drivers carry more each.
    const strips_V = ({ circuit }: Sizing): number =>
      Math.max(...circuit.runs.map(({ highest_V, lowest_V }) => highest_V - lowest_V));
    expect(strips_V(steady)).toBeLessThan(0.16 * strips_V(full));
    expect(worstDrop(steady)).toBeLessThan(0.5 * worstDrop(full));
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
