/**
 * Frequencies above which pulses of full depth are of low risk, and without observable effect.
 * Source: IEEE 1789-2015 (from memory); the curves below them are in `reference/laws/flicker.ts`.
 */
export const fullModulationFrom_Hz = { lowRisk: 1250, noEffect: 3000 } as const;

/** A pulsed dimmer whose data sheet nobody has looked at (common practice): 5 us clean, 12 bits. */
export const usualDimmer = { shortestPulse_s: 5e-6, stepCount: 4096 } as const;

/**
 * Lowest dim level of a pulsed dimmer: the longer of its shortest pulse and one step of its resolution,
 * `max(f*t_min, 1/steps)`.
 *
 * @param dimmer pulse frequency, shortest pulse the output passes cleanly (rise and fall, cable included), and
 *   how many steps the dimmer has (4096 for 12 bits).
 * @returns share of full light, 0 to 1; the eye reads a share s as about `sqrt(s)` of full.
 * @throws RangeError when a value is not positive.
 * Source: arithmetic of a pulse train. Check: `tests/light/screen.test.ts`.
 */
export function lowestDimLevel(dimmer: {
  readonly frequency_Hz: number;
  readonly shortestPulse_s: number;
  readonly stepCount: number;
}): number {
  const { frequency_Hz, shortestPulse_s, stepCount } = dimmer;
  if (!(frequency_Hz > 0 && shortestPulse_s >= 0 && stepCount >= 1)) {
    throw new RangeError('frequency and steps must be positive, the shortest pulse not negative');
  }
  return Math.min(1, Math.max(frequency_Hz * shortestPulse_s, 1 / stepCount));
}
