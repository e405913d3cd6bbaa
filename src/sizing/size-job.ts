import type { DriversAnswer } from '../answer/drivers.ts';
import type { Finding } from '../answer/findings.ts';
import type { HeatAnswer } from '../answer/heat.ts';
import type { Sizing } from '../answer/sizing.ts';
import type { CircuitIssue } from '../circuit/issues.ts';
import { describeDrivers } from '../drivers/answer.ts';
import type { DriversIssue } from '../drivers/issues.ts';
import type { Sized } from '../findings/context.ts';
import { findAll } from '../findings/find-all.ts';
import { priceOf } from '../hand-over/bill.ts';
import { cautionsFor } from '../hand-over/cautions.ts';
import { schedulesOf } from '../hand-over/schedules.ts';
import type { HeatIssue } from '../heat/issues.ts';
import type { InstallationIssue } from '../installation/issues.ts';
import type { JobIssue } from '../job/issues.ts';
import type { Job } from '../job/job.ts';
import { driverChoices, driverModels } from '../job/products.ts';
import { setVoltage_V } from '../job/resolve.ts';
import type { LightIssue } from '../light/issues.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import { barsOf } from '../set-out/bars.ts';
import type { SetOutIssue } from '../set-out/issues.ts';
import { nearEdge_mm, sectionPitch_mm } from '../set-out/pitch.ts';
import { engineVersion } from '../version.ts';
import { cableAnswers } from './cable-answer.ts';
import { circuitAnswer, outputOfRuns } from './circuit-answer.ts';
import { conditionsOf } from './conditions-of-job.ts';
import { dimmerLoss_W, solvedDimmers } from './dimmer-answer.ts';
import { averageOfOutputs } from './dimming-of-job.ts';
import { solvedOutputs } from './drivers-of-job.ts';
import { heatAnswer } from './heat-answer.ts';
import { heatOfWidths } from './heat-of-widths.ts';
import { hungAnswer } from './hung-answer.ts';
import { casesOf, installationAnswer } from './installation-answer.ts';
import { placedInJob } from './job-fields.ts';
import { limits } from './limits.ts';
import { eachOnce, notesOn } from './notes.ts';
import { describedHeatQuestion, heatQuestion, prepare } from './prepare.ts';
import type { Prepared } from './prepared.ts';
import { roomAnswer } from './room-answer.ts';
import { sectionAnswer } from './section-answer.ts';
import { airAt, type Settled, settle } from './settle.ts';
import { standby_W } from './standby-answer.ts';
import { type ToleranceAnswer, toleranceAnswer } from './tolerance-answer.ts';

/** Every reason a job can be refused for. */
export type SizingIssue =
  | JobIssue
  | SetOutIssue
  | CircuitIssue
  | InstallationIssue
  | DriversIssue
  | HeatIssue
  | LightIssue;

/** Heat of the dimmers behind the outputs of a place, with their channels on for a share of the time each. */
function dimmersIn_W(
  place: number,
  { allocation, wired, solution }: Settled,
  shares: ReadonlyMap<string, number>,
): number {
  const here = allocation.drivers.filter((driver) => driver.place === place);
  const outputs = new Set(here.flatMap((driver) => driver.outputs.map(({ id }) => id)));
  return solvedDimmers(wired, solution)
    .filter(({ output }) => outputs.has(output))
    .reduce((sum, dimmer) => sum + dimmerLoss_W(dimmer, shares.get(dimmer.output)!), 0);
}

