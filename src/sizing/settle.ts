import type { Note } from '../answer/notes.ts';
import type { CircuitDescription } from '../circuit/description.ts';
import type { CircuitIssue } from '../circuit/issues.ts';
import type { CircuitSolution } from '../circuit/solution.ts';
import { solveWarm } from '../circuit/warm.ts';
import type { Allocation } from '../drivers/allocation.ts';
import type { DriversIssue } from '../drivers/issues.ts';
import { carefulSharing, quickSharing } from '../drivers/share-effort.ts';
import type { HeatIssue } from '../heat/issues.ts';
import type { InstallationIssue } from '../installation/issues.ts';
import { layoutIssue } from '../installation/layouts.ts';
import { planInstallation } from '../installation/plan-installation.ts';
import { wiringOf } from '../job/cable-way.ts';
import { driverModels, modelOf } from '../job/products.ts';
import { found, type Outcome, refused } from '../outcome.ts';
import { circuitOfJob, type WiredJob } from './circuit-of-job.ts';
import { dimmerLoss_W, solvedDimmers } from './dimmer-answer.ts';
import { allocate, loadsOf, nominalWatts, outputsToWire, solvedWatts, stillWorth } from './drivers-of-job.ts';
import { installationOfJob } from './installation-of-job.ts';
import { nominal_W_per_m } from './light-of-job.ts';
import { notesOn } from './notes.ts';
import { placeAir_degC } from './pocket-of-job.ts';
import type { Described, Prepared } from './prepared.ts';
import { givenTemperatureNotes, stripTemperatureOf } from './strip-temperature.ts';

/** Loads shared out over drivers, and the cables that takes. */
interface Shared {
  readonly allocation: Allocation;
  readonly wired: WiredJob;
}

/** A job whose drivers, cables, volts and temperatures agree with one another. */
export interface Settled extends Shared {
  /** The circuit as solved, every run at its own temperature. */
  readonly description: CircuitDescription;
  readonly solution: CircuitSolution;
  /** Of each run, in the order of the set-out. */
  readonly strip_degC: readonly number[];
  /** Air at each driver place with the watts solved. */
  readonly air_degC: readonly number[];
  readonly notes: readonly Note[];
}

type SettleIssue = DriversIssue | InstallationIssue | CircuitIssue | HeatIssue;

const mostRounds = 5;
const restless = `Drivers and loads had not settled after ${mostRounds} rounds; what is shown is the last allocation that was solved. Choose a larger driver to be clear of the limit.`;

/** What is known of loads and warmth before a circuit is solved. */
interface Foreseen {
  readonly watts: readonly number[];
  readonly air_degC: readonly number[];
}

function wire(
  prepared: Prepared,
  allocation: Allocation,
  foreseen: Foreseen,
): Outcome<Shared, InstallationIssue> {
  const { job, products, setOut } = prepared;
  const outputs = outputsToWire(allocation, job);
  const installation = planInstallation(installationOfJob(prepared, outputs, foreseen));
  if (!installation.ok) return installation;
  const wired = {
    ...{ job, products, runs: setOut.runs },
    ...{ installation: installation.value, outputs: outputs.map(({ id }) => id) },
  };
  return found({ allocation, wired });
}

const nominally = (described: Described): Foreseen => ({
  watts: nominalWatts(described.setOut, described.products, described.job),
  air_degC: roomAir_degC(described),
});

/**
 * Nominal loads shared out in the air of the room, and whether the layout can feed the runs: what settling begins with. It
 * needs no temperature, so that what refuses it can be said before the section's field is worked out.
 */
export function shareNominally(described: Described): Outcome<Allocation, DriversIssue | InstallationIssue> {
  const { watts, air_degC } = nominally(described);
  const first = shareOut(described, watts, air_degC);
  if (!first.ok) return first;
  const { job, setOut } = described;
  const issue = layoutIssue(setOut.runs.filter(({ zone }) => wiringOf(job, zone).layout === 'run to run'));
  return issue ? refused(issue) : first;
}

const roomAir_degC = ({ job }: Described): number[] => job.drivers.places.map(() => job.site.room_degC);

