import { describe, expect, it } from 'vitest';
import { type CircuitDescription, pairedCable, type Terminal } from '../../src/circuit/description.ts';
import { solveCircuit } from '../../src/circuit/solve-circuit.ts';
import { current_A, warmLaw } from '../../src/circuit/strip-law.ts';
import { solveWarm } from '../../src/circuit/warm.ts';
import { alone, channel, regulatedLaw, resistorLaw, stripRun } from './examples.ts';

const room_degC = 23;
const heated = (K_m_per_W: number) => (run: { watts_per_m: number }) =>
  room_degC + K_m_per_W * run.watts_per_m;

/** Runs of two metres one behind the other, each fed from the far pads of the one before. */
function rowFromRunToRun(runCount: number): CircuitDescription {
  const runs = Array.from({ length: runCount }, (_, r) => stripRun(`r${r}`, 40));
  const from = (r: number): Terminal =>
    r === 0 ? { source: 'driver' } : { run: `r${r - 1}`, cutLine: runs[r - 1]!.unitCount };
  const cables = runs.map(({ id }, r) =>
    pairedCable({
      ...{ id: `c${r}`, channels: ['white'], from: from(r), to: { run: id, cutLine: 0 } },
      ...{ length_m: 0.6, ohm_per_m: 0.0133, contact_ohm: 0.005 },
    }),
  );
  return { sources: [{ id: 'driver', set_V: 24 }], taps: [], runs, cables };
}

/** Temperatures after so many plain rounds: watts of the solved circuit to temperature, and again. */
function plainRounds(description: CircuitDescription, K_m_per_W: number, count: number): number[] {
  let { runs } = description;
  for (let round = 0; round < count; round++) {
    const solved = solveCircuit({ ...description, runs });
    if (!solved.ok) throw new Error('refused');
    runs = runs.map((run, r) => {
      const { load_W, copper_W } = solved.value.runs[r]!;
      const watts_per_m = (load_W + copper_W) / (run.unitCount * run.unitLength_m);
      return { ...run, strip_degC: heated(K_m_per_W)({ watts_per_m }) };
    });
  }
  return runs.map(({ strip_degC }) => strip_degC);
}

describe('electricity and heat together', () => {
  it('agrees with halving on the temperature of one unit', () => {
    const found = solveWarm(
      alone(stripRun('a', 1), { kind: 'start' }, { length_m: 0, contact_ohm: 0 }),
      heated(4),
    );
    if (!found.ok) throw new Error('refused');
    let [low, high] = [room_degC, 150];
    for (let i = 0; i < 80; i++) {
      const middle = (low + high) / 2;
      const watts = 24 * current_A(warmLaw(resistorLaw, middle), 24);
      if (room_degC + (4 * watts) / 0.05 > middle) low = middle;
      else high = middle;
    }
    expect(found.value.strip_degC[0]).toBeCloseTo(low, 2);
    expect(found.value.lastChange_K).toBeLessThan(1e-3);
    expect(found.value.growth).toBeLessThan(0.2);
  });

  it('gives the circuit solved at the temperatures it reports', () => {
    const description = alone(stripRun('a', 80), { kind: 'start' });
    const found = solveWarm(description, heated(4));
    if (!found.ok) throw new Error('refused');
    const runs = description.runs.map((run, r) => ({ ...run, strip_degC: found.value.strip_degC[r]! }));
    const solved = solveCircuit({ ...description, runs });
    if (!solved.ok) throw new Error('refused');
    expect(Math.abs(solved.value.out_W - found.value.circuit.out_W)).toBeLessThan(1e-3);
    expect(found.value.strip_degC[0]).toBeCloseTo(room_degC + 4 * found.value.watts_per_m[0]!, 2);
    expect(found.value.circuit.residual_A).toBeLessThan(1e-9);
  });

  it('does not depend on where it starts', () => {
    const from = (strip_degC: number) => {
      const found = solveWarm(alone(stripRun('a', 80, { strip_degC }), { kind: 'start' }), heated(4));
      if (!found.ok) throw new Error('refused');
      return found.value.strip_degC[0]!;
    };
    expect(from(10)).toBeCloseTo(from(90), 2);
  });

  it('settles a long row from run to run, where each run sags with those before it, as plain rounds do', () => {
    const row = rowFromRunToRun(30);
    const found = solveWarm(row, heated(6));
    if (!found.ok) throw new Error('refused');
    expect(found.value.growth).toBeLessThan(0.2);
    const plain_degC = plainRounds(row, 6, 15);
    expect(plain_degC[0]! - plain_degC[29]!).toBeGreaterThan(30);
    for (const [r, strip_degC] of found.value.strip_degC.entries())
      expect(Math.abs(strip_degC - plain_degC[r]!)).toBeLessThan(2e-3);
  });

  it('accounts for every nanoampere of what it gives, also where it begins as warm as it ends', () => {
    const row = rowFromRunToRun(30);
    const found = solveWarm(row, heated(6));
    if (!found.ok) throw new Error('refused');
    const { strip_degC } = found.value;
    const runs = row.runs.map((run, r) => ({ ...run, strip_degC: strip_degC[r]! }));
    const again = solveWarm({ ...row, runs }, heated(6));
    if (!again.ok) throw new Error('refused');
    for (const { circuit } of [found.value, again.value]) expect(circuit.residual_A).toBeLessThan(1e-9);
  });

  it('settles at once where temperature changes no watts', () => {
    const run = stripRun('a', 10, { channels: [channel('white', regulatedLaw)] });
    const found = solveWarm(alone(run, { kind: 'start' }), heated(4));
    expect(found.ok && found.value.roundCount).toBeLessThanOrEqual(5);
  });

  it('refuses where heat and current drive one another up', () => {
    const eager = stripRun('a', 20, {
      channels: [channel('white', { ...resistorLaw, lampsInSeries: 7, unit_W: 1 })],
    });
    const found = solveWarm(alone(eager, { kind: 'start' }), heated(15));
    if (found.ok) throw new Error('not refused');
    expect(found.issues[0]!.code).toBe('runs-away');
    expect(found.issues[0]!.place.run).toBe('a');
  });
});
