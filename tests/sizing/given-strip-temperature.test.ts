import { describe, expect, it } from 'vitest';
import { askJobCircuit, type Job, newJob, type Sizing, sizeJob, sizeJobCarefully } from '../../src/index.ts';

function wallAt(strip_degC: number | null, change: (job: Job) => void = () => {}): Job {
  const job = newJob();
  job.strip = { ...job.strip, entry: '24V-9.6W', strip_degC };
  change(job);
  return job;
}

function granted<Value>(
  outcome: { ok: true; value: Value } | { ok: false; issues: readonly unknown[] },
): Value {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

const size = (job: Job): Sizing => granted(sizeJob(job));
const noteOf = ({ notes }: Sizing) => notes.find(({ sentence }) => sentence.includes('as the job gives it'));

describe('a strip whose temperature is given', () => {
  const given = size(wallAt(60));
  const workedOut = size(wallAt(null));

  it('has every run at that temperature, whatever its watts, and says where it is from', () => {
    expect(given.circuit.runs.map(({ strip_degC }) => strip_degC)).toEqual(given.setOut.runs.map(() => 60));
    expect(given.circuit.stripTemperature).toBe('given');
    expect(workedOut.circuit.stripTemperature).toBe('worked out');
  });

  it('draws at every unit what the law of the strip says at 60 degrees', () => {
    // V = n s ln(1 + I/Is) + R I, Is = In/(exp(Vf/s) - 1), Vf = Vf25 - 2 mV/K * 35 K, R = (24 V - n Vf25)/In, In = W/24 V.
    const { strip } = given.products;
    const [white] = strip.channels;
    const nominal_A = white!.watts_per_m / strip.unitsPerMetre / 24;
    const saturation_A = nominal_A / Math.expm1((white!.lampForward_V - 0.07) / strip.slope_V);
    const resistance_ohm = (24 - white!.lampsInSeries * white!.lampForward_V) / nominal_A;
    for (const { unit_V, unit_A } of given.circuit.runs) {
      const back_V = unit_A.map(
        (amps) =>
          white!.lampsInSeries * strip.slope_V * Math.log1p(amps / saturation_A) + resistance_ohm * amps,
      );
      back_V.forEach((volts, unit) => {
        expect(volts).toBeCloseTo(unit_V[unit]!, 7);
      });
    }
  });

  it('gives the worked-out answer again where what was worked out is given, to what settling leaves open', () => {
    // All twelve runs are alike but for their cables; the warmest and the coolest are some hundredths of a kelvin apart.
    const warmth = workedOut.circuit.runs.map(({ strip_degC }) => strip_degC);
    const again = size(wallAt(Math.max(...warmth)));
    const spread_K = Math.max(...warmth) - Math.min(...warmth);
    expect(spread_K).toBeLessThan(1);
    again.circuit.runs.forEach(({ watts }, i) => {
      expect(Math.abs(watts / workedOut.circuit.runs[i]!.watts - 1)).toBeLessThan(1e-5 + 0.002 * spread_K);
    });
  });

  it('draws more and less with it: lamps lose 2 mV a kelvin each', () => {
    const watts = [20, 40, 60, 80].map((degC) => size(wallAt(degC)).circuit.supply_W);
    expect(watts).toEqual([...watts].sort((a, b) => a - b));
    expect(new Set(watts).size).toBe(4);
  });

  it('says so on the cover and beside the section, with what would be worked out', () => {
    const note = noteOf(given)!;
    const warmest_degC = Math.max(...workedOut.circuit.runs.map(({ strip_degC }) => strip_degC));
    expect([note.sheet, note.onCover]).toEqual(['section', true]);
    expect(note.sentence).toContain('for a strip at 60 °C');
    const told_degC = Number(/would have (\d+) °C/.exec(note.sentence)![1]);
    // The watts are those of the strip at 60 °C, a little more than those it was worked out with.
    expect(Math.abs(told_degC - warmest_degC)).toBeLessThan(2);
    expect(noteOf(workedOut)).toBeUndefined();
  });

  it('is never told of itself by the section: its temperatures follow from the watts', () => {
    const rise = (answer: Sizing): number =>
      answer.heat.temperatures.find(({ id }) => id === 'tape')!.value_degC - 26;
    const ratio = given.heat.strip_W_per_m / workedOut.heat.strip_W_per_m;
    expect(rise(given) / rise(workedOut)).toBeGreaterThan(0.9 * ratio);
    expect(rise(given) / rise(workedOut)).toBeLessThan(1.01 * ratio);
  });

  it('stays as given in the tolerances of a careful answer and in questions asked the other way round', () => {
    const cool = granted(sizeJobCarefully(wallAt(25)));
    const warm = granted(sizeJobCarefully(wallAt(90)));
    expect(cool.heat.stripBand_W_per_m.greatest).toBeLessThan(warm.heat.stripBand_W_per_m.greatest);
    const middle_V = [25, 90].map((degC) => granted(askJobCircuit(wallAt(degC))).middle!.set_V);
    expect(middle_V[0]).not.toBe(middle_V[1]);
  });

  it('lets a strip be answered for that would run away by itself', () => {
    const hot = (job: Job): void => {
      job.strip.data.channels = [
        {
          ...{ name: 'white', watts_per_m: 40, lumens_per_m: 3000 },
          ...{ cct_K: 3000, lampsInSeries: 7, lampForward_V: 3.35 },
        },
      ];
      job.drivers.entry = '24V-320W';
    };
    expect(sizeJob(wallAt(null, hot)).ok).toBe(false);
    expect(sizeJob(wallAt(60, hot)).ok).toBe(true);
  });
});
