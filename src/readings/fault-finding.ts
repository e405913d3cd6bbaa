import { type Fault, type Fit, fitFaults, type MeasuredValues, type ReadingModel } from './fault-fit.ts';

/** A fault the readings leave open, with how likely it is among those compared. */
interface Suspect {
  readonly fault: Fault;
  /** Posterior probability, all explanations being equally likely before the readings; 0 to 1. */
  readonly posterior: number;
  /** Standard deviation of the ohms. */
  readonly ohmSpread: number;
}

/** What the readings say. `sentence` is for the reader; suspects are listed most likely first. */
export interface FaultFinding {
  readonly verdict: 'as predicted' | 'found' | 'cannot tell';
  readonly suspects: readonly Suspect[];
  /** What explains the readings best, whether or not that is well enough. */
  readonly best: Fault;
  readonly readingCount: number;
  /** Weighted sum of squares of the best explanation, to be compared with `goodFit`. */
  readonly chiSquare: number;
  readonly goodFit: number;
  readonly sentence: string;
}

/** A place is named when all other explanations together are less likely than this. */
const mostDoubt = 0.01;
/** Standard normal deviate a sum of squares passes once in a thousand times by chance. */
const rare = 3.09;

/**
 * Sum of squares that chance passes once in a thousand: `n*(1 - 2/(9n) + z*sqrt(2/(9n)))^3`.
 * Source: Wilson and Hilferty, The distribution of chi-square, 1931 (from memory). Check: `hand-over-chi-*`.
 */
export function goodFitLimit(freedomCount: number): number {
  const n = Math.max(1, freedomCount);
  return n * (1 - 2 / (9 * n) + rare * Math.sqrt(2 / (9 * n))) ** 3;
}

function suspectsOf(fits: readonly Fit[]): Suspect[] {
  const least = Math.min(...fits.map((fit) => fit.chiSquare));
  const weights = fits.map((fit) => Math.exp((least - fit.chiSquare) / 2));
  const all = weights.reduce((sum, w) => sum + w, 0);
  return fits
    .map(({ fault, ohmSpread }, i) => ({ fault, ohmSpread, posterior: weights[i]! / all }))
    .toSorted((a, b) => b.posterior - a.posterior);
}

/** The most likely suspects that together leave less doubt than `mostDoubt`. */
function shortlist(suspects: readonly Suspect[]): Suspect[] {
  let sum = 0;
  const enough = suspects.findIndex((suspect) => {
    sum += suspect.posterior;
    return sum >= 1 - mostDoubt;
  });
  return suspects.slice(0, enough + 1);
}

function describe({ fault, ohmSpread }: Suspect): string {
  if (fault.kind === 'none') return 'nothing wrong';
  if (fault.kind === 'open circuit') return `an open circuit at ${fault.place}`;
  if (fault.kind === 'missing run') return `run ${fault.place}, which draws nothing`;
  if (fault.kind === 'unfed run') return `run ${fault.place}, which draws nothing because no volts reach it`;
  return `an extra ${fault.ohm.toFixed(2)} Ω (give or take ${(2 * ohmSpread).toFixed(2)} Ω) at ${fault.place}`;
}

function openSentence(suspects: readonly Suspect[]): string {
  const shown = suspects.slice(0, 4).map(describe).join('; or ');
  const more = suspects.length > 4 ? `; or ${suspects.length - 4} more` : '';
  return `The readings do not determine the place: ${shown}${more}. Measure again nearer to these places.`;
}

const text = {
  none: 'There is no reading to judge yet.',
  sound: 'The readings agree with the prediction within the errors of the meters.',
  poor: 'No single fault explains the readings: more than one place may be wrong, or a reading or a set value is. Check the rows out of their bands one by one.',
} as const;

interface Evidence {
  readonly fits: readonly Fit[];
  readonly readingCount: number;
}

function conclude({ fits, readingCount }: Evidence): FaultFinding {
  const sound = fits[0]!;
  const best = fits.reduce((a, b) => (b.chiSquare < a.chiSquare ? b : a));
  const common = {
    best: best.fault,
    readingCount,
    chiSquare: best.chiSquare,
    goodFit: goodFitLimit(readingCount - 1),
  };
  // Looking in many places finds something by chance in one of them: ask more of the best, the more there are.
  const faulty = sound.chiSquare - best.chiSquare > 2 * Math.log(fits.length / mostDoubt);
  const poor = (faulty ? best.chiSquare : sound.chiSquare) > common.goodFit;
  if (readingCount === 0 || poor)
    return { verdict: 'cannot tell', suspects: [], sentence: poor ? text.poor : text.none, ...common };
  if (!faulty) return { verdict: 'as predicted', suspects: [], sentence: text.sound, ...common };
  const suspects = shortlist(suspectsOf(fits));
  return suspects.length > 1
    ? { verdict: 'cannot tell', suspects, sentence: openSentence(suspects), ...common }
    : { verdict: 'found', suspects, sentence: `The readings point to ${describe(suspects[0]!)}.`, ...common };
}

/**
 * Compares the readings with the sound installation and with every single fault, and names a fault only when it
 * explains the readings, beats the sound installation by more than looking in many places would by chance
 * (`2*ln(explanations/0.01)` in chi-square), and leaves less than 0.01 of the posterior to all others; otherwise it says
 * that the readings do not tell, with the suspects that remain.
 *
 * @param model predicts all readings under a fault, in the order of the readings; a network solver stands behind it
 * @param values measured, null where not measured; each with its spread; shifts shared by many readings (meter
 *   gain, driver voltage, strip power) each as one list along the readings
 * Holds for one fault at a time and errors near normal. Two places in one line between the same readings cannot be
 * told apart and are both named as suspects.
 * Source: Bayes with equal priors, normal errors. Check: `tests/readings/fault-finding.test.ts`.
 */
export function findFault(model: ReadingModel, values: MeasuredValues): FaultFinding {
  const count = values.measured.length;
  if (values.spread.length !== count || values.shifts.some((shift) => shift.length !== count))
    throw new RangeError('readings, spreads and shifts must be of one length');
  if (values.spread.some((spread) => !(spread > 0))) throw new RangeError('every spread must be above 0');
  const readingCount = values.measured.filter((y) => y !== null).length;
  return conclude({ fits: fitFaults(model, values), readingCount });
}
