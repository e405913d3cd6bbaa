import { describe, expect, it } from 'vitest';
import {
  askedCircuit,
  askedHeat,
  askedLight,
  askJobCircuit,
  askJobHeat,
  askJobLight,
  demoJobs,
  type Job,
  newJob,
  type Outcome,
  sizeJob,
  sizeJobCarefully,
} from '../../src/index.ts';

function granted<Value>(outcome: Outcome<Value>): Value {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

const changed = (change: (job: Job) => void): Job => {
  const job = structuredClone(newJob());
  change(job);
  return job;
};

const foyer = demoJobs.find((demo) => demo.id === 'foyer-wall')!.job;

/** A wall whose drivers cannot give more than its cables may carry, so that no fuse changes with the cable. */
const unfused = changed((job) => {
  job.strip.entry = '24V-14.4W';
  job.drivers.entry = '24V-100W';
  job.cables.entry = '0.75mm2';
});

describe('the circuit asked the other way round', () => {
  it('keeps its shape for every demo', () => {
    for (const { job } of demoJobs) {
      expect(askedCircuit.safeParse(granted(askJobCircuit(job))).error?.issues).toBeUndefined();
    }
  });

  it('the drop it gives for the cable of the job is the drop of the job', () => {
    const asked = granted(askJobCircuit(foyer));
    const own = asked.sizes.find(({ entry }) => entry === '0.75mm2')!;
    const drops = granted(sizeJob(foyer)).circuit.runs.map((run) => run.drop);
    expect(own.drop).toBeCloseTo(Math.max(...drops), 9);
  });

  // 1.5 mm2 are no size there; AWG 18 has 20.95 ohm/km, near the 19.5 of 1 mm2.
  it('asks of the sizes that are on sale under the rules', () => {
    const abroad = structuredClone(unfused);
    abroad.site.rules = 'NEC';
    const asked = granted(askJobCircuit(abroad));
    expect(asked.sizes.map(({ entry }) => entry)).toEqual(
      [22, 20, 18, 16, 14, 12].map((awg) => `awg-${awg}`),
    );
    const drops = asked.sizes.map(({ drop }) => drop);
    expect(drops).toEqual(drops.toSorted((a, b) => b - a));
  });

  it('the least cable, put into the job, keeps to the limit; the size below does not', () => {
    const tight = structuredClone(unfused);
    tight.site.dropLimit = 0.0185;
    const asked = granted(askJobCircuit(tight));
    expect(asked.leastSize).toBe('1mm2');
    const worst = (entry: string) => {
      const answer = granted(sizeJob({ ...tight, cables: { ...tight.cables, entry } }));
      return Math.max(...answer.circuit.runs.map((run) => run.drop));
    };
    expect(worst('1mm2')).toBeLessThanOrEqual(0.0185);
    expect(worst('0.75mm2')).toBeGreaterThan(0.0185);
  });

  it('the volts it says to set put lowest and highest unit evenly about nominal', () => {
    const { middle } = granted(askJobCircuit(unfused));
    expect((middle!.lowest + middle!.highest) / 2).toBeCloseTo(1, 6);
    const answer = granted(sizeJob({ ...unfused, drivers: { ...unfused.drivers, set_V: middle!.set_V } }));
    const units = answer.circuit.runs.flatMap((run) => [run.lowest_V, run.highest_V]);
    expect((Math.min(...units) + Math.max(...units)) / 2 / 24).toBeCloseTo(1, 4);
  });
});

describe('heat asked the other way round', () => {
  it('at the depth and the power of the job says what the careful answer says', () => {
    const asked = granted(askJobHeat(foyer));
    expect(askedHeat.safeParse(asked).error?.issues).toBeUndefined();
    const careful = granted(sizeJobCarefully(foyer)).heat;
    const own = asked.byPower.find((row) => Math.abs(row.strip_W_per_m / careful.strip_W_per_m - 1) < 1e-3)!;
    const solder = careful.temperatures.find((row) => row.id === 'solder')!;
    // The sweep stops at two meshes, the careful answer goes on until it moves by less than 0.1 K.
    expect(Math.abs(own.solder_degC - solder.value_degC)).toBeLessThan(0.3);
  });

  it('more watts are never cooler, and the highest that passes lies between a pass and a fail', () => {
    const asked = granted(askJobHeat(foyer));
    const temperatures = asked.byPower.map((row) => row.solder_degC);
    expect(temperatures).toEqual(temperatures.toSorted((a, b) => a - b));
    const passes = asked.byPower.filter((row) => row.passes).map((row) => row.strip_W_per_m);
    const fails = asked.byPower.filter((row) => !row.passes).map((row) => row.strip_W_per_m);
    expect(asked.highest_W_per_m).toBeGreaterThanOrEqual(Math.max(...passes));
    expect(asked.highest_W_per_m).toBeLessThan(Math.min(...fails));
    expect(asked.passing_mm).toEqual([]);
  });
});

describe('light asked the other way round', () => {
  it('the level it gives makes the dimmest unit as bright as wanted', () => {
    const asked = granted(askJobLight(newJob()));
    expect(askedLight.safeParse(asked).error?.issues).toBeUndefined();
    const at = changed((job) => (job.dimming.levels = [asked.needed.level]));
    const answer = granted(sizeJob(at));
    const dimmest = Math.min(...answer.circuit.runs.flatMap((run) => run.unit_light));
    expect(answer.light.zones[0]!.luminance_cd_per_m2 * dimmest).toBeCloseTo(at.light.wanted_cd_per_m2, 4);
  });

  it('lists the strips that do first, and says what the overspecified one costs', () => {
    const asked = granted(askJobLight(foyer));
    const enough = asked.strips.map((strip) => strip.enough);
    expect(enough).toEqual(enough.toSorted((a, b) => Number(b) - Number(a)));
    expect(asked.saving.watts).toBeGreaterThan(1000);
    expect(asked.saving.kelvins).toBeGreaterThan(20);
  });
});
