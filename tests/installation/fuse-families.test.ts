import { describe, expect, it } from 'vitest';
import {
  breakingCapacity_A,
  type FuseFamilyName,
  fuseBetween,
  fuseFamilies,
  fuseResistance_ohm,
  fuseVoltage_V,
  mostRating_A,
  opensFuse,
} from '../../src/installation/fuse-families.ts';

const names = Object.keys(fuseFamilies) as FuseFamilyName[];

/** Every fuse of every family. */
const all = names.flatMap((family) =>
  fuseFamilies[family].ratings.map(([rating_A]) => ({ family, rating_A })),
);

const ratingsOf = (family: FuseFamilyName) => fuseFamilies[family].ratings.map(([rating_A]) => rating_A);

describe('ratings', () => {
  it('of cartridge fuses are those of the series R10 from 1 to 10 A (ISO 3; IEC 60127-2)', () => {
    // R10 is ten steps a decade, 10^(i/10), rounded: 1.259, 1.585, 1.995, 2.512, 3.162, 3.981, 5.012, 6.310, 7.943.
    const exact = Array.from({ length: 11 }, (_, i) => 10 ** (i / 10));
    expect(ratingsOf('cartridge')).toHaveLength(11);
    for (const [i, rating_A] of ratingsOf('cartridge').entries())
      expect(Math.abs(rating_A / exact[i]! - 1)).toBeLessThan(0.011);
  });

  it('of blade fuses are those of ISO 8820-3 (from memory); a channel is set to whole amperes', () => {
    expect(ratingsOf('blade')).toEqual([1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30]);
    expect(ratingsOf('electronic')).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
  });
});

describe('the largest fuse for a cable', () => {
  it.each([
    // 1.45/2.1 = 0.6905: 10 A may be fused at 6.905 A, so at 6.3 A.
    ['cartridge', 10, 6.905],
    // 1.35 and 1.45 In are no more than 1.45 Iz with In up to Iz itself.
    ['blade', 10, 10],
    ['electronic', 10, 10],
  ] as const)('%s for a cable of %d A', (family, capacity_A, most_A) => {
    expect(mostRating_A(family, capacity_A)).toBeCloseTo(most_A, 3);
  });

  it.each(all)('$family $rating_A A opens in the end before 1.45 times what its cable may carry', (fuse) => {
    // The least cable for it: Iz = In or, where that is more, I2/1.45.
    const least_A = Math.max(fuse.rating_A, (fuseFamilies[fuse.family].fusingRatio * fuse.rating_A) / 1.45);
    expect(mostRating_A(fuse.family, least_A)).toBeCloseTo(fuse.rating_A, 9);
  });
});

describe('the fuse between load and cable', () => {
  it.each([
    // 6 A through 12 A. Blade: 6/0.8 = 7.5. Cartridge: 7.5 up to 8.286, so 8. Channel: 6/0.9 = 6.67, so 7.
    ['blade', 6, 12, 7.5],
    ['cartridge', 6, 12, 8],
    ['electronic', 6, 12, 7],
    // 6 A through 9 A: the cartridge may be 6.21 A at most and has to be 7.5.
    ['blade', 6, 9, 7.5],
    ['cartridge', 6, 9, null],
    ['electronic', 6, 9, 7],
    // At the bounds themselves: 4 A on 5 A in a cable of 5 A; a hair more of load does not go.
    ['blade', 4, 5, 5],
    ['blade', 4.001, 5, null],
    // 1.45/2.1 of 1.45 A is 1.001 A: 1 A fits for 0.8 A.
    ['cartridge', 0.8, 1.45, 1],
    ['cartridge', 0.8, 1.44, null],
    // A channel of 1 A for 0.9 A and no more.
    ['electronic', 0.9, 1, 1],
    ['electronic', 0.905, 1, null],
    // Nothing carried still takes the smallest there is; more than the largest carries takes none.
    ['blade', 0, 3, 1],
    ['blade', 24.1, 100, null],
  ] as const)('%s: %d A through a cable of %d A takes %s', (family, design_A, capacity_A, rating_A) => {
    expect(fuseBetween(family, design_A, capacity_A)?.rating_A ?? null).toBe(rating_A);
  });
});

