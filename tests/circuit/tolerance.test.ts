import { describe, expect, it } from 'vitest';
import { solveCircuit } from '../../src/circuit/solve-circuit.ts';
import { type Spread, tolerate } from '../../src/circuit/tolerance.ts';
import { alone, cable, channel, randomForest, regulatedLaw, stripRun } from './examples.ts';

const spread: Spread = {
  source_ratio: { from: 0.97, to: 1.03 },
  copper_K: { from: -5, to: 30 },
  cable_ratio: { from: 0.87, to: 1 },
  lampShift_V: { from: -0.1, to: 0.1 },
  length_ratio: { from: 1, to: 1.15 },
};

const still: Spread = {
  source_ratio: { from: 1, to: 1 },
  copper_K: { from: 0, to: 0 },
  cable_ratio: { from: 1, to: 1 },
  lampShift_V: { from: 0, to: 0 },
  length_ratio: { from: 1, to: 1 },
};

const wall = {
  sources: [{ id: 'd', set_V: 24 }],
  taps: [{ id: 't' }],
  runs: [
    stripRun('a', 60),
    stripRun('b', 90, { strip_degC: 45 }),
    stripRun('c', 80, { channels: [channel('white', { ...regulatedLaw, lampsInSeries: 7 })] }),
  ],
  cables: [
    cable('trunk', { source: 'd' }, { tap: 't' }, { length_m: 5 }),
    cable('a', { tap: 't' }, { run: 'a', cutLine: 0 }),
    cable('b', { tap: 't' }, { run: 'b', cutLine: 45 }),
    cable('c', { source: 'd' }, { run: 'c', cutLine: 0 }),
  ],
};

describe('tolerance', () => {
  it('holds the nominal figure inside its band, and every sampled one', () => {
    const found = tolerate(wall, spread, { seed: 5, count: 60 });
    if (!found.ok) throw new Error('refused');
    expect(found.value.cornerCount).toBe(32);
    expect(found.value.sampleExcess).toBe(0);
    const bands = [
      ...found.value.runs.flatMap(({ drop_V, dropRatio, lightFall, lowest_V }) => [
        drop_V,
        dropRatio,
        lightFall,
        lowest_V,
      ]),
      ...found.value.sources.flatMap(({ current_A, out_W }) => [current_A, out_W]),
    ];
    for (const { least, nominal, greatest } of bands) {
      expect(least).toBeLessThanOrEqual(nominal);
      expect(nominal).toBeLessThanOrEqual(greatest);
      expect(least).toBeLessThan(greatest);
    }
  });

  it('hardly ever finds a sample outside the corners, on random forests with drivers alike', () => {
    for (let seed = 1; seed <= 6; seed++) {
      const forest = randomForest(seed * 7919, 8);
      const sources = forest.sources.map((source) => ({ ...source, set_V: 24 }));
      const found = tolerate({ ...forest, sources }, spread, { seed, count: 20 });
      if (!found.ok) throw new Error('refused');
      expect(found.value.sampleExcess).toBeLessThan(0.05);
    }
  });

  it('has no width where nothing may differ', () => {
    const found = tolerate(wall, still, { seed: 5, count: 3 });
    const solved = solveCircuit(wall);
    if (!found.ok || !solved.ok) throw new Error('refused');
    found.value.runs.forEach(({ drop_V }, r) => {
      expect(drop_V.nominal).toBe(solved.value.runs[r]!.drop_V);
      expect(drop_V.greatest - drop_V.least).toBeLessThan(1e-9);
    });
  });

  it('copper 30 K warmer raises a constant-current drop by 0.393 % a kelvin', () => {
    const constant = stripRun('a', 60, { strip_degC: 20, channels: [channel('white', regulatedLaw)] });
    const only = { ...still, copper_K: { from: 0, to: 30 } };
    const found = tolerate(alone(constant, { kind: 'start' }, { contact_ohm: 0 }), only, {
      seed: 1,
      count: 3,
    });
    if (!found.ok) throw new Error('refused');
    const { drop_V } = found.value.runs[0]!;
    expect(drop_V.greatest / drop_V.nominal).toBeCloseTo(1 + 0.00393 * 30, 6);
  });

  it('lamps of lower forward volts load the driver more', () => {
    const only = { ...still, lampShift_V: { from: -0.1, to: 0 } };
    const found = tolerate(alone(stripRun('a', 40), { kind: 'start' }), only, { seed: 1, count: 3 });
    if (!found.ok) throw new Error('refused');
    const { out_W } = found.value.sources[0]!;
    expect(out_W.least).toBeCloseTo(out_W.nominal, 6);
    expect(out_W.greatest / out_W.nominal).toBeCloseTo(1 + (6 * 0.1) / 6, 1);
  });

  it('gives the same bands for the same seed and refuses as the circuit does', () => {
    expect(tolerate(wall, spread, { seed: 5, count: 4 })).toEqual(
      tolerate(wall, spread, { seed: 5, count: 4 }),
    );
    expect(tolerate({ ...wall, cables: [] }, spread, { seed: 5, count: 4 }).ok).toBe(false);
  });
});
