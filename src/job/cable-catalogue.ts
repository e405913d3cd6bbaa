import type { CableData } from './cable.ts';
import type { Site } from './site.ts';

type Entry = Readonly<CableData> & { readonly id: string };

const coreCounts = [1, 2, 3, 4, 5];

const metric = (id: string, area_mm2: number, conductor_ohm_per_km: number, outer_mm: number): Entry => ({
  id,
  name: `2 × ${area_mm2} mm² fine-wire`,
  area_mm2,
  conductor_ohm_per_km,
  limit_degC: 70,
  outer_mm,
  coreCounts,
  price_cents_per_m: null,
  pricesByCores: [],
});

const gauge = (awg: number, area_mm2: number, conductor_ohm_per_km: number, outer_mm: number): Entry => ({
  id: `awg-${awg}`,
  name: `2 × AWG ${awg}`,
  area_mm2,
  conductor_ohm_per_km,
  limit_degC: 70,
  outer_mm,
  coreCounts,
  price_cents_per_m: null,
  pricesByCores: [],
});

/**
 * Two-core cables. Metric: class 5 flexible copper, maximum resistance at 20 degC of IEC 60228:2004 Table 3
 * (secondary copy). AWG: solid copper by ASTM B258 diameter and 17.241 ohm mm2/km; stranded wire may be higher.
 * Outside diameters are typical: the upper bounds that EN 50525-2-11 sets for round two-core PVC cable (from memory;
 * light duty at 0.5 mm2, ordinary duty above), and for AWG what lies between them by area. A thinner cable has more room.
 * Checks: `reference/circuit.checks.ts` for the formula and the table, `tests/job/catalogue.test.ts` that these
 * numbers are the same.
 */
export const cableCatalogue: readonly Entry[] = [
  metric('0.5mm2', 0.5, 39.0, 5.9),
  metric('0.75mm2', 0.75, 26.0, 7.2),
  metric('1mm2', 1, 19.5, 7.5),
  metric('1.5mm2', 1.5, 13.3, 8.6),
  metric('2.5mm2', 2.5, 7.98, 10.6),
  metric('4mm2', 4, 4.95, 12.1),
  gauge(22, 0.3255, 52.96, 5),
  gauge(20, 0.5176, 33.31, 6),
  gauge(18, 0.823, 20.95, 7.3),
  gauge(16, 1.3087, 13.17, 8.2),
  gauge(14, 2.0809, 8.286, 9.8),
  gauge(12, 3.3088, 5.211, 11.4),
];

/** Entries whose size is a gauge; the others are sized by area. */
const isGauge = (id: string): boolean => id.startsWith('awg-');

/** Sizes on the market where the rules are followed, the thinnest first: gauges under the NEC, else square millimetres. */
export const cablesUnder = (rules: Site['rules']): readonly Entry[] =>
  cableCatalogue
    .filter(({ id }) => isGauge(id) === (rules === 'NEC'))
    .toSorted((a, b) => a.area_mm2 - b.area_mm2);

/** Thicker entries sized the same way as a cable, by gauge or by area, the thinnest first. */
export const thickerThan = ({
  id,
  area_mm2,
}: {
  readonly id: string;
  readonly area_mm2: number;
}): readonly Entry[] => cablesUnder(isGauge(id) ? 'NEC' : 'IEC').filter((entry) => entry.area_mm2 > area_mm2);
