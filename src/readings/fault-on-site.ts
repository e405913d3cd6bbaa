import { type FaultFinding, findFault } from './fault-finding.ts';
import { type Fault, likeliestShifts, type MeasuredValues, type ReadingModel } from './fault-fit.ts';
import { measuredValues, type Reading } from './readings.ts';

/** The installation as a model of its readings, with what a site may have otherwise than planned. */
export interface SiteModel extends ReadingModel {
  /** What one standard deviation of each unknown of the site does to every reading. */
  readonly shifts: readonly (readonly number[])[];
}

/**
 * The model with its unknowns where the readings put them, in standard deviations from the plan, and its shifts as
 * they are with a fault there: a run without volts does not follow its driver.
 */
export type ModelOfSite = (site: readonly number[], fault: Fault) => SiteModel;

/** Where the unknowns may be put, in standard deviations: a fault must not pass for a strange site. */
const furthest = 3;
/** The site is settled when no unknown moves by more than this, in standard deviations. */
const settled = 0.3;
const mostRounds = 4;

/** The readings as a model has them under a fault: what the meters' gains act on. */
function valuesUnder(fault: Fault, model: SiteModel, readings: readonly Reading[]): MeasuredValues {
  const predicted = model.predict(fault);
  const under = readings.map((reading, i) => ({ ...reading, predicted: predicted[i]! }));
  return measuredValues(under, model.shifts);
}

function likeliestSite(model: SiteModel, values: MeasuredValues, fault: Fault): number[] {
  return likeliestShifts(model, values, fault)
    .slice(-model.shifts.length)
    .map((x) => Math.min(furthest, Math.max(-furthest, x)));
}

const samePlace = (a: Fault, b: Fault): boolean =>
  a.kind === b.kind && (a.kind === 'none' || b.kind === 'none' || a.place === b.place);

/**
 * Finds the fault in an installation whose volts, watts and copper are not quite as planned. What an extra
 * resistance does to the readings depends on the current through it, and what the site does depends on the fault,
 * so the model is first put where the readings of a sound installation would have it, and then where they have it
 * with the best fault so far, until both stay (four rounds at most).
 *
 * @param modelOfSite predicts the given readings in their order; its shifts are one standard deviation each
 * @param readings those measured
 * Source: Gauss-Newton with prior knowledge of the unknowns. Check: `tests/readings/reading-model.test.ts`.
 */
export function findFaultOnSite(modelOfSite: ModelOfSite, readings: readonly Reading[]): FaultFinding {
  let fault: Fault = { kind: 'none' };
  const planned = modelOfSite([], fault);
  let site = likeliestSite(planned, valuesUnder(fault, planned, readings), fault);
  for (let round = 1; ; round++) {
    const model = modelOfSite(site, fault);
    const values = valuesUnder(fault, model, readings);
    const finding = findFault(model, values);
    const next = likeliestSite(model, values, finding.best);
    const moved = Math.max(0, ...next.map((x, k) => Math.abs(x - site[k]!)));
    const stays = finding.verdict === 'as predicted' || samePlace(finding.best, fault);
    if ((stays && moved < settled) || round === mostRounds) return finding;
    site = next;
    fault = finding.verdict === 'as predicted' ? { kind: 'none' } : finding.best;
  }
}