/** A strip that would be warmer than this at its nominal watts is begun here; if it runs away, that is then said. */
const hottestStart_degC = 150;

/** What the nominal watts of the strip make of it. */
function nominalStart_degC(prepared: Prepared): number {
  const watts_per_m = nominal_W_per_m(prepared.products.strip);
  return Math.min(stripTemperatureOf(prepared, prepared.law)({ id: '', watts_per_m }), hottestStart_degC);
}

interface Warm extends Pick<Settled, 'solution' | 'description' | 'strip_degC'> {
  /** What rests on a temperature that was given. */
  readonly remarks: readonly string[];
}

/** Strip temperature and watts until they agree, unless it is given: warm lamps draw more, and more watts warm them. */
function warmCircuit(
  prepared: Prepared,
  wired: WiredJob,
  start_degC: readonly number[],
): Outcome<Warm, CircuitIssue> {
  const warm = solveWarm(circuitOfJob(wired, start_degC), stripTemperatureOf(prepared, prepared.law));
  if (!warm.ok) return warm;
  const { circuit: solution, description, strip_degC, watts_per_m } = warm.value;
  const remarks = givenTemperatureNotes(prepared, watts_per_m);
  return found({ solution, description, strip_degC, remarks }, warm.notes);
}

/** Air at each driver place from what its drivers and dimmers lose, each output at its share of the watts solved. */
export function airAt(
  prepared: Prepared,
  { allocation, wired }: Shared,
  solution: CircuitSolution,
  shares?: ReadonlyMap<string, number>,
): number[] {
  const { job, products } = prepared;
  const shareOf = (output: string): number => shares?.get(output) ?? 1;
  const delivered = new Map(solution.sources.map((source) => [source.id, source.out_W]));
  const dimmers = new Map(solvedDimmers(wired, solution).map((dimmer) => [dimmer.output, dimmer]));
  return job.drivers.places.map((place, i) => {
    const here = allocation.drivers.filter((driver) => driver.place === i);
    const behind = here.flatMap(({ outputs }) => outputs).flatMap(({ id }) => dimmers.get(id) ?? []);
    const dimmers_W = behind.reduce((sum, dimmer) => sum + dimmerLoss_W(dimmer, shareOf(dimmer.output)), 0);
    const drivers_W = here.reduce((sum, driver) => {
      const out_W = driver.outputs.reduce(
        (watts, { id }) => watts + shareOf(id) * delivered.get(id)! + (dimmers.get(id)?.own_W ?? 0),
        0,
      );
      return sum + out_W / modelOf(products, driver).efficiency - out_W;
    }, 0);
    return placeAir_degC(place, drivers_W + dimmers_W, job.site.room_degC);
  });
}

const sharing = (allocation: Allocation): string =>
  JSON.stringify(allocation.drivers.map((d) => [d.model, d.place, d.outputs.map((o) => o.runs)]));

/** Whether an allocation costs less than another, or as much with fewer drivers; without prices fewer drivers, or as many with fewer rated watts. */
function takesLess(a: Allocation, b: Allocation): boolean {
  const figures = ({ drivers, sharing: { price_cents } }: Allocation): readonly [number, number] =>
    price_cents === null
      ? [drivers.length, drivers.reduce((sum, driver) => sum + driver.rated_W, 0)]
      : [price_cents, drivers.length];
  const [ofA, ofB] = [figures(a), figures(b)];
  return ofA[0] === ofB[0] ? ofA[1] < ofB[1] : ofA[0] < ofB[0];
}

/**
 * Drivers, cables, volts and temperatures until they agree: allocate nominal loads, lay cables, solve, warm the
 * strip, find the air at the drivers, derate, and allocate again. Settled when the allocation repeats, or still
 * holds and a fresh one would not cost less (equal loads may swap places for ever), or when one that does
 * was tried and does not hold; after five rounds without any that holds a note says so. Refuses what any of its steps refuses.
 */
