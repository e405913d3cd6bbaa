import type { WrittenRow } from '../../src/answer/asked.ts';
import type { CircuitDescription, Conductor } from '../../src/circuit/description.ts';
import { solveCircuit } from '../../src/circuit/solve-circuit.ts';
import { testRows } from '../../src/hand-over/test-sheet.ts';
import { type Job, newJob, type Outcome } from '../../src/index.ts';
import type { Random } from '../../src/numeric/seeded-random.ts';
import { type MeasuredJob, measuredJob } from '../../src/readings/judge-readings.ts';
import { measuredValues, type Reading, readingsOf } from '../../src/readings/readings.ts';
import { circuitAnswer, outputOfRuns } from '../../src/sizing/circuit-answer.ts';
import type { Settled } from '../../src/sizing/settle.ts';

export function granted<Value>(outcome: Outcome<Value>): Value {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

/** Seven upright slots of 2.2 m with a joint in each, several to an output, each on a cable of its own. */
export function smallWall(change: (job: Job) => void = () => {}): Job {
  const job = structuredClone(newJob());
  job.panel = { width_mm: 1600, height_mm: 2400 };
  Object.assign(job.strip, { entry: '24V-14.4W', data: { unitsPerMetre: 5, reel_mm: 1500 } });
  job.drivers.entry = '24V-150W';
  change(job);
  return job;
}

/** What went otherwise on the site. Ratios are to the plan. */
export interface Site {
  readonly volts: ReadonlyMap<string, number>;
  readonly watts: number;
  readonly copper: number;
  readonly length: ReadonlyMap<string, number>;
  readonly bad: readonly Bad[];
  /** Run without current, and whether volts reach it. */
  readonly missing?: { readonly run: string; readonly isFed: boolean };
}

/** Extra ohms at a feed point's terminal, at a joint, or where a cable leaves its block or driver. */
export interface Bad {
  readonly at: 'feed point' | 'joint' | 'driver';
  readonly run: string;
  readonly ohm: number;
}

export const asPlanned: Site = { volts: new Map(), watts: 1, copper: 1, length: new Map(), bad: [] };

const ratio = (of: ReadonlyMap<string, number>, id: string): number => of.get(id) ?? 1;

/** The job's own circuit with the site's volts, watts, copper and faults; joints carry half of theirs in each rail. */
function circuitOnSite({ description, wired }: Settled, site: Site): CircuitDescription {
  const ohmAt = (at: Bad['at'], run: string) =>
    site.bad.filter((bad) => bad.at === at && bad.run === run).reduce((sum, { ohm }) => sum + ohm, 0);
  const runOf = (id: string) => {
    const { to } = wired.installation.branches.find((branch) => branch.id === id)!;
    return to.kind === 'pad' ? to.run : '';
  };
  return {
    ...description,
    sources: description.sources.map(({ id, set_V }) => ({ id, set_V: set_V * ratio(site.volts, id) })),
    runs: description.runs.map((run) => ({
      ...run,
      joints: run.joints.map((joint) => ({
        ...joint,
        contact_ohm: joint.contact_ohm + ohmAt('joint', run.id) / 2,
      })),
      channels: run.channels.map((channel) => ({
        ...channel,
        level: site.missing?.run === run.id ? 0 : channel.level,
        law: { ...channel.law, unit_W: channel.law.unit_W * site.watts },
      })),
    })),
    cables: description.cables.map((cable) => {
      const real = <C extends Conductor>(one: C, extra_ohm: number): C => ({
        ...one,
        ohm_per_m: one.ohm_per_m * site.copper * ratio(site.length, cable.id),
        contact_ohm: one.contact_ohm + extra_ohm,
      });
      const run = runOf(cable.id);
      return {
        ...cable,
        positive: real(cable.positive, ohmAt('feed point', run)),
        returns: cable.returns.map((one) => real(one, ohmAt('driver', run))),
      };
    }),
  };
}

/** Everything about a wall that its readings are made from. */
export interface Wall extends MeasuredJob {
  readonly job: Job;
  readonly readings: readonly Reading[];
  /** What meters without error would show, in the order of the readings. */
  readonly truth: (site: Site) => number[];
}

/** The cable of a run, which is its own from block to pad. */
export function cableOf(run: string, { settled: { wired } }: MeasuredJob) {
  const cables = wired.installation.branches.filter(({ to }) => to.kind === 'pad' && to.run === run);
  if (cables.length !== 1) throw new Error(`${cables.length} cables end at ${run}`);
  return cables[0]!;
}

function loopOnSite(reading: Reading, run: string, site: Site, wall: MeasuredJob): number {
  const { wired } = wall.settled;
  const cable = cableOf(run, wall);
  const copper_ohm = (2 * wired.products.cable.conductor_ohm_per_km * cable.length_mm) / 1e6;
  const more_ohm = copper_ohm * (site.copper * ratio(site.length, cable.id) - 1);
  const isEnd = reading.row.endsWith('finish');
  const bad = site.bad.filter((b) => b.run === run && (b.at === 'feed point' || (b.at === 'joint' && isEnd)));
  return bad.reduce((sum, { ohm }) => sum + ohm, reading.predicted + more_ohm);
}

/** A wall fed radially at the start of each run: readings come from the test sheet of the circuit as on the site. */
export function wallOf(job: Job): Wall {
  const measured = granted(measuredJob(job));
  const { sizing } = measured;
  const { wired } = measured.settled;
  const readings = readingsOf(measured.rows, new Map());
  const outputs = sizing.drivers.drivers.flatMap(({ id, outputs }) =>
    outputs.map((o) => ({ ...o, driver: id })),
  );
  const outputOf = outputOfRuns(outputs);
  const truth = (site: Site): number[] => {
    const solution = granted(solveCircuit(circuitOnSite(measured.settled, site)));
    const circuit = circuitAnswer({ ...measured.settled, solution }, sizing.setOut, outputOf, null);
    const current = new Map(solution.sources.map((s) => [s.id, s.current_A]));
    const drivers = {
      ...sizing.drivers,
      drivers: sizing.drivers.drivers.map((driver) => ({
        ...driver,
        outputs: driver.outputs.map((o) => ({ ...o, current_A: current.get(o.id)! })),
      })),
    };
    const shown = readingsOf(testRows({ ...sizing, job, circuit, drivers }), new Map());
    return shown.map((reading) => {
      const run = wired.runs.find(({ id }) => reading.row.startsWith(id))?.id;
      if (reading.quantity === 'loop') return loopOnSite(reading, run!, site, measured);
      const output = run ? outputOf.get(run)!.output : reading.row;
      if (run && site.missing?.run === run && !site.missing.isFed) return 0;
      const isSet = reading.quantity === 'noLoad' || (!run && reading.quantity === 'loaded');
      return isSet ? reading.predicted * ratio(site.volts, output) : reading.predicted;
    });
  };
  return { ...measured, job, readings, truth };
}

/** Normal deviates (Box and Muller). */
export function normal(random: Random): () => number {
  return () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** A site drawn at random: volts within the tolerance, watts 5 %, copper 0.85 to 1.1, lengths within 5 %. */
export function drawSite(wall: Wall, random: Random, bad: readonly Bad[]): Site {
  const { wired } = wall.settled;
  const within = (half: number): number => 1 + half * (2 * random() - 1);
  const each = (ids: readonly string[], half: number) => new Map(ids.map((id) => [id, within(half)]));
  return {
    volts: each(wired.outputs, wired.products.driver.tolerance),
    watts: 1 + 0.05 * normal(random)(),
    copper: 0.85 + 0.25 * random(),
    length: each(
      wired.installation.branches.map(({ id }) => id),
      0.05,
    ),
    bad,
  };
}

/** Readings of a site by meters with their spreads and gains; a gain acts on what there is to read. */
export function measure(wall: Wall, site: Site, random: Random): Reading[] {
  const deviate = normal(random);
  const shown = wall.truth(site).map((predicted, i) => ({ ...wall.readings[i]!, predicted }));
  const { spread, shifts } = measuredValues(shown, []);
  const gains = shifts.map(() => deviate());
  return shown.map(({ predicted }, i) => ({
    ...wall.readings[i]!,
    measured:
      predicted + spread[i]! * deviate() + shifts.reduce((sum, shift, k) => sum + gains[k]! * shift[i]!, 0),
  }));
}

const keys = { loop: 'loop_ohm', noLoad: 'noLoad_V', loaded: 'loaded_V', current: 'current_A' } as const;

/** Readings as they are typed into the test sheet. */
export function writtenRows(readings: readonly Reading[]): WrittenRow[] {
  const rows = new Map<string, WrittenRow>();
  for (const { row, quantity, measured } of readings)
    rows.set(row, { ...(rows.get(row) ?? { row }), [keys[quantity]]: measured });
  return [...rows.values()];
}
