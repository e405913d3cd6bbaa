/**
 * Least full-load efficiency of a separate LED driver on the EU market, `P^0.81/(1.09*P^0.81 + 2.10)`: a
 * plausibility check for an efficiency typed in from a data sheet.
 *
 * @param rated_W declared output, above 0
 * @returns 0 to 1
 * Holds for mains drivers placed on the EU market since September 2021; other markets have other floors.
 * Source: Commission Regulation (EU) 2019/2020, annex II (from memory). Check: `drivers-efficiency-*`.
 */
export function leastEfficiency(rated_W: number): number {
  if (!(rated_W > 0)) throw new RangeError(`driver of ${rated_W} W`);
  const p = rated_W ** 0.81;
  return p / (1.09 * p + 2.1);
}
