/** A lit slot as the eye meets it. */
export interface GlareSource {
  readonly luminance_cd_per_m2: number;
  /** Lit area projected towards the eye. */
  readonly area_m2: number;
  readonly distance_m: number;
  /** Guth's position index: 1 on the line of sight, more beside it. */
  readonly positionIndex: number;
}

/** Smallest projected area the plain formula holds for. */
const smallSource_m2 = 0.005;

/** `L^2*omega/p^2` of one source; a small one by its intensity, as `200*I^2/(r^2*p^2)`. */
function glareShare(source: GlareSource): number {
  const { luminance_cd_per_m2: L, area_m2: A, distance_m: r, positionIndex: p } = source;
  if (!(L >= 0 && A > 0 && r > 0 && p >= 1))
    throw new RangeError('area and distance above 0, position index from 1');
  const area = A < smallSource_m2 ? 200 * A * A : A;
  return (L * L * area) / (r * r * p * p);
}

/**
 * Unified glare rating, `UGR = 8*log10((0.25/L_b)*sum(L^2*omega/p^2))`, `omega = area/distance^2`.
 *
 * @param sources every lit slot in view. @param background_cd_per_m2 mean luminance of the rest of the view, above 0.
 * @returns UGR; 10 is hardly noticed, 19 the limit of office work, 22 usual in living rooms. Minus infinity becomes 0.
 * @throws RangeError for areas, distances or a background that are not positive.
 * Holds for sources of 0.005 to 1.5 m2; smaller ones by CIE 147. Too kind to bare lamps: they glare more.
 * Source: CIE 117 (secondary copy), CIE 147 (from memory). Check: `ugr-*` in `reference/light.checks.ts`.
 */
export function unifiedGlareRating(sources: readonly GlareSource[], background_cd_per_m2: number): number {
  if (!(background_cd_per_m2 > 0)) throw new RangeError('background luminance must be positive');
  const sum = sources.reduce((total, source) => total + glareShare(source), 0);
  return Math.max(0, 8 * Math.log10(Math.max(Number.MIN_VALUE, (0.25 / background_cd_per_m2) * sum)));
}

/**
 * Luminance at which one slot reaches a glare rating: the formula of {@link unifiedGlareRating} turned round.
 *
 * @returns cd/m2. Check: `ugr-19-luminance` in `reference/light.checks.ts`.
 */
export function luminanceAtRating(
  rating: number,
  source: Omit<GlareSource, 'luminance_cd_per_m2'>,
  background_cd_per_m2: number,
): number {
  const perSquare = glareShare({ ...source, luminance_cd_per_m2: 1 });
  return Math.sqrt((10 ** (rating / 8) * background_cd_per_m2) / (0.25 * perSquare));
}
