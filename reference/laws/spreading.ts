/**
 * Excess of a strip over the mean of the plate that carries it, per the fin equation with a film on one side:
 * mean over the strip `q*(1 - C*sinh(ma)/(ma)) - q*a/L`, peak `q*(1 - C) - q*a/L`, with `q = P/(2a*h)`,
 * `m = sqrt(h/(lambda*t))`, `C = sinh(m(L - a))/sinh(mL)`.
 *
 * @param plate heat_W_per_m of the whole strip; halfStrip_m above 0 and at most halfWidth_m; the rest above 0
 * @returns rises in kelvin, zero where the strip is as wide as the plate
 *
 * Holds where the plate is thin against `1/m` and nothing leaves through its other face.
 * Source: fin equation, e.g. Incropera et al., ch. 3 (closed form derived). Check: `heat-fin-line-source`.
 */
export function plateSpreading(plate: {
  readonly heat_W_per_m: number;
  readonly halfStrip_m: number;
  readonly halfWidth_m: number;
  readonly thickness_m: number;
  readonly conductivity_W_per_mK: number;
  readonly film_W_per_m2K: number;
}): { readonly mean_K: number; readonly peak_K: number } {
  const { halfStrip_m: a, halfWidth_m: L, film_W_per_m2K: h } = plate;
  if (!(a > 0 && a <= L * (1 + 1e-12))) throw new RangeError(`half strip ${a} m on half width ${L} m`);
  const m = Math.sqrt(h / (plate.conductivity_W_per_mK * plate.thickness_m));
  const under_K = plate.heat_W_per_m / (2 * a * h);
  const even_K = (under_K * a) / L;
  const c = sinhRatio(m * (L - a), m * L);
  return {
    mean_K: under_K * (1 - (c * Math.sinh(m * a)) / (m * a)) - even_K,
    peak_K: under_K * (1 - c) - even_K,
  };
}

/** `sinh(x)/sinh(y)` for 0 <= x <= y, without overflow. */
function sinhRatio(x: number, y: number): number {
  return (Math.exp(x - y) * -Math.expm1(-2 * x)) / -Math.expm1(-2 * y);
}
