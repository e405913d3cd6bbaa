/**
 * Middles of `count` equal shares of `whole` in order, `(2k - 1)/(2n) * whole`.
 *
 * @param count whole, above 0
 */
export function middlesOfShares(count: number, whole: number): number[] {
  return Array.from({ length: count }, (_, k) => ((2 * k + 1) * whole) / (2 * count));
}
