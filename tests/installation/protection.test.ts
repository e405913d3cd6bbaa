import { describe, expect, it } from 'vitest';
import { cableCapacity, groupingFactor } from '../../src/installation/cable-capacity.ts';
import { shortAtFarEnd } from '../../src/installation/far-short.ts';
import { opensFuse } from '../../src/installation/fuse-families.ts';
import { protectCable } from '../../src/installation/protection.ts';

const cool = {
  area_mm2: 1.5,
  method: 'B2',
  ambient_degC: 30,
  circuitCount: 1,
  isInThermalInsulation: false,
} as const;

function capacity(changes: Partial<Parameters<typeof cableCapacity>[0]>): number {
  const outcome = cableCapacity({ ...cool, ...changes });
  if (!outcome.ok) throw new Error(outcome.issues[0]!.sentence);
  return outcome.value.capacity_A;
}

describe('current-carrying capacity', () => {
  it('is the table value with nothing against it, and the product of its factors otherwise', () => {
    expect(capacity({})).toBe(16.5);
    const outcome = cableCapacity({
      ...cool,
      ambient_degC: 45,
      circuitCount: 4,
      isInThermalInsulation: true,
    });
    if (!outcome.ok) throw new Error('refused');
    const { at30_A, ambientFactor, groupingFactor: grouping, insulationFactor } = outcome.value;
    expect(outcome.value.capacity_A).toBeCloseTo(at30_A * ambientFactor * grouping * insulationFactor, 12);
  });

  it('never grows with heat, neighbours or insulation', () => {
    expect(capacity({ ambient_degC: 50 })).toBeLessThan(capacity({ ambient_degC: 40 }));
    expect(capacity({ isInThermalInsulation: true })).toBe(capacity({}) / 2);
    for (let count = 1; count < 20; count++) {
      expect(groupingFactor(count + 1)).toBeLessThanOrEqual(groupingFactor(count));
    }
  });

  it('refuses what the table does not have, and an ambient that leaves nothing', () => {
    for (const changes of [{ area_mm2: 0.75 }, { ambient_degC: 70 }, { ambient_degC: Number.NaN }]) {
      const outcome = cableCapacity({ ...cool, ...changes });
      expect(!outcome.ok && outcome.issues[0]!.code).toBe('no-capacity-known');
    }
    expect(() => groupingFactor(21)).toThrow(RangeError);
    expect(() => groupingFactor(0)).toThrow(RangeError);
  });
});

describe('what protects a cable', () => {
  it('is a driver too small to overload it', () => {
    const outcome = protectCable({ design_A: 3, capacity_A: 10, sourceLimit_A: 6.3 });
    expect(outcome.ok && outcome.value.by).toBe('source');
  });

  it('is otherwise the smallest fuse with a quarter in hand', () => {
    const outcome = protectCable({ design_A: 6, capacity_A: 12, sourceLimit_A: 20 });
    expect(outcome.ok && outcome.value).toEqual({ by: 'fuse', fuse_A: 7.5 });
  });

  it('is nothing where no fuse lies between', () => {
    for (const [design_A, sourceLimit_A] of [
      [9.5, 20],
      [12, 11],
    ] as const) {
      const outcome = protectCable({ design_A, capacity_A: 10, sourceLimit_A });
      expect(!outcome.ok && outcome.issues[0]!.code).toBe('no-fuse-fits');
    }
  });
});

describe('a short at the far end', () => {
  it('27 A by the copper of the worked example, but a 100 W driver stops at 6.3 A and a 5 A fuse stays', () => {
    const short = shortAtFarEnd({ set_V: 24, loop_ohm: 0.882, sourceLimit_A: 6.3, fuse_A: 5 });
    expect(short.prospective_A).toBeCloseTo(27.2, 1);
    expect(short).toMatchObject({
      fault_A: 6.3,
      reachesLimit: true,
      opensFuse: false,
      couldSitUnnoticed: false,
    });
  });

  it('sits unnoticed where the copper holds the current under what driver and fuse notice', () => {
    const short = shortAtFarEnd({ set_V: 24, loop_ohm: 2, sourceLimit_A: 20, fuse_A: 10 });
    expect(short).toMatchObject({
      fault_A: 12,
      reachesLimit: false,
      opensFuse: false,
      couldSitUnnoticed: true,
    });
    expect(short.fault_W).toBe(288);
    expect(shortAtFarEnd({ set_V: 24, loop_ohm: 2, sourceLimit_A: 20, fuse_A: 5 }).opensFuse).toBe(true);
  });
});

describe('a blade fuse', () => {
  it('opens within five seconds at twice its rating (ISO 8820-3:2015, from memory), not below', () => {
    expect([9.9, 10].map((current_A) => opensFuse(5, current_A))).toEqual([false, true]);
  });
});
