import type { Cable } from '../answer/cables.ts';
import { type CableCapacity, cableCapacity } from './cable-capacity.ts';
import type { CableProduct, CountedPath } from './plan.ts';
import { worstStretch } from './worst-stretch.ts';

/** Flexible cord sizes with a tabled rating, mm2. */
const ratedAreas_mm2 = [0.5, 0.75, 1, 1.5, 2.5, 4] as const;

/** What a cable may carry, and the index of the stretch that decides it. */
export interface CableRating {
  readonly capacity_A: number;
  /** What the capacity is the product of. */
  readonly rating: Cable['rating'];
  readonly worstStretch: number;
  /** Where the rating goes beyond its tables; null where it does not. */
  readonly capacityNote: string | null;
}

const factorsOf = ({ at30_A: table_A, ambientFactor, groupingFactor }: CableCapacity) => ({
  ...{ table_A, ambientFactor, groupingFactor },
});

const nothing = { table_A: 0, ambientFactor: 0, groupingFactor: 1, sizeFactor: 1 } as const;

/**
 * Rating of a flexible cord of any area where it lies worst: that of the next tabled size below, and below 0.5 mm2 in
 * proportion to the area, both on the careful side, times the factors of the stretch where they are least together; 0
 * where its insulation stands no current at all.
 * @param stretches of its whole way, at least one
 * Check: `tests/installation/cable-rating.test.ts`.
 */
export function rateCable(
  { area_mm2, limit_degC }: Pick<CableProduct, 'area_mm2' | 'limit_degC'>,
  stretches: readonly CountedPath[],
): CableRating {
  const { stretch } = worstStretch(stretches, limit_degC);
  const tabled = ratedAreas_mm2.findLast((area) => area <= area_mm2 + 1e-9) ?? ratedAreas_mm2[0];
  const capacity = cableCapacity({
    area_mm2: tabled,
    method: 'flexible',
    ambient_degC: stretch.air_degC,
    circuitCount: stretch.togetherCount,
    isInThermalInsulation: false,
    limit_degC,
  });
  const sizeFactor = Math.min(1, area_mm2 / tabled);
  return {
    capacity_A: capacity.ok ? capacity.value.capacity_A * sizeFactor : 0,
    rating: capacity.ok ? { ...factorsOf(capacity.value), sizeFactor } : nothing,
    worstStretch: stretches.indexOf(stretch),
    capacityNote: capacity.ok ? (capacity.notes[0] ?? null) : null,
  };
}
