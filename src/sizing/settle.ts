import type { LightAnswer, Note, SetOut } from '../answer/sizing.ts';
import type { CircuitDescription } from '../circuit/description.ts';
import type { CircuitIssue } from '../circuit/issues.ts';
import type { CircuitSolution } from '../circuit/solution.ts';
import { solveWarm } from '../circuit/warm.ts';
import type { Allocation } from '../drivers/allocation.ts';
import type { DriversIssue } from '../drivers/issues.ts';
import type { HeatIssue } from '../heat/issues.ts';
import type { SectionDescription } from '../heat/section-description.ts';
import type { Job } from '../job/job.ts';
import type { Products } from '../job/resolve.ts';
import { found, type Outcome } from '../outcome.ts';
import { layCables } from '../set-out/cable-ways.ts';
import type { SetOutIssue } from '../set-out/issues.ts';
import { circuitOfJob, type WiredJob } from './circuit-of-job.ts';
import { allocate, loadsOf, nominalWatts, outputsToLay, solvedWatts, stillHolds } from './drivers-of-job.ts';
import { type HeatLaw, stripTemperature_degC } from './heat-law.ts';
import { nominal_W_per_m } from './light-of-job.ts';
import { notesOn } from './notes.ts';
import { placeAir_degC } from './pocket-of-job.ts';

/** What is fixed before anything electrical is known. */
export interface Prepared {
  readonly job: Job;
  readonly products: Products;
  readonly setOut: SetOut;
  readonly light: LightAnswer;
  readonly section: SectionDescription;
  /** How the strip and everything about it warm with its watts. */
  readonly law: HeatLaw;
}

/** A job whose drivers, cables, volts and temperatures agree with one another. */
export interface Settled {
  readonly allocation: Allocation;
  readonly wired: WiredJob;
  /** The circuit as solved, every run at its own temperature. */
  readonly description: CircuitDescription;
  readonly solution: CircuitSolution;
  /** Of each run, in the order of the set-out. */
  readonly strip_degC: readonly number[];
  /** Air at each driver place with the watts solved. */
  readonly air_degC: readonly number[];
  readonly notes: readonly Note[];
}

type SettleIssue = DriversIssue | SetOutIssue | CircuitIssue | HeatIssue;

const mostRounds = 5;
const restless = `Drivers and loads had not settled after ${mostRounds} rounds; what is shown is the last sharing-out that was solved. Choose a larger driver to be clear of the limit.`;

function wire(prepared: Prepared, allocation: Allocation): Outcome<WiredJob, SetOutIssue> {
  const { job, products, setOut } = prepared;
  const outputs = outputsToLay(allocation, job);
  const cables = layCables(outputs, setOut.runs, job.panel.height_mm, job.cables);
  if (!cables.ok) return cables;
  return found({ job, products, runs: setOut.runs, cables: cables.value, outputs: outputs.map((o) => o.id) });
}

/** A strip that would be warmer than this at its nominal watts is begun here; if it runs away, that is then said. */
const hottestStart_degC = 150;

type Warm = Pick<Settled, 'solution' | 'description' | 'strip_degC'>;

/** Strip temperature and watts until they agree: warm lamps draw more, and more watts warm them. */
function warmCircuit(prepared: Prepared, wired: WiredJob, start_degC: number): Outcome<Warm, CircuitIssue> {
  const description = circuitOfJob(wired, () => Math.min(start_degC, hottestStart_degC));
  const warm = solveWarm(description, ({ watts_per_m }) => stripTemperature_degC(prepared.law, watts_per_m));
  if (!warm.ok) return warm;
  const { circuit, strip_degC } = warm.value;
  return found(
    { solution: circuit, strip_degC, description: circuitOfJob(wired, (i) => strip_degC[i]!) },
    warm.notes,
  );
}

/** Air at each driver place from what its drivers lose, at a share of the watts solved. */
export function airAt(
  prepared: Prepared,
  allocation: Allocation,
  solution: CircuitSolution,
  share = 1,
): Outcome<number[], HeatIssue> {
  const { job, products } = prepared;
  const delivered = new Map(solution.sources.map((source) => [source.id, source.out_W]));
  const air_degC: number[] = [];
  for (const [i, place] of job.drivers.places.entries()) {
    const here = allocation.drivers
      .filter((driver) => driver.place === i)
      .flatMap((driver) => driver.outputs);
    const out_W = share * here.reduce((sum, output) => sum + delivered.get(output.id)!, 0);
    const air = placeAir_degC(place, out_W / products.driver.efficiency - out_W, job.site.room_degC);
    if (!air.ok) return air;
    air_degC.push(air.value);
  }
  return found(air_degC);
}

const sharing = (allocation: Allocation): string =>
  JSON.stringify(allocation.drivers.map((d) => [d.place, d.outputs.map((o) => o.runs)]));

/**
 * Drivers, cables, volts and temperatures until they agree: share out nominal loads, lay cables, solve, warm the
 * strip, find the air at the drivers, derate, and share out again. Settled when the sharing-out repeats, or still
 * holds and a fresh one would save no driver (equal loads may swap places for ever); after five rounds a note says
 * so. Refuses what any of its steps refuses.
 */
export function settle(prepared: Prepared): Outcome<Settled, SettleIssue> {
  const { job, products, setOut } = prepared;
  const start_degC = job.drivers.places.map(() => job.site.room_degC);
  const first = shareOut(prepared, nominalWatts(setOut, products), start_degC);
  if (!first.ok) return first;
  const nominal_degC = stripTemperature_degC(prepared.law, nominal_W_per_m(products.strip));
  let settled = solveShared(prepared, first.value, nominal_degC);
  for (let round = 1; settled.ok; round++) {
    const { allocation, wired, solution, air_degC, strip_degC } = settled.value;
    const watts = solvedWatts(solution, wired, allocation);
    const fresh = shareOut(prepared, watts, air_degC);
    if (!fresh.ok) return fresh;
    const loads = loadsOf(job, setOut.runs, watts);
    const saves = fresh.value.drivers.length < allocation.drivers.length;
    const repeats = sharing(fresh.value) === sharing(allocation);
    if (repeats || (!saves && stillHolds(allocation, { job, products, loads, air_degC }))) return settled;
    if (round === mostRounds)
      return found({
        ...settled.value,
        notes: [...settled.value.notes, ...notesOn('drivers', [restless], { onCover: true })],
      });
    settled = solveShared(prepared, fresh.value, strip_degC[0]!);
  }
  return settled;
}

function shareOut(prepared: Prepared, watts: readonly number[], air_degC: readonly number[]) {
  const { job, products, setOut } = prepared;
  return allocate(job, products, loadsOf(job, setOut.runs, watts), air_degC);
}

/** Cables, volts and temperatures of one sharing-out. */
function solveShared(
  prepared: Prepared,
  allocation: Allocation,
  start_degC: number,
): Outcome<Settled, SettleIssue> {
  const wired = wire(prepared, allocation);
  if (!wired.ok) return wired;
  const warm = warmCircuit(prepared, wired.value, start_degC);
  if (!warm.ok) return warm;
  const air = airAt(prepared, allocation, warm.value.solution);
  if (!air.ok) return air;
  return found({
    allocation,
    wired: wired.value,
    ...warm.value,
    air_degC: air.value,
    notes: notesOn('drivers', warm.notes),
  });
}
