import { describe, expect, it } from 'vitest';
import { fitStrip, type StripData } from '../../src/circuit/fit.ts';
import { solveCircuit } from '../../src/circuit/solve-circuit.ts';
import { alone, channel, stripRun } from './examples.ts';

const bare = { length_m: 0, contact_ohm: 0 };

const sheet: StripData = {
  nominal_V: 24,
  watts_per_m: 10,
  units_per_m: 20,
  lamps_per_m: 120,
  rails: { from: 'copper', width_m: 0.004, weight_oz: 2 },
};

function fitted(data: StripData) {
  const outcome = fitStrip(data);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

describe('fitting a strip to its data sheet', () => {
  it('reads the law and the copper', () => {
    const { law, rail_ohm_per_m, unitLength_m } = fitted(sheet);
    expect(law).toMatchObject({ kind: 'resistor', unit_W: 0.5, lampsInSeries: 6, lampForward_V: 3 });
    expect(unitLength_m).toBe(0.05);
    expect(rail_ohm_per_m).toBeCloseTo(0.0616, 4);
  });

  it.each([
    [12, 60, 20, 3],
    [24, 70, 10, 7],
    [24, 128, 16, 4],
    [48, 120, 10, 12],
  ])('%d V, %d lamps and %d units a metre: %d in series', (nominal_V, lamps_per_m, units_per_m, series) => {
    expect(fitted({ ...sheet, nominal_V, lamps_per_m, units_per_m }).law.lampsInSeries).toBe(series);
  });

  it('gets back the rail that a measured length was made with, law and warm copper and all', () => {
    const law = fitted(sheet).law;
    const run = stripRun('a', 80, {
      positiveRail_ohm_per_m: 0.07,
      strip_degC: 41,
      channels: [channel('white', law, 1, 0.07)],
    });
    const solved = solveCircuit({
      ...alone(run, { kind: 'start' }, bare),
      sources: [{ id: 'driver', set_V: 23.7 }],
    });
    if (!solved.ok) throw new Error('refused');
    const { positivePad_V, channels } = solved.value.runs[0]!;
    const finish_V = positivePad_V.at(-1)! - channels[0]!.returnPad_V.at(-1)!;
    const rails = { from: 'measured volts', length_m: 4, start_V: 23.7, finish_V, strip_degC: 41 } as const;
    expect(fitted({ ...sheet, rails }).rail_ohm_per_m).toBeCloseTo(0.07, 5);
  });

  it('makes the longest run drop what it says', () => {
    const rails = { from: 'longest run', length_m: 5, dropRatio: 0.06 } as const;
    const { law, rail_ohm_per_m } = fitted({ ...sheet, rails });
    const run = stripRun('a', 100, {
      positiveRail_ohm_per_m: rail_ohm_per_m,
      channels: [channel('white', law, 1, rail_ohm_per_m)],
    });
    const solved = solveCircuit(alone(run, { kind: 'start' }, bare));
    expect(solved.ok && solved.value.runs[0]!.dropRatio).toBeCloseTo(0.06, 5);
  });

  it('says where every quantity is from', () => {
    const { basis } = fitted({
      ...sheet,
      dropout_V: 1,
      lampsInSeries: 6,
      rails: { from: 'longest run', length_m: 5 },
    });
    expect(basis.map(({ quantity, from }) => [quantity, from])).toEqual([
      ['unit watts', 'data sheet'],
      ['lamps in series', 'data sheet'],
      ['forward volts', 'usual value'],
      ['slope', 'usual value'],
      ['rail resistance', 'fitted'],
    ]);
    expect(basis.at(-1)!.sentence).toContain('5 %');
  });

  it('refuses volts that no copper explains, and lamps that the volts cannot light', () => {
    const measured = (finish_V: number): StripData => ({
      ...sheet,
      rails: { from: 'measured volts', length_m: 4, start_V: 24, finish_V, strip_degC: 25 },
    });
    for (const finish_V of [24.5, 3]) {
      const outcome = fitStrip(measured(finish_V));
      expect(!outcome.ok && outcome.issues[0]!.code).toBe('does-not-fit');
    }
    const lamps = fitStrip({ ...sheet, lampsInSeries: 9 });
    expect(!lamps.ok && lamps.issues[0]!.code).toBe('too-few-volts-for-lamps');
    const unreal = fitStrip({ ...sheet, watts_per_m: Number.NaN });
    expect(!unreal.ok && unreal.issues[0]!.code).toBe('number-missing');
  });
});
