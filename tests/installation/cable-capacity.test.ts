import { describe, expect, it } from 'vitest';
import { cableCapacity, groupingFactor } from '../../src/installation/cable-capacity.ts';

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
