import type { CircuitIssue } from '../circuit/issues.ts';
import type { CircuitSolution } from '../circuit/solution.ts';
import { solveCircuit } from '../circuit/solve-circuit.ts';
import type { Allocation } from '../drivers/allocation.ts';
import type { DriversIssue } from '../drivers/issues.ts';
import type { HeatIssue } from '../heat/issues.ts';
import type { SectionDescription } from '../heat/section-description.ts';
import type { Job } from '../job/job.ts';
import type { Products } from '../job/resolve.ts';
import { found, type Outcome } from '../outcome.ts';
import { layCables } from '../set-out/cable-ways.ts';
import type { SetOutIssue } from '../set-out/issues.ts';
import type { LightAnswer, SetOut } from '../sizing.ts';
import { worstPower_W_per_m } from './circuit-answer.ts';
import { circuitOfJob, type WiredJob } from './circuit-of-job.ts';
import { allocate, loadsOf, nominalWatts, outputsToLay, solvedWatts, stillHolds } from './drivers-of-job.ts';
import { loadsOfStrip, stripTemperature_degC } from './heat-answer.ts';
import { pocketAir } from './interim.ts';

/** What is fixed before anything electrical is known. */
export interface Built {
  readonly job: Job;
  readonly products: Products;
  readonly setOut: SetOut;
  readonly light: LightAnswer;
  readonly section: SectionDescription;
}

/** A job whose drivers, cables, volts and temperatures agree with one another. */
export interface Settled {
  readonly allocation: Allocation;
  readonly wired: WiredJob;
  readonly solution: CircuitSolution;
  readonly strip_degC: number;
  /** Air at each driver place. */
  readonly air_degC: readonly number[];
  readonly notes: readonly string[];
}

type SettleIssue = DriversIssue | SetOutIssue | CircuitIssue | HeatIssue;

const mostRounds = 5;
const mostWarmings = 30;
const settled_K = 0.02;
const restless = `Drivers and loads had not settled after ${mostRounds} rounds; what is shown is the last sharing-out that was solved. Choose a larger driver to be clear of the limit.`;

function wire(built: Built, allocation: Allocation): Outcome<WiredJob, SetOutIssue> {
  const { job, products, setOut } = built;
  const outputs = outputsToLay(allocation, job);
  const cables = layCables(outputs, setOut.runs, job.panel.height_mm, job.cables);
  if (!cables.ok) return cables;
  return found({ job, products, runs: setOut.runs, cables: cables.value, outputs: outputs.map((o) => o.id) });
}

interface Warm {
  readonly solution: CircuitSolution;
  readonly strip_degC: number;
}

/** Strip temperature and watts until they agree: warm lamps draw more, and more watts warm them. */
function warmCircuit(
  built: Built,
  wired: WiredJob,
  start_degC: number,
): Outcome<Warm, CircuitIssue | HeatIssue> {
  let strip_degC = start_degC;
  for (let round = 0; ; round++) {
    const solved = solveCircuit(circuitOfJob(wired, strip_degC));
    if (!solved.ok) return solved;
    const power = worstPower_W_per_m(solved.value, built.products.strip.unitsPerMetre);
    const loads = loadsOfStrip(power, built.products.strip, built.light);
    const next = stripTemperature_degC(built.section, loads);
    if (!next.ok) return next;
    if (Math.abs(next.value - strip_degC) < settled_K || round >= mostWarmings) {
      return found({ solution: solved.value, strip_degC }, solved.notes);
    }
    strip_degC = next.value;
  }
}

function airAt(built: Built, allocation: Allocation, solution: CircuitSolution): number[] {
  const { job, products } = built;
  const delivered = new Map(solution.sources.map((source) => [source.id, source.out_W]));
  return job.drivers.places.map((place, i) => {
    const here = allocation.drivers
      .filter((driver) => driver.place === i)
      .flatMap((driver) => driver.outputs);
    const out_W = here.reduce((sum, output) => sum + delivered.get(output.id)!, 0);
    return pocketAir(job.site.room_degC, place, out_W / products.driver.efficiency - out_W);
  });
}

const sharing = (allocation: Allocation): string =>
  JSON.stringify(allocation.drivers.map((d) => [d.place, d.outputs.map((o) => o.runs)]));

/**
 * Drivers, cables, volts and temperatures until they agree: share out nominal loads, lay cables, solve, warm the
 * strip, find the air at the drivers, derate, and share out again. Settled when the sharing-out repeats, or still
 * holds and a fresh one would save no driver (equal loads may swap places for ever); after five rounds a note says
 * so. Refuses what any of its steps refuses.
 */
export function settle(built: Built): Outcome<Settled, SettleIssue> {
  const { job, products, setOut } = built;
  const start_degC = job.drivers.places.map(() => job.site.room_degC);
  const first = shareOut(built, nominalWatts(setOut, products), start_degC);
  if (!first.ok) return first;
  let settled = solveShared(built, first.value, 35);
  for (let round = 1; settled.ok; round++) {
    const { allocation, wired, solution, air_degC, strip_degC } = settled.value;
    const watts = solvedWatts(solution, wired, allocation);
    const fresh = shareOut(built, watts, air_degC);
    if (!fresh.ok) return fresh;
    const loads = loadsOf(job, setOut.runs, watts);
    const saves = fresh.value.drivers.length < allocation.drivers.length;
    const repeats = sharing(fresh.value) === sharing(allocation);
    if (repeats || (!saves && stillHolds(allocation, { job, products, loads, air_degC }))) return settled;
    if (round === mostRounds) return found({ ...settled.value, notes: [...settled.value.notes, restless] });
    settled = solveShared(built, fresh.value, strip_degC);
  }
  return settled;
}

function shareOut(built: Built, watts: readonly number[], air_degC: readonly number[]) {
  const { job, products, setOut } = built;
  return allocate(job, products, loadsOf(job, setOut.runs, watts), air_degC);
}

/** Cables, volts and temperatures of one sharing-out. */
function solveShared(
  built: Built,
  allocation: Allocation,
  start_degC: number,
): Outcome<Settled, SettleIssue> {
  const wired = wire(built, allocation);
  if (!wired.ok) return wired;
  const warm = warmCircuit(built, wired.value, start_degC);
  if (!warm.ok) return warm;
  const air_degC = airAt(built, allocation, warm.value.solution);
  return found({ allocation, wired: wired.value, ...warm.value, air_degC, notes: warm.notes });
}
