import type { DriversAnswer, HeatAnswer, Sizing } from '../answer/sizing.ts';
import type { CircuitIssue } from '../circuit/issues.ts';
import { describeDrivers } from '../drivers/answer.ts';
import type { DriversIssue } from '../drivers/issues.ts';
import { findAll } from '../findings/find-all.ts';
import { cautionsFor } from '../hand-over/cautions.ts';
import { schedulesOf } from '../hand-over/schedules.ts';
import type { HeatIssue } from '../heat/issues.ts';
import type { JobIssue } from '../job/issues.ts';
import type { Job } from '../job/job.ts';
import type { LightIssue } from '../light/issues.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import type { SetOutIssue } from '../set-out/issues.ts';
import { isUpright } from '../set-out/pitch.ts';
import { cableAnswers } from './cable-answer.ts';
import { circuitAnswer, outputOfRuns } from './circuit-answer.ts';
import { solvedOutputs } from './drivers-of-job.ts';
import { heatByField } from './field-answer.ts';
import { heatByHand } from './heat-answer.ts';
import { placedInJob } from './job-fields.ts';
import { limits } from './limits.ts';
import { build, heatQuestion } from './prepare.ts';
import { type Built, type Settled, settle } from './settle.ts';
import { type ToleranceAnswer, toleranceAnswer } from './tolerance-answer.ts';

/** Every reason a job can be refused for. */
export type SizingIssue = JobIssue | SetOutIssue | CircuitIssue | DriversIssue | HeatIssue | LightIssue;

/** Version of the engine, printed on papers and kept with every issued revision. */
export const engineVersion = '0.1.0';

function driversAnswer(built: Built, settled: Settled, tolerance: ToleranceAnswer | null): DriversAnswer {
  const { job, products } = built;
  return describeDrivers({
    allocation: settled.allocation,
    driver: products.driver,
    places: job.drivers.places.map((place, i) => ({ ...place, air_degC: settled.air_degC[i]! })),
    mains_V: job.site.mains_V,
    breaker: { curve: job.site.breakerCurve, rating_A: job.site.breaker_A },
    solved: solvedOutputs(settled.solution),
    ...(tolerance ? { bands: tolerance.outputs } : {}),
  });
}

/** What the slow questions add to a settled job. */
interface Care {
  readonly care: Sizing['care'];
  readonly heat: HeatAnswer;
  readonly tolerance: ToleranceAnswer | null;
}

function quickly(built: Built, settled: Settled): Outcome<Care, SizingIssue> {
  const heat = heatByHand(heatQuestion(built, settled));
  return heat.ok ? found({ care: 'quick', heat: heat.value, tolerance: null }) : heat;
}

function carefully(built: Built, settled: Settled): Outcome<Care, SizingIssue> {
  const heat = heatByField(heatQuestion(built, settled));
  if (!heat.ok) return heat;
  const tolerance = toleranceAnswer(settled);
  if (!tolerance.ok) return tolerance;
  return found({ care: 'careful', heat: heat.value, tolerance: tolerance.value }, heat.notes);
}

function assemble(built: Built, settled: Settled, care: Care): Outcome<Sizing, SizingIssue> {
  const { wired, solution } = settled;
  const cables = cableAnswers(solution, wired);
  if (!cables.ok) return cables;
  const drivers = driversAnswer(built, settled, care.tolerance);
  const outputs = drivers.drivers.flatMap((driver) =>
    driver.outputs.map((output) => ({ ...output, driver: driver.id })),
  );
  const circuit = circuitAnswer(solution, wired, outputOfRuns(outputs), care.tolerance);
  const { job, products, setOut, light } = built;
  const sized = {
    job,
    products,
    setOut,
    cables: cables.value,
    circuit,
    drivers,
    light,
    heat: care.heat,
    limits,
  };
  return found({
    engine: engineVersion,
    care: care.care,
    ...{ setOut, cables: cables.value, circuit, drivers, light, heat: care.heat },
    findings: findAll(sized),
    cautions: cautionsFor(sized),
    schedules: schedulesOf(sized),
    notes: [],
  });
}

function sizeUnplaced(job: Job, how: typeof quickly): Outcome<Sizing, SizingIssue> {
  const built = build(job);
  if (!built.ok) return built;
  const settled = settle(built.value);
  if (!settled.ok) return settled;
  const care = how(built.value, settled.value);
  if (!care.ok) return care;
  const answer = assemble(built.value, settled.value, care.value);
  if (!answer.ok) return answer;
  const upright = isUpright(built.value.setOut) ? [] : [slopingNote];
  const notes = [...built.notes, ...settled.value.notes, ...care.notes, ...upright];
  return found({ ...answer.value, notes: [...new Set(notes)] });
}

function size(job: Job, how: typeof quickly): Outcome<Sizing, SizingIssue> {
  const answer = sizeUnplaced(job, how);
  return answer.ok ? answer : refused(...answer.issues.map(placedInJob));
}

const slopingNote =
  'Some slots do not stand upright: air moves otherwise in a sloping or level cavity, and the temperatures shown do not hold for them.';

/**
 * The whole answer to a job: set-out, light, then drivers, cables, volts and temperatures until they agree, heat
 * of the section by the hand method, every finding, and the rows of the papers. Pure: the same job gives the same
 * answer. Quick enough to follow every keystroke.
 *
 * Refuses with every issue of the first question that says no. Check: `tests/sizing/size-job.test.ts`.
 */
export function sizeJob(job: Job): Outcome<Sizing, SizingIssue> {
  return size(job, quickly);
}

/**
 * The same answer with care: heat from the two-dimensional field with its band, and volts, light and loads in every
 * combination of tolerances. Some hundred times slower; what papers and revisions are written from.
 *
 * Refuses as `sizeJob`. Check: `tests/sizing/size-job.test.ts`.
 */
export function sizeJobCarefully(job: Job): Outcome<Sizing, SizingIssue> {
  return size(job, carefully);
}
