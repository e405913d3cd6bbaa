import type { AskedCircuit, AskedHeat, AskedLight } from './asked.ts';
import type { Job } from './job/job.ts';
import { askCircuit } from './joining/ask-circuit.ts';
import { askHeat } from './joining/ask-heat.ts';
import { askLight } from './joining/ask-light.ts';
import { build, heatQuestion } from './joining/build.ts';
import { placedInJob } from './joining/job-fields.ts';
import { type Built, type Settled, settle } from './joining/settle.ts';
import { found, type Outcome, refused } from './outcome.ts';
import type { SizingIssue } from './size-job.ts';

interface Ready {
  readonly built: Built;
  readonly settled: Settled;
}

function ready(job: Job): Outcome<Ready, SizingIssue> {
  const built = build(job);
  if (!built.ok) return refused(...built.issues.map(placedInJob));
  const settled = settle(built.value);
  if (!settled.ok) return refused(...settled.issues.map(placedInJob));
  return found({ built: built.value, settled: settled.value });
}

/** How long a run, how thin a cable, how few feed points would do, and which volts to set. Refuses as `sizeJob`. */
export function askJobCircuit(job: Job): Outcome<AskedCircuit, SizingIssue> {
  const at = ready(job);
  return at.ok ? askCircuit(at.value.built, at.value.settled) : at;
}

/** Which depths and powers pass, and what a carrier or an open slot changes. Refuses as `sizeJob`. */
export function askJobHeat(job: Job): Outcome<AskedHeat, SizingIssue> {
  const at = ready(job);
  return at.ok ? askHeat(heatQuestion(at.value.built, at.value.settled)) : at;
}

/** Which strip gives the wanted brightness, what that saves, and what hides the lamps. Refuses as `sizeJob`. */
export function askJobLight(job: Job): Outcome<AskedLight, SizingIssue> {
  const at = ready(job);
  return at.ok ? askLight(at.value.built, at.value.settled) : at;
}
