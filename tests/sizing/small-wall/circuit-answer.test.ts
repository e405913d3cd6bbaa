import { describe, expect, it } from 'vitest';
import type { CableSolution, CircuitSolution } from '../../../src/circuit/solution.ts';
import type { Job } from '../../../src/job/job.ts';
import { stripCatalogue } from '../../../src/job/strip-catalogue.ts';
import {
  circuitAnswer,
  hottestRun,
  outputOfRuns,
  worstPower_W_per_m,
} from '../../../src/sizing/circuit-answer.ts';
import { settle } from '../../../src/sizing/settle.ts';
import { toleranceAnswer } from '../../../src/sizing/tolerance-answer.ts';
import { granted } from './granted.ts';
import { preparedOf, wallOf } from './small-wall.ts';

function answered(xs_mm: readonly number[], change: (job: Job) => void = () => {}, careful = false) {
  const prepared = preparedOf(wallOf(xs_mm, change));
  const settled = granted(settle(prepared));
  const outputs = settled.allocation.drivers.flatMap((driver) =>
    driver.outputs.map((output) => ({ ...output, driver: driver.id, runs: [...output.runs] })),
  );
  const tolerance = careful ? granted(toleranceAnswer(settled)) : null;
  return { settled, answer: circuitAnswer(settled, prepared.setOut, outputOfRuns(outputs), tolerance) };
}

/** Two units of 2 W, 270 ohm and one lamp of 1.5 V each, as worked out in `circuit-of-job.test.ts`. */
function twoUnits(job: Job): void {
  if (job.slots.from === 'segments')
    job.slots.segments = [{ x0_mm: 600, y0_mm: 100, x1_mm: 600, y1_mm: 200 }];
  const [channel] = stripCatalogue.find(({ id }) => id === '24V-2.4W')!.channels;
  job.strip.data = {
    ...{ railPositive_mohm_per_m: 1000, railReturn_mohm_per_m: 1000 },
    channels: [{ ...channel!, watts_per_m: 40, lampsInSeries: 1, lampForward_V: 1.5 }],
  };
  job.cables.data.conductor_ohm_per_km = 200;
  Object.assign(job.cables, { tail_mm: 0, allowance: 0, cable_degC: 20 });
  Object.assign(job.drivers.places[0]!, { x_mm: 385, y_mm: -186, width_mm: 430 });
}

describe('two units worked out by hand', () => {
  const solved = () => {
    const { answer, settled } = answered([600], twoUnits);
    return { answer, settled, run: answer.runs[0] };
  };

  it('have their volts, the drop from the driver and the light of their currents', () => {
    const { run } = solved();
    // 23.97387 and 23.96539 V; the drop is 24 - 23.96539 of 24 V.
    expect(run!.unit_V).toEqual([expect.closeTo(23.97387, 4), expect.closeTo(23.96539, 4)]);
    expect(run).toMatchObject({
      ...{ run: 'S01', driver: 'D1', output: 'D1.1', lowestUnit: 1, strip_degC: 25 },
      lowest_V: expect.closeTo(23.96539, 4),
      highest_V: expect.closeTo(23.97387, 4),
      drop_V: expect.closeTo(0.03461, 4),
      drop: expect.closeTo(0.001442, 5),
    });
    // (83.237/83.333)^0.92 = 0.99894 and (83.205/83.333)^0.92 = 0.99859.
    expect(run!.unit_light).toEqual([expect.closeTo(0.99894, 4), expect.closeTo(0.99859, 4)]);
    expect(run!.fall).toBeCloseTo(1 - 0.99859 / 0.99894, 4);
  });

  it('are fed 166.442 mA at 24 - 0.106*0.166442 V', () => {
    expect(solved().run!.feed_A).toEqual([
      {
        feedPoint: 'S01-F1',
        current_A: expect.closeTo(0.166442, 5),
        terminal_V: expect.closeTo(23.98236, 4),
      },
    ]);
  });

  it('draw 1.99550 W in the first, so 39.910 W/m, and 3.9894 W with 0.0017 W in the rails', () => {
    const { answer, settled, run } = solved();
    // Lamps 23.97387*0.083237 + 23.96539*0.083205 = 3.98955 W. Rails 0.0509825*0.166442^2 + 0.101965*0.083205^2 W.
    expect(run!.worst_W_per_m).toBeCloseTo(39.91, 2);
    expect(worstPower_W_per_m(settled.solution, 20)).toBe(run!.worst_W_per_m);
    expect(run!.copper_W).toBeCloseTo(0.002118, 5);
    expect(run!.watts).toBeCloseTo(3.98955 + 0.002118, 3);
    expect(answer.lamps_W).toBeCloseTo(3.98955, 3);
    expect(answer.stripCopper_W).toBeCloseTo(0.002118, 5);
    // Cable 0.106*0.166442^2.
    expect(answer.cable_W).toBeCloseTo(0.0029365, 6);
    expect(answer.supply_W).toBeCloseTo(24 * 0.166442, 3);
    expect(Math.abs(answer.imbalance_W)).toBeLessThan(1e-9);
    expect(answer.unaccounted_A).toBeLessThan(1e-9);
  });

  it('have one pair of pads, and draw 83.237 and 83.205 mA', () => {
    const { run } = solved();
    expect(run!.pads.map(({ cutLine }) => cutLine)).toEqual([0]);
    const { plus_V, minus_V } = run!.pads[0]!;
    expect(plus_V - minus_V[0]!).toBeCloseTo(23.98236, 4);
    // Out and home are alike, half of 0.106 ohm each.
    expect(plus_V).toBeCloseTo(24 - 0.053 * 0.166442, 5);
    expect(minus_V).toEqual([expect.closeTo(0.053 * 0.166442, 5)]);
    expect(run!.unit_A).toEqual([expect.closeTo(0.083237, 5), expect.closeTo(0.083205, 5)]);
  });

  it('have no channels of their own, no neighbour, and no band in a quick answer', () => {
    const { answer, run } = solved();
    expect(run).toMatchObject({ channels: [], neighbour: null, band: null });
    expect(answer).toMatchObject({ level: 'full', tolerances: '' });
    expect(answer.average_W).toBe(answer.supply_W);
  });
});

