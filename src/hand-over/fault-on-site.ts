import { type FaultFinding, findFault } from './fault-finding.ts';
import { type Fault, likeliestShifts, type MeasuredValues, type ReadingModel } from './fault-fit.ts';
import { measuredValues, type Reading } from './readings.ts';

/** The installation as a model of its readings, with what a site may have otherwise than planned. */
export interface SiteModel extends ReadingModel {
  /** What one standard deviation of each unknown of the site does to every reading. */
  readonly shifts: readonly (readonly number[])[];
}

/** The model with its unknowns where the readings put them, in standard deviations from the plan. */
export type ModelOfSite = (site: readonly number[]) => SiteModel;

/** Where the unknowns may be put, in standard deviations: a fault must not pass for a strange site. */
const furthest = 3;
/** The site is settled when no unknown moves by more than this, in standard deviations. */
const settled = 0.3;
const mostRounds = 3;

function likeliestSite(model: SiteModel, values: MeasuredValues, fault: Fault): number[] {
  return likeliestShifts(model, values, fault)
    .slice(-model.shifts.length)
    .map((x) => Math.min(furthest, Math.max(-furthest, x)));
}

/**
 * Finds the fault in an installation whose volts, watts and copper are not quite as planned. What an extra
 * resistance does to the readings depends on the current through it, so the model is first put where the readings
 * say the site is, and again once a fault is known, until it stays (three rounds at most).
 *
 * @param modelOfSite predicts the given readings in their order; its shifts are one standard deviation each
 * @param readings those measured, one or more
 * Source: Gauss-Newton with prior knowledge of the unknowns. Check: `tests/joining/reading-model.test.ts`.
 */
export function findFaultOnSite(modelOfSite: ModelOfSite, readings: readonly Reading[]): FaultFinding {
  const planned = modelOfSite([]);
  let site = likeliestSite(planned, measuredValues(readings, planned.shifts), { kind: 'none' });
  for (let round = 1; ; round++) {
    const model = modelOfSite(site);
    const values = measuredValues(readings, model.shifts);
    const finding = findFault(model, values);
    const next = likeliestSite(model, values, finding.best);
    const moved = Math.max(0, ...next.map((x, k) => Math.abs(x - site[k]!)));
    if (moved < settled || round === mostRounds) return finding;
    site = next;
  }
}
