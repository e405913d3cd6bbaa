import type { StripChannel, StripData } from './strip.ts';

/**
 * Typical strips, named by what they are. Values are what data sheets of the trade commonly print (common
 * practice, no single source); a real sheet overrides any of them. Rails are 2 oz copper 4 mm wide, 61.6 mΩ/m
 * each, on 10 mm strip (rho 0.01724 ohm mm2/m over 4 mm x 70 um), in proportion on other widths.
 */
const common = {
  law: 'resistor',
  dropout_V: 1,
  width_mm: 10,
  reel_mm: 5000,
  railPositive_mohm_per_m: 61.6,
  railReturn_mohm_per_m: 61.6,
  halfAngle_deg: 60,
  longestRun_mm: 5000,
  limit_degC: 75,
  solderRise_K_per_W: 40,
} as const;

const white = (
  watts_per_m: number,
  lumens_per_m: number,
  cct_K: number,
  lampsInSeries: number,
): StripChannel => ({
  name: 'white',
  watts_per_m,
  lumens_per_m,
  cct_K,
  lampsInSeries,
  lampForward_V: 2.9,
});

const colour = (name: string, lumens_per_m: number, lampForward_V: number): StripChannel => ({
  name,
  watts_per_m: 4.8,
  lumens_per_m,
  cct_K: null,
  lampsInSeries: 6,
  lampForward_V,
});

type Entry = Readonly<StripData> & { readonly id: string };

export const stripCatalogue: readonly Entry[] = [
  {
    ...common,
    id: '12V-4.8W',
    name: '12 V 4.8 W/m, 60 lamps/m',
    nominal_V: 12,
    channels: [white(4.8, 430, 3000, 3)],
    unitsPerMetre: 20,
    lampsPerMetre: 60,
    width_mm: 8,
    railPositive_mohm_per_m: 82.1,
    railReturn_mohm_per_m: 82.1,
  },
  {
    ...common,
    id: '12V-9.6W',
    name: '12 V 9.6 W/m, 120 lamps/m',
    nominal_V: 12,
    channels: [white(9.6, 860, 3000, 3)],
    unitsPerMetre: 40,
    lampsPerMetre: 120,
  },
  {
    ...common,
    id: '24V-3.6W',
    name: '24 V 3.6 W/m, 168 lamps/m',
    nominal_V: 24,
    channels: [white(3.6, 400, 2700, 7)],
    unitsPerMetre: 24,
    lampsPerMetre: 168,
  },
  {
    ...common,
    id: '24V-4.8W',
    name: '24 V 4.8 W/m, 120 lamps/m',
    nominal_V: 24,
    channels: [white(4.8, 480, 2700, 6)],
    unitsPerMetre: 20,
    lampsPerMetre: 120,
  },
  {
    ...common,
    id: '24V-9.6W',
    name: '24 V 9.6 W/m, 120 lamps/m',
    nominal_V: 24,
    channels: [white(9.6, 960, 3000, 6)],
    unitsPerMetre: 20,
    lampsPerMetre: 120,
  },
  {
    ...common,
    id: '24V-14.4W',
    name: '24 V 14.4 W/m, 168 lamps/m',
    nominal_V: 24,
    channels: [white(14.4, 1500, 3000, 7)],
    unitsPerMetre: 24,
    lampsPerMetre: 168,
  },
  {
    ...common,
    id: '24V-9.6W-regulated',
    name: '24 V 9.6 W/m, 120 lamps/m, regulated current',
    nominal_V: 24,
    law: 'regulated',
    channels: [white(9.6, 940, 3000, 6)],
    unitsPerMetre: 20,
    lampsPerMetre: 120,
    longestRun_mm: 10000,
  },
  {
    ...common,
    id: '48V-9.6W-regulated',
    name: '48 V 9.6 W/m, 140 lamps/m, regulated current',
    nominal_V: 48,
    law: 'regulated',
    channels: [white(9.6, 980, 3000, 14)],
    unitsPerMetre: 10,
    lampsPerMetre: 140,
    reel_mm: 10000,
    longestRun_mm: 20000,
  },
  {
    ...common,
    id: '24V-2x9.6W-two-white',
    name: '24 V 2 × 9.6 W/m, two-channel white, 240 lamps/m',
    nominal_V: 24,
    channels: [
      { ...white(9.6, 860, 2700, 6), name: 'warm white' },
      { ...white(9.6, 920, 5000, 6), name: 'cool white' },
    ],
    unitsPerMetre: 20,
    lampsPerMetre: 240,
    railReturn_mohm_per_m: 123,
  },
  {
    ...common,
    id: '24V-4x4.8W-four-channel',
    name: '24 V 4 × 4.8 W/m, red, green, blue and white, 84 lamps/m',
    nominal_V: 24,
    channels: [
      colour('red', 110, 2.1),
      colour('green', 260, 2.9),
      colour('blue', 55, 2.9),
      { ...white(4.8, 400, 3000, 6) },
    ],
    unitsPerMetre: 14,
    lampsPerMetre: 84,
    width_mm: 12,
    railReturn_mohm_per_m: 164,
  },
];
