import { ambientDerating, usableWatts } from '../src/drivers/derating.ts';
import { leastEfficiency } from '../src/drivers/efficiency.ts';
import { type BreakerCurve, noTripPeak_A } from '../src/drivers/mains.ts';
import type { Check } from './check.ts';

const iec60898 =
  'IEC 60898-1, instantaneous bands B 3 to 5, C 5 to 10, D 10 to 20 In (table 7); peak m·In·√2 by hand';

/** Switch-on peak a breaker surely rides through, A: curve, rating, value as tabled. */
const peaks: readonly (readonly [BreakerCurve, number, number])[] = [
  ['B', 6, 25.5],
  ['B', 10, 42.4],
  ['B', 16, 67.9],
  ['B', 20, 84.9],
  ['C', 6, 42.4],
  ['C', 10, 70.7],
  ['C', 16, 113],
  ['C', 20, 141],
  ['D', 10, 141],
  ['D', 16, 226],
];

const peakChecks: readonly Check[] = peaks.map(([curve, rating_A, printed]) => ({
  id: `drivers-breaker-${curve}${rating_A}-peak`,
  topic: 'drivers',
  quantity: `Switch-on peak a ${curve}${rating_A} breaker rides through`,
  source: iec60898,
  standing: 'derived',
  unit: 'A',
  printed,
  computed: noTripPeak_A({ curve, rating_A }),
  tolerance: { absolute: printed < 100 ? 0.05 : 0.5 },
}));

/** Drivers on a breaker relative to a C16, %, as a lighting manual prints them (cut to whole percent). */
const ratios: readonly (readonly [BreakerCurve, number, number])[] = [
  ['B', 10, 37],
  ['B', 16, 60],
  ['B', 20, 75],
  ['C', 10, 62],
  ['C', 16, 100],
  ['C', 20, 125],
];

const ratioChecks: readonly Check[] = ratios.map(([curve, rating_A, printed]) => ({
  id: `drivers-breaker-${curve}${rating_A}-ratio`,
  topic: 'drivers',
  quantity: `Drivers on a ${curve}${rating_A} relative to a C16`,
  source: 'Breaker table of a luminaire manual, relative to C16 = 100 % (fractions cut off)',
  standing: 'secondary',
  unit: '%',
  printed,
  computed: (100 * noTripPeak_A({ curve, rating_A })) / noTripPeak_A({ curve: 'C', rating_A: 16 }),
  tolerance: { absolute: 0.75 },
}));

/** Least full-load efficiency, rated watts and value. */
const efficiencies: readonly (readonly [number, number])[] = [
  [15, 0.755],
  [20, 0.784],
  [30, 0.817],
  [40, 0.836],
  [60, 0.858],
  [75, 0.867],
  [100, 0.877],
  [120, 0.882],
  [150, 0.888],
  [200, 0.894],
  [240, 0.897],
  [320, 0.901],
];

const efficiencyChecks: readonly Check[] = efficiencies.map(([rated_W, printed]) => ({
  id: `drivers-efficiency-${rated_W}W`,
  topic: 'drivers',
  quantity: `Least full-load efficiency of a ${rated_W} W driver`,
  source: 'Commission Regulation (EU) 2019/2020, annex II, P^0.81/(1.09·P^0.81+2.10), by hand',
  standing: 'memory',
  unit: '1',
  printed,
  computed: leastEfficiency(rated_W),
  tolerance: { absolute: 0.001 },
}));

const rating = { rated_W: 100, fullLoadAmbient_degC: 50, derating_per_K: 0.025, highestAmbient_degC: 70 };

const deratingChecks: readonly Check[] = [
  [50, 1],
  [60, 0.75],
  [70, 0.5],
].map(([ambient_degC, printed]) => ({
  id: `drivers-derating-${ambient_degC}degC`,
  topic: 'drivers',
  quantity: `Derating at ${ambient_degC} °C`,
  source: 'Driver data sheets, common practice: 100 % to 50 °C, then −2.5 %/K to 70 °C',
  standing: 'secondary',
  unit: '1',
  printed: printed!,
  computed: ambientDerating(rating, ambient_degC!),
  tolerance: { absolute: 1e-12 },
}));

const usableCheck: Check = {
  id: 'drivers-usable-30W-56degC',
  topic: 'drivers',
  quantity: 'Usable watts of a 30 W driver, 15 % derated, 20 % reserve',
  source: 'rated × derating × (1 − reserve), by hand: 30 × 0.85 × 0.8',
  standing: 'derived',
  unit: 'W',
  printed: 20.4,
  computed: usableWatts({ ...rating, rated_W: 30 }, { ambient_degC: 56, reserve: 0.2 }),
  tolerance: { absolute: 1e-9 },
};

export const driversChecks: readonly Check[] = [
  ...peakChecks,
  ...ratioChecks,
  ...efficiencyChecks,
  ...deratingChecks,
  usableCheck,
];