function driversAnswer(
  prepared: Prepared,
  settled: Settled,
  tolerance: ToleranceAnswer | null,
): DriversAnswer {
  const { job, products } = prepared;
  const shares = averageOfOutputs(settled.allocation, prepared);
  const isFull = [...shares.values()].every((share) => share === 1);
  const air_degC = isFull ? settled.air_degC : airAt(prepared, settled, settled.solution, shares);
  const { layouts } = settled.wired.installation;
  const driverIds = new Set(settled.allocation.drivers.map(({ id }) => id));
  return describeDrivers({
    allocation: settled.allocation,
    models: driverModels(products).map((driver, i) => ({
      ...driver,
      isPerBreakerPrinted: typeof driverChoices(job)[i]!.data.perBreakerB16 === 'number',
      isInrushPrinted: typeof driverChoices(job)[i]!.data.inrush_A === 'number',
    })),
    places: job.drivers.places.map((place, i) => ({
      ...place,
      ...casesOf(layouts[i]!, driverIds),
      air_degC: air_degC[i]!,
      fullAir_degC: settled.air_degC[i]!,
      dimmers_W: dimmersIn_W(i, settled, shares),
    })),
    mains_V: job.site.mains_V,
    breaker: { curve: job.site.breakerCurve, rating_A: job.site.breaker_A },
    standby_W: standby_W(job, products, settled.allocation),
    solved: solvedOutputs(settled.solution, prepared, shares),
    ...(tolerance ? { bands: tolerance.outputs } : {}),
  });
}

/** How much trouble is taken: `quick` follows every keystroke, `careful` is what papers are written from. */
export type Accuracy = Sizing['accuracy'];

/** Heat and tolerances of a settled job, as the accuracy asks. */
interface Depth {
  readonly heat: HeatAnswer;
  readonly tolerance: ToleranceAnswer | null;
}

function heatOf(prepared: Prepared, settled: Settled): Outcome<HeatAnswer, HeatIssue | CircuitIssue> {
  const question = heatQuestion(prepared, settled);
  return question.ok ? heatOfWidths(question.value, prepared.others ?? []) : question;
}

function depthOf(prepared: Prepared, settled: Settled, accuracy: Accuracy): Outcome<Depth, SizingIssue> {
  const heat = heatOf(prepared, settled);
  if (!heat.ok) return heat;
  if (accuracy === 'quick') return found({ heat: heat.value, tolerance: null }, heat.notes);
  const tolerance = toleranceAnswer(settled);
  if (!tolerance.ok) return tolerance;
  return found({ heat: heat.value, tolerance: tolerance.value }, heat.notes);
}

/** What both the checks and the papers of a job are made from. */
type Answers = Omit<
  Sizing,
  'engine' | 'accuracy' | 'findings' | 'cautions' | 'schedules' | 'price' | 'notes'
>;

/** Every answer to a job, as its checks and its papers read them. */
function answered(
  prepared: Prepared,
  settled: Settled,
  { heat, tolerance }: Depth,
): Answers & Pick<Sized, 'job' | 'limits'> {
  const { wired, solution } = settled;
  const { job, products, setOut, light } = prepared;
  const drivers = driversAnswer(prepared, settled, tolerance);
  const outputs = drivers.drivers.flatMap((driver) =>
    driver.outputs.map((output) => ({ ...output, driver: driver.id })),
  );
  const circuit = circuitAnswer(settled, setOut, outputOfRuns(outputs), tolerance);
  const cables = cableAnswers(solution, wired);
  const section = sectionAnswer(job, products, sectionPitch_mm(setOut, job), nearEdge_mm(setOut, job));
  return {
    products,
    set_V: setVoltage_V(job, products),
    section,
    setOut,
    bars: barsOf(setOut, products),
    cables,
    installation: installationAnswer(settled, cables),
    circuit,
    drivers,
    light,
    roomLight: roomAnswer(prepared, settled),
    hung: hungAnswer({ prepared, section, cables }),
    heat,
    conditions: conditionsOf(job, products, light.zones),
    job,
    limits,
  };
}

function assemble(
  prepared: Prepared,
  settled: Settled,
  accuracy: Accuracy,
  depth: Depth,
): Outcome<Sizing, SizingIssue> {
  const sized = answered(prepared, settled, depth);
  const { job: _job, limits: _limits, ...answers } = sized;
  return found({
    engine: engineVersion,
    accuracy,
    ...answers,
    findings: findAll(sized),
    cautions: cautionsFor(sized),
    schedules: schedulesOf(sized),
    price: priceOf(sized),
    notes: [],
  });
}

