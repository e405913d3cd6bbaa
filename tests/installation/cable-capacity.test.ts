import { describe, expect, it } from 'vitest';
import { cableCapacity } from '../../src/installation/cable-capacity.ts';

const cool = {
  area_mm2: 1.5,
  method: 'B2',
  ambient_degC: 30,
  circuitCount: 1,
  isInThermalInsulation: false,
  limit_degC: 70,
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
    expect(capacity({ circuitCount: 3 })).toBeLessThan(capacity({ circuitCount: 2 }));
  });

  it('refuses what the table does not have, and an ambient that leaves nothing', () => {
    for (const changes of [{ area_mm2: 0.75 }, { ambient_degC: 70 }, { ambient_degC: Number.NaN }]) {
      const outcome = cableCapacity({ ...cool, ...changes });
      expect(!outcome.ok && outcome.issues[0]!.code).toBe('no-capacity-known');
    }
    const thin = cableCapacity({ ...cool, area_mm2: 0.75 });
    expect(thin.ok ? [] : thin.issues).toMatchObject([
      {
        quantities: { area_mm2: 0.75, ambient_degC: 30 },
        sentence: expect.stringContaining('no current rating for 0.75 mm² laid by method B2'),
      },
    ]);
  });

  it('of insulation for 90 degC begins at the same value and loses less with heat', () => {
    // sqrt((90 - 60)/(90 - 30)) = 0.707 against sqrt((70 - 60)/(70 - 30)) = 0.5; 75 degC leaves PVC nothing.
    expect(capacity({ limit_degC: 90 })).toBe(16.5);
    expect(capacity({ limit_degC: 90, ambient_degC: 60 })).toBeCloseTo(16.5 * Math.SQRT1_2, 9);
    expect(capacity({ ambient_degC: 60 })).toBeCloseTo(8.25, 9);
    expect(capacity({ limit_degC: 90, ambient_degC: 75 })).toBeCloseTo(8.25, 9);
    const hot = cableCapacity({ ...cool, limit_degC: 90, ambient_degC: 90 });
    expect(!hot.ok && hot.issues[0]!.sentence).toContain('insulation for 90 °C');
  });

  it('of thirty circuits at 40 degC is that of a third of the current alone, with a note that the table ends at 20', () => {
    // 0.38 sqrt(20/30) = 0.3103; sqrt(30/40) = 0.8660; 16.5 A times both: 4.43 A.
    const outcome = cableCapacity({ ...cool, ambient_degC: 40, circuitCount: 30 });
    if (!outcome.ok) throw new Error('refused');
    expect(outcome.value.capacity_A).toBeCloseTo(4.434, 3);
    expect(outcome.notes).toEqual([expect.stringContaining('tabled to 20 circuits; for 30 bunched')]);
    const tabled = cableCapacity({ ...cool, circuitCount: 20 });
    expect(tabled.ok && tabled.notes).toEqual([]);
  });
});
