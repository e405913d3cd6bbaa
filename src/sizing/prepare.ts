import type { HeatIssue } from '../heat/issues.ts';
import { sectionIssues } from '../heat/section-rules.ts';
import type { JobIssue } from '../job/issues.ts';
import type { Job } from '../job/job.ts';
import { resolveProducts } from '../job/resolve.ts';
import type { LightIssue } from '../light/issues.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import type { SetOutIssue } from '../set-out/issues.ts';
import { setOutJob } from '../set-out/set-out.ts';
import { worstPower_W_per_m } from './circuit-answer.ts';
import { averageShare } from './dimming-of-job.ts';
import type { HeatQuestion } from './heat-answer.ts';
import { loadsOfStrip, stripWarmth } from './heat-loads.ts';
import { lightAnswer } from './light-answer.ts';
import { sectionOfJob } from './section-of-job.ts';
import type { Prepared, Settled } from './settle.ts';

/** What is settled before anything electrical is known: products, set-out, light and the section. */
export function prepare(job: Job): Outcome<Prepared, JobIssue | SetOutIssue | LightIssue | HeatIssue> {
  const products = resolveProducts(job);
  if (!products.ok) return products;
  const { strip } = products.value;
  const setOut = setOutJob(job, strip);
  if (!setOut.ok) return setOut;
  const section = sectionOfJob(job, strip, setOut.value);
  const impossible = sectionIssues(section);
  if (impossible.length > 0) return refused(...impossible);
  const light = lightAnswer({ job, strip, setOut: setOut.value });
  if (!light.ok) return light;
  const warmth = stripWarmth(section, strip, light.value);
  if (!warmth.ok) return warmth;
  const prepared = { job, products: products.value, setOut: setOut.value, light: light.value, section };
  return found({ ...prepared, stripWarmth: warmth.value }, light.notes);
}

/** What the section is asked for heat with: the watts of the unit that draws most, on average where it is switched. */
export function heatQuestion(prepared: Prepared, settled: Settled): HeatQuestion {
  const { job, products, section, light } = prepared;
  const lit_W_per_m = worstPower_W_per_m(settled.solution, products.strip.unitsPerMetre);
  const electrical_W_per_m = lit_W_per_m * averageShare(job, products.strip);
  const loads = loadsOfStrip(electrical_W_per_m, products.strip, light);
  return { job, strip: products.strip, section, loads, electrical_W_per_m };
}