export function settle(prepared: Prepared): Outcome<Settled, SettleIssue> {
  const { job, products, setOut } = prepared;
  const first = prepared.nominally ? found(prepared.nominally) : shareNominally(prepared);
  if (!first.ok) return first;
  const nominal_degC = setOut.runs.map(() => nominalStart_degC(prepared));
  let settled = solveShared(prepared, first.value, nominally(prepared), nominal_degC);
  /** The last that kept every driver within its limits, while one with fewer drivers is tried. */
  let held: typeof settled | null = null;
  for (let round = 1; settled.ok; round++) {
    const { allocation, wired, solution, air_degC, strip_degC } = settled.value;
    const watts = solvedWatts(solution, wired, allocation);
    const loads = loadsOf(job, setOut.runs, watts);
    const { holds, isPlainlyLeast, limited } = stillWorth(allocation, { job, products, loads, air_degC });
    const inItsAir = found({ ...settled.value, allocation: limited });
    if (isPlainlyLeast) return inItsAir;
    const fresh = shareOut(prepared, watts, air_degC);
    if (!fresh.ok && held !== null) return held;
    if (!fresh.ok)
      return shareOut(prepared, watts, roomAir_degC(prepared)).ok
        ? refused(tooWarm(prepared, air_degC))
        : fresh;
    const saves = takesLess(fresh.value, allocation);
    const repeats = sharing(fresh.value) === sharing(allocation);
    if (repeats || (holds && !saves)) return inItsAir;
    if (!holds && held !== null) return held;
    held = holds ? inItsAir : held;
    if (round === mostRounds)
      return found({
        ...settled.value,
        notes: [...settled.value.notes, ...notesOn('drivers', [restless], { onCover: true })],
      });
    settled = solveShared(prepared, fresh.value, { watts, air_degC }, strip_degC);
  }
  return settled;
}

/** The place that is too warm for what its drivers would carry in the air of the room. */
function tooWarm({ job, products }: Prepared, air_degC: readonly number[]): DriversIssue {
  const hottest_degC = Math.max(...air_degC);
  const i = air_degC.indexOf(hottest_degC);
  const { name, vented } = job.drivers.places[i]!;
  const toughest = driverModels(products).reduce((a, b) =>
    b.fullLoadAmbient_degC > a.fullLoadAmbient_degC ? b : a,
  );
  const shown = hottest_degC > farTooWarm_degC ? `more than ${farTooWarm_degC}` : hottest_degC.toFixed(0);
  return {
    code: 'driver-place-too-warm',
    place: { field: `drivers.places[${i + 1}].${vented ? 'ventOpening_mm2' : 'vented'}` },
    quantities: { air_degC: hottest_degC, fullLoad_degC: toughest.fullLoadAmbient_degC },
    sentence: `With the drivers at work the air in ${name} would reach ${shown} °C, too warm for a ${toughest.name} to carry its load. ${vented ? 'Give it larger vents' : 'Vent it low and high'}, make it larger, share the drivers out over more places, or take strip with fewer watts per metre.`,
  };
}

/** Beyond this a number says no more. */
const farTooWarm_degC = 120;

function shareOut(described: Described, watts: readonly number[], air_degC: readonly number[]) {
  const { job, products, setOut, accuracy } = described;
  const effort = accuracy === 'careful' ? carefulSharing : quickSharing;
  return allocate(job, products, { loads: loadsOf(job, setOut.runs, watts), air_degC, effort });
}

/** Cables, volts and temperatures of one allocation. */
function solveShared(
  prepared: Prepared,
  allocation: Allocation,
  foreseen: Foreseen,
  start_degC: readonly number[],
): Outcome<Settled, SettleIssue> {
  const shared = wire(prepared, allocation, foreseen);
  if (!shared.ok) return shared;
  const warm = warmCircuit(prepared, shared.value.wired, start_degC);
  if (!warm.ok) return warm;
  const { remarks, ...circuit } = warm.value;
  const air_degC = airAt(prepared, shared.value, circuit.solution);
  const notes = [...notesOn('section', remarks, { onCover: true }), ...notesOn('drivers', warm.notes)];
  return found({ ...shared.value, ...circuit, air_degC, notes });
}
