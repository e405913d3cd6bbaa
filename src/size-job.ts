import type { CircuitIssue } from './circuit/issues.ts';
import { describeDrivers } from './drivers/answer.ts';
import type { DriversIssue } from './drivers/issues.ts';
import { findAll } from './findings/find-all.ts';
import { cautionsFor } from './hand-over/cautions.ts';
import { schedulesOf } from './hand-over/schedules.ts';
import type { HeatIssue } from './heat/issues.ts';
import type { JobIssue } from './job/issues.ts';
import type { Job } from './job/job.ts';
import { resolveProducts } from './job/resolve.ts';
import { cableAnswers } from './joining/cable-answer.ts';
import { circuitAnswer, outputOfRuns, worstPower_W_per_m } from './joining/circuit-answer.ts';
import { solvedOutputs } from './joining/drivers-of-job.ts';
import { heatByHand, loadsOfStrip } from './joining/heat-answer.ts';
import { lightAnswer } from './joining/light-answer.ts';
import { sectionOfJob } from './joining/section-of-job.ts';
import { type Built, type Settled, settle } from './joining/settle.ts';
import type { LightIssue } from './light/issues.ts';
import { found, type Outcome } from './outcome.ts';
import type { SetOutIssue } from './set-out/issues.ts';
import { setOutJob } from './set-out/set-out.ts';
import type { DriversAnswer, HeatAnswer, Sizing } from './sizing.ts';

/** Every reason a job can be refused for. */
export type SizingIssue = JobIssue | SetOutIssue | CircuitIssue | DriversIssue | HeatIssue | LightIssue;

/** Version of the engine, printed on papers and kept with every issued revision. */
export const engineVersion = '0.1.0';

/** What is settled before anything electrical is known: products, set-out, light and the section. */
function build(job: Job): Outcome<Built, SizingIssue> {
  const products = resolveProducts(job);
  if (!products.ok) return products;
  const setOut = setOutJob(job, products.value.strip);
  if (!setOut.ok) return setOut;
  const light = lightAnswer(job, products.value.strip, setOut.value);
  if (!light.ok) return light;
  const section = sectionOfJob(job, products.value.strip, setOut.value);
  return found(
    { job, products: products.value, setOut: setOut.value, light: light.value, section },
    light.notes,
  );
}

function driversAnswer(built: Built, settled: Settled): DriversAnswer {
  const { job, products } = built;
  return describeDrivers({
    allocation: settled.allocation,
    driver: products.driver,
    places: job.drivers.places.map((place, i) => ({ ...place, air_degC: settled.air_degC[i]! })),
    mains_V: job.site.mains_V,
    breaker: { curve: job.site.breakerCurve, rating_A: job.site.breaker_A },
    solved: solvedOutputs(settled.solution),
  });
}

function heatAnswer(built: Built, settled: Settled): Outcome<HeatAnswer, HeatIssue> {
  const { job, products, section, light } = built;
  const electrical_W_per_m = worstPower_W_per_m(settled.solution, products.strip.unitsPerMetre);
  const loads = loadsOfStrip(electrical_W_per_m, products.strip, light);
  return heatByHand({ job, strip: products.strip, section, loads, electrical_W_per_m });
}

/**
 * The whole answer to a job: set-out, light, then drivers, cables, volts and temperatures until they agree, heat
 * of the section, every finding, and the rows of the papers. Pure: the same job gives the same answer.
 *
 * Refuses with every issue of the first question that says no. Checks: `tests/size-job.test.ts`.
 */
export function sizeJob(job: Job): Outcome<Sizing, SizingIssue> {
  const built = build(job);
  if (!built.ok) return built;
  const settled = settle(built.value);
  if (!settled.ok) return settled;
  const heat = heatAnswer(built.value, settled.value);
  if (!heat.ok) return heat;
  const { wired, solution } = settled.value;
  const drivers = driversAnswer(built.value, settled.value);
  const outputs = drivers.drivers.flatMap((driver) =>
    driver.outputs.map((output) => ({ ...output, driver: driver.id })),
  );
  const cables = cableAnswers(solution, wired);
  const circuit = circuitAnswer(solution, wired, outputOfRuns(outputs));
  const { products, setOut, light } = built.value;
  const sized = { job, products, setOut, cables, circuit, drivers, light, heat: heat.value };
  return found({
    engine: engineVersion,
    ...{ setOut, cables, circuit, drivers, light, heat: heat.value },
    findings: findAll(sized),
    cautions: cautionsFor(sized),
    schedules: schedulesOf(sized),
    notes: [...built.notes, ...settled.value.notes],
  });
}