describe('a short opens a fuse within five seconds', () => {
  it.each([
    ['blade', 5, 10],
    ['cartridge', 5, 20],
    ['electronic', 5, 7.25],
  ] as const)('%s of %d A from %d A on', (family, rating_A, from_A) => {
    expect(fuseFamilies[family].opensAt.within_s).toBe(5);
    expect(opensFuse({ family, rating_A }, from_A)).toBe(true);
    expect(opensFuse({ family, rating_A }, from_A - 0.01)).toBe(false);
  });
});

describe('resistance', () => {
  it('of a blade fuse of 2 A costs a tenth of a volt at 1.35 A, as measured in the trade (from memory)', () => {
    // 141 mV at 2 A is 70.5 mohm; times 1.35 A: 95 mV.
    expect(1.35 * fuseResistance_ohm({ family: 'blade', rating_A: 2 }).typical_ohm).toBeCloseTo(0.095, 3);
  });

  it('of cartridge fuses: another maker’s most lies between typical and the bound of the standard', () => {
    // Volts at rated current, 1 to 10 A, of another maker's data sheet to sheet 5 (secondary).
    const printed_V = [0.25, 0.22, 0.19, 0.17, 0.15, 0.13, 0.1, 0.1, 0.1, 0.1, 0.1];
    for (const [i, rating_A] of ratingsOf('cartridge').entries()) {
      const { typical_ohm, most_ohm } = fuseResistance_ohm({ family: 'cartridge', rating_A });
      expect(printed_V[i]).toBeGreaterThan(typical_ohm * rating_A);
      expect(printed_V[i]).toBeLessThanOrEqual(most_ohm * rating_A + 1e-12);
    }
  });

  it.each(all)(
    '$family $rating_A A: no more than a quarter of a volt but for channels, typical below most',
    (fuse) => {
      const { typical_ohm, most_ohm } = fuseResistance_ohm(fuse);
      expect(typical_ohm).toBeLessThan(most_ohm);
      expect(typical_ohm * fuse.rating_A).toBeGreaterThanOrEqual(0.02);
      expect(most_ohm * fuse.rating_A).toBeLessThanOrEqual(fuse.family === 'electronic' ? 0.4 : 0.25);
    },
  );

  it('falls with the rating within a family of wires', () => {
    for (const family of ['cartridge', 'blade'] as const) {
      const ohms = ratingsOf(family).map((rating_A) => fuseResistance_ohm({ family, rating_A }).typical_ohm);
      expect(ohms).toEqual(ohms.toSorted((a, b) => b - a));
    }
  });

  it('is not given for a rating that is not made', () => {
    expect(() => fuseResistance_ohm({ family: 'blade', rating_A: 6 })).toThrow(RangeError);
  });
});

describe('voltage and breaking', () => {
  it.each([
    // A tenth to spare: 26.4 V for 24 V, 52.8 V for 48 V.
    ['blade', 12, 32],
    ['blade', 24, 32],
    ['blade', 48, 58],
    ['blade', 60, null],
    ['cartridge', 48, 250],
    ['electronic', 24, 30],
    ['electronic', 48, 60],
  ] as const)('%s on %d V is one for %s V', (family, driver_V, rated_V) => {
    expect(fuseVoltage_V(family, driver_V)).toBe(rated_V);
  });

  it('and with just the tenth to spare it will do: 30/1.1 V on one for 30 V', () => {
    expect(fuseVoltage_V('electronic', 30 / 1.1)).toBe(30);
    expect(fuseVoltage_V('electronic', 30 / 1.1 + 1e-6)).toBe(60);
  });

  it('a cartridge fuse of low breaking capacity breaks 35 A, from 3.5 A up ten times its rating', () => {
    const breaking = (rating_A: number) => breakingCapacity_A({ family: 'cartridge', rating_A });
    expect([1, 3.15, 4, 10].map(breaking)).toEqual([35, 35, 40, 100]);
    expect(breakingCapacity_A({ family: 'blade', rating_A: 30 })).toBe(1000);
    expect(breakingCapacity_A({ family: 'electronic', rating_A: 3 })).toBeNull();
  });
});