describe('pads of a run', () => {
  it('are those that a cable lands on or leaves, in the order of their cut lines', () => {
    const { answer } = answered([600, 800], (job) => (job.cables.layout = 'run to run'));
    const lines = answer.runs.map(({ pads }) => pads.map(({ cutLine }) => cutLine));
    // The first run is left at its other end.
    expect(lines).toEqual([[0, 20], [0]]);
    // Crossed, the return lands at the finish and is laid after plus; its pad is the second.
    const crossed = answered([600], (job) => (job.feeds.arrangement = 'crossed')).answer.runs[0]!;
    expect(crossed.pads.map(({ cutLine }) => cutLine)).toEqual([0, 20]);
    const [start, finish] = crossed.pads;
    expect(start!.plus_V - finish!.minus_V[0]!).toBeCloseTo(crossed.feed_A[0]!.terminal_V, 12);
    // Plus falls along the run, minus rises towards its start.
    expect(start!.plus_V).toBeGreaterThan(finish!.plus_V);
    expect(start!.minus_V[0]).toBeGreaterThan(finish!.minus_V[0]!);
  });
});

describe('units of two channels', () => {
  it('draw what both do', () => {
    const { answer } = answered([600], (job) => {
      job.strip.entry = '24V-2x9.6W-two-white';
      job.dimming.levels = [1, 1];
    });
    const [run] = answer.runs;
    const [warm, cool] = run!.channels;
    expect(run!.unit_A).toHaveLength(20);
    for (const [unit, own_A] of run!.unit_A.entries())
      expect(own_A).toBeCloseTo(warm!.unit_A[unit]! + cool!.unit_A[unit]!, 12);
    // 19.2 W/m in 20 units at a little under 24 V.
    expect(run!.unit_A[0]).toBeCloseTo(19.2 / 20 / 24, 2);
  });
});

describe('two channels under a limited dimmer', () => {
  const levels = (pwm_Hz: number | null) => (job: Job) => {
    job.strip.entry = '24V-2x9.6W-two-white';
    Object.assign(job.dimming, { levels: [0.25, 0.75], sizeFor: 'levels', pwm_Hz });
  };

  it('have their names, their volts, and their light without the level', () => {
    const { answer, settled } = answered([600, 900], levels(null));
    expect(answer.level).toBe('working');
    for (const [r, run] of answer.runs.entries()) {
      expect(run.channels.map(({ name }) => name)).toEqual(['warm white', 'cool white']);
      const solved = settled.solution.runs[r]!.channels;
      // The one lit more has the lower volts, which are shown for the run.
      expect(run.unit_V).toEqual(Array.from(solved[1]!.unit_V));
      expect(run.channels[0]!.unit_V).toEqual(Array.from(solved[0]!.unit_V));
      expect(run.highest_V).toBe(Math.max(...solved[0]!.unit_V, ...solved[1]!.unit_V));
      for (const [unit, light] of run.unit_light.entries()) {
        const [warm, cool] = run.channels.map(({ unit_light }) => unit_light[unit]!);
        // Of 0.25*860 and 0.75*920 lm.
        expect(light).toBeCloseTo((215 * warm! + 690 * cool!) / 905, 9);
        expect(warm).toBeGreaterThan(0.95);
        expect(cool).toBeGreaterThan(0.9);
      }
      // 0.25 and 0.75 of 9.6 W/m each, both channels of the unit together.
      expect(run.worst_W_per_m).toBeGreaterThan(9.2);
      expect(run.worst_W_per_m).toBeLessThan(9.7);
    }
    expect(answer.average_W).toBe(answer.supply_W);
  });

  it('are fed with what is between the plus and the mean of their returns', () => {
    const { answer, settled } = answered([600], levels(null));
    const [fed] = answer.runs[0]!.feed_A;
    const [{ positive, returns }] = settled.solution.cables as [CableSolution];
    expect(fed!.terminal_V).toBeCloseTo(positive.to_V - (returns[0]!.to_V + returns[1]!.to_V) / 2, 12);
    // The one lit more lifts its own end more, by 0.2 A through some 20 milliohm.
    expect(returns[1]!.to_V).toBeGreaterThan(returns[0]!.to_V + 0.001);
    expect(fed!.current_A).toBe(positive.current_A);
  });

  it('stand at full in a pulse, and draw half of it on average', () => {
    const { answer } = answered([600], levels(4000));
    expect(answer.level).toBe('full');
    expect(answer.average_W).toBeCloseTo(0.5 * answer.supply_W, 9);
  });
});

