import { freezing_K } from '../constants.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import { type HeatIssue, heatIssue } from './issues.ts';

/** Mean light of the samples at one time, as a share of their light at 0 h. */
export interface MaintenanceReading {
  readonly hours: number;
  readonly maintenance: number;
}

/** Exponential decay `Phi(t) = B*exp(-alpha*t)`. */
export interface Decay {
  readonly alpha_per_h: number;
  readonly b: number;
}

/** A decay fitted to one test, with what it rests on. */
export interface DecayFit extends Decay {
  readonly from_h: number;
  readonly to_h: number;
  readonly readingCount: number;
}

/** A projected life and what may be reported of it. */
export interface ProjectedLife {
  readonly projected_h: number;
  readonly reported_h: number;
  /** The report is cut at a multiple of the test's length and reads "more than". */
  readonly capped: boolean;
}

/**
 * Fits `ln Phi = ln B - alpha*t` by least squares over the last 5000 h of a test of 6000 to 10 000 h, over its last
 * half when longer; nothing before 1000 h.
 *
 * @param readings of one test at one temperature, means over its samples
 * @returns the decay; refused where the test is shorter than 6000 h or the window has fewer than two readings
 * Source: IES TM-21-11, clause 5 (secondary; the last half from memory). Check: `heat-tm21-fit-*`.
 */
export function fitDecay(readings: readonly MaintenanceReading[]): Outcome<DecayFit, HeatIssue> {
  const to_h = readings.reduce((last, r) => Math.max(last, r.hours), 0);
  const from_h = Math.max(1000, to_h > 10_000 ? to_h / 2 : to_h - 5000);
  const used = readings.filter((r) => r.hours >= from_h && r.hours <= to_h);
  if (to_h < 6000 || used.length < 2)
    return refused(
      heatIssue(
        'life-data-too-short',
        { test_h: to_h, readingCount: used.length },
        'The life test is shorter than 6000 h, or has too few readings in its last part. Ask the maker of the strip for a longer one; without it no life is given.',
      ),
    );
  const n = used.length;
  const meanT = used.reduce((sum, r) => sum + r.hours, 0) / n;
  const meanY = used.reduce((sum, r) => sum + Math.log(r.maintenance), 0) / n;
  let [covariance, variance] = [0, 0];
  for (const r of used) {
    covariance += (r.hours - meanT) * (Math.log(r.maintenance) - meanY);
    variance += (r.hours - meanT) ** 2;
  }
  const alpha_per_h = -covariance / variance;
  return found({ alpha_per_h, b: Math.exp(meanY + alpha_per_h * meanT), from_h, to_h, readingCount: n });
}

/** What a report may claim, in lengths of the test: 6 with 20 samples or more, 5.5 with 10 to 19. */
function capRatio(sampleCount: number): number {
  if (sampleCount >= 20) return 6;
  if (sampleCount >= 10) return 5.5;
  throw new RangeError(`${sampleCount} samples: TM-21 asks for 10 or more`);
}

/**
 * Life to a share of the first light, `Lp = ln(B/p)/alpha`, and the part of it that may be reported: at most 6 (5.5)
 * times the length of the test. A decay that does not fall gives the cap.
 *
 * @param test share 0..1, such as 0.7 for L70; test_h its length; sampleCount at least 10
 * Source: IES TM-21-11, clauses 5.2.5 and 6 (secondary). Check: `heat-tm21-*`.
 */
export function projectedLife(
  decay: Decay,
  test: { readonly share: number; readonly test_h: number; readonly sampleCount: number },
): ProjectedLife {
  if (!(test.share > 0 && test.share < 1)) throw new RangeError(`share of light ${test.share}`);
  const cap = capRatio(test.sampleCount) * test.test_h;
  const projected_h =
    decay.alpha_per_h > 0 ? Math.log(decay.b / test.share) / decay.alpha_per_h : Number.POSITIVE_INFINITY;
  const capped = projected_h > cap;
  return {
    projected_h: Number.isFinite(projected_h) ? projected_h : cap,
    reported_h: Math.min(projected_h, cap),
    capped,
  };
}

/** A decay at one tested temperature. */
export interface TestedDecay extends Decay {
  readonly temperature_K: number;
}

/** Decay between two tested temperatures by Arrhenius, with what it was built from. */
export interface InterpolatedDecay extends Decay {
  readonly activation_K: number;
  readonly prefactor_per_h: number;
}

/**
 * Decay in place between two tests: `Ea/kB = (ln a2 - ln a1)/(1/T1 - 1/T2)`, `A = a1*exp(Ea/(kB*T1))`, `B = sqrt(B1*B2)`,
 * `a = A*exp(-Ea/(kB*T))`. Below the cooler test its own decay is used; above the hotter one there is no answer.
 *
 * @param tests two tests in any order; temperature_K of the solder point in place
 * @returns refused above the hotter test; @throws RangeError where a rate is not positive
 * Source: IES TM-21-11, clause 6 (secondary). Check: `heat-tm21-70C-*`.
 */
export function decayBetween(
  tests: readonly [TestedDecay, TestedDecay],
  temperature_K: number,
): Outcome<InterpolatedDecay, HeatIssue> {
  const [cool, hot] = tests[0].temperature_K <= tests[1].temperature_K ? tests : [tests[1], tests[0]];
  if (!(cool.alpha_per_h > 0 && hot.alpha_per_h > 0)) throw new RangeError('a decay must fall with time');
  if (temperature_K > hot.temperature_K)
    return refused(
      heatIssue(
        'life-outside-tested-temperatures',
        { temperature_K, hottest_K: hot.temperature_K },
        `The LED runs at ${(temperature_K - freezing_K).toFixed(0)} °C, hotter than the ${(hot.temperature_K - freezing_K).toFixed(0)} °C it was tested at. Bring it down, or ask for a hotter test; no life is given beyond the tests.`,
      ),
    );
  const activation_K =
    Math.log(hot.alpha_per_h / cool.alpha_per_h) / (1 / cool.temperature_K - 1 / hot.temperature_K);
  const prefactor_per_h = cool.alpha_per_h * Math.exp(activation_K / cool.temperature_K);
  const b = Math.sqrt(cool.b * hot.b);
  if (temperature_K <= cool.temperature_K)
    return found({ alpha_per_h: cool.alpha_per_h, b: cool.b, activation_K, prefactor_per_h });
  const alpha_per_h = prefactor_per_h * Math.exp(-activation_K / temperature_K);
  return found({ alpha_per_h, b, activation_K, prefactor_per_h });
}
