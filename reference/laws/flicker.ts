import { fullModulationFrom_Hz } from '../../src/light/flicker.ts';

/**
 * Largest modulation `(max-min)/(max+min)` of low risk: 0.025*f % below 90 Hz, 0.08*f % to 1250 Hz, free above.
 *
 * @param frequency_Hz of the pulses, above 0. @returns 0 to 1; a pulsed dimmer below full has 1.
 * Source: IEEE 1789-2015, low-risk curve (from memory). Check: `flicker-*` in `reference/light-seen.checks.ts`.
 */
export function lowRiskModulation(frequency_Hz: number): number {
  if (frequency_Hz > fullModulationFrom_Hz.lowRisk) return 1;
  return Math.min(1, (frequency_Hz < 90 ? 0.025 : 0.08) * 0.01 * frequency_Hz);
}

/**
 * Largest modulation without observable effect: 0.01*f % below 90 Hz, 0.0333*f % to 3000 Hz, free above.
 *
 * @param frequency_Hz of the pulses, above 0. @returns 0 to 1.
 * Source: IEEE 1789-2015, no-observable-effect curve (from memory). Check: `tests/light/screen.test.ts`.
 */
export function noEffectModulation(frequency_Hz: number): number {
  if (frequency_Hz > fullModulationFrom_Hz.noEffect) return 1;
  return Math.min(1, (frequency_Hz < 90 ? 0.01 : 0.0333) * 0.01 * frequency_Hz);
}
