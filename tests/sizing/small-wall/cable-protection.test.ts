import { describe, expect, it } from 'vitest';
import { type CableToProtect, protectionOf } from '../../../src/sizing/cable-protection.ts';
import { granted } from './granted.ts';

/** A flexible cord of 1.5 mm2 by itself at 30 degC: 16 A (DIN VDE 0298-4 table 11, secondary). */
const cord: CableToProtect = {
  area_mm2: 1.5,
  cable_degC: 30,
  circuitCount: 1,
  design_A: 4,
  driver_A: 5,
  set_V: 24,
  farLoop_ohm: 0.5,
};

const protect = (change: Partial<CableToProtect>) => granted(protectionOf({ ...cord, ...change }));

describe('what a cable may carry', () => {
  it.each([
    ['as tabled', {}, 16],
    // 0.65 for four together (IEC 60364-5-52), sqrt((70 - 40)/(70 - 30)) for 40 degC.
    ['four together at 40 degC', { cable_degC: 40, circuitCount: 4 }, 16 * 0.65 * Math.sqrt(30 / 40)],
    ['AWG 18, 0.823 mm2: that of the next size below, 0.75', { area_mm2: 0.823 }, 6],
    ['AWG 22, 0.3255 mm2, below all sizes: 3 A in proportion to its area', { area_mm2: 0.3255 }, 1.953],
    ['4 mm2, the largest', { area_mm2: 4 }, 25],
    ['6 mm2, beyond all sizes: the largest', { area_mm2: 6 }, 25],
    ['a size that misses its name by rounding', { area_mm2: 0.1 + 0.65 - 1e-12 }, 6],
  ])('%s', (_, change, capacity_A) => {
    expect(protect(change).capacity_A).toBeCloseTo(capacity_A, 6);
  });

  it('is nothing at the limit of PVC, and said so', () => {
    expect(protectionOf({ ...cord, cable_degC: 70 })).toMatchObject({
      ok: false,
      issues: [{ code: 'no-capacity-known' }],
    });
  });
});

describe('what protects a cable', () => {
  // Fuse from 1.25 times the current up, no more than the capacity.
  it('is the smallest fuse with a quarter to spare: 4 A on 5 A, which a driver of 5 A cannot open', () => {
    expect(protect({})).toMatchObject({ fuse_A: 5, protectedBy: 'fuse', fuseOpens: false });
  });

  it('is a fuse the driver can open from twice its rating', () => {
    // 0.5 A needs 0.625, so 1 A, which opens at 2 A.
    expect(protect({ design_A: 0.5, driver_A: 2 })).toMatchObject({ fuse_A: 1, fuseOpens: true });
    expect(protect({ design_A: 0.5, driver_A: 1.99 })).toMatchObject({ fuse_A: 1, fuseOpens: false });
  });

  it('is the driver where no fuse fits and it gives no more than the cable carries, 1.5 times its rating', () => {
    // 0.75 mm2 carries 6 A; 6 A would need 7.5 A. A driver of 4 A gives 6 A at most.
    const thin = { area_mm2: 0.75, design_A: 6 };
    expect(protect({ ...thin, driver_A: 4 })).toMatchObject({
      fuse_A: null,
      fuseOpens: false,
      protectedBy: 'driver',
    });
    expect(protect({ ...thin, driver_A: 4.1 }).protectedBy).toBe('nothing');
    expect(protect({ ...thin, design_A: 6.1, driver_A: 4 }).protectedBy).toBe('nothing');
  });
});

describe('a short at the far end', () => {
  it('is the copper current or the limit of the driver, 7.5 A of 5 A, whichever is less', () => {
    expect(protect({ farLoop_ohm: 0.5 })).toMatchObject({ farShort_A: 7.5, farShortNoticed: true });
    expect(protect({ farLoop_ohm: 6 }).farShort_A).toBeCloseTo(4, 12);
  });

  it('is noticed below the limit only by a fuse that opens at twice its rating', () => {
    // 24 V over 6 ohm are 4 A: they open 1 A, not 3 A.
    expect(protect({ farLoop_ohm: 6, design_A: 0.5 })).toMatchObject({ fuse_A: 1, farShortNoticed: true });
    expect(protect({ farLoop_ohm: 6, design_A: 2 })).toMatchObject({ fuse_A: 3, farShortNoticed: false });
  });

  it('is not noticed without a fuse below the limit', () => {
    const bare = { area_mm2: 0.75, design_A: 6, driver_A: 4 };
    expect(protect({ ...bare, farLoop_ohm: 6 })).toMatchObject({ farShort_A: 4, farShortNoticed: false });
    expect(protect({ ...bare, farLoop_ohm: 4 })).toMatchObject({ farShort_A: 6, farShortNoticed: true });
  });
});