describe('two runs side by side', () => {
  const sideBySide = () => answered([600, 900], () => {}, true).answer;

  it('differ by what their cables drop: the same difference said of both', () => {
    const [near, far] = sideBySide().runs;
    // 0.3 m and its tenth more for the second: light follows its volts unit by unit.
    expect(near!.neighbour).toBeCloseTo(far!.neighbour!, 12);
    const differences = near!.unit_light.map((one, unit) => 1 - far!.unit_light[unit]! / one);
    expect(near!.neighbour).toBeCloseTo(Math.max(...differences), 9);
    expect(near!.neighbour).toBeGreaterThan(0);
  });

  it('have the bands of a careful answer, each its own', () => {
    const answer = sideBySide();
    for (const run of answer.runs) {
      expect(run.band!.lowest_V.least).toBeLessThan(run.lowest_V);
      expect(run.band!.lowest_V.greatest).toBeGreaterThan(run.lowest_V);
    }
    expect(answer.runs[0]!.band).not.toEqual(answer.runs[1]!.band);
    expect(answer.tolerances).toMatch(/^Driver volts/);
  });
});

describe('a run fed crossed', () => {
  it('has the current and the volts between its two terminals at either of them', () => {
    const { answer, settled } = answered([600], (job) => {
      job.feeds.arrangement = 'crossed';
    });
    const [plus, minus] = answer.runs[0]!.feed_A;
    expect([plus!.feedPoint, minus!.feedPoint]).toEqual(['S01-F1', 'S01-F2']);
    expect(minus!.current_A).toBe(plus!.current_A);
    const [cable] = settled.solution.cables;
    expect(plus!.terminal_V).toBeCloseTo(cable!.positive.to_V - cable!.returns[0]!.to_V, 12);
    expect(minus!.terminal_V).toBe(plus!.terminal_V);
  });
});

describe('the unit that draws most', () => {
  /** A run of channels, each of units of some volts and amps. */
  const run = (id: string, ...channels: (readonly (readonly [number, number])[])[]) => ({
    id,
    channels: channels.map((units) => ({
      unit_V: units.map(([volts]) => volts),
      unit_A: units.map(([, amps]) => amps),
    })),
  });
  const solutionOf = (...runs: ReturnType<typeof run>[]) => ({ runs }) as unknown as CircuitSolution;

  // 24 V and 0.1 A are 2.4 W, 48 W/m at 20 units a metre; the middle unit of the second 24*0.12 = 2.88 W, 57.6 W/m.
  const low = run('low', [
    [24, 0.1],
    [23, 0.1],
  ]);
  const high = run('high', [
    [24, 0.1],
    [24, 0.12],
    [20, 0.13],
  ]);
  // Two channels: 24*0.05 + 24*0.08 = 3.12 W in its first unit, 62.4 W/m, though neither alone is the most.
  const both = run('both', [[24, 0.05]], [[24, 0.08]]);

  it('decides for the whole wall, wherever it stands in its run and among the runs', () => {
    for (const runs of [
      [low, high],
      [high, low],
    ]) {
      expect(hottestRun(solutionOf(...runs), 20).id).toBe('high');
      expect(worstPower_W_per_m(solutionOf(...runs), 20)).toBeCloseTo(57.6, 12);
    }
    expect(worstPower_W_per_m(solutionOf(low), 20)).toBeCloseTo(48, 12);
    expect(worstPower_W_per_m(solutionOf(low), 10)).toBeCloseTo(24, 12);
  });

  it('counts all channels of a unit together', () => {
    expect(hottestRun(solutionOf(low, both, high), 20).id).toBe('both');
    expect(worstPower_W_per_m(solutionOf(low, both, high), 20)).toBeCloseTo(62.4, 12);
  });

  it('is looked for in the first of runs alike', () => {
    const again = { ...high, id: 'again' };
    expect(hottestRun(solutionOf(low, again, high), 20).id).toBe('again');
    expect(hottestRun(solutionOf(high, low, again), 20).id).toBe('high');
  });
});
