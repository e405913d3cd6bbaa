import type { AskedCircuit, AskedHeat, AskedLight } from '../answer/asked.ts';
import type { Job } from '../job/job.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import { unknownIssue } from '../sizing/heat-unknown.ts';
import { placedInJob } from '../sizing/job-fields.ts';
import { heatQuestion, prepare } from '../sizing/prepare.ts';
import type { Prepared } from '../sizing/prepared.ts';
import { type Settled, settle } from '../sizing/settle.ts';
import type { SizingIssue } from '../sizing/size-job.ts';
import { askCircuit } from './circuit.ts';
import { askHeat } from './heat.ts';
import { askLight } from './light.ts';

/** Depths and watts are asked of one section; the answer to the job judges every width by its own. */
const severalWidths =
  'Depths, watts and variants are asked of slots of one width, and these have several. The temperatures of the job are those of every width: change depth or strip and look at them, or give all slots one width to ask.';

interface Ready {
  readonly prepared: Prepared;
  readonly settled: Settled;
}

function ready(job: Job): Outcome<Ready, SizingIssue> {
  const prepared = prepare(job, 'quick');
  if (!prepared.ok) return refused(...placedInJob(prepared.issues));
  const settled = settle(prepared.value);
  if (!settled.ok) return refused(...placedInJob(settled.issues));
  return found({ prepared: prepared.value, settled: settled.value });
}

/** How long a run, how thin a cable, how few feed points would do, and which volts to set. Refuses as `sizeJob`. */
export function askJobCircuit(job: Job): Outcome<AskedCircuit, SizingIssue> {
  const at = ready(job);
  return at.ok ? askCircuit(at.value.prepared, at.value.settled) : at;
}

/** Which depths and powers pass, and what an aluminium flat or an open slot changes. Refuses as `sizeJob`. */
export function askJobHeat(job: Job): Outcome<AskedHeat, SizingIssue> {
  const at = ready(job);
  if (!at.ok) return at;
  if (at.value.prepared.others) return refused(unknownIssue(severalWidths));
  const question = heatQuestion(at.value.prepared, at.value.settled);
  return question.ok ? askHeat(question.value) : question;
}

/** Which strip gives the wanted brightness, what that saves, and what hides the lamps. Refuses as `sizeJob`. */
export function askJobLight(job: Job): Outcome<AskedLight, SizingIssue> {
  const at = ready(job);
  return at.ok ? askLight(at.value.prepared, at.value.settled) : at;
}
