import fc from 'fast-check';
import type { SectionDescription } from '../../src/heat/section-description.ts';

/** A wall panel as makers build it: 18 mm front, 30 mm cavity, 9 mm backing, 10 mm strip behind a 10 mm slot. */
export const panel: SectionDescription = {
  pitch_m: 0.15,
  slotWidth_m: 0.01,
  slotHeight_m: 2.4,
  front: { thickness_m: 0.018, conductivity_W_per_mK: 0.13, emissivity: 0.9 },
  cavityDepth_m: 0.03,
  backing: { thickness_m: 0.009, conductivity_W_per_mK: 0.13, emissivity: 0.9 },
  battenWidth_m: 0.02,
  batten: { conductivity_W_per_mK: 0.13, emissivity: 0.9 },
  sheet: null,
  strip: {
    mount: 'backing',
    width_m: 0.01,
    offset_m: 0,
    contact_m2K_per_W: 6e-4,
    carrier: null,
    emissivity: 0.9,
  },
  behind: { kind: 'insulation' },
  exchange: 'none',
  room_K: 296,
  cavityAir: { correlation: 'elsherbiny', along: 'alike', factor: 1 },
};

export const sheet = { thickness_m: 0.003, conductivity_W_per_mK: 0.18, emissivity: 0.9 } as const;

export const carrier = {
  thickness_m: 0.002,
  width_m: 0.02,
  conductivity_W_per_mK: 160,
  emissivity: 0.8,
} as const;

const mm = (low: number, high: number): fc.Arbitrary<number> =>
  fc.integer({ min: low, max: high }).map((value) => value / 1000);

const layer = (low_mm: number, high_mm: number) =>
  fc.record({
    thickness_m: mm(low_mm, high_mm),
    conductivity_W_per_mK: fc.double({ min: 0.08, max: 0.3, noNaN: true }),
    emissivity: fc.double({ min: 0.3, max: 0.95, noNaN: true }),
  });

/** Sections that can be built, of every kind. */
export const anySection: fc.Arbitrary<SectionDescription> = fc.record({
  pitch_m: mm(80, 250),
  slotWidth_m: mm(4, 25),
  slotHeight_m: fc.double({ min: 0.5, max: 3, noNaN: true }),
  front: layer(9, 25),
  cavityDepth_m: mm(12, 45),
  backing: layer(4, 20),
  battenWidth_m: fc.constantFrom(0, 0.015, 0.03),
  batten: fc.constant(panel.batten),
  sheet: fc.constantFrom(null, sheet),
  strip: fc.record({
    mount: fc.constant('backing' as const),
    width_m: mm(5, 12),
    offset_m: fc.constantFrom(0, 0, 0, 0.012),
    contact_m2K_per_W: fc.constantFrom(0, 3e-4, 1.3e-3),
    carrier: fc.constantFrom(null, carrier),
    emissivity: fc.constant(0.9),
  }),
  behind: fc.constantFrom<SectionDescription['behind']>(
    { kind: 'insulation' },
    { kind: 'room', resistance_m2K_per_W: 0.3, air_K: 293 },
  ),
  exchange: fc.constantFrom('none' as const, 'buoyant' as const),
  room_K: fc.constantFrom(288, 296, 303),
  cavityAir: fc.record({
    correlation: fc.constantFrom('elsherbiny' as const, 'iso15099' as const, 'still' as const),
    along: fc.constantFrom('alike' as const, 'still' as const),
    factor: fc.constant(1),
  }),
});