/** What a job comes to and every check of it, without its papers. */
export interface Judged {
  readonly sized: Sized & Pick<Sizing, 'set_V' | 'bars'>;
  readonly findings: readonly Finding[];
}

/**
 * Answers and checks of a job whose section is solved already: what many jobs with one section are compared by. The
 * numbers are those of `sizeAt` at the accuracy of the section's law. Refuses as `settle` and the questions after it.
 * Check: `tests/sizing/judged.test.ts`.
 */
export function judged(prepared: Prepared, settled: Settled): Outcome<Judged, SizingIssue> {
  const depth = depthOf(prepared, settled, prepared.law.accuracy);
  if (!depth.ok) return depth;
  const sized = answered(prepared, settled, depth.value);
  return found({ sized, findings: findAll(sized) });
}

/**
 * `judged` quickly, but for temperatures of the section: its findings about heat are those of the watts as described, without a
 * band, and not to be used. Refuses as the questions after `settle`. Check: `tests/sizing/judged.test.ts`.
 */
export function judgedButForHeat(prepared: Prepared, settled: Settled): Outcome<Judged, SizingIssue> {
  const heat = heatAnswer(describedHeatQuestion(prepared, settled));
  if (!heat.ok) return heat;
  const sized = answered(prepared, settled, { heat: heat.value, tolerance: null });
  return found({ sized, findings: findAll(sized) });
}

/** The answer to a job, and the settled circuit it was read off. */
export interface SettledSizing {
  readonly sizing: Sizing;
  readonly settled: Settled;
}

function sizeUnplaced(job: Job, accuracy: Accuracy): Outcome<SettledSizing, SizingIssue> {
  const prepared = prepare(job, accuracy);
  if (!prepared.ok) return prepared;
  const settled = settle(prepared.value);
  if (!settled.ok) return settled;
  const depth = depthOf(prepared.value, settled.value, accuracy);
  if (!depth.ok) return depth;
  const answer = assemble(prepared.value, settled.value, accuracy, depth.value);
  if (!answer.ok) return answer;
  const { unknown } = depth.value.heat;
  const notes = [
    ...notesOn('section', unknown === null ? [] : [unknown], { onCover: true }),
    ...settled.value.notes,
    ...notesOn('section', [...prepared.notes, ...depth.notes]),
  ];
  return found({ sizing: { ...answer.value, notes: eachOnce(notes) }, settled: settled.value });
}

/**
 * The whole answer to a job: set-out, light, then drivers, cables, volts and temperatures until they agree, heat
 * of the section, every finding, and the rows of the papers. Pure: the same job gives the same answer.
 *
 * @param accuracy `quick`: the section's field without the mesh that confirms it, solved once for every section; volts,
 * light and loads as described; follows every keystroke. `careful`: the field confirmed, and volts, light and loads in
 * every combination of tolerances; some ten times slower, what papers and revisions are written from. Both judge
 * heat by the warm end of a band that takes in the watts over the tolerances, and warm the circuit by the same law.
 * Refuses with every issue of the first question that says no. Check: `tests/sizing/size-job.test.ts`.
 */
export function sizeAt(job: Job, accuracy: Accuracy): Outcome<Sizing, SizingIssue> {
  const answer = settledSizing(job, accuracy);
  return answer.ok ? found(answer.value.sizing) : answer;
}

/** The same together with the settled circuit, for what asks on. Refuses as `sizeAt`. */
export function settledSizing(job: Job, accuracy: Accuracy): Outcome<SettledSizing, SizingIssue> {
  const answer = sizeUnplaced(job, accuracy);
  return answer.ok ? answer : refused(...placedInJob(answer.issues));
}

/** `sizeAt` quickly. */
export const sizeJob = (job: Job): Outcome<Sizing, SizingIssue> => sizeAt(job, 'quick');

/** `sizeAt` carefully. */
export const sizeJobCarefully = (job: Job): Outcome<Sizing, SizingIssue> => sizeAt(job, 'careful');
