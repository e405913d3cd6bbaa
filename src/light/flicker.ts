/** How flicker at one frequency stands to the two curves of the recommended practice. */
export type FlickerWord = 'no-observable-effect' | 'low-risk' | 'above-low-risk';

/** A verdict on flicker. */
export interface FlickerVerdict {
  readonly word: FlickerWord;
  /** Largest modulation the low-risk curve allows at this frequency, 0 to 1. */
  readonly lowRiskModulation: number;
  /** Largest modulation without observable effect, 0 to 1. */
  readonly noEffectModulation: number;
  readonly sentence: string;
}

/** Frequencies from which full modulation is within the curve. */
export const fullModulationFrom_Hz = { lowRisk: 1250, noEffect: 3000 } as const;

/** Largest modulation of the low-risk curve: 0.025*f % below 90 Hz, 0.08*f % to 1250 Hz, free above. */
function lowRiskModulation(frequency_Hz: number): number {
  if (frequency_Hz > fullModulationFrom_Hz.lowRisk) return 1;
  return Math.min(1, (frequency_Hz < 90 ? 0.025 : 0.08) * 0.01 * frequency_Hz);
}

/** Largest modulation without observable effect: 0.01*f % below 90 Hz, 0.0333*f % to 3000 Hz, free above. */
function noEffectModulation(frequency_Hz: number): number {
  if (frequency_Hz > fullModulationFrom_Hz.noEffect) return 1;
  return Math.min(1, (frequency_Hz < 90 ? 0.01 : 0.0333) * 0.01 * frequency_Hz);
}

const sentences: Readonly<Record<FlickerWord, string>> = {
  'no-observable-effect': 'The dimming is too fast to be noticed in any way.',
  'low-risk': 'The dimming is fast enough for a low risk; moving things may still show in steps.',
  'above-low-risk':
    'The dimming is slow enough to be noticed and may trouble some people. Use a dimmer above 1,250 Hz, better above 3,000 Hz.',
};

/**
 * Where a dimmer's flicker lies against IEEE 1789.
 *
 * @param flicker pulse frequency, above 0 Hz; modulation `(max-min)/(max+min)` of the light, 0 to 1: a pulsed
 *   dimmer below full is 1.
 * @throws RangeError outside those ranges.
 * Source: IEEE 1789-2015, low-risk and no-observable-effect curves (from memory).
 * Check: `flicker-*` in `reference/light.checks.ts`.
 */
export function flickerVerdict(flicker: {
  readonly frequency_Hz: number;
  readonly modulation: number;
}): FlickerVerdict {
  const { frequency_Hz, modulation } = flicker;
  if (!(frequency_Hz > 0 && modulation >= 0 && modulation <= 1)) {
    throw new RangeError('frequency must be positive and modulation from 0 to 1');
  }
  const lowRisk = lowRiskModulation(frequency_Hz);
  const noEffect = noEffectModulation(frequency_Hz);
  const word =
    modulation <= noEffect ? 'no-observable-effect' : modulation <= lowRisk ? 'low-risk' : 'above-low-risk';
  return { word, lowRiskModulation: lowRisk, noEffectModulation: noEffect, sentence: sentences[word] };
}

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
