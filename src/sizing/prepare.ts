import type { Sizing } from '../answer/sizing.ts';
import type { CircuitIssue } from '../circuit/issues.ts';
import type { DriversIssue } from '../drivers/issues.ts';
import type { HeatIssue } from '../heat/issues.ts';
import { sectionIssues } from '../heat/section-rules.ts';
import type { InstallationIssue } from '../installation/issues.ts';
import type { JobIssue } from '../job/issues.ts';
import type { Job } from '../job/job.ts';
import { resolveProducts } from '../job/resolve.ts';
import type { LightIssue } from '../light/issues.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import type { SetOutIssue } from '../set-out/issues.ts';
import { setOutJob } from '../set-out/set-out.ts';
import { averagesOfRuns, worstPower_W_per_m } from './circuit-answer.ts';
import type { HeatQuestion } from './heat-answer.ts';
import type { Ends } from './heat-law.ts';
import { loadsOfStrip } from './heat-loads.ts';
import { heatUnknown } from './heat-unknown.ts';
import { ventIssues } from './pocket-of-job.ts';
import type { Prepared } from './prepared.ts';
import { type Settled, shareNominally } from './settle.ts';
import {
  type LitWidth,
  lightOfWidths,
  litByWidth,
  sectionsByWidth,
  type WarmWidth,
  warmestFirst,
} from './slots-by-width.ts';
import { wallIssues } from './wall-of-job.ts';
import { wattsBand } from './watts-band.ts';

/**
 * What is settled before anything electrical is known: products, set-out, light, the section, and the law by which its
 * strip warms, as accurate as asked. What sizing, inverse questions and readings all begin with. The law costs most, so
 * whatever can be refused without it is refused before: loads no driver carries, cables no layout allows.
 */
export function prepare(
  job: Job,
  accuracy: Sizing['accuracy'],
): Outcome<Prepared, JobIssue | SetOutIssue | LightIssue | DriversIssue | InstallationIssue | HeatIssue> {
  const products = resolveProducts(job);
  if (!products.ok) return products;
  const { strip } = products.value;
  const setOut = setOutJob(job, strip, products.value.profile?.endCap_mm ?? 0);
  if (!setOut.ok) return setOut;
  const sections = sectionsByWidth(job, products.value, setOut.value);
  const impossible = [
    ...wallIssues(job),
    ...sections.flatMap(({ section }) => sectionIssues(section)),
    ...ventIssues(job.drivers.places),
  ];
  if (impossible.length > 0) return refused(...impossible);
  const lit = litByWidth(sections, products.value, setOut.value);
  if (!lit.ok) return lit;
  const wall = { products: products.value, setOut: setOut.value, accuracy };
  const shared = shareNominally({ ...wall, ...described(lit.value) });
  if (!shared.ok) return shared;
  const warm = warmestFirst(lit.value, products.value, accuracy);
  if (!warm.ok) return warm;
  const [{ law }, ...others] = warm.value as [WarmWidth, ...WarmWidth[]];
  const asked = { ...wall, ...described(warm.value), law, nominally: shared.value };
  return found(others.length === 0 ? asked : { ...asked, others }, lit.notes);
}

/** The wall as its first width describes it. */
function described(widths: readonly LitWidth[]): Pick<Prepared, 'job' | 'section' | 'light'> {
  const all = widths as readonly [LitWidth, ...LitWidth[]];
  const [{ job, section }] = all;
  return { job, section, light: lightOfWidths(all) };
}

/**
 * What the section is asked for heat with: the watts of the unit that draws most, on average where it is switched, in
 * whichever zone, as described and over the tolerances of the circuit.
 */
export function heatQuestion(prepared: Prepared, settled: Settled): Outcome<HeatQuestion, CircuitIssue> {
  const lit = wattsBand(settled, prepared.law);
  return lit.ok ? found(heatQuestionAt(prepared, settled, lit.value)) : lit;
}

/** The same at the watts as described alone, for who does not ask how warm it gets: the tolerances take longest. */
export function describedHeatQuestion(prepared: Prepared, settled: Settled): HeatQuestion {
  const { unitsPerMetre } = prepared.products.strip;
  const watts_per_m = worstPower_W_per_m(settled.solution, unitsPerMetre, averagesOfRuns(settled.wired));
  return heatQuestionAt(prepared, settled, { least: watts_per_m, greatest: watts_per_m });
}

function heatQuestionAt(prepared: Prepared, settled: Settled, ends_W_per_m: Ends): HeatQuestion {
  const { job, products, section, light, law } = prepared;
  const { strip } = products;
  const averages = averagesOfRuns(settled.wired);
  const electrical_W_per_m = worstPower_W_per_m(settled.solution, strip.unitsPerMetre, averages);
  const loads = loadsOfStrip(electrical_W_per_m, strip, light);
  const unknown = heatUnknown(prepared.setOut.slots, section);
  return {
    job,
    strip,
    profile: products.profile,
    section,
    law,
    loads,
    electrical_W_per_m,
    ends_W_per_m,
    unknown,
  };
}
