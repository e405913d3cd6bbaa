import { describe, expect, it } from 'vitest';
import { loopResistance_ohm } from '../../reference/laws/loop-resistance.ts';
import type { CircuitDescription } from '../../src/circuit/description.ts';
import { alone, cable, lead, stripRun } from './examples.ts';

const cold = stripRun('a', 100, { strip_degC: 20 });

function loop(description: CircuitDescription, cutLine: number): number {
  const outcome = loopResistance_ohm(description, { run: 'a', cutLine, channel: 'white' });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

describe('loop resistance', () => {
  const rail = 0.0616 * 5;
  const wire = lead.length_m * lead.ohm_per_m + lead.contact_ohm;

  it('is lead and strip there and back for one cable and one run', () => {
    expect(loop(alone(cold, { kind: 'start' }), 100)).toBeCloseTo(2 * (wire + rail), 10);
    expect(loop(alone(cold, { kind: 'start' }), 0)).toBeCloseTo(2 * wire, 10);
    expect(loop(alone(cold, { kind: 'finish' }), 40)).toBeCloseTo(2 * (wire + 0.6 * rail), 10);
  });

  it('is the worked example: 5 m of 0.123 ohm/m and 10 m of 2 x 1.5 mm2 make 0.882 ohm', () => {
    const strip = stripRun('a', 100, { strip_degC: 20, positiveRail_ohm_per_m: 0.0616 });
    const long = alone(strip, { kind: 'start' }, { length_m: 10, ohm_per_m: 0.0133, contact_ohm: 0 });
    expect(loop(long, 100)).toBeCloseTo(0.882, 3);
  });

  it('goes both ways in parallel when both ends are fed', () => {
    const [there, back] = [wire + 0.3 * rail, wire + 0.7 * rail];
    expect(loop(alone(cold, { kind: 'both' }), 30)).toBeCloseTo((2 * there * back) / (there + back), 10);
  });

  it('goes the same way round a crossed feed from every place', () => {
    const crossed = alone(cold, { kind: 'crossed' });
    for (const cutLine of [0, 13, 50, 100]) expect(loop(crossed, cutLine)).toBeCloseTo(2 * wire + rail, 10);
  });

  it('counts joints, and the copper at its temperature', () => {
    const jointed = { ...cold, joints: [{ cutLine: 50, contact_ohm: 0.03 }] };
    expect(loop(alone(jointed, { kind: 'start' }), 100)).toBeCloseTo(2 * (wire + rail + 0.03), 10);
    expect(loop(alone({ ...cold, strip_degC: 60 }, { kind: 'start' }), 100)).toBeCloseTo(
      2 * (wire + rail * (1 + 0.00393 * 40)),
      10,
    );
  });

  it('finds the way through a ring', () => {
    const ring: CircuitDescription = {
      sources: [{ id: 'd', set_V: 24 }],
      taps: [{ id: 't' }],
      runs: [cold],
      cables: [
        cable('there', { source: 'd' }, { tap: 't' }, { length_m: 3 }),
        cable('back', { tap: 't' }, { source: 'd' }, { length_m: 6 }),
        cable('drop', { tap: 't' }, { run: 'a', cutLine: 0 }),
      ],
    };
    expect(loop(ring, 0)).toBeCloseTo(2 * (2 * lead.ohm_per_m + wire), 10);
  });

  it('refuses an unfed run and throws for a place that is not there', () => {
    const unfed = { ...alone(cold, { kind: 'start' }), cables: [] };
    expect(loopResistance_ohm(unfed, { run: 'a', cutLine: 0, channel: 'white' }).ok).toBe(false);
    expect(() => loop(alone(cold, { kind: 'start' }), 101)).toThrow(RangeError);
  });
});
