import { type Air, airAt, gravity_m_per_s2, standardPressure_Pa } from './air.ts';

/** Discharge coefficient of a sharp-edged opening, 0.60 to 0.65 (BS 5925:1991; CIBSE 0.61; from memory). */
const dischargeCoefficient = 0.6;

/** Head lost where a stream turns into or out of a channel, in velocity heads (judgement). */
const turningLoss = 1.5;

/**
 * Air through one tall opening by its own buoyancy, in below and out above:
 * `Q = Cd*A/3*sqrt(g*H*dT/Tm)`, zero where the inside is not warmer.
 *
 * @param opening area_m2 and height_m above 0, inside_K and outside_K
 * @returns m3/s; Holds where nothing but the opening hinders the air, so it overstates a shallow cavity
 * Source: BS 5925:1991, table 12, single-sided, due to temperature difference (from memory).
 * Check: `heat-bs5925-single-sided`.
 */
export function singleSidedFlow_m3_per_s(opening: {
  readonly area_m2: number;
  readonly height_m: number;
  readonly inside_K: number;
  readonly outside_K: number;
}): number {
  const difference_K = opening.inside_K - opening.outside_K;
  if (!(difference_K > 0)) return 0;
  const mean_K = (opening.inside_K + opening.outside_K) / 2;
  const speed = Math.sqrt((gravity_m_per_s2 * opening.height_m * difference_K) / mean_K);
  return ((dischargeCoefficient * opening.area_m2) / 3) * speed;
}

/**
 * The same opening with a shallow cavity behind it in series. The buoyant head `rho*g*H*dT/Tm` drives
 * the opening, `rho*(3*Q/(Cd*A))^2`, and the way up the cavity: friction between two plates over half the
 * height, `12*mu*(H/2)*v/d^2`, and the turns in and out, `1.5*rho*v^2/2`, with `v = Q/(d*W)`.
 *
 * @param channel depth_m and width_m of the cavity behind, above 0
 * @returns m3/s, never more than `singleSidedFlow_m3_per_s`
 * Holds as an order of magnitude. Source: BS 5925 and plane Poiseuille flow; putting them in series, the
 * half height and the turning loss are judgement. Check: both limits in `tests/heat/openings.test.ts`.
 */
export function channelledFlow_m3_per_s(
  opening: Parameters<typeof singleSidedFlow_m3_per_s>[0],
  channel: { readonly depth_m: number; readonly width_m: number },
): number {
  const difference_K = opening.inside_K - opening.outside_K;
  if (!(difference_K > 0)) return 0;
  const mean_K = (opening.inside_K + opening.outside_K) / 2;
  const air = airAt(mean_K);
  const head_Pa = (air.density_kg_per_m3 * gravity_m_per_s2 * opening.height_m * difference_K) / mean_K;
  const passage_m2 = channel.depth_m * channel.width_m;
  const quadratic =
    air.density_kg_per_m3 *
    ((3 / (dischargeCoefficient * opening.area_m2)) ** 2 + turningLoss / (2 * passage_m2 ** 2));
  const linear = (6 * air.dynamicViscosity_Pas * opening.height_m) / (channel.depth_m ** 2 * passage_m2);
  return positiveRoot({ quadratic, linear, head_Pa });
}

/** Positive root of `quadratic*Q^2 + linear*Q = head`, in the form that does not cancel. */
function positiveRoot(p: { quadratic: number; linear: number; head_Pa: number }): number {
  return (2 * p.head_Pa) / (p.linear + Math.sqrt(p.linear ** 2 + 4 * p.quadratic * p.head_Pa));
}

/**
 * Stack flow through a low and a high vent: `Q = Cd*A*sqrt(2*g*H*dT/Ti)` with `1/A^2 = 1/A1^2 + 1/A2^2`.
 *
 * @param vents free areas above 0, rise_m between their middles, inside_K and outside_K
 * @returns m3/s, zero where the inside is not warmer
 * Source: ASHRAE Handbook of Fundamentals, ch. 16 (form secondary). Check: `heat-stack-*`.
 */
export function stackFlow_m3_per_s(vents: {
  readonly low_m2: number;
  readonly high_m2: number;
  readonly rise_m: number;
  readonly inside_K: number;
  readonly outside_K: number;
}): number {
  const difference_K = vents.inside_K - vents.outside_K;
  if (!(difference_K > 0)) return 0;
  const area_m2 = 1 / Math.sqrt(1 / vents.low_m2 ** 2 + 1 / vents.high_m2 ** 2);
  const speed = Math.sqrt((2 * gravity_m_per_s2 * vents.rise_m * difference_K) / vents.inside_K);
  return dischargeCoefficient * area_m2 * speed;
}

/** Heat a stream carries per kelvin, `rho*cp*Q`. */
export function carried_W_per_K(
  flow_m3_per_s: number,
  air: Pick<Air, 'density_kg_per_m3' | 'heatCapacity_J_per_kgK'> = airAt(293.15, standardPressure_Pa),
): number {
  return air.density_kg_per_m3 * air.heatCapacity_J_per_kgK * flow_m3_per_s;
}
